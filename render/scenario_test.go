package render

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
	"hourseal/sign"
	"hourseal/sign/qrtext"
)

func ptr[T any](v T) *T { return &v }

// must takes a figure that the test wrote itself.
func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

func day(text string) quantity.Date         { return must(quantity.ParseDate(text)) }
func hours(text string) quantity.Hours      { return must(quantity.ParseHours(text)) }
func degC(text string) quantity.Temperature { return must(quantity.ParseTemperature(text)) }

func sum(texts ...string) *quantity.Measured {
	var portions []quantity.Portion
	for _, text := range texts {
		portions = append(portions, must(quantity.ParsePortion(text)))
	}
	return ptr(must(quantity.SumOf(portions...)))
}

func dueAt(h, date string) schedule.Due {
	var due schedule.Due
	if h != "" {
		due.Hours = ptr(hours(h))
	}
	if date != "" {
		due.Date = ptr(day(date))
	}
	return due
}

var oilAndFilter = schedule.Interval{Hours: 200 * quantity.Hour, Months: 12}

// example is the port engine's service of the invented yard, as the check of
// its job sheet would give it.
func example() *record.Record {
	job := day("2026-05-04")
	now := record.Last{Date: job, Hours: hours("812.6")}
	leeway := schedule.Leeway{Hours: 20 * quantity.Hour, Days: 30}
	return &record.Record{
		Format: record.Format, Renderer: RendererID, Paper: record.A4,
		PageHost: "verify.ellery-slip.example", Kind: record.Service,
		Machine: record.Machine{
			ID: "gannet-port", Vessel: "Gannet", Hull: "GB-ELS00042A323", Kind: "propulsion diesel", Position: "port",
			Make: "Corrin", Model: "4T-75", Serial: "0045120", RatedPower: 55 * quantity.Kilowatt,
			InService: schedule.Point{Date: day("2024-03-18")},
		},
		Job: record.Job{
			Date: job, Hours: hours("812.6"), Reason: record.Scheduled, Place: "Port Ellery, east slip", Number: "J-2217",
			Meter: record.Meter{State: record.Running, Reading: ptr(hours("812.6"))},
		},
		By: record.By{Number: "118", Credential: "Ellery Slip card"},
		Schedule: record.ScheduleRef{
			ID: "diesel-inboard-ellery", Edition: 2, Title: "Inboard diesel, turbocharged, fresh-water cooled",
			Basis:  schedule.Basis{Kind: schedule.CommonPractice, Document: "the yard's own sheet", Edition: "2", Page: "1"},
			Digest: sha256.Sum256([]byte("diesel-inboard-ellery")),
		},
		Tasks: []record.Task{
			{ID: "engine-oil", Title: "Change the engine oil", Kind: schedule.Replace, Every: oilAndFilter, Leeway: leeway,
				Last: &now, Due: dueAt("1012.6", "2027-05-04"), Result: record.Done},
			{ID: "oil-filter", Title: "Fit a new oil filter", Kind: schedule.Replace, Every: oilAndFilter, Leeway: leeway,
				Last: &now, Due: dueAt("1012.6", "2027-05-04"), Result: record.Done},
			{ID: "belt-look", Title: "Look over the drive belt", Kind: schedule.Inspect, Every: oilAndFilter, Leeway: leeway,
				Last: &now, Due: dueAt("1012.6", "2027-05-04"), Result: record.Watch,
				Answer: &record.Answer{Why: "light glaze on the back"}, LookAgain: &record.LookAgain{Hours: ptr(hours("900"))}},
			{ID: "belt", Title: "Fit a new drive belt", Kind: schedule.Replace,
				Every: schedule.Interval{Hours: 1000 * quantity.Hour, Months: 48}, Leeway: schedule.Leeway{Hours: 100 * quantity.Hour, Days: 30},
				Due: dueAt("1000", "2028-03-18")},
			{ID: "coolant-strength", Title: "Measure the coolant's freezing point", Kind: schedule.Test,
				Every: schedule.Interval{Months: 12}, Leeway: schedule.Leeway{Days: 30},
				Last: &now, Due: dueAt("", "2027-05-04"), Result: record.OK,
				Readings: []record.Reading{{Name: "freezing_point", Value: ptr(must(quantity.ParseFigure("-27 C")))}}},
			{ID: "impeller", Title: "Fit a new raw-water impeller", Kind: schedule.Replace,
				Every: schedule.Interval{Hours: 400 * quantity.Hour, Months: 12}, Leeway: schedule.Leeway{Hours: 40 * quantity.Hour, Days: 30},
				Due: dueAt("400", "2025-03-18"), Result: record.Deferred,
				Answer: &record.Answer{Why: "part on order", Advice: record.NextService, Told: &job, Owner: record.Agreed}},
		},
		OtherWork: []record.OtherWork{{Text: "Tightened the exhaust clamp at the elbow", Result: record.Done}},
		Fluids: []record.Fluid{{
			System:      "engine-oil",
			LevelBefore: &record.Level{Reading: ptr(quantity.Ratio(300)), After: ptr(quantity.Minutes(20)), At: ptr(degC("18 C"))},
			Drained:     sum("2.4 US gal at 68 C"), WithFilter: ptr(false),
			Filled:  sum("5 L at 16 C", "4.3 L at 16 C"),
			Level:   &record.Level{Reading: ptr(quantity.Ratio(850)), After: ptr(quantity.Minutes(15)), At: ptr(degC("45 C"))},
			Product: "Harrow HD", Batch: "H-0612", Viscosity: "15W-40", Meets: []string{"API CK-4"},
			AtUpper: 10 * quantity.Litre, BetweenMarks: 1600, FilterHolds: 600, Density: 880,
		}},
		ToppedUp:  []record.TopUp{{System: "engine-oil", Amount: *sum("0.5 L")}},
		Waste:     []record.Waste{{System: "engine-oil", Amount: *sum("8.8 L"), To: "harbour oil bank", Receipt: "5521"}},
		Parts:     []record.Part{{Item: "oil filter", Number: "CR-2214", Quantity: 1, SuppliedBy: record.ByYard}},
		LeakCheck: &record.LeakCheck{Result: record.NoneSeen, After: ptr(quantity.Minutes(10))},
		Findings: []record.Finding{
			{Code: record.NoEarlierRecord, Severity: record.Note},
			{Code: record.OilSuitsByDirected, Severity: record.Note, Subject: "engine-oil", Text: "API CK-4 may stand in for API CI-4"},
		},
		Notes:    "Look at the belt again at 900 hours.",
		Issuer:   record.Issuer{Name: "Ellery Slip Boatyard", Kind: record.YardIssuer, Contact: "office@ellery-slip.example", Address: "4 Slip Lane, Port Ellery"},
		Number:   1,
		IssuedAt: 1777908000, // 2026-05-04 15:20:00 UTC
	}
}

// shortest is the least that a record may say.
func shortest() *record.Record {
	return &record.Record{
		Format: record.Format, Renderer: RendererID, Paper: record.Letter, Kind: record.Service,
		Machine: record.Machine{ID: "g6", Kind: "generator", Make: "Corrin", Model: "G6", Serial: "7",
			InService: schedule.Point{Date: day("2025-01-01")}},
		Job: record.Job{Date: day("2026-01-02"), Hours: hours("3"), Reason: record.Inspection,
			Meter: record.Meter{State: record.NoMeter, Basis: "log"}},
		Schedule: record.ScheduleRef{ID: "g6", Edition: 1, Title: "Generator", Basis: schedule.Basis{Kind: schedule.Yard}},
		Issuer:   record.Issuer{Name: "E. Slip", Kind: record.OwnerIssuer},
		Number:   1,
		IssuedAt: 1767366000,
	}
}

// longest fills a record up to its limits: as many tasks, fluids and parts as
// fit in one, notes of 600 characters, everything said somewhere.
func longest() *record.Record {
	r := example()
	r.Kind, r.Subject = record.Correction, &record.Subject{Record: sha256.Sum256([]byte("earlier")), Why: "the meter was read as 821.6"}
	r.Previous = &record.Previous{Record: sha256.Sum256([]byte("earlier")), Date: day("2026-05-04"), Hours: hours("821.6")}
	r.Number = 7
	r.By.Name = "E. Marlow"
	r.Machine.DrivenBy = "Corrin 4T-75 0045121"
	r.Job.Meter.Offset = hours("700")
	r.Job.Meter.Reading = ptr(hours("112.6"))
	r.Job.Meter.Change = &record.MeterChange{RemovedAt: ptr(hours("712")), FittedAt: hours("12"), Why: "glass cracked"}
	results := []record.Result{record.Done, record.OK, record.Watch, record.Defect, record.Deferred, 0}
	for i := len(r.Tasks); i < record.MaxTasks; i++ {
		t := record.Task{ID: fmt.Sprint("t", i+1), Title: fmt.Sprint("Item ", i+1), Kind: schedule.Kind(i%5 + 1),
			Every: schedule.Interval{Months: 12}, Due: dueAt("", "2027-05-04"), Result: results[i%len(results)]}
		if isLeft(t.Result) {
			t.Answer = &record.Answer{Why: "no time"}
		}
		r.Tasks = append(r.Tasks, t)
	}
	last := &r.Tasks[record.MaxTasks-1]
	last.Last = &record.Last{Date: day("2025-06-20"), Hours: hours("501"), Stated: true}
	last.Result, last.Answer, last.DoneBy = record.OK, nil, "Harbour Electrics"
	last.LookAgain = &record.LookAgain{Hours: ptr(hours("900")), Date: ptr(day("2026-09-01"))}
	last.Readings = []record.Reading{{Name: "voltage", AsFound: ptr(must(quantity.ParseFigure("12.1 V"))), AsLeft: ptr(must(quantity.ParseFigure("12.6 V")))}}
	for i := len(r.Fluids); i < record.MaxFluids; i++ {
		f := record.Fluid{System: fmt.Sprint("tank-", i+1), Filled: sum("1 L")}
		if i == record.MaxFluids-1 {
			f.Drained, f.Filled = &quantity.Measured{NotMeasured: true}, sum("7.7 kg", "1 US qt at 20 C")
			f.Level = &record.Level{}
		}
		r.Fluids = append(r.Fluids, f)
	}
	for i := len(r.Parts); i < record.MaxParts; i++ {
		r.Parts = append(r.Parts, record.Part{Item: fmt.Sprint("part ", i+1), Quantity: uint(i), SuppliedBy: record.Supplier(i%3 + 1)})
	}
	r.OtherWork = append(r.OtherWork, record.OtherWork{Text: "Exhaust elbow weeps", Result: record.Defect, DoneBy: "Harbour Electrics",
		Answer: &record.Answer{Why: "no elbow to be had", Advice: record.BeforeUse, Told: ptr(day("2026-05-04")), Owner: record.Declined}})
	r.Fluids[0].Level.Reading = ptr(quantity.Ratio(1180))
	r.LeakCheck = &record.LeakCheck{Result: record.Seen, After: ptr(quantity.Minutes(10)), Where: "weep at the sump plug, wiped, gone after half a turn"}
	r.Findings = append(r.Findings,
		record.Finding{Code: record.TemperatureAssumed, Severity: record.Note, Subject: "engine-oil", Text: "topped up",
			Value: ptr(int64(150)), Limit: ptr(int64(100)), Unit: record.InDegrees},
		record.Finding{Code: record.LevelOverfilled, Severity: record.Decide, Subject: "engine-oil", Value: ptr(int64(1180)), Limit: ptr(int64(1150)), Unit: record.InShare, Accepted: "to be drawn down tomorrow, tag on the key"},
		record.Finding{Code: record.DueNotMentioned, Severity: record.Decide, Subject: "belt", Value: ptr(int64(1260)), Limit: ptr(int64(80000)), Unit: record.InHours, Accepted: "with the impeller"})
	r.Files = []record.File{{Name: "plate.jpg", SHA256: sha256.Sum256([]byte("plate"))}}
	r.Notes = ""
	for i := 1; len(r.Notes) < record.MaxNotes-60; i++ {
		r.Notes += fmt.Sprintf("Note %d: the belt was looked at in good light.\n", i)
	}
	r.Notes += strings.Repeat("x", record.MaxNotes-len(r.Notes))
	return r
}

// testKey is a key that everybody knows.
func testKey() *sign.PrivateKey {
	return must(sign.NewKey(bytes.NewReader(bytes.Repeat([]byte{7}, 32))))
}

// sealed is a record with what Report needs beside it.
type sealed struct {
	record   *record.Record
	envelope []byte
	texts    []string
}

func seal(t testing.TB, r *record.Record) sealed {
	t.Helper()
	payload, err := record.Encode(r)
	if err != nil {
		t.Fatal(err)
	}
	envelope, err := sign.Seal(sign.RecordV1, payload, testKey())
	if err != nil {
		t.Fatal(err)
	}
	texts, err := qrtext.Encode(envelope, r.PageHost)
	if err != nil {
		t.Fatal(err)
	}
	return sealed{r, envelope, texts}
}

func (s sealed) report(t testing.TB) []byte {
	t.Helper()
	pdf, err := Report(s.record, s.envelope, s.texts, nil)
	if err != nil {
		t.Fatal(err)
	}
	return pdf
}

// scenarios are the three records that the layout is held to.
var scenarios = []struct {
	name string
	make func() *record.Record
}{{"shortest", shortest}, {"example", example}, {"longest", longest}}
