package jobsheet

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"hourseal/record/quantity"
)

// The values of a machine file as they are typed one by one, with its limits.

// LineCapacity reads what a system holds, more than nothing: "10.0 L", "2.6 US gal".
func LineCapacity(text string) (quantity.Volume, error) { return capacity(text) }

// LinePower reads a rated power: "55 kW", "75 hp", "75 PS".
func LinePower(text string) (quantity.Power, error) {
	power, err := quantity.ParsePower(text)
	if err == nil && power <= 0 {
		err = fmt.Errorf("%s: write more than 0, as 55 kW", show(text))
	}
	return power, err
}

// LineDensity reads a density at 15 degC: "880 kg/m3", "0.88 kg/L".
func LineDensity(text string) (quantity.Density, error) {
	return within(quantity.ParseDensity, 500, 3000)(text)
}

// LineProtectTo reads the temperature down to which a coolant is to protect, below
// that at which water freezes: "-25 C".
func LineProtectTo(text string) (quantity.Temperature, error) {
	t, err := oilTemperature(text)
	if err == nil && t >= 0 {
		err = fmt.Errorf("%s: water alone protects to 0 C: write it with its minus, as -25 C", show(text))
	}
	return t, err
}

// LineHours reads hours, with or without their unit: "812.6", "812.6 h", "812.6 hours".
func LineHours(text string) (quantity.Hours, error) { return quantity.ParseHours(withoutHour(text)) }

// LineHoursPerYear reads hours a year, more than none and no more than a year has.
func LineHoursPerYear(text string) (quantity.Hours, error) {
	return within(quantity.ParseHours, 1, yearHours)(withoutHour(text))
}

// withoutHour takes the unit from behind a figure.
func withoutHour(text string) string {
	for _, unit := range []string{"hours", "h"} {
		if n := len(text) - len(unit); n >= 0 && strings.EqualFold(text[n:], unit) {
			return strings.TrimRightFunc(text[:n], isGap)
		}
	}
	return text
}

// sources are the words for where a statement is from.
var sources = []string{"invoice", "owner", "none"}

const statementWanted = "a task, the date, the hours in total and the source, as engine-oil, 2025-06-20, 501, invoice"

// LineStatement reads what is said to have been done before the first sealed record:
// "engine-oil, 2025-06-20, 501, invoice". The parts stand in this order.
func LineStatement(text string) (Statement, error) {
	l, err := readLine(text, statementWanted)
	if err != nil {
		return Statement{}, err
	}
	parts, err := l.parts()
	if err != nil {
		return Statement{}, err
	}
	if len(parts) != 4 {
		return Statement{}, fmt.Errorf("%s: write %s", show(l.text), statementWanted)
	}
	s := Statement{Task: parts[0].text}
	if err := CheckID(s.Task); err != nil {
		return s, fmt.Errorf("task: %w", err)
	}
	if s.At.Date, err = LineDate(parts[1].text); err != nil {
		return s, fmt.Errorf("date: %w", err)
	}
	if s.At.Hours, err = LineHours(parts[2].text); err != nil {
		return s, fmt.Errorf("hours: %w", err)
	}
	i := slices.IndexFunc(sources, func(word string) bool { return parts[3].is(word) })
	if i < 0 {
		return s, errors.New("source: " + show(parts[3].text) + ": " + instead(parts[3].text, sources))
	}
	s.Source = sources[i]
	return s, nil
}

// StatementLine is the inverse of LineStatement.
func StatementLine(s Statement) string {
	if s == (Statement{}) {
		return ""
	}
	return strings.Join([]string{s.Task, s.At.Date.String(), s.At.Hours.String(), s.Source}, ", ")
}
