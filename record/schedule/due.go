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

// Earlier is the earlier of two due points, hours and date each for themselves.
func (d Due) Earlier(other Due) Due {
	if d.Hours == nil || other.Hours != nil && *other.Hours < *d.Hours {
		d.Hours = other.Hours
	}
	if d.Date == nil || other.Date != nil && *other.Date < *d.Date {
		d.Date = other.Date
	}
	return d
}

// Standing is where one task stands after a machine's events.
type Standing struct {
	Last *Event // nil: no record of it
	Due  Due
	// Runs is the interval that runs towards Due, and Leeway its grace; both
	// zero when nothing more falls due.
	Runs   Interval
	Leeway Leeway
	// Before is the due point that applied when Last was done.
	Before Due
}

// Stand replays the times that a task was done, oldest first, from the
// machine's entry into service, and returns where it stands. duties are the
// severe duties that the machine ran under, oldest first.
func (s Schedule) Stand(t Task, inService Point, events []Event, duties []DutyFrom) Standing {
	policy := s.Policy(t)
	hours := hoursTrack{from: inService.Hours, last: inService.Hours}
	months := monthsTrack{anchor: inService.Date, last: inService.Date}
	standing := Standing{}
	var duty Duty
	for i := range events {
		event := &events[i]
		// What was due when the job began goes by the duty before it.
		for ; len(duties) > 0 && duties[0].Date < event.Date; duties = duties[1:] {
			duty = duties[0].Duty
		}
		runs, usual := t.Runs(i > 0, duty), t.Runs(i > 0, nil)
		leeway := s.Leeway(t, runs)
		standing.Before = dueOf(hours, months, runs, usual)
		hours.done(event.Hours, policy, runs.Hours, usual.Hours, leeway.Hours)
		months.done(event.Date, policy, runs.Months, usual.Months, leeway.Days)
		standing.Last = event
	}
	if len(duties) > 0 {
		duty = duties[len(duties)-1].Duty
	}
	standing.Runs = t.Runs(standing.Last != nil, duty)
	standing.Leeway = s.Leeway(t, standing.Runs)
	standing.Due = dueOf(hours, months, standing.Runs, t.Runs(standing.Last != nil, nil))
	return standing
}

// dueOf is the due point for the interval that runs, which is the usual one or,
// under a severe duty, a shorter one. A duty brings nothing later: where the
// points of the shorter interval have been skipped, the usual one may be nearer.
func dueOf(h hoursTrack, m monthsTrack, runs, usual Interval) Due {
	var due Due
	if runs.Hours > 0 {
		due.Hours = new(h.due(runs.Hours, usual.Hours))
	}
	if runs.Months > 0 {
		due.Date = new(m.anchor.AddMonths(m.due(runs.Months, usual.Months)))
	}
	return due
}

// hoursTrack is the point that the due hours of one task count from, and when it
// was last done, which differ where a due point is kept.
type hoursTrack struct{ from, last quantity.Hours }

// due is the nearer of the first points after the work by either interval.
func (h hoursTrack) due(runs, usual quantity.Hours) quantity.Hours {
	return min(h.after(runs), h.after(usual))
}

// after is the first of the points, one interval apart, that lies after the work.
func (h hoursTrack) after(every quantity.Hours) quantity.Hours {
	due := h.from + every
	if missed := h.last - due; missed >= 0 {
		due += (missed/every + 1) * every
	}
	return due
}

// done moves the point on, at the end of the interval that ran.
func (h *hoursTrack) done(at quantity.Hours, policy NextFrom, runs, usual, leeway quantity.Hours) {
	from := at
	if runs > 0 {
		if due := h.due(runs, usual); keeps(policy, int64(at-due), int64(leeway)) {
			from = due
		}
	}
	h.from, h.last = from, at
}

// monthsTrack is the same of a due date. The date is kept as an anchor and a
// count of months, so that clamping at month ends never accumulates.
type monthsTrack struct {
	anchor quantity.Date
	passed quantity.Months
	last   quantity.Date
}

// due is the months from the anchor to the nearer of the first dates after the
// work by either interval.
func (m monthsTrack) due(runs, usual quantity.Months) quantity.Months {
	return min(m.after(runs), m.after(usual))
}

func (m monthsTrack) after(every quantity.Months) quantity.Months {
	months := m.passed + every
	for last := min(m.last, quantity.MaxDate); m.anchor.AddMonths(months) <= last; {
		months += every
	}
	return months
}

func (m *monthsTrack) done(at quantity.Date, policy NextFrom, runs, usual quantity.Months, leeway quantity.Days) {
	kept := monthsTrack{anchor: at}
	if runs > 0 {
		if due := m.due(runs, usual); keeps(policy, int64(at.Sub(m.anchor.AddMonths(due))), int64(leeway)) {
			kept = monthsTrack{anchor: m.anchor, passed: due}
		}
	}
	kept.last = at
	*m = kept
}

// keeps says whether the due point is kept, done so far past it (before it, if
// negative).
func keeps(policy NextFrom, past, leeway int64) bool {
	return policy == FromGrid && past >= 0 || policy == FromWindow && past >= -leeway
}
