package recordtest

import (
	"crypto/sha256"
	"fmt"
	"strings"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// Shortest is the least that a record may say.
func Shortest() *record.Record {
	return &record.Record{
		Format: record.Format, Renderer: 1, Paper: record.Letter, Kind: record.Service,
		Machine: record.Machine{ID: "g6", Kind: "generator", Make: "Corrin", Model: "G6", Serial: "7",
			InService: schedule.Point{Date: day("2025-01-01")}},
		Job: record.Job{Date: day("2026-01-02"), Hours: hours("3"), Reason: record.Inspection,
			Meter: record.Meter{State: record.NoMeter, Basis: "log"}},
		Schedule: record.ScheduleRef{ID: "g6", Edition: 1, Basis: schedule.Basis{Kind: schedule.Yard}},
		Issuer:   record.Issuer{Name: "E. Slip", Kind: record.OwnerIssuer},
		Number:   1, IssuedAt: 1767366000, // 2026-01-02 15:00:00 UTC
	}
}

// Longest has as many tasks, fluids, parts and characters of notes as a record
// may, within record.MaxBytes, and says something in every field at least once.
func Longest() *record.Record {
	r := Example()
	earlier := sha256.Sum256([]byte("earlier"))
	r.Kind, r.Subject = record.Correction, &record.Subject{Record: earlier, Why: "the meter was read as 821.6"}
	r.Previous = &record.Previous{Record: earlier, Date: day("2026-05-04"), Hours: hours("821.6")}
	r.Number = 7
	r.By.Name = "E. Marlow"
	r.Machine.DrivenBy = "Corrin 4T-75 0045121"
	r.Job.Meter = record.Meter{State: record.Running, Reading: new(hours("112.6")), Offset: hours("700"),
		Change: &record.MeterChange{RemovedAt: new(hours("712")), FittedAt: hours("12"), Why: "glass cracked"}}
	r.Tasks[3].Last = &record.Last{Date: day("2025-06-20"), Hours: hours("501"), Stated: true}
	accountFor(r)
	r.Fluids[0].Balance.Trend = longestTrend(r.Job.Hours)
	fillTasks(r)
	fillFluids(r)
	for i := len(r.Parts); i < record.MaxParts; i++ {
		r.Parts = append(r.Parts, record.Part{Item: fmt.Sprint("part ", i+1), Quantity: uint(i), SuppliedBy: record.Supplier(i%3 + 1)})
	}
	r.Parts[1].Number, r.Parts[1].Serial, r.Parts[2].Serial = "CR-5120", "0000714", "0x1F"
	r.OtherWork = append(r.OtherWork, record.OtherWork{Text: "Exhaust elbow weeps", Result: record.Defect, DoneBy: "Harbour Electrics",
		Answer: &record.Answer{Why: "no elbow to be had", Advice: record.BeforeUse, Told: new(day("2026-05-04")), Owner: record.Declined}})
	r.LeakCheck = &record.LeakCheck{Result: record.Seen, After: new(quantity.Minutes(10)), Where: "weep at the sump plug, wiped, gone after half a turn"}
	r.Findings = append(r.Findings, record.Finding{Code: record.LevelOverfilled, Severity: record.Decide, Subject: "engine-oil",
		Value: new(int64(1180)), Limit: new(int64(1150)), Unit: record.InShare, Accepted: "to be drawn down tomorrow, tag on the key"})
	r.Files = []record.File{{Name: "plate.jpg", SHA256: sha256.Sum256([]byte("plate"))}}
	r.Notes = longestNotes()
	return r
}

func fillTasks(r *record.Record) {
	results := []record.Result{record.Done, record.OK, record.Watch, record.Defect, record.Deferred, 0}
	for i := len(r.Tasks); i < record.MaxTasks; i++ {
		t := record.Task{ID: fmt.Sprint("t", i+1), Title: fmt.Sprint("Item ", i+1), Kind: schedule.Kind(i%5 + 1),
			Every: schedule.Interval{Months: 12}, Due: dueAt("", "2027-05-04"), Result: results[i%len(results)]}
		if t.Result == record.Defect || t.Result == record.Deferred {
			t.Answer = &record.Answer{Why: "no time"}
		}
		r.Tasks = append(r.Tasks, t)
	}
	last := &r.Tasks[record.MaxTasks-1]
	last.Result, last.Answer, last.DoneBy = record.OK, nil, "Harbour Electrics"
	last.LookAgain = &record.LookAgain{Hours: new(hours("900")), Date: new(day("2026-09-01"))}
	last.Readings = []record.Reading{{Name: "voltage",
		AsFound: new(must(quantity.ParseFigure("12.1 V"))), AsLeft: new(must(quantity.ParseFigure("12.6 V")))}}
}

func fillFluids(r *record.Record) {
	r.Fluids[0].Level.Reading = new(quantity.Ratio(1180))
	r.Fluids[0].Holds = 11_500
	for i := len(r.Fluids); i < record.MaxFluids; i++ {
		r.Fluids = append(r.Fluids, record.Fluid{System: fmt.Sprint("tank-", i+1), Filled: sum("1 L")})
	}
	last := &r.Fluids[record.MaxFluids-1]
	last.Drained, last.Filled, last.Level = &quantity.Measured{NotMeasured: true}, sum("7.7 kg", "1 US qt at 20 C"), &record.Level{}
}

func longestNotes() string {
	notes := ""
	for i := 1; len(notes) < record.MaxNotes-60; i++ {
		notes += fmt.Sprintf("Note %d: the belt was looked at in good light.\n", i)
	}
	return notes + strings.Repeat("x", record.MaxNotes-len(notes))
}
