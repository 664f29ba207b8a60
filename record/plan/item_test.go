package plan_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/jobsheet"
	"hourseal/record/plan"
	"hourseal/record/quantity"
	"hourseal/record/recordtest"
	"hourseal/record/schedule"
)

func day(t testing.TB, text string) quantity.Date {
	t.Helper()
	d, err := quantity.ParseDate(text)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func hours(t testing.TB, text string) quantity.Hours {
	t.Helper()
	h, err := quantity.ParseHours(text)
	if err != nil {
		t.Fatal(err)
	}
	return h
}

const sulphur = "fuel sulphur over 0.5 %"

// yardPlan is the yard's own schedule, with a break-in besides.
func yardPlan() schedule.Schedule {
	year := schedule.Interval{Hours: 200 * quantity.Hour, Months: 12}
	return schedule.Schedule{ID: "diesel-inboard-ellery", Edition: 2, NextFrom: schedule.FromDone, Grace: schedule.Grace{HoursShare: 100, Days: 30}, Tasks: []schedule.Task{
		{ID: "engine-oil", Kind: schedule.Replace, Every: year, First: schedule.Interval{Hours: 50 * quantity.Hour}, With: []string{"oil-filter"}, Severe: schedule.Severe{Factor: 500, When: sulphur}},
		{ID: "oil-filter", Kind: schedule.Replace, Every: year},
		{ID: "belt-look", Kind: schedule.Inspect, Every: year},
		{ID: "belt", Kind: schedule.Replace, Every: schedule.Interval{Hours: 1000 * quantity.Hour, Months: 48}, Covers: []string{"belt-look"}},
		{ID: "coolant-strength", Kind: schedule.Test, Every: schedule.Interval{Months: 12}},
		{ID: "impeller", Kind: schedule.Replace, Every: schedule.Interval{Hours: 400 * quantity.Hour, Months: 12}},
		{ID: "bolts", Kind: schedule.Adjust, Once: true, Every: schedule.Interval{Hours: 50 * quantity.Hour}},
	}}
}

func gannetPort(t testing.TB) jobsheet.Machine {
	return jobsheet.Machine{ID: "gannet-port", InService: schedule.Point{Date: day(t, "2024-03-18")}, HoursPerYear: 420 * quantity.Hour}
}

// visit is a job at "DATE READING" on a meter with an offset; what it did not
// speak of has no result.
type visit struct {
	when, offset string
	tasks        []record.Task
	change       func(*record.Record)
}

// result is what a visit did about a task of the yard's schedule.
func result(task string, r record.Result, more ...any) record.Task {
	of, _ := yardPlan().Task(task)
	row := record.Task{ID: task, Kind: of.Kind, Result: r}
	for _, m := range more {
		switch m := m.(type) {
		case record.Advice:
			row.Answer = &record.Answer{Why: "no part", Advice: m}
		case record.LookAgain:
			row.LookAgain = &m
		}
	}
	return row
}

func chainOf(t testing.TB, visits ...visit) []record.Earlier {
	t.Helper()
	var list []record.Earlier
	for i, v := range visits {
		r := recordtest.Example()
		date, reading, _ := strings.Cut(v.when, " ")
		r.Number, r.Tasks, r.Schedule.Digest = uint32(i+1), v.tasks, yardPlan().Digest()
		r.Job.Date, r.Job.Meter.Reading = day(t, date), new(hours(t, reading))
		if v.offset != "" {
			r.Job.Meter.Offset = hours(t, v.offset)
		}
		r.Job.Hours = *r.Job.Meter.Reading + r.Job.Meter.Offset
		if v.change != nil {
			v.change(r)
		}
		list = append(list, record.Earlier{ID: record.ID{byte(i + 1)}, Record: r})
	}
	return list
}

// planOn makes the plan of the port engine at "DATE" or "DATE READING".
func planOn(t testing.TB, when string, chain []record.Earlier) plan.Plan {
	t.Helper()
	return makePlan(t, when, plan.Input{Machine: gannetPort(t), Schedule: yardPlan(), Chain: chain})
}

func makePlan(t testing.TB, when string, in plan.Input) plan.Plan {
	t.Helper()
	p, err := plan.Make(asked(t, when, in))
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func asked(t testing.TB, when string, in plan.Input) plan.Input {
	t.Helper()
	date, reading, given := strings.Cut(when, " ")
	in.On = day(t, date)
	if given {
		in.Reading = new(hours(t, reading))
	}
	return in
}

// taskOf is one item in words: state, due hours and date, which comes first, and
// what is open: "result date look-again-hours look-again-date".
func taskOf(t testing.TB, p plan.Plan, task string) string {
	t.Helper()
	i := slices.IndexFunc(p.Items, func(item plan.Item) bool { return item.Task.ID == task })
	if i < 0 {
		t.Fatalf("no task %s", task)
	}
	item := p.Items[i]
	words := []string{item.State.String(), hoursOrDash(item.Due.Hours), dateOrDash(item.Due.Date), item.By}
	if o := item.Open; o != nil {
		words = append(words, "open:", o.Result.String(), o.Date.String(), hoursOrDash(o.LookAgain.Hours), dateOrDash(o.LookAgain.Date))
	}
	return strings.Join(words, " ")
}

func hoursOrDash(h *quantity.Hours) string {
	if h == nil {
		return "-"
	}
	return h.String()
}

func dateOrDash(d *quantity.Date) string {
	if d == nil {
		return "-"
	}
	return d.String()
}

// TestOpen: what the last word on a task leaves open, and what closes it.
func TestOpen(t *testing.T) {
	at := func(h string) record.LookAgain { return record.LookAgain{Hours: new(hours(t, h))} }
	on := func(d string) record.LookAgain { return record.LookAgain{Date: new(day(t, d))} }
	watched := visit{when: "2026-05-04 812.6", tasks: []record.Task{result("belt-look", record.Watch, at("900"))}}
	defect := visit{when: "2026-05-04 812.6", tasks: []record.Task{result("belt-look", record.Defect, record.BeforeUse)}}
	then := func(when string, tasks ...record.Task) visit { return visit{when: when, tasks: tasks} }
	for _, c := range []struct {
		name       string
		visits     []visit
		when, task string
		want       string
	}{
		{"nothing said", nil, "2024-04-01 10", "belt-look", "later 200 2025-03-18 hours"},
		{"looked at", []visit{then("2026-05-04 812.6", result("belt-look", record.OK))}, "2026-05-05 813", "belt-look", "later 1012.6 2027-05-04 hours"},
		{"put off, and due anyway", []visit{then("2026-05-04 812.6", result("impeller", record.Deferred, record.NextService))}, "2026-05-05 813", "impeller",
			"due 400 2025-03-18 date open: deferred 2026-05-04 - -"},
		{"put off, and advised before use", []visit{then("2024-05-04 30", result("belt", record.Deferred, record.BeforeUse))}, "2024-05-05 31", "belt",
			"due 1000 2028-03-18 hours open: deferred 2024-05-04 - -"},
		{"put off early, to the next service", []visit{then("2024-05-04 30", result("belt", record.Deferred, record.NextService))}, "2024-05-05 31", "belt",
			"later 1000 2028-03-18 hours open: deferred 2024-05-04 - -"},
		{"found and left", []visit{then("2026-05-04 812.6", result("belt-look", record.Defect, record.Monitor))}, "2026-05-05 813", "belt-look",
			"soon 1012.6 2027-05-04 hours open: defect 2026-05-04 - -"},
		{"found and left, before use", []visit{defect}, "2026-05-05 813", "belt-look", "due 1012.6 2027-05-04 hours open: defect 2026-05-04 - -"},
		{"before the day it was found", []visit{defect}, "2026-05-03 800", "belt-look", "due 200 2025-03-18 hours"},

		// Another look: 20 h before, a tenth of 200 h, it is soon; never overdue.
		{"watched", []visit{watched}, "2026-05-04 812.6", "belt-look", "later 900 2027-05-04 hours open: watch 2026-05-04 900 -"},
		{"watched, soon", []visit{watched}, "2026-06-20 880", "belt-look", "soon 900 2027-05-04 hours open: watch 2026-05-04 900 -"},
		{"watched, at", []visit{watched}, "2026-06-20 900", "belt-look", "due 900 2027-05-04 hours open: watch 2026-05-04 900 -"},
		{"watched, long past", []visit{watched}, "2026-06-20 1012", "belt-look", "due 900 2027-05-04 hours open: watch 2026-05-04 900 -"},
		{"watched, and past the schedule's own grace", []visit{watched}, "2026-06-20 1032.61", "belt-look", "overdue 900 2027-05-04 hours open: watch 2026-05-04 900 -"},
		{"by date", []visit{then("2026-05-04 812.6", result("belt-look", record.Watch, on("2026-09-01")))}, "2026-08-01 815", "belt-look",
			"later 1012.6 2026-09-01 date open: watch 2026-05-04 - 2026-09-01"},
		{"by date, 30 days before", []visit{then("2026-05-04 812.6", result("belt-look", record.Watch, on("2026-09-01")))}, "2026-08-02 815", "belt-look",
			"soon 1012.6 2026-09-01 date open: watch 2026-05-04 - 2026-09-01"},
		{"later than the schedule", []visit{then("2026-05-04 812.6", result("belt-look", record.Watch, at("1200")))}, "2026-05-05 813", "belt-look",
			"later 1012.6 2027-05-04 hours open: watch 2026-05-04 1200 -"},
		// The sheet says 130 h as the second meter reads: 1470.3 + 130 in total.
		{"on another meter", []visit{{when: "2025-08-01 87.5", offset: "1470.3", tasks: []record.Task{result("belt-look", record.Watch, at("130"))}}}, "2025-08-02 88", "belt-look",
			"later 1600.3 2026-08-01 hours open: watch 2025-08-01 1600.3 -"},
		// And stays that when the meter is changed again (1482.3, 88 and now 3).
		{"before the meter was changed", []visit{{when: "2025-08-01 87.5", offset: "1470.3", tasks: []record.Task{result("belt-look", record.Watch, at("120"))}}, {when: "2025-09-01 8", offset: "1567.3"}}, "2025-09-02 23", "belt-look",
			"due 1590.3 2026-08-01 hours open: watch 2025-08-01 1590.3 -"},

		// What closes it.
		{"done later", []visit{watched, then("2026-07-01 905", result("belt-look", record.OK))}, "2026-07-02 906", "belt-look", "later 1105 2027-07-01 hours"},
		{"watched again", []visit{watched, then("2026-07-01 905", result("belt-look", record.Watch, at("950")))}, "2026-07-02 906", "belt-look", "later 950 2027-07-01 hours open: watch 2026-07-01 950 -"},
		{"a new belt", []visit{defect, then("2026-07-01 905", result("belt", record.Done))}, "2026-07-02 906", "belt-look", "later 1105 2027-07-01 hours"},
		{"a belt put off", []visit{defect, then("2026-07-01 905", result("belt", record.Deferred, record.NextService))}, "2026-07-02 906", "belt-look", "due 1012.6 2027-05-04 hours open: defect 2026-05-04 - -"},
		{"a belt that was looked at", []visit{defect, then("2026-07-01 905", result("belt", record.OK))}, "2026-07-02 906", "belt-look", "due 1012.6 2027-05-04 hours open: defect 2026-05-04 - -"},
		{"not spoken of", []visit{defect, then("2026-07-01 905", result("engine-oil", record.Done))}, "2026-07-02 906", "belt-look", "due 1012.6 2027-05-04 hours open: defect 2026-05-04 - -"},
		{"looked at and found in order, of a part put off", []visit{then("2026-05-04 812.6", result("impeller", record.Deferred, record.NextService)), then("2026-07-01 905", result("impeller", record.OK))}, "2026-07-02 906", "impeller", "due 400 2025-03-18 date"},
		{"in one visit its own word stands, the new belt before it", []visit{then("2026-05-04 812.6", result("belt", record.Done), result("belt-look", record.Watch, at("900")))}, "2026-05-05 813", "belt-look", "later 900 2027-05-04 hours open: watch 2026-05-04 900 -"},
		{"in one visit its own word stands, the new belt after it", []visit{then("2026-05-04 812.6", result("belt-look", record.Watch, at("900")), result("belt", record.Done))}, "2026-05-05 813", "belt-look", "later 900 2027-05-04 hours open: watch 2026-05-04 900 -"},

		// Settled on the same visit by what covers it.
		{"put off, since the new belt was fitted", []visit{then("2026-05-04 812.6", result("belt-look", record.Deferred), result("belt", record.Done))}, "2026-05-05 813", "belt-look", "later 1012.6 2027-05-04 hours"},
		{"found frayed, and the new belt fitted", []visit{then("2026-05-04 812.6", result("belt-look", record.Defect, record.BeforeUse), result("belt", record.Done))}, "2026-05-05 813", "belt-look", "later 1012.6 2027-05-04 hours"},
		{"found frayed, the new belt put off", []visit{then("2026-05-04 812.6", result("belt-look", record.Defect, record.BeforeUse), result("belt", record.Deferred))}, "2026-05-05 813", "belt-look", "due 1012.6 2027-05-04 hours open: defect 2026-05-04 - -"},

		// What was left open and is then put off is still open: nobody has looked.
		{"a second look put off", []visit{watched, then("2026-07-01 905", result("belt-look", record.Deferred))}, "2026-07-02 906", "belt-look", "due 900 2027-05-04 hours open: deferred 2026-07-01 900 -"},
		{"a defect put off", []visit{defect, then("2026-07-01 905", result("belt-look", record.Deferred))}, "2026-07-02 906", "belt-look", "due 1012.6 2027-05-04 hours open: deferred 2026-07-01 - -"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := taskOf(t, planOn(t, c.when, chainOf(t, c.visits...)), c.task); got != c.want {
				t.Errorf("%s\nwant %s", got, c.want)
			}
		})
	}
}

// TestItem: the other figures of an item, at the example's service and 87.4 h
// before another look at the belt.
func TestItem(t *testing.T) {
	p := planOn(t, "2026-05-14 822.6", chainOf(t, visit{when: "2026-05-04 812.6", tasks: []record.Task{
		result("engine-oil", record.Done), result("belt-look", record.OK), result("coolant-strength", record.OK), result("bolts", record.Done)}}))
	for _, c := range []struct{ task, left, expected, last string }{
		// 190 h at 420 h a year of 365.25 days: 165.2 days, begun days whole; at 525 and
		// at 315 h (a quarter more and less) 132.2 and 220.3.
		{"engine-oil", "190 355", "2026-10-27 2026-09-24 2026-12-21", "812.6 #1"},
		{"coolant-strength", "- 355", "2027-05-04 2027-05-04 2027-05-04", "812.6 #1"},
		{"impeller", "-422.6 -422", "none", "none"}, // 400 h and 2025-03-18
		{"bolts", "- -", "none", "812.6 #1"},
	} {
		item := p.Items[slices.IndexFunc(p.Items, func(item plan.Item) bool { return item.Task.ID == c.task })]
		left := [2]string{hoursOrDash(item.HoursLeft), "-"}
		if item.DaysLeft != nil {
			left[1] = item.DaysLeft.String()
		}
		expected, last := "none", "none"
		if e := item.Expected; e != nil {
			expected = fmt.Sprintf("%v %v %v", e.On, e.From, e.To)
		}
		if l := item.Last; l != nil {
			last = fmt.Sprintf("%v #%d", l.Hours, l.Record.Number)
		}
		if got := strings.Join(left[:], " "); got != c.left || expected != c.expected || last != c.last {
			t.Errorf("%s: left %s, expected %s, last %s; want %s; %s; %s", c.task, got, expected, last, c.left, c.expected, c.last)
		}
	}
	bolts := p.Items[len(p.Items)-1]
	if bolts.Every != (schedule.Interval{}) || bolts.Due != (schedule.Due{}) || bolts.By != "" || bolts.State != schedule.Later {
		t.Errorf("done for good: %+v", bolts)
	}
}

// TestExpectedOnlyAhead: once something is due there is nothing to expect, by
// hours, by date or by what was left open.
func TestExpectedOnlyAhead(t *testing.T) {
	chain := chainOf(t, visit{when: "2026-05-04 812.6", tasks: []record.Task{result("engine-oil", record.Done), result("belt-look", record.Defect, record.BeforeUse), result("coolant-strength", record.OK)}})
	due, ahead := 0, 0
	for _, when := range []string{"2026-05-04 812.6", "2026-09-01", "2027-05-03 1012.59", "2027-05-04 1000", "2027-05-04 1012.6", "2028-01-01 4000"} {
		for _, item := range planOn(t, when, chain).Items {
			if item.State >= schedule.Now {
				due++
				if item.Expected != nil {
					t.Errorf("%s: %s is %v and expected on %v", when, item.Task.ID, item.State, item.Expected.On)
				}
				continue
			}
			if item.Due == (schedule.Due{}) {
				continue
			}
			ahead++
			if e := item.Expected; e == nil || e.From > e.On || e.On > e.To || e.On < day(t, "2026-05-04") {
				t.Errorf("%s: %s is %v and expected %v", when, item.Task.ID, item.State, e)
			}
		}
	}
	if due == 0 || ahead == 0 {
		t.Errorf("%d due, %d ahead", due, ahead)
	}
	// Without a word of the use, hours cannot be expected; with a date besides, they
	// may run out on any day up to it.
	in := plan.Input{Machine: gannetPort(t), Schedule: yardPlan()}
	in.Machine.HoursPerYear = 0
	for _, item := range makePlan(t, "2024-03-20 1", in).Items {
		if item.Due.Date == nil && item.Expected != nil {
			t.Errorf("%s expected on %v", item.Task.ID, item.Expected.On)
		}
		if both := item.Due.Date != nil && item.Due.Hours != nil; both && item.Expected.From != day(t, "2024-03-20") || item.Due.Hours == nil && item.Expected != nil && item.Expected.From != item.Expected.On {
			t.Errorf("%s expected from %v to %v", item.Task.ID, item.Expected.From, item.Expected.To)
		}
	}
}
