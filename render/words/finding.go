package words

import (
	"fmt"
	"slices"
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
//
// It is what whoever has the record reads, and does not know how its yard writes
// figures; FindingIn is for the yard itself.
func Finding(f record.Finding) string { return FindingIn(quantity.Style{}, f) }

// FindingIn is Finding with its figures as a yard writes them. What a finding carries as a
// text stays as it stands in the record, but for a date that is all of it.
func FindingIn(style quantity.Style, f record.Finding) string {
	entry, known := findings()[f.Code.String()]
	if !known {
		return fmt.Sprintf("A finding that this program has no words for: rule %d.", uint16(f.Code))
	}
	subject := strings.ReplaceAll(f.Subject, "-", " ")
	w := figures{style}
	figure := w.figure
	if f.Within != nil {
		figure = w.workedOut
	}
	says := entry.of(f.Subject)
	return sentenceCase(says, says.fill(map[string]string{
		"task":    subject,
		"system":  subject,
		"machine": f.Subject,
		"value":   figure(f.Value, f.Unit),
		"limit":   figure(f.Limit, f.Unit),
		"within":  w.workedOut(f.Within, difference(f.Unit)),
		"text":    w.text(f),
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

// figures prints a finding's figures in a style.
type figures struct{ quantity.Style }

// datedText are the findings whose text is the date of another record.
var datedText = []record.Code{record.HoursBelowEarlier, record.HoursAboveLater, record.HoursOutrunClock, record.HoursOutrunUse}

func (w figures) text(f record.Finding) string {
	if slices.Contains(datedText, f.Code) {
		if d, err := quantity.ParseDate(f.Text); err == nil {
			return w.Date(d)
		}
	}
	return f.Text
}

// workedOut prints a figure that carries an uncertainty: not to more places than
// it can mean.
func (w figures) workedOut(n *int64, unit record.Unit) string {
	switch {
	case n == nil:
		return ""
	case unit == record.InVolume:
		return w.Hundredths(quantity.Volume(*n))
	case unit == record.InShare:
		return w.Marked(Hundredths(quantity.Ratio(*n)))
	default:
		return w.figure(n, unit)
	}
}

// Hundredths prints a level that was worked out, always with two decimals: "0.90".
func Hundredths(r quantity.Ratio) string {
	return quantity.Figure{Digits: int64(r.Whole() / 10), Places: 2}.String()
}

// figure prints a finding's figure with its unit; "" where there is none.
func (w figures) figure(n *int64, unit record.Unit) string {
	if n == nil {
		return ""
	}
	switch unit {
	case record.InHours:
		return w.Hours(quantity.Hours(*n)) + " h"
	case record.InDays:
		if *n == 1 {
			return "1 day"
		}
		return strconv.FormatInt(*n, 10) + " days"
	case record.AsDate:
		return w.Date(quantity.Date(*n))
	case record.InShare:
		return w.Marked(quantity.Ratio(*n).String())
	case record.InMinutes:
		return quantity.Minutes(*n).String()
	case record.InVolume:
		return w.Volume(quantity.Volume(*n))
	case record.InDegrees:
		return w.Marked(quantity.Temperature(*n).String())
	case record.InPer100Hours:
		return w.Hundredths(quantity.Volume(*n)) + " in 100 h"
	case record.InPercent:
		return w.Marked(quantity.Ratio(*n).Percent())
	default:
		return strconv.FormatInt(*n, 10)
	}
}
