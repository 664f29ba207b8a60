package closeout

import (
	"fmt"
	"slices"
	"strings"

	"hourseal/record"
	"hourseal/record/dialogue"
	"hourseal/record/jobsheet"
)

// shortText reads a text of a record's usual length, reasonText that of a reason.
func (s *session) shortText(typed string) (string, error)  { return s.text(typed, record.MaxText) }
func (s *session) reasonText(typed string) (string, error) { return s.text(typed, record.MaxReason) }

func (s *session) text(typed string, longest int) (string, error) {
	if slices.Contains(noText, strings.ToLower(typed)) {
		return "", fmt.Errorf("%s says nothing here: write it out, or - for none", dialogue.Quoted(typed))
	}
	if err := record.CheckText(typed, longest); err != nil {
		return "", err
	}
	if err := s.Printable(typed); err != nil {
		return "", fmt.Errorf("%w: leave it out", err)
	}
	return typed, nil
}

// noText are answers to another kind of question.
var noText = []string{"y", "n", "yes", "no"}

// named reads a text that is no figure: one is meant for another question.
func (s *session) named(typed string) (string, error) {
	_, isAmount := jobsheet.LineAmount(typed)
	_, isLevel := jobsheet.LineLevel(typed)
	_, isDate := jobsheet.LineDate(typed)
	if isAmount == nil || isLevel == nil || isDate == nil {
		return "", fmt.Errorf("%s is a figure: words are wanted here", dialogue.Quoted(typed))
	}
	return s.shortText(typed)
}

// readDate reads a date, and the words for the day before.
func (s *session) readDate(typed string) (string, error) {
	switch strings.ToLower(typed) {
	case "today":
		return s.Today.String(), nil
	case "yesterday":
		return (s.Today - 1).String(), nil
	}
	date, err := jobsheet.LineDate(typed)
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
	return "", fmt.Errorf("%s: type one of %s", dialogue.Quoted(typed), strings.Join(record.ReasonWords, ", "))
}

func reasonOf(word string) record.Reason {
	return record.Reason(slices.Index(record.ReasonWords, word) + 1)
}
