package check_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/check"
	"hourseal/record/jobsheet"
)

// nextOf writes when a task falls due after a job: hours, date, which first, and
// how it stands.
func nextOf(r check.Result, task string) string {
	for _, n := range r.Next {
		if n.Task != task {
			continue
		}
		hours, date := "-", "-"
		if n.Due.Hours != nil {
			hours = n.Due.Hours.String()
		}
		if n.Due.Date != nil {
			date = n.Due.Date.String()
		}
		return strings.Join([]string{hours, date, n.By, n.State.String()}, " ")
	}
	return "no such task"
}

// lastOf writes when the record says that a task was last done.
func lastOf(r *record.Record, task string) string {
	for _, t := range r.Tasks {
		if t.ID == task && t.Last != nil {
			stated := ""
			if t.Last.Stated {
				stated = " stated"
			}
			return fmt.Sprintf("%v %v%s", t.Last.Date, t.Last.Hours, stated)
		}
	}
	return "no record"
}

const impeller = "inspection\ntasks:\n  - { id: impeller, result: done }\nparts:\n  - { item: impeller }\n"

// TestNextByHours: last 1000.0, done 1108.0 or 1095.0, every 100 h (14 CFR
// 91.409(b) for grid, Part-ML for done).
func TestNextByHours(t *testing.T) {
	for _, c := range []struct{ policy, done, want string }{
		{"grid", "1108", "1200 - hours later"},
		{"grid", "1095", "1195 - hours later"},
		{"grid", "1100", "1200 - hours later"},
		{"done", "1108", "1208 - hours later"},
		{"done", "1095", "1195 - hours later"},
		{"window", "1108", "1200 - hours later"},
		{"window", "1095", "1200 - hours later"}, // within the grace of 10 h
		{"window", "1089.99", "1189.99 - hours later"},
	} {
		s := newScene(t, nil, edits{{"every: { hours: 400, months: 12 }", "every: { hours: 100 }\n    next_from: " + c.policy}})
		s.issue(t, edits{{"hours: 900", "hours: 1000"}, {"inspection\n", impeller}}.in(t, lookSheet))
		result := s.run(t, edits{{"2026-06-13", "2026-12-01"}, {"hours: 900", "hours: " + c.done}, {"inspection\n", impeller}}.in(t, lookSheet))
		if got := nextOf(result, "impeller"); got != c.want {
			t.Errorf("%s, done at %s: next %s, want %s", c.policy, c.done, got, c.want)
		}
	}
}

// TestNextByDate: expiry 2026-06-15, five years, three months either side (SOLAS
// harmonised surveys; 92 days from 15 March to 15 June).
func TestNextByDate(t *testing.T) {
	for done, want := range map[string]string{
		"2026-04-20": "- 2031-06-15 date later",
		"2026-02-01": "- 2031-02-01 date later",
		"2026-07-01": "- 2031-06-15 date later",
	} {
		s := newScene(t, edits{{"2024-03-18", "2021-06-15"}},
			edits{{"every: { hours: 400, months: 12 }", "every: { months: 60 }\n    next_from: window\n    grace: { days: 92 }"}})
		result := s.run(t, edits{{"2026-06-13", done}, {"inspection\n", impeller}}.in(t, lookSheet))
		if got := nextOf(result, "impeller"); got != want {
			t.Errorf("done %s: next %s, want %s", done, got, want)
		}
	}
}

// TestStandings: where tasks stand after a job, without an earlier record, and
// how the record says when each was last done.
func TestStandings(t *testing.T) {
	young := [2]string{"2024-03-18", "2026-05-01"}
	statements := [2]string{`  - { task: engine-oil, date: 2025-06-20, hours: 501, source: invoice }   # invoice | owner | none
  - { task: oil-filter, date: 2025-06-20, hours: 501, source: invoice }
`, ""}
	const oil = "inspection\ntasks:\n  - { id: oil-filter, result: done }\nparts:\n  - { item: oil filter }\n"
	for _, c := range []struct {
		name             string
		machine          edits
		sheet            edits
		task, last, next string
	}{
		{"the first interval is shorter", edits{young, statements}, edits{{"hours: 900", "hours: 45"}}, "oil-filter", "no record", "50 2027-05-01 hours soon"},
		{"then the usual one", edits{young, statements}, edits{{"hours: 900", "hours: 45"}, {"inspection\n", oil}}, "oil-filter", "2026-06-13 45", "245 2027-06-13 hours later"},
		{"as stated, not under seal", nil, nil, "oil-filter", "2025-06-20 501 stated", "701 2026-06-20 hours due"},
		{"stated without a source", edits{{"task: oil-filter, date: 2025-06-20, hours: 501, source: invoice", "task: oil-filter, date: 2025-06-20, hours: 501, source: none"}}, nil,
			"oil-filter", "2025-06-20 501 stated", "701 2026-06-20 hours due"},
		{"a look that found something counts", nil, edits{{"inspection\n", "inspection\ntasks:\n  - { id: belt-look, result: defect, why: frayed }\n"}}, "belt-look", "2026-06-13 900", "1100 2027-06-13 hours later"},
		{"a look put off does not", nil, edits{{"inspection\n", "inspection\ntasks:\n  - { id: belt-look, result: deferred, why: no light }\n"}}, "belt-look", "no record", "200 2025-03-18 hours due"},
		{"a part looked at is not a new one", nil, edits{{"inspection\n", "inspection\ntasks:\n  - { id: impeller, result: ok }\n"}}, "impeller", "no record", "400 2025-03-18 date due"},
		{"a new belt was looked at", nil, edits{{"inspection\n", "inspection\ntasks:\n  - { id: belt, result: done }\n"}}, "belt-look", "2026-06-13 900", "1100 2027-06-13 hours later"},
		{"a look is no new belt", nil, edits{{"inspection\n", "inspection\ntasks:\n  - { id: belt-look, result: ok }\n"}}, "belt", "no record", "1000 2028-03-18 hours soon"},
		{"a belt that waits was not looked at", nil, edits{{"inspection\n", "inspection\ntasks:\n  - { id: belt, result: deferred, why: on order }\n"}}, "belt-look", "no record", "200 2025-03-18 hours due"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newScene(t, c.machine, nil)
			result := s.run(t, c.sheet.in(t, lookSheet))
			wantFaults(t, result)
			if got := lastOf(result.Draft, c.task); got != c.last {
				t.Errorf("last %s, want %s", got, c.last)
			}
			if got := nextOf(result, c.task); got != c.next {
				t.Errorf("next %s, want %s", got, c.next)
			}
		})
	}
}

// TestStates: soon from 30 days before, or from the hours that run in so many days
// (34.5 of 420 a year, more than a tenth of the interval), due from the point,
// overdue past the grace; overdue only with a sealed record of the task.
func TestStates(t *testing.T) {
	for _, c := range []struct{ date, hours, want string }{
		{"2027-04-03", "978.09", "later"},
		{"2027-04-03", "978.1", "soon"},
		{"2027-04-04", "978.09", "soon"},
		{"2027-04-04", "1012.6", "due"},
		{"2027-05-04", "1000", "due"},
		{"2027-06-03", "1032.6", "due"},
		{"2027-06-03", "1032.61", "overdue"},
		{"2027-06-04", "1032.6", "overdue"},
	} {
		s := newScene(t, nil, nil)
		s.issue(t, firstSheet)
		result := s.run(t, look(t, c.date, c.hours))
		if got := nextOf(result, "engine-oil"); got != "1012.6 2027-05-04 hours "+c.want && got != "1012.6 2027-05-04 date "+c.want {
			t.Errorf("%s at %s h: %s, want %s", c.date, c.hours, got, c.want)
		}
		if got := nextOf(result, "belt"); got != "1000 2028-03-18 hours soon" && got != "1000 2028-03-18 hours due" {
			t.Errorf("%s at %s h: belt, of which there is no record: %s", c.date, c.hours, got)
		}
	}
}

// TestRecordHoldsEveryTask: the record lists the whole schedule in its order,
// with results only where the sheet has them.
func TestRecordHoldsEveryTask(t *testing.T) {
	s := newScene(t, nil, nil)
	r := s.issue(t, firstSheet)
	var got []string
	for _, task := range r.Tasks {
		result := "-"
		if task.Result != 0 {
			result = task.Result.String()
		}
		got = append(got, task.ID+" "+result)
	}
	const want = "engine-oil done, oil-filter done, belt-look ok, belt -, coolant-strength ok, impeller done"
	if list := strings.Join(got, ", "); list != want {
		t.Errorf("tasks %s, want %s", list, want)
	}
	if r.Number != 1 || r.Previous != nil || r.Schedule.Digest != record.Digest(s.schedule.Digest()) {
		t.Errorf("number %d, previous %v", r.Number, r.Previous)
	}
	if f := r.Fluids[0]; f.AtUpper.String() != "10 L" || f.BetweenMarks.String() != "1.6 L" || f.FilterHolds.String() != "0.6 L" || f.Density != 880 {
		t.Errorf("the machine's figures: %+v", f)
	}
}

// TestLatenessNeedsASealedRecord: what is only stated is used for when a task
// falls due, never for how late it was done.
func TestLatenessNeedsASealedRecord(t *testing.T) {
	late := edits{{"hours: 812.6", "hours: 990"}, {"2026-05-04", "2027-03-01"}, {"J-2217", "J-2300"}, {"  - { id: belt-look, result: ok }\n", "  - { id: belt-look, result: ok }\n  - { id: belt, result: done }\n"}}
	t.Run("no record at all", func(t *testing.T) {
		s := newScene(t, nil, nil)
		// Stated at 501 h, so due at 701: 289 h ago. Nobody's lateness.
		wantSaid(t, s.run(t, late.in(t, firstSheet)), "note no-earlier-record")
	})
	t.Run("a record, none of the task", func(t *testing.T) {
		s := newScene(t, nil, nil)
		s.issue(t, lookSheet)
		wantSaid(t, s.run(t, late.in(t, firstSheet)))
	})
	t.Run("a record of the task", func(t *testing.T) {
		s := newScene(t, nil, nil)
		s.issue(t, edits{{"812.6", "700"}, {"2026-05-04", "2025-12-01"}}.in(t, firstSheet))
		wantSaid(t, s.run(t, late.in(t, firstSheet)),
			// Due at 900 h and on 2026-12-01: 90 h and 90 days.
			"note done-late/engine-oil 90h 900h", "note done-late/engine-oil 90d",
			"note done-late/oil-filter 90h 900h", "note done-late/oil-filter 90d",
			"note done-late/belt-look 90h 900h", "note done-late/belt-look 90d",
			"note done-late/coolant-strength 90d", "note done-late/impeller 90d")
	})
}

// TestStatementAfterFirstRecord: a line in the machine file cannot come between
// two sealed records, where it would hide how late the second job was.
func TestStatementAfterFirstRecord(t *testing.T) {
	late := edits{{"2025-06-20, hours: 501, source: invoice }   #", "2026-05-05, hours: 815, source: owner }   #"}}
	s := newScene(t, late, nil)
	if r := s.run(t, firstSheet); len(r.Faults) != 0 { // before there is any record
		t.Errorf("first: %v", r.Faults)
	}
	s.issue(t, firstSheet)
	result := s.run(t, nextSheet)
	wantFaults(t, result, "machine.yaml:13:31: date: 2026-05-05 is after the first record, 2026-05-04: earlier is for what was done before it; take the line out and write a job sheet")
	if result.Outcome != check.Malformed {
		t.Errorf("outcome %s", result.Outcome)
	}
	onTheDay := newScene(t, edits{{"2025-06-20, hours: 501, source: invoice }   #", "2026-05-04, hours: 812, source: owner }   #"}}, nil)
	onTheDay.issue(t, firstSheet)
	wantFaults(t, onTheDay.run(t, nextSheet))
}

// TestStatementAfterTheJob: paperwork of an earlier day knows nothing of what is
// stated as done later.
func TestStatementAfterTheJob(t *testing.T) {
	s := newScene(t, nil, nil)
	result := s.run(t, edits{{"2026-06-13", "2025-06-19"}, {"hours: 900", "hours: 490"}}.in(t, lookSheet))
	if got := lastOf(result.Draft, "oil-filter"); got != "no record" {
		t.Errorf("last %s", got)
	}
	if got := nextOf(result, "oil-filter"); got != "50 2025-03-18 hours due" {
		t.Errorf("next %s", got)
	}
}

// TestGearbox: a machine without a meter has its engine's hours, and its record
// names the engine.
func TestGearbox(t *testing.T) {
	s := newScene(t, nil, nil)
	engine := s.machine
	var err error
	if s.machine, err = jobsheet.ParseMachine("machine.yaml", []byte(scenarioFile(t, "machines/gannet-port-gearbox.yaml"))); err != nil {
		t.Fatal(err)
	}
	plan, err := os.ReadFile("../../templates/schedules/reduction-gear.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if s.schedule, _, err = jobsheet.ParseSchedule("plan.yaml", plan); err != nil {
		t.Fatal(err)
	}
	sheet := edits{{"gannet-port", "gannet-port-gearbox"}, {"inspection\n", `inspection
tasks:
  - { id: gear-oil, result: done }
fluids:
  - { system: gear-oil, drained: 2 L at 40 C, filled: 2.1 L at 16 C, viscosity: "90", level: { reading: 0.9, after: 20 min, at: 20 C } }
leak_check: { result: none seen }
`}}.in(t, lookSheet)
	wantFaults(t, s.run(t, sheet), "machine.yaml:5:12: driven_by: the machine file of gannet-port is not at hand: its hours count here")
	s.driver = &engine
	s.twins = []check.Twin{{ID: "gannet-starboard", Now: at("900", "2026-06-13")}}
	result := s.run(t, sheet)
	wantFaults(t, result)
	if by := result.Draft.Machine.DrivenBy; by != "Corrin 4T-75 0045120" {
		t.Errorf("driven by %q", by)
	}
	for _, f := range result.Findings {
		if f.Severity != record.Note {
			t.Errorf("finding %s", saidOne(f.Finding))
		}
	}
	if got := nextOf(result, "gear-oil"); got != "1150 2027-06-13 hours later" {
		t.Errorf("next %s", got)
	}
	if result.Passed == nil {
		t.Errorf("outcome %s", result.Outcome)
	}
}
