package jobsheet

import (
	"fmt"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

const maxEdition = 100_000

var scheduleForm = form{
	{"id", "the schedule's id, as diesel-inboard-ellery", required},
	{"edition", "a whole number, as 2", required},
	{"title", "a title, as Inboard diesel, turbocharged", required},
	{"basis", `{ kind: yard, document: the yard's own sheet, edition: "2", page: "1" }`, required},
	{"next_from", "done, grid or window", required},
	{"grace", "{ hours: 10 %, days: 30 }", optional},
	{"tasks", "{ id: engine-oil, title: Change the engine oil, kind: replace, every: { hours: 200, months: 12 } }", required},
}

var (
	basisForm = form{
		{"kind", "maker, class, yard or common-practice", required},
		{"document", "the document's title, as the yard's own sheet", optional},
		{"edition", `the document's edition, as "2"`, optional},
		{"page", `the page, as "1"`, optional},
	}
	graceForm = form{
		{"hours", "hours, as 20, or a share of the interval, as 10 %", optional},
		{"days", "days, as 30", optional},
	}
	scheduleTaskForm = form{
		{"id", "the task's id, as engine-oil", required},
		{"title", "what is to be done, as Change the engine oil", required},
		{"kind", "replace, inspect, clean, adjust or test", required},
		{"every", "{ hours: 200, months: 12 }", either},
		{"once", "{ hours: 50 }", either},
		{"first", "{ hours: 50 }", optional},
		{"with", "the tasks done together with it, as [oil-filter]", optional},
		{"covers", "the tasks that count as done with it, as [belt-look]", optional},
		{"needs", "the evidence it needs, as { filled: engine-oil, level: engine-oil }", optional},
		{"severe", "{ factor: 0.5, when: fuel sulphur over 0.5 % }", optional},
		{"grace", "{ hours: 10 %, days: 30 }", optional},
		{"next_from", "done, grid or window", optional},
	}
	intervalForm = form{
		{"hours", "hours, as 200", optional},
		{"months", "months, as 12", optional},
	}
	needsForm = form{
		{"drained", "a system, as engine-oil", optional},
		{"filled", "a system, as engine-oil", optional},
		{"level", "a system, as engine-oil", optional},
		{"leak_check", "true or false", optional},
		{"part", "a part's item, as oil filter", optional},
		{"reading", "a reading's name, as freezing_point", optional},
	}
	severeForm = form{
		{"factor", "what the interval is multiplied by, as 0.5", required},
		{"when", "the duty that it is for, as fuel sulphur over 0.5 %", required},
	}
)

// ParseSchedule reads a schedule. File is its name in messages; where it has
// a folder in it, the base name must be the schedule's id.
func ParseSchedule(file string, data []byte) (schedule.Schedule, Source, error) {
	s := newSheet(file)
	root, ok := s.read(data)
	if !ok {
		_, err := done(s, 0)
		return schedule.Schedule{}, Source{}, err
	}
	f := root.fields(scheduleForm)
	read := schedule.Schedule{
		ID:       one(f, "id", id),
		Edition:  one(f, "edition", count(maxEdition)),
		Title:    one(f, "title", text),
		NextFrom: one(f, "next_from", enum[schedule.NextFrom](schedule.NextFroms())),
		Tasks:    list(f, "tasks", record.MaxTasks, scheduleTaskForm, scheduleTask),
	}
	if b := group(f, "basis", basisForm, basis); b != nil {
		read.Basis = *b
	}
	if g := group(f, "grace", graceForm, grace); g != nil {
		read.Grace = *g
	}
	f.named(read.ID)
	if e, there := f.values["tasks"]; there && e.node.Kind == yaml.SequenceNode && len(e.node.Content) == 0 {
		e.fail("no tasks: write %s", e.want)
	}
	s.linked(read.Tasks)
	read, err := done(s, read)
	if err != nil {
		return read, Source{}, err
	}
	return read, s.source(), nil
}

func basis(f fields) schedule.Basis {
	return schedule.Basis{
		Kind:     one(f, "kind", enum[schedule.BasisKind](schedule.BasisKinds())),
		Document: one(f, "document", text),
		Edition:  one(f, "edition", text),
		Page:     one(f, "page", text),
	}
}

func grace(f fields) schedule.Grace {
	g := schedule.Grace{Days: one(f, "days", quantity.ParseDays)}
	e, there := f.values["hours"]
	switch {
	case !there:
	case strings.Contains(e.node.Value, "%"):
		g.HoursShare, _ = scalar(e, percent)
	default:
		g.Hours, _ = scalar(e, quantity.ParseHours)
	}
	return g
}

func interval(f fields) schedule.Interval {
	return schedule.Interval{Hours: one(f, "hours", above(quantity.ParseHours)), Months: one(f, "months", above(quantity.ParseMonths))}
}

func scheduleTask(f fields) schedule.Task {
	t := schedule.Task{
		ID:       one(f, "id", id),
		Title:    one(f, "title", text),
		Kind:     one(f, "kind", enum[schedule.Kind](schedule.Kinds())),
		With:     several(f, "with", record.MaxTasks, id),
		Covers:   several(f, "covers", record.MaxTasks, id),
		Grace:    group(f, "grace", graceForm, grace),
		NextFrom: one(f, "next_from", enum[schedule.NextFrom](schedule.NextFroms())),
	}
	before := len(f.sheet.faults)
	if every := group(f, "every", intervalForm, interval); every != nil {
		t.Every = *every
	}
	if once := group(f, "once", intervalForm, interval); once != nil {
		t.Every, t.Once = *once, true
	}
	if first := group(f, "first", intervalForm, interval); first != nil {
		t.First = *first
	}
	if len(f.sheet.faults) == before {
		f.intervals(t)
	}
	if needs := group(f, "needs", needsForm, needsOf); needs != nil {
		t.Needs = *needs
	}
	if severe := group(f, "severe", severeForm, severeOf); severe != nil {
		t.Severe = *severe
	}
	return t
}

// intervals refuses a task that is never due, and a first interval by what
// the task never falls due by, or of one that is due one time only.
func (f fields) intervals(t schedule.Task) {
	every, again := f.values["every"]
	if once, single := f.values["once"]; single {
		if again {
			return // a fault already
		}
		every = once
	}
	if (again || t.Once) && t.Every == (schedule.Interval{}) {
		every.fail("neither hours nor months: write { hours: 200, months: 12 }, or one of them")
		return
	}
	e, first := f.values["first"]
	if first && t.Once {
		e.fail("beside once, which is the first time and the last: take it out")
		return
	}
	if t.First.Hours != 0 && t.Every.Hours == 0 {
		e.fail("hours, but the task is due by months alone: write months, or write hours in every")
	}
	if t.First.Months != 0 && t.Every.Months == 0 {
		e.fail("months, but the task is due by hours alone: write hours, or write months in every")
	}
}

func needsOf(f fields) schedule.Needs {
	return schedule.Needs{
		Drained:   one(f, "drained", id),
		Filled:    one(f, "filled", id),
		Level:     one(f, "level", id),
		LeakCheck: one(f, "leak_check", yesNo),
		Part:      one(f, "part", text),
		Reading:   one(f, "reading", text),
	}
}

func severeOf(f fields) schedule.Severe {
	return schedule.Severe{
		Factor: one(f, "factor", within(quantity.ParseRatio, 1, quantity.One)),
		When:   one(f, "when", text),
	}
}

// linked holds the tasks of a schedule to ids of their own, and what they
// name to tasks of the same schedule.
func (s *sheet) linked(tasks []schedule.Task) {
	var ids []string
	for i, t := range tasks {
		if first := slices.Index(ids, t.ID); t.ID != "" && first >= 0 {
			s.faultAt(fmt.Sprintf("tasks/%d/id", i), "id", "%s is entry %d already: write another id", show(t.ID), first+1)
		}
		ids = append(ids, t.ID)
	}
	ids = slices.Compact(ids)
	for i, t := range tasks {
		s.links(fmt.Sprintf("tasks/%d/with", i), "with", t.ID, t.With, ids)
		s.links(fmt.Sprintf("tasks/%d/covers", i), "covers", t.ID, t.Covers, ids)
	}
}

func (s *sheet) links(path, field, own string, named, ids []string) {
	for i, n := range named {
		at := fmt.Sprintf("%s/%d", path, i)
		switch {
		case n == "":
		case n == own:
			s.faultAt(at, field, "%s names itself: take it out", show(n))
		case !slices.Contains(ids, n):
			s.faultAt(at, field, "%s is no task of this schedule: %s", show(n), instead(n, ids))
		}
	}
}

// faultAt is a fault at the place of a path.
func (s *sheet) faultAt(path, field, format string, args ...any) {
	s.faults = append(s.faults, s.source().Fault(path, field, format, args...))
}
