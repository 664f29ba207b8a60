package words

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"hourseal/record"
	"hourseal/record/quantity"
)

// saying is one entry of templates/words/findings.yaml.
type saying struct {
	Says Phrase `yaml:"says"`
	Hint string `yaml:"hint"`
}

// codePlace is the one place that a hint has.
const codePlace = "{code}"

var findings = once[map[string]saying]("findings.yaml")

// Finding returns the plain sentence of a finding, without its reason. A code
// that this program does not know gives a sentence that says so.
func Finding(f record.Finding) string {
	entry, known := findings()[f.Code.String()]
	if !known {
		return fmt.Sprintf("A finding that this program has no words for: rule %d.", uint16(f.Code))
	}
	subject := strings.ReplaceAll(f.Subject, "-", " ")
	return sentenceCase(entry.Says, entry.Says.fill(map[string]string{
		"task":    subject,
		"system":  subject,
		"machine": f.Subject,
		"value":   figure(f.Value, f.Unit),
		"limit":   figure(f.Limit, f.Unit),
		"text":    f.Text,
	}))
}

// Hint says what to do or to type next about a finding; "" where a finding asks
// for nothing.
func Hint(code record.Code) string {
	return strings.ReplaceAll(findings()[code.String()].Hint, codePlace, code.String())
}

// sentenceCase gives a sentence that begins with a task or system a capital.
func sentenceCase(p Phrase, text string) string {
	if !strings.HasPrefix(string(p), "{task}") && !strings.HasPrefix(string(p), "{system}") {
		return text
	}
	first, size := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(first)) + text[size:]
}

// figure prints a finding's figure with its unit; "" where there is none.
func figure(n *int64, unit record.Unit) string {
	if n == nil {
		return ""
	}
	switch unit {
	case record.InHours:
		return quantity.Hours(*n).String() + " h"
	case record.InDays:
		if *n == 1 {
			return "1 day"
		}
		return strconv.FormatInt(*n, 10) + " days"
	case record.AsDate:
		return quantity.Date(*n).String()
	case record.InShare:
		return quantity.Ratio(*n).String()
	case record.InMinutes:
		return quantity.Minutes(*n).String()
	case record.InVolume:
		return quantity.Volume(*n).String()
	case record.InDegrees:
		return quantity.Temperature(*n).String()
	default:
		return strconv.FormatInt(*n, 10)
	}
}
