package check

import (
	"slices"

	"hourseal/record"
	"hourseal/record/logbook"
	"hourseal/record/schedule"
)

// doneHere says whether this job does the task. What an addendum tells counts for
// nothing done.
func (b *bench) doneHere(task schedule.Task) bool {
	return b.Kind != record.Addendum && slices.ContainsFunc(b.Job.Tasks, func(t record.Task) bool {
		done, ok := b.Schedule.Task(t.ID)
		return ok && b.Schedule.Does(t.ID, task.ID) && logbook.Counts(done.Kind, t.Result)
	})
}

// standBefore is where a task stood when the job began.
func (b *bench) standBefore(task schedule.Task) schedule.Standing {
	standing, _ := b.log.Stand(b.Schedule, task, b.here.Date)
	return standing
}

// standAfter is where a task stands after the job.
func (b *bench) standAfter(task schedule.Task) schedule.Standing {
	var events []schedule.Event
	for _, done := range b.log.Done(b.Schedule, task.ID, b.here.Date) {
		events = append(events, done.Event)
	}
	if b.doneHere(task) {
		events = append(events, schedule.Event{Point: b.here})
	}
	duties := append(b.log.Duties(b.here.Date), schedule.DutyFrom{Date: b.here.Date, Duty: b.draft.Job.SevereDuty})
	return b.Schedule.Stand(task, b.Machine.InService, events, duties)
}

// tasks fills the record's list: every task of the schedule, what the sheet says
// of it, and where it stands after the job.
func (b *bench) tasks() []record.Task {
	list := make([]record.Task, 0, len(b.Schedule.Tasks))
	for _, task := range b.Schedule.Tasks {
		standing := b.standAfter(task)
		row := record.Task{
			ID: task.ID, Title: task.Title, Kind: task.Kind,
			Every: task.Usual(b.draft.Job.SevereDuty), Once: task.Once,
			Leeway: standing.Leeway, Due: standing.Due,
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
	list := make([]Next, len(b.Schedule.Tasks))
	for i, task := range b.Schedule.Tasks {
		standing := b.standAfter(task)
		state := standing.At(b.here)
		if state == schedule.Later && standing.Due.SoonBy(b.here, b.use) {
			state = schedule.Soon
		}
		list[i] = Next{Task: task.ID, Due: standing.Due, By: standing.Due.ComesFirst(b.here, b.use), State: state}
	}
	return list
}
