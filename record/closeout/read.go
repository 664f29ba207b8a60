package closeout

import (
	"fmt"
	"slices"
	"strings"

	"hourseal/record"
	"hourseal/record/dialogue"
	"hourseal/record/quantity"
)

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
	return "", fmt.Errorf("%s: type one of %s", dialogue.Quoted(typed), strings.Join(record.ReasonWords, ", "))
}

func reasonOf(word string) record.Reason {
	return record.Reason(slices.Index(record.ReasonWords, word) + 1)
}
