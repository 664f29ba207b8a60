package source

import (
	"bytes"
	"strings"
	"unicode"
	"unicode/utf16"
)

// shownLine is one string that a page shows: the operand of one Tj, or all the
// strings of one TJ.
type shownLine []byte

// shownLines reads the strings that a page's content shows, in the order of
// drawing. The content may be anybody's, so strings are read as ISO 32000-1
// section 7.3.4 has them and not only as the writer makes them.
func shownLines(content []byte) []shownLine {
	var lines []shownLine
	var pending []byte
	for i := 0; i < len(content); {
		switch c := content[i]; {
		case c == '(':
			text, end := literalString(content, i)
			pending, i = append(pending, text...), end
		case c == '<' && i+1 < len(content) && content[i+1] != '<':
			text, end := hexString(content, i)
			pending, i = append(pending, text...), end
		case c == '/':
			for i++; i < len(content) && isNameByte(content[i]); i++ {
			}
		case c == '%':
			if n := bytes.IndexAny(content[i:], "\r\n"); n >= 0 {
				i += n
			} else {
				i = len(content)
			}
		case c == '\'' || c == '"' || c|0x20 >= 'a' && c|0x20 <= 'z':
			start := i
			for i < len(content) && isNameByte(content[i]) {
				i++
			}
			switch string(content[start:i]) {
			case "Tj", "TJ", "'", "\"":
				lines = append(lines, pending)
			}
			pending = nil
		default:
			i++
		}
	}
	return lines
}

// literalString reads the string whose parenthesis opens at i (ISO 32000-1 section
// 7.3.4.2), and returns where it ends.
func literalString(b []byte, i int) (text []byte, end int) {
	const escapes, meanings = "nrtbf", "\n\r\t\b\f"
	depth := 1
	for i++; i < len(b); i++ {
		switch c := b[i]; c {
		case '(':
			depth++
			text = append(text, c)
		case ')':
			if depth--; depth == 0 {
				return text, i + 1
			}
			text = append(text, c)
		case '\\':
			if i++; i == len(b) {
				return text, i
			}
			switch c := b[i]; {
			case strings.IndexByte(escapes, c) >= 0:
				text = append(text, meanings[strings.IndexByte(escapes, c)])
			case isOctal(c):
				n := 0
				for k := 0; k < 3 && i < len(b) && isOctal(b[i]); k++ {
					n = n*8 + int(b[i]-'0')
					i++
				}
				i--
				text = append(text, byte(n))
			case c == '\r' && i+1 < len(b) && b[i+1] == '\n':
				i++
			case c == '\r', c == '\n': // the line goes on
			default:
				text = append(text, c)
			}
		default:
			text = append(text, c)
		}
	}
	return text, i
}

func isOctal(c byte) bool { return c >= '0' && c <= '7' }

// hexString reads the string whose bracket opens at i (section 7.3.4.3), and returns
// where it ends.
func hexString(b []byte, i int) (text []byte, end int) {
	high, half := 0, false
	for i++; i < len(b) && b[i] != '>'; i++ {
		digit := strings.IndexByte("0123456789abcdef", b[i]|0x20)
		if digit < 0 {
			continue
		}
		if half {
			text = append(text, byte(high<<4|digit))
		}
		high, half = digit, !half
	}
	if half {
		text = append(text, byte(high<<4))
	}
	return text, min(i+1, len(b))
}

// maxShownRunes keeps a line short enough to be printed in a message.
const maxShownRunes = 200

// String decodes the line's two-byte codes, which with the fonts of a report
// are UTF-16BE. The text may come from a hostile file: characters that control
// or reorder a terminal's output are replaced, as are those above U+FFFF, which
// no report has, and a long line is cut.
func (l shownLine) String() string {
	var out strings.Builder
	runes := 0
	for _, r := range l.decode() {
		if runes == maxShownRunes {
			out.WriteString(" …")
			break
		}
		runes++
		if !unicode.IsPrint(r) || r > 0xFFFF {
			r = unicode.ReplacementChar
		}
		out.WriteRune(r)
	}
	return out.String()
}

func (l shownLine) decode() []rune {
	if len(l)%2 != 0 { // no font of a report: one byte a character
		runes := make([]rune, len(l))
		for i, c := range l {
			runes[i] = rune(c)
		}
		return runes
	}
	units := make([]uint16, len(l)/2)
	for i := range units {
		units[i] = uint16(l[2*i])<<8 | uint16(l[2*i+1])
	}
	return utf16.Decode(units)
}
