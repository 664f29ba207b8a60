package jobsheet

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// remarkColumn is where the remarks of a blank sheet stand, as far as the lines
// let them.
const remarkColumn = 36

// blankText is the text of a sheet, line by line.
type blankText struct{ strings.Builder }

// say writes a line as it stands, with a remark behind it.
func (w *blankText) say(line, remark string) {
	if remark = oneLine(remark); remark != "" {
		gap := max(remarkColumn-utf8.RuneCountInString(line), 2)
		line += strings.Repeat(" ", gap) + "# " + remark
	}
	w.WriteString(strings.TrimRight(line, " ") + "\n")
}

// set writes a key, which is set in as it is to stand, with its value; without
// one it is a blank, or the head of the lines below.
func (w *blankText) set(key, value, remark string) {
	line := key + ":"
	if value != "" {
		line += " " + value
	}
	w.say(line, remark)
}

// list gives a function that begins an entry of a list by its first key; the
// list's own key comes before the first entry.
func (w *blankText) list(name, remark string) (entry func(key, value, remark string)) {
	begun := false
	return func(key, value, ofEntry string) {
		if !begun {
			begun = true
			w.set(name, "", remark)
		}
		w.set("  - "+key, value, ofEntry)
	}
}

// oneLine makes a text fit for a comment: what does not print is a space.
func oneLine(text string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		if !unicode.IsPrint(r) {
			return ' '
		}
		return r
	}, text))
}

// quote writes a text so that it is read back as it is: between double quotes
// unless it is words that nothing could take for anything else. An empty text is
// a pair of quotes.
func quote(text string) string {
	if isPlainWords(text) {
		return text
	}
	var quoted strings.Builder
	for _, r := range text {
		switch {
		case r == '"' || r == '\\':
			quoted.WriteRune('\\')
			quoted.WriteRune(r)
		case unicode.IsPrint(r):
			quoted.WriteRune(r)
		case r > 0xffff:
			fmt.Fprintf(&quoted, `\U%08x`, r)
		default:
			fmt.Fprintf(&quoted, `\u%04x`, r)
		}
	}
	return `"` + quoted.String() + `"`
}

// quoteKnown is quote for a text that may not be known.
func quoteKnown(text string) string {
	if text == "" {
		return ""
	}
	return quote(text)
}

// quoteList writes a list of texts; nothing without any.
func quoteList(texts []string) string {
	if len(texts) == 0 {
		return ""
	}
	quoted := make([]string, len(texts))
	for i, text := range texts {
		quoted[i] = quote(text)
	}
	return "[" + strings.Join(quoted, ", ") + "]"
}

// yamlWords are what some YAML reader takes for something else than a text.
var yamlWords = []string{"null", "true", "false", "yes", "no", "on", "off", "y", "n"}

// isPlainWords says whether a text can do without quotes: a letter first, then
// letters, digits, spaces and - _ . /, no space last.
func isPlainWords(text string) bool {
	for i, r := range text {
		letter := r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z'
		if !letter && (i == 0 || !strings.ContainsRune("0123456789-_./ ", r)) {
			return false
		}
	}
	return text != "" && !strings.HasSuffix(text, " ") && !slices.Contains(yamlWords, strings.ToLower(text))
}
