package schedule_test

import (
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// A task counts as done by one that covers it, also by way of others.
var covered = []semantic{
	{name: "by the task that covers it", task: look("look", every(200, 12)), others: []schedule.Task{renew("belt", every(1000, 48), "look")}, grace: tenth,
		done: []string{"2026-05-04 812.6 belt"}, now: "2026-05-04 812.6", due: "1012.6 2027-05-04", state: "later", leeway: "20 30"},
	{name: "by way of another", task: look("look", every(200, 12)), others: []schedule.Task{renew("overhaul", every(4000, 0), "belt"), renew("belt", every(1000, 48), "look")}, grace: tenth,
		done: []string{"2026-05-04 812.6 overhaul"}, now: "2026-05-04 812.6", due: "1012.6 2027-05-04", state: "later", leeway: "20 30"},
	{name: "not the other way round", task: renew("belt", every(1000, 48), "look"), others: []schedule.Task{look("look", every(200, 12))}, grace: tenth,
		done: []string{"2026-05-04 812.6 look"}, now: "2026-05-04 812.6", due: "1000 2028-03-18", state: "later", leeway: "100 30"},
	{name: "done together is not done by it", task: look("look", every(200, 12)),
		others: []schedule.Task{{ID: "belt", Kind: schedule.Replace, Every: every(1000, 48), With: []string{"look"}}}, grace: tenth,
		done: []string{"2026-05-04 812.6 belt"}, now: "2026-05-04 812.6", due: "200 2025-03-18", state: "due", leeway: "20 30"},
	{name: "between its own times", task: look("look", every(200, 12)), others: []schedule.Task{renew("belt", every(1000, 48), "look")}, grace: tenth,
		done: []string{"2025-01-10 150", "2025-06-10 300 belt", "2026-02-10 480"}, now: "2026-02-10 480", due: "680 2027-02-10", state: "later", leeway: "20 30"},
	{name: "its first time by another", task: first(look("look", every(200, 12)), 50, 0), others: []schedule.Task{renew("belt", every(1000, 48), "look")}, grace: tenth,
		done: []string{"2024-05-01 30 belt"}, now: "2024-05-01 30", due: "230 2025-05-01", state: "later", leeway: "20 30"},
	{name: "early by another moves the grid", task: from(look("look", every(200, 12)), schedule.FromGrid), others: []schedule.Task{renew("belt", every(1000, 48), "look")}, grace: tenth,
		done: []string{"2024-05-01 30 belt"}, now: "2024-05-01 30", due: "230 2025-05-01", state: "later", leeway: "20 30"},
	{name: "in a ring", task: renew("a", every(200, 12), "b"), others: []schedule.Task{renew("b", every(500, 0), "c"), renew("c", every(500, 0), "a")}, grace: tenth,
		done: []string{"2026-05-04 812.6 b"}, now: "2026-05-04 812.6", due: "1012.6 2027-05-04", state: "later", leeway: "20 30"},
	{name: "beside a ring", task: look("look", every(200, 12)), others: []schedule.Task{renew("b", every(500, 0), "c"), renew("c", every(500, 0), "b", "c")}, grace: tenth,
		done: []string{"2026-05-04 812.6 b"}, now: "2026-05-04 812.6", due: "200 2025-03-18", state: "due", leeway: "20 30"},
	{name: "by a task that the schedule has not", task: look("look", every(200, 12)), grace: tenth,
		done: []string{"2026-05-04 812.6 sails"}, now: "2026-05-04 812.6", due: "200 2025-03-18", state: "due", leeway: "20 30"},
}

// The sulphur duties are those of TM 5-3820-256-24-3: half the interval from 0.5
// to 1.0 % of sulphur, a quarter above.
var (
	half    = severe(oil, 500, sulphur)
	quarter = severe(oil, 250, "fuel sulphur over 1.0 %")
)

const always = "1900-01-01 " // as the machine file states it

var severeDuty = []semantic{
	{name: "half", task: half, grace: tenth, duties: []string{always + sulphur}, now: "2024-04-01 50", due: "100 2024-09-18", state: "later", leeway: "10 30", why: "TM 5-3820-256-24-3"},
	{name: "a quarter", task: quarter, grace: tenth, duties: []string{always + "fuel sulphur over 1.0 %"}, now: "2024-04-01 30", due: "50 2024-06-18", state: "later", leeway: "5 30", why: "TM 5-3820-256-24-3"},
	{name: "another duty", task: half, grace: tenth, duties: []string{always + dust}, now: "2024-04-01 50", due: "200 2025-03-18", state: "later", leeway: "20 30"},
	{name: "two duties, one of them its own", task: half, grace: tenth, duties: []string{always + dust + ", " + sulphur}, now: "2024-04-01 50", due: "100 2024-09-18", state: "later", leeway: "10 30"},
	{name: "a task without a severe interval", task: oil, grace: tenth, duties: []string{always + sulphur}, now: "2024-04-01 50", due: "200 2025-03-18", state: "later", leeway: "20 30"},
	{name: "soon by a tenth of the shorter", task: half, grace: tenth, done: []string{last}, duties: []string{always + sulphur}, now: "2025-05-01 189.99", due: "200 2025-09-18", state: "later", leeway: "10 30"},

	// Switched on between two times: what runs is shorter at once.
	{name: "on between", task: half, grace: tenth, done: []string{last}, duties: []string{always, "2025-06-01 " + sulphur}, now: "2025-06-01 210", due: "200 2025-09-18", state: "due", leeway: "10 30"},
	{name: "on between, past the shorter grace", task: half, grace: tenth, done: []string{last}, duties: []string{always, "2025-06-01 " + sulphur}, now: "2025-06-01 210.01", due: "200 2025-09-18", state: "overdue", leeway: "10 30"},
	{name: "on before the first time", task: half, grace: tenth, duties: []string{always, "2024-06-01 " + sulphur}, now: "2024-06-01 85", due: "100 2024-09-18", state: "later", leeway: "10 30"},
	{name: "off again", task: half, grace: tenth, done: []string{last}, duties: []string{always, "2025-06-01 " + sulphur, "2025-08-01 "}, now: "2025-08-01 210", due: "300 2026-03-18", state: "later", leeway: "20 30"},
	{name: "on, off and on", task: half, grace: tenth, done: []string{last}, duties: []string{"2025-06-01 " + sulphur, "2025-08-01 ", "2025-08-02 " + sulphur}, now: "2025-08-02 150", due: "200 2025-09-18", state: "later", leeway: "10 30"},
	{name: "two on one day: the later line", task: half, grace: tenth, done: []string{last}, duties: []string{"2025-06-01 " + sulphur, "2025-06-01 "}, now: "2025-06-01 150", due: "300 2026-03-18", state: "later", leeway: "20 30"},

	// On with the job itself: what was due then goes by the duty before it.
	{name: "on with the job, grid", task: from(half, schedule.FromGrid), grace: tenth, done: []string{"2025-04-01 230"}, duties: []string{always, "2025-04-01 " + sulphur}, now: "2025-04-01 230",
		due: "300 2025-09-18", state: "later", leeway: "10 30", why: "due at 200 and 12 months, late: 200 + 100 h, 12 + 6 months"},
	{name: "on with the job, in time only by the longer", task: from(half, schedule.FromGrid), grace: tenth, done: []string{"2025-01-10 150"}, duties: []string{always, "2025-01-10 " + sulphur}, now: "2025-01-10 150",
		due: "250 2025-07-10", state: "later", leeway: "10 30", why: "early: 150 + 100 h, and from 10 January"},
	{name: "on the day before, grid", task: from(half, schedule.FromGrid), grace: tenth, done: []string{"2025-01-10 150"}, duties: []string{always, "2025-01-09 " + sulphur}, now: "2025-01-10 150",
		due: "200 2025-03-18", state: "later", leeway: "10 30", why: "due at 100 h and on 2024-09-18, late: the next of that grid"},
	{name: "off with the job, grid", task: from(half, schedule.FromGrid), grace: tenth, done: []string{"2025-01-10 150"}, duties: []string{always + sulphur, "2025-01-10 "}, now: "2025-01-10 150",
		due: "300 2025-09-18", state: "later", leeway: "20 30", why: "100 + 200 h, 6 + 12 months"},
	{name: "window of the shorter interval", task: from(half, schedule.FromWindow), grace: tenth, done: []string{"2024-09-01 90"}, duties: []string{always + sulphur}, now: "2024-09-01 90",
		due: "200 2025-03-18", state: "later", leeway: "10 30", why: "10 h before 100; 17 days before 18 September"},
	{name: "before the window of the shorter interval", task: from(half, schedule.FromWindow), grace: tenth, done: []string{"2024-08-18 89.99"}, duties: []string{always + sulphur}, now: "2024-08-18 89.99",
		due: "189.99 2025-02-18", state: "later", leeway: "10 30", why: "31 days before"},

	// Late, and then a shorter interval: points that had passed when the work was
	// done are skipped, so that no work falls due before it was last done.
	{name: "late, then on with the job, grid", task: from(half, schedule.FromGrid), grace: tenth, done: []string{"2026-01-10 350"}, duties: []string{always, "2026-01-10 " + sulphur}, now: "2026-01-10 350",
		due: "400 2026-03-18", state: "later", leeway: "10 30", why: "due at 200 h and on 2025-03-18, late; 300 h and 2025-09-18 had passed"},
	{name: "late, then on later, grid", task: from(half, schedule.FromGrid), grace: tenth, done: []string{"2026-01-10 350"}, duties: []string{always, "2026-02-01 " + sulphur}, now: "2026-02-01 351",
		due: "400 2026-03-18", state: "later", leeway: "10 30", why: "as above"},
	{name: "late, then on with the job, window", task: from(half, schedule.FromWindow), grace: tenth, done: []string{"2026-01-10 350"}, duties: []string{always, "2026-01-10 " + sulphur}, now: "2026-01-10 350",
		due: "400 2026-03-18", state: "later", leeway: "10 30", why: "as above"},
	{name: "late, then on later, the longer interval's point nearer", task: from(severe(oil, 900, dust), schedule.FromGrid), grace: tenth, done: []string{"2024-12-01 390"}, duties: []string{always, "2024-12-05 " + dust}, now: "2024-12-05 391",
		due: "400 2025-10-01", state: "soon", leeway: "18 30", why: "due at 200, late, next at 400; every 180 h, 380 had passed: a duty brings nothing later, so not 560"},
}

// severeRounded: hours half away from zero to 1/100 h, months down, and 1/100 h
// and 1 month at least.
var severeRounded = []semantic{
	roundedTo(20000, 12, 333, "66.6 2024-06-18", "66.6 h; 3.996 months"),
	roundedTo(12345, 11, 500, "61.73 2024-08-18", "61.725 h; 5.5 months"),
	roundedTo(12344, 5, 250, "30.86 2024-04-18", "30.86 h; 1.25 months"),
	roundedTo(20, 8, 125, "0.03 2024-04-18", "0.025 h; 1 month"),
	roundedTo(12, 7, 125, "0.02 2024-04-18", "0.015 h; 0.875 months, 1 at least"),
	roundedTo(1, 1, 1, "0.01 2024-04-18", "0.00001 h, 1/100 at least; 1 month at least"),
	roundedTo(20000, 12, 1000, "200 2025-03-18", "a factor of 1 leaves it"),
	roundedTo(20000, 0, 999, "199.8 -", "no months: none come of it"),
	roundedTo(0, 12, 999, "- 2025-02-18", "no hours: none come of it; 11.988 months"),
}

func roundedTo(hours quantity.Hours, months quantity.Months, factor quantity.Ratio, due, sum string) semantic {
	return semantic{name: "factor " + factor.String() + " of " + hours.String() + " h, " + months.String() + " months",
		task: severe(renew("oil", schedule.Interval{Hours: hours, Months: months}), factor, dust), duties: []string{always + dust},
		now: "2024-03-18 0", due: due, state: "later", leeway: "0 0", why: sum}
}
