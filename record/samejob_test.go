package record_test

import (
	"testing"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/recordtest"
	"hourseal/record/schedule"
)

// TestSameJob: a crash between two records is completed by running again, and a
// job that is stored already must be known again, by what its sheet states.
func TestSameJob(t *testing.T) {
	worked := map[string]func(*record.Record){
		"number": func(r *record.Record) { r.Number, r.Previous = 2, &record.Previous{} },
		"time":   func(r *record.Record) { r.IssuedAt += 60 },
		"yard":   func(r *record.Record) { r.Issuer.Contact = "other@ellery-slip.example" },
		"layout": func(r *record.Record) { r.Renderer, r.Paper, r.PageHost = 2, record.Letter, "" },
		"schedule": func(r *record.Record) {
			r.Schedule.Edition, r.Tasks[0].Title, r.Tasks[0].Every = 3, "Other", schedule.Interval{Hours: 1}
		},
		"a task not mentioned": func(r *record.Record) { r.Tasks = append(r.Tasks, record.Task{ID: "mounts"}) },
		"order left out":       func(r *record.Record) { r.Tasks = append(r.Tasks[:3:3], r.Tasks[4:]...) }, // task 4 is not on the sheet
		"due":                  func(r *record.Record) { r.Tasks[0].Due = schedule.Due{}; r.Tasks[0].Last = nil },
		"findings":             func(r *record.Record) { r.Findings = nil },
		"machine's figures":    func(r *record.Record) { r.Fluids[0].AtUpper, r.Fluids[0].Density = 9000, 0 },
		"balance":              func(r *record.Record) { r.Fluids[0].Balance = &record.Balance{Drained: &record.Estimate{Volume: 9000}} },
		"plate, corrected":     func(r *record.Record) { r.Machine.Model = "4T-75B" },
		"offset": func(r *record.Record) {
			r.Job.Meter.Offset, r.Job.Hours = 100*quantity.Hour, r.Job.Hours+100*quantity.Hour
		},
	}
	for name, change := range worked {
		r := recordtest.Example()
		change(r)
		if !record.SameJob(recordtest.Example(), r) {
			t.Errorf("%s: another job", name)
		}
	}
	stated := map[string]func(*record.Record){
		"serial":       func(r *record.Record) { r.Machine.Serial = "0045121" },
		"kind":         func(r *record.Record) { r.Kind, r.Subject = record.Void, &record.Subject{Why: "x"} },
		"date":         func(r *record.Record) { r.Job.Date++ },
		"reading":      func(r *record.Record) { *r.Job.Meter.Reading++ },
		"reason":       func(r *record.Record) { r.Job.Reason = record.Warranty },
		"job number":   func(r *record.Record) { r.Job.Number = "J-2218" },
		"technician":   func(r *record.Record) { r.By.Number = "119" },
		"meter change": func(r *record.Record) { r.Job.Meter.Change = &record.MeterChange{Why: "x"} },
		"result":       func(r *record.Record) { r.Tasks[0].Result = record.Deferred },
		"a further task": func(r *record.Record) {
			r.Tasks[3].Result = record.Done
		},
		"why":                     func(r *record.Record) { r.Tasks[2].Answer.Why = "cracked" },
		"look again":              func(r *record.Record) { *r.Tasks[2].LookAgain.Hours++ },
		"task's reading":          func(r *record.Record) { r.Tasks[4].Readings[0].Value.Digits-- },
		"done by":                 func(r *record.Record) { r.Tasks[0].DoneBy = "Harbour Electrics" },
		"other work":              func(r *record.Record) { r.OtherWork = nil },
		"drained":                 func(r *record.Record) { r.Fluids[0].Drained.Portions[0].Amount++ },
		"drained, units":          func(r *record.Record) { r.Fluids[0].Drained.Portions[0].Unit = quantity.UnitLitre },
		"filter in drained":       func(r *record.Record) { *r.Fluids[0].WithFilter = true },
		"filter not said":         func(r *record.Record) { r.Fluids[0].WithFilter = nil },
		"batch":                   func(r *record.Record) { r.Fluids[0].Batch = "" },
		"level":                   func(r *record.Record) { r.Fluids[0].Level = nil },
		"drawn down":              func(r *record.Record) { r.Fluids[0].DrawnDown = r.Fluids[0].Filled },
		"glycol":                  func(r *record.Record) { r.Fluids[0].Glycol = record.Ethylene },
		"seen":                    func(r *record.Record) { r.Fluids[0].Saw = []record.Sight{record.SawNothing} },
		"answer to what was seen": func(r *record.Record) { r.Fluids[0].Answer = &record.Answer{Why: "x"} },
		"fuel used":               func(r *record.Record) { r.Job.FuelUsed = r.Fluids[0].Filled },
		"waste held":              func(r *record.Record) { r.Waste[0].Held = "drum 3" },
		"topped up":               func(r *record.Record) { r.ToppedUp = nil },
		"waste":                   func(r *record.Record) { r.Waste[0].Receipt = "" },
		"parts":                   func(r *record.Record) { r.Parts[0].Quantity++ },
		"part's serial number":    func(r *record.Record) { r.Parts[0].Serial = "0071" },
		"leak check":              func(r *record.Record) { r.LeakCheck.Result = record.Seen },
		"notes":                   func(r *record.Record) { r.Notes = "" },
		"files":                   func(r *record.Record) { r.Files = []record.File{{Name: "plate.jpg"}} },
	}
	for name, change := range stated {
		r := recordtest.Example()
		change(r)
		if record.SameJob(recordtest.Example(), r) {
			t.Errorf("%s: the same job", name)
		}
	}
	// Without a reading the estimate is what the sheet states of the hours.
	a, b := recordtest.Shortest(), recordtest.Shortest()
	b.Job.Hours++
	if record.SameJob(a, b) {
		t.Error("estimate: the same job")
	}
}
