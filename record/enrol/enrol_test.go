package enrol_test

import (
	"fmt"
	"io/fs"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record/dialogue"
	"hourseal/record/enrol"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
	"hourseal/templates"
)

var today = quantity.FromYMD(2026, 5, 4)

// yardInput is the invented yard with the machines of these files in it, and the built-in
// schedules.
func yardInput(t testing.TB, machines ...string) enrol.Input {
	t.Helper()
	in := enrol.Input{Today: today, Printable: func(string) error { return nil }, SameSerial: func(a, b string) (bool, bool) {
		return a == b, strings.TrimLeft(strings.ReplaceAll(a, "O", "0"), "0") == strings.TrimLeft(b, "0")
	}}
	for i, text := range machines {
		m, err := jobsheet.ParseMachine(fmt.Sprintf("%d.yaml", i), []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		in.Machines = append(in.Machines, m)
	}
	in.Taken = func(id string) bool {
		return id == "gannet-unread" || slices.ContainsFunc(in.Machines, func(m jobsheet.Machine) bool { return m.ID == id })
	}
	names, err := fs.Glob(templates.Schedules(), "*.yaml")
	if err != nil || len(names) == 0 {
		t.Fatal(names, err)
	}
	for _, name := range names {
		data, err := fs.ReadFile(templates.Schedules(), name)
		if err != nil {
			t.Fatal(err)
		}
		s, _, err := jobsheet.ParseSchedule(name, data)
		if err != nil {
			t.Fatal(err)
		}
		in.Schedules = append(in.Schedules, enrol.Schedule{Schedule: s, BuiltIn: true})
	}
	return in
}

const portEngine = `
id: gannet-port
vessel: { name: Gannet, hull: GB-ELS00042A323, home: Port Ellery }
kind: propulsion diesel
position: port
make: Corrin
model: 4T-75
serial: "0045120"
rated_power: 55 kW
schedule: diesel-inboard
in_service: { date: 2024-03-18, hours: 0 }
systems:
  engine-oil: { at_upper: 10.0 L, between_marks: 1.6 L, filter_holds: 0.6 L, viscosity: [15W-40], meets: [API CI-4], drain: extractor }
  coolant: { holds: 11.5 L, glycol: ethylene, protect_to: -25 C }
`

// generator are the answers of the invented Corrin G6 by the questions' keys.
var generator = map[string]string{
	"vessel": "Gannet", "hull": "gb-els00042a323", "home": "Port Ellery", "kind": "g", "make": "Corrin", "model": "G6", "serial": "0007731",
	"power": "6 kW", "in-service": "2024-03-18", "in-service-hours": "0", "hours-a-year": "180 h",
	"system/engine-oil/at-upper": "3.2 L", "system/engine-oil/between-marks": "0.8 L", "system/engine-oil/filter-holds": "300 mL",
	"system/engine-oil/suits": "15W-40, API CI-4, ACEA E7", "system/coolant/holds": "3.4 L", "system/coolant/glycol": "e",
	"system/coolant/protect-to": "-25 C", "earlier/1": "engine-oil, 2025-06-20, 151, Invoice",
}

// through answers every question, by its key or with what is offered, and gives the
// keys in order. A question without either ends the test.
func through(t testing.TB, d *dialogue.Dialogue, answers map[string]string) []string {
	t.Helper()
	var keys []string
	for range 200 {
		q, waits := d.Next()
		if !waits {
			return keys
		}
		keys = append(keys, q.Key)
		typed, ok := answers[q.Key]
		if !ok && q.Offer == "" {
			t.Fatalf("no answer to %s: %s %q", q.Key, q.Text, q.Fault)
		}
		if err := d.Answer(typed); err != nil {
			t.Fatalf("%s: %q: %v", q.Key, typed, err)
		}
	}
	t.Fatal("no end of questions")
	return nil
}

func begun(t testing.TB, in enrol.Input, kept ...dialogue.Kept) (*dialogue.Dialogue, *jobsheet.Machine) {
	t.Helper()
	var m jobsheet.Machine
	return dialogue.New(enrol.Script(in, &m), kept...), &m
}

// A whole engine, in an empty yard: what was answered, and no more, is in the file.
func TestWholeEngine(t *testing.T) {
	d, m := inEmptyYard(t)
	keys := through(t, d, generator)
	want := jobsheet.Machine{
		ID: "gannet-generator", Vessel: jobsheet.Vessel{Name: "Gannet", Hull: "GB-ELS00042A323", Home: "Port Ellery"},
		Kind: "diesel generator", Make: "Corrin", Model: "G6", Serial: "0007731", RatedPower: 6000, Schedule: "diesel-generator",
		InService: schedule.Point{Date: quantity.FromYMD(2024, 3, 18)}, HoursPerYear: 180 * quantity.Hour,
		Earlier: []jobsheet.Statement{{Task: "engine-oil", At: schedule.Point{Date: quantity.FromYMD(2025, 6, 20), Hours: 151 * quantity.Hour}, Source: "invoice"}},
		Systems: []jobsheet.System{
			{Name: "engine-oil", AtUpper: 3200, BetweenMarks: 800, FilterHolds: 300, Viscosity: []string{"15W-40"}, Meets: []string{"API CI-4", "ACEA E7"}},
			{Name: "coolant", Holds: 3400, Glycol: "ethylene", ProtectTo: new(-25 * quantity.Degree)},
		},
	}
	if !reflect.DeepEqual(*m, want) {
		t.Errorf("made\n%+v\nwant\n%+v", *m, want)
	}
	readBack(t, *m)
	if slices.Contains(keys, "hull/kept") || slices.Contains(keys, "driven-by") || keys[0] != "vessel" || keys[len(keys)-1] != "earlier/2" {
		t.Errorf("asked %q", keys)
	}
}

func inEmptyYard(t testing.TB) (*dialogue.Dialogue, *jobsheet.Machine) { return begun(t, yardInput(t)) }

func readBack(t interface {
	Helper()
	Fatalf(string, ...any)
}, m jobsheet.Machine) {
	t.Helper()
	read, err := jobsheet.ParseMachine("machines/"+m.ID+".yaml", m.YAML())
	if err != nil {
		t.Fatalf("%v\n%s", err, m.YAML())
	}
	read.Source = jobsheet.Source{}
	if !reflect.DeepEqual(read, m) {
		t.Fatalf("read back\n%+v\nmade\n%+v\n%s", read, m, m.YAML())
	}
}

// Cut short at every question and gone on with, the same file comes of it.
func TestInterrupted(t *testing.T) {
	d, whole := inEmptyYard(t)
	keys := through(t, d, generator)
	kept := d.Kept()
	if len(kept) != len(keys) {
		t.Fatalf("%d answers to %d questions", len(kept), len(keys))
	}
	for n := range kept {
		again, m := begun(t, yardInput(t), dialogue.FromComments(dialogue.Comments(kept[:n]))...)
		if q, waits := again.Next(); !waits || q.Key != keys[n] {
			t.Errorf("after %d answers %q waits, want %q", n, q.Key, keys[n])
		}
		through(t, again, generator)
		if !reflect.DeepEqual(m, whole) {
			t.Errorf("cut short after %d answers:\n%s\nwant\n%s", n, m.YAML(), whole.YAML())
		}
	}
}

// The like of a machine that the yard has takes only its serial number and its time in
// service; those are never offered.
func TestTwinOffersAllButItsOwn(t *testing.T) {
	in := yardInput(t, portEngine)
	d, m := begun(t, in)
	own := map[string]string{"kind": "p", "serial": "0045121", "in-service": "2024-03-18", "in-service-hours": "0"}
	var bare []string
	for _, key := range through(t, d, own) {
		if _, is := own[key]; is {
			bare = append(bare, key)
		}
	}
	if !slices.Equal(bare, []string{"kind", "serial", "in-service", "in-service-hours"}) {
		t.Errorf("answered %q", bare)
	}
	want := in.Machines[0]
	want.ID, want.Position, want.Serial, want.Source = "gannet-starboard", "starboard", "0045121", jobsheet.Source{}
	if !reflect.DeepEqual(*m, want) {
		t.Errorf("made\n%s\nwant\n%s", m.YAML(), want.YAML())
	}
	for n := range d.Kept() {
		again, _ := begun(t, in, d.Kept()[:n]...)
		if q, _ := again.Next(); q.Offer != "" && slices.Contains([]string{"serial", "in-service", "in-service-hours"}, q.Key) {
			t.Errorf("%s is offered as %q", q.Key, q.Offer)
		}
	}
}

// at goes through a session up to a question.
func at(t testing.TB, in enrol.Input, key string, answers map[string]string) *dialogue.Dialogue {
	t.Helper()
	d, _ := begun(t, in)
	for range 200 {
		q, waits := d.Next()
		if !waits {
			t.Fatalf("%s is not asked", key)
		}
		if q.Key == key {
			return d
		}
		typed, ok := answers[q.Key]
		if !ok && q.Offer == "" {
			t.Fatalf("no answer to %s", q.Key)
		}
		if err := d.Answer(typed); err != nil {
			t.Fatalf("%s: %v", q.Key, err)
		}
	}
	t.Fatal("no end of questions")
	return nil
}

// What cannot be is not taken, and the message says what to type.
func TestWrongFigures(t *testing.T) {
	for _, c := range []struct{ key, typed, says string }{
		{"kind", "x", "one of the letters"},
		{"kind", "yes", "type the words themselves"},
		{"vessel", "n", "or - for none"},
		{"home", "No", "or - for none"},
		{"make", "y", "type the words themselves"},
		{"model", "no", "type the words themselves"},
		{"position", "yes", "or - for none"},
		{"in-service", "04/05/2024", "which of them is the month"},
		{"in-service", "March 40, 2024", "31 days"},
		{"id", "Gannet Generator", "write gannet-generator"},
		{"id", "gannet-port", "is there already, Corrin 4T-75, serial 0045120"},
		{"id", "gannet-unread", "a file for gannet-unread is there already"},
		{"serial", "-", "no answer"},
		{"power", "6", "unit"},
		{"power", "0 kW", "more than 0"},
		{"schedule", "99", "none of them"},
		{"schedule", "diesel-genrator", "none of them"},
		{"in-service", "18.03.2024", "2024"},
		{"in-service", "2027-01-01", "after today"},
		{"in-service-hours", "-", "no answer"},
		{"in-service-hours", "1,5", "1.5"},
		{"hours-a-year", "9000", "8784"},
		{"duty/1", "maybe", "type y yes or n no"},
		{"system/engine-oil/at-upper", "3.2", "unit"},
		{"system/engine-oil/at-upper", "1 gal", "US gal"},
		{"system/engine-oil/at-upper", "3.2 L at 20 C", "no temperature"},
		{"system/engine-oil/between-marks", "3.2 L", "no less than all that is in at the upper mark, 3.2"},
		{"system/engine-oil/between-marks", "0 L", "more than 0"},
		{"system/engine-oil/filter-holds", "4 L", "no less than"},
		{"system/engine-oil/suits", "API CI-4, API CI-4", "typed twice"},
		{"system/engine-oil/suits", ", ,", "nothing between"},
		{"system/engine-oil/density", "88 kg/m3", "from 500"},
		{"system/engine-oil/drain", "pump", "type e extractor or p plug"},
		{"system/coolant/glycol", "pink", "e ethylene or p propylene"},
		{"system/coolant/protect-to", "25 C", "-25 C"},
		{"further/1", "engine-oil", "there already"},
		{"further/1", "Steering Oil", "write steering-oil"},
		{"earlier/1", "engine-oil", "invoice"},
		{"earlier/1", "oil, 2025-06-20, 501, invoice", "no task of schedule"},
		{"earlier/1", "engine-oil, 2023-06-20, 501, invoice", "before it came into service"},
		{"earlier/1", "engine-oil, 2026-06-20, 501, invoice", "after today"},
		{"earlier/1", "engine-oil, 2025-06-20, 501, friend", "source"},
		{"earlier/2", "impeller, 2025-07-20, 101, owner", "does not fit engine-oil, 2025-06-20, 151"},
	} {
		d := at(t, yardInput(t, portEngine), c.key, generator)
		err := d.Answer(c.typed)
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %q: %v, want %q", c.key, c.typed, err, c.says)
		}
		if q, _ := d.Next(); q.Key != c.key {
			t.Errorf("%s: %q leads to %s", c.key, c.typed, q.Key)
		}
	}
	d := at(t, yardInput(t), "earlier/2", generator)
	if err := d.Answer("engine-oil, 2025-07-20, 301, owner"); err != nil {
		t.Fatal(err)
	}
	if q, _ := d.Next(); q.Key != "earlier/2" || !strings.Contains(q.Fault, "stated already") {
		t.Errorf("the same task twice leads to %s, %q", q.Key, q.Fault)
	}
}

// What is odd is told and kept only on a yes; going back asks for it again.
func TestOddIsConfirmed(t *testing.T) {
	for _, c := range []struct{ key, typed, says string }{
		{"hull", "GB-ELS0O042A323", "letter O is in its serial"},
		{"hull", "GB-ELS00043A323", "Other machines of Gannet have GB-ELS00042A323"},
		{"serial", "0045120", "of gannet-port, Corrin 4T-75, already"},
		{"serial", "45120", "But for O and 0"},
		{"vessel", "2024-03-18", "is a date"},
		{"home", "18 March 2024", "is a date"},
		{"kind", "55 kW", "is an amount"},
		{"make", "812.6", "is a bare figure"},
		{"make", "3 L", "is an amount"},
		{"position", "420 h", "is an amount"},
		{"position", "port", "Gannet has a propulsion diesel already, port: gannet-port"},
	} {
		answers := map[string]string{"kind": "p"}
		for key, text := range generator {
			if key != "kind" {
				answers[key] = text
			}
		}
		d := at(t, yardInput(t, portEngine), c.key, answers)
		if err := d.Answer(c.typed); err != nil {
			t.Fatal(err)
		}
		q, _ := d.Next()
		if q.Key != c.key+"/kept" || !strings.Contains(strings.Join(q.Said, "\n"), c.says) {
			t.Errorf("%s: %q leads to %s, %q", c.key, c.typed, q.Key, q.Said)
			continue
		}
		for _, no := range []string{"", "n", "-"} {
			if d.Answer(no) == nil {
				t.Errorf("%s: %q keeps it", c.key, no)
			}
		}
		d.Back()
		if q, _ := d.Next(); q.Key != c.key || q.Offer != c.typed {
			t.Errorf("%s: going back leads to %s [%s]", c.key, q.Key, q.Offer)
		}
		if err := d.Answer(""); err != nil {
			t.Fatal(err)
		}
		if err := d.Answer("y"); err != nil {
			t.Fatal(err)
		}
		if q, _ := d.Next(); q.Key == c.key || q.Key == c.key+"/kept" {
			t.Errorf("%s: after yes %s waits still", c.key, q.Key)
		}
	}
	// The hull number of the vessel in another spelling is that number.
	d := at(t, yardInput(t, portEngine), "hull", generator)
	if err := d.Answer("gbels00042a323"); err != nil {
		t.Fatal(err)
	}
	if q, _ := d.Next(); q.Key != "home" {
		t.Errorf("%s waits", q.Key)
	}
	// Work of one day with other hours than other work of that day.
	d = at(t, yardInput(t), "earlier/2", generator)
	if err := d.Answer("impeller, June 20 2025, 149, owner"); err != nil {
		t.Fatal(err)
	}
	if q, _ := d.Next(); q.Key != "earlier/2/kept" || !strings.Contains(strings.Join(q.Said, ""), "engine-oil of the same day has 151 h, this has 149 h") {
		t.Errorf("%s, %q", q.Key, q.Said)
	}
	// A model and a serial number may be figures.
	for _, key := range []string{"model", "serial"} {
		d := at(t, yardInput(t), key, generator)
		if err := d.Answer("475"); err != nil {
			t.Fatal(err)
		}
		if q, _ := d.Next(); q.Key == key+"/kept" {
			t.Errorf("a %s that is a figure is asked about", key)
		}
	}
	// Letters that digits look like are mentioned, and nothing is asked.
	d = at(t, yardInput(t), "serial", generator)
	if err := d.Answer("G6-O731"); err != nil {
		t.Fatal(err)
	}
	if q, _ := d.Next(); q.Key != "power" || !strings.Contains(strings.Join(q.Said, ""), "the letter O") {
		t.Errorf("%s, %q", q.Key, q.Said)
	}
}

// Commas that were left out are put in, and it is told how the answer was taken.
func TestOilWithoutCommas(t *testing.T) {
	for _, c := range []struct {
		typed         string
		grades, marks []string
		told          bool
	}{
		{"15w40 CI4", []string{"15w40"}, []string{"CI4"}, true},
		{"API CI-4 15W-40", []string{"15W-40"}, []string{"API CI-4"}, true},
		{"API CI-4 SAE 15W-40 ACEA E7", []string{"SAE 15W-40"}, []string{"API CI-4", "ACEA E7"}, true},
		{"15W-40, API CI-4, ACEA E7", []string{"15W-40"}, []string{"API CI-4", "ACEA E7"}, false},
		{"SAE 15W-40", []string{"SAE 15W-40"}, nil, false},
	} {
		var m jobsheet.Machine
		d := dialogue.New(enrol.Script(yardInput(t), &m))
		var said []string
		for {
			q, waits := d.Next()
			said = append(said, q.Said...)
			if !waits {
				break
			}
			typed := generator[q.Key]
			if q.Key == "system/engine-oil/suits" {
				typed = c.typed
			}
			if err := d.Answer(typed); err != nil {
				t.Fatalf("%s: %v", q.Key, err)
			}
		}
		oil, _ := m.System("engine-oil")
		if !slices.Equal(oil.Viscosity, c.grades) || !slices.Equal(oil.Meets, c.marks) {
			t.Errorf("%s: grades %q, specifications %q", c.typed, oil.Viscosity, oil.Meets)
		}
		if told := strings.Contains(strings.Join(said, "\n"), "Taken as the grade"); told != c.told {
			t.Errorf("%s: told %v of how it is taken", c.typed, told)
		}
	}
}

// Where nobody knows, the file says so, and it is said what that costs.
func TestUnknown(t *testing.T) {
	for _, dash := range []string{"-", "unknown", "Unknown", "none"} {
		answers := map[string]string{
			"vessel": "Gannet", "hull": dash, "home": dash, "kind": "diesel windlass", "position": dash, "id": "gannet-windlass", "make": "Corrin",
			"model": "W2", "serial": "not legible", "power": dash, "schedule": "diesel-inboard", "in-service": "today", "in-service-hours": "0", "hours-a-year": dash,
		}
		for _, key := range []string{"engine-oil/at-upper", "engine-oil/between-marks", "engine-oil/filter-holds", "engine-oil/suits", "engine-oil/density",
			"engine-oil/drain", "coolant/holds", "coolant/glycol", "coolant/protect-to"} {
			answers["system/"+key] = dash
		}
		d, m := inEmptyYard(t)
		var said []string
		for {
			q, waits := d.Next()
			said = append(said, q.Said...)
			if !waits {
				break
			}
			if err := d.Answer(answers[q.Key]); err != nil {
				t.Fatalf("%s: %v", q.Key, err)
			}
		}
		if s, _ := m.System("engine-oil"); !reflect.DeepEqual(s, jobsheet.System{Name: "engine-oil"}) || m.RatedPower != 0 || m.Vessel.Hull != "" {
			t.Errorf("%s: made %s", dash, m.YAML())
		}
		if !strings.Contains(string(m.YAML()), "at_upper: unknown") {
			t.Errorf("the file does not say unknown:\n%s", m.YAML())
		}
		for _, want := range []string{"no dates are worked out", "what a job takes is not worked out, and no level", "not turned into litres", "old filter", "held to nothing", "not known to be a coolant"} {
			if !strings.Contains(strings.Join(said, "\n"), want) {
				t.Errorf("%s: not said: %q", dash, want)
			}
		}
		readBack(t, *m)
	}
}

// A gear has the hours of the engine at its side, and no power of its own.
func TestDrivenMachine(t *testing.T) {
	starboard := strings.NewReplacer("gannet-port", "gannet-starboard", "position: port", "position: starboard", "0045120", "0045121").Replace(portEngine)
	d, m := begun(t, yardInput(t, portEngine, starboard))
	keys := through(t, d, map[string]string{
		"kind": "r", "position": "s", "make": "Corrin", "model": "RG-20", "serial": "G20-00872", "in-service": "2024-03-18", "in-service-hours": "0",
		"system/gear-oil/at-upper": "2.2 L", "system/gear-oil/between-marks": "0.3 L", "system/gear-oil/suits": "SAE 90",
		"further/1": "trim-oil", "system/trim-oil/holds": "1 L", "system/trim-oil/suits": "-",
	})
	if m.DrivenBy != "gannet-starboard" || m.ID != "gannet-starboard-gearbox" || m.Schedule != "reduction-gear" {
		t.Errorf("made\n%s", m.YAML())
	}
	gear, _ := m.System("gear-oil")
	if !slices.Equal(gear.Viscosity, []string{"SAE 90"}) || len(m.Systems) != 2 || m.Systems[1].Holds != 1000 {
		t.Errorf("systems %+v", m.Systems)
	}
	for _, key := range []string{"power", "hours-a-year", "system/gear-oil/filter-holds"} {
		if slices.Contains(keys, key) {
			t.Errorf("asked for %s", key)
		}
	}
	readBack(t, *m)
}

// Whatever is answered, in whatever order one goes back, what comes of it is a machine
// file that is read back as the same machine.
func TestAnyAnswersMakeAFile(t *testing.T) {
	in := yardInput(t, portEngine)
	words := []string{"", "-", "y", "n", "p", "g", "r", "s", "o", "e", "1", "2", "unknown", "today", "2024-03-18", "0", "420", "3 L", "1 L", "500 mL", "6 kW", "880 kg/m3", "-25 C",
		"15W-40, API CI-4", "API CK-4 SAE 10W-30", "engine-oil, 2025-06-20, 501, owner", "impeller, 2024-03-18, 1, none", "steering-oil", "Gannet", "Plover: her #2", `a "b" 'c'`, "null", "~", "0045120", "GB-ELS00042A323", "diesel windlass"}
	rapid.Check(t, func(t *rapid.T) {
		var m jobsheet.Machine
		d := dialogue.New(enrol.Script(in, &m))
		for range 400 {
			q, waits := d.Next()
			if !waits {
				readBack(t, m)
				return
			}
			typed := rapid.SampledFrom(words).Draw(t, q.Key)
			switch {
			case typed == "o" && rapid.Bool().Draw(t, "back"):
				d.Back()
			default:
				_ = d.Answer(typed) // what is not taken is asked again
			}
		}
	})
}
