package schedule

import (
	"slices"

	"hourseal/record/quantity"
)

// Severe is the shortening of intervals under a stated severe duty.
type Severe struct {
	Factor quantity.Ratio `json:"factor,omitempty"`
	When   string         `json:"when,omitempty"`
}

// Duty is the severe duties that a machine runs under, by their words in the
// schedule (Severe.When).
type Duty []string

// DutyFrom is the duty from a date on, until the next.
type DutyFrom struct {
	Date quantity.Date
	Duty Duty
}

// SevereUnder says whether the duty shortens the task's interval.
func (t Task) SevereUnder(duty Duty) bool {
	return t.Severe.Factor != 0 && slices.Contains(duty, t.Severe.When)
}

// Runs is the interval that runs after the task was done, or before it was done
// for the first time; zero when nothing more falls due. Under a severe duty it
// is shortened.
func (t Task) Runs(done bool, duty Duty) Interval {
	switch {
	case t.Once && done:
		return Interval{}
	case done:
		return t.under(duty, t.Every)
	default:
		return t.under(duty, t.First.orElse(t.Every))
	}
}

// Usual is the interval between one time and the next; of a one-time task that
// which leads to it.
func (t Task) Usual(duty Duty) Interval { return t.under(duty, t.Every) }

func (t Task) under(duty Duty, every Interval) Interval {
	if t.SevereUnder(duty) {
		return every.times(t.Severe.Factor)
	}
	return every
}

// orElse is the interval with every component that it has not taken from
// another.
func (i Interval) orElse(other Interval) Interval {
	if i.Hours == 0 {
		i.Hours = other.Hours
	}
	if i.Months == 0 {
		i.Months = other.Months
	}
	return i
}

// times shortens an interval by a factor of at most 1: hours to 1/100 h, half
// away from zero; months to whole months, rounded down, since a month too early
// does no harm. What was there stays there: 1/100 h and 1 month at least.
func (i Interval) times(factor quantity.Ratio) Interval {
	short := Interval{Hours: i.Hours.Times(factor), Months: i.Months * quantity.Months(factor) / quantity.Months(quantity.One)}
	if i.Hours > 0 {
		short.Hours = max(short.Hours, 1)
	}
	if i.Months > 0 {
		short.Months = max(short.Months, 1)
	}
	return short
}
