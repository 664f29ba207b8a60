package jobsheet

import (
	"errors"
	"fmt"
	"strings"

	"hourseal/record"
	"hourseal/record/quantity"
)

const leakCheckWanted = "none seen after 10 min, or seen at drain plug after 5 min"

// LineLeakCheck reads the look for leaks: "none seen after 10 min", "none seen", "seen
// at drain plug after 5 min". Minutes alone, "10 min" or "10", are none seen in that
// time with the engine running.
func LineLeakCheck(text string) (record.LeakCheck, error) {
	l, err := readLine(text, leakCheckWanted)
	if err != nil {
		return record.LeakCheck{}, err
	}
	check, err := l.leakCheck()
	if err != nil {
		return record.LeakCheck{}, err
	}
	return check, nil
}

func (l typed) leakCheck() (check record.LeakCheck, err error) {
	check.Result = record.Seen
	rest, said := l.label("seen")
	if !said {
		check.Result = record.NoneSeen
		if rest, said = l.label("none"); said {
			rest, _ = rest.label("seen")
		}
	}
	where, minutes := typed{}, typed{}
	switch after, isAfter := rest.label("after", "in"); {
	case isAfter:
		minutes, where, _ = after.cut("at")
	case !said:
		if minutes = rest; !isWhole(firstDigit(l.text)) {
			return check, fmt.Errorf("%s: write %s", show(l.text), leakCheckWanted)
		}
	case !rest.empty():
		at, isAt := rest.label("at")
		if !isAt {
			return check, fmt.Errorf("%s: write at before a place and after before minutes, as %s", show(rest.text), "seen at drain plug after 5 min")
		}
		where, minutes = at.cutMinutes()
		if where.empty() {
			return check, errors.New("nothing written after at: write where it was seen, as drain plug")
		}
	}
	if !minutes.empty() {
		after, err := lineMinutes(minutes.text)
		if err != nil {
			return check, err
		}
		check.After = &after
	}
	if !where.empty() {
		check.Where, err = where.value("at", reason)
	}
	return check, err
}

// firstDigit is the first byte of a text.
func firstDigit(text string) string { return text[:min(1, len(text))] }

// cutMinutes cuts "after" and minutes off the end of a place. After the word "after"
// without a figure the place goes on: at the union after the cooler.
func (l typed) cutMinutes() (where, minutes typed) {
	at := l.places("after")
	if len(at) == 0 {
		return l, typed{}
	}
	last := at[len(at)-1]
	minutes = l.sub(last.to, len(l.text))
	if !isWhole(firstDigit(minutes.text)) {
		return l, typed{}
	}
	return l.sub(0, last.from), minutes
}

// LeakCheckLine is the inverse of LineLeakCheck.
func LeakCheckLine(c record.LeakCheck) string {
	if c.Result == 0 {
		return ""
	}
	return inverse(c, func(word func(string) string) string {
		line := c.Result.String()
		if c.Where != "" {
			line += " at " + word(c.Where)
		}
		if c.After != nil {
			line += " after " + c.After.String()
		}
		return line
	}, LineLeakCheck)
}

const lookAgainWanted = "hours or a date or both, as 900 h or 2026-10-01"

// LineLookAgain reads when to look again, and why after a comma: "900 h", "2026-10-01",
// "900 h or 2026-10-01, light glaze on the back". Hours need no unit. Why is "" where
// nothing is said.
func LineLookAgain(text string) (again record.LookAgain, why string, err error) {
	l, err := readLine(text, lookAgainWanted)
	if err != nil {
		return record.LookAgain{}, "", err
	}
	points, rest := l.cutComma()
	for more := true; more; {
		var point typed
		point, points, more = points.cut("or")
		if err := lookAgainPoint(&again, point.text); err != nil {
			return record.LookAgain{}, "", err
		}
	}
	if !rest.empty() {
		if why, err = rest.value("why", reason); err != nil {
			return record.LookAgain{}, "", err
		}
	}
	return again, why, nil
}

func lookAgainPoint(again *record.LookAgain, text string) error {
	switch {
	case text == "":
		return errors.New("nothing written: write " + lookAgainWanted)
	case strings.Count(text, "-") > 0 && text[0] != '-':
		date, err := quantity.ParseDate(text)
		if err == nil && again.Date != nil {
			err = fmt.Errorf("two dates, %v and %v: keep one", *again.Date, date)
		}
		again.Date = &date
		return err
	}
	hours, err := LineHours(text)
	if err == nil && again.Hours != nil {
		err = fmt.Errorf("two readings of the meter, %v and %v: keep one", *again.Hours, hours)
	}
	again.Hours = &hours
	return err
}

// againWhy is what LineLookAgain reads.
type againWhy struct {
	again record.LookAgain
	why   string
}

// LookAgainLine is the inverse of LineLookAgain.
func LookAgainLine(again record.LookAgain, why string) string {
	var points []string
	if again.Hours != nil {
		points = append(points, again.Hours.String()+" h")
	}
	if again.Date != nil {
		points = append(points, again.Date.String())
	}
	line := strings.Join(points, " or ")
	if line == "" || why == "" {
		return line
	}
	return inverse(againWhy{again, why}, func(word func(string) string) string {
		return line + ", " + word(why)
	}, func(line string) (againWhy, error) {
		again, why, err := LineLookAgain(line)
		return againWhy{again, why}, err
	})
}
