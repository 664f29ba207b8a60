package jobsheet

import (
	"bytes"
	"fmt"
	"unicode"
	"unicode/utf8"
)

// MaxFileBytes is the size of the largest file that is read.
const MaxFileBytes = 64 << 10

var byteOrderMark = []byte("\xef\xbb\xbf")

// scanned is a file's text after the first look at its bytes.
type scanned struct {
	text   []byte // without byte-order mark; tabs are spaces, but in JSON
	usable bool   // whether reading on makes sense
}

// scan looks at the bytes before YAML does, which takes a tab after a colon
// and counts lines at characters that no editor ends a line at. Each line
// shows its first fault only.
func (s *sheet) scan(data []byte) scanned {
	if len(data) > MaxFileBytes {
		s.fault(Pos{}, "", "more than %d KiB: no sheet is that long, look whether it is the right file", MaxFileBytes>>10)
		return scanned{}
	}
	text := bytes.Clone(bytes.TrimPrefix(data, byteOrderMark))
	s.json = isJSON(text)
	usable := true
	for i, line := range bytes.Split(text, []byte("\n")) {
		line = bytes.TrimSuffix(line, []byte("\r"))
		col, message, fatal := lineFault(line, s.json)
		if message != "" {
			s.fault(Pos{Line: i + 1, Col: col}, "", "%s", message)
		}
		usable = usable && !fatal
		if s.json {
			continue
		}
		for j, b := range line { // in place: line shares its bytes with text
			if b == '\t' {
				line[j] = ' '
			}
		}
	}
	return scanned{text: text, usable: usable}
}

// lineFault finds the first byte of a line that may not be there. Fatal ones
// leave open what the line was meant to say; a tab after the indentation does
// not. JSON may have tabs, though none within a text.
func lineFault(line []byte, tabs bool) (col int, message string, fatal bool) {
	indent := true
	for i := 0; i < len(line); {
		r, size := utf8.DecodeRune(line[i:])
		i += size
		col++
		switch {
		case r == utf8.RuneError && size == 1:
			return col, "not UTF-8 text: save the file as UTF-8", true
		case r == '\t' && tabs:
		case r == '\t' && indent:
			return col, "a tab before the key: write spaces", true
		case r == '\t':
			return col, "a tab: write a space", false
		case unicode.IsControl(r), r == '\u2028', r == '\u2029', r == '\ufeff', r == '\ufffe', r == '\uffff':
			return col, fmt.Sprintf("invisible character U+%04X: take it out, or save the file as plain UTF-8 text", r), true
		case r != ' ':
			indent = false
		}
	}
	return 0, "", false
}
