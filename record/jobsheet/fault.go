package jobsheet

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Fault is one thing wrong in a file that a person wrote.
type Fault struct {
	File    string
	Pos     Pos
	Field   string // "" for a fault of the whole file
	Message string // what is wrong and what to type instead
}

// At gives the place, "file:line:col", or "file:line" where the column is not
// known.
func (f Fault) At() string {
	switch {
	case f.Pos.Line == 0:
		return f.File
	case f.Pos.Col == 0:
		return fmt.Sprintf("%s:%d", f.File, f.Pos.Line)
	default:
		return fmt.Sprintf("%s:%d:%d", f.File, f.Pos.Line, f.Pos.Col)
	}
}

func (f Fault) Error() string {
	if f.Field == "" {
		return f.At() + ": " + f.Message
	}
	return f.At() + ": " + f.Field + ": " + f.Message
}

// Faults are all faults of a file, in the order in which they stand.
type Faults []Fault

func (f Faults) Error() string {
	lines := make([]string, len(f))
	for i, fault := range f {
		lines[i] = fault.Error()
	}
	return strings.Join(lines, "\n")
}

// orNil returns the faults as an error, in order of place, or nil.
func (f Faults) orNil() error {
	if len(f) == 0 {
		return nil
	}
	f.sort()
	return f
}

// sort puts the faults in the order of their places.
func (f Faults) sort() {
	slices.SortStableFunc(f, func(a, b Fault) int {
		return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Pos.Line, b.Pos.Line), cmp.Compare(a.Pos.Col, b.Pos.Col))
	})
}

// At gives the place of a path, or of the nearest enclosing one.
func (s Source) At(path string) string { return s.Fault(path, "", "").At() }

// Fault is a fault found later in what was read from the file, at the place
// of a path. An option says itself which value it is about.
func (s Source) Fault(path, field, format string, args ...any) Fault {
	fault := Fault{File: s.File, Field: field, Message: fmt.Sprintf(format, args...)}
	if option, said := nearestPath(s.Said, path); said {
		fault.File, fault.Field = option, ""
		return fault
	}
	fault.Pos, _ = nearestPath(s.Lines, path)
	return fault
}

// nearestPath finds a path, or the nearest one that encloses it.
func nearestPath[T any](places map[string]T, path string) (place T, found bool) {
	for {
		if place, found = places[path]; found {
			return place, true
		}
		i := strings.LastIndexByte(path, '/')
		if i < 0 {
			return place, false
		}
		path = path[:i]
	}
}
