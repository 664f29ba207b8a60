package check

import (
	"cmp"
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

func counted(kind schedule.Kind, result record.Result) bool {
	return slices.Contains(counts[kind], result)
}

// eventsBefore are the times that a task was done before this job, oldest
// first: as stated in the machine file, then as recorded.
func (b *bench) eventsBefore(task schedule.Task) []schedule.Event {
	var events []schedule.Event
	for _, s := range b.Machine.Earlier {
		if b.does(s.Task, task.ID) && s.At.Date <= b.here.Date {
			events = append(events, schedule.Event{Point: s.At, Stated: true})
		}
	}
	for _, e := range b.counting {
		if e.Record.Job.Date > b.here.Date {
			continue
		}
		for _, t := range e.Record.Tasks {
			if b.does(t.ID, task.ID) && counted(t.Kind, t.Result) {
				events = append(events, schedule.Event{Point: pointOf(e.Record)})
				break
			}
		}
	}
	slices.SortStableFunc(events, func(a, b schedule.Event) int {
		return cmp.Or(cmp.Compare(a.Date, b.Date), cmp.Compare(a.Hours, b.Hours))
	})
	return events
}

// does says whether doing one task counts as doing another: the same one, or
// one that covers it.
func (b *bench) does(done, task string) bool {
	if done == task {
		return true
	}
	t, ok := b.Schedule.Task(done)
	return ok && slices.Contains(t.Covers, task)
}

// doneHere says whether this job does the task.
func (b *bench) doneHere(task schedule.Task) bool {
	return slices.ContainsFunc(b.Job.Tasks, func(t record.Task) bool {
		done, ok := b.Schedule.Task(t.ID)
		return ok && b.does(t.ID, task.ID) && counted(done.Kind, t.Result)
	})
}

// standBefore is where a task stood when the job began.
func (b *bench) standBefore(task schedule.Task) schedule.Standing {
	return b.Schedule.Stand(task, b.Machine.InService, b.eventsBefore(task))
}

// tasks fills the record's list: every task of the schedule, what the sheet says
// of it, and where it stands after the job.
func (b *bench) tasks() []record.Task {
	list := make([]record.Task, 0, len(b.Schedule.Tasks))
	for _, task := range b.Schedule.Tasks {
		events := b.eventsBefore(task)
		if b.doneHere(task) {
			events = append(events, schedule.Event{Point: b.here})
		}
		standing := b.Schedule.Stand(task, b.Machine.InService, events)
		row := record.Task{
			ID: task.ID, Title: task.Title, Kind: task.Kind, Every: task.Every,
			Leeway: b.Schedule.Leeway(task), Due: standing.Due,
		}
		if last := standing.Last; last != nil {
			row.Last = &record.Last{Date: last.Date, Hours: last.Hours, Stated: last.Stated}
		}
		for _, t := range b.Job.Tasks {
			if t.ID == task.ID {
				row.Result, row.Answer, row.LookAgain, row.Readings, row.DoneBy = t.Result, t.Answer, t.LookAgain, t.Readings, t.DoneBy
			}
		}
		list = append(list, row)
	}
	return list
}

// next is when each task falls due, seen from this job.
func (b *bench) next() []Next {
	use := b.use()
	list := make([]Next, len(b.draft.Tasks))
	for i, t := range b.draft.Tasks {
		state := t.Due.At(b.here, t.Every, t.Leeway)
		if t.Last == nil || t.Last.Stated {
			state = min(state, schedule.Now) // due; without a sealed record of it, never late
		}
		list[i] = Next{Task: t.ID, Due: t.Due, By: t.Due.ComesFirst(b.here, use), State: state}
	}
	return list
}

// use is the machine's expected hours a year: as the machine file states, else
// the mean of its records over two months or more; 0 when neither is known.
func (b *bench) use() quantity.Hours {
	if b.Machine.HoursPerYear > 0 {
		return b.Machine.HoursPerYear
	}
	if len(b.counting) == 0 {
		return 0
	}
	first, last := b.counting[0].Record, b.counting[len(b.counting)-1].Record
	days := int64(last.Job.Date.Sub(first.Job.Date))
	if days < 60 {
		return 0
	}
	// An estimate may have been too high, and a use below nothing is none.
	return max(0, quantity.Hours(int64(last.Job.Hours-first.Job.Hours)*36525/(days*100)))
}

func pointOf(r *record.Record) schedule.Point {
	return schedule.Point{Date: r.Job.Date, Hours: r.Job.Hours}
}
