package schedule

import "hourseal/record/quantity"

// State is how a task stands at a point.
type State uint8

// The states, from far to late.
const (
	Later   State = iota + 1
	Soon          // within a tenth of its interval, or 30 days
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
	soonDays  quantity.Days  = 30
)

// At gives the state of a due point as seen from now.
func (d Due) At(now Point, every Interval, leeway Leeway) State {
	state := Later
	if d.Hours != nil {
		state = max(state, stateOf(*d.Hours-now.Hours, every.Hours.Times(soonShare), leeway.Hours))
	}
	if d.Date != nil {
		state = max(state, stateOf(d.Date.Sub(now.Date), soonDays, leeway.Days))
	}
	return state
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

// ComesFirst says which of the two is reached first, given the machine's use
// in hours a year; "" when the task is not due at all. With an unknown use (0)
// the date decides, unless the hours are already past.
func (d Due) ComesFirst(now Point, hoursPerYear quantity.Hours) string {
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
	if hoursPerYear <= 0 {
		return "date"
	}
	// hoursLeft / (hoursPerYear / 365.25 days) < daysLeft, in integers.
	if hoursLeft*36525 < daysLeft*int64(hoursPerYear)*100 {
		return "hours"
	}
	return "date"
}
