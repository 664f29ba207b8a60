package recordtest

import (
	"crypto/sha256"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// must takes a figure that this package wrote itself.
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
	return new(must(quantity.SumOf(portions...)))
}

func level(reading quantity.Ratio, after quantity.Minutes, at string) *record.Level {
	return &record.Level{Reading: &reading, After: &after, At: new(degC(at))}
}

// dueAt is a due point; "" means not by this.
func dueAt(h, date string) schedule.Due {
	var due schedule.Due
	if h != "" {
		due.Hours = new(hours(h))
	}
	if date != "" {
		due.Date = new(day(date))
	}
	return due
}

// Example is the service of the Gannet's port engine on 2026-05-04, issued with
// renderer id 1. Its schedule's digest is made up.
func Example() *record.Record {
	done := day("2026-05-04")
	return &record.Record{
		Format: record.Format, Renderer: 1, Paper: record.A4,
		PageHost: "verify.ellery-slip.example", Kind: record.Service,
		Machine: record.Machine{
			ID: "gannet-port", Vessel: "Gannet", Hull: "GB-ELS00042A323", Kind: "propulsion diesel", Position: "port",
			Make: "Corrin", Model: "4T-75", Serial: "0045120", RatedPower: 55 * quantity.Kilowatt,
			InService: schedule.Point{Date: day("2024-03-18")},
		},
		Job: record.Job{
			Date: done, Hours: hours("812.6"), Reason: record.Scheduled, Place: "Port Ellery, east slip", Number: "J-2217",
			Meter: record.Meter{State: record.Running, Reading: new(hours("812.6"))},
		},
		By: record.By{Number: "118", Credential: "Ellery Slip card"},
		Schedule: record.ScheduleRef{
			ID: "diesel-inboard-ellery", Edition: 2,
			Basis:  schedule.Basis{Kind: schedule.CommonPractice, Document: "the yard's own sheet", Edition: "2", Page: "1"},
			Digest: sha256.Sum256([]byte("diesel-inboard-ellery")),
		},
		Tasks:     exampleTasks(record.Last{Date: done, Hours: hours("812.6")}),
		OtherWork: []record.OtherWork{{Text: "Tightened the exhaust clamp at the elbow", Result: record.Done}},
		Fluids: []record.Fluid{{
			System: "engine-oil", LevelBefore: level(300, 20, "18 C"),
			Drained: sum("2.4 US gal at 68 C"), WithFilter: new(false),
			Filled: sum("5 L at 16 C", "4.3 L at 16 C"), Level: level(850, 15, "45 C"),
			Product: "Harrow HD", Batch: "H-0612", Viscosity: "15W-40", Meets: []string{"API CK-4"},
			AtUpper: 10 * quantity.Litre, BetweenMarks: 1600, FilterHolds: 600, Density: 880,
		}},
		ToppedUp:  []record.TopUp{{System: "engine-oil", Amount: *sum("0.5 L")}},
		Waste:     []record.Waste{{System: "engine-oil", Amount: *sum("8.8 L"), To: "harbour oil bank", Receipt: "5521"}},
		Parts:     []record.Part{{Item: "oil filter", Number: "CR-2214", Quantity: 1, SuppliedBy: record.ByYard}},
		LeakCheck: &record.LeakCheck{Result: record.NoneSeen, After: new(quantity.Minutes(10))},
		Findings: []record.Finding{
			{Code: record.NoEarlierRecord, Severity: record.Note},
			{Code: record.OilSuitsByDirected, Severity: record.Note, Subject: "engine-oil", Text: "API CK-4 for API CI-4"},
		},
		Notes: "Look at the belt again at 900 hours.",
		Issuer: record.Issuer{Name: "Ellery Slip Boatyard", Kind: record.YardIssuer,
			Contact: "office@ellery-slip.example", Address: "4 Slip Lane, Port Ellery"},
		Number: 1, IssuedAt: 1777908000, // 2026-05-04 15:20:00 UTC
	}
}

// exampleTasks is the yard's own schedule, as it stands after the job.
func exampleTasks(now record.Last) []record.Task {
	oil := schedule.Interval{Hours: 200 * quantity.Hour, Months: 12}
	leeway := schedule.Leeway{Hours: 20 * quantity.Hour, Days: 30}
	next := dueAt("1012.6", "2027-05-04")
	return []record.Task{
		{ID: "engine-oil", Title: "Change the engine oil", Kind: schedule.Replace, Every: oil, Leeway: leeway,
			Last: &now, Due: next, Result: record.Done},
		{ID: "oil-filter", Title: "Fit a new oil filter", Kind: schedule.Replace, Every: oil, Leeway: leeway,
			Last: &now, Due: next, Result: record.Done},
		{ID: "belt-look", Title: "Look over the drive belt", Kind: schedule.Inspect, Every: oil, Leeway: leeway,
			Last: &now, Due: next, Result: record.Watch,
			Answer: &record.Answer{Why: "light glaze on the back"}, LookAgain: &record.LookAgain{Hours: new(hours("900"))}},
		{ID: "belt", Title: "Fit a new drive belt", Kind: schedule.Replace,
			Every: schedule.Interval{Hours: 1000 * quantity.Hour, Months: 48}, Leeway: schedule.Leeway{Hours: 100 * quantity.Hour, Days: 30},
			Due: dueAt("1000", "2028-03-18")},
		{ID: "coolant-strength", Title: "Measure the coolant's freezing point", Kind: schedule.Test,
			Every: schedule.Interval{Months: 12}, Leeway: schedule.Leeway{Days: 30},
			Last: &now, Due: dueAt("", "2027-05-04"), Result: record.OK,
			Readings: []record.Reading{{Name: "freezing_point", Value: new(must(quantity.ParseFigure("-27 C")))}}},
		{ID: "impeller", Title: "Fit a new raw-water impeller", Kind: schedule.Replace,
			Every: schedule.Interval{Hours: 400 * quantity.Hour, Months: 12}, Leeway: schedule.Leeway{Hours: 40 * quantity.Hour, Days: 30},
			Due: dueAt("400", "2025-03-18"), Result: record.Deferred,
			Answer: &record.Answer{Why: "part on order", Advice: record.NextService, Told: &now.Date, Owner: record.Agreed}},
	}
}
