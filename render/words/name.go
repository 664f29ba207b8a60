package words

import (
	"strings"
	"time"
	"unicode"
	"unicode/utf8"
)

// LowerName is an id of a file (of a system, a reading, a part) as words: "engine oil".
func LowerName(id string) string { return strings.NewReplacer("-", " ", "_", " ").Replace(id) }

// Name is that with a capital, to stand by itself.
func Name(id string) string {
	return capital(LowerName(id))
}

// capital is a text with its first letter upper case.
func capital(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	if size == 0 {
		return ""
	}
	return string(unicode.ToUpper(first)) + text[size:]
}

// Issued is a time of issue, in seconds since 1970, to the second:
// "2026-05-04 15:20:00 UTC".
func Issued(at int64) string {
	return time.Unix(at, 0).UTC().Format("2006-01-02 15:04:05") + " UTC"
}
