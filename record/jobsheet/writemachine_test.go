package jobsheet_test

import (
	"encoding/json"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// randomMachine draws a machine that a file can say, with odd texts in it.
func randomMachine(t *rapid.T) jobsheet.Machine {
	known := func(what string) string {
		if rapid.Bool().Draw(t, what) {
			return oddText().Draw(t, what)
		}
		return ""
	}
	number := func(low, high int64) int64 { return rapid.Int64Range(low, high).Draw(t, "number") }
	id := func() string {
		return rapid.OneOf(rapid.SampledFrom([]string{"null", "0012", "no", "1e5"}), rapid.StringMatching(`[a-z0-9][a-z0-9-]{0,20}`)).Draw(t, "id")
	}
	point := func() schedule.Point {
		return schedule.Point{Date: quantity.Date(number(1, 20_000)), Hours: quantity.Hours(number(0, int64(quantity.MaxHours)))}
	}
	texts := func() []string { return distinct(rapid.SliceOfN(oddText(), 0, 3).Draw(t, "texts")) }
	m := jobsheet.Machine{
		ID: id(), Kind: oddText().Draw(t, "kind"), Position: known("position"), Make: oddText().Draw(t, "make"), Model: oddText().Draw(t, "model"),
		Serial: oddText().Draw(t, "serial"), RatedPower: quantity.Power(number(0, int64(quantity.MaxPower))), Schedule: id(), InService: point(),
		HoursPerYear: quantity.Hours(number(0, 366*24*100)), SevereDuty: texts(),
	}
	if m.DrivenBy = id(); m.DrivenBy == m.ID {
		m.DrivenBy = ""
	}
	if rapid.Bool().Draw(t, "vessel") {
		m.Vessel = jobsheet.Vessel{Name: oddText().Draw(t, "name"), Hull: known("hull"), Home: known("home")}
	}
	for range rapid.IntRange(0, 3).Draw(t, "earlier") {
		m.Earlier = append(m.Earlier, jobsheet.Statement{Task: id(), At: point(), Source: rapid.SampledFrom([]string{"invoice", "owner", "none"}).Draw(t, "source")})
	}
	for range rapid.IntRange(0, 3).Draw(t, "systems") {
		volume := func() quantity.Volume { return quantity.Volume(number(0, 20_000)) }
		s := jobsheet.System{Name: id(), AtUpper: volume() * quantity.Volume(number(0, 1)), BetweenMarks: volume(), FilterHolds: volume(), Holds: volume() * quantity.Volume(number(0, 1)),
			Viscosity: texts(), Meets: texts(), Drain: rapid.SampledFrom([]string{"", "extractor", "plug"}).Draw(t, "drain"),
			Glycol: rapid.SampledFrom(append([]string{""}, record.GlycolWords...)).Draw(t, "glycol")}
		if s.AtUpper != 0 && s.BetweenMarks >= s.AtUpper {
			s.BetweenMarks = 0
		}
		if rapid.Bool().Draw(t, "density") {
			s.Density = quantity.Density(number(500, 3000))
		}
		if rapid.Bool().Draw(t, "protect to") {
			s.ProtectTo = new(quantity.Temperature(number(-1000, 3000)))
		}
		m.Systems = append(m.Systems, s)
	}
	m.Systems = distinctBy(m.Systems, func(s jobsheet.System) string { return s.Name })
	return m
}

// TestMachinesAreReadAsWritten: any machine, in YAML and in JSON, is read as it was; and
// machines with every field in them were tried.
func TestMachinesAreReadAsWritten(t *testing.T) {
	seen := map[string]bool{}
	rapid.Check(t, func(t *rapid.T) {
		m := randomMachine(t)
		filled(reflect.ValueOf(m), "", seen)
		for name, text := range map[string][]byte{"machine.yaml": m.YAML(), "machine.json": m.JSON()} {
			got, err := jobsheet.ParseMachine(name, text)
			if err != nil {
				t.Fatalf("%s\n%v", text, err)
			}
			if got.Source = (jobsheet.Source{}); !reflect.DeepEqual(got, m) {
				t.Fatalf("%s\n got %+v\nwant %+v", text, got, m)
			}
		}
		// An upper mark that nobody knows is said to be so, once in each system that has one.
		unknown := 0
		for _, s := range m.Systems {
			if s.AtUpper == 0 && s.Holds == 0 && !s.IsCoolant() {
				unknown++
			}
		}
		if got := strings.Count(string(m.YAML()), "    at_upper: unknown "); got != unknown {
			t.Fatalf("%d systems of which the upper mark is unknown, %d written:\n%s", unknown, got, m.YAML())
		}
	})
	for _, field := range fieldsOf(reflect.TypeFor[jobsheet.Machine](), "") {
		if seen[field] == strings.HasPrefix(field, "Source.") {
			t.Errorf("%s: tried %v", field, seen[field])
		}
	}
}

// A machine file has the remarks that its figures need.
func TestMachineIsWrittenByHand(t *testing.T) {
	m := must(jobsheet.ParseMachine("machine.yaml", load(t, "machines/gannet-port.yaml")))
	m.Systems = append(m.Systems, jobsheet.System{Name: "gear-oil", Drain: "plug"})
	m.DrivenBy = "gannet-starboard"
	compareLines(t, string(m.YAML()), `id: gannet-port
vessel: { name: Gannet, hull: GB-ELS00042A323, home: Port Ellery }
kind: propulsion diesel
position: port
driven_by: gannet-starboard         # no meter of its own: hours are the engine's
make: Corrin
model: "4T-75"
serial: "0045120"
rated_power: 55 kW
schedule: diesel-inboard-ellery
in_service: { date: 2024-03-18, hours: 0 }
expected_hours_per_year: 420
earlier:                            # stated, not under seal; source: invoice | owner | none
  - { task: engine-oil, date: 2025-06-20, hours: 501, source: invoice }
  - { task: oil-filter, date: 2025-06-20, hours: 501, source: invoice }
systems:
  engine-oil:
    at_upper: 10 L                  # at the upper mark, new filter included; or: unknown
    between_marks: 1.6 L
    filter_holds: 0.6 L
    viscosity: ["15W-40", "10W-40"]  # any one of these
    meets: [API CI-4, ACEA E7]      # any one of these
    density: 880 kg/m3              # at 15 degC
  coolant:
    holds: 11.5 L
    glycol: ethylene                # ethylene | propylene
    protect_to: -25 C
  gear-oil:
    at_upper: unknown               # at the upper mark, new filter included: write it when it is known
    drain: plug                     # how it is taken out: extractor | plug
`)
}

// A machine that is not complete can be written, and reading it says what is missing.
func TestUnfinishedMachines(t *testing.T) {
	for _, c := range []struct {
		machine jobsheet.Machine
		want    string
	}{
		{jobsheet.Machine{}, ""},
		{jobsheet.Machine{Vessel: jobsheet.Vessel{Home: "Port Ellery"}}, "vessel: { home: Port Ellery }\n"},
		{jobsheet.Machine{InService: schedule.Point{Hours: 100}, Earlier: []jobsheet.Statement{{Task: "belt"}}},
			"in_service: { hours: 1 }\nearlier:                            # stated, not under seal; source: invoice | owner | none\n  - { task: belt, hours: 0 }\n"},
		{jobsheet.Machine{Systems: []jobsheet.System{{Name: "coolant", Glycol: "ethylene"}, {Name: "sump", Holds: 1000}}},
			"systems:\n  coolant:\n    glycol: ethylene                # ethylene | propylene\n  sump:\n    holds: 1 L\n"},
	} {
		if got := string(c.machine.YAML()); got != c.want {
			t.Errorf("got\n%swant\n%s", got, c.want)
		}
		if !json.Valid(c.machine.JSON()) {
			t.Errorf("no JSON:\n%s", c.machine.JSON())
		}
		if _, err := jobsheet.ParseMachine("machine.yaml", c.machine.YAML()); err == nil {
			t.Errorf("taken as complete:\n%s", c.machine.YAML())
		}
	}
	if !slices.Equal(jobsheet.Machine{}.JSON(), []byte("{}\n")) {
		t.Errorf("%s", jobsheet.Machine{}.JSON())
	}
}
