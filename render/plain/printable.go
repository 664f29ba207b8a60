package plain

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Printable shows what does not print, such as the characters that turn the order of
// letters around, as its code point. Newlines stay. Whatever comes from outside goes
// through it before it is shown.
func Printable(text string) string {
	safe := func(r rune) bool { return r == '\n' || unicode.IsPrint(r) && r != utf8.RuneError }
	if strings.IndexFunc(text, func(r rune) bool { return !safe(r) }) < 0 {
		return text
	}
	var b strings.Builder
	for _, r := range text {
		if safe(r) {
			b.WriteRune(r)
		} else {
			fmt.Fprintf(&b, "<U+%04X>", r)
		}
	}
	return b.String()
}
