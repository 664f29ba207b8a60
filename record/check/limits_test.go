package check_test

import (
	"fmt"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/check"
	"hourseal/record/jobsheet"
)

// TestTooMuchForARecord: a sheet whose record would be over a limit is refused
// here, before anything is signed, and says which limit.
func TestTooMuchForARecord(t *testing.T) {
	long := strings.Repeat("x", record.MaxReason)
	var other strings.Builder
	other.WriteString("inspection\nother_work:\n")
	for range record.MaxOtherWork {
		fmt.Fprintf(&other, "  - { text: %s, result: watch, why: %s }\n", long, long)
	}
	s := newScene(t, nil, nil)
	s.issue(t, firstSheet)
	result := s.run(t, edits{{"inspection\n", other.String()}}.in(t, lookSheet))
	if result.Outcome != check.Malformed || result.Passed != nil || len(result.Faults) != 1 {
		t.Fatalf("outcome %s, faults %v", result.Outcome, result.Faults)
	}
	text := result.Faults[0].Error()
	if !strings.HasPrefix(text, "sheet.yaml: no record can be made of this job: record takes ") || !strings.HasSuffix(text, " bytes, at most 8192 fit: shorten notes and reasons") {
		t.Errorf("fault %q", text)
	}
}

func TestTooLongForARecord(t *testing.T) {
	s := newScene(t, edits{{"kind: propulsion diesel\n", "kind: reduction gear\ndriven_by: gannet-main\n"}}, nil)
	engine := s.machine
	engine.ID, engine.Make = "gannet-main", strings.Repeat("x", record.MaxText)
	s.driver = &engine
	// 120 and the model and serial behind it, with spaces between: 134.
	wantFaults(t, s.run(t, lookSheet), "sheet.yaml: no record can be made of this job: driven by: 134 characters, at most 120 fit")
}

// TestTooManyFindings: 64 tasks that are late by hours and by date, and a fluid.
func TestTooManyFindings(t *testing.T) {
	var plan, tasks strings.Builder
	for i := range record.MaxTasks {
		fmt.Fprintf(&plan, "  - { id: t%d, title: T, kind: inspect, every: { hours: 1, months: 1 } }\n", i)
		fmt.Fprintf(&tasks, "  - { id: t%d, result: ok }\n", i)
	}
	s := newScene(t, nil, nil)
	text := scenarioFile(t, "schedules/diesel-inboard-ellery.yaml")
	text = text[:strings.Index(text, "tasks:\n")] + "tasks:\n" + plan.String()
	var err error
	if s.schedule, _, err = jobsheet.ParseSchedule("plan.yaml", []byte(text)); err != nil {
		t.Fatal(err)
	}
	s.machine.Earlier = nil
	sheet := edits{{"inspection\n", "inspection\ntasks:\n" + tasks.String()}}.in(t, lookSheet)
	s.issue(t, sheet)
	next := edits{{"2026-06-13", "2026-09-13"}, {"hours: 900", "hours: 950"}, {"inspection\n", "inspection\nfluids:\n  - { system: coolant, filled: not measured }\n"}}.in(t, sheet)
	result := s.run(t, next)
	if len(result.Findings) != 2*record.MaxTasks+1 {
		t.Errorf("%d findings", len(result.Findings))
	}
	wantFaults(t, result, "sheet.yaml: no record can be made of this job: findings: 129 entries, at most 128 fit")
}

// TestLongestTextsOfFindings: what a finding quotes is shortened to fit.
func TestLongestTextsOfFindings(t *testing.T) {
	long := strings.Repeat("x", record.MaxText)
	machine := edits{
		{"meets: [API CI-4, ACEA E7]", "meets: [" + long + ", API CI-4" + strings.Repeat("-", 100) + "]"},
		{"viscosity: [15W-40, 10W-40]", "viscosity: [" + long + "]"},
	}
	s := newScene(t, machine, nil)
	s.issue(t, firstSheet)
	for _, meets := range []string{"[" + long[1:] + "y]", "[API CK-4" + strings.Repeat("-", 100) + "]"} {
		r := s.issue(t, edits{{"[API CI-4]", meets}, {"viscosity: 15W-40", "viscosity: " + long[1:] + "y"}, {"2027-04-20", "2027-04-21"}}.in(t, nextSheet))
		for _, f := range r.Findings {
			if n := len(f.Text); n != record.MaxReason || !strings.HasSuffix(f.Text, "...") {
				t.Errorf("%v: %d characters: %s", f.Code, n, f.Text)
			}
		}
		s.earlier = s.earlier[:1]
	}
}

// TestUnresolved: a sheet that names what is not there never passes, whether or
// not it was held to its machine and schedule before: its record would leave the
// work out.
func TestUnresolved(t *testing.T) {
	s := newScene(t, nil, nil)
	s.issue(t, firstSheet)
	result := s.run(t, edits{{"id: impeller", "id: impellor"}, {"fluids:\n  - system: engine-oil", "fluids:\n  - system: gear-oil"}}.in(t, nextSheet))
	if result.Passed != nil || len(result.Faults) != 2 {
		t.Errorf("outcome %s, faults %v", result.Outcome, result.Faults)
	}
}

// TestDraftIsNotWhatPassed: changing the draft does not change what was checked.
func TestDraftIsNotWhatPassed(t *testing.T) {
	s := newScene(t, nil, nil)
	result := s.run(t, firstSheet)
	result.Draft.Job.Hours, result.Draft.Tasks[0].Title = 1, "nothing"
	*result.Draft.Job.Meter.Reading = 1
	if r := result.Passed.CheckedRecord(); r.Job.Hours != 81260 || r.Tasks[0].Title != "Change the engine oil" || *r.Job.Meter.Reading != 81260 {
		t.Errorf("what passed was changed: %+v", r.Job)
	}
}

// TestZeroPassed: only Run makes one that holds a record.
func TestZeroPassed(t *testing.T) {
	if r := (check.Passed{}).CheckedRecord(); r != nil {
		t.Errorf("record %+v", r)
	}
}
