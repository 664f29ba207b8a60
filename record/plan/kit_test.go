package plan

import (
	"bytes"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
	"hourseal/record/recordtest"
	"hourseal/record/schedule"
)

// gannet is the port engine as its machine file has it.
func gannet() jobsheet.Machine {
	return jobsheet.Machine{
		ID: "gannet-port",
		Systems: []jobsheet.System{
			{Name: "engine-oil", AtUpper: 10_000, BetweenMarks: 1600, FilterHolds: 600, Density: 880,
				Viscosity: []string{"15W-40", "10W-40"}, Meets: []string{"API CI-4", "ACEA E7"}},
			{Name: "coolant", Holds: 11_500, Glycol: "ethylene"},
		},
	}
}

// ellery is the yard, with what it stocks.
func ellery() jobsheet.Yard {
	return jobsheet.Yard{Containers: []quantity.Volume{1000, 20_000, 5000}, Extractor: 6500, Margin: jobsheet.DefaultMargin}
}

// work is a list of tasks with what they need, named by the first of it.
func work(needs ...schedule.Needs) []Item {
	var items []Item
	for _, n := range needs {
		id := n.Filled + n.Part + n.Reading
		items = append(items, Item{Task: schedule.Task{ID: id, Needs: n}})
	}
	return items
}

var (
	oilChange     = schedule.Needs{Drained: "engine-oil", Filled: "engine-oil", Level: "engine-oil", LeakCheck: true}
	coolantChange = schedule.Needs{Drained: "coolant", Filled: "coolant"}
)

// serviced is the port engine's record of 2026-05-04, changed.
func serviced(id byte, change func(*record.Record)) record.Earlier {
	r := recordtest.Example()
	change(r)
	return record.Earlier{ID: record.ID{id}, Record: r}
}

func equal(t testing.TB, what string, got, want any) {
	t.Helper()
	if !reflect.DeepEqual(got, want) {
		t.Errorf("%s:\n got %+v\nwant %+v", what, got, want)
	}
}

// TestKit: oil, filter and coolant of the scenario's engine. 10.0 L and 5 % are
// 10.5 L: two cans of 5 L and one of 1 L. 10.0 L at 15 degC are 10.413 L at 70
// (ASTM D1250, Table 54D: 1 / 0.96034), two fillings of 6.5 L. 11.5 L and 5 % are
// 12.075 L, 12.1 when rounded up: two of 5 L and three of 1 L.
func TestKit(t *testing.T) {
	chain := []record.Earlier{serviced(1, func(*record.Record) {})}
	kit := KitFor(ellery(), gannet(), work(oilChange, schedule.Needs{Part: "oil filter"}, coolantChange), chain)
	equal(t, "kit", kit, Kit{
		Supplies: []Supply{
			{
				System: "engine-oil", Viscosity: []string{"15W-40", "10W-40"}, Meets: []string{"API CI-4", "ACEA E7"}, Product: "Harrow HD",
				Needs: 10_000, Margin: 50, Bring: 10_500, Cans: []Can{{5000, 2}, {1000, 1}}, Holds: 11_000,
				ToLower: 8400, BetweenMarks: 1600, FilterHolds: 600,
			},
			{System: "coolant", Needs: 11_500, Margin: 50, Bring: 12_100, Cans: []Can{{5000, 2}, {1000, 3}}, Holds: 13_000},
		},
		Extractions: []Extraction{{System: "engine-oil", Content: 10_000, At: 700, Hot: 10_413, Holds: 6500, Fillings: 2}},
		Parts:       []Part{{Item: "oil filter", Number: "CR-2214", Quantity: 1, Task: "oil filter"}},
	})
}

// TestKitOfWhatIsNotKnown: what nobody stated is not worked out.
func TestKitOfWhatIsNotKnown(t *testing.T) {
	m := jobsheet.Machine{Systems: []jobsheet.System{{Name: "engine-oil", Viscosity: []string{"SAE 90"}}}}
	kit := KitFor(ellery(), m, work(oilChange, coolantChange, schedule.Needs{Part: "impeller"}, schedule.Needs{Reading: "voltage"}), nil)
	equal(t, "kit", kit, Kit{
		Supplies: []Supply{{System: "engine-oil", Viscosity: []string{"SAE 90"}}}, // and the machine has no coolant
		Parts:    []Part{{Item: "impeller", Quantity: 1, Task: "impeller"}},
	})
	equal(t, "nothing to do", KitFor(ellery(), gannet(), nil, nil), Kit{})

	bare := KitFor(jobsheet.Yard{}, gannet(), work(oilChange), nil)
	equal(t, "a yard without sizes, extractor or margin", bare, Kit{Supplies: []Supply{{
		System: "engine-oil", Viscosity: []string{"15W-40", "10W-40"}, Meets: []string{"API CI-4", "ACEA E7"},
		Needs: 10_000, Bring: 10_000, ToLower: 8400, BetweenMarks: 1600, FilterHolds: 600,
	}}, Extractions: []Extraction{{System: "engine-oil", Content: 10_000, At: 700, Hot: 10_413}}})
}

// TestKitExtracts says from which systems the extractor draws. The volumes are
// by ASTM D1250, Table 54D.
func TestKitExtracts(t *testing.T) {
	for _, c := range []struct {
		name      string
		change    func(*jobsheet.System)
		extractor quantity.Volume
		fillings  int // 0: no extraction
	}{
		{"as it is", func(*jobsheet.System) {}, 6500, 2},
		{"just enough cold, and not hot", func(*jobsheet.System) {}, 10_000, 2},
		{"just not enough", func(*jobsheet.System) {}, 10_412, 2},
		{"just enough", func(*jobsheet.System) {}, 10_413, 1},
		{"a small one", func(*jobsheet.System) {}, 1000, 11},
		{"stated so", func(s *jobsheet.System) { s.Drain = "extractor" }, 6500, 2},
		{"by the plug", func(s *jobsheet.System) { s.Drain = "plug" }, 6500, 2},
		{"no known upper mark", func(s *jobsheet.System) { s.AtUpper, s.Holds = 0, 10_000 }, 6500, 0},
		{"coolant with marks", func(s *jobsheet.System) { s.Glycol = "propylene" }, 6500, 0},
		{"coolant by its protection", func(s *jobsheet.System) { s.ProtectTo = new(quantity.Temperature) }, 6500, 0},
		{"no oil by its density", func(s *jobsheet.System) { s.Density = 1165 }, 6500, 0},
		{"density assumed", func(s *jobsheet.System) { s.Density = 0 }, 10_412, 2},
		{"no extractor", func(*jobsheet.System) {}, 0, 0},
	} {
		m, yard := gannet(), ellery()
		yard.Extractor = c.extractor
		c.change(&m.Systems[0])
		kit := KitFor(yard, m, work(oilChange, oilChange), nil)
		fillings := 0
		for _, e := range kit.Extractions {
			fillings += e.Fillings
		}
		if fillings != c.fillings || len(kit.Supplies) != 1 {
			t.Errorf("%s: %+v", c.name, kit)
		}
	}
	// What is filled up only is not drawn off.
	if kit := KitFor(ellery(), gannet(), work(schedule.Needs{Filled: "engine-oil"}), nil); len(kit.Extractions) != 0 || len(kit.Supplies) != 1 {
		t.Errorf("topped up: %+v", kit)
	}
}

// TestKitFromTheLastRecord: which record product and parts come from.
func TestKitFromTheLastRecord(t *testing.T) {
	day := func(text string) quantity.Date {
		d, err := quantity.ParseDate(text)
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	first := serviced(1, func(r *record.Record) {
		r.Fluids[0].Product = "Harrow HD 1"
		r.Parts = []record.Part{
			{Item: "Oil filter", Number: "0012", Quantity: 1},
			{Item: "anode", Number: "CR-7", Quantity: 2}, {Item: "Anode", Number: "CR-8", Quantity: 1}, {Item: "anode", Number: "CR-7", Quantity: 1},
		}
	})
	second := serviced(2, func(r *record.Record) {
		r.Job.Date, r.Fluids[0].Product = day("2026-09-01"), "Harrow HD 2"
		r.Parts = []record.Part{{Item: "oil FILTER", Number: "0013", Quantity: 2}}
	})
	look := serviced(3, func(r *record.Record) { // its level was read and nothing filled
		r.Job.Date, r.Parts = day("2026-10-01"), nil
		r.Fluids[0].Filled, r.Fluids[0].Product = nil, "not filled"
	})
	void := serviced(4, func(r *record.Record) {
		r.Kind, r.Subject, r.Job.Date = record.Void, &record.Subject{Record: second.ID}, day("2026-10-02")
	})
	corrected := serviced(5, func(r *record.Record) {
		r.Kind, r.Subject, r.Job.Date = record.Correction, &record.Subject{Record: second.ID}, day("2026-09-01")
		r.Fluids[0].Product, r.Parts = "Harrow HD 3", []record.Part{{Item: "oil filter", Number: "0014", Quantity: 1}}
	})
	late := serviced(6, func(r *record.Record) { // paperwork of an earlier job
		r.Job.Date, r.Fluids[0].Product, r.Parts = day("2025-01-01"), "Harrow HD 0", []record.Part{{Item: "oil filter", Number: "0011", Quantity: 1}}
	})
	nameless := serviced(7, func(r *record.Record) { r.Job.Date, r.Fluids[0].Product = day("2026-11-01"), "" })

	filter := work(oilChange, schedule.Needs{Part: "oil filter"})
	for name, c := range map[string]struct {
		chain           []record.Earlier
		product, number string
		quantity        uint
	}{
		"no record":           {nil, "", "", 1},
		"one":                 {[]record.Earlier{first}, "Harrow HD 1", "0012", 1},
		"the newer":           {[]record.Earlier{first, second}, "Harrow HD 2", "0013", 2},
		"that filled and did": {[]record.Earlier{first, second, look}, "Harrow HD 2", "0013", 2},
		"not the void one":    {[]record.Earlier{first, second, look, void}, "Harrow HD 1", "0012", 1},
		"the correction":      {[]record.Earlier{first, second, corrected}, "Harrow HD 3", "0014", 1},
		"newest by its date":  {[]record.Earlier{first, second, late}, "Harrow HD 2", "0013", 2},
		"an unnamed product":  {[]record.Earlier{first, nameless}, "", "CR-2214", 1}, // not that of the one before
	} {
		kit := KitFor(ellery(), gannet(), filter, c.chain)
		equal(t, name, kit.Supplies[0].Product, c.product)
		equal(t, name, kit.Parts, []Part{{Item: "oil filter", Number: c.number, Quantity: c.quantity, Task: "oil filter"}})
	}

	// Of two numbers both are brought; of two tasks for one item the first is named.
	anodes := []Item{
		{Task: schedule.Task{ID: "engine-anodes", Needs: schedule.Needs{Part: "anode"}}},
		{Task: schedule.Task{ID: "cooler-anode", Needs: schedule.Needs{Part: "ANODE"}}},
	}
	equal(t, "anodes", KitFor(ellery(), gannet(), anodes, []record.Earlier{first, second}).Parts, []Part{
		{Item: "anode", Number: "CR-7", Quantity: 3, Task: "engine-anodes"}, {Item: "anode", Number: "CR-8", Quantity: 1, Task: "engine-anodes"},
	})
}

// TestMargin: up to the next 0.1 L, by hand.
func TestMargin(t *testing.T) {
	for _, c := range []struct {
		v      quantity.Volume
		margin quantity.Ratio
		want   quantity.Volume
	}{
		{10_000, 50, 10_500}, {10_000, 0, 10_000}, {10_001, 0, 10_100}, {11_500, 50, 12_100}, {2200, 50, 2400}, // 2.31
		{2000, 50, 2100}, {2000, 51, 2200}, {1, 0, 100}, {100_000_000, 1000, 200_000_000}, {6000, 125, 6800}, // 6.75
	} {
		if got := withMargin(c.v, c.margin); got != c.want {
			t.Errorf("%v and %s: %v, want %v", c.v, c.margin.Percent(), got, c.want)
		}
	}
}

// TestKitSuffices: what is brought is what the system needs and the margin, to
// less than 0.1 L; the cans hold it, and the extractor's fillings the hot oil.
func TestKitSuffices(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, yard := gannet(), ellery()
		upper := quantity.Volume(rapid.Int64Range(1, 2_000_000).Draw(t, "at upper"))
		m.Systems[0].AtUpper, m.Systems[0].BetweenMarks = upper, quantity.Volume(rapid.Int64Range(0, int64(upper)).Draw(t, "between marks"))
		m.Systems[0].Density = quantity.Density(rapid.Int64Range(800, 1164).Draw(t, "density"))
		yard.Margin = quantity.Ratio(rapid.Int64Range(0, 1000).Draw(t, "margin"))
		yard.Extractor = quantity.Volume(rapid.Int64Range(500, 100_000).Draw(t, "extractor"))
		kit := KitFor(yard, m, work(oilChange), nil)
		s, e := kit.Supplies[0], kit.Extractions[0]
		if over := s.Bring*1000 - upper*quantity.Volume(1000+yard.Margin); over < 0 || over >= 100_000 || s.Bring%100 != 0 {
			t.Errorf("%v of %v with %v", s.Bring, upper, yard.Margin)
		}
		if s.Holds < s.Bring || s.Holds >= s.Bring+1000 { // the smallest can
			t.Errorf("%v in cans of %v: %v", s.Bring, s.Holds, s.Cans)
		}
		if s.ToLower != 0 && s.ToLower+s.BetweenMarks != s.Needs {
			t.Errorf("%v and %v are not %v", s.ToLower, s.BetweenMarks, s.Needs)
		}
		if n := quantity.Volume(e.Fillings); n*e.Holds < e.Hot || (n-1)*e.Holds >= e.Hot || e.Hot < upper {
			t.Errorf("%+v", e)
		}
	})
}

// TestBlankFor: the sheet for the same work expects what the kit brings.
func TestBlankFor(t *testing.T) {
	chain := []record.Earlier{serviced(1, func(*record.Record) {})}
	items := work(oilChange, schedule.Needs{Part: "oil filter"}, coolantChange)
	b := BlankFor(gannet(), 20_000, record.Scheduled, items, chain)
	equal(t, "tasks", []string{b.Tasks[0].ID, b.Tasks[1].ID, b.Tasks[2].ID}, []string{"engine-oil", "oil filter", "coolant"})
	equal(t, "parts", b.Parts, []record.Part{{Item: "oil filter", Number: "CR-2214", Quantity: 1}})
	equal(t, "fluids", len(b.Fluids), 1) // the coolant is not on record
	text := b.YAML()
	for _, line := range []string{"date: 2024-10-04 ", "    product: Harrow HD ", "    number: CR-2214 ", "    meets: [API CK-4] "} {
		if !bytes.Contains(text, []byte("\n"+line)) {
			t.Errorf("no %q in\n%s", line, text)
		}
	}
}

// TestKitOfAnUnnamedPart: a replacement takes a part, though the schedule names
// none; what is called nothing goes on no job sheet.
func TestKitOfAnUnnamedPart(t *testing.T) {
	belt := schedule.Task{ID: "belt", Title: "Fit a new drive belt", Kind: schedule.Replace}
	look := schedule.Task{ID: "belt-look", Title: "Look over the drive belt", Kind: schedule.Inspect}
	oil := schedule.Task{ID: "engine-oil", Title: "Change the engine oil", Kind: schedule.Replace, Needs: oilChange}
	items := []Item{{Task: belt}, {Task: look}, {Task: oil}}
	equal(t, "parts", KitFor(ellery(), gannet(), items, nil).Parts, []Part{{Quantity: 1, Task: "belt", For: "Fit a new drive belt"}})
	if b := BlankFor(gannet(), 20_000, record.Scheduled, items, nil); len(b.Parts) != 0 {
		t.Errorf("parts on the job sheet: %+v", b.Parts)
	}
}
