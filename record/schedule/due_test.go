package schedule_test

import (
	"testing"

	"hourseal/record/quantity"
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

// byDate and byHours are a schedule of one task that goes by one of them.
func byDate(policy schedule.NextFrom, months quantity.Months, grace quantity.Days) schedule.Schedule {
	return schedule.Schedule{NextFrom: policy, Grace: schedule.Grace{Days: grace},
		Tasks: []schedule.Task{{Every: schedule.Interval{Months: months}}}}
}

func byHours(policy schedule.NextFrom, every, grace quantity.Hours) schedule.Schedule {
	return schedule.Schedule{NextFrom: policy, Grace: schedule.Grace{Hours: grace},
		Tasks: []schedule.Task{{Every: schedule.Interval{Hours: every}}}}
}

// dueDates are the due dates after entry into service and after each time done.
func dueDates(t *testing.T, s schedule.Schedule, inService string, done ...string) []string {
	t.Helper()
	var events []schedule.Event
	var due []string
	for i := range len(done) + 1 {
		standing := s.Stand(s.Tasks[0], schedule.Point{Date: day(t, inService)}, events, nil)
		due = append(due, standing.Due.Date.String())
		if i < len(done) {
			events = append(events, schedule.Event{Point: schedule.Point{Date: day(t, done[i])}})
		}
	}
	return due
}

func dueHours(t *testing.T, s schedule.Schedule, inService string, done ...string) []string {
	t.Helper()
	var events []schedule.Event
	var due []string
	for i := range len(done) + 1 {
		standing := s.Stand(s.Tasks[0], schedule.Point{Hours: hours(t, inService)}, events, nil)
		due = append(due, standing.Due.Hours.String())
		if i < len(done) {
			events = append(events, schedule.Event{Point: schedule.Point{Hours: hours(t, done[i])}})
		}
	}
	return due
}

func equal(t *testing.T, name string, got, want []string) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%s: %v, want %v", name, got, want)
	}
	for i := range got {
		if got[i] != want[i] {
			t.Errorf("%s: %v, want %v", name, got, want)
			return
		}
	}
}

// TestPublishedMonths: Regulation (EEC, Euratom) 1182/71, Article 3(2)(c): a
// period in months ends on the same day of the last month, or on that month's
// last day where there is none. Its days are ours.
func TestPublishedMonths(t *testing.T) {
	for _, c := range []struct {
		inService string
		months    quantity.Months
		due       string
	}{
		{"2024-01-31", 1, "2024-02-29"},
		{"2023-01-31", 1, "2023-02-28"},
		{"2024-02-29", 12, "2025-02-28"},
		{"2024-08-31", 6, "2025-02-28"},
	} {
		equal(t, c.inService, dueDates(t, byDate(schedule.FromDone, c.months, 0), c.inService), []string{c.due})
	}
}

// TestPublishedHours: 14 CFR 91.409(b), as it is commonly explained (second
// hand): an inspection interval of 100 hours, the time by which it is overrun
// counted in the next; and the Part-ML minimum inspection programme, where the
// next interval counts from the time of the inspection.
func TestPublishedHours(t *testing.T) {
	for _, c := range []struct {
		name       string
		policy     schedule.NextFrom
		done, next string
	}{
		{"91.409(b), late", schedule.FromGrid, "1108", "1200"},
		{"91.409(b), early", schedule.FromGrid, "1095", "1195"},
		{"Part-ML, late", schedule.FromDone, "1108", "1208"},
		{"Part-ML, early", schedule.FromDone, "1095", "1195"},
	} {
		equal(t, c.name, dueHours(t, byHours(c.policy, 100*quantity.Hour, 0), "1000", c.done), []string{"1100", c.next})
	}
}

// TestPublishedWindow: SOLAS harmonised surveys (chapter I, regulation 14): a
// certificate of five years that expires on 2026-06-15, its survey's window three
// months, which are 92 days before that date.
func TestPublishedWindow(t *testing.T) {
	for _, c := range []struct{ name, done, next string }{
		{"in the window", "2026-04-20", "2031-06-15"},
		{"before it", "2026-02-01", "2031-02-01"},
		{"after expiry", "2026-07-01", "2031-06-15"},
		{"on the window's first day", "2026-03-15", "2031-06-15"},
		{"the day before", "2026-03-14", "2031-03-14"},
		{"on the day itself", "2026-06-15", "2031-06-15"},
	} {
		equal(t, c.name, dueDates(t, byDate(schedule.FromWindow, 60, 92), "2021-06-15", c.done), []string{"2026-06-15", c.next})
	}
}

// TestDueByHours: intervals of 200 h from 0, worked out on paper from the rules
// in the package comment.
func TestDueByHours(t *testing.T) {
	const every, grace = 200 * quantity.Hour, 20 * quantity.Hour
	for _, c := range []struct {
		name   string
		policy schedule.NextFrom
		done   []string
		want   []string
	}{
		{"done: on time", schedule.FromDone, []string{"200"}, []string{"200", "400"}},
		{"done: early, late", schedule.FromDone, []string{"150.5", "380"}, []string{"200", "350.5", "580"}},
		{"done: an interval missed", schedule.FromDone, []string{"650"}, []string{"200", "850"}},
		{"done: twice at once", schedule.FromDone, []string{"210", "210"}, []string{"200", "410", "410"}},

		{"grid: on time", schedule.FromGrid, []string{"200", "400"}, []string{"200", "400", "600"}},
		{"grid: early", schedule.FromGrid, []string{"190"}, []string{"200", "390"}},
		{"grid: late, the next shorter", schedule.FromGrid, []string{"215.3"}, []string{"200", "400"}},
		{"grid: late twice", schedule.FromGrid, []string{"230", "450"}, []string{"200", "400", "600"}},
		{"grid: early, then late on the new grid", schedule.FromGrid, []string{"190", "395"}, []string{"200", "390", "590"}},
		{"grid: overrun longer than an interval", schedule.FromGrid, []string{"650"}, []string{"200", "800"}},
		{"grid: overrun just under an interval", schedule.FromGrid, []string{"399.99"}, []string{"200", "400"}},
		{"grid: overrun of just an interval", schedule.FromGrid, []string{"400"}, []string{"200", "600"}},
		{"grid: a hundredth late", schedule.FromGrid, []string{"200.01"}, []string{"200", "400"}},

		{"window: in the grace before", schedule.FromWindow, []string{"180"}, []string{"200", "400"}},
		{"window: a hundredth before the grace", schedule.FromWindow, []string{"179.99"}, []string{"200", "379.99"}},
		{"window: in the grace after", schedule.FromWindow, []string{"220"}, []string{"200", "400"}},
		{"window: late", schedule.FromWindow, []string{"260"}, []string{"200", "400"}},
		{"window: overrun longer than an interval", schedule.FromWindow, []string{"650"}, []string{"200", "800"}},
		{"window: overrun of just an interval", schedule.FromWindow, []string{"400"}, []string{"200", "600"}},
	} {
		equal(t, c.name, dueHours(t, byHours(c.policy, every, grace), "0", c.done...), c.want)
	}
}

// TestDueByDate: month ends, leap days, year ends.
func TestDueByDate(t *testing.T) {
	for _, c := range []struct {
		name      string
		policy    schedule.NextFrom
		months    quantity.Months
		inService string
		done      []string
		want      []string
	}{
		{"done: from a month's last day", schedule.FromDone, 1, "2025-12-31", []string{"2026-01-31", "2026-02-28"}, []string{"2026-01-31", "2026-02-28", "2026-03-28"}},
		{"done: over the year's end", schedule.FromDone, 2, "2025-11-30", []string{"2025-12-31"}, []string{"2026-01-30", "2026-02-28"}},
		{"done: from a leap day", schedule.FromDone, 12, "2024-02-29", []string{"2025-02-28"}, []string{"2025-02-28", "2026-02-28"}},
		{"done: from a leap day, four years", schedule.FromDone, 48, "2024-02-29", nil, []string{"2028-02-29"}},
		{"done: century without a leap day", schedule.FromDone, 12, "2096-02-29", []string{"2099-02-28"}, []string{"2097-02-28", "2100-02-28"}},

		// The grid is kept from its anchor, and goes back to the 31st.
		{"grid: late from a 31st", schedule.FromGrid, 1, "2026-01-31", []string{"2026-03-02", "2026-04-01", "2026-05-02"}, []string{"2026-02-28", "2026-03-31", "2026-04-30", "2026-05-31"}},
		{"grid: late from a leap day", schedule.FromGrid, 12, "2024-02-29", []string{"2025-03-05", "2026-03-05", "2027-03-05"}, []string{"2025-02-28", "2026-02-28", "2027-02-28", "2028-02-29"}},
		{"grid: early moves the anchor", schedule.FromGrid, 12, "2025-06-30", []string{"2026-05-31", "2027-06-02"}, []string{"2026-06-30", "2027-05-31", "2028-05-31"}},
		{"grid: on the day, no drift", schedule.FromGrid, 1, "2026-01-31", []string{"2026-02-28", "2026-03-31"}, []string{"2026-02-28", "2026-03-31", "2026-04-30"}},
		{"grid: two years missed", schedule.FromGrid, 12, "2023-05-04", []string{"2026-05-03"}, []string{"2024-05-04", "2026-05-04"}},
		{"grid: to the day three years late", schedule.FromGrid, 12, "2023-05-04", []string{"2026-05-04"}, []string{"2024-05-04", "2027-05-04"}},

		{"window: the anniversary from a 31st", schedule.FromWindow, 6, "2025-08-31", []string{"2026-02-10", "2026-09-15"}, []string{"2026-02-28", "2026-08-31", "2027-02-28"}},
		{"window: before the grace", schedule.FromWindow, 12, "2025-06-30", []string{"2026-05-30"}, []string{"2026-06-30", "2027-05-30"}},
		{"window: first day of the grace", schedule.FromWindow, 12, "2025-06-30", []string{"2026-05-31"}, []string{"2026-06-30", "2027-06-30"}},
		{"window: last day of the grace", schedule.FromWindow, 12, "2025-06-30", []string{"2026-07-30"}, []string{"2026-06-30", "2027-06-30"}},
		{"window: late over the year's end", schedule.FromWindow, 12, "2024-12-15", []string{"2026-01-20"}, []string{"2025-12-15", "2026-12-15"}},
		{"window: years late", schedule.FromWindow, 12, "2022-12-15", []string{"2026-01-20"}, []string{"2023-12-15", "2026-12-15"}},
	} {
		equal(t, c.name, dueDates(t, byDate(c.policy, c.months, 30), c.inService, c.done...), c.want)
	}
}

// TestFirstInterval: it holds until the task was done once, hours and months
// each for themselves.
func TestFirstInterval(t *testing.T) {
	for _, c := range []struct {
		name         string
		every, first schedule.Interval
		done         []schedule.Event
		hours, date  string
	}{
		{"none", schedule.Interval{Hours: 20000, Months: 12}, schedule.Interval{}, nil, "205", "2025-03-18"},
		{"hours", schedule.Interval{Hours: 20000, Months: 12}, schedule.Interval{Hours: 5000}, nil, "55", "2025-03-18"},
		{"months", schedule.Interval{Hours: 20000, Months: 12}, schedule.Interval{Months: 3}, nil, "205", "2024-06-18"},
		{"both", schedule.Interval{Hours: 20000, Months: 12}, schedule.Interval{Hours: 5000, Months: 3}, nil, "55", "2024-06-18"},
		{"longer", schedule.Interval{Hours: 20000, Months: 12}, schedule.Interval{Hours: 50000, Months: 24}, nil, "505", "2026-03-18"},
		{"done once", schedule.Interval{Hours: 20000, Months: 12}, schedule.Interval{Hours: 5000, Months: 3},
			[]schedule.Event{{Point: schedule.Point{Hours: 5200, Date: day(t, "2024-05-01")}}}, "252", "2025-05-01"},
	} {
		s := schedule.Schedule{NextFrom: schedule.FromDone}
		standing := s.Stand(schedule.Task{Every: c.every, First: c.first}, schedule.Point{Hours: 500, Date: day(t, "2024-03-18")}, c.done, nil)
		if standing.Due.Hours.String() != c.hours || standing.Due.Date.String() != c.date {
			t.Errorf("%s: %v %v, want %s %s", c.name, standing.Due.Hours, standing.Due.Date, c.hours, c.date)
		}
	}
	// Under grid the first interval is the first point of the grid.
	grid := schedule.Schedule{NextFrom: schedule.FromGrid, Tasks: []schedule.Task{{Every: schedule.Interval{Hours: 20000}, First: schedule.Interval{Hours: 5000}}}}
	equal(t, "grid", dueHours(t, grid, "0", "60", "251"), []string{"50", "250", "450"})
}

// TestStanding: what was last done and what applied then.
func TestStanding(t *testing.T) {
	s := byHours(schedule.FromDone, 200*quantity.Hour, 0)
	fresh := s.Stand(s.Tasks[0], schedule.Point{}, nil, nil)
	if fresh.Last != nil || fresh.Before != (schedule.Due{}) || fresh.Due.Date != nil || *fresh.Due.Hours != 20000 {
		t.Errorf("never done: %+v", fresh)
	}
	events := []schedule.Event{{Point: schedule.Point{Hours: 19000}, Stated: true}, {Point: schedule.Point{Hours: 40000}}}
	after := s.Stand(s.Tasks[0], schedule.Point{}, events, nil)
	if *after.Last != events[1] || *after.Before.Hours != 39000 || *after.Due.Hours != 60000 {
		t.Errorf("done twice: %+v", after)
	}
	// A task's own policy and grace stand before the schedule's.
	own := schedule.Task{Every: schedule.Interval{Hours: 20000}, NextFrom: schedule.FromGrid, Grace: &schedule.Grace{Hours: 700, Days: 3}}
	if due := s.Stand(own, schedule.Point{}, []schedule.Event{{Point: schedule.Point{Hours: 21000}}}, nil).Due; *due.Hours != 40000 {
		t.Errorf("own policy: due %v", due.Hours)
	}
	if got := s.Leeway(own, own.Every); got != (schedule.Leeway{Hours: 700, Days: 3}) {
		t.Errorf("own grace: %+v", got)
	}
	if got := s.Policy(schedule.Task{}); got != schedule.FromDone {
		t.Errorf("policy %v", got)
	}
}
