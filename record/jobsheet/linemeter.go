package jobsheet

import (
	"errors"
	"fmt"
	"strings"

	"hourseal/record"
	"hourseal/record/quantity"
)

const meterWanted = "the hour-meter reading, as 812.6, or stopped, 810 by engine log, or none, 810 by owner's word"

// LineMeter reads hours: the reading of a meter that runs, "812.6", or for one that
// stopped or is not there an estimate of the hours in total and what it rests on,
// "stopped, 810 by engine log", "none, 810 by owner's word".
func LineMeter(text string) (record.Meter, *quantity.Hours, error) {
	l, err := readLine(text, meterWanted)
	if err != nil {
		return record.Meter{}, nil, err
	}
	m := record.Meter{State: record.Stopped}
	rest, ok := l.label("stopped")
	if !ok {
		m.State = record.NoMeter
		rest, ok = l.label("none")
	}
	if !ok {
		reading, err := LineHours(l.text)
		if err != nil {
			if near := Nearest(strings.TrimRight(firstWord(l.text), ","), []string{"stopped", "none"}); near != "" {
				err = fmt.Errorf("%s: write %s, and then the estimate, as 810 by engine log", show(l.text), near)
			}
			return record.Meter{}, nil, err
		}
		return record.Meter{State: record.Running, Reading: &reading}, nil, nil
	}
	written, basis, found := rest.cut("by")
	if rest.empty() || !found || written.empty() || basis.empty() {
		return record.Meter{}, nil, fmt.Errorf("%s: write the hours in total as estimated and what they rest on, as %v, 810 by engine log", show(l.text), m.State)
	}
	estimate, err := LineHours(written.text)
	if err != nil {
		return record.Meter{}, nil, err
	}
	if m.Basis, err = basis.value("by", reason); err != nil {
		return record.Meter{}, nil, err
	}
	return m, &estimate, nil
}

func firstWord(text string) string {
	word, _, _ := strings.Cut(text, " ")
	return word
}

// meterAndEstimate is what LineMeter reads.
type meterAndEstimate struct {
	meter    record.Meter
	estimate *quantity.Hours
}

// MeterLine is the inverse of LineMeter. A change of meters is no part of it.
func MeterLine(m record.Meter, estimate *quantity.Hours) string {
	if m.State == record.Running && m.Reading != nil {
		return m.Reading.String()
	}
	if estimate == nil {
		return ""
	}
	m.Change, m.Offset = nil, 0
	return inverse(meterAndEstimate{m, estimate}, func(word func(string) string) string {
		return fmt.Sprintf("%v, %v by %s", m.State, *estimate, word(m.Basis))
	}, func(line string) (meterAndEstimate, error) {
		m, estimate, err := LineMeter(line)
		return meterAndEstimate{m, estimate}, err
	})
}

const meterChangeWanted = "the old meter's last reading, the new one's first, and why, as 1482.3 to 12.0, glass broken, or unknown to 0, glass broken"

// LineMeterChange reads a change of meters: the last reading of the one removed, or
// unknown, the first of the one fitted, and why: "1482.3 to 12.0, glass broken".
func LineMeterChange(line string) (record.MeterChange, error) {
	l, err := readLine(line, meterChangeWanted)
	if err != nil {
		return record.MeterChange{}, err
	}
	before, after, found := l.cut("to")
	if !found {
		return record.MeterChange{}, fmt.Errorf("%s: write %s", show(l.text), meterChangeWanted)
	}
	fitted, why := after.cutComma()
	var c record.MeterChange
	if c.RemovedAt, err = orUnknown(LineHours)(before.text); err != nil {
		return record.MeterChange{}, err
	}
	if c.FittedAt, err = LineHours(fitted.text); err != nil {
		return record.MeterChange{}, err
	}
	if why.empty() {
		return record.MeterChange{}, errors.New("why it was changed is missing: write it after a comma, as " + fitted.text + ", glass broken")
	}
	if c.Why, err = why.value("why", text); err != nil {
		return record.MeterChange{}, err
	}
	return c, nil
}

// MeterChangeLine is the inverse of LineMeterChange.
func MeterChangeLine(c record.MeterChange) string {
	if c.Why == "" {
		return ""
	}
	removed := "unknown"
	if c.RemovedAt != nil {
		removed = c.RemovedAt.String()
	}
	return inverse(c, func(word func(string) string) string {
		return removed + " to " + c.FittedAt.String() + ", " + word(c.Why)
	}, LineMeterChange)
}
