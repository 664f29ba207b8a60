package history

import (
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
	var all, shown []int
	for _, i := range m.Counted {
		e := &m.Entries[i]
		if e.Record.Job.Date > on {
			continue
		}
		all = append(all, i)
		if e.Exists.NotAfter != nil && e.Exists.NotAfter.Date <= on {
			shown = append(shown, i)
		}
	}
	s.All, s.Shown = len(all), len(shown)
	for _, t := range m.Tasks {
		s.Tasks = append(s.Tasks, Standing{Task: t.ID, Title: t.Title, Shown: m.stood(t.ID, shown, s), All: m.stood(t.ID, all, s)})
	}
	m.Stands = s
}

// stood is where a task stood by some of the records.
func (m *Machine) stood(id string, places []int, s *Stands) Stood {
	f := follower{m: m, id: id}
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
	stood.At.About = s.Hours.At != nil && s.Hours.Low != nil && *s.Hours.At != *s.Hours.Low
	if s.Hours.Given || stood.Was.Hours == nil || stood.Was.Stated {
		return stood
	}
	least, most := at(s.Hours.Low).State, NotTold
	if s.Hours.High != nil {
		most = at(s.Hours.High).State
	}
	switch {
	case least == Late: // whatever else it ran
	case stood.At.State != least:
		stood.At.State, stood.Most = least, most
	case most != stood.At.State:
		stood.Most = most
	}
	return stood
}

// hoursOn is what the records say of the hours on a date.
func (m *Machine) hoursOn(on quantity.Date, given *quantity.Hours) HoursOn {
	if given != nil {
		return HoursOn{Given: true, At: given, Low: given, High: given}
	}
	var h HoursOn
	var before *schedule.Point
	for _, i := range m.Counted {
		point := m.Entries[i].Point()
		if point.Date <= on {
			before = &point
			continue
		}
		h.High = &point.Hours
		if before != nil {
			at := hoursAt(*before, point, on)
			h.At = &at
		}
		break
	}
	if before != nil {
		h.Low = &before.Hours
		if before.Date == on {
			h.At, h.High = h.Low, h.Low
		}
	}
	return h
}
