package jobsheet_test

import (
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"go.yaml.in/yaml/v3"

	"hourseal/record"
	"hourseal/record/fluid"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

func TestEveryKeyOfAYard(t *testing.T) {
	yard, err := jobsheet.ParseYard("yard.yaml", everyKey(t, "every-key-yard.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	equal(t, "yard", yard, jobsheet.Yard{
		Name: "Ellery Slip Boatyard", Kind: record.SurveyorIssuer, Address: "4 Slip Lane, Port Ellery",
		Contact: "office@ellery-slip.example", PageHost: "verify.ellery-slip.example", Paper: record.Letter, SigningKey: "keys/yard",
		Containers: []quantity.Volume{1000, 3785, 20_000}, // 1 US gal: NIST HB 44 Appendix C
		Extractor:  6500, Margin: 75,
		Style: quantity.Style{Second: quantity.UnitUSQuart, Dates: quantity.MonthFirst, Comma: true},
		Doubt: fluid.Doubt{Jug: 25, JugLeast: 150, Can: 1, Extractor: 40, ExtractorLeast: 300, HangingScale: 200,
			Dipstick: 150, DipstickReading: 150, Thermometer: 25, AtUpper: 50, ToppedUp: 500, Filter: 250, LeftByExtraction: 30},
	})
}

func TestEveryKeyOfAMachine(t *testing.T) {
	m, err := jobsheet.ParseMachine("machine.yaml", everyKey(t, "every-key-machine.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	m.Source = jobsheet.Source{}
	date := func(text string) quantity.Date { return must(quantity.ParseDate(text)) }
	equal(t, "machine", m, jobsheet.Machine{
		ID: "gannet-port-gearbox", Vessel: jobsheet.Vessel{Name: "Gannet", Hull: "GB-ELS00042A323", Home: "Port Ellery"},
		Kind: "reduction gear", Position: "port", DrivenBy: "gannet-port", Make: "Corrin", Model: "RG-20", Serial: "0020871",
		RatedPower: 55162, // 75 PS of 735.49875 W
		Schedule:   "every-key", InService: schedule.Point{Date: date("2024-03-18"), Hours: 1250}, HoursPerYear: 42000,
		SevereDuty: []string{"fuel sulphur over 0.5 %", "dust, salt"},
		Earlier:    []jobsheet.Statement{{Task: "gear-oil", At: schedule.Point{Date: date("2025-06-20"), Hours: 50100}, Source: "owner"}},
		Systems: []jobsheet.System{
			{Name: "gear-oil", AtUpper: 2200, BetweenMarks: 300, FilterHolds: 100, Holds: 2400, Density: 895,
				Viscosity: []string{"SAE 90", "80W-90"}, Meets: []string{"API GL-4"}, Drain: "plug"},
			{Name: "coolant", Glycol: "propylene", ProtectTo: ptr(quantity.Temperature(-250)), Drain: "extractor"},
		},
	})
}

func TestEveryKeyOfASchedule(t *testing.T) {
	s, _, err := jobsheet.ParseSchedule("schedule.yaml", everyKey(t, "every-key-schedule.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	equal(t, "schedule", s, schedule.Schedule{
		ID: "every-key", Edition: 7, Title: "Every key",
		Basis:    schedule.Basis{Kind: schedule.Class, Document: "the yard's own sheet", Edition: "2", Page: "3-4"},
		NextFrom: schedule.FromWindow, Grace: schedule.Grace{HoursShare: 125, Days: 14},
		Tasks: []schedule.Task{
			{ID: "break-in", Title: "Look over the new gear", Kind: schedule.Inspect, Once: true,
				Every: schedule.Interval{Hours: 5000, Months: 3}, Severe: schedule.Severe{Factor: 500, When: "dust, salt"}},
			{ID: "gear-oil", Title: "Change the gear oil", Kind: schedule.Replace,
				Every: schedule.Interval{Hours: 25050, Months: 12}, First: schedule.Interval{Hours: 5000, Months: 6},
				With: []string{"breather"}, Covers: []string{"gear-oil-look"},
				Needs:  schedule.Needs{Drained: "gear-oil", Filled: "gear-oil", Level: "gear-oil", LeakCheck: true, Part: "gasket", Reading: "swarf"},
				Severe: schedule.Severe{Factor: 250, When: "fuel sulphur over 0.5 %"},
				Grace:  &schedule.Grace{Hours: 1000}, NextFrom: schedule.FromGrid},
			{ID: "breather", Title: "Clean the breather", Kind: schedule.Clean, Every: schedule.Interval{Months: 12}},
			{ID: "gear-oil-look", Title: "Look at the oil", Kind: schedule.Test, Every: schedule.Interval{Hours: 5000}},
		},
	})
}

// The files with every key have every key that the forms take.
func TestFilesHaveEveryKey(t *testing.T) {
	var keys []string
	var collect func(n *yaml.Node)
	collect = func(n *yaml.Node) {
		for i, child := range n.Content {
			if n.Kind == yaml.MappingNode && i%2 == 0 {
				keys = append(keys, child.Value)
			}
			collect(child)
		}
	}
	for _, name := range []string{"every-key.yaml", "every-key-yard.yaml", "every-key-machine.yaml", "every-key-schedule.yaml"} {
		var tree yaml.Node
		if err := yaml.Unmarshal(everyKey(t, name), &tree); err != nil {
			t.Fatal(err)
		}
		collect(&tree)
	}
	for form, list := range jobsheet.Forms() {
		for _, k := range list {
			if !slices.Contains(keys, k.Name) {
				t.Errorf("%s: no file has %s", form, k.Name)
			}
		}
	}
}

// The severe duties of the machine file and of the job are those of the schedule.
func TestResolveSevereDuty(t *testing.T) {
	yard, _ := folder()
	plan := yard["schedules/diesel-generator.yaml"]
	genset := yard["machines/gannet-genset.yaml"]
	genset.Data = []byte(strings.Replace(string(genset.Data), "engine-oli", "engine-oil", 1) + "severe_duty: [dusty air, salt]\n")
	job := must(jobsheet.ParseJob("jobs/a.yaml", []byte(strings.Replace(shortJob, "gannet-port", "gannet-genset", 1)+"severe_duty: dustyair\n")))
	_, _, err := jobsheet.Open(yard, nil).For(job)
	equal(t, "a schedule without any", message(t, err), `jobs/a.yaml:5:14: severe_duty: "dustyair" is no severe duty of schedule diesel-generator: it has none: take it out
machines/gannet-genset.yaml:10:15: severe_duty: "dusty air" is no severe duty of schedule diesel-generator: it has none: take it out
machines/gannet-genset.yaml:10:26: severe_duty: "salt" is no severe duty of schedule diesel-generator: it has none: take it out`)

	plan.Data = []byte(strings.Replace(string(plan.Data), "every: { hours: 200 }", "every: { hours: 200 }, severe: { factor: 0.5, when: dusty air }", 1))
	_, _, err = jobsheet.Open(yard, nil).For(job)
	equal(t, "another", message(t, err), `jobs/a.yaml:5:14: severe_duty: "dustyair" is no severe duty of schedule diesel-generator: write dusty air (of dusty air)
machines/gannet-genset.yaml:10:26: severe_duty: "salt" is no severe duty of schedule diesel-generator: write one of dusty air`)

	genset.Data = []byte(strings.Replace(string(genset.Data), ", salt", "", 1))
	job.SevereDuty = []string{"dusty air"}
	if _, _, err = jobsheet.Open(yard, nil).For(job); err != nil {
		t.Error(err)
	}
}

// Without a word of it the margin is the usual one; none at all is 0 %.
func TestMargins(t *testing.T) {
	for written, want := range map[string]quantity.Ratio{"": jobsheet.DefaultMargin, "margin: 0 %\n": 0, "margin: 100 %\n": 1000} {
		yard, err := jobsheet.ParseYard("yard.yaml", []byte("name: Ellery Slip\nkind: yard\nsigning_key: keys/yard\ncontainers: []\n"+written))
		if err != nil || yard.Margin != want || len(yard.Containers) != 0 || yard.Extractor != 0 {
			t.Errorf("%q: %+v, %v", written, yard, err)
		}
	}
}

// What is left out of uncertainty is the trade's, and so is all of it.
func TestUncertainty(t *testing.T) {
	with := func(change func(*fluid.Doubt)) fluid.Doubt {
		d := fluid.TradeDoubt
		change(&d)
		return d
	}
	for written, want := range map[string]fluid.Doubt{
		"":                                 fluid.TradeDoubt,
		"uncertainty: {}\n":                fluid.TradeDoubt,
		"uncertainty: { jug: 1 % }\n":      with(func(d *fluid.Doubt) { d.Jug = 10 }),
		"uncertainty: { can: 50 % }\n":     with(func(d *fluid.Doubt) { d.Can = 500 }),
		"uncertainty: { dipstick: 8 % }\n": with(func(d *fluid.Doubt) { d.Dipstick = 80 }),
		"uncertainty: { thermometer: 0.1 C, hanging_scale: 1 lb }\n":        with(func(d *fluid.Doubt) { d.Thermometer, d.HangingScale = 1, 454 }), // NIST HB 44 Appendix C
		"uncertainty: { thermometer: 50 degC, extractor_least: 1 US qt }\n": with(func(d *fluid.Doubt) { d.Thermometer, d.ExtractorLeast = 500, 946 }),
	} {
		yard, err := jobsheet.ParseYard("yard.yaml", []byte("name: Ellery Slip\nkind: yard\nsigning_key: keys/yard\n"+written))
		if err != nil || yard.Doubt != want {
			t.Errorf("%q: %+v, %v", written, yard.Doubt, err)
		}
	}
}

// What was seen, in each of its forms. A word without a reason leaves that to the check.
func TestSeen(t *testing.T) {
	for written, want := range map[string]record.Fluid{
		"nothing":                          {Saw: []record.Sight{record.SawNothing}},
		"[nothing]":                        {Saw: []record.Sight{record.SawNothing}},
		"{ what: nothing }":                {Saw: []record.Sight{record.SawNothing}},
		"water":                            {Saw: []record.Sight{record.SawWater}},
		"[water]":                          {Saw: []record.Sight{record.SawWater}},
		"[fuel, metal, water]":             {Saw: []record.Sight{record.SawFuel, record.SawMetal, record.SawWater}},
		"{ what: metal }":                  {Saw: []record.Sight{record.SawMetal}},
		"{ why: filings, what: [metal] }":  {Saw: []record.Sight{record.SawMetal}, Answer: &record.Answer{Why: "filings"}},
		"{ what: metal, advice: monitor }": {Saw: []record.Sight{record.SawMetal}, Answer: &record.Answer{Advice: record.Monitor}},
	} {
		job, err := jobsheet.ParseJob("job.yaml", []byte(shortJob+"fluids:\n  - { system: engine-oil, seen: "+written+" }\n"))
		if err != nil {
			t.Errorf("%s: %v", written, err)
			continue
		}
		want.System = "engine-oil"
		equal(t, written, job.Fluids[0], want)
	}
}

// The figures in the package comment are those that count where they are left out.
func TestPackageCommentUncertainty(t *testing.T) {
	doc, err := os.ReadFile("doc.go")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, _ := strings.Cut(string(doc), "//\tuncertainty:")
	figures, _, _ := strings.Cut(rest, "//\n")
	written := strings.ReplaceAll(figures, "//\t", "")
	written = regexp.MustCompile(`(?m) {3,}.*$`).ReplaceAllString(written, "")
	written = "uncertainty:\n" + strings.Trim(written, "\n") + "\n"
	yard, err := jobsheet.ParseYard("yard.yaml", []byte("name: Ellery Slip\nkind: yard\nsigning_key: keys/yard\n"+written))
	if err != nil || yard.Doubt != fluid.TradeDoubt {
		t.Errorf("%s\n%+v, %v", written, yard.Doubt, err)
	}
	if keys := jobsheet.Forms()["uncertainty"]; strings.Count(written, "\n") != len(keys)+1 {
		t.Errorf("%d keys, in the comment\n%s", len(keys), written)
	}
}
