package sign

import (
	"fmt"
	"slices"
	"strings"
)

// Fault is one thing wrong in a trust file.
type Fault struct {
	Path    string
	Line    int // from 1 on
	Column  int // from 1 on, in runes
	Message string
}

func (f Fault) Error() string {
	return fmt.Sprintf("%s:%d:%d: %s", f.Path, f.Line, f.Column, f.Message)
}

// Faults are all the things wrong in a trust file, in the order of the file.
// As an error it has one line for each.
type Faults []Fault

func (f Faults) Error() string {
	lines := make([]string, len(f))
	for i := range f {
		lines[i] = f[i].Error()
	}
	return strings.Join(lines, "\n")
}

func (f Faults) sort() {
	slices.SortStableFunc(f, func(a, b Fault) int {
		if a.Line != b.Line {
			return a.Line - b.Line
		}
		return a.Column - b.Column
	})
}
