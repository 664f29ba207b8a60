package history

import (
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// stretcher cuts the time on record into stretches inside the interval, within grace
// and overdue. What is past due waits for the end of the interval to be called one
// or the other.
type stretcher struct {
	m         *Machine
	stretches []Stretch
	past      []int // places in stretches that are past due and wait
	overdue   quantity.Hours
	unknown   quantity.Hours
	run       quantity.Hours
	about     bool
	guessed   bool // what waits begins at a date between two readings
}

// segment goes on from one record that counts to the next, the nth, along which a due
// point is in force; with hours that are the least that they can be, only what is past
// due is certain.
func (s *stretcher) segment(n int, due *DuePoint, leastHours bool) {
	from, to := s.m.Entries[s.m.Counted[n-1]].Point(), s.m.Entries[s.m.Counted[n]].Point()
	if due == nil || !due.Tells() {
		s.unknown += max(0, to.Hours-from.Hours)
		s.add(Stretch{from, to, NotTold})
		return
	}
	cross, guessed, crosses := crossing(due.Due, from, to)
	if !crosses && leastHours && due.Hours != nil {
		s.unknown += max(0, to.Hours-from.Hours)
		s.add(Stretch{from, to, NotTold})
		return
	}
	if !crosses {
		s.add(Stretch{from, to, Inside})
		return
	}
	if cross != from {
		s.add(Stretch{from, cross, Inside})
	}
	s.guessed = s.guessed || guessed
	s.past = append(s.past, len(s.stretches))
	s.stretches = append(s.stretches, Stretch{cross, to, InGrace})
}

// add lengthens the last stretch where the state goes on; hours that go back make one
// of their own.
func (s *stretcher) add(next Stretch) {
	if n := len(s.stretches); n > 0 && s.stretches[n-1].State == next.State && len(s.past) == 0 && next.To.Hours >= next.From.Hours {
		s.stretches[n-1].To = next.To
		return
	}
	s.stretches = append(s.stretches, next)
}

// end closes an interval: what is past due was overdue when it ended so.
func (s *stretcher) end(state Adherence) {
	if state == Late {
		for _, i := range s.past {
			s.stretches[i].State = Late
			s.overdue += max(0, s.stretches[i].To.Hours-s.stretches[i].From.Hours)
		}
		s.about = s.about || s.guessed && len(s.past) > 0
	}
	s.past, s.guessed = nil, false
}

// crossing is where a due point is passed on the way from one reading to the next, the
// earlier of hours and date, in a straight line between the two. guessed: it is a date
// between them, so that its hours are worked out.
func crossing(due schedule.Due, from, to schedule.Point) (at schedule.Point, guessed, crosses bool) {
	at = to
	if due.Hours != nil && *due.Hours < to.Hours {
		at, crosses = schedule.Point{Date: dateAt(from, to, max(*due.Hours, from.Hours)), Hours: max(*due.Hours, from.Hours)}, true
	}
	if due.Date != nil && *due.Date < to.Date {
		date := max(*due.Date, from.Date)
		if hours := hoursAt(from, to, date); !crosses || hours < at.Hours || hours == at.Hours && date < at.Date {
			at, crosses = schedule.Point{Date: date, Hours: hours}, true
			guessed = date != from.Date && from.Hours != to.Hours
		}
	}
	return at, guessed, crosses
}

// hoursAt are the hours on a date between two points, in a straight line, half up.
func hoursAt(from, to schedule.Point, date quantity.Date) quantity.Hours {
	days := int64(to.Date.Sub(from.Date))
	if days <= 0 {
		return from.Hours
	}
	return from.Hours + quantity.Hours((2*int64(to.Hours-from.Hours)*int64(date.Sub(from.Date))+days)/(2*days))
}

// dateAt is the day on which hours between two points were reached, in a straight
// line, the earlier one.
func dateAt(from, to schedule.Point, hours quantity.Hours) quantity.Date {
	run := int64(to.Hours - from.Hours)
	if run <= 0 {
		return from.Date
	}
	return from.Date.AddDays(quantity.Days(int64(hours-from.Hours) * int64(to.Date.Sub(from.Date)) / run))
}
