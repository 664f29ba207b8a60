package jobsheet

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"hourseal/record"
)

// maxFaults is how many faults of one file are told at once.
const maxFaults = 100

// sheet is a file being read: its faults so far, and where its values stood.
type sheet struct {
	file   string
	json   bool // it is written as JSON
	faults Faults
	lines  map[string]Pos

	examples map[string]string // as JSON, by what the forms have
}

func newSheet(file string) *sheet {
	return &sheet{file: file, lines: map[string]Pos{}, examples: map[string]string{}}
}

func (s *sheet) fault(pos Pos, field, format string, args ...any) {
	s.faults = append(s.faults, Fault{File: s.file, Pos: pos, Field: field, Message: fmt.Sprintf(format, args...)})
}

func (s *sheet) source() Source { return Source{File: s.file, Lines: s.lines} }

// done gives the value of a file without a fault, or all its faults and no
// value, so that nothing half read is ever worked with.
func done[T any](s *sheet, value T) (T, error) {
	err := s.faults.orNil()
	if err == nil {
		return value, nil
	}
	if n := len(s.faults); n > maxFaults {
		s.faults = append(s.faults[:maxFaults:maxFaults], Fault{File: s.file, Message: fmt.Sprintf("and %d more: mend these first", n-maxFaults)})
	}
	var none T
	return none, s.faults
}

// show quotes text from a file for a message: control and format characters
// escaped, and cut short where it is long.
func show(text string) string {
	const longest = 40
	if utf8.RuneCountInString(text) > longest {
		text = string([]rune(text)[:longest]) + "…"
	}
	return strconv.Quote(text)
}

// nameOf gives a key from a file as the field of a fault.
func nameOf(key string) string {
	if key == "" || record.CheckText(key, record.MaxText) != nil {
		return show(key)
	}
	return key
}

func splitRunes(text []byte) [][]rune {
	var lines [][]rune
	for line := range strings.Lines(string(text)) {
		lines = append(lines, []rune(line))
	}
	return lines
}
