package jobsheet

import (
	"errors"
	"fmt"
	"strings"

	"hourseal/record"
)

// LineText reads a text by itself, at most record.MaxText runes. Commas and quotes
// in it are part of it.
func LineText(line string) (string, error) { return plainText(line, text) }

// LineWhy reads a reason by itself, at most record.MaxReason runes.
func LineWhy(line string) (string, error) { return plainText(line, reason) }

func plainText(line string, parse parser[string]) (string, error) {
	line = strings.TrimFunc(line, isGap)
	if line == "" {
		return "", errors.New("nothing written: write it, or leave it out")
	}
	value, err := parse(line)
	if err != nil {
		return "", err
	}
	return value, nil
}

// LineReason reads why a job was done: "scheduled", "lay-up", "lay up".
func LineReason(line string) (record.Reason, error) {
	return oneWord[record.Reason](record.ReasonWords)(strings.TrimFunc(line, isGap))
}

// LineYesNo reads yes or no, or true or false.
func LineYesNo(line string) (bool, error) {
	return yesNo(strings.ToLower(strings.TrimFunc(line, isGap)))
}

// LineAccept reads the reason given for a finding, which is its code, or code/subject
// where several findings have the code.
func LineAccept(finding, line string) (Accept, error) {
	a, err := findingNamed(finding)
	if err == nil {
		a.Reason, err = LineWhy(line)
	}
	if err != nil {
		return Accept{}, err
	}
	return a, nil
}

// findingNamed parts code/subject.
func findingNamed(finding string) (Accept, error) {
	if err := record.CheckText(finding, record.MaxText); err != nil {
		return Accept{}, err
	}
	code, subject, split := strings.Cut(finding, "/")
	if code == "" || split && subject == "" {
		return Accept{}, fmt.Errorf("%s: write the finding's code, or code/subject, as level-high/engine-oil", show(finding))
	}
	return Accept{Code: code, Subject: subject}, nil
}

// LineNotes reads notes, which may have several lines. White space around them is no
// part of them.
func LineNotes(text string) (string, error) {
	text = strings.TrimSpace(strings.ReplaceAll(text, "\r\n", "\n"))
	if text == "" {
		return "", errors.New("nothing written: write it, or leave it out")
	}
	if err := record.CheckNotes(text); err != nil {
		return "", err
	}
	return text, nil
}

// LineKey parts a value from what it is of, at the first equals sign: "engine-oil=2.4
// US gal at 68 C". A key that holds such a sign, or begins with a quote, stands
// in double quotes. What the two are is for others to say.
func LineKey(line string) (key, value string, err error) {
	line = strings.TrimFunc(line, isGap)
	key, value, found := strings.Cut(line, "=")
	if strings.HasPrefix(line, `"`) {
		end := closing(line, 0)
		if end < 0 {
			return "", "", fmt.Errorf("%s: a quote that is opened and never closed: close it, or take it out", show(line))
		}
		key = strings.ReplaceAll(line[1:end], `""`, `"`)
		value, found = strings.CutPrefix(strings.TrimLeftFunc(line[end+1:], isGap), "=")
	}
	key, value = strings.TrimFunc(key, isGap), strings.TrimFunc(value, isGap)
	if !found || key == "" {
		return "", "", fmt.Errorf("%s: write what it is of and an equals sign before the value", show(line))
	}
	if err := record.CheckText(key, 2*record.MaxText); err != nil {
		return "", "", fmt.Errorf("%s: %w", show(key), err)
	}
	return key, value, nil
}

// KeyLine is the inverse of LineKey.
func KeyLine(key, value string) string {
	if strings.HasPrefix(key, `"`) || strings.Contains(key, "=") {
		key = inQuotes(key)
	}
	return key + "=" + value
}
