package schedule_test

import (
	"slices"
	"strings"
	"testing"

	"hourseal/record/schedule"
)

// semantic is one task and what was done of it: one line of the account of what a
// service interval means. Points are "DATE HOURS"; what was done is a point, and
// after it "stated" or the id of the task that was done. Duties are "DATE WORDS",
// from that date on. Due and leeway are "HOURS DATE" and "HOURS DAYS".
type semantic struct {
	name       string
	task       schedule.Task
	others     []schedule.Task // of the same schedule
	grace      schedule.Grace  // of the schedule
	inService  string          // "": 2024-03-18 0
	done       []string
	duties     []string
	now        string
	due, state string
	leeway     string
	why        string // the source or the sum
}

// The task that most lines are about, and the scenario's grace: a tenth of the
// hours, and 30 days.
var (
	oil   = renew("oil", every(200, 12))
	tenth = schedule.Grace{HoursShare: 100, Days: 30}
	fixed = schedule.Grace{Hours: 1000, Days: 30}
)

const last = "2025-03-18 100" // when the oil of many lines was last changed

func TestSemantics(t *testing.T) {
	for _, rows := range [][]semantic{
		whicheverFirst, firstIntervals, oneTime, graces, nextFromDone, nextFromGrid, nextFromWindow,
		covered, severeDuty, severeRounded, statedOrNever,
	} {
		for _, row := range rows {
			t.Run(row.name, row.test)
		}
	}
}

// Whichever comes first: wording of 40 CFR 94.9.
var whicheverFirst = []semantic{
	{name: "neither is near", task: oil, grace: tenth, done: []string{last}, now: "2026-02-15 279.99", due: "300 2026-03-18", state: "later", leeway: "20 30"},
	{name: "hours near", task: oil, grace: tenth, done: []string{last}, now: "2025-09-01 280", due: "300 2026-03-18", state: "soon", leeway: "20 30", why: "a tenth of 200 h before"},
	{name: "date near", task: oil, grace: tenth, done: []string{last}, now: "2026-02-16 100", due: "300 2026-03-18", state: "soon", leeway: "20 30", why: "30 days before 18 March"},
	{name: "hours first", task: oil, grace: tenth, done: []string{last}, now: "2025-09-01 300", due: "300 2026-03-18", state: "due", leeway: "20 30"},
	{name: "date first", task: oil, grace: tenth, done: []string{last}, now: "2026-03-18 120", due: "300 2026-03-18", state: "due", leeway: "20 30"},
	{name: "both at the end of their grace", task: oil, grace: tenth, done: []string{last}, now: "2026-04-17 320", due: "300 2026-03-18", state: "due", leeway: "20 30"},
	{name: "hours past it", task: oil, grace: tenth, done: []string{last}, now: "2025-09-01 320.01", due: "300 2026-03-18", state: "overdue", leeway: "20 30"},
	{name: "date past it", task: oil, grace: tenth, done: []string{last}, now: "2026-04-18 120", due: "300 2026-03-18", state: "overdue", leeway: "20 30"},
	{name: "hours alone", task: renew("oil", every(200, 0)), grace: tenth, done: []string{last}, now: "2199-12-31 279.99", due: "300 -", state: "later", leeway: "20 30"},
	{name: "months alone", task: renew("oil", every(0, 12)), grace: tenth, done: []string{last}, now: "2026-02-15 9000", due: "- 2026-03-18", state: "later", leeway: "0 30"},
}

// The first interval holds until the task was done once, and its grace is a share
// of it.
var firstIntervals = []semantic{
	{name: "by hours", task: first(oil, 50, 0), grace: tenth, now: "2024-04-01 44.99", due: "50 2025-03-18", state: "later", leeway: "5 30", why: "10 % of 50 h"},
	{name: "by hours, near", task: first(oil, 50, 0), grace: tenth, now: "2024-04-01 45", due: "50 2025-03-18", state: "soon", leeway: "5 30", why: "a tenth of 50 h before"},
	{name: "by months", task: first(oil, 0, 3), grace: tenth, now: "2024-04-01 44", due: "200 2024-06-18", state: "later", leeway: "20 30"},
	{name: "by both", task: first(oil, 50, 3), grace: tenth, now: "2024-06-18 10", due: "50 2024-06-18", state: "due", leeway: "5 30"},
	{name: "counted from the hours in service", task: first(oil, 50, 3), grace: tenth, inService: "2024-03-18 1500.5", now: "2024-04-01 1510", due: "1550.5 2024-06-18", state: "later", leeway: "5 30"},
	{name: "a first by hours that the task has not", task: first(renew("oil", every(0, 12)), 50, 0), grace: tenth, now: "2024-04-01 51", due: "50 2025-03-18", state: "due", leeway: "5 30"},
	{name: "and not again after", task: first(renew("oil", every(0, 12)), 50, 0), grace: tenth, done: []string{"2024-04-02 52"}, now: "2024-04-02 52", due: "- 2025-04-02", state: "later", leeway: "0 30"},
	{name: "done once", task: first(oil, 50, 3), grace: tenth, done: []string{"2024-05-01 52"}, now: "2024-05-01 52", due: "252 2025-05-01", state: "later", leeway: "20 30"},
	{name: "stated once", task: first(oil, 50, 3), grace: tenth, done: []string{"2024-05-01 52 stated"}, now: "2024-05-01 52", due: "252 2025-05-01", state: "later", leeway: "20 30"},
	{name: "grid, late", task: from(first(oil, 50, 3), schedule.FromGrid), grace: tenth, done: []string{"2024-07-01 60"}, now: "2024-07-01 60", due: "250 2025-06-18", state: "later", leeway: "20 30", why: "50 + 200 h; 3 + 12 months"},
	{name: "grid, a whole interval late", task: from(first(oil, 50, 3), schedule.FromGrid), grace: tenth, done: []string{"2025-07-01 260"}, now: "2025-07-01 260", due: "450 2026-06-18", state: "later", leeway: "20 30", why: "50 + 200 + 200 h; 3 + 12 + 12 months"},
	{name: "window, at the grace of the first", task: from(first(oil, 50, 0), schedule.FromWindow), grace: tenth, done: []string{"2024-05-01 45"}, now: "2024-05-01 45", due: "250 2025-05-01", state: "later", leeway: "20 30", why: "5 h before 50"},
	{name: "window, before it", task: from(first(oil, 50, 0), schedule.FromWindow), grace: tenth, done: []string{"2024-05-01 44.99"}, now: "2024-05-01 44.99", due: "244.99 2025-05-01", state: "later", leeway: "20 30"},
}

// A task that falls due once, and never again when it was done.
var oneTime = []semantic{
	{name: "once, before", task: once(renew("bolts", every(50, 0))), grace: tenth, now: "2024-05-01 44", due: "50 -", state: "later", leeway: "5 30"},
	{name: "once, at", task: once(renew("bolts", every(50, 0))), grace: tenth, now: "2024-05-01 50", due: "50 -", state: "due", leeway: "5 30"},
	{name: "once, after, no record", task: once(renew("bolts", every(50, 0))), grace: tenth, now: "2034-05-01 5000", due: "50 -", state: "due", leeway: "5 30"},
	{name: "once, done early", task: once(renew("bolts", every(50, 3))), grace: tenth, done: []string{"2024-05-01 30"}, now: "2034-05-01 5000", due: "- -", state: "later", leeway: "0 0"},
	{name: "once, done late", task: once(renew("bolts", every(50, 3))), grace: tenth, done: []string{"2029-05-01 800"}, now: "2034-05-01 5000", due: "- -", state: "later", leeway: "0 0"},
	{name: "once, done late, grid", task: from(once(renew("bolts", every(50, 3))), schedule.FromGrid), grace: tenth, done: []string{"2029-05-01 800"}, now: "2034-05-01 5000", due: "- -", state: "later", leeway: "0 0"},
	{name: "once, done in its window", task: from(once(renew("bolts", every(50, 3))), schedule.FromWindow), grace: tenth, done: []string{"2024-06-01 48"}, now: "2034-05-01 5000", due: "- -", state: "later", leeway: "0 0"},
	{name: "once, done twice", task: once(renew("bolts", every(50, 3))), grace: tenth, done: []string{"2024-05-01 30", "2024-06-01 60"}, now: "2034-05-01 5000", due: "- -", state: "later", leeway: "0 0"},
	{name: "once, stated", task: once(renew("bolts", every(50, 3))), grace: tenth, done: []string{"2024-05-01 30 stated"}, now: "2034-05-01 5000", due: "- -", state: "later", leeway: "0 0"},
	{name: "once, by a task that covers it", task: once(renew("bolts", every(50, 3))), others: []schedule.Task{renew("overhaul", every(4000, 0), "bolts")}, grace: tenth, done: []string{"2024-05-01 30 overhaul"}, now: "2034-05-01 5000", due: "- -", state: "later", leeway: "0 0"},
	{name: "once, severe", task: once(severe(renew("bolts", every(50, 3)), 500, dust)), grace: tenth, duties: []string{"1900-01-01 dust"}, now: "2024-03-20 10", due: "25 2024-04-18", state: "soon", leeway: "2.5 30", why: "29 days to go"},
}

// Grace in hours, per cent and days, and none.
var graces = []semantic{
	{name: "hours and days", task: oil, grace: schedule.Grace{Hours: 1500, Days: 14}, done: []string{last}, now: "2026-04-01 315", due: "300 2026-03-18", state: "due", leeway: "15 14"},
	{name: "hours and days, past", task: oil, grace: schedule.Grace{Hours: 1500, Days: 14}, done: []string{last}, now: "2025-09-01 315.01", due: "300 2026-03-18", state: "overdue", leeway: "15 14"},
	{name: "none, at", task: oil, done: []string{last}, now: "2026-03-18 300", due: "300 2026-03-18", state: "due", leeway: "0 0"},
	{name: "none, a hundredth past", task: oil, done: []string{last}, now: "2025-09-01 300.01", due: "300 2026-03-18", state: "overdue", leeway: "0 0"},
	{name: "none, a day past", task: oil, done: []string{last}, now: "2026-03-19 120", due: "300 2026-03-18", state: "overdue", leeway: "0 0"},
	{name: "none of its own", task: lenient(oil, schedule.Grace{}), grace: tenth, done: []string{last}, now: "2025-09-01 300.01", due: "300 2026-03-18", state: "overdue", leeway: "0 0"},
	{name: "its own", task: lenient(oil, schedule.Grace{HoursShare: 50}), grace: tenth, done: []string{last}, now: "2025-09-01 310", due: "300 2026-03-18", state: "due", leeway: "10 0", why: "5 % of 200 h"},
	{name: "fixed hours hold for the first interval too", task: first(oil, 50, 0), grace: fixed, now: "2024-04-01 40", due: "50 2025-03-18", state: "later", leeway: "10 30"},
	{name: "per cent, half a hundredth up", task: renew("oil", schedule.Interval{Hours: 12345}), grace: tenth, now: "2024-04-01 10", due: "123.45 -", state: "later", leeway: "12.35 30", why: "12.345"},
	{name: "per cent, under half down", task: renew("oil", schedule.Interval{Hours: 12344}), grace: tenth, now: "2024-04-01 10", due: "123.44 -", state: "later", leeway: "12.34 30", why: "12.344"},
	{name: "12.5 per cent", task: renew("oil", schedule.Interval{Hours: 12500}), grace: schedule.Grace{HoursShare: 125}, now: "2024-04-01 10", due: "125 -", state: "later", leeway: "15.63 0", why: "15.625"},
	{name: "per cent of a severe duty's interval", task: severe(oil, 500, dust), grace: tenth, duties: []string{"1900-01-01 dust"}, now: "2024-04-01 10", due: "100 2024-09-18", state: "later", leeway: "10 30"},
	{name: "per cent of a first interval under a severe duty", task: first(severe(oil, 500, dust), 50, 0), grace: tenth, duties: []string{"1900-01-01 dust"}, now: "2024-04-01 10", due: "25 2024-09-18", state: "later", leeway: "2.5 30"},
}

// Every 100 h or 12 months from 1000 h and 2025-03-18, grace 10 h and 30 days:
// due at 1100 h and on 2026-03-18; hours and months go each for themselves.
var (
	hundred        = renew("oil", every(100, 12))
	nextFromDone   = policyRows(schedule.FromDone, nextDone)
	nextFromGrid   = policyRows(schedule.FromGrid, nextGrid)
	nextFromWindow = policyRows(schedule.FromWindow, nextWindow)
)

// Part-ML minimum inspection programme: from the time of the inspection.
var nextDone = [][3]string{
	{"early", "2026-01-10 1095", "1195 2027-01-10"},
	{"in time", "2026-03-18 1100", "1200 2027-03-18"},
	{"hours late", "2026-01-10 1108", "1208 2027-01-10"},
	{"date late", "2026-05-01 1095", "1195 2027-05-01"},
	{"both late by several intervals", "2029-05-01 1450", "1550 2030-05-01"},
}

// 14 CFR 91.409(b): an overrun is counted in the next interval.
var nextGrid = [][3]string{
	{"early", "2026-01-10 1095", "1195 2027-01-10"},
	{"in time", "2026-03-18 1100", "1200 2027-03-18"},
	{"hours late", "2026-01-10 1108", "1200 2027-01-10"},
	{"date late", "2026-05-01 1095", "1195 2027-03-18"},
	{"both late", "2026-05-01 1108", "1200 2027-03-18"},
	{"hours late by several intervals", "2026-01-10 1450", "1500 2027-01-10"},
	{"date late by several intervals", "2029-05-01 1095", "1195 2030-03-18"},
	{"both late by several intervals", "2029-05-01 1450", "1500 2030-03-18"},
	{"late by just three intervals", "2029-03-18 1400", "1500 2030-03-18"},
	{"a hundredth and a day less", "2029-03-17 1399.99", "1400 2029-03-18"},
}

// SOLAS harmonised surveys: the anniversary is kept within the window.
var nextWindow = [][3]string{
	{"early", "2026-02-15 1089.99", "1189.99 2027-02-15"},
	{"first day and hour of the window", "2026-02-16 1090", "1200 2027-03-18"},
	{"hours in the window, date early", "2026-01-10 1095", "1200 2027-01-10"},
	{"date in the window, hours early", "2026-03-01 1050", "1150 2027-03-18"},
	{"in time", "2026-03-18 1100", "1200 2027-03-18"},
	{"last day and hour of the window", "2026-04-17 1110", "1200 2027-03-18"},
	{"late", "2026-06-01 1150", "1200 2027-03-18"},
	{"late by several intervals", "2029-05-01 1450", "1500 2030-03-18"},
}

// policyRows makes lines of a name, when the task was done, and when it is due
// next. The state is that of the moment when the work was done: what was just
// done is far off, unless a kept point is near.
func policyRows(policy schedule.NextFrom, lines [][3]string) []semantic {
	near := map[string]string{"1400 2029-03-18": "soon"} // a hundredth and a day to go
	var rows []semantic
	for _, line := range lines {
		state := near[line[2]]
		if state == "" {
			state = "later"
		}
		rows = append(rows, semantic{name: policy.String() + ", " + line[0], task: from(hundred, policy), grace: fixed,
			inService: "2025-03-18 1000", done: []string{line[1]}, now: line[1], due: line[2], state: state, leeway: "10 30"})
	}
	return rows
}

// What is stated, without a sealed record, and what was never done at all.
var statedOrNever = []semantic{
	{name: "never, near", task: oil, grace: tenth, now: "2024-04-01 190", due: "200 2025-03-18", state: "soon", leeway: "20 30"},
	{name: "never, past its grace", task: oil, grace: tenth, now: "2034-04-01 9000", due: "200 2025-03-18", state: "due", leeway: "20 30", why: "nobody's lateness is known"},
	{name: "stated, past its grace", task: oil, grace: tenth, done: []string{"2025-06-20 501 stated"}, now: "2026-07-21 721.01", due: "701 2026-06-20", state: "due", leeway: "20 30"},
	{name: "stated, then on record", task: oil, grace: tenth, done: []string{"2024-06-20 101 stated", "2025-06-20 501"}, now: "2026-07-21 701", due: "701 2026-06-20", state: "overdue", leeway: "20 30", why: "31 days"},
	{name: "on record, then stated", task: oil, grace: tenth, done: []string{"2024-06-20 101", "2025-06-20 501 stated"}, now: "2026-07-21 721.01", due: "701 2026-06-20", state: "due", leeway: "20 30", why: "the last is not under seal"},
	{name: "stated counts on the grid alike", task: from(oil, schedule.FromGrid), grace: tenth, done: []string{"2025-06-20 501 stated"}, now: "2025-06-20 501", due: "600 2026-03-18", state: "later", leeway: "20 30"},
}

func (row semantic) test(t *testing.T) {
	s := schedule.Schedule{NextFrom: schedule.FromDone, Grace: row.grace, Tasks: append([]schedule.Task{row.task}, row.others...)}
	inService := "2024-03-18 0"
	if row.inService != "" {
		inService = row.inService
	}
	var events []schedule.Event
	for _, line := range row.done {
		at, what := words(t, line)
		if what == "stated" || s.Does(what, row.task.ID) || what == "" {
			events = append(events, schedule.Event{Point: at, Stated: what == "stated"})
		}
	}
	now, _ := words(t, row.now)
	start, _ := words(t, inService)
	standing := s.Stand(row.task, start, events, dutiesOf(t, row.duties))
	leeway := standing.Leeway.Hours.String() + " " + standing.Leeway.Days.String()
	got := [3]string{dueText(standing.Due), standing.At(now).String(), leeway}
	if want := [3]string{row.due, row.state, row.leeway}; got != want {
		t.Errorf("due, state, leeway %q\nwant %q\n%s", got, want, row.why)
	}
}

// words reads "DATE HOURS" and the word after them.
func words(t *testing.T, line string) (schedule.Point, string) {
	t.Helper()
	parts := strings.Fields(line)
	if len(parts) < 2 || len(parts) > 3 {
		t.Fatalf("%q: not a date, hours and a word", line)
	}
	what := strings.Join(parts[2:], "")
	return schedule.Point{Date: day(t, parts[0]), Hours: hours(t, parts[1])}, what
}

// dutiesOf reads "DATE WORDS", several of them with commas between.
func dutiesOf(t *testing.T, lines []string) []schedule.DutyFrom {
	t.Helper()
	var list []schedule.DutyFrom
	for _, line := range lines {
		date, names, _ := strings.Cut(line, " ")
		from := schedule.DutyFrom{Date: day(t, date)}
		if names != "" {
			from.Duty = slices.Collect(strings.SplitSeq(names, ", "))
		}
		list = append(list, from)
	}
	return list
}

// dueText is "HOURS DATE", "-" for not by this.
func dueText(due schedule.Due) string {
	text := [2]string{"-", "-"}
	if due.Hours != nil {
		text[0] = due.Hours.String()
	}
	if due.Date != nil {
		text[1] = due.Date.String()
	}
	return strings.Join(text[:], " ")
}
