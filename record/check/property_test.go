package check_test

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/check"
	"hourseal/record/fluid"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// anyText is a text that a file may hold: often the longest.
func anyText(t *rapid.T, label string, limit int) string {
	letter := rapid.SampledFrom([]string{"x", "ß", "Ж", "€"}).Draw(t, label)
	n := rapid.SampledFrom([]int{1, 8, limit}).Draw(t, label+" length")
	return strings.Repeat(letter, n)
}

func someText(t *rapid.T, label string, limit int) string {
	if rapid.Bool().Draw(t, label+" there") {
		return anyText(t, label, limit)
	}
	return ""
}

func number[T ~int64](t *rapid.T, label string, low, usual, high T) T {
	return T(rapid.OneOf(rapid.Int64Range(int64(low), int64(usual)), rapid.Int64Range(int64(low), int64(high)), rapid.Just(int64(high))).Draw(t, label))
}

func perhaps[T any](t *rapid.T, label string, draw func() T) *T {
	if rapid.Bool().Draw(t, label+" there") {
		return new(draw())
	}
	return nil
}

func oneOf[T any](t *rapid.T, label string, values ...T) T {
	return rapid.SampledFrom(values).Draw(t, label)
}

func anyHours(t *rapid.T, label string) quantity.Hours {
	return number(t, label, 0, 2000*quantity.Hour, quantity.MaxHours)
}

func anyDate(t *rapid.T, label string) quantity.Date {
	return quantity.Date(rapid.OneOf(rapid.Int64Range(20_000, 21_000), rapid.Int64Range(int64(quantity.MinDate), int64(quantity.MaxDate))).Draw(t, label))
}

func anyMeasured(t *rapid.T, label string) quantity.Measured {
	texts := []string{"9.1 L at 68 C", "9.3 L", "7.7 kg", "2.4 US gal at 68 C"}
	if rapid.IntRange(0, 4).Draw(t, label+" measured") == 0 {
		return quantity.Measured{NotMeasured: true}
	}
	var portions []quantity.Portion
	for range rapid.IntRange(1, quantity.MaxPortions).Draw(t, label+" portions") {
		text := oneOf(t, label, texts...)
		if rapid.IntRange(0, 40).Draw(t, label+" huge") == 0 {
			text = "100000 L" // which no machine holds
		}
		p, err := quantity.ParsePortion(text)
		if err != nil {
			t.Fatal(err)
		}
		portions = append(portions, p)
	}
	return quantity.Measured{Portions: portions}
}

func anyLevel(t *rapid.T, label string) record.Level {
	return record.Level{
		Reading: perhaps(t, label, func() quantity.Ratio { return number(t, label, -100, 1500, fluid.LevelReach) }),
		After:   perhaps(t, label+" after", func() quantity.Minutes { return number(t, label+" after", 0, 20, quantity.MaxMinutes) }),
		At:      perhaps(t, label+" at", func() quantity.Temperature { return number(t, label+" at", -200, 900, 150*quantity.Degree) }),
	}
}

func anySchedule(t *rapid.T) schedule.Schedule {
	s := schedule.Schedule{ID: "plan", Edition: 1, Title: anyText(t, "title", record.MaxText),
		Basis:    schedule.Basis{Kind: schedule.Yard, Document: someText(t, "document", record.MaxText)},
		NextFrom: oneOf(t, "policy", schedule.FromDone, schedule.FromGrid, schedule.FromWindow),
		Grace:    schedule.Grace{HoursShare: number(t, "share", 0, 100, 10*quantity.One), Days: number(t, "grace", 0, 30, quantity.MaxDays)}}
	systems := []string{"", "", "", "", "", "engine-oil", "coolant"}
	for i := range oneOf(t, "tasks", 1, 3, 6, record.MaxTasks) {
		task := schedule.Task{ID: fmt.Sprint("task-", i), Title: "Task", Kind: schedule.Kind(rapid.IntRange(1, 5).Draw(t, "kind")),
			Every: schedule.Interval{Months: number(t, "months", 0, 24, quantity.MaxMonths), Hours: 100 * number(t, "every", 0, 500, quantity.MaxHours/100)},
			Needs: schedule.Needs{Drained: oneOf(t, "drained", systems...), Level: oneOf(t, "level", systems...), LeakCheck: rapid.Bool().Draw(t, "leak check")}}
		if task.Every == (schedule.Interval{}) {
			task.Every.Months = 12
		}
		if i > 0 && rapid.Bool().Draw(t, "covers") {
			task.Covers = []string{fmt.Sprint("task-", i-1)}
		}
		s.Tasks = append(s.Tasks, task)
	}
	return s
}

func anyMachine(t *rapid.T) jobsheet.Machine {
	m := jobsheet.Machine{ID: "gannet-port", Kind: "propulsion diesel", Make: anyText(t, "make", record.MaxText), Model: "4T-75", Serial: anyText(t, "serial", record.MaxText),
		Vessel: jobsheet.Vessel{Name: someText(t, "vessel", record.MaxText), Hull: someText(t, "hull", record.MaxText)}, Schedule: "plan",
		InService:    schedule.Point{Date: quantity.Date(oneOf(t, "in service", 19_000, int(quantity.MinDate))), Hours: oneOf[quantity.Hours](t, "in service hours", 0, 50_000)},
		HoursPerYear: oneOf[quantity.Hours](t, "use", 0, 42_000, quantity.MaxHours)}
	for range rapid.IntRange(0, 3).Draw(t, "statements") {
		m.Earlier = append(m.Earlier, jobsheet.Statement{Task: "task-0", At: schedule.Point{Date: anyDate(t, "stated"), Hours: anyHours(t, "stated")}})
	}
	for _, name := range []string{"engine-oil", "coolant"} {
		s := jobsheet.System{Name: name, AtUpper: number(t, "upper", 0, 10_000, quantity.MaxVolume), Density: oneOf[quantity.Density](t, "density", 0, 880)}
		for range rapid.IntRange(0, record.MaxMeets).Draw(t, "meets") {
			s.Meets = append(s.Meets, oneOf(t, "meets", "API CI-4", "API CI-4"+strings.Repeat(" ", 110)+"-", anyText(t, "meets", record.MaxText)))
			s.Viscosity = append(s.Viscosity, anyText(t, "viscosity", record.MaxText))
		}
		if name == "coolant" {
			s.ProtectTo = perhaps(t, "protect to", func() quantity.Temperature { return -250 })
		}
		m.Systems = append(m.Systems, s)
	}
	return m
}

func anyMeter(t *rapid.T, job *jobsheet.Job) {
	job.Meter = record.Meter{State: record.Running, Reading: new(anyHours(t, "reading"))}
	if rapid.IntRange(0, 3).Draw(t, "meter") == 0 {
		job.Meter = record.Meter{State: oneOf(t, "state", record.Stopped, record.NoMeter), Basis: anyText(t, "basis", record.MaxReason)}
		job.Estimate = new(anyHours(t, "estimate"))
	}
	if rapid.IntRange(0, 3).Draw(t, "change") == 0 {
		job.Meter.Change = &record.MeterChange{FittedAt: anyHours(t, "fitted"), Why: anyText(t, "change", record.MaxText),
			RemovedAt: perhaps(t, "removed", func() quantity.Hours { return anyHours(t, "removed") })}
	}
}

func anyAnswer(t *rapid.T) *record.Answer {
	return &record.Answer{Why: anyText(t, "why", record.MaxReason), Advice: record.Monitor, Told: perhaps(t, "told", func() quantity.Date { return anyDate(t, "told") })}
}

func anyJob(t *rapid.T, s schedule.Schedule) jobsheet.Job {
	job := jobsheet.Job{Machine: "gannet-port", Date: anyDate(t, "date"), Reason: record.Reason(rapid.IntRange(1, len(record.ReasonWords)).Draw(t, "reason")),
		Place: someText(t, "place", record.MaxText), Number: someText(t, "job number", record.MaxText), Notes: someText(t, "notes", record.MaxNotes),
		Source: jobsheet.Source{File: "sheet.yaml"}}
	anyMeter(t, &job)
	for _, task := range s.Tasks {
		if rapid.Bool().Draw(t, "mentioned") {
			continue
		}
		row := record.Task{ID: task.ID, Result: record.Result(rapid.IntRange(1, len(record.ResultWords)).Draw(t, "result"))}
		if row.Result == record.Defect || row.Result == record.Deferred {
			row.Answer = anyAnswer(t)
		}
		if rapid.Bool().Draw(t, "reading") {
			figure, err := quantity.ParseFigure(oneOf(t, "figure", "-27 C", "-10 F", "3", "0.2 mm"))
			if err != nil {
				t.Fatal(err)
			}
			row.Readings = []record.Reading{{Name: "freezing_point", Value: &figure}}
		}
		job.Tasks = append(job.Tasks, row)
	}
	for _, name := range []string{"engine-oil", "coolant"}[:rapid.IntRange(0, 2).Draw(t, "fluids")] {
		f := record.Fluid{System: name, Product: someText(t, "product", record.MaxText), Viscosity: someText(t, "grade", record.MaxText),
			LevelBefore: perhaps(t, "before", func() record.Level { return anyLevel(t, "before") }), Level: perhaps(t, "level", func() record.Level { return anyLevel(t, "level") }),
			Drained: perhaps(t, "drained", func() quantity.Measured { return anyMeasured(t, "drained") }), Filled: perhaps(t, "filled", func() quantity.Measured { return anyMeasured(t, "filled") })}
		for range rapid.IntRange(0, record.MaxMeets).Draw(t, "marks") {
			f.Meets = append(f.Meets, oneOf(t, "mark", "API CK-4", "API CK-4"+strings.Repeat(" ", 110)+"-", "API FA-4", anyText(t, "mark", record.MaxText)))
		}
		job.Fluids = append(job.Fluids, f)
	}
	job.LeakCheck = perhaps(t, "leak check", func() record.LeakCheck {
		return record.LeakCheck{Result: record.Seen, Where: someText(t, "where", record.MaxReason)}
	})
	for range oneOf(t, "parts", 0, 1, record.MaxParts) {
		job.Parts = append(job.Parts, record.Part{Item: anyText(t, "item", record.MaxText), Quantity: 1, SuppliedBy: record.ByYard})
	}
	return job
}

// TestRunAny: whatever a sheet within the limits says, Run answers; and what
// passes is encoded, holds the findings, and nothing in it waits for a reason.
func TestRunAny(t *testing.T) {
	passed := 0
	rapid.Check(t, func(t *rapid.T) {
		in := check.Input{
			Yard:    jobsheet.Yard{Name: anyText(t, "yard", record.MaxText), Kind: record.YardIssuer, Paper: record.A4},
			Machine: anyMachine(t), Schedule: anySchedule(t), Today: oneOf(t, "today", 21_000, quantity.MaxDate), Now: 1_790_000_000, Renderer: 1,
		}
		for range rapid.IntRange(1, 4).Draw(t, "jobs") {
			in.Job = anyJob(t, in.Schedule)
			in.Twins = []check.Twin{{ID: "gannet-starboard",
				Last: perhaps(t, "twin last", func() schedule.Point { return schedule.Point{Date: anyDate(t, "twin"), Hours: anyHours(t, "twin")} }),
				Now:  perhaps(t, "twin now", func() schedule.Point { return schedule.Point{Date: in.Job.Date, Hours: anyHours(t, "twin")} })}}
			result := check.Run(in)
			for _, f := range result.Findings {
				if f.Severity == record.Decide {
					in.Job.Accept = append(in.Job.Accept, jobsheet.Accept{Code: f.Code.String(), Subject: f.Subject, Reason: anyText(t, "accepted", record.MaxReason)})
				}
			}
			slices.SortFunc(in.Job.Accept, func(a, b jobsheet.Accept) int { return strings.Compare(a.Code+"/"+a.Subject, b.Code+"/"+b.Subject) })
			in.Job.Accept = slices.CompactFunc(in.Job.Accept, func(a, b jobsheet.Accept) bool { return a.Code == b.Code && a.Subject == b.Subject })
			result = check.Run(in)
			holds(t, result)
			if result.Passed == nil {
				continue
			}
			passed++
			r := result.Passed.CheckedRecord()
			id := record.ID{byte(len(in.Earlier) + 1)}
			in.Earlier = append(in.Earlier, record.Earlier{ID: id, Record: r})
			if rapid.IntRange(0, 3).Draw(t, "void") == 0 {
				void := *r
				void.Kind, void.Subject = oneOf(t, "kind", record.Void, record.Correction, record.Addendum), &record.Subject{Record: id, Why: "wrong"}
				in.Earlier = append(in.Earlier, record.Earlier{ID: record.ID{byte(len(in.Earlier) + 1), 1}, Record: &void})
			}
		}
	})
	if passed < 5 {
		t.Errorf("only %d jobs passed: the property says next to nothing", passed)
	}
}

// holds is what is true of every result.
func holds(t *rapid.T, r check.Result) {
	want := check.Issuable
	for _, f := range r.Findings {
		if _, known := record.Rules[f.Code]; !known {
			t.Fatalf("finding of no rule: %d", f.Code)
		}
		if f.Severity == record.Refuse {
			want = check.Refused
		}
		if f.Severity == record.Decide && f.Accepted == "" && want != check.Refused {
			want = check.Undecided
		}
	}
	if len(r.Faults) > 0 && want != check.Refused {
		want = check.Malformed
	}
	if r.Outcome != want || (r.Passed != nil) != (want == check.Issuable) {
		t.Fatalf("outcome %s, passed %v, want %s", r.Outcome, r.Passed != nil, want)
	}
	if len(r.Next) != len(r.Draft.Tasks) || len(r.Findings) != len(r.Draft.Findings) {
		t.Fatalf("%d next of %d tasks, %d findings of %d", len(r.Next), len(r.Draft.Tasks), len(r.Draft.Findings), len(r.Findings))
	}
	if r.Passed == nil {
		return
	}
	data, err := record.Encode(r.Passed.CheckedRecord())
	if err != nil {
		t.Fatalf("passed, and cannot be encoded: %v", err)
	}
	again, err := record.Decode(data)
	if err != nil || !reflect.DeepEqual(again, r.Passed.CheckedRecord()) {
		t.Fatalf("passed, and reads back otherwise: %v", err)
	}
}
