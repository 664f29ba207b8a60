package history

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"hourseal/record"
	"hourseal/sign"
)

// shortID is a record's id as people see it: 16 hex digits in groups of four.
func shortID(id record.ID) string {
	return sign.ID(id).String()
}

// spoken is an id as it is said.
func spoken(id string) string { return strings.ReplaceAll(id, "-", " ") }

func capital(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	if size == 0 {
		return text
	}
	return string(unicode.ToUpper(first)) + text[size:]
}

// degrees prints a temperature with its sign: "2.4 US gal at 68 °C".
func degrees(text string) string { return strings.ReplaceAll(text, " C", " °C") }

// mostNamed is how many of a list are named before the rest is counted.
const mostNamed = 4

// someOf lists names: "a, b and c"; of many, the first and how many more.
func someOf(names []string) string {
	if len(names) > mostNamed {
		names = append(names[:mostNamed-1:mostNamed-1], fmt.Sprintf("%d more", len(names)-mostNamed+1))
	}
	last := len(names) - 1
	if last < 1 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:last], ", ") + " and " + names[last]
}

// countOf is "1 record", "7 records".
func countOf(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
