package words

import (
	"fmt"
	"strconv"
	"strings"

	"hourseal/record"
	"hourseal/record/quantity"
)

// saying is one entry of templates/words/findings.yaml.
type saying struct {
	Says      Phrase `json:"says"`
	NotEngine Phrase `json:"not_engine"` // of another fluid than the engine's oil; "": the same
	Hint      string `json:"hint"`
}

// engineOil is the system whose oil burns with the fuel.
const engineOil = "engine-oil"

func (s saying) of(subject string) Phrase {
	if s.NotEngine != "" && subject != engineOil {
		return s.NotEngine
	}
	return s.Says
}

// codePlace is the one place that a hint has.
const codePlace = "{code}"

var findings = once[map[string]saying]("findings.json")

// Finding returns the plain sentence of a finding, without its reason. A code
// that this program does not know gives a sentence that says so.
func Finding(f record.Finding) string {
	entry, known := findings()[f.Code.String()]
	if !known {
		return fmt.Sprintf("A finding that this program has no words for: rule %d.", uint16(f.Code))
	}
	subject := strings.ReplaceAll(f.Subject, "-", " ")
	figure := figure
	if f.Within != nil {
		figure = workedOut
	}
	says := entry.of(f.Subject)
	return sentenceCase(says, says.fill(map[string]string{
		"task":    subject,
		"system":  subject,
		"machine": f.Subject,
		"value":   figure(f.Value, f.Unit),
		"limit":   figure(f.Limit, f.Unit),
		"within":  workedOut(f.Within, difference(f.Unit)),
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
	return capital(text)
}

// difference is what an uncertainty of a figure in the unit is printed in.
func difference(unit record.Unit) record.Unit {
	if unit == record.InPer100Hours { // stands beside its figure, which says in how long
		return record.InVolume
	}
	return unit.Difference()
}

// workedOut prints a figure that carries an uncertainty: not to more places than
// it can mean.
func workedOut(n *int64, unit record.Unit) string {
	switch {
	case n == nil:
		return ""
	case unit == record.InVolume:
		return quantity.Volume(*n).Hundredths()
	case unit == record.InShare:
		return Hundredths(quantity.Ratio(*n))
	default:
		return figure(n, unit)
	}
}

// Hundredths prints a level that was worked out, always with two decimals: "0.90".
func Hundredths(r quantity.Ratio) string {
	return quantity.Figure{Digits: int64(r.Whole() / 10), Places: 2}.String()
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
	case record.InPer100Hours:
		return quantity.Volume(*n).Hundredths() + " in 100 h"
	case record.InPercent:
		return quantity.Ratio(*n).Percent()
	default:
		return strconv.FormatInt(*n, 10)
	}
}
