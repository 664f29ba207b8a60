package logbook_test

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/logbook"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

const (
	sulphur = "fuel sulphur over 0.5 %"
	dust    = "dust"
)

// ellery is the part of the yard's schedule that these tests need: an overhaul
// covers the belt, and that its look.
func ellery() schedule.Schedule {
	year := schedule.Interval{Hours: 200 * quantity.Hour, Months: 12}
	return schedule.Schedule{ID: "diesel-inboard-ellery", Edition: 2, NextFrom: schedule.FromDone, Grace: schedule.Grace{HoursShare: 100, Days: 30}, Tasks: []schedule.Task{
		{ID: "engine-oil", Kind: schedule.Replace, Every: year, Severe: schedule.Severe{Factor: 500, When: sulphur}},
		{ID: "oil-filter", Kind: schedule.Replace, Every: year},
		{ID: "belt-look", Kind: schedule.Inspect, Every: year},
		{ID: "belt", Kind: schedule.Replace, Every: schedule.Interval{Hours: 1000 * quantity.Hour, Months: 48}, Covers: []string{"belt-look"}},
		{ID: "overhaul", Kind: schedule.Replace, Every: schedule.Interval{Hours: 4000 * quantity.Hour}, Covers: []string{"belt"}},
	}}
}

// TestCounts: every kind with every result: a replacement only when it was made, a
// look also when it found something; what was put off never.
func TestCounts(t *testing.T) {
	want := map[schedule.Kind]string{
		schedule.Replace: "done", schedule.Clean: "done ok", schedule.Adjust: "done ok",
		schedule.Inspect: "done ok watch defect", schedule.Test: "done ok watch defect", 0: "", 6: "",
	}
	for kind, results := range want {
		var got []string
		for result := record.Result(0); int(result) <= len(record.ResultWords)+1; result++ {
			if logbook.Counts(kind, result) {
				got = append(got, result.String())
			}
		}
		if strings.Join(got, " ") != results {
			t.Errorf("%v: %v, want %s", kind, got, results)
		}
	}
}

// TestDone: when a task was done, as stated or as on record, itself or by what
// covers it, oldest first.
func TestDone(t *testing.T) {
	stated := []logbook.Stated{
		{Task: "belt", Source: "owner", Point: at(t, "2025-06-20 501")},
		{Task: "engine-oil", Source: "invoice", Point: at(t, "2024-09-01 150")},
	}
	overhauled := job(t, "2028-05-04 1600")
	overhauled.Tasks = append(overhauled.Tasks, record.Task{ID: "overhaul", Kind: schedule.Replace, Result: record.Done})
	log := logbook.New(at(t, "2024-03-18 0"), stated, nil, chain(
		with(t, job(t, "2026-05-04 812.6"), map[string]record.Result{"belt-look": record.Watch, "engine-oil": record.Done}),
		with(t, job(t, "2026-11-04 950"), map[string]record.Result{"belt-look": record.Deferred, "belt": record.OK, "engine-oil": record.OK}), // none of these counts
		with(t, job(t, "2027-05-04 1100"), map[string]record.Result{"belt-look": record.OK, "belt": record.Done}),                             // once
		with(t, job(t, "2026-02-01 700"), map[string]record.Result{"belt": record.Done}),                                                      // late paperwork
		overhauled,
		speaking(with(t, job(t, "2026-11-04 950"), map[string]record.Result{"belt": record.Done}), record.Addendum, 2), // an addendum does nothing
	), nil)
	for _, c := range []struct{ task, until, want string }{
		{"belt-look", "2030-01-01", "2025-06-20 501 owner, 2026-02-01 700 #4, 2026-05-04 812.6 #1, 2027-05-04 1100 #3, 2028-05-04 1600 #5"},
		{"belt-look", "2026-05-03", "2025-06-20 501 owner, 2026-02-01 700 #4"},
		{"belt-look", "2025-06-20", "2025-06-20 501 owner"},
		{"belt-look", "2025-06-19", ""},
		{"belt", "2030-01-01", "2025-06-20 501 owner, 2026-02-01 700 #4, 2027-05-04 1100 #3, 2028-05-04 1600 #5"},
		{"overhaul", "2030-01-01", "2028-05-04 1600 #5"},
		{"engine-oil", "2030-01-01", "2024-09-01 150 invoice, 2026-05-04 812.6 #1"},
		{"oil-filter", "2030-01-01", ""},
		{"sails", "2030-01-01", ""},
	} {
		var got []string
		for _, d := range log.Done(ellery(), c.task, day(t, c.until)) {
			by := d.Source
			if d.Record != nil {
				by = fmt.Sprintf("%s#%d", d.Source, d.Record.Record.Number)
			}
			if d.Stated != (d.Record == nil) {
				t.Errorf("%s: %v is stated and on record, or neither", c.task, d)
			}
			got = append(got, fmt.Sprintf("%v %v %s", d.Date, d.Hours, by))
		}
		if text := strings.Join(got, ", "); text != c.want {
			t.Errorf("%s until %s:\n%s, want\n%s", c.task, c.until, text, c.want)
		}
	}
}

// TestDuties: as the machine file states them, and besides, from each record on
// until the next.
func TestDuties(t *testing.T) {
	said := func(when string, duty ...string) *record.Record {
		r := job(t, when)
		r.Job.SevereDuty = duty
		return r
	}
	own := chain(said("2025-05-04 300", sulphur), said("2026-05-04 600"), said("2027-05-04 900", dust, sulphur))
	for _, c := range []struct {
		name string
		file schedule.Duty
		want map[string]string // on a date
		list string            // until 2030
	}{
		{"none in the machine file", nil,
			map[string]string{"2025-05-03": "", "2025-05-04": sulphur, "2026-05-03": sulphur, "2026-05-04": "", "2027-05-04": "dust; " + sulphur},
			"1900-01-01: | 2025-05-04: " + sulphur + " | 2026-05-04: | 2027-05-04: dust; " + sulphur + " | 2030-01-01: dust; " + sulphur},
		// What the file says now does not change what was due then.
		{"dust in the machine file", schedule.Duty{dust},
			map[string]string{"2025-05-03": "dust", "2025-05-04": "dust; " + sulphur, "2026-05-04": "dust", "2027-05-04": "dust; " + sulphur},
			"1900-01-01: | 2025-05-04: " + sulphur + " | 2026-05-04: | 2027-05-04: dust; " + sulphur + " | 2030-01-01: dust; " + sulphur},
		{"sulphur in the machine file", schedule.Duty{sulphur}, nil,
			"1900-01-01: " + sulphur + " | 2025-05-04: " + sulphur + " | 2026-05-04: | 2027-05-04: dust; " + sulphur + " | 2030-01-01: " + sulphur + "; dust"},
	} {
		log := logbook.New(at(t, "2024-03-18 0"), nil, c.file, own, nil)
		for date, want := range c.want {
			if got := strings.Join(log.DutyOn(day(t, date)), "; "); got != want {
				t.Errorf("%s: on %s %q, want %q", c.name, date, got, want)
			}
			// The last of the list is what is in force.
			list := log.Duties(day(t, date))
			if got := strings.Join(list[len(list)-1].Duty, "; "); got != want {
				t.Errorf("%s: the last until %s is %q, want %q", c.name, date, got, want)
			}
		}
		var lines []string
		for _, d := range log.Duties(day(t, "2030-01-01")) {
			lines = append(lines, strings.TrimSpace(d.Date.String()+": "+strings.Join(d.Duty, "; ")))
		}
		if got := strings.Join(lines, " | "); got != c.list {
			t.Errorf("%s: %s\nwant %s", c.name, got, c.list)
		}
	}
}

// TestDutyWith: each duty once, and the machine file's own list stays as it is,
// room behind it or not.
func TestDutyWith(t *testing.T) {
	file := append(make(schedule.Duty, 0, 8), dust)
	log := logbook.Log{Duty: file}
	a, b := log.DutyWith([]string{sulphur, dust, sulphur}), log.DutyWith([]string{"salt"})
	if !slices.Equal(a, schedule.Duty{dust, sulphur}) || !slices.Equal(b, schedule.Duty{dust, "salt"}) || !slices.Equal(log.Duty, schedule.Duty{dust}) {
		t.Errorf("%q, %q, of %q", a, b, log.Duty)
	}
	if got := log.DutyWith(nil); !slices.Equal(got, file) {
		t.Errorf("none besides: %q", got)
	}
}

// TestStand: where a task stands by the log, and by what it was last done.
func TestStand(t *testing.T) {
	half := job(t, "2026-11-04 900")
	half.Job.SevereDuty = []string{sulphur}
	log := logbook.New(at(t, "2024-03-18 0"), []logbook.Stated{{Task: "engine-oil", Source: "invoice", Point: at(t, "2025-06-20 501")}}, nil, chain(
		with(t, job(t, "2026-05-04 812.6"), map[string]record.Result{"engine-oil": record.Done, "belt": record.Done}),
		half,
	), nil)
	for _, c := range []struct{ task, on, due, last string }{
		{"engine-oil", "2025-06-19", "200 2025-03-18", "none"},
		{"engine-oil", "2025-06-20", "701 2026-06-20", "501 invoice"},
		{"engine-oil", "2026-11-03", "1012.6 2027-05-04", "812.6 #1"},
		{"engine-oil", "2026-11-04", "912.6 2026-11-04", "812.6 #1"}, // half of 200 h and 12 months
		{"belt-look", "2026-11-04", "1012.6 2027-05-04", "812.6 #1"},
		{"oil-filter", "2026-11-04", "200 2025-03-18", "none"},
	} {
		task, _ := ellery().Task(c.task)
		standing, done := log.Stand(ellery(), task, day(t, c.on))
		last := "none"
		switch {
		case done == nil:
		case done.Record == nil:
			last = done.Hours.String() + " " + done.Source
		default:
			last = fmt.Sprintf("%v #%d", done.Hours, done.Record.Record.Number)
		}
		if due := fmt.Sprintf("%v %v", standing.Due.Hours, standing.Due.Date); due != c.due || last != c.last {
			t.Errorf("%s on %s: due %s, last %s; want %s, %s", c.task, c.on, due, last, c.due, c.last)
		}
	}
}

// TestCoveringTaskByRecord: a record of what covers a task gives the same standing
// as a record of the task itself.
func TestCoveringTaskByRecord(t *testing.T) {
	look, _ := ellery().Task("belt-look")
	rapid.Check(t, func(rt *rapid.T) {
		var itself, covering []*record.Record
		date, run := day(t, "2024-03-18"), quantity.Hours(0)
		for range rapid.IntRange(0, 6).Draw(rt, "jobs") {
			date += quantity.Date(rapid.IntRange(0, 400).Draw(rt, "days"))
			run += quantity.Hours(rapid.IntRange(0, 30_000).Draw(rt, "hours"))
			r := &record.Record{Kind: record.Service, Job: record.Job{Date: date, Hours: run}}
			other := *r
			r.Tasks = []record.Task{{ID: "belt-look", Kind: schedule.Inspect, Result: record.OK}}
			by := rapid.SampledFrom([]string{"belt", "overhaul"}).Draw(rt, "by")
			other.Tasks = []record.Task{{ID: by, Kind: schedule.Replace, Result: record.Done}}
			itself, covering = append(itself, r), append(covering, &other)
		}
		s := ellery()
		s.NextFrom = rapid.SampledFrom([]schedule.NextFrom{schedule.FromDone, schedule.FromGrid, schedule.FromWindow}).Draw(rt, "policy")
		a, _ := logOf(t, chain(itself...), nil).Stand(s, look, quantity.MaxDate)
		b, _ := logOf(t, chain(covering...), nil).Stand(s, look, quantity.MaxDate)
		if !reflect.DeepEqual(a, b) {
			rt.Fatalf("itself %+v, covered %+v", a, b)
		}
	})
}
