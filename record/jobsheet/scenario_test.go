package jobsheet_test

import (
	"bytes"
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"hourseal/record"
	"hourseal/record/fluid"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// must is for values that a test writes down itself.
func must[T any](value T, err error) T {
	if err != nil {
		panic(err)
	}
	return value
}

func ptr[T any](value T) *T { return &value }

func load(t *testing.T, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(scenario, name))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func equal(t *testing.T, what string, got, want any) {
	t.Helper()
	if !reflect.DeepEqual(got, want) {
		t.Errorf("%s:\n got %+v\nwant %+v", what, got, want)
	}
}

func TestScenarioYard(t *testing.T) {
	yard, err := jobsheet.ParseYard("yard.yaml", load(t, "yard.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	equal(t, "yard", yard, jobsheet.Yard{
		Name: "Ellery Slip Boatyard", Kind: record.YardIssuer, Address: "4 Slip Lane, Port Ellery",
		Contact: "office@ellery-slip.example", PageHost: "verify.ellery-slip.example", Paper: record.A4, SigningKey: "keys/yard",
		Margin: jobsheet.DefaultMargin, Doubt: fluid.TradeDoubt,
	})
}

func TestScenarioMachines(t *testing.T) {
	const file = "machines/gannet-port.yaml"
	m, err := jobsheet.ParseMachine(file, load(t, file))
	if err != nil {
		t.Fatal(err)
	}
	for path, at := range map[string]string{
		"serial":                        file + ":7:9",
		"systems/coolant/holds":         file + ":24:12",
		"systems/engine-oil/meets/1":    file + ":21:23",
		"systems/engine-oil/no-such":    file + ":16:3", // of the block, its key
		"earlier/1/source":              file + ":14:63",
		"nothing of this name/anywhere": file,
	} {
		equal(t, path, m.Source.At(path), at)
	}
	m.Source = jobsheet.Source{}
	invoice := schedule.Point{Date: must(quantity.ParseDate("2025-06-20")), Hours: 50100}
	equal(t, "machine", m, jobsheet.Machine{
		ID: "gannet-port", Vessel: jobsheet.Vessel{Name: "Gannet", Hull: "GB-ELS00042A323", Home: "Port Ellery"},
		Kind: "propulsion diesel", Position: "port", Make: "Corrin", Model: "4T-75", Serial: "0045120",
		RatedPower: 55000, Schedule: "diesel-inboard-ellery",
		InService: schedule.Point{Date: must(quantity.ParseDate("2024-03-18"))}, HoursPerYear: 42000,
		Earlier: []jobsheet.Statement{{Task: "engine-oil", At: invoice, Source: "invoice"}, {Task: "oil-filter", At: invoice, Source: "invoice"}},
		Systems: []jobsheet.System{
			{Name: "engine-oil", AtUpper: 10000, BetweenMarks: 1600, FilterHolds: 600, Density: 880,
				Viscosity: []string{"15W-40", "10W-40"}, Meets: []string{"API CI-4", "ACEA E7"}},
			{Name: "coolant", Holds: 11500, Glycol: "ethylene", ProtectTo: ptr(quantity.Temperature(-250))},
		},
	})
	gearbox, err := jobsheet.ParseMachine("machines/gannet-port-gearbox.yaml", load(t, "machines/gannet-port-gearbox.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	equal(t, "driven by", gearbox.DrivenBy, "gannet-port")
	if _, there := gearbox.System("engine-oil"); there {
		t.Error("the gearbox has engine oil")
	}
}

func TestScenarioSchedule(t *testing.T) {
	const file = "schedules/diesel-inboard-ellery.yaml"
	s, source, err := jobsheet.ParseSchedule(file, load(t, file))
	if err != nil {
		t.Fatal(err)
	}
	equal(t, "place of the impeller", source.At("tasks/5/id"), file+":36:9")
	equal(t, "tasks", len(s.Tasks), 6)
	equal(t, "grace", s.Grace, schedule.Grace{HoursShare: 100, Days: 30})
	equal(t, "basis", s.Basis, schedule.Basis{Kind: schedule.CommonPractice, Document: "the yard's own sheet", Edition: "2", Page: "1"})
	oil, _ := s.Task("engine-oil")
	equal(t, "engine oil", oil, schedule.Task{
		ID: "engine-oil", Title: "Change the engine oil", Kind: schedule.Replace,
		Every: schedule.Interval{Hours: 20000, Months: 12}, First: schedule.Interval{Hours: 5000}, With: []string{"oil-filter"},
		Needs:  schedule.Needs{Drained: "engine-oil", Filled: "engine-oil", Level: "engine-oil", LeakCheck: true},
		Severe: schedule.Severe{Factor: 500, When: "fuel sulphur over 0.5 %"},
	})
}

func TestScenarioJobs(t *testing.T) {
	for _, name := range []string{"port", "starboard"} {
		file := "jobs/gannet-" + name + "-2026-05-04.yaml"
		job, err := jobsheet.ParseJob(file, load(t, file))
		if err != nil {
			t.Fatal(err)
		}
		if _, _, err := jobsheet.Open(os.DirFS(scenario), nil).For(job); err != nil {
			t.Errorf("%s: %v", file, err)
		}
		oil := job.Fluids[0]
		total, _ := oil.Filled.TotalVolume()
		drained, _ := oil.Drained.TotalVolume()
		equal(t, "machine", job.Machine, "gannet-"+name)
		equal(t, "drained", drained, quantity.Volume(9085)) // 2.4 US gal, NIST HB 44 Appendix C
		equal(t, "filled", total, quantity.Volume(9300))
		equal(t, "level", *oil.Level, record.Level{Reading: ptr(quantity.Ratio(850)), After: ptr(quantity.Minutes(15)), At: ptr(quantity.Temperature(450))})
		equal(t, "filter", *oil.WithFilter, false)
		equal(t, "impeller", job.Tasks[4], record.Task{ID: "impeller", Result: record.Deferred, Answer: &record.Answer{
			Why: "part on order", Advice: record.NextService, Told: ptr(must(quantity.ParseDate("2026-05-04"))), Owner: record.Agreed}})
		equal(t, "receipt", job.Waste[0].Receipt, "5521")
		equal(t, "notes", job.Notes, "Look at the belt again at 900 hours.")
		equal(t, "accept", len(job.Accept), 0)
		equal(t, "place of drained", job.Source.At("fluids/0/drained"), file+":19:14")
		equal(t, "place of the second portion", job.Source.At("fluids/0/filled/1"), file+":21:27")
		equal(t, "place of the tasks", job.Source.At("tasks"), file+":8:1")
		equal(t, "place of an unwritten why", job.Source.At("tasks/0/why"), file+":9:5")
	}
}

// Windows line ends and a byte-order mark change neither values nor places.
func TestWindowsText(t *testing.T) {
	const file = "jobs/gannet-port-2026-05-04.yaml"
	plain := load(t, file)
	want := must(jobsheet.ParseJob(file, plain))
	windows := append([]byte("\ufeff"), bytes.ReplaceAll(plain, []byte("\n"), []byte("\r\n"))...)
	got, err := jobsheet.ParseJob(file, windows)
	if err != nil {
		t.Fatal(err)
	}
	equal(t, "job", got, want)
}

func everyKey(t *testing.T, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func TestEveryKeyOfAJob(t *testing.T) {
	const file = "jobs/every-key.yaml"
	job, err := jobsheet.ParseJob(file, everyKey(t, "every-key.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	job.Source = jobsheet.Source{}
	figure := func(text string) *quantity.Figure { return ptr(must(quantity.ParseFigure(text))) }
	date := func(text string) *quantity.Date { return ptr(must(quantity.ParseDate(text))) }
	amount := func(text string) quantity.Measured { return must(quantity.ParseMeasured(text)) }
	equal(t, "job", job, jobsheet.Job{
		Machine: "gannet-port", Date: *date("2026-05-04"),
		Meter: record.Meter{State: record.Stopped, Basis: "engine log",
			Change: &record.MeterChange{FittedAt: 1200, Why: "glass broken"}},
		Estimate: ptr(quantity.Hours(81025)), Reason: record.LayUp, Place: "Port Ellery", Number: "0002217",
		SevereDuty: []string{"fuel sulphur over 0.5 %", "dust, salt"},
		FuelUsed:   ptr(must(quantity.SumOf(must(quantity.ParsePortion("1800 L")), must(quantity.ParsePortion("10 imp gal"))))),
		By:         record.By{Number: "0118", Name: "A. Reed", Credential: "Ellery Slip card"},
		Tasks: []record.Task{{
			ID: "belt", Result: record.Deferred,
			Answer:    &record.Answer{Why: "part on order", Advice: record.BeforeUse, Told: date("2026-05-03"), Owner: record.Awaiting},
			LookAgain: &record.LookAgain{Hours: ptr(quantity.Hours(90000)), Date: date("2026-10-01")},
			Readings:  []record.Reading{{Name: "gap", AsFound: figure("0.25 mm"), AsLeft: figure("0.20 mm")}, {Name: "turns", Value: figure("3")}},
			DoneBy:    "Tern Electrics",
		}},
		OtherWork: []record.OtherWork{{
			Text: "Crack in the bracket", Result: record.Defect, DoneBy: "Tern Electrics",
			Answer: &record.Answer{Why: "needs welding", Advice: record.Monitor, Told: date("2026-05-04"), Owner: record.Declined},
		}},
		Fluids: []record.Fluid{{
			System: "engine-oil", LevelBefore: &record.Level{}, WithFilter: ptr(true),
			Drained: ptr(must(quantity.SumOf(must(quantity.ParsePortion("4 L at 67.8 C")), must(quantity.ParsePortion("4.1 kg"))))),
			Filled:  &quantity.Measured{NotMeasured: true},
			Product: "Harrow HD", Batch: "0x1F", Viscosity: "15W-40", Meets: []string{"API CK-4"},
			Level:     &record.Level{Reading: ptr(quantity.Ratio(-50)), After: ptr(quantity.Minutes(15)), At: ptr(quantity.Temperature(450))},
			Saw:       []record.Sight{record.SawWater, record.SawMetal},
			Answer:    &record.Answer{Why: "head gasket", Advice: record.BeforeUse, Told: date("2026-05-04"), Owner: record.Declined},
			DrawnDown: ptr(amount("0.2 L at 40 C")),
		}, {
			System: "coolant", Glycol: record.Propylene, Saw: []record.Sight{record.SawNothing},
		}},
		ToppedUp:  []record.TopUp{{System: "engine-oil", Amount: amount("1 imp pt")}},
		Waste:     []record.Waste{{System: "engine-oil", Amount: amount("450 mL"), To: "harbour oil bank", Receipt: "05521"}, {System: "coolant", Amount: amount("10 L"), Held: "drum 3"}},
		Parts:     []record.Part{{Item: "oil filter", Number: "1e3", Serial: "0012345", Quantity: 2, SuppliedBy: record.ByCustomer}, {Item: "belt", Quantity: 1, SuppliedBy: record.ByYard}},
		LeakCheck: &record.LeakCheck{Result: record.Seen, After: ptr(quantity.Minutes(10)), Where: "drain plug"},
		Accept: []jobsheet.Accept{
			{Code: "leak-seen", Reason: "weeping only", At: file + ":47:11"},
			{Code: "level-below-mark", Subject: "engine-oil", Reason: "topped up after", At: file + ":47:36"},
			{Code: "done-late", Reason: "laid up", At: file + ":47:82"},
		},
		Notes: "First line.\n\nThird line, with a colon: here.",
		Files: []string{"plate.jpg", "Lab-sheet_2.pdf"},
	})
}

// Text that looks like a number, a date, a truth or a sum in base 8, 16 or 60
// stays as it is written.
func TestTextKeepsItsLetters(t *testing.T) {
	for _, serial := range []string{"0045120", "0x1F", "0o17", "1e3", "12:30:45", "1_000", "+5", ".5", "yes", "true", "2026-05-04", "NaN", "G20-00871", "\"~\"", "'null'", "1.10"} {
		text := "id: g6\nkind: generator\nmake: Corrin\nmodel: G6\nschedule: diesel-generator\nin_service: { date: 2024-03-18, hours: 0 }\nserial: " + serial + "\n"
		m, err := jobsheet.ParseMachine("g6.yaml", []byte(text))
		if err != nil {
			t.Errorf("%s: %v", serial, err)
			continue
		}
		equal(t, "serial", m.Serial, string(bytes.Trim([]byte(serial), `'"`)))
	}
}
