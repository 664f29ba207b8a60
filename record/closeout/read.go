package closeout

import (
	"fmt"
	"slices"
	"strings"

	"hourseal/record"
	"hourseal/record/quantity"
)

// choice is one of a few answers: a letter stands for its word.
type choice struct{ letter, word, means string }

// choices reads a letter or a word.
type choices []choice

func (c choices) read(typed string) (string, error) {
	for _, choice := range c {
		if strings.EqualFold(typed, choice.letter) || strings.EqualFold(typed, choice.word) {
			return choice.word, nil
		}
	}
	return "", fmt.Errorf("%s: type %s", quoted(typed), c.list(" or "))
}

// list names the letters with their words, as "d done, w watch".
func (c choices) list(last string) string {
	names := make([]string, len(c))
	for i, choice := range c {
		names[i] = choice.letter + " " + choice.word
	}
	n := len(names) - 1
	return strings.Join(names[:n], ", ") + last + names[n]
}

func (c choices) help() []string {
	var lines []string
	for _, choice := range c {
		lines = append(lines, choice.letter+"  "+choice.word+": "+choice.means)
	}
	return lines
}

var yesNo = choices{{"y", "yes", ""}, {"n", "no", ""}}

func quoted(text string) string {
	const longest = 40
	if runes := []rune(text); len(runes) > longest {
		text = string(runes[:longest]) + "…"
	}
	return fmt.Sprintf("%q", text)
}

// reading makes a Read that keeps what was typed when it can be read.
func reading[T any](parse func(string) (T, error)) func(string) (string, error) {
	return func(typed string) (string, error) {
		_, err := parse(typed)
		return typed, err
	}
}

// parsed is a kept answer as a value; nil for none, and for a dash.
func parsed[T any](parse func(string) (T, error), text string) *T {
	if text == "" || text == "-" {
		return nil
	}
	value, err := parse(text)
	if err != nil {
		return nil
	}
	return &value
}

// value is a kept answer as a value; zero for none.
func value[T any](parse func(string) (T, error), text string) T {
	if v := parsed(parse, text); v != nil {
		return *v
	}
	var none T
	return none
}

// shortText reads a text of a record's usual length, reasonText that of a reason.
func (s *session) shortText(typed string) (string, error)  { return s.text(typed, record.MaxText) }
func (s *session) reasonText(typed string) (string, error) { return s.text(typed, record.MaxReason) }

func (s *session) text(typed string, longest int) (string, error) {
	if err := record.CheckText(typed, longest); err != nil {
		return "", err
	}
	if err := s.Printable(typed); err != nil {
		return "", fmt.Errorf("%w: leave it out", err)
	}
	return typed, nil
}

// dashless is a kept text without the dash that stands for none.
func dashless(text string) string {
	if text == "-" {
		return ""
	}
	return text
}

// readDate reads a date, and the words for the day before.
func (s *session) readDate(typed string) (string, error) {
	switch strings.ToLower(typed) {
	case "today":
		return s.Today.String(), nil
	case "yesterday":
		return (s.Today - 1).String(), nil
	}
	date, err := quantity.ParseDate(typed)
	return date.String(), err
}

// readReason reads one of the reasons for a job; the first letters will do.
func readReason(typed string) (string, error) {
	var fit []string
	for _, word := range record.ReasonWords {
		if strings.EqualFold(word, typed) {
			return word, nil
		}
		if strings.HasPrefix(word, strings.ToLower(typed)) {
			fit = append(fit, word)
		}
	}
	if len(fit) == 1 {
		return fit[0], nil
	}
	return "", fmt.Errorf("%s: type one of %s", quoted(typed), strings.Join(record.ReasonWords, ", "))
}

func reasonOf(word string) record.Reason {
	return record.Reason(slices.Index(record.ReasonWords, word) + 1)
}
