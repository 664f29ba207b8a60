package schedule

import "hourseal/record/quantity"

// Point is a date with the machine's total hours on it.
type Point struct {
	Date  quantity.Date  `json:"date" cbor:"1,keyasint"`
	Hours quantity.Hours `json:"hours" cbor:"2,keyasint"`
}

// Event is one time that a task was done. Stated marks a time that somebody
// says it was done, without a sealed record.
type Event struct {
	Point
	Stated bool
}

// Due is the point at which a task falls due, by hours, by date, or both,
// whichever comes first; nil means "not by this".
type Due struct {
	Hours *quantity.Hours `json:"hours" cbor:"1,keyasint,omitempty"`
	Date  *quantity.Date  `json:"date" cbor:"2,keyasint,omitempty"`
}

// Standing is where one task stands after a machine's events.
type Standing struct {
	Last *Event // nil: no record of it
	Due  Due
	// Before is the due point that applied when Last was done.
	Before Due
}

// Stand replays the times that a task was done, oldest first, from the
// machine's entry into service, and returns where it stands.
func (s Schedule) Stand(t Task, inService Point, events []Event) Standing {
	policy, leeway := s.Policy(t), s.Leeway(t)
	hours := hoursTrack{every: t.Every.Hours, leeway: leeway.Hours, policy: policy}
	months := monthsTrack{every: t.Every.Months, leeway: leeway.Days, policy: policy}
	hours.start(inService.Hours, firstOf(t.First.Hours, t.Every.Hours))
	months.start(inService.Date, firstOf(t.First.Months, t.Every.Months))

	standing := Standing{Due: dueOf(hours, months)}
	for i := range events {
		standing.Before = standing.Due
		hours.done(events[i].Hours)
		months.done(events[i].Date)
		standing.Last = &events[i]
		standing.Due = dueOf(hours, months)
	}
	return standing
}

func firstOf[T ~int64](first, every T) T {
	if first != 0 {
		return first
	}
	return every
}

func dueOf(h hoursTrack, m monthsTrack) Due {
	var due Due
	if h.every != 0 {
		at := h.due
		due.Hours = &at
	}
	if m.every != 0 {
		at := m.due()
		due.Date = &at
	}
	return due
}

// hoursTrack follows the due hours of one task through its events.
type hoursTrack struct {
	every, leeway quantity.Hours
	policy        NextFrom
	due           quantity.Hours
}

func (h *hoursTrack) start(from, first quantity.Hours) { h.due = from + first }

func (h *hoursTrack) done(at quantity.Hours) {
	if h.every <= 0 {
		return
	}
	keep := h.policy == FromGrid && at >= h.due ||
		h.policy == FromWindow && at >= h.due-h.leeway
	if !keep {
		h.due = at + h.every
		return
	}
	passed := max(at-h.due, 0) / h.every // whole intervals that were missed
	h.due += h.every * (passed + 1)
}

// monthsTrack follows the due date of one task. The date is kept as an anchor
// and a count of months, so that clamping at month ends never accumulates.
type monthsTrack struct {
	every  quantity.Months
	leeway quantity.Days
	policy NextFrom
	anchor quantity.Date
	months quantity.Months
}

func (m *monthsTrack) start(from quantity.Date, first quantity.Months) {
	m.anchor, m.months = from, first
}

func (m *monthsTrack) due() quantity.Date { return m.anchor.AddMonths(m.months) }

func (m *monthsTrack) done(at quantity.Date) {
	if m.every <= 0 {
		return
	}
	due := m.due()
	keep := m.policy == FromGrid && at >= due ||
		m.policy == FromWindow && at >= due.AddDays(-m.leeway)
	if !keep {
		m.anchor, m.months = at, m.every
		return
	}
	m.months += m.every
	for m.due() <= at {
		m.months += m.every
	}
}
