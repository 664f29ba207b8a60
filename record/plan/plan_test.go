package plan_test

import (
	"slices"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/jobsheet"
	"hourseal/record/plan"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

func ids(items []plan.Item) string {
	var list []string
	for _, item := range items {
		list = append(list, item.Task.ID)
	}
	return strings.Join(list, " ")
}

// TestWith: what goes with a task that is due, or soon due, is work too; named
// tasks besides; all in the schedule's order.
func TestWith(t *testing.T) {
	// The oil at 500 h, its filter again at 690: the oil falls due by itself, at 700.
	chain := chainOf(t,
		visit{when: "2026-05-04 500", tasks: []record.Task{result("engine-oil", record.Done), result("oil-filter", record.Done), result("belt-look", record.OK),
			result("belt", record.Done), result("impeller", record.Done), result("coolant-strength", record.OK), result("bolts", record.OK)}},
		visit{when: "2026-10-04 690", tasks: []record.Task{result("oil-filter", record.Done)}})
	for _, c := range []struct {
		when    string
		besides []string
		work    string
	}{
		{"2026-10-04 690", nil, "engine-oil oil-filter belt-look"}, // within a tenth of 200 h
		{"2026-10-04 690", []string{"impeller", "sails"}, "engine-oil oil-filter belt-look impeller"},
		{"2026-10-04 690", []string{"oil-filter"}, "engine-oil oil-filter belt-look"},
		{"2026-05-05 501", nil, ""},
		{"2026-05-05 501", []string{"oil-filter", "engine-oil"}, "engine-oil oil-filter"},
	} {
		if got := ids(planOn(t, c.when, chain).Work(c.besides...)); got != c.work {
			t.Errorf("%s besides %v: %q, want %q", c.when, c.besides, got, c.work)
		}
	}
	p := planOn(t, "2026-10-04 690", chain)
	for _, item := range p.Items {
		want := ""
		if item.Task.ID == "oil-filter" {
			want = "engine-oil"
		}
		if got := strings.Join(item.With, " "); got != want {
			t.Errorf("%s goes with %q, want %q", item.Task.ID, got, want)
		}
	}
}

// TestWithByWayOfAnother: a task goes with another whenever that is done, and so
// with what that goes with.
func TestWithByWayOfAnother(t *testing.T) {
	far := schedule.Interval{Months: 120}
	s := schedule.Schedule{ID: "x", Edition: 1, NextFrom: schedule.FromDone, Tasks: []schedule.Task{
		{ID: "oil", Kind: schedule.Replace, Every: schedule.Interval{Hours: 100 * quantity.Hour}, With: []string{"filter", "sails"}},
		{ID: "filter", Kind: schedule.Replace, Every: far, With: []string{"gasket"}},
		{ID: "gasket", Kind: schedule.Replace, Every: far, With: []string{"filter"}}, // a ring comes to an end
		{ID: "belt", Kind: schedule.Replace, Every: far},
	}}
	in := plan.Input{Machine: gannetPort(t), Schedule: s}
	if got := ids(makePlan(t, "2024-05-01 100", in).Work()); got != "oil filter gasket" {
		t.Errorf("work %q", got)
	}
	if got := ids(makePlan(t, "2024-03-19 1", in).Work()); got != "" {
		t.Errorf("nothing due: %q", got)
	}
}

// TestUrgency: the worst first; of the same state what fell due first, hours
// reckoned back at 420 h a year. The day is 2027-07-01, at 1100 h.
func TestUrgency(t *testing.T) {
	at900 := record.LookAgain{Hours: new(900 * quantity.Hour)}
	chain := chainOf(t, visit{when: "2026-05-04 812.6", tasks: []record.Task{result("engine-oil", record.Done), result("oil-filter", record.Done),
		result("belt-look", record.Watch, at900), result("coolant-strength", record.OK), result("bolts", record.OK)}})
	p := planOn(t, "2027-07-01 1100", chain)
	// Overdue: the belt's look at 900, 200 h or 173 days ago; oil and filter at 1012.6,
	// 76 days ago; the coolant on 4 May, 58 days ago. Due, without a record: the
	// impeller on 2025-03-18; the belt at 1000, 86 days ago. Never again: the bolts.
	const want = "belt-look engine-oil oil-filter coolant-strength impeller belt bolts"
	sorted := slices.SortedStableFunc(slices.Values(p.Items), plan.Urgency)
	if got := ids(sorted); got != want {
		t.Errorf("order %s, want %s", got, want)
	}
	if got := p.First().Task.ID; got != "belt-look" {
		t.Errorf("first %s", got)
	}
	if got := (plan.Plan{}).First(); got.Task.ID != "" {
		t.Errorf("first of none %+v", got)
	}
	// Ahead: what is expected first, by hours or by date. The look at 900, 76 days on;
	// belt at 1000, 163 days; oil at 1012.6, 174 days; the coolant after 365.
	p = planOn(t, "2026-05-04 812.6", chain)
	if got, want := ids(slices.SortedStableFunc(slices.Values(p.Items), plan.Urgency)), "impeller belt-look belt engine-oil oil-filter coolant-strength bolts"; got != want {
		t.Errorf("ahead %s, want %s", got, want)
	}
	// Due since today by a record, after what nothing is on record of for years.
	p = planOn(t, "2026-10-01 900", chain)
	if got, want := ids(slices.SortedStableFunc(slices.Values(p.Items), plan.Urgency))[:len("belt-look impeller")], "belt-look impeller"; got != want {
		t.Errorf("due with and without a record: %s, want %s", got, want)
	}
}

// TestMakeRefuses: a day before there was a machine, and a reading below what was
// read.
func TestMakeRefuses(t *testing.T) {
	first := visit{when: "2024-09-01 900"}
	second := visit{when: "2025-08-01 87.5", offset: "1470.3"}
	stopped := visit{when: "2025-09-01 200", offset: "1470.3", change: func(r *record.Record) {
		r.Job.Meter.State, r.Job.Meter.Reading, r.Job.Meter.Basis = record.Stopped, nil, "the owner's log"
	}}
	const meter = ": look at the meter again; a changed meter goes into a job sheet, under meter_change"
	for _, c := range []struct {
		when   string
		visits []visit
		want   string
	}{
		{"2024-03-17", nil, "2024-03-17 is before gannet-port went into service, 2024-03-18"},
		{"2024-03-17 10", nil, "2024-03-17 is before gannet-port went into service, 2024-03-18"},
		{"2024-03-18 0", nil, ""},
		{"2024-09-02 899.99", []visit{first}, "899.99 h is below the 900 h of 2024-09-01" + meter},
		{"2024-09-02 900", []visit{first}, ""},
		{"2024-08-31 10", []visit{first}, ""}, // before that was read
		{"2024-08-31 900", []visit{first}, ""},
		{"2024-08-31 900.01", []visit{first}, "900.01 h on 2024-08-31 is above the 900 h in total of 2024-09-01: look at the date and the meter again"},
		{"2025-08-02 87.49", []visit{first, second}, "87.49 h is below the 87.5 h of 2025-08-01" + meter},
		{"2025-08-02 87.5", []visit{first, second}, ""},
		// Two days whole, and 0.1 h: 24.48 h each.
		{"2025-08-02 136.56", []visit{first, second}, ""},
		{"2025-08-02 136.57", []visit{first, second}, "136.57 h is 49.07 h more than was read on 2025-08-01; until 2025-08-02 a meter can rise by 49.06 at most: look at the meter again, and give what it reads, which is 1470.3 h less than the total"},
		{"2025-09-02 100", []visit{first, second, stopped}, ""}, // an estimate proves nothing
		{"2025-09-02 87", []visit{first, second, stopped}, "87 h is below the 87.5 h of 2025-08-01" + meter},
	} {
		_, err := plan.Make(asked(t, c.when, plan.Input{Machine: gannetPort(t), Schedule: yardPlan(), Chain: chainOf(t, c.visits...)}))
		got := ""
		if err != nil {
			got = err.Error()
		}
		if got != c.want {
			t.Errorf("%s: %q, want %q", c.when, got, c.want)
		}
	}
}

// TestHoursNow: a reading is asked about, or the last known hours are carried on
// at 420 h a year, to the whole hour.
func TestHoursNow(t *testing.T) {
	chain := chainOf(t, visit{when: "2026-05-04 812.6", tasks: []record.Task{result("engine-oil", record.Done)}})
	p := planOn(t, "2026-08-04", chain)
	if h := p.Hours; h.Given || h.Total != hours(t, "918") || h.Last.Hours != hours(t, "812.6") { // 92 days: 105.8 h, 918.4 in total
		t.Errorf("carried on: %+v", h)
	}
	if p.Use.Basis != schedule.FromMachineFile {
		t.Errorf("use: %+v", p.Use)
	}
	// 301 days on, 346 h: the oil, due at 1012.6 and in grace to 1032.6, would be late
	// at 1158.6, which nobody has read.
	if got, want := taskOf(t, planOn(t, "2027-03-01", chain), "engine-oil"), "due 1012.6 2027-05-04 hours"; got != want {
		t.Errorf("carried on: %s, want %s", got, want)
	}
	if got, want := taskOf(t, planOn(t, "2027-03-01 1158.6", chain), "engine-oil"), "overdue 1012.6 2027-05-04 hours"; got != want {
		t.Errorf("read: %s, want %s", got, want)
	}
	if got, want := taskOf(t, planOn(t, "2027-06-04", chain), "engine-oil"), "overdue 1012.6 2027-05-04 hours"; got != want {
		t.Errorf("by date: %s, want %s", got, want)
	}
	// Nor has anybody read an estimate.
	estimate := func(r *record.Record) {
		r.Job.Meter.State, r.Job.Meter.Reading, r.Job.Meter.Basis = record.Stopped, nil, "the owner's log"
	}
	estimated := slices.Concat(chain, chainOf(t, visit{when: "2026-12-01 1100", change: estimate}))
	if got, want := taskOf(t, planOn(t, "2026-12-02", estimated), "engine-oil"), "due 1012.6 2027-05-04 hours"; got != want {
		t.Errorf("estimated: %s, want %s", got, want)
	}
}

// TestGearboxHours: a gearbox goes by its engine's hours, and the engine's change
// of meter is its own: A 0 to 1482.3, B fitted at 12.0, now 87.5: 1557.8 h.
func TestGearboxHours(t *testing.T) {
	engine := gannetPort(t)
	gearbox := jobsheet.Machine{ID: "gannet-port-gearbox", DrivenBy: engine.ID, InService: engine.InService}
	s := schedule.Schedule{ID: "reduction-gear", Edition: 1, NextFrom: schedule.FromDone, Tasks: []schedule.Task{
		{ID: "gear-oil", Kind: schedule.Replace, Every: schedule.Interval{Hours: 250 * quantity.Hour, Months: 12}}}}
	engineChain := chainOf(t, visit{when: "2024-09-01 300"}, visit{when: "2025-05-04 40", offset: "1470.3"}, visit{when: "2025-08-01 87.5", offset: "1470.3"})
	own := chainOf(t, visit{when: "2025-05-04 40", offset: "1470.3", tasks: []record.Task{{ID: "gear-oil", Kind: schedule.Replace, Result: record.Done}}, change: func(r *record.Record) {
		r.Job.Meter.State, r.Job.Meter.Reading, r.Job.Meter.Basis = record.NoMeter, nil, "the engine's meter"
	}})
	in := plan.Input{Machine: gearbox, Driver: &engine, Schedule: s, Chain: own, Engine: engineChain}
	p := makePlan(t, "2025-08-01 87.5", in)
	if h := p.Hours; h.Total != hours(t, "1557.8") || h.Offset != hours(t, "1470.3") || h.Last.Hours != hours(t, "1557.8") {
		t.Errorf("hours %+v", h)
	}
	item := p.Items[0]
	if got, want := taskOf(t, p, "gear-oil"), "later 1760.3 2026-05-04 hours"; got != want || *item.HoursLeft != hours(t, "202.5") {
		t.Errorf("%s, %v h left; want %s", got, item.HoursLeft, want)
	}
	if reads := p.Hours.Reading(*item.Due.Hours); reads != hours(t, "290") { // 250 after 40, on the same meter
		t.Errorf("due as the meter reads: %v", reads)
	}
	// Before any record of its own, and without a reading: the engine's last, and the
	// engine's use.
	in.Chain, in.Engine = nil, engineChain[:1]
	p = makePlan(t, "2024-09-01", in)
	if p.Hours.Total != hours(t, "300") || p.Use.PerYear != 420*quantity.Hour {
		t.Errorf("by the engine alone: %+v, use %v", p.Hours, p.Use.PerYear)
	}
	if got, want := taskOf(t, p, "gear-oil"), "due 250 2025-03-18 hours"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// TestEdition: a schedule other than the last record was checked by is noted, also
// under the same number of edition: the digest tells.
func TestEdition(t *testing.T) {
	chain := chainOf(t, visit{when: "2025-05-04 300"}, visit{when: "2026-05-04 812.6"})
	otherText, newer := yardPlan(), yardPlan()
	otherText.Tasks[0].Title = "Change the oil"
	newer.Edition = 3
	in := plan.Input{Machine: gannetPort(t), Schedule: yardPlan(), Chain: chain}
	if p := makePlan(t, "2026-06-01", in); p.Edition != nil || p.Schedule.Digest != record.Digest(yardPlan().Digest()) {
		t.Errorf("the same: %+v", p.Edition)
	}
	for name, s := range map[string]schedule.Schedule{"other text, same edition": otherText, "edition 3": newer} {
		in.Schedule = s
		p := makePlan(t, "2026-06-01", in)
		if e := p.Edition; e == nil || e.Record.Number != 2 || e.Record.ID != chain[1].ID || e.Then.Digest != chain[1].Record.Schedule.Digest || e.Then.Edition != 2 {
			t.Errorf("%s: %+v", name, e)
		}
		// Seen from a day between, the record before it tells; before any, none.
		if e := makePlan(t, "2025-06-01", in).Edition; e == nil || e.Record.Number != 1 {
			t.Errorf("%s, a year before: %+v", name, e)
		}
		if e := makePlan(t, "2025-05-03", in).Edition; e != nil {
			t.Errorf("%s, before any record: %+v", name, e)
		}
	}
	// A record by the new text ends it.
	in.Schedule = otherText
	chain[1].Record.Schedule.Digest = otherText.Digest()
	if e := makePlan(t, "2026-06-01", in).Edition; e != nil {
		t.Errorf("checked by it: %+v", e)
	}
}

// TestSevereItem: a duty from the last record on shortens at once, and says so only
// where something still runs.
func TestSevereItem(t *testing.T) {
	chain := chainOf(t,
		visit{when: "2026-05-04 812.6", tasks: []record.Task{result("engine-oil", record.Done)}},
		visit{when: "2026-06-01 850", change: func(r *record.Record) { r.Job.SevereDuty = []string{sulphur} }})
	for when, want := range map[string]struct {
		severe bool
		item   string
	}{
		"2026-05-31 849": {false, "later 1012.6 2027-05-04 hours"},
		"2026-06-02 851": {true, "later 912.6 2026-11-04 hours"},
	} {
		p := planOn(t, when, chain)
		if got := taskOf(t, p, "engine-oil"); got != want.item || p.Items[0].Severe != want.severe {
			t.Errorf("%s: %s, severe %v; want %+v", when, got, p.Items[0].Severe, want)
		}
	}
	// A duty that the schedule no longer names is named.
	reworded := yardPlan()
	for i := range reworded.Tasks {
		if reworded.Tasks[i].Severe.When == sulphur {
			reworded.Tasks[i].Severe.When = "high-sulphur fuel"
		}
	}
	p := makePlan(t, "2026-06-02 851", plan.Input{Machine: gannetPort(t), Schedule: reworded, Chain: chain})
	if p.Items[0].Severe || !slices.Equal(p.Unknown, []string{sulphur}) {
		t.Errorf("reworded: severe %v, unknown %q", p.Items[0].Severe, p.Unknown)
	}
	if known := planOn(t, "2026-06-02 851", chain); len(known.Unknown) != 0 {
		t.Errorf("unknown %q", known.Unknown)
	}
	// As the machine file states it.
	in := plan.Input{Machine: gannetPort(t), Schedule: yardPlan()}
	in.Machine.SevereDuty = []string{sulphur}
	if p := makePlan(t, "2024-04-01 10", in); !p.Items[0].Severe || *p.Items[0].Due.Hours != 25*quantity.Hour || p.Items[1].Severe {
		t.Errorf("machine file: %+v", p.Items[0])
	}
}
