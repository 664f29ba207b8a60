package words

import (
	"slices"
	"testing"

	"hourseal/record"
	"hourseal/record/schedule"
)

func idsOf(chosen []Caution) []string {
	var ids []string
	for _, c := range chosen {
		ids = append(ids, c.ID)
	}
	return ids
}

func TestCautionsGoByTheWork(t *testing.T) {
	for _, c := range []struct {
		what, machine string
		names         []string
		want          []string
	}{
		{"a look at the mounts", "propulsion diesel", []string{"engine-mounts"}, []string{"start"}},
		{"oil on a diesel", "propulsion diesel", []string{"engine-oil"}, []string{"start", "hot-oil", "overfilled", "skin", "slips", "used-oil"}},
		{"oil on an outboard", "petrol outboard", []string{"engine-oil"}, []string{"start", "hot-oil", "petrol-vapour", "skin", "slips", "used-oil"}},
		{"gear oil", "reduction gear", []string{"gear-oil"}, []string{"start", "hot-oil", "skin", "slips", "used-oil"}},
		{"coolant measured", "diesel generator", []string{"coolant-strength"}, []string{"start", "hot-coolant", "slips"}},
		{"coolant changed", "diesel generator", []string{"coolant"}, []string{"start", "hot-coolant", "slips", "used-coolant"}},
		{"fuel filter", "propulsion diesel", []string{"fuel-filter-primary"}, []string{"start", "fuel", "slips", "used-oil"}},
		{"output", "Diesel generator", []string{"output"}, []string{"start", "carbon-monoxide"}},
		{"diaphragm", "sail drive", []string{"diaphragm"}, []string{"start", "lifting"}},
		{"boiler", "boiler", []string{"foil"}, []string{"start"}}, // words, not letters
	} {
		if got := idsOf(Cautions(WorkNamed(c.machine, c.names...))); !slices.Equal(got, c.want) {
			t.Errorf("%s: got %q, want %q", c.what, got, c.want)
		}
	}
}

// A record is cautioned about what was done, not about what was put off or not
// on the job sheet.
func TestWorkOfRecord(t *testing.T) {
	r := &record.Record{
		Machine: record.Machine{Kind: "propulsion diesel"},
		Tasks: []record.Task{
			{ID: "belt-look", Kind: schedule.Inspect, Result: record.OK},
			{ID: "coolant", Kind: schedule.Replace, Result: record.Deferred},
			{ID: "fuel-filter", Kind: schedule.Replace},
		},
	}
	if got := idsOf(Cautions(WorkOf(r))); !slices.Equal(got, []string{"start"}) {
		t.Errorf("a look at the belt: %q", got)
	}
	r.LeakCheck = &record.LeakCheck{Result: record.NoneSeen}
	r.Fluids = []record.Fluid{{System: "engine-oil"}}
	want := []string{"start", "hot-oil", "overfilled", "carbon-monoxide", "skin", "slips", "used-oil"}
	if got := idsOf(Cautions(WorkOf(r))); !slices.Equal(got, want) {
		t.Errorf("oil and a run: got %q, want %q", got, want)
	}
}

// Every caution can be reached, says who governs and where it comes from, and
// every kind of work and governor in the table is of use to one.
func TestCautionTable(t *testing.T) {
	table := cautions()
	usedWork, usedGovernor := map[string]bool{}, map[string]bool{}
	seen := map[string]bool{}
	for _, entry := range table.Cautions {
		if entry.ID == "" || entry.Text == "" || entry.Source == "" || len(entry.Governs) == 0 {
			t.Errorf("%s: incomplete", entry.ID)
		}
		if seen[entry.ID] {
			t.Errorf("%s: twice", entry.ID)
		}
		seen[entry.ID] = true
		for _, kind := range append(slices.Clone(entry.When), entry.And) {
			if kind == "" {
				continue
			}
			usedWork[kind] = true
			if len(table.Works[kind]) == 0 {
				t.Errorf("%s: no kind of work %q", entry.ID, kind)
			}
		}
		for _, governor := range entry.Governs {
			usedGovernor[governor] = true
			if table.Governs[governor] == "" {
				t.Errorf("%s: no governor %q", entry.ID, governor)
			}
		}
	}
	for kind := range table.Works {
		if !usedWork[kind] {
			t.Errorf("works: %s calls for no caution", kind)
		}
	}
	for governor := range table.Governs {
		if !usedGovernor[governor] {
			t.Errorf("governs: %s is not used", governor)
		}
	}
	if _, ok := table.Works[running]; !ok {
		t.Errorf("works: no %s", running)
	}
	for _, c := range Cautions(Work{"engine-oil": true, "diesel": true}) {
		if c.ID == "overfilled" && c.Governs != "the maker's handbook" {
			t.Errorf("overfilled: governed by %q", c.Governs)
		}
	}
}
