package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"hourseal/record"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
)

// A job can be said in options instead of a sheet, for another program of the yard to
// call: each value in its one-line form, with what it is of before an equals sign. The
// tables below are all of them. What a table's set says of a value is an error with
// what to type instead.

// jobOption is said once, of the whole job, at a path as in jobsheet.Source.
type jobOption struct {
	name, path, usage string
	set               func(j *jobsheet.Job, text string) error
}

var jobOptions = []jobOption{
	{"date", "date", "the date of the job, `DATE`, as 2026-05-04 or 4 May 2026; today where left out", to(func(j *jobsheet.Job) *quantity.Date { return &j.Date }, jobsheet.LineDate)},
	{"hours", "hours", "what the hour meter reads, `READING`: 812.6; 'stopped, 810 by engine log'", func(j *jobsheet.Job, text string) (err error) {
		j.Meter, j.Estimate, err = jobsheet.LineMeter(text)
		return err
	}},
	{"meter-change", "meter_change", "a new meter, and why, `READINGS`: '1482.3 to 12.0, glass broken'", func(j *jobsheet.Job, text string) (err error) {
		j.Meter.Change, err = some(jobsheet.LineMeterChange(text))
		return err
	}},
	{"reason", "reason", "why the job was done, `WORD`, as on a job sheet: scheduled", to(func(j *jobsheet.Job) *record.Reason { return &j.Reason }, jobsheet.LineReason)},
	{"job-number", "job_number", "the yard's own number of the job, `NUMBER`", to(func(j *jobsheet.Job) *string { return &j.Number }, jobsheet.LineText)},
	{"place", "place", "where it was done, `WHERE`: 'Port Ellery, east slip'", to(func(j *jobsheet.Job) *string { return &j.Place }, jobsheet.LineText)},
	{"technician", "technician", "who did it, `WHO`: '118, name Pat Ellery, Ellery Slip card'", to(func(j *jobsheet.Job) *record.By { return &j.By }, jobsheet.LineBy)},
	{"fuel-used", "fuel_used", "fuel burnt since the last service, `AMOUNT`: '1800 L'", func(j *jobsheet.Job, text string) (err error) {
		j.FuelUsed, err = some(jobsheet.LineAmount(text))
		return err
	}},
	{"leak-check", "leak_check", "the look for leaks, `RESULT`: 'none seen after 10 min'; 'seen at drain plug'", func(j *jobsheet.Job, text string) (err error) {
		j.LeakCheck, err = some(jobsheet.LineLeakCheck(text))
		return err
	}},
	{"notes", "notes", "what the next reader should know, in one line or several, `TEXT`", to(func(j *jobsheet.Job) *string { return &j.Notes }, jobsheet.LineNotes)},
}

// listOption may be said again, for one more entry of a list.
type listOption struct {
	name, path, usage string
	limit             int
	// keyed: what the entry is of stands before an equals sign.
	keyed bool
	// once: only one entry for each of that.
	once bool
	add  func(j *jobsheet.Job, key, text string) error
}

var listOptions = []listOption{
	{name: "severe-duty", path: "severe_duty", usage: "a severe duty that it runs under from this job until the next, `DUTY`", limit: record.MaxDuties,
		add: func(j *jobsheet.Job, _, text string) error {
			duty, err := jobsheet.LineText(text)
			if err == nil && slices.Contains(j.SevereDuty, duty) {
				err = fmt.Errorf("%q is written twice: keep one", duty)
			}
			j.SevereDuty = append(j.SevereDuty, duty)
			return err
		}},
	{name: "task", path: "tasks", usage: "what became of a task (done, ok, watch, defect, deferred), `TASK=RESULT`: engine-oil=done", limit: record.MaxTasks, keyed: true, once: true,
		add: func(j *jobsheet.Job, key, text string) error {
			if err := jobsheet.CheckID(key); err != nil {
				return err
			}
			result, by, err := jobsheet.LineResult(text)
			j.Tasks = append(j.Tasks, record.Task{ID: key, Result: result, DoneBy: by})
			return err
		}},
	{name: "other-work", path: "other_work", usage: "other work, behind bars the reason and the answer, `RESULT: TEXT`: 'done: Tightened the clamp'", limit: record.MaxOtherWork,
		add: func(j *jobsheet.Job, _, text string) error {
			work, err := jobsheet.LineOtherWork(text)
			j.OtherWork = append(j.OtherWork, work)
			return err
		}},
	{name: "topped-up", path: "topped_up", usage: "added since the last service, `SYSTEM=AMOUNT`: 'engine-oil=0.5 L'", limit: record.MaxTopUps, keyed: true, once: true,
		add: func(j *jobsheet.Job, key, text string) error {
			if err := jobsheet.CheckID(key); err != nil {
				return err
			}
			amount, err := jobsheet.LineAmount(text)
			j.ToppedUp = append(j.ToppedUp, record.TopUp{System: key, Amount: amount})
			return err
		}},
	{name: "waste", path: "waste", usage: "where what came out went, `SYSTEM=WHERE`: 'engine-oil=8.8 L to harbour oil bank, receipt 5521'", limit: record.MaxWaste, keyed: true,
		add: func(j *jobsheet.Job, key, text string) error {
			waste, err := jobsheet.LineWaste(key, text)
			j.Waste = append(j.Waste, waste)
			return err
		}},
	{name: "part", path: "parts", usage: "a part fitted, `ITEM=NUMBER`: 'oil filter=2 x CR-2214, serial 0000714, by customer'; 'belt=-'", limit: record.MaxParts, keyed: true,
		add: func(j *jobsheet.Job, key, text string) error {
			part, err := jobsheet.LinePart(key, text)
			j.Parts = append(j.Parts, part)
			return err
		}},
	{name: "file", path: "files", usage: "a file in jobs/files that goes with the record, `NAME`: plate.jpg", limit: record.MaxFiles,
		add: func(j *jobsheet.Job, _, name string) error {
			err := jobsheet.CheckFileName(name)
			if err == nil && slices.ContainsFunc(j.Files, func(other string) bool { return strings.EqualFold(name, other) }) {
				err = fmt.Errorf("%q is written twice: keep one", name)
			}
			j.Files = append(j.Files, name)
			return err
		}},
	{name: "accept", path: "accept", usage: "the reason for a finding that needs one, as check names it, `CODE=WHY`: 'oil-category/engine-oil=label washed off'", limit: record.MaxFindings, keyed: true, once: true,
		add: func(j *jobsheet.Job, key, text string) error {
			accept, err := jobsheet.LineAccept(key, text)
			accept.At = "--accept " + key
			j.Accept = append(j.Accept, accept)
			return err
		}},
}

// ofOption says more of a task or a fluid, at a path below it.
type ofOption[T any] struct {
	name  string
	paths []string
	usage string
	set   func(of *T, text string) error
}

var taskOptions = []ofOption[record.Task]{
	{"why", []string{"why"}, "why a task waits, `TASK=REASON`: 'impeller=part on order'", func(t *record.Task, text string) (err error) {
		answerTo(t).Why, err = jobsheet.LineWhy(text)
		return err
	}},
	{"answer", []string{"advice", "told", "owner"}, "advice, owner's word and date told, `TASK=ANSWER`: 'impeller=next-service, agreed, 2026-05-04'", func(t *record.Task, text string) error {
		a, err := jobsheet.LineAnswer(text)
		a.Why = answerTo(t).Why
		*t.Answer = a
		return err
	}},
	{"look-again", []string{"look_again"}, "when to look again, and why, `TASK=WHEN`: 'belt-look=900 h or 2026-10-01, light glaze on the back'", func(t *record.Task, text string) error {
		again, why, err := jobsheet.LineLookAgain(text)
		t.LookAgain = &again
		if why == "" {
			return err
		}
		if answerTo(t).Why != "" {
			return fmt.Errorf("%q, and --why says a reason already: keep one", why)
		}
		t.Answer.Why = why
		return err
	}},
}

var fluidOptions = []ofOption[record.Fluid]{
	{"level-before", []string{"level_before"}, "the dipstick as found, 0 to 1 between the marks, `SYSTEM=LEVEL`: 'engine-oil=0.3 after 20 min at 18 C'", func(f *record.Fluid, text string) (err error) {
		f.LevelBefore, err = some(jobsheet.LineLevel(text))
		return err
	}},
	{"drained", []string{"drained"}, "what came out, `SYSTEM=AMOUNT`: 'engine-oil=2.4 US gal at 68 C'; 'engine-oil=not measured'", func(f *record.Fluid, text string) (err error) {
		f.Drained, err = some(jobsheet.LineAmount(text))
		return err
	}},
	{"filter-in-drained", []string{"drained_includes_filter"}, "whether that includes what the filter held, yes or no, `SYSTEM=YES`: engine-oil=no", func(f *record.Fluid, text string) (err error) {
		f.WithFilter, err = some(jobsheet.LineYesNo(text))
		return err
	}},
	{"seen", []string{"seen"}, "what was seen in it, of nothing, water, metal, fuel, `SYSTEM=WHAT`: 'engine-oil=metal | filings on the plug | m w'", func(f *record.Fluid, text string) (err error) {
		f.Saw, f.Answer, err = jobsheet.LineSeen(text)
		return err
	}},
	{"filled", []string{"filled"}, "what went in, `SYSTEM=AMOUNT`: 'engine-oil=5 L at 16 C, 4.3 L at 16 C'", func(f *record.Fluid, text string) (err error) {
		f.Filled, err = some(jobsheet.LineAmount(text))
		return err
	}},
	{"drawn-down", []string{"drawn_down"}, "drawn off again after the fill, `SYSTEM=AMOUNT`: 'engine-oil=0.2 L'", func(f *record.Fluid, text string) (err error) {
		f.DrawnDown, err = some(jobsheet.LineAmount(text))
		return err
	}},
	{"product", []string{"product", "batch", "viscosity", "meets", "glycol"}, "what was filled, `SYSTEM=PRODUCT`: 'engine-oil=Harrow HD, 15W-40, API CK-4, batch H-0612'", func(f *record.Fluid, text string) error {
		p, err := jobsheet.LineProduct(text)
		f.Product, f.Batch, f.Viscosity, f.Meets, f.Glycol = p.Name, p.Batch, p.Viscosity, p.Meets, p.Glycol
		return err
	}},
	{"level", []string{"level"}, "the dipstick as left, `SYSTEM=LEVEL`: 'engine-oil=0.85 after 15 min at 45 C'", func(f *record.Fluid, text string) (err error) {
		f.Level, err = some(jobsheet.LineLevel(text))
		return err
	}},
}

// readingOption is of a task and of one of its readings.
const (
	readingOption = "reading"
	readingUsage  = "a figure measured, `TASK/NAME=FIGURE`: 'coolant-strength/freezing_point=-27 C'; 'valves/gap=found 0.25 mm, left 0.20 mm'"
)

// closeoutValueFlags are the options of all tables, in the order of a job sheet.
var closeoutValueFlags = valueFlags()

func valueFlags() []cli.Flag {
	usages := map[string]string{readingOption: readingUsage}
	for _, o := range jobOptions {
		usages[o.name] = o.usage
	}
	for _, o := range listOptions {
		usages[o.name] = o.usage
	}
	for _, o := range taskOptions {
		usages[o.name] = o.usage
	}
	for _, o := range fluidOptions {
		usages[o.name] = o.usage
	}
	var flags []cli.Flag
	for _, name := range []string{"date", "hours", "meter-change", "reason", "job-number", "place", "severe-duty", "fuel-used", "technician",
		"task", "why", "answer", "look-again", "reading", "other-work",
		"level-before", "drained", "filter-in-drained", "seen", "filled", "drawn-down", "product", "level",
		"topped-up", "waste", "part", "leak-check", "file", "accept", "notes"} {
		flags = append(flags, valueFlag{&cli.StringSliceFlag{Name: name, Usage: usages[name], KeepSpace: true}})
	}
	return flags
}

// valueFlag keeps all values that were given, as they are typed: of one that may be
// said once the library would keep the last without a word. It is shown like any other.
type valueFlag struct{ *cli.StringSliceFlag }

func (f valueFlag) String() string {
	return (&cli.StringFlag{Name: f.Name, Usage: f.Usage}).String()
}

// hasValueFlags says whether any of the job was said in options.
func hasValueFlags(c *cli.Context) bool {
	return slices.ContainsFunc(closeoutValueFlags, func(f cli.Flag) bool { return c.IsSet(f.Names()[0]) })
}

// to sets the value at a place of a job.
func to[T any](place func(*jobsheet.Job) *T, read func(string) (T, error)) func(*jobsheet.Job, string) error {
	return func(j *jobsheet.Job, text string) (err error) {
		*place(j), err = read(text)
		return err
	}
}

func some[T any](value T, err error) (*T, error) { return &value, err }

// answerTo is the answer to a task, an empty one where nothing was said yet.
func answerTo(t *record.Task) *record.Answer {
	if t.Answer == nil {
		t.Answer = &record.Answer{}
	}
	return t.Answer
}
