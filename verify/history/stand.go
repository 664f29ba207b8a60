package history

import (
	"slices"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// stand works out where the machine stood on the day that is asked about.
func (m *Machine) stand(in Input) {
	if in.On == nil || len(m.Counted) == 0 {
		return
	}
	on := *in.On
	s := &Stands{On: on, Hours: m.hoursOn(on, in.Hours)}
	if s.Hours.Unlike() {
		m.Faults = append(m.Faults, Fault{Code: HoursUnlike, Entry: -1, Other: -1, Date: on, To: schedule.Point{Date: on, Hours: *s.Hours.At}})
		slices.SortStableFunc(m.Faults, byWeight)
	}
	var all []int
	for _, i := range m.Counted {
		if m.Entries[i].Record.Job.Date <= on {
			all = append(all, i)
		}
	}
	shown := m.shownBy(on)
	s.All, s.Shown = len(all), len(shown)
	for _, t := range m.Tasks {
		s.Tasks = append(s.Tasks, Standing{Task: t.ID, Title: t.Title, Shown: m.stood(t.ID, shown, s), All: m.stood(t.ID, all, s)})
	}
	m.Stands = s
}

// shownBy are the records that are shown to have existed by a day and told of it or
// before, as they counted then: what is not shown to have been taken back by then
// stands.
func (m *Machine) shownBy(on quantity.Date) []int {
	shown := func(e *Entry) bool { return e.Exists.NotAfter != nil && e.Exists.NotAfter.Date <= on }
	then := Machine{Entries: slices.Clone(m.Entries)}
	for i := range then.Entries {
		e := &then.Entries[i]
		switch {
		case !shown(e) || e.Record.Job.Date > on:
			e.Counts = SpeaksOfAnother
		case e.By != nil && (e.Record.Kind == record.Service || e.Record.Kind == record.Correction):
			if by := m.placeOf(e.By.ID); by < 0 || !shown(&m.Entries[by]) {
				e.Counts = Counts
			}
		}
	}
	return then.counted()
}

// stood is where a task stood by some of the records.
func (m *Machine) stood(id string, places []int, s *Stands) Stood {
	f := m.follow(id)
	for _, i := range places {
		f.see(i)
	}
	stood := Stood{Last: f.last, Was: f.due()}
	if stood.Was == nil {
		stood.At = Reached{State: NotTold}
		return stood
	}
	at := func(hours *quantity.Hours) Reached {
		due := *stood.Was
		if hours == nil { // by date alone
			due.Hours = nil
			return due.reached(schedule.Point{Date: s.On})
		}
		return due.reached(schedule.Point{Date: s.On, Hours: *hours})
	}
	known := s.Hours.At
	if known == nil {
		known = s.Hours.Low // it has run no less
	}
	stood.At = at(known)
	stood.At.About = !s.Hours.Given && s.Hours.At != nil && s.Hours.Low != nil && *s.Hours.At != *s.Hours.Low
	if s.Hours.Given || stood.Was.Hours == nil || stood.Was.Stated {
		return stood
	}
	if least := at(s.Hours.Low).State; least != stood.At.State {
		stood.Least = least
	}
	most := NotTold
	if s.Hours.High != nil {
		most = at(s.Hours.High).State
	}
	if most != stood.At.State && stood.At.State != Late {
		stood.Most = most
	}
	return stood
}

// hoursOn is what the records say of the hours on a date; what the reader gives stands
// before what is worked out from them.
func (m *Machine) hoursOn(on quantity.Date, given *quantity.Hours) HoursOn {
	h := m.recordedHours(on)
	if given != nil {
		h.Given, h.At = true, given
	}
	return h
}

func (m *Machine) recordedHours(on quantity.Date) HoursOn {
	var h HoursOn
	var before *schedule.Point
	for _, i := range m.Counted {
		point := m.Entries[i].Point()
		if point.Date <= on {
			before = &point
			continue
		}
		if m.Entries[i].meterUnknown() { // the one before may have read anything by then
			break
		}
		h.High = &point.Hours
		if before != nil {
			at := hoursAt(*before, point, on)
			h.At = &at
			// A day has no more hours than that, on either side.
			h.Low = new(max(before.Hours, point.Hours-schedule.MostHours(on, point.Date)))
			h.High = new(min(point.Hours, before.Hours+schedule.MostHours(before.Date, on)))
		}
		break
	}
	switch {
	case before == nil:
	case before.Date == on:
		h.Read, h.At, h.Low, h.High = true, &before.Hours, &before.Hours, &before.Hours
	case h.Low == nil:
		h.Low = &before.Hours
	}
	return h
}
