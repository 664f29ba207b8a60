package history

import (
	"cmp"
	"slices"

	"hourseal/record"
	"hourseal/record/logbook"
	"hourseal/record/schedule"
)

// adherence works every task out over the records that count.
func (m *Machine) adherence() {
	if len(m.Counted) == 0 {
		return
	}
	first, last := &m.Entries[m.Counted[0]], &m.Entries[m.Counted[len(m.Counted)-1]]
	m.Span = &Span{First: first.Point(), Last: last.Point()}
	for n, i := range m.Counted[1:] {
		m.Span.Run += max(0, m.Entries[i].Record.Job.Hours-m.Entries[m.Counted[n]].Record.Job.Hours)
	}
	ids := m.taskIDs()
	m.Tasks = slices.Grow(m.Tasks, len(ids))
	for _, id := range ids {
		m.Tasks = append(m.Tasks, m.task(id))
	}
}

// taskIDs are the tasks of all schedules: those of the newest record in its order,
// then what only older ones had, by name.
func (m *Machine) taskIDs() []string {
	var ids, older []string
	for n, i := range slices.Backward(m.Counted) {
		for _, row := range m.Entries[i].Record.Tasks {
			switch {
			case slices.Contains(ids, row.ID) || slices.Contains(older, row.ID):
			case n == len(m.Counted)-1:
				ids = append(ids, row.ID)
			default:
				older = append(older, row.ID)
			}
		}
	}
	slices.Sort(older)
	return append(ids, older...)
}

// rowOf is a record's row of a task; nil where its schedule has none.
func rowOf(r *record.Record, id string) *record.Task {
	for i := range r.Tasks {
		if r.Tasks[i].ID == id {
			return &r.Tasks[i]
		}
	}
	return nil
}

// doneIn says whether a record tells that the task of a row was done on that job: by
// its result, or, where another task covers it, by the record's own word on when it
// was last done.
func doneIn(r *record.Record, row *record.Task) bool {
	last := row.Last
	return logbook.Counts(row.Kind, row.Result) ||
		last != nil && !last.Stated && last.Date == r.Job.Date && last.Hours == r.Job.Hours
}

// follower walks along the records and knows what is due.
type follower struct {
	m    *Machine
	id   string
	last *schedule.Point // when it was last done by the records so far
	at   int             // place of the newest record that agrees with that, -1 without one
	// first is the place of the first record that agrees with nothing being on record,
	// -1 without one.
	first int
}

func (m *Machine) follow(id string) follower { return follower{m: m, id: id, at: -1, first: -1} }

// see takes the next record in. Behind a gap nothing of before holds: the record's own
// word on when the task was last done is all that there is.
func (f *follower) see(i int) {
	e := &f.m.Entries[i]
	if e.AfterGap {
		f.last, f.at, f.first = nil, -1, -1
	}
	row := rowOf(e.Record, f.id)
	if row == nil {
		return
	}
	if e.AfterGap && row.Last != nil && !row.Last.Stated {
		f.last = &schedule.Point{Date: row.Last.Date, Hours: row.Last.Hours}
	}
	if doneIn(e.Record, row) {
		if now := e.Point(); f.last == nil || *f.last != now { // what agreed with before does no longer
			f.last, f.at = &now, -1
		}
	}
	if f.agrees(row.Last) {
		f.at = i
		if f.last == nil && f.first < 0 {
			f.first = i
		}
	}
}

// due is the due point in force after the records so far: that of the newest record
// which agrees on when the task was last done. nil: not known. One with neither hours
// nor a date: nothing more falls due.
func (f *follower) due() *DuePoint {
	if f.at < 0 {
		return nil
	}
	row := rowOf(f.m.Entries[f.at].Record, f.id)
	return &DuePoint{Due: row.Due, Every: row.Every, Leeway: row.Leeway, Entry: f.at,
		Stated: row.Last != nil && row.Last.Stated,
		Before: row.Last == nil && past(row.Due, f.m.Entries[f.first].Point())}
}

// past says whether a point lies past due, by hours or by date.
func past(due schedule.Due, at schedule.Point) bool {
	hours, _, days, _ := due.Past(at)
	return hours > 0 || days > 0
}

// agrees says whether a record's word on when the task was last done is what the
// records so far show. A statement is no record.
func (f *follower) agrees(last *record.Last) bool {
	if f.last == nil {
		return last == nil || last.Stated
	}
	return last != nil && !last.Stated && last.Date == f.last.Date && last.Hours == f.last.Hours
}

// same says whether two due points are the same, whichever record says so.
func (d *DuePoint) same(other *DuePoint) bool {
	return other != nil && equal(d.Due.Hours, other.Due.Hours) && equal(d.Due.Date, other.Due.Date) && d.Leeway == other.Leeway
}

func equal[T comparable](a, b *T) bool { return a == b || a != nil && b != nil && *a == *b }

// reached says how a point lies to a due point.
func (d *DuePoint) reached(at schedule.Point) Reached {
	if d == nil {
		return Reached{State: NotTold}
	}
	hours, byHours, days, byDate := d.Past(at)
	var r Reached
	if byHours {
		r.Hours = &hours
	}
	if byDate {
		r.Days = &days
	}
	switch state := d.At(at, d.Every, d.Leeway); {
	case !d.Tells():
		r.State = NotTold
	case state == schedule.Overdue:
		r.State = Late
	case state == schedule.Now:
		r.State = InGrace
	default:
		r.State = Inside
	}
	return r
}

// meterUnknown says whether a meter was changed since the record before, and nobody
// knows what the removed one read: the hours are the least that they can be.
func (e *Entry) meterUnknown() bool {
	change := e.Record.Job.Meter.Change
	return change != nil && change.RemovedAt == nil
}

// reachedBy says how a record lies to a due point. With hours that are the least that
// they can be, it is overdue where it is so by those, or by the date; else by hours it
// is not known.
func (d *DuePoint) reachedBy(e *Entry) Reached {
	r := d.reached(e.Point())
	if d != nil && d.Due.Hours != nil && e.meterUnknown() && r.State != Late {
		return Reached{State: NotTold, Days: r.Days}
	}
	return r
}

// timesDone is in how many records a task was done.
func (m *Machine) timesDone(id string) int {
	n := 0
	for _, i := range m.Counted {
		r := m.Entries[i].Record
		if row := rowOf(r, id); row != nil && doneIn(r, row) {
			n++
		}
	}
	return n
}

// task works one task out.
func (m *Machine) task(id string) Task {
	t := Task{ID: id, Done: make([]Done, 0, m.timesDone(id))}
	f := m.follow(id)
	walk := stretcher{m: m, run: m.Span.Run}
	var was *DuePoint // in force up to the record before
	for n, i := range m.Counted {
		e := &m.Entries[i]
		row := rowOf(e.Record, id)
		due := f.due()
		if n > 0 {
			// What had run past due is certain, whatever comes behind a gap, or by hours
			// that go back.
			before := m.Entries[m.Counted[n-1]].Point()
			if e.AfterGap || e.Point().Hours < before.Hours {
				walk.end(due.reached(before).State)
			}
			// And so it is where another schedule moved the due point, without work.
			if was != nil && !was.same(due) {
				walk.end(was.reached(before).State)
			}
		}
		was = due
		if e.AfterGap {
			due = nil // what was done in between is not known
		}
		if n > 0 {
			walk.segment(n, due, e.meterUnknown())
		}
		if row != nil {
			t.describe(e, row)
			t.answer(i, e, row)
			if doneIn(e.Record, row) {
				done := Done{Entry: i, Point: e.Point(), Result: row.Result, When: due.reachedBy(e)}
				if n > 0 { // before the first record nothing is known
					done.Was = due
				} else {
					done.When = Reached{State: NotTold}
				}
				t.Done = append(t.Done, done)
				walk.end(done.When.State)
			}
		}
		f.see(i)
	}
	t.Now = f.due()
	t.At = t.Now.reached(m.Span.Last)
	walk.end(t.At.State)
	t.Stretches, t.Overdue, t.Unknown, t.Run, t.About = walk.stretches, walk.overdue, walk.unknown, walk.run, walk.about
	t.closeWaits(m.Span.Last)
	return t
}

// describe takes the task's words over from a record; the newest stay.
func (t *Task) describe(e *Entry, row *record.Task) {
	t.Title, t.Kind, t.Once, t.Every, t.Leeway = row.Title, row.Kind, row.Once, row.Every, row.Leeway
	if row.Last != nil && row.Last.Stated {
		t.Stated = &schedule.Point{Date: row.Last.Date, Hours: row.Last.Hours}
	}
	if n := len(t.By); n == 0 || t.By[n-1].ScheduleRef != e.Record.Schedule {
		t.By = append(t.By, ScheduleUsed{e.Record.Schedule, e.Point()})
	}
}

// answer takes down that a record says the task waits, or that it does so no longer.
func (t *Task) answer(i int, e *Entry, row *record.Task) {
	n := len(t.Waits)
	open := n > 0 && t.Waits[n-1].Until == nil
	switch {
	case row.Result == record.Deferred || row.Result == record.Defect:
		if !open {
			t.Waits = append(t.Waits, Wait{Since: e.Point()})
			n++
		}
		w := &t.Waits[n-1]
		w.Entries, w.Result, w.Answer = append(w.Entries, i), row.Result, row.Answer
	case open && doneIn(e.Record, row):
		t.Waits[n-1].Until = new(e.Point())
	}
}

func (t *Task) closeWaits(last schedule.Point) {
	for i := range t.Waits {
		w := &t.Waits[i]
		end := last
		if w.Until != nil {
			end = *w.Until
		}
		w.Ran, w.Took = max(0, end.Hours-w.Since.Hours), end.Date.Sub(w.Since.Date)
	}
}

// DoneLate counts the times that a task was done overdue.
func (t Task) DoneLate() int {
	n := 0
	for _, d := range t.Done {
		if d.When.State == Late {
			n++
		}
	}
	return n
}

// compareWork is the order of tasks by how much was run overdue.
func compareWork(a, b Task) int { return cmp.Compare(b.Overdue, a.Overdue) }
