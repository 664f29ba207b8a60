package jobsheet

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode"

	"hourseal/record"
)

const byWanted = "the technician's number, and a card or name where there is one, as 118, name Pat Ellery, Ellery Slip card"

// LineBy reads who did the work: "118", "118, Ellery Slip card", "118, name Pat Ellery,
// Ellery Slip card". The first part is the number and the second the credential; any
// of them may have its word before it, number, name or credential, and stand where it
// likes then.
func LineBy(text string) (record.By, error) {
	l, err := readLine(text, byWanted)
	if err != nil {
		return record.By{}, err
	}
	parts, err := l.parts()
	if err != nil {
		return record.By{}, err
	}
	said := map[string]typed{}
	for i, p := range parts {
		word := ""
		for _, w := range []string{"number", "name", "credential"} {
			if rest, ok := p.label(w); ok {
				word, p = w, rest
				break
			}
		}
		_, numbered := said["number"]
		_, carded := said["credential"]
		switch {
		case word != "":
		case !numbered && !carded && i > 0 && strings.IndexFunc(p.text, unicode.IsDigit) < 0:
			return record.By{}, fmt.Errorf("%s: write number or credential before it", show(p.text))
		case !numbered:
			word = "number"
		case !carded:
			word = "credential"
		default:
			return record.By{}, fmt.Errorf("%s: number and credential are there already: write name before a name, and a text with a comma in quotes", show(p.text))
		}
		if err := note(said, word, p); err != nil {
			return record.By{}, err
		}
	}
	return byOf(said)
}

func byOf(said map[string]typed) (record.By, error) {
	var by record.By
	err := saidTexts(said, map[string]*string{"number": &by.Number, "name": &by.Name, "credential": &by.Credential})
	if err != nil {
		return record.By{}, err
	}
	return by, nil
}

// saidTexts reads texts that stand after words.
func saidTexts(said map[string]typed, into map[string]*string) error {
	for _, word := range slices.Sorted(maps.Keys(into)) {
		l, there := said[word]
		if !there {
			continue
		}
		read, err := l.value(word, text)
		if err != nil {
			return err
		}
		*into[word] = read
	}
	return nil
}

// ByLine is the inverse of LineBy.
func ByLine(by record.By) string {
	return inverse(by, func(word func(string) string) string {
		var parts []string
		if by.Number != "" {
			parts = append(parts, word(by.Number))
		}
		if by.Name != "" {
			parts = append(parts, "name "+word(by.Name))
		}
		switch {
		case by.Credential == "":
		case by.Number == "":
			parts = append(parts, "credential "+word(by.Credential))
		default:
			parts = append(parts, word(by.Credential))
		}
		return strings.Join(parts, ", ")
	}, LineBy)
}

const resultWanted = "done, ok, watch, defect or deferred"

// LineResult reads what was done about a task, and who did it where that was a
// subcontractor: "done", "ok", "done by Slipway Pumps".
func LineResult(text string) (result record.Result, doneBy string, err error) {
	l, err := readLine(text, resultWanted)
	if err != nil {
		return 0, "", err
	}
	return l.result()
}

func (l typed) result() (record.Result, string, error) {
	head, by, found := l.cut("by")
	result, err := oneWord[record.Result](record.ResultWords)(head.text)
	if err != nil || !found {
		return result, "", err
	}
	doneBy, err := by.value("by", text)
	if err != nil {
		return 0, "", err
	}
	return result, doneBy, nil
}

// resultBy is what LineResult reads.
type resultBy struct {
	result record.Result
	by     string
}

// ResultLine is the inverse of LineResult.
func ResultLine(result record.Result, doneBy string) string {
	switch {
	case result == 0:
		return ""
	case doneBy == "":
		return result.String()
	}
	return inverse(resultBy{result, doneBy}, func(word func(string) string) string {
		return result.String() + " by " + word(doneBy)
	}, func(line string) (resultBy, error) {
		result, by, err := LineResult(line)
		return resultBy{result, by}, err
	})
}
