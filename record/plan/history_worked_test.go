package plan_test

import (
	"strings"
	"testing"

	"hourseal/record/plan"
	"hourseal/record/schedule"
)

// byHand is where one task stands as worked out by hand: due hours in total, due
// date, state.
type byHand struct {
	task, hours, date, state string
}

// workedByHand are due tables of the five years, worked out on paper from the
// sheets and the schedule in testdata/history, the arithmetic beside each.
//
// Soon is within a tenth of the interval's hours or 30 days, and the grace is a
// tenth of them or 30 days, except oil-filter (20 h, 14 days) and coolant-strength
// (21 days).
var workedByHand = []struct {
	step, total string
	rows        []byHand
}{
	// 50 days and 47.3 h after entry into service, 2021-08-31 at 0 h.
	{"01", "47.3", []byHand{
		{"break-in", "-", "-", "later"},                  // once, at 0 + 50 = 50 h: done at 47.3, nothing more is due
		{"engine-oil", "247.3", "2022-10-20", "later"},   // first at 50 h: done 2.7 h before; 47.3 + 200; 2021-10-20 + 12 months
		{"oil-filter", "447.3", "2023-10-20", "later"},   // 47.3 + 400; + 24 months
		{"valves", "400", "-", "later"},                  // never done: 0 + 400; 352.7 h left
		{"coolant-strength", "-", "2022-02-28", "later"}, // never done: 2021-08-31 + 6 months is 31 February: 2022-02-28, 131 days
		{"belt-look", "247.3", "2022-10-20", "later"},    // 47.3 + 200; + 12 months
		{"belt", "1000", "2025-08-31", "later"},          // never done: 0 + 1000; 2021-08-31 + 48 months
		{"impeller", "400", "2022-08-31", "later"},       // never done: 0 + 400; + 12 months
		{"exhaust-elbow", "-", "2024-09-20", "later"},    // stated: 2021-09-20 + 36 months
		{"mounts", "500", "-", "later"},                  // never done: 0 + 500
	}},
	// No reading. Known: 0 h on day 0, 12 (stated) on day 20, 47.3 on day 50, 180.5 on
	// day 191: four, over 191 days of at least 180. The slopes of the six pairs, in h a
	// day, in order:
	//
	//	12/20         0.600000
	//	133.2/141     0.944681
	//	180.5/191     0.945026
	//	47.3/50       0.946000
	//	168.5/171     0.985380
	//	35.3/30       1.176667
	//
	// The median is (0.945026 + 0.946)/2 = 0.945513, by 365.25 days 345.35 h a year. From
	// 2022-03-10 to 2022-07-01 are 21 + 30 + 31 + 30 + 1 = 113 days: 106.84 h;
	// 180.5 + 106.84 = 287.34, in whole hours 287.
	{"2022-07-01", "287", []byHand{
		{"break-in", "-", "-", "later"},
		{"engine-oil", "247.3", "2022-10-20", "due"},     // 39.7 h past, grace 10 % of 200 = 20: by hours that nobody read, so not overdue
		{"oil-filter", "447.3", "2023-10-20", "later"},   // 160.3 h left, soon at 40
		{"valves", "400", "-", "later"},                  // 113 h left, soon at 40
		{"coolant-strength", "-", "2022-08-31", "later"}, // done 2022-03-10, 10 days after 02-28, within 21: 2021-08-31 + 12, not 02-28 + 6 = 08-28
		{"belt-look", "247.3", "2022-10-20", "due"},
		{"belt", "1000", "2025-08-31", "later"},
		{"impeller", "400", "2022-08-31", "later"}, // 61 days left
		{"exhaust-elbow", "-", "2024-09-20", "later"},
		{"mounts", "500", "-", "later"}, // 213 h left
	}},
	{"03", "390", []byHand{
		{"break-in", "-", "-", "later"},
		{"engine-oil", "590", "2023-09-25", "later"},     // was due at 247.3, 142.7 late; from done: 390 + 200; + 12 months
		{"oil-filter", "447.3", "2023-10-20", "later"},   // not done; 57.3 h left, soon at 40
		{"valves", "790", "-", "later"},                  // grid: due at 400, done 10 early, so from done: 390 + 400
		{"coolant-strength", "-", "2023-02-28", "later"}, // due 08-31, done 25 days after, past 21: from the old due point: 2021-08-31 + 18 months
		{"belt-look", "590", "2023-09-25", "later"},      // 390 + 200
		{"belt", "1000", "2025-08-31", "later"},
		{"impeller", "400", "2022-08-31", "due"}, // put off, so as before: 10 h left, 25 days past
		{"exhaust-elbow", "-", "2024-09-20", "later"},
		{"mounts", "500", "-", "later"}, // 110 h left, soon at 50
	}},
	{"05", "560", []byHand{
		{"break-in", "-", "-", "later"},
		{"engine-oil", "760", "2024-03-20", "later"},     // due at 590, 30 early; 560 + 200; + 12 months
		{"oil-filter", "960", "2025-03-20", "later"},     // due at 447.3, 112.7 late; 560 + 400; + 24 months
		{"valves", "790", "-", "later"},                  // 230 h left
		{"coolant-strength", "-", "2023-08-31", "later"}, // due 02-28, 20 days after, within 21: 2021-08-31 + 24 months
		{"belt-look", "700", "2023-09-30", "later"},      // 760 and 2024-03-20; to be looked at again at 700 and 2023-09-30, both before
		{"belt", "1000", "2025-08-31", "later"},
		{"impeller", "832", "2023-11-05", "later"}, // done by record 4: 432 + 400; 2022-11-05 + 12 months
		{"exhaust-elbow", "-", "2024-09-20", "later"},
		{"mounts", "500", "-", "due"}, // 60 past, grace 50; no record of it, so never overdue
	}},
	// The old meter came off at 640.2, the new one went on at 3.0: offset 637.2; 12.4 is
	// 649.6 in total. The severe duty halves the oil's interval at once.
	{"06", "649.6", []byHand{
		{"engine-oil", "660", "2023-09-20", "soon"},      // 560 + 200/2; 2023-03-20 + 6 months; 10.4 h left, some 10 days, soon at 30
		{"belt-look", "700", "2023-09-30", "later"},      // asked for at 700 by the old meter, which was the total
		{"coolant-strength", "-", "2023-08-31", "later"}, // 80 days left
		{"mounts", "500", "-", "due"},
	}},
	// 75 + 637.2.
	{"07", "712.2", []byHand{
		{"break-in", "-", "-", "later"},
		{"engine-oil", "812.2", "2024-02-14", "later"},   // due at 660, 52.2 late, grace 10; 712.2 + 100; 2023-08-14 + 6 months
		{"oil-filter", "960", "2025-03-20", "later"},     // 247.8 h left
		{"valves", "790", "-", "later"},                  // 77.8 h left, soon at 40
		{"coolant-strength", "-", "2024-02-29", "later"}, // due 08-31, 17 days early, within 21: 2021-08-31 + 30 months, a leap year
		{"belt-look", "912.2", "2024-08-14", "later"},    // the new belt was looked at: 712.2 + 200; no second look waits
		{"belt", "1712.2", "2027-08-14", "later"},        // 712.2 + 1000; + 48 months
		{"impeller", "832", "2023-11-05", "later"},       // 119.8 h, 83 days left
		{"exhaust-elbow", "-", "2024-09-20", "later"},
		{"mounts", "500", "-", "due"},
	}},
	// 170 + 637.2. The duty ends with this job.
	{"08", "807.2", []byHand{
		{"break-in", "-", "-", "later"},
		{"engine-oil", "1007.2", "2025-02-20", "later"},  // due at 812.2 or 02-14, 6 days late, in its grace; 807.2 + 200 again; + 12 months
		{"oil-filter", "960", "2025-03-20", "later"},     // 152.8 h left
		{"valves", "1190", "-", "later"},                 // grid: due at 790, 17.2 late; 790 + 400, not 1207.2
		{"coolant-strength", "-", "2024-08-31", "later"}, // due 02-29, 9 days early: 2021-08-31 + 36 months
		{"belt-look", "912.2", "2024-08-14", "later"},    // 105 h left
		{"belt", "1712.2", "2027-08-14", "later"},
		{"impeller", "1207.2", "2025-02-20", "later"}, // due 2023-11-05, 107 days late; 807.2 + 400
		{"exhaust-elbow", "-", "2024-09-20", "later"},
		{"mounts", "500", "-", "due"},
	}},
	// The meter has stopped: 930 as estimated.
	{"09", "930", []byHand{
		{"engine-oil", "1007.2", "2025-02-20", "later"}, // 77.2 h left, soon at 20
		{"oil-filter", "960", "2025-03-20", "soon"},     // 30 h left, soon at 40
		{"belt-look", "1130", "2025-07-05", "due"},      // looked at: 930 + 200; found frayed, to be seen to before use
	}},
	// The old meter was last known at 930 - 637.2 = 292.8; the new one went on at 0: offset
	// 637.2 + 292.8 = 930; 6.5 is 936.5 in total.
	{"10", "936.5", []byHand{
		{"oil-filter", "960", "2025-03-20", "soon"},    // 23.5 h left
		{"belt-look", "1136.5", "2025-07-19", "later"}, // with the new belt: 936.5 + 200; nothing waits
		{"belt", "1936.5", "2028-07-19", "later"},      // 936.5 + 1000
	}},
	// 140 + 930.
	{"11", "1070", []byHand{
		{"break-in", "-", "-", "later"},
		{"engine-oil", "1270", "2025-11-30", "later"},    // due at 1007.2, 62.8 late; 1070 + 200
		{"oil-filter", "1470", "2026-11-30", "later"},    // due at 960, 110 late; 1070 + 400
		{"valves", "1190", "-", "later"},                 // 120 h left
		{"coolant-strength", "-", "2025-02-28", "later"}, // due 2024-08-31, 91 days late; 2021-08-31 + 42 months; 90 days left
		{"belt-look", "1136.5", "2025-07-19", "later"},   // 66.5 h left, soon at 20
		{"belt", "1936.5", "2028-07-19", "later"},
		{"impeller", "1207.2", "2025-02-20", "later"}, // 137.2 h, 82 days left
		{"exhaust-elbow", "-", "2024-09-20", "due"},   // 71 days past, grace 30; only stated, so never overdue
		{"mounts", "500", "-", "due"},
	}},
	// Edition 2 has the oil every 150 h. 91 days after 1070 h at 323.84 h a year are
	// 80.68 h, in whole hours 81.
	{"2025-03-01", "1151", []byHand{
		{"engine-oil", "1220", "2025-11-30", "later"},  // 1070 + 150; 69 h left, soon at 15
		{"valves", "1190", "-", "soon"},                // 39 h left, soon at 40
		{"coolant-strength", "-", "2025-02-28", "due"}, // 1 day past
		{"belt-look", "1136.5", "2025-07-19", "due"},   // 14.5 h past, grace 20
		{"impeller", "1207.2", "2025-02-20", "due"},    // 9 days past, grace 30
		{"belt", "1936.5", "2028-07-19", "later"},      // 785.5 h left
		{"oil-filter", "1470", "2026-11-30", "later"},  // 319 h left
		{"exhaust-elbow", "-", "2024-09-20", "due"},
	}},
	// 226.5 + 930.
	{"2025-03-21", "1156.5", []byHand{
		{"engine-oil", "1220", "2025-11-30", "later"},  // 63.5 h left
		{"valves", "1190", "-", "soon"},                // 33.5 h left
		{"coolant-strength", "-", "2025-02-28", "due"}, // 21 days past, grace 21
		{"belt-look", "1136.5", "2025-07-19", "due"},   // 20 h past, grace 20
		{"impeller", "1207.2", "2025-02-20", "due"},    // 29 days past, grace 30
	}},
	{"12", "1192", []byHand{
		{"engine-oil", "1220", "2025-11-30", "later"},    // 28 h left, soon at 15
		{"valves", "1590", "-", "later"},                 // due at 1190, 2 late: 1190 + 400
		{"coolant-strength", "-", "2025-08-31", "later"}, // due 2025-02-28, 41 days late: 2021-08-31 + 48 months
		{"belt-look", "1136.5", "2025-07-19", "overdue"}, // 55.5 h past, grace 20
		{"impeller", "1207.2", "2025-02-20", "overdue"},  // put off: 49 days past, grace 30
	}},
	// 493.8 + 930, wrong; then 439.8 + 930.
	{"14", "1423.8", []byHand{
		{"engine-oil", "1380.4", "2026-06-02", "overdue"}, // 1230.4 + 150; 43.4 past, grace 15
		{"belt-look", "1430.4", "2026-06-02", "soon"},     // 1230.4 + 200; 6.6 h left
	}},
	{"15", "1369.8", []byHand{
		{"engine-oil", "1380.4", "2026-06-02", "soon"},   // 10.6 h left, soon at 15
		{"belt-look", "1430.4", "2026-06-02", "later"},   // 60.6 h left
		{"coolant-strength", "-", "2026-02-28", "later"}, // due 2025-08-31, 15 days after, within 21: 2021-08-31 + 54 months
	}},
	// 520 + 930.
	{"16", "1450", []byHand{
		{"break-in", "-", "-", "later"},
		{"engine-oil", "1600", "2027-01-20", "later"},    // due at 1380.4, 69.6 late; 1450 + 150
		{"oil-filter", "1850", "2028-01-20", "later"},    // due at 1470, 20 early, all of its grace; 1450 + 400; + 24 months
		{"valves", "1590", "-", "later"},                 // 140 h left
		{"coolant-strength", "-", "2026-07-20", "later"}, // due 2026-02-28, 39 days early, before the window: 2026-01-20 + 6 months
		{"belt-look", "1650", "2027-01-20", "later"},     // due at 1430.4, 19.6 late, grace 20; 1450 + 200
		{"belt", "1936.5", "2028-07-19", "later"},        // 486.5 h left
		{"impeller", "1630.4", "2026-06-02", "later"},    // done by record 13: 1230.4 + 400; 2025-06-02 + 12 months
		{"exhaust-elbow", "-", "2024-09-20", "due"},
		{"mounts", "500", "-", "due"},
	}},
	// 655 + 930.
	{"17", "1585", []byHand{
		{"engine-oil", "1600", "2027-01-20", "soon"},     // 15 h left, soon at 10 % of 150 = 15
		{"valves", "1590", "-", "soon"},                  // 5 h left
		{"coolant-strength", "-", "2027-01-20", "later"}, // due 2026-07-20, 39 days late: 2026-01-20 + 12 months
		{"impeller", "1630.4", "2026-06-02", "overdue"},  // 87 days past, grace 30
	}},
}

// TestHistoryByHand holds the five years to what was worked out by hand.
func TestHistoryByHand(t *testing.T) {
	plans := replayed(t)
	for _, want := range workedByHand {
		made, there := plans[want.step]
		if !there {
			t.Fatalf("no step %s", want.step)
		}
		if got := made.Hours.Total.String(); got != want.total {
			t.Errorf("step %s: %s h in total, want %s", want.step, got, want.total)
		}
		for _, row := range want.rows {
			item := itemOf(t, made, row.task)
			if got := (byHand{row.task, orDash(item.Due.Hours), orDash(item.Due.Date), item.State.String()}); got != row {
				t.Errorf("step %s: %v, want %v", want.step, got, row)
			}
		}
	}
}

// TestHistoryUse: the rate of the six slopes above, and Sen's interval. With w =
// 1.645 * sqrt(4*3*13/18) = 4.84, its ends are at (6 - 4.84)/2 = 0.58, rounded 1,
// less one, and at (6 + 4.84)/2 = 5.42, rounded 5, counted from 0: the lowest slope
// and the highest, 0.6 and 1.176667 h a day. From 2022-07-01 the 113 h to 400 take
// 120 days (119.5), 189 at the low rate (188.3) and 97 at the high one (96.03).
func TestHistoryUse(t *testing.T) {
	made := replayed(t)["2022-07-01"]
	if got, want := useText(made.Use), "use 345.35 h a year, 219.15 to 429.78, from readings: 4 from 2021-08-31 to 2022-03-10"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	reach := itemOf(t, made, "valves").Expected
	if reach == nil || reach.On.String() != "2022-10-29" || reach.From.String() != "2022-10-06" || reach.To.String() != "2023-01-06" {
		t.Errorf("valves expected %v", reach)
	}
}

// TestHistoryMeters: what the present meter reads when a task falls due.
func TestHistoryMeters(t *testing.T) {
	plans := replayed(t)
	for _, c := range []struct{ step, task, meter string }{
		{"05", "oil-filter", "960"},
		{"06", "oil-filter", "322.8"},   // 960 - 637.2
		{"06", "engine-oil", "22.8"},    // 660 - 637.2
		{"06", "mounts", "earlier one"}, // 500: the new meter began at 640.2 in total
		{"10", "oil-filter", "30"},      // 960 - 930
		{"17", "engine-oil", "670"},     // 1600 - 930
	} {
		made := plans[c.step]
		if got := onMeter(made, itemOf(t, made, c.task)); got != c.meter {
			t.Errorf("step %s, %s: %s on the meter, want %s", c.step, c.task, got, c.meter)
		}
	}
}

// TestHistoryOpen: what the last word on a task leaves open, and when no longer.
func TestHistoryOpen(t *testing.T) {
	plans := replayed(t)
	for _, c := range []struct{ step, task, left string }{
		{"03", "impeller", "deferred"},
		{"04", "impeller", ""}, // done
		{"05", "belt-look", "watch"},
		{"06", "belt-look", "watch"},
		{"07", "belt-look", ""}, // by the new belt
		{"09", "belt-look", "defect"},
		{"10", "belt-look", ""},
		{"12", "impeller", "deferred"},
		{"13", "impeller", ""},
	} {
		left := ""
		if open := itemOf(t, plans[c.step], c.task).Open; open != nil {
			left = open.Result.String()
		}
		if left != c.left {
			t.Errorf("step %s, %s: left open %q, want %q", c.step, c.task, left, c.left)
		}
	}
}

// TestHistoryNeverLate: a task of which no sealed record speaks is never late.
func TestHistoryNeverLate(t *testing.T) {
	for step, made := range replayed(t) {
		for _, item := range made.Items {
			if unsealed := item.Last == nil || item.Last.Record == nil; unsealed && item.State == schedule.Overdue {
				t.Errorf("step %s: %s is overdue without a record of it", step, item.Task.ID)
			}
		}
	}
}

// TestHistoryEdition: only the questions between the new edition and the first job
// by it say that the schedule was changed.
func TestHistoryEdition(t *testing.T) {
	for step, made := range replayed(t) {
		changed := made.Edition != nil
		if changed != strings.HasPrefix(step, "2025-03-") {
			t.Errorf("step %s: schedule changed %v", step, changed)
		}
		if changed && (made.Edition.Record.Number != 11 || made.Edition.Then.Edition != 1 || made.Schedule.Edition != 2) {
			t.Errorf("step %s: %+v", step, made.Edition)
		}
	}
}

// replayed gives the plan of every step by its name.
func replayed(t *testing.T) map[string]plan.Plan {
	t.Helper()
	l, plans := newLife(t), map[string]plan.Plan{}
	for _, s := range fiveYears {
		plans[s.name], _ = l.take(t, s)
	}
	return plans
}

func itemOf(t *testing.T, p plan.Plan, task string) plan.Item {
	t.Helper()
	for _, item := range p.Items {
		if item.Task.ID == task {
			return item
		}
	}
	t.Fatalf("no item %s", task)
	return plan.Item{}
}
