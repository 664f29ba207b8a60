package check

import (
	"slices"
	"strconv"
	"strings"

	"hourseal/record"
	"hourseal/record/logbook"
	"hourseal/record/schedule"
)

// waits says whether a result leaves something for later, which needs a reason.
func waits(r record.Result) bool { return r == record.Defect || r == record.Deferred }

func answerRules(b *bench) {
	missing := func(result record.Result, answer *record.Answer, subject, at string) {
		if waits(result) && (answer == nil || answer.Why == "") {
			b.find(record.Refuse, at, record.Finding{Code: record.AnswerMissing, Subject: subject, Text: result.String()})
		}
	}
	for i, t := range b.Job.Tasks {
		missing(t.Result, t.Answer, t.ID, path("tasks", i))
	}
	for i, w := range b.Job.OtherWork {
		missing(w.Result, w.Answer, "other work "+strconv.Itoa(i+1), path("other_work", i))
	}
}

// evidenceRules ask for what the schedule needs of a task that counts as done.
// A leak check has a rule of its own.
func evidenceRules(b *bench) {
	for i, t := range b.Job.Tasks {
		task, ok := b.Schedule.Task(t.ID)
		if !ok || !logbook.Counts(task.Kind, t.Result) {
			continue
		}
		for _, missing := range b.missing(task.Needs, t) {
			b.find(record.Refuse, path("tasks", i), record.Finding{Code: record.EvidenceMissing, Subject: t.ID, Text: missing})
		}
	}
}

// missing lists what the needs of a task ask for and the sheet does not state.
// "Not measured" is a statement.
func (b *bench) missing(needs schedule.Needs, t record.Task) []string {
	var list []string
	need := func(what, name string, stated bool) {
		if name != "" && !stated {
			list = append(list, what+" "+name)
		}
	}
	fluid := func(system string) record.Fluid {
		for _, f := range b.Job.Fluids {
			if f.System == system {
				return f
			}
		}
		return record.Fluid{}
	}
	need("drained", needs.Drained, fluid(needs.Drained).Drained != nil)
	need("filled", needs.Filled, fluid(needs.Filled).Filled != nil)
	need("level", needs.Level, fluid(needs.Level).Level != nil)
	need("part", needs.Part, slices.ContainsFunc(b.Job.Parts, func(p record.Part) bool {
		return strings.EqualFold(p.Item, needs.Part)
	}))
	need("reading", needs.Reading, slices.ContainsFunc(t.Readings, func(r record.Reading) bool {
		return r.Name == needs.Reading
	}))
	return list
}

// leakRules want a look for leaks after an oil or filter change, and an answer
// when one was seen.
func leakRules(b *bench) {
	if check := b.Job.LeakCheck; check != nil {
		if check.Result == record.Seen {
			b.find(record.Decide, "leak_check", record.Finding{Code: record.LeakSeen, Text: check.Where})
		}
		return
	}
	if b.Kind == record.Addendum {
		return
	}
	for i, t := range b.Job.Tasks {
		task, ok := b.Schedule.Task(t.ID)
		if ok && t.Result == record.Done && task.WantsLeakCheck() {
			b.find(record.Decide, path("tasks", i), record.Finding{Code: record.LeakCheckMissing, Subject: t.ID})
			return
		}
	}
}

// timelinessRules say how early or late a task was done, counted from its due
// point; only where an earlier sealed record has it.
func timelinessRules(b *bench) {
	if b.Kind == record.Addendum {
		return
	}
	for i, t := range b.Job.Tasks {
		task, ok := b.Schedule.Task(t.ID)
		if !ok || !logbook.Counts(task.Kind, t.Result) {
			continue
		}
		before := b.standBefore(task)
		if !before.Recorded() {
			continue
		}
		for _, f := range timeliness(before.Due, b.here, before.Leeway) {
			f.Subject = t.ID
			b.find(record.Note, path("tasks", i), f)
		}
	}
}

// timeliness gives the findings about one due point: late or in its grace, by
// hours and by date each for itself; early only when it is early by both and by
// more than the grace.
func timeliness(due schedule.Due, at schedule.Point, leeway schedule.Leeway) []record.Finding {
	hours, byHours, days, byDate := due.Past(at)
	var list []record.Finding
	if byHours && hours > 0 {
		list = append(list, record.Finding{Code: lateOrInGrace(hours > leeway.Hours), Value: num(hours), Limit: num(*due.Hours), Unit: record.InHours})
	}
	if byDate && days > 0 {
		list = append(list, record.Finding{Code: lateOrInGrace(days > leeway.Days), Value: num(days), Unit: record.InDays})
	}
	early := (!byHours || -hours > leeway.Hours) && (!byDate || -days > leeway.Days)
	switch {
	case len(list) > 0 || !early:
	case byHours:
		list = append(list, record.Finding{Code: record.DoneEarly, Value: num(-hours), Limit: num(*due.Hours), Unit: record.InHours})
	case byDate:
		list = append(list, record.Finding{Code: record.DoneEarly, Value: num(-days), Unit: record.InDays})
	}
	return list
}

func lateOrInGrace(late bool) record.Code {
	if late {
		return record.DoneLate
	}
	return record.DoneInGrace
}

// togetherRule notes a task that was done without one which the schedule has done
// together with it.
func togetherRule(b *bench) {
	if b.Kind == record.Addendum {
		return
	}
	for i, t := range b.Job.Tasks {
		task, ok := b.Schedule.Task(t.ID)
		if !ok || !logbook.Counts(task.Kind, t.Result) {
			continue
		}
		for _, with := range task.With {
			mentioned := slices.ContainsFunc(b.Job.Tasks, func(other record.Task) bool { return other.ID == with })
			if partner, ok := b.Schedule.Task(with); ok && !mentioned && !b.doneHere(partner) {
				b.find(record.Note, path("tasks", i), record.Finding{Code: record.DoneWithout, Subject: t.ID, Text: with})
			}
		}
	}
}

// severeDutyRule notes the duty that shortens intervals from here on.
func severeDutyRule(b *bench) {
	if b.Kind == record.Addendum {
		return
	}
	for _, duty := range b.draft.Job.SevereDuty {
		b.find(record.Note, "severe_duty", record.Finding{Code: record.SevereDuty, Text: duty})
	}
}

// notMentionedRule asks about tasks that are due and that the sheet does not
// speak of: a decision on a scheduled job, a note on others.
func notMentionedRule(b *bench) {
	if b.Kind == record.Addendum {
		return
	}
	severity := record.Note
	if b.Job.Reason == record.Scheduled {
		severity = record.Decide
	}
	for _, task := range b.Schedule.Tasks {
		// A covering task speaks for this one only when it was done.
		mentioned := slices.ContainsFunc(b.Job.Tasks, func(t record.Task) bool { return t.ID == task.ID })
		if mentioned || b.doneHere(task) {
			continue
		}
		before := b.standBefore(task)
		if before.At(b.here) < schedule.Now {
			continue
		}
		f := dueFinding(before, b.here)
		f.Code, f.Subject = record.DueNotMentioned, task.ID
		b.find(severity, "tasks", f)
	}
}

// dueFinding says since which point a task is due, and by how much that is past
// where a sealed record makes it late: without one only the point.
func dueFinding(before schedule.Standing, here schedule.Point) record.Finding {
	recorded := before.Recorded()
	hours, byHours, days, _ := before.Due.Past(here)
	switch {
	case byHours && hours >= 0 && recorded:
		return record.Finding{Value: num(hours), Limit: num(*before.Due.Hours), Unit: record.InHours}
	case byHours && hours >= 0:
		return record.Finding{Limit: num(*before.Due.Hours), Unit: record.InHours}
	case recorded:
		return record.Finding{Value: num(days), Unit: record.InDays}
	default:
		return record.Finding{Limit: num(*before.Due.Date), Unit: record.AsDate}
	}
}
