package worksheet

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/jobsheet"
	"hourseal/record/plan"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
	"hourseal/templates"
)

// must takes a figure that the test wrote itself.
func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

func date(text string) quantity.Date     { return must(quantity.ParseDate(text)) }
func hours(text string) quantity.Hours   { return must(quantity.ParseHours(text)) }
func litres(text string) quantity.Volume { return must(quantity.ParseVolume(text + " L")) }

func yard() jobsheet.Yard {
	return jobsheet.Yard{
		Name: "Ellery Slip Boatyard", Kind: record.YardIssuer, Address: "4 Slip Lane, Port Ellery", Contact: "office@ellery-slip.example",
		Paper: record.A4, Containers: []quantity.Volume{litres("1"), litres("5"), litres("20")}, Extractor: litres("6"), Margin: jobsheet.DefaultMargin,
	}
}

func engine() jobsheet.Machine {
	return jobsheet.Machine{
		ID: "gannet-port", Vessel: jobsheet.Vessel{Name: "Gannet", Hull: "GB-ELS00042A323", Home: "Port Ellery"},
		Kind: "propulsion diesel", Position: "port", Make: "Corrin", Model: "4T-75", Serial: "0045120",
		InService: schedule.Point{Date: date("2024-03-18")},
		Systems: []jobsheet.System{
			{Name: "engine-oil", AtUpper: litres("10"), BetweenMarks: litres("1.6"), FilterHolds: litres("0.6"),
				Viscosity: []string{"15W-40", "10W-40"}, Meets: []string{"API CI-4", "ACEA E7"}, Density: 880},
			{Name: "coolant", Holds: litres("11.5"), Glycol: "ethylene", ProtectTo: new(must(quantity.ParseTemperature("-25 C")))},
		},
	}
}

// loadSchedule reads a schedule: built in, or of the invented yard's demonstration.
func loadSchedule(t testing.TB, id string) schedule.Schedule {
	t.Helper()
	name, files := id+".yaml", templates.Schedules()
	if id == "diesel-inboard-ellery" {
		name, files = "demo/schedules/"+name, templates.Jobsheets()
	}
	data, err := fs.ReadFile(files, name)
	if err != nil {
		t.Fatal(err)
	}
	s, _, err := jobsheet.ParseSchedule(name, data)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// planOf is the plan of a machine without a record, at a reading.
func planOf(m jobsheet.Machine, s schedule.Schedule, reading string) plan.Plan {
	m.Schedule, m.HoursPerYear = s.ID, hours("420")
	return must(plan.Make(plan.Input{Machine: m, Schedule: s, On: date("2026-11-25"), Reading: new(hours(reading))}))
}

// gannet is the port engine's sheet: oil overdue, its filter stated only, the
// impeller put off.
func gannet(t testing.TB) Sheet {
	s := loadSchedule(t, "diesel-inboard-ellery")
	p := planOf(engine(), s, "1031")
	p.Hours.Last = schedule.Point{Date: date("2026-05-04"), Hours: hours("812.6")}
	last := &plan.Last{Point: schedule.Point{Date: date("2026-05-04"), Hours: hours("812.6")}, Record: &plan.Cited{Number: 3}}
	due := schedule.Due{Hours: new(hours("1012.6")), Date: new(date("2027-05-04"))}
	for i := range p.Items {
		item := &p.Items[i]
		item.Due, item.Last, item.By = due, last, "hours"
		item.HoursLeft, item.DaysLeft = new(hours("18.4")*-1), new(quantity.Days(160))
		switch item.Task.ID {
		case "engine-oil":
		case "oil-filter":
			item.Last = &plan.Last{Point: schedule.Point{Date: date("2025-06-20"), Hours: hours("501")}, Source: "invoice"}
			item.Due = schedule.Due{Hours: new(hours("701")), Date: new(date("2026-06-20"))}
			item.HoursLeft, item.DaysLeft = new(hours("330")*-1), new(quantity.Days(-158))
			item.With = []string{"engine-oil"}
		case "impeller":
			item.Last, item.Due = nil, schedule.Due{Hours: new(hours("400")), Date: new(date("2025-03-18"))}
			item.HoursLeft, item.DaysLeft = new(hours("631")*-1), new(quantity.Days(-617))
			item.Open = &plan.Open{Date: date("2026-05-04"), Result: record.Deferred, Answer: &record.Answer{
				Why: "part on order", Advice: record.NextService, Told: new(date("2026-05-04")), Owner: record.Agreed}}
		default:
			item.State, item.Due = schedule.Later, schedule.Due{Date: new(date("2027-05-04"))}
			item.HoursLeft, item.By = nil, "date"
			item.Expected = &schedule.Reach{On: date("2027-05-04"), From: date("2027-05-04"), To: date("2027-05-04")}
		}
	}
	var work []plan.Item
	for _, item := range p.Items {
		if item.State >= schedule.Soon {
			work = append(work, item)
		}
	}
	return Sheet{Yard: yard(), Plan: p, Work: work, Kit: plan.Kit{
		Supplies: []plan.Supply{oilSupply()},
		Extractions: []plan.Extraction{{System: "engine-oil", Content: litres("10"), At: must(quantity.ParseTemperature("70 C")),
			Hot: litres("10.398"), Holds: litres("6"), Fillings: 2}},
		Parts: []plan.Part{{Item: "oil filter", Number: "CR-2214", Quantity: 1, Task: "oil-filter"}, {Item: "impeller", Quantity: 1, Task: "impeller"}},
	}}
}

func oilSupply() plan.Supply {
	return plan.Supply{
		System: "engine-oil", Viscosity: []string{"15W-40", "10W-40"}, Meets: []string{"API CI-4", "ACEA E7"}, Product: "Harrow HD",
		Needs: litres("10"), Margin: jobsheet.DefaultMargin, Bring: litres("10.5"),
		Cans: []plan.Can{{Size: litres("5"), Count: 2}, {Size: litres("1"), Count: 1}}, Holds: litres("11"),
		ToLower: litres("8.4"), BetweenMarks: litres("1.6"), FilterHolds: litres("0.6"),
	}
}

// quiet is the same engine a month after it went into service, with nothing due.
func quiet(t testing.TB) Sheet {
	m := engine()
	m.InService = schedule.Point{Date: date("2026-10-20"), Hours: hours("1000")}
	p := planOf(m, loadSchedule(t, "diesel-inboard-ellery"), "1003")
	return Sheet{Yard: yard(), Plan: p, Work: p.Work()}
}

// all is every task of a schedule as the work, its systems unknown to the kit.
func all(t testing.TB, kind, id string) Sheet {
	m := engine()
	m.Kind = kind
	p := planOf(m, loadSchedule(t, id), "1031")
	return Sheet{Yard: yard(), Plan: p, Work: p.Items}
}

// forty is a sheet of forty tasks, half of them without a list of steps.
func forty(t testing.TB) Sheet {
	of := loadSchedule(t, "diesel-inboard")
	for n := len(of.Tasks); n < 40; n++ {
		of.Tasks = append(of.Tasks, schedule.Task{
			ID: fmt.Sprint("own-", n), Title: fmt.Sprintf("Own item %d of the yard's sheet", n), Kind: schedule.Inspect,
			Every: schedule.Interval{Hours: hours("100"), Months: 12},
		})
	}
	p := planOf(engine(), of, "1031")
	return Sheet{Yard: yard(), Plan: p, Work: p.Work()}
}

// longest is a sheet in which every text is as long as it may be.
func longest(t testing.TB, letter string) Sheet {
	s := gannet(t)
	long := func(n int) string { return strings.Repeat(letter, n) }
	for _, text := range []*string{&s.Yard.Name, &s.Yard.Address, &s.Yard.Contact} {
		*text = long(record.MaxText)
	}
	m := &s.Plan.Machine
	for _, text := range []*string{&m.Vessel.Name, &m.Vessel.Hull, &m.Kind, &m.Position, &m.Make, &m.Model, &m.Serial} {
		*text = long(record.MaxText)
	}
	m.ID, m.DrivenBy = long(40), long(40)
	m.Systems[0].FilterHolds, m.Systems[1].Glycol = 0, "propylene"
	s.Plan.Schedule.ID, s.Plan.Schedule.Basis.Document = long(40), long(record.MaxText)
	for i := range s.Work {
		item := &s.Work[i]
		item.Task.Title, item.Severe, item.Task.Severe.When = long(record.MaxText), true, long(record.MaxText)
		item.Task.Needs = schedule.Needs{Drained: long(40), Filled: long(40), Level: long(40), LeakCheck: true, Part: long(record.MaxText), Reading: long(record.MaxText)}
		item.Open = &plan.Open{Date: s.Plan.On, Result: record.Watch, LookAgain: schedule.Due{Hours: new(quantity.MaxHours), Date: new(s.Plan.On)},
			Answer: &record.Answer{Why: long(record.MaxReason), Advice: record.BeforeUse, Owner: record.Awaiting}}
	}
	s.Work = append(s.Work, plan.Item{State: schedule.Later, Task: schedule.Task{ID: "own", Title: long(record.MaxText), Needs: s.Work[0].Task.Needs}})
	meets := []string{}
	for range record.MaxMeets {
		meets = append(meets, long(record.MaxText))
	}
	s.Kit.Supplies[0].Viscosity, s.Kit.Supplies[0].Meets, s.Kit.Supplies[0].Product = meets, meets, long(record.MaxText)
	s.Kit.Supplies = append(s.Kit.Supplies, plan.Supply{System: long(40)})
	for i := range s.Kit.Parts {
		s.Kit.Parts[i].Item, s.Kit.Parts[i].Number = long(record.MaxText), long(record.MaxText)
	}
	s.Kit.Parts[1].Number = ""
	return s
}

func draw(t testing.TB, s Sheet) []byte {
	t.Helper()
	pdf, err := PDF(s)
	if err != nil {
		t.Fatal(err)
	}
	return pdf
}

// onDisk writes a file into the test's own folder.
func onDisk(t *testing.T, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "worksheet.pdf")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}
