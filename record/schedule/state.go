package schedule

import "hourseal/record/quantity"

// State is how a task stands at a point.
type State uint8

// The states, from far to late.
const (
	Later   State = iota + 1
	Soon          // within a tenth of its hours, or SoonDays; see SoonBy
	Now           // due: past its due point, within the grace
	Overdue       // past its grace
)

var stateNames = []string{"later", "soon", "due", "overdue"}

func (s State) String() string { return nameOf(stateNames, uint8(s)) }

// MarshalText gives the word for JSON.
func (s State) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// "Soon" is our own rule of thumb: common practice, no source.
const (
	soonShare quantity.Ratio = 100 // of the interval's hours
	SoonDays  quantity.Days  = 30
)

// At gives the state of the task as seen from now. Without a sealed record of
// it a task may be due, and is never late.
func (s Standing) At(now Point) State {
	state := s.Due.At(now, s.Runs, s.Leeway)
	if !s.Recorded() {
		state = min(state, Now)
	}
	return state
}

// SoonBy says whether a due point is expected within SoonDays, by its date or by
// hours that will have run by then.
func (d Due) SoonBy(now Point, use Use) bool {
	then := now.Date.AddDays(SoonDays)
	return d.Date != nil && *d.Date <= then ||
		d.Hours != nil && *d.Hours-now.Hours <= use.Between(now.Date, then)
}

// Recorded says whether a sealed record says when the task was last done.
func (s Standing) Recorded() bool { return s.Last != nil && !s.Last.Stated }

// At gives the state of a due point as seen from now.
func (d Due) At(now Point, every Interval, leeway Leeway) State {
	state := Later
	if d.Hours != nil {
		state = max(state, stateOf(*d.Hours-now.Hours, every.Hours.Times(soonShare), leeway.Hours))
	}
	if d.Date != nil {
		state = max(state, stateOf(d.Date.Sub(now.Date), SoonDays, leeway.Days))
	}
	return state
}

// LookAt gives the state of a second look that was asked for: due when its time has
// come, and never late. every is the interval of its task.
func (d Due) LookAt(now Point, every Interval) State {
	return min(d.At(now, every, Leeway{}), Now)
}

func stateOf[T ~int64](left, soon, leeway T) State {
	switch {
	case left < -leeway:
		return Overdue
	case left <= 0:
		return Now
	case left <= soon:
		return Soon
	default:
		return Later
	}
}

// Past says by how much a point lies past due, in hours and in days; each is
// negative while it is still ahead, and ok is false where the task is not due
// by that.
func (d Due) Past(at Point) (hours quantity.Hours, byHours bool, days quantity.Days, byDate bool) {
	if d.Hours != nil {
		hours, byHours = at.Hours-*d.Hours, true
	}
	if d.Date != nil {
		days, byDate = at.Date.Sub(*d.Date), true
	}
	return hours, byHours, days, byDate
}

// ComesFirst says which of the two is reached first, given the machine's use;
// "" when the task is not due at all. With an unknown use the date decides,
// unless the hours are already past.
func (d Due) ComesFirst(now Point, use Use) string {
	switch {
	case d.Hours == nil && d.Date == nil:
		return ""
	case d.Hours == nil:
		return "date"
	case d.Date == nil:
		return "hours"
	}
	hoursLeft, daysLeft := int64(*d.Hours-now.Hours), int64(d.Date.Sub(now.Date))
	if hoursLeft <= 0 && daysLeft > 0 {
		return "hours"
	}
	if use.PerYear <= 0 {
		return "date"
	}
	if use.Seasonal && hoursLeft > 0 && daysLeft > 0 {
		if quantity.Hours(hoursLeft) <= use.Between(now.Date, *d.Date) {
			return "hours"
		}
		return "date"
	}
	// hoursLeft / (hours a year / 365.25 days) < daysLeft, in integers.
	if hoursLeft*36525 < daysLeft*int64(use.PerYear)*100 {
		return "hours"
	}
	return "date"
}
