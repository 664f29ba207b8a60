package jobsheet

import (
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"unicode/utf8"

	"hourseal/record"
)

// The one-line forms are how a quantity and its circumstances are typed at a
// prompt or after a flag: "0.85 after 15 min at 45 C". Values and their limits
// are those of a job sheet. Letter case of the words and the width of gaps do not
// count, nor does the order of the circumstances where it leaves no doubt.
//
// A text that would be read as something else stands in double quotes, and a double
// quote in it is doubled, as in RFC 4180: "Slip, north side". A quote within a word
// (a 3/4" hose) is part of the text.
//
// Each form has an inverse that gives back the line: what a form reads from it is
// the same value. Of a value that says nothing the inverse is "", which no form takes.

// maxLine is the length of the longest line, in runes: that of a product with all its
// specifications, each as long as it may be and all in quotes, is about 3000.
const maxLine = 4000

// typed is one line that a person typed, or a piece of it, without gaps around it. Quoted says of
// each of its bytes whether it stands between quotes; the quotes themselves do.
type typed struct {
	text   string
	quoted []bool
}

// readLine checks a whole line. Want is what to write, for one with nothing in it.
func readLine(text, want string) (typed, error) {
	text = strings.TrimFunc(text, isGap)
	switch {
	case text == "":
		return typed{}, errors.New("nothing written: write " + want)
	case !utf8.ValidString(text):
		return typed{}, errors.New("not valid UTF-8: write it again")
	}
	if err := record.CheckText(text, maxLine); err != nil {
		return typed{}, err
	}
	quoted := make([]bool, len(text))
	for i := 0; i < len(text); i++ {
		if text[i] != '"' || i > 0 && !strings.ContainsRune(" ,:|[", rune(text[i-1])) {
			continue
		}
		end := closing(text, i)
		if end < 0 {
			return typed{}, fmt.Errorf("%s: a quote that is opened and never closed: close it, or take it out", show(text))
		}
		for ; i <= end; i++ {
			quoted[i] = true
		}
		i = end
	}
	return typed{text, quoted}, nil
}

// closing finds the quote that ends the one at an index; -1 where there is none.
func closing(text string, open int) int {
	for i := open + 1; i < len(text); i++ {
		switch {
		case text[i] != '"':
		case i+1 < len(text) && text[i+1] == '"':
			i++
		default:
			return i
		}
	}
	return -1
}

// isGap is a space between words; no-break spaces come with pasted text.
func isGap(r rune) bool { return r == ' ' || r == '\u00a0' || r == '\u202f' }

// gapBefore and gapAfter say whether a piece of text ends (begins) with a gap, a
// comma, or not at all.
func gapBefore(text string) bool {
	r, _ := utf8.DecodeLastRuneInString(text)
	return text == "" || isGap(r) || r == ','
}

func gapAfter(text string) bool {
	r, _ := utf8.DecodeRuneInString(text)
	return text == "" || isGap(r) || r == ','
}

func (l typed) empty() bool    { return l.text == "" }
func (l typed) inQuotes() bool { return l.text != "" && l.quoted[0] }

// sub is a piece of the line, without the gaps around it and the commas among them.
func (l typed) sub(from, to int) typed {
	piece := l.text[from:to]
	trim := func(r rune) bool { return isGap(r) || r == ',' }
	right := strings.TrimRightFunc(piece, trim)
	left := strings.TrimLeftFunc(right, trim)
	from += len(right) - len(left)
	return typed{left, l.quoted[from : from+len(left)]}
}

// marks are the places of a mark outside quotes.
func (l typed) marks(mark byte) []int {
	var at []int
	for i := range len(l.text) {
		if l.text[i] == mark && !l.quoted[i] {
			at = append(at, i)
		}
	}
	return at
}

// split cuts the line at places of one byte each.
func (l typed) split(at []int) []typed {
	var pieces []typed
	from := 0
	for _, i := range append(at, len(l.text)) {
		pieces = append(pieces, l.sub(from, i))
		from = i + 1
	}
	return pieces
}

// parts cuts the line at its commas. None of them may be empty.
func (l typed) parts() ([]typed, error) {
	parts := l.split(l.marks(','))
	for _, p := range parts {
		if p.empty() {
			return nil, fmt.Errorf("%s: nothing written on one side of a comma: take the comma out, or write what is missing", show(l.text))
		}
	}
	return parts, nil
}

// figureCommas are the commas that part figures: one between two digits is a decimal
// comma or parts thousands, which the parsers of figures refuse with a hint.
func (l typed) figureCommas() []int {
	return slices.DeleteFunc(l.marks(','), func(i int) bool {
		return i > 0 && i+1 < len(l.text) && isWhole(l.text[i-1:i]) && isWhole(l.text[i+1:i+2])
	})
}

// cutComma cuts the line at its first comma that is not within a figure.
func (l typed) cutComma() (before, after typed) {
	if at := l.figureCommas(); len(at) > 0 {
		return l.sub(0, at[0]), l.sub(at[0]+1, len(l.text))
	}
	return l, typed{}
}

// is says whether the line is one of some words, outside quotes.
func (l typed) is(words ...string) bool {
	written := strings.Join(strings.FieldsFunc(l.text, isGap), " ")
	return !l.inQuotes() && slices.ContainsFunc(words, func(w string) bool { return strings.EqualFold(written, w) })
}

// label cuts one of some words off the beginning of the line.
func (l typed) label(words ...string) (rest typed, ok bool) {
	for _, w := range words {
		if l.wordAt(w, 0) {
			return l.sub(len(w), len(l.text)), true
		}
	}
	return l, false
}

func (l typed) wordAt(word string, i int) bool {
	end := i + len(word)
	return end <= len(l.text) && !l.quoted[i] && strings.EqualFold(l.text[i:end], word) && gapBefore(l.text[:i]) && gapAfter(l.text[end:])
}

// place is where a word stands in a line.
type place struct {
	word     string
	from, to int
}

// places finds some words wherever they stand by themselves, outside quotes.
func (l typed) places(words ...string) []place {
	var found []place
	for i := range len(l.text) {
		for _, w := range words {
			if l.wordAt(w, i) {
				found = append(found, place{w, i, i + len(w)})
				break
			}
		}
	}
	return found
}

// cut parts the line at the first of some words.
func (l typed) cut(words ...string) (before, after typed, found bool) {
	if at := l.places(words...); len(at) > 0 {
		return l.sub(0, at[0].from), l.sub(at[0].to, len(l.text)), true
	}
	return l, typed{}, false
}

// circumstances parts the line at some words: what stands before the first, and what
// stands after each. None may stand there twice, or with nothing after it.
func (l typed) circumstances(words ...string) (head typed, said map[string]typed, err error) {
	at := l.places(words...)
	said = map[string]typed{}
	head = l
	for n, p := range at {
		if n == 0 {
			head = l.sub(0, p.from)
		}
		end := len(l.text)
		if n+1 < len(at) {
			end = at[n+1].from
		}
		if err := note(said, p.word, l.sub(p.to, end)); err != nil {
			return head, said, err
		}
	}
	return head, said, nil
}

// note keeps what stands after a word.
func note(said map[string]typed, word string, rest typed) error {
	if _, twice := said[word]; twice {
		return fmt.Errorf("%s is written twice: keep one, or put a text with the word in quotes", word)
	}
	if rest.empty() {
		return fmt.Errorf("nothing written after %s: write what belongs there, or take the word out", word)
	}
	said[word] = rest
	return nil
}

// sections parts a line that begins with one of some words at those of them that follow
// a comma. Other commas are part of the texts.
func (l typed) sections(words ...string) (map[string]typed, error) {
	said := map[string]typed{}
	word, from := "", 0
	for _, p := range l.places(words...) {
		if p.from > 0 && !strings.HasSuffix(strings.TrimRightFunc(l.text[:p.from], isGap), ",") {
			continue
		}
		if word != "" {
			if err := note(said, word, l.sub(from, p.from)); err != nil {
				return nil, err
			}
		}
		word, from = p.word, p.to
	}
	if word == "" {
		return said, nil
	}
	return said, note(said, word, l.sub(from, len(l.text)))
}

// value reads the line as a text, out of its quotes.
func (l typed) value(of string, parse parser[string]) (string, error) {
	text := l.text
	if l.inQuotes() {
		end := closing(text, 0)
		if end != len(text)-1 {
			return "", fmt.Errorf("%s: text after a closing quote: put all of it in one pair of quotes", show(text))
		}
		text = strings.ReplaceAll(text[1:end], `""`, `"`)
	}
	if text == "" {
		return "", fmt.Errorf("%s: nothing written: write it, or leave it out", of)
	}
	value, err := parse(text)
	if err != nil {
		return "", fmt.Errorf("%s: %w", of, err)
	}
	return value, nil
}

// inverse writes a value as a line: with its texts bare where they are read as what they
// are, and otherwise all in quotes.
func inverse[T any](value T, write func(word func(string) string) string, read parser[T]) string {
	bare := write(func(text string) string { return text })
	if back, err := read(bare); err == nil && reflect.DeepEqual(back, value) {
		return bare
	}
	return write(inQuotes)
}

func inQuotes(text string) string { return `"` + strings.ReplaceAll(text, `"`, `""`) + `"` }

// oneWord reads one of the words of an enumeration in any letter case, with a gap for
// a hyphen.
func oneWord[T ~uint8 | ~uint16](words []string) parser[T] {
	return func(s string) (T, error) {
		written := strings.ToLower(strings.Join(strings.FieldsFunc(s, isGap), " "))
		for i, w := range words {
			if written == w || written == strings.ReplaceAll(w, "-", " ") {
				return T(i + 1), nil
			}
		}
		return 0, fmt.Errorf("%s: %s", show(s), instead(s, words))
	}
}
