package record_test

import (
	"slices"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/recordtest"
	"hourseal/record/schedule"
)

// refusal is a change to the example record, and what Validate then says; "" for
// nothing.
type refusal struct {
	name    string
	change  func(*record.Record)
	message string
}

func tryRefusals(t *testing.T, list []refusal) {
	t.Helper()
	for _, c := range list {
		r := recordtest.Example()
		c.change(r)
		if got := message(r.Validate()); got != c.message {
			t.Errorf("%s: %q, want %q", c.name, got, c.message)
		}
		data, err := record.Encode(r)
		if message(err) != c.message {
			t.Errorf("%s: encode: %q, want %q", c.name, message(err), c.message)
		}
		if c.message == "" {
			if _, err := record.Decode(data); err != nil {
				t.Errorf("%s: decode: %v", c.name, err)
			}
			continue
		}
		// What someone else signed without checking is refused on reading, too.
		raw, err := record.EncMode.Marshal(r)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := record.Decode(raw); err == nil {
			t.Errorf("%s: read", c.name)
		}
	}
}

func TestExamplesAreValid(t *testing.T) {
	for _, e := range examples {
		if err := e.make().Validate(); err != nil {
			t.Errorf("%s: %v", e.name, err)
		}
	}
}

const (
	longText   = "121 characters, at most 120 fit"
	longReason = "201 characters, at most 200 fit"
	hidden     = "invisible character U+202E is not allowed: take it out"
	badID      = "ids are small letters, digits and hyphens, at most 40 of them"
)

var (
	text121 = strings.Repeat("x", record.MaxText+1)
	text201 = strings.Repeat("x", record.MaxReason+1)
)

func TestValidateHead(t *testing.T) {
	type r = *record.Record
	tryRefusals(t, []refusal{
		{"format 0", func(r r) { r.Format = 0 }, "format: this program reads format 1 only"},
		{"format 2", func(r r) { r.Format = 2 }, "format: this program reads format 1 only"},
		{"renderer 0", func(r r) { r.Renderer = 0 }, "renderer: 0 is outside 1 to 65536"},
		{"renderer 65536", func(r r) { r.Renderer = 65536 }, ""},
		{"renderer 65537", func(r r) { r.Renderer = 65537 }, "renderer: 65537 is outside 1 to 65536"},
		{"renderer of 64 bits", func(r r) { r.Renderer = 1 << 63 }, "renderer: 1048576 is outside 1 to 65536"},
		{"paper 0", func(r r) { r.Paper = 0 }, "paper: unknown value 0"},
		{"paper 3", func(r r) { r.Paper = 3 }, "paper: unknown value 3"},
		{"no page", func(r r) { r.PageHost = "" }, ""},
		{"page with a path", func(r r) { r.PageHost = "ellery-slip.example/v" }, "page host: a host has letters, digits, hyphens and dots only"},
		{"page in other letters", func(r r) { r.PageHost = "ellеry-slip.example" }, "page host: a host has letters, digits, hyphens and dots only"},
		{"page too long", func(r r) { r.PageHost = text121 }, "page host: " + longText},
		{"kind 0", func(r r) { r.Kind = 0 }, "kind: unknown value 0"},
		{"kind 5", func(r r) { r.Kind, r.Subject = 5, &record.Subject{Why: "x"} }, "kind: unknown value 5"},
		{"service of another record", func(r r) { r.Subject = &record.Subject{Why: "x"} }, "subject: an addendum, correction or void names a record, and only these do"},
		{"void of nothing", func(r r) { r.Kind = record.Void }, "subject: an addendum, correction or void names a record, and only these do"},
		{"addendum", func(r r) { r.Kind, r.Subject = record.Addendum, &record.Subject{Why: "x"} }, ""},
		{"no reason", func(r r) { r.Kind, r.Subject = record.Void, &record.Subject{} }, "subject why: is empty"},
		{"long reason", func(r r) { r.Kind, r.Subject = record.Void, &record.Subject{Why: text201} }, "subject why: " + longReason},
		{"technician number", func(r r) { r.By.Number = "\u202e118" }, "technician number: " + hidden},
		{"technician name", func(r r) { r.By.Name = text121 }, "technician name: " + longText},
		{"credential", func(r r) { r.By.Credential = text121 }, "technician credential: " + longText},
		{"nobody", func(r r) { r.By = record.By{} }, ""},
		{"second of none", func(r r) { r.Number = 2 }, "previous: the first record of a chain cites none before it, and all others cite one"},
		{"first after another", func(r r) { r.Previous = &record.Previous{} }, "previous: the first record of a chain cites none before it, and all others cite one"},
		{"second", func(r r) { r.Number, r.Previous = 2, &record.Previous{} }, ""},
		{"previous date", func(r r) { r.Number, r.Previous = 2, &record.Previous{Date: quantity.MaxDate + 1} }, "previous date: 84006 is outside -25567 to 84005"},
		{"previous hours", func(r r) { r.Number, r.Previous = 2, &record.Previous{Hours: -1} }, "previous hours: -1 is outside 0 to 100000000"},
		{"notes", func(r r) { r.Notes = strings.Repeat("x", record.MaxNotes+1) }, "notes: 601 characters, at most 600 fit"},
		{"notes with newlines", func(r r) { r.Notes = "one\n\ntwo" }, ""},
		{"issuer without a name", func(r r) { r.Issuer.Name = "" }, "issuer name: is empty"},
		{"issuer kind 0", func(r r) { r.Issuer.Kind = 0 }, "issuer kind: unknown value 0"},
		{"issuer kind 4", func(r r) { r.Issuer.Kind = 4 }, "issuer kind: unknown value 4"},
		{"contact", func(r r) { r.Issuer.Contact = text121 }, "issuer contact: " + longText},
		{"address", func(r r) { r.Issuer.Address = "a\nb" }, "issuer address: invisible character U+000A is not allowed: take it out"},
		{"number 0", func(r r) { r.Number = 0 }, "number: 0 is outside 1 to 1000000"},
		{"number 1000001", func(r r) { r.Number, r.Previous = 1_000_001, &record.Previous{} }, "number: 1000001 is outside 1 to 1000000"},
		{"issued before 1970", func(r r) { r.IssuedAt = -1 }, "issued at: -1 is outside 0 to 7258032000"},
		{"issued after 2199", func(r r) { r.IssuedAt = 7258032001 }, "issued at: 7258032001 is outside 0 to 7258032000"},
	})
}

func TestValidateMachineAndSchedule(t *testing.T) {
	type r = *record.Record
	tryRefusals(t, []refusal{
		{"no id", func(r r) { r.Machine.ID = "" }, "machine id: is empty"},
		{"id out of the folder", func(r r) { r.Machine.ID = "../gannet" }, "machine id: " + badID},
		{"id in capitals", func(r r) { r.Machine.ID = "Gannet" }, "machine id: " + badID},
		{"id begins with a hyphen", func(r r) { r.Machine.ID = "-g" }, "machine id: " + badID},
		{"id of 40", func(r r) { r.Machine.ID = strings.Repeat("g", 40) }, ""},
		{"id of 41", func(r r) { r.Machine.ID = strings.Repeat("g", 41) }, "machine id: " + badID},
		{"vessel", func(r r) { r.Machine.Vessel = text121 }, "vessel: " + longText},
		{"hull", func(r r) { r.Machine.Hull = text121 }, "hull: " + longText},
		{"no kind", func(r r) { r.Machine.Kind = "" }, "machine kind: is empty"},
		{"position", func(r r) { r.Machine.Position = text121 }, "position: " + longText},
		{"no make", func(r r) { r.Machine.Make = "" }, "make: is empty"},
		{"no model", func(r r) { r.Machine.Model = "" }, "model: is empty"},
		{"no serial", func(r r) { r.Machine.Serial = "" }, "serial: is empty"},
		{"hidden in the serial", func(r r) { r.Machine.Serial = "004\u202e5120" }, "serial: " + hidden},
		{"power below 0", func(r r) { r.Machine.RatedPower = -1 }, "rated power: -1 is outside 0 to 100000000"},
		{"power beyond", func(r r) { r.Machine.RatedPower = quantity.MaxPower + 1 }, "rated power: 100000001 is outside 0 to 100000000"},
		{"power not stated", func(r r) { r.Machine.RatedPower = 0 }, ""},
		{"driven by", func(r r) { r.Machine.DrivenBy = text121 }, "driven by: " + longText},
		{"in service before 1900", func(r r) { r.Machine.InService.Date = quantity.MinDate - 1 }, "in service: -25568 is outside -25567 to 84005"},
		{"in service hours", func(r r) { r.Machine.InService.Hours = -1 }, "in service: -1 is outside 0 to 100000000"},
		{"schedule id", func(r r) { r.Schedule.ID = "Diesel" }, "schedule id: " + badID},
		{"no schedule id", func(r r) { r.Schedule.ID = "" }, "schedule id: is empty"},
		{"edition 0", func(r r) { r.Schedule.Edition = 0 }, "schedule edition: 0 is outside 1 to 100000"},
		{"edition 100001", func(r r) { r.Schedule.Edition = 100_001 }, "schedule edition: 100001 is outside 1 to 100000"},
		{"basis 0", func(r r) { r.Schedule.Basis.Kind = 0 }, "schedule basis: unknown value 0"},
		{"basis 5", func(r r) { r.Schedule.Basis.Kind = 5 }, "schedule basis: unknown value 5"},
		{"document", func(r r) { r.Schedule.Basis.Document = text121 }, "schedule document: " + longText},
		{"document's edition", func(r r) { r.Schedule.Basis.Edition = text121 }, "schedule document edition: " + longText},
		{"page", func(r r) { r.Schedule.Basis.Page = text121 }, "schedule page: " + longText},
	})
}

func TestValidateJob(t *testing.T) {
	type r = *record.Record
	stopped := func(r r) {
		r.Job.Meter = record.Meter{State: record.Stopped, Basis: "engine log"}
	}
	tryRefusals(t, []refusal{
		{"date", func(r r) { r.Job.Date = quantity.MinDate - 1 }, "date: -25568 is outside -25567 to 84005"},
		{"hours below 0", func(r r) { r.Job.Hours = -1 }, "hours: -1 is outside 0 to 100000000"},
		{"hours beyond", func(r r) { r.Job.Hours = quantity.MaxHours + 1 }, "hours: 100000001 is outside 0 to 100000000"},
		{"reason 0", func(r r) { r.Job.Reason = 0 }, "reason: unknown value 0"},
		{"reason 10", func(r r) { r.Job.Reason = 10 }, "reason: unknown value 10"},
		{"place", func(r r) { r.Job.Place = text121 }, "place: " + longText},
		{"job number", func(r r) { r.Job.Number = text121 }, "job number: " + longText},
		{"meter 0", func(r r) { r.Job.Meter.State = 0 }, "meter: unknown value 0"},
		{"meter 4", func(r r) { r.Job.Meter.State = 4 }, "meter: unknown value 4"},
		{"no reading", func(r r) { r.Job.Meter.Reading = nil }, "meter: a running meter has a reading and no estimate"},
		{"reading and basis", func(r r) { r.Job.Meter.Basis = "log" }, "meter: a running meter has a reading and no estimate"},
		{"long basis", func(r r) { stopped(r); r.Job.Meter.Basis = text201 }, "meter basis: " + longReason},
		{"reading below 0", func(r r) { *r.Job.Meter.Reading = -1 }, "meter reading: -1 is outside 0 to 100000000"},
		{"another total", func(r r) { *r.Job.Meter.Reading = 81259 }, "hours: reading and offset do not add up to the hours in total"},
		{"offset adds up", func(r r) { *r.Job.Meter.Reading, r.Job.Meter.Offset = 0, 81260 }, ""},
		{"negative offset", func(r r) { *r.Job.Meter.Reading, r.Job.Meter.Offset = 81261, -1 }, ""},
		{"offset beyond", func(r r) { r.Job.Meter.Offset = -quantity.MaxHours - 1 }, "meter offset: -100000001 is outside -100000000 to 100000000"},
		{"stopped", stopped, ""},
		{"stopped, with reading", func(r r) {
			r.Job.Meter.State, r.Job.Meter.Basis = record.Stopped, "log"
		}, "meter: an estimate has a basis and no reading"},
		{"estimate of nothing", func(r r) { r.Job.Meter = record.Meter{State: record.NoMeter} }, "meter: an estimate has a basis and no reading"},
		{"removed at", func(r r) { r.Job.Meter.Change = &record.MeterChange{RemovedAt: new(quantity.Hours(-1)), Why: "x"} }, "meter removed at: -1 is outside 0 to 100000000"},
		{"removed unknown", func(r r) { r.Job.Meter.Change = &record.MeterChange{Why: "glass cracked"} }, ""},
		{"fitted at", func(r r) { r.Job.Meter.Change = &record.MeterChange{FittedAt: -1, Why: "x"} }, "meter fitted at: -1 is outside 0 to 100000000"},
		{"fuel used of nothing", func(r r) { r.Job.FuelUsed = &quantity.Measured{} }, `fuel used: nothing measured: write an amount, as 9.4 L, or "not measured"`},
		{"fuel used not measured", func(r r) { r.Job.FuelUsed = &quantity.Measured{NotMeasured: true} }, ""},
		{"change without why", func(r r) { r.Job.Meter.Change = &record.MeterChange{} }, "meter change why: is empty"},
	})
}

// TestValidateLists: each list one above its limit, and at it.
func TestValidateLists(t *testing.T) {
	type r = *record.Record
	var list []refusal
	for name, c := range map[string]struct {
		limit int
		fill  func(r r, n int)
	}{
		"tasks":      {64, func(r r, n int) { r.Tasks = slices.Repeat(r.Tasks[:1], n) }},
		"other work": {32, func(r r, n int) { r.OtherWork = slices.Repeat(r.OtherWork, n) }},
		"fluids":     {16, func(r r, n int) { r.Fluids = slices.Repeat(r.Fluids, n) }},
		"topped up":  {16, func(r r, n int) { r.ToppedUp = slices.Repeat(r.ToppedUp, n) }},
		"waste":      {16, func(r r, n int) { r.Waste = slices.Repeat(r.Waste, n) }},
		"parts":      {32, func(r r, n int) { r.Parts = slices.Repeat(r.Parts, n) }},
		"findings":   {128, func(r r, n int) { r.Findings = slices.Repeat(r.Findings[:1], n) }},
		"files":      {16, func(r r, n int) { r.Files = slices.Repeat([]record.File{{Name: "plate.jpg"}}, n) }},
	} {
		message := quantity.Months(c.limit+1).String() + " entries, at most " + quantity.Months(c.limit).String() + " fit"
		list = append(list, refusal{name, func(r r) { c.fill(r, c.limit+1) }, name + ": " + message})
		if once := name == "tasks" || name == "fluids" || name == "topped up"; !once {
			list = append(list, refusal{name + " at the limit", func(r r) { c.fill(r, c.limit) }, ""})
		}
	}
	list = append(list,
		refusal{"meets", func(r r) { r.Fluids[0].Meets = slices.Repeat([]string{"API CK-4"}, 9) }, "fluid 1: meets: 9 entries, at most 8 fit"},
		refusal{"sights", func(r r) {
			r.Fluids[0].Saw = []record.Sight{record.SawWater, record.SawMetal, record.SawFuel, record.SawWater, record.SawMetal}
		}, "fluid 1: seen: 5 entries, at most 4 fit"},
		refusal{"readings", func(r r) { r.Tasks[4].Readings = slices.Repeat(r.Tasks[4].Readings, 9) }, "task 5: readings: 9 entries, at most 8 fit"},
		refusal{"portions", func(r r) {
			r.Fluids[0].Filled.Portions = slices.Repeat([]quantity.Portion{{Amount: 1000, Unit: quantity.UnitLitre}}, 9)
		}, "fluid 1: filled: 9 amounts in one sum: at most 8"},
		refusal{"a task twice", func(r r) { r.Tasks[1].ID = "engine-oil" }, "tasks: the same task twice"},
		refusal{"a system twice", func(r r) { r.Fluids = append(r.Fluids, r.Fluids[0]) }, "fluids: the same system twice"},
		refusal{"topped up twice", func(r r) { r.ToppedUp = append(r.ToppedUp, r.ToppedUp[0]) }, "topped up: the same system twice"},
		refusal{"waste to two receivers", func(r r) { r.Waste = append(r.Waste, r.Waste[0]) }, ""},
		refusal{"no tasks", func(r r) { r.Tasks = nil }, ""},
		refusal{"no schedule at all", func(r r) { r.Schedule = record.ScheduleRef{Basis: schedule.Basis{}} }, "schedule id: is empty"},
	)
	tryRefusals(t, list)
}
