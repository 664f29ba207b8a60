package jobsheet

import (
	"path"
	"strings"

	"go.yaml.in/yaml/v3"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// yearHours is what a leap year has.
const yearHours = 366 * 24 * quantity.Hour

var machineForm = form{
	{"id", "the machine's id, as gannet-port", required},
	{"vessel", "{ name: Gannet, hull: GB-ELS00042A323, home: Port Ellery }", optional},
	{"kind", "what the machine is, as propulsion diesel", required},
	{"position", "where it stands, as port", optional},
	{"driven_by", "the id of the engine whose hours count, as gannet-port", optional},
	{"make", "the make on the name plate, as Corrin", required},
	{"model", "the model on the name plate, as 4T-75", required},
	{"serial", `the serial number on the name plate in quotes, as "0045120"`, required},
	{"rated_power", "a power, as 55 kW", optional},
	{"schedule", "the id of its service schedule, as diesel-inboard", required},
	{"in_service", "{ date: 2024-03-18, hours: 0 }", required},
	{"expected_hours_per_year", "hours a year, as 420", optional},
	{"severe_duty", "the severe duties of its schedule that it runs under, as [fuel sulphur over 0.5 %]", optional},
	{"earlier", "{ task: engine-oil, date: 2025-06-20, hours: 501, source: invoice }", blank},
	{"systems", "a name for each system, as engine-oil, and its figures below it", blank},
}

var (
	vesselForm = form{
		{"name", "the vessel's name, as Gannet", required},
		{"hull", "the hull identification number, as GB-ELS00042A323", optional},
		{"home", "the home port, as Port Ellery", optional},
	}
	pointForm = form{
		{"date", "a date, as 2024-03-18", required},
		{"hours", "the hour-meter reading, as 0", required},
	}
	statementForm = form{
		{"task", "a task of the schedule, as engine-oil", required},
		{"date", "a date, as 2025-06-20", required},
		{"hours", "the hour-meter reading, as 501", required},
		{"source", "invoice, owner or none", required},
	}
	systemForm = form{
		{"at_upper", "the volume at the upper mark with a new filter, as 10.0 L, or unknown", optional},
		{"between_marks", "the volume between the marks, as 1.6 L", optional},
		{"filter_holds", "a volume, as 0.6 L", optional},
		{"holds", "a volume, as 11.5 L", optional},
		{"viscosity", "the grades that suit, as [15W-40, 10W-40]", optional},
		{"meets", "the specifications of which one is enough, as [API CI-4, ACEA E7]", optional},
		{"density", "the density at 15 degC, as 880 kg/m3", optional},
		{"glycol", "ethylene or propylene", optional},
		{"protect_to", "a temperature, as -25 C", optional},
		{"drain", "extractor or plug", optional},
	}
)

// ParseMachine reads a machine file. File is its name in messages; where it
// has a folder in it, the base name must be the machine's id.
func ParseMachine(file string, data []byte) (Machine, error) {
	s := newSheet(file)
	root, ok := s.read(data)
	if !ok {
		return done(s, Machine{})
	}
	f := root.fields(machineForm)
	m := Machine{
		ID:           one(f, "id", id),
		Kind:         one(f, "kind", text),
		Position:     one(f, "position", text),
		DrivenBy:     one(f, "driven_by", id),
		Make:         one(f, "make", text),
		Model:        one(f, "model", text),
		Serial:       one(f, "serial", text),
		RatedPower:   one(f, "rated_power", above(quantity.ParsePower)),
		Schedule:     one(f, "schedule", id),
		HoursPerYear: one(f, "expected_hours_per_year", within(above(quantity.ParseHours), 1, yearHours)),
		SevereDuty:   severeDuty(f),
		Earlier:      list(f, "earlier", record.MaxTasks, statementForm, statement),
		Systems:      systems(f),
		Source:       s.source(),
	}
	if v := group(f, "vessel", vesselForm, vessel); v != nil {
		m.Vessel = *v
	}
	if p := group(f, "in_service", pointForm, point); p != nil {
		m.InService = *p
	}
	f.named(m.ID)
	if m.DrivenBy != "" && m.DrivenBy == m.ID {
		f.values["driven_by"].fail("a machine does not drive itself: write the engine's id, or leave the key out")
	}
	return done(s, m)
}

// named holds the id of a file to the file's own name.
func (f fields) named(id string) {
	dir, base := path.Split(f.sheet.file)
	want, isYAML := strings.CutSuffix(base, ".yaml")
	if id == "" || dir == "" || !isYAML || id == want {
		return
	}
	f.values["id"].fail("%s, but the file is %s: write %s, or name the file %s.yaml", show(id), base, want, id)
}

func vessel(f fields) Vessel {
	return Vessel{Name: one(f, "name", text), Hull: one(f, "hull", text), Home: one(f, "home", text)}
}

func point(f fields) schedule.Point {
	return schedule.Point{Date: one(f, "date", quantity.ParseDate), Hours: one(f, "hours", quantity.ParseHours)}
}

func statement(f fields) Statement {
	return Statement{
		Task:   one(f, "task", id),
		At:     point(f),
		Source: one(f, "source", oneOf(sources...)),
	}
}

// systems reads the systems in the order in which they stand.
func systems(f fields) []System {
	e, there := f.values["systems"]
	if !there || e.left() || !e.usable(yaml.MappingNode) {
		return nil
	}
	var read []System
	for k, value := range e.pairs() {
		if e.leavesOut(value) {
			continue
		}
		child := e.child(k, value, key{name: k.Value, want: "{ at_upper: 10.0 L, between_marks: 1.6 L }"})
		if err := CheckID(k.Value); err != nil {
			e.sheet.fault(posOf(k), e.field, "%v", err)
		}
		read = append(read, system(k.Value, child.fields(systemForm)))
	}
	if len(read) > record.MaxFluids {
		e.fail("%d systems, at most %d fit", len(read), record.MaxFluids)
	}
	return read
}

func system(name string, f fields) System {
	s := System{
		Name:         name,
		AtUpper:      one(f, "at_upper", upperVolume),
		BetweenMarks: one(f, "between_marks", above(quantity.ParseVolume)),
		FilterHolds:  one(f, "filter_holds", above(quantity.ParseVolume)),
		Holds:        one(f, "holds", above(quantity.ParseVolume)),
		Density:      one(f, "density", within(quantity.ParseDensity, 500, 3000)),
		Viscosity:    several(f, "viscosity", record.MaxMeets, text),
		Meets:        several(f, "meets", record.MaxMeets, text),
		Glycol:       one(f, "glycol", oneOf("ethylene", "propylene")),
		ProtectTo:    maybe(f, "protect_to", oilTemperature),
		Drain:        one(f, "drain", oneOf("extractor", "plug")),
	}
	if s.AtUpper != 0 && s.BetweenMarks >= s.AtUpper {
		f.values["between_marks"].fail("not less than at_upper, %v: write the volume from the lower mark to the upper", s.AtUpper)
	}
	return s
}

// upperVolume gives 0 for unknown.
func upperVolume(s string) (quantity.Volume, error) {
	v, err := orUnknown(above(quantity.ParseVolume))(s)
	if v == nil {
		return 0, err
	}
	return *v, nil
}
