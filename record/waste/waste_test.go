package waste_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/recordtest"
	"hourseal/record/waste"
)

// amount reads portions parted by " + ", or "not measured".
func amount(t testing.TB, text string) quantity.Measured {
	t.Helper()
	if !strings.Contains(text, " + ") {
		m, err := quantity.ParseMeasured(text)
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	var portions []quantity.Portion
	for part := range strings.SplitSeq(text, " + ") {
		p, err := quantity.ParsePortion(part)
		if err != nil {
			t.Fatal(err)
		}
		portions = append(portions, p)
	}
	m, err := quantity.SumOf(portions...)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// job is a record of a machine with no fluids and no waste.
func job(t testing.TB, machine, date string) *record.Record {
	t.Helper()
	day, err := quantity.ParseDate(date)
	if err != nil {
		t.Fatal(err)
	}
	r := recordtest.Example()
	r.Machine.ID, r.Job.Date, r.Fluids, r.Waste = machine, day, nil, nil
	return r
}

// out adds a waste entry: "SYSTEM: AMOUNT", where it went, and a receipt.
func out(t testing.TB, r *record.Record, what, to, held, receipt string) {
	t.Helper()
	system, text, _ := strings.Cut(what, ": ")
	r.Waste = append(r.Waste, record.Waste{System: system, Amount: amount(t, text), To: to, Held: held, Receipt: receipt})
}

// drained adds a fluid that was drained: "SYSTEM: AMOUNT".
func drained(t testing.TB, r *record.Record, what string) *record.Fluid {
	t.Helper()
	system, text, _ := strings.Cut(what, ": ")
	r.Fluids = append(r.Fluids, record.Fluid{System: system, Drained: new(amount(t, text))})
	return &r.Fluids[len(r.Fluids)-1]
}

// chain numbers records; their ids begin with the machine's letter.
func chain(letter byte, records ...*record.Record) []record.Earlier {
	var list []record.Earlier
	for i, r := range records {
		r.Number = uint32(i + 1)
		list = append(list, record.Earlier{ID: record.ID{letter, byte(i + 1)}, Record: r})
	}
	return list
}

// sum is a sum in one line: litres, kilograms, jobs, amounts, not measured.
func sum(s waste.Sum) string {
	litres, kilograms := "-", "-"
	if s.Litres != nil {
		litres = s.Litres.Litres()
	}
	if s.Weighed != nil {
		kilograms = s.Weighed.Kilograms()
	}
	return fmt.Sprintf("%s L, %s kg, jobs %d, amounts %d, not measured %d", litres, kilograms, s.Jobs, s.Amounts, s.NotMeasured)
}

func lines(a waste.Account) string {
	var got []string
	for _, t := range a.Totals() {
		got = append(got, fmt.Sprintf("%s, %d %q: %s, receipts %q", t.System, t.Where, t.Name, sum(t.Sum), t.Receipts))
	}
	for _, s := range a.UnaccountedBySystem() {
		got = append(got, fmt.Sprintf("unaccounted %s: %s", s.System, sum(s.Sum)))
	}
	return strings.Join(got, "\n")
}

// TestYear: what counts, by the job's date; each system and each place as they were
// written.
func TestYear(t *testing.T) {
	newYearsEve, first := job(t, "gannet-port", "2025-12-31"), job(t, "gannet-port", "2026-01-01")
	out(t, newYearsEve, "engine-oil: 100 L", "harbour oil bank", "", "1")
	out(t, first, "engine-oil: 8.8 L", "harbour oil bank", "", "5521")
	out(t, first, "engine-oil: 0.5 L", "harbour oil bank", "", "5521") // one job, two entries, one receipt
	out(t, first, "coolant: not measured", "", "", "")
	last, after := job(t, "gannet-port", "2026-12-31"), job(t, "gannet-port", "2027-01-01")
	out(t, last, "engine-oil: 5 L + 4 L at 12 C", "Harbour oil bank", "", "")
	out(t, last, "engine-oil: not measured", "", "bunded tank", "")
	drained(t, last, "coolant: 11 L")
	drained(t, last, "gear-oil: not measured")
	drained(t, last, "engine-oil: 9 L") // accounted for
	drained(t, last, "sail-drive-oil: 0 L")
	out(t, after, "engine-oil: 100 L", "", "", "")
	twin := job(t, "gannet-starboard", "2026-06-01")
	out(t, twin, "engine-oil: 2.4 US gal", "harbour oil bank", "", "5530") // 9.085 L
	drained(t, twin, "coolant: 10 L at 80 C")                              // as measured, not at 15 degC

	a := waste.Together(2026, []waste.Account{
		waste.Of(2026, chain('s', twin)),
		waste.Of(2026, nil),
		waste.Of(2026, chain('p', newYearsEve, last, first, after)), // late paperwork: the chain is not by date
	})
	want := strings.TrimSpace(`
coolant, 3 "": - L, - kg, jobs 1, amounts 1, not measured 1, receipts []
engine-oil, 1 "Harbour oil bank": 9.000 L, - kg, jobs 1, amounts 1, not measured 0, receipts []
engine-oil, 1 "harbour oil bank": 18.385 L, - kg, jobs 2, amounts 3, not measured 0, receipts ["5521" "5530"]
engine-oil, 2 "bunded tank": - L, - kg, jobs 1, amounts 1, not measured 1, receipts []
unaccounted coolant: 21.000 L, - kg, jobs 2, amounts 2, not measured 0
unaccounted gear-oil: - L, - kg, jobs 1, amounts 1, not measured 1`)
	if got := lines(a); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if a.Read != 5 || a.Counted != 3 || a.Year != 2026 {
		t.Errorf("read %d, counted %d of %d", a.Read, a.Counted, a.Year)
	}
	var order []string
	for _, e := range a.Entries {
		order = append(order, fmt.Sprintf("%v %s %s", e.From.Record.Job.Date, e.From.Record.Machine.ID, e.Waste.Amount))
	}
	if got, want := strings.Join(order, "; "), "2026-01-01 gannet-port 8.8 L; 2026-01-01 gannet-port 0.5 L; 2026-01-01 gannet-port not measured; "+
		"2026-06-01 gannet-starboard 2.4 US gal; 2026-12-31 gannet-port 5 L + 4 L at 12 C; 2026-12-31 gannet-port not measured"; got != want {
		t.Errorf("entries %s\nwant %s", got, want)
	}
	systems := a.BySystem()
	if len(systems) != 2 || systems[1].System != "engine-oil" || sum(systems[1].Sum) != "27.385 L, - kg, jobs 3, amounts 5, not measured 1" {
		t.Errorf("by system %+v", systems)
	}
}

// TestCounts: what was voided or corrected is left out, and what only speaks of
// others; a correction counts in the year of its own date.
func TestCounts(t *testing.T) {
	with := func(kind record.Kind, of byte, date, what string) *record.Record {
		r := job(t, "gannet-port", date)
		out(t, r, what, "", "", "")
		drained(t, r, "gear-oil: 1 L")
		if r.Kind = kind; kind != record.Service {
			r.Subject = &record.Subject{Record: record.ID{'p', of}, Why: "as said"}
		}
		return r
	}
	service := func() *record.Record { return with(record.Service, 0, "2026-05-04", "engine-oil: 8 L") }
	for _, c := range []struct {
		name    string
		year    int
		second  *record.Record
		litres  string
		counted int
	}{
		{"a service", 2026, nil, "8.000", 1},
		{"voided", 2026, with(record.Void, 1, "2026-05-04", "engine-oil: 1 L"), "", 0},
		{"corrected", 2026, with(record.Correction, 1, "2026-05-04", "engine-oil: 9 L"), "9.000", 1},
		{"corrected into another year", 2026, with(record.Correction, 1, "2025-05-04", "engine-oil: 9 L"), "", 0},
		{"corrected from another year", 2025, with(record.Correction, 1, "2025-05-04", "engine-oil: 9 L"), "9.000", 1},
		{"an addendum", 2026, with(record.Addendum, 1, "2026-05-04", "engine-oil: 1 L"), "8.000", 1},
	} {
		records := []*record.Record{service()}
		if c.second != nil {
			records = append(records, c.second)
		}
		a := waste.Of(c.year, chain('p', records...))
		got := ""
		for _, s := range a.BySystem() {
			got += s.Litres.Litres()
		}
		if got != c.litres || a.Counted != c.counted || len(a.Unaccounted) != c.counted || a.Read != len(records) {
			t.Errorf("%s: %q, %d of %d count, %d unaccounted", c.name, got, a.Counted, a.Read, len(a.Unaccounted))
		}
	}
}

// TestMasses: litres are kilograms over the density, of that record and that
// system. 8.8 kg / 0.88 kg/L = 10 L; 7.7 / 0.855 = 9.00585 L; 10.6 / 1.06 = 10 L.
func TestMasses(t *testing.T) {
	stated := func(r *record.Record) { drained(t, r, "engine-oil: 9 L").Density = 855 }
	for _, c := range []struct {
		name, system, text string
		change             func(*record.Record)
		litres, kilograms  string
		density            quantity.Density
		assumed            bool
	}{
		{"a volume", "engine-oil", "8.8 L", stated, "8.800", "-", 0, false},
		{"density on record", "engine-oil", "7.7 kg", stated, "9.006", "7.700", 855, false},
		{"of another system", "gear-oil", "8.8 kg", stated, "10.000", "8.800", 880, true},
		{"no fluid on record", "engine-oil", "8.8 kg", nil, "10.000", "8.800", 880, true},
		{"a sum of masses", "engine-oil", "4.4 kg + 4.4 kg", nil, "10.000", "8.800", 880, true},
		{"a volume and a mass", "engine-oil", "1 L + 8.8 kg", nil, "11.000", "-", 880, true},
		{"coolant by its id", "engine-coolant", "10.6 kg", nil, "10.000", "10.600", 1060, true},
		{"coolant by its glycol", "heating", "10.6 kg", func(r *record.Record) { drained(t, r, "heating: 10 L").Glycol = record.Propylene }, "10.000", "10.600", 1060, true},
		{"a word that only begins like it", "coolantless-oil", "8.8 kg", nil, "10.000", "8.800", 880, true},
		{"not measured", "engine-oil", "not measured", stated, "-", "-", 0, false},
	} {
		r := job(t, "gannet-port", "2026-05-04")
		if c.change != nil {
			c.change(r)
		}
		out(t, r, c.system+": "+c.text, "", "", "")
		a := waste.Of(2026, chain('p', r))
		got := a.Entries[0].Amount
		s := a.Totals()[0].Sum
		if text := sum(waste.Sum{Litres: got.Litres, Weighed: got.Weighed}); !strings.HasPrefix(text, c.litres+" L, "+c.kilograms+" kg,") ||
			!strings.HasPrefix(sum(s), c.litres+" L, "+c.kilograms+" kg,") || got.Density != c.density || got.Assumed != c.assumed {
			t.Errorf("%s: %s, by %v, assumed %v; in sum %s", c.name, text, got.Density, got.Assumed, sum(s))
		}
	}
}

// TestWeighedSum: kilograms stand for a sum only where all that was measured was
// weighed; what was not measured does not take them away.
func TestWeighedSum(t *testing.T) {
	for _, c := range []struct{ amounts, want string }{
		{"8.8 kg; 4.4 kg", "15.000 L, 13.200 kg, jobs 1, amounts 2, not measured 0"},
		{"8.8 kg; not measured", "10.000 L, 8.800 kg, jobs 1, amounts 2, not measured 1"},
		{"8.8 kg; 1 L", "11.000 L, - kg, jobs 1, amounts 2, not measured 0"},
		{"not measured; not measured", "- L, - kg, jobs 1, amounts 2, not measured 2"},
		{"0 L", "0.000 L, - kg, jobs 1, amounts 1, not measured 0"},
	} {
		r := job(t, "gannet-port", "2026-05-04")
		for text := range strings.SplitSeq(c.amounts, "; ") {
			out(t, r, "engine-oil: "+text, "", "", "")
		}
		if got := sum(waste.Of(2026, chain('p', r)).Totals()[0].Sum); got != c.want {
			t.Errorf("%s: %s, want %s", c.amounts, got, c.want)
		}
	}
}

// TestPlaceOf: a receipt alone does not say who took it.
func TestPlaceOf(t *testing.T) {
	for _, c := range []struct {
		w    record.Waste
		want waste.Place
	}{
		{record.Waste{To: "harbour oil bank", Receipt: "5521"}, waste.Place{Where: waste.Taken, Name: "harbour oil bank"}},
		{record.Waste{Held: "waste oil tank 2"}, waste.Place{Where: waste.Held, Name: "waste oil tank 2"}},
		{record.Waste{Receipt: "5521"}, waste.Place{Where: waste.NotStated}},
		{record.Waste{}, waste.Place{Where: waste.NotStated}},
	} {
		if got := waste.PlaceOf(c.w); got != c.want {
			t.Errorf("%+v: %+v", c.w, got)
		}
	}
}

// TestNothingIsLost: of any records, the totals have every entry's litres once, in
// whatever order the machines come, and every year has its own.
func TestNothingIsLost(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var accounts, turned []waste.Account
		var all quantity.Volume
		entries := 0
		for machine := range rapid.IntRange(0, 3).Draw(rt, "machines") {
			var records []*record.Record
			for range rapid.IntRange(0, 3).Draw(rt, "records") {
				r := recordtest.Random(rt)
				r.Kind, r.Subject, r.Machine.ID = record.Service, nil, fmt.Sprintf("m%d", machine)
				r.Job.Date = quantity.FromYMD(2026, 5, 4)
				records = append(records, r)
				entries += len(r.Waste)
			}
			own := chain(byte(machine), records...)
			a := waste.Of(2026, own)
			for _, e := range a.Entries {
				if (e.Amount.Litres == nil) != e.Waste.Amount.NotMeasured {
					rt.Fatalf("%v gives %v", e.Waste.Amount, e.Amount.Litres)
				}
				if e.Amount.Litres != nil {
					all += *e.Amount.Litres
				}
			}
			if other := waste.Of(2025, own); len(other.Entries)+len(other.Unaccounted)+other.Counted != 0 {
				rt.Fatalf("%d entries of 2025", len(other.Entries))
			}
			accounts = append(accounts, a)
		}
		turned = slices.Clone(accounts)
		slices.Reverse(turned)
		a, b := waste.Together(2026, accounts), waste.Together(2026, turned)
		if lines(a) != lines(b) {
			rt.Fatalf("%s\nturned\n%s", lines(a), lines(b))
		}
		amounts, litres := 0, quantity.Volume(0)
		for _, total := range a.Totals() {
			amounts += total.Amounts
			if total.Litres != nil {
				litres += *total.Litres
			}
		}
		if amounts != entries || litres != all {
			rt.Fatalf("%d amounts, %v; want %d, %v", amounts, litres, entries, all)
		}
	})
}
