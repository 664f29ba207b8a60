package logbook

import (
	"slices"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// counts says which results of a job count as having done a task of that kind:
// a replacement only when it was made, a look also when it found something.
var counts = map[schedule.Kind][]record.Result{
	schedule.Replace: {record.Done},
	schedule.Clean:   {record.Done, record.OK},
	schedule.Adjust:  {record.Done, record.OK},
	schedule.Inspect: {record.Done, record.OK, record.Watch, record.Defect},
	schedule.Test:    {record.Done, record.OK, record.Watch, record.Defect},
}

// Counts says whether a result counts as having done a task of that kind.
func Counts(kind schedule.Kind, result record.Result) bool {
	return result != 0 && slices.Contains(counts[kind], result)
}

// Done is one time that a task was done.
type Done struct {
	schedule.Event
	Record *record.Earlier // nil where it is stated
	Source string          // of the statement
}

// Done are the times up to a date that a task was done, oldest first.
func (l Log) Done(s schedule.Schedule, task string, until quantity.Date) []Done {
	var list []Done
	for _, stated := range l.Stated {
		if stated.Date <= until && s.Does(stated.Task, task) {
			list = append(list, Done{Event: schedule.Event{Point: stated.Point, Stated: true}, Source: stated.Source})
		}
	}
	own, doing := l.OwnUntil(until), doingOf(s, task)
	for i := range own {
		e := &own[i]
		for j := range e.Record.Tasks {
			if doing.doneIn(e.Record, &e.Record.Tasks[j]) {
				list = append(list, Done{Event: schedule.Event{Point: PointOf(e.Record)}, Record: e})
				break
			}
		}
	}
	for _, done := range l.carriedDone(doing) {
		if done.Date <= until {
			list = append(list, done)
		}
	}
	slices.SortStableFunc(list, func(a, b Done) int { return byPoint(a.Point, b.Point) })
	return list
}

// doing is what does a task by a schedule: the task itself, and what covers it.
type doing struct {
	task  string
	kind  schedule.Kind // 0 where the schedule does not know the task
	kinds map[string]schedule.Kind
}

func doingOf(s schedule.Schedule, task string) doing {
	now, _ := s.Task(task)
	d := doing{task, now.Kind, map[string]schedule.Kind{}}
	for i := range s.Tasks {
		if t := &s.Tasks[i]; s.Does(t.ID, task) {
			d.kinds[t.ID] = t.Kind
		}
	}
	return d
}

// doneIn says whether one row of a record tells that the task was done: by what the
// schedule has each task do now, so that an old look is no new replacement. Where
// the schedule no longer knows what covered the task, the record's own word on when
// it was last done counts.
func (d doing) doneIn(r *record.Record, row *record.Task) bool {
	if kind, does := d.kinds[row.ID]; does && Counts(kind, row.Result) {
		return true
	}
	last := row.Last
	return row.ID == d.task && row.Kind == d.kind && last != nil && !last.Stated &&
		last.Date == r.Job.Date && last.Hours == r.Job.Hours
}

// Duties are the severe duties up to a date: from each record on as that states
// them, which has the machine file's of its day in it, and at the end as the
// machine file states them now besides. Before the first record only what the file
// and that record agree on counts.
func (l Log) Duties(until quantity.Date) []schedule.DutyFrom {
	own := l.OwnUntil(until)
	if len(own) == 0 {
		return []schedule.DutyFrom{{Date: quantity.MinDate, Duty: l.Duty}}
	}
	list := []schedule.DutyFrom{{Date: quantity.MinDate, Duty: l.both(own[0].Record.Job.SevereDuty)}}
	for _, e := range own {
		list = append(list, schedule.DutyFrom{Date: e.Record.Job.Date, Duty: e.Record.Job.SevereDuty})
	}
	return append(list, schedule.DutyFrom{Date: until, Duty: l.DutyOn(until)})
}

// both are the machine file's severe duties that stand in another list too.
func (l Log) both(others []string) schedule.Duty {
	var duty schedule.Duty
	for _, own := range l.Duty {
		if slices.Contains(others, own) {
			duty = append(duty, own)
		}
	}
	return duty
}

// DutyOn is the severe duties in force on a date.
func (l Log) DutyOn(date quantity.Date) schedule.Duty {
	if e := l.Before(date); e != nil {
		return l.DutyWith(e.Record.Job.SevereDuty)
	}
	return l.Duty
}

// DutyWith is the machine file's severe duties and others besides, each once.
func (l Log) DutyWith(others []string) schedule.Duty {
	duty := l.Duty
	for _, other := range others {
		if !slices.Contains(duty, other) {
			duty = append(slices.Clip(duty), other)
		}
	}
	return duty
}

// Stand is where a task stands on a date, and when it was last done; nil without
// a word of that.
func (l Log) Stand(s schedule.Schedule, task schedule.Task, on quantity.Date) (schedule.Standing, *Done) {
	done := l.Done(s, task.ID, on)
	events := make([]schedule.Event, len(done))
	for i := range done {
		events[i] = done[i].Event
	}
	standing := s.Stand(task, l.InService, events, l.Duties(on))
	if len(done) == 0 {
		return standing, nil
	}
	return standing, &done[len(done)-1]
}
