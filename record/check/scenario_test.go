package check_test

import (
	"os"
	"testing"

	"hourseal/record"
	"hourseal/record/check"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// TestScenario: the two engines of the pilot launch, both of one visit.
//
// Worked out by hand for port (starboard 3.3 h less):
//
//   - no earlier record, so nothing is early or late;
//   - hours: 777 days from 2024-03-18 at 420 h a year are 893.5 h, 812.6 were run;
//   - the engines are 3.3 h apart and there is no record of either: not alike;
//   - belt: due at 1000 h or 2028-03-18, whichever first: not yet; every other
//     task is mentioned, the impeller with a reason;
//   - level 0.85 after 15 min; 9.3 L of at most 20; every quantity with its
//     temperature; leak check made; -27 degC against -25;
//   - 15W-40 is asked for; API CK-4 for API CI-4: a note;
//   - GB ELS 00042 A3 23: 14 characters, January, model year 2023.
func TestScenario(t *testing.T) {
	folder := jobsheet.Open(os.DirFS(scenario), nil)
	yard, err := folder.Yard()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		machine, twin string
		twinHours     quantity.Hours
		next          map[string]string
	}{
		{"gannet-port", "gannet-starboard", 80930, map[string]string{
			"engine-oil": "1012.6 2027-05-04 hours later", "oil-filter": "1012.6 2027-05-04 hours later", "belt-look": "1012.6 2027-05-04 hours later",
			"belt": "1000 2028-03-18 hours later", "coolant-strength": "- 2027-05-04 date later",
			// Due from entry into service, and no record of it: due, not late. 412.6 h
			// past are 359 days at 420 h a year, and the date is 412 days past.
			"impeller": "400 2025-03-18 date due"}},
		{"gannet-starboard", "gannet-port", 81260, map[string]string{
			"engine-oil": "1009.3 2027-05-04 hours later", "oil-filter": "1009.3 2027-05-04 hours later", "belt-look": "1009.3 2027-05-04 hours later",
			"belt": "1000 2028-03-18 hours later", "coolant-strength": "- 2027-05-04 date later", "impeller": "400 2025-03-18 date due"}},
	} {
		t.Run(c.machine, func(t *testing.T) {
			name := "jobs/" + c.machine + "-2026-05-04.yaml"
			job, err := jobsheet.ParseJob(name, []byte(scenarioFile(t, name)))
			if err != nil {
				t.Fatal(err)
			}
			machine, plan, err := folder.For(job)
			if err != nil {
				t.Fatal(err)
			}
			result := check.Run(check.Input{
				Yard: yard, Machine: machine, Schedule: plan, Job: job, Now: 1_777_900_000, Today: day("2026-05-04"), Renderer: 1,
				Twins: []check.Twin{{ID: c.twin, Now: &schedule.Point{Date: job.Date, Hours: c.twinHours}}},
			})
			wantSaid(t, result, "note no-earlier-record", `note oil-suits-by-table/engine-oil "API CK-4 for API CI-4"`,
				`note coolant-strength/coolant -27 °C -25 °C "about 40 % ethylene by volume"`)
			wantFaults(t, result)
			if at := result.Findings[1].At; at != name+":25:12" { // meets: [API CK-4]
				t.Errorf("points at %s", at)
			}
			if result.Outcome != check.Issuable || result.Passed == nil || result.SinceLast != nil {
				t.Fatalf("outcome %s", result.Outcome)
			}
			for task, want := range c.next {
				if got := nextOf(result, task); got != want {
					t.Errorf("%s: next %s, want %s", task, got, want)
				}
			}
			r := result.Passed.CheckedRecord()
			if r.Number != 1 || r.Job.Number != job.Number || r.Notes != "Look at the belt again at 900 hours." || r.Machine.Serial != machine.Serial {
				t.Errorf("record %+v", r)
			}
			// 2.4 US gal at 68 degC, 9.3 L at 16, level 0.85 at 45: Table 54D, by hand in
			// package fluid.
			balance := r.Fluids[0].Balance
			if balance.Drained.Volume != 8738 || balance.Filled.Volume != 9293 || balance.Carried.Volume != 256 || balance.Level.Reading != 382 || balance.Used != nil {
				t.Errorf("balance %+v", balance)
			}
			if got := lastOf(r, "impeller"); got != "no record" {
				t.Errorf("impeller, put off: last done %s", got)
			}
			if _, err := record.Encode(r); err != nil {
				t.Error(err)
			}
		})
	}
}
