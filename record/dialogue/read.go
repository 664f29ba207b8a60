package dialogue

import (
	"fmt"
	"strings"
)

// Choice is one of a few answers: a letter stands for its word.
type Choice struct{ Letter, Word, Means string }

// Choices are the answers of which one is wanted.
type Choices []Choice

// YesNo is yes or no.
var YesNo = Choices{{"y", "yes", ""}, {"n", "no", ""}}

// Read reads a letter or a word, in any letter case, as the word.
func (c Choices) Read(typed string) (string, error) {
	for _, choice := range c {
		if strings.EqualFold(typed, choice.Letter) || strings.EqualFold(typed, choice.Word) {
			return choice.Word, nil
		}
	}
	return "", fmt.Errorf("%s: type %s", Quoted(typed), c.List(" or "))
}

// List names the letters with their words, as "d done, w watch"; last stands before
// the last of them.
func (c Choices) List(last string) string {
	names := make([]string, len(c))
	for i, choice := range c {
		names[i] = choice.Letter + " " + choice.Word
	}
	n := len(names) - 1
	if n < 1 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:n], ", ") + last + names[n]
}

// Help says what each stands for.
func (c Choices) Help() []string {
	var lines []string
	for _, choice := range c {
		lines = append(lines, choice.Letter+"  "+choice.Word+": "+choice.Means)
	}
	return lines
}

// Quoted is what was typed as it stands in a message; of a long text its beginning.
func Quoted(text string) string {
	const longest = 40
	if runes := []rune(text); len(runes) > longest {
		text = string(runes[:longest]) + "…"
	}
	return fmt.Sprintf("%q", text)
}

// Reading makes a Read that keeps what was typed when it can be read.
func Reading[T any](parse func(string) (T, error)) func(string) (string, error) {
	return func(typed string) (string, error) {
		_, err := parse(typed)
		return typed, err
	}
}

// Parsed is a kept answer as a value; nil for none, and for a dash.
func Parsed[T any](parse func(string) (T, error), text string) *T {
	if text == "" || text == Dash {
		return nil
	}
	value, err := parse(text)
	if err != nil {
		return nil
	}
	return &value
}

// Value is a kept answer as a value; zero for none.
func Value[T any](parse func(string) (T, error), text string) T {
	if v := Parsed(parse, text); v != nil {
		return *v
	}
	var none T
	return none
}

// Dashless is a kept text without the dash that stands for none.
func Dashless(text string) string {
	if text == Dash {
		return ""
	}
	return text
}
