package schedule

import (
	"strings"

	"hourseal/record/quantity"
)

// Intervals and graces beyond these are taken for slips: our own rule, no
// source.
const (
	shortestHours  = 1 * quantity.Hour
	longestHours   = 20_000 * quantity.Hour // two to three years without a stop
	shortestMonths = quantity.Months(1)
	longestMonths  = quantity.Months(360)
)

// measure is one of the two things that an interval goes by, and the part of a
// grace that belongs to it. Figures are in the unit of their quantity.
type measure struct {
	key               string
	of                func(Interval) int64
	text              func(int64) string
	shortest, longest int64
	example           string

	graceKey  string
	grace     func(Leeway) int64
	graceText func(int64) string
	length    func(int64) int64 // of an interval, in the unit of the grace
	aGrace    string            // an example
}

const (
	byHours = iota
	byMonths
)

var measures = []measure{
	byHours: {
		key: "hours", of: func(i Interval) int64 { return int64(i.Hours) }, text: hoursText,
		shortest: int64(shortestHours), longest: int64(longestHours), example: "hours, as 200",
		graceKey: "hours", grace: func(l Leeway) int64 { return int64(l.Hours) }, graceText: hoursText,
		length: func(hours int64) int64 { return hours }, aGrace: "{ hours: 10 % }",
	},
	byMonths: {
		key: "months", of: func(i Interval) int64 { return int64(i.Months) },
		text:     func(n int64) string { return plural(quantity.Months(n).String(), "month") },
		shortest: int64(shortestMonths), longest: int64(longestMonths), example: "months, as 12",
		graceKey: "days", grace: func(l Leeway) int64 { return int64(l.Days) },
		graceText: func(n int64) string { return plural(quantity.Days(n).String(), "day") },
		length:    func(months int64) int64 { return months * 365 / 12 }, aGrace: "{ days: 3 }",
	},
}

func hoursText(n int64) string { return quantity.Hours(n).String() + " h" }

func plural(n, what string) string {
	if n == "1" {
		return n + " " + what
	}
	return n + " " + what + "s"
}

// text is the interval in words: "200 h or 12 months".
func (i Interval) text() string {
	var words []string
	for _, m := range measures {
		if n := m.of(i); n != 0 {
			words = append(words, m.text(n))
		}
	}
	return strings.Join(words, " or ")
}

// tooLong says whether a task's grace is as long as its interval by a measure,
// or longer, so that the next time falls due before this one is late; and by
// which interval, the shortened one only where the whole one is long enough.
func (s Schedule) tooLong(t Task, m measure) (Interval, bool) {
	for _, duty := range []Duty{nil, {t.Severe.When}} {
		every := t.Usual(duty)
		if n := m.of(every); n != 0 && m.grace(s.Leeway(t, every)) >= m.length(n) {
			return every, true
		}
	}
	return Interval{}, false
}

// ownGrace refuses a grace of the whole schedule that is too long for every
// task that it is for.
func (f *finder) ownGrace() {
	for _, m := range measures {
		if f.everyTask(m) {
			f.fault("grace/"+m.graceKey, "grace", "as long as every interval that it is for, or longer: write fewer %s", m.graceKey)
		}
	}
}

// everyTask says whether the schedule's grace is too long by a measure for all
// tasks that have none of their own.
func (f *finder) everyTask(m measure) bool {
	all := false
	for _, t := range f.schedule.Tasks {
		if t.Grace != nil || m.of(t.Every) == 0 {
			continue
		}
		if all = true; m.grace(f.schedule.Leeway(t, t.Every)) < m.length(m.of(t.Every)) {
			return false
		}
	}
	return all
}

// longGrace refuses a grace as long as the task's interval.
func (f *finder) longGrace(i int, t Task) {
	for _, m := range measures {
		every, long := f.schedule.tooLong(t, m)
		if !long || t.Grace == nil && f.everyTask(m) {
			continue
		}
		interval, grace := m.text(m.of(every)), m.graceText(m.grace(f.schedule.Leeway(t, every)))
		switch {
		case t.Grace != nil:
			f.fault(taskPath(i, "grace", m.graceKey), "grace", "%s, as long as the interval of %s, or longer: write less, as %s", grace, interval, m.aGrace)
		case every == t.Every:
			f.fault(taskPath(i, t.key(), m.key), t.key(), "%s, no longer than the schedule's grace of %s: write a grace of its own for the task, as %s", interval, grace, m.aGrace)
		default:
			f.fault(taskPath(i, "severe", "factor"), "severe", "leaves an interval of %s, no longer than the schedule's grace of %s: write a grace of its own for the task, as %s", interval, grace, m.aGrace)
		}
	}
}
