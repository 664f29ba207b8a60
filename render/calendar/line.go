package calendar

import (
	"strings"
	"unicode/utf8"
)

// maxOctets is the longest line, without its CR LF (RFC 5545, 3.1).
const maxOctets = 75

// file is a calendar file while it is written.
type file struct{ bytes []byte }

// escaper writes what means something of its own in a text (RFC 5545, 3.3.11).
var escaper = strings.NewReplacer(`\`, `\\`, ";", `\;`, ",", `\,`, "\n", `\n`)

// text writes a property whose value is text.
func (f *file) text(name, value string) { f.line(name, escaper.Replace(value)) }

// line writes one property, folded. Its value holds no control characters, and
// is valid UTF-8.
func (f *file) line(name, value string) {
	rest := name + ":" + value
	for room := maxOctets; len(rest) > room; room = maxOctets - 1 { // a space stands before all but the first
		cut := room
		for !utf8.RuneStart(rest[cut]) {
			cut--
		}
		f.bytes = append(append(f.bytes, rest[:cut]...), "\r\n "...)
		rest = rest[cut:]
	}
	f.bytes = append(append(f.bytes, rest...), "\r\n"...)
}
