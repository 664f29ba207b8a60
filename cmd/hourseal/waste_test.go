package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"os/exec"
	"reflect"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/recordtest"
	"hourseal/record/recordtest/outside"
	"hourseal/record/waste"
)

// accountOf is the account of 2026 of one machine with these records.
func accountOf(records ...*record.Record) waste.Account {
	var chain []record.Earlier
	for i, r := range records {
		r.Kind, r.Subject, r.Number = record.Service, nil, uint32(i+1)
		r.Job.Date = quantity.FromYMD(2026, 5, 4)
		chain = append(chain, record.Earlier{ID: record.ID{byte(i + 1)}, Record: r})
	}
	return waste.Of(2026, chain)
}

// awkward is an account whose texts a careless writer or reader of CSV would spoil.
func awkward() waste.Account {
	r := recordtest.Example()
	r.Machine.Serial, r.Machine.Vessel, r.Job.Number = "0012345", `Gannet "of Ellery", ex Plover`, "=2+3"
	w := record.Waste{System: "engine-oil", Amount: r.Waste[0].Amount}
	r.Waste = nil
	for _, receipt := range []string{"-5521", "+5521", "@5521", "1e5", `\.`, `"`, `""`, ",", "a;b", "Öl, 5 L", "5521 ", "=HYPERLINK(1)"} {
		w.To, w.Receipt = "harbour oil bank, berth 2", receipt
		r.Waste = append(r.Waste, w)
	}
	return accountOf(r)
}

// wantRows are the cells of the CSV, by their columns' names.
func wantRows(a waste.Account) []map[string]string {
	var rows []map[string]string
	for _, e := range a.Entries {
		row := map[string]string{}
		for i, cell := range wasteRow(e) {
			row[wasteColumns[i]] = cell
		}
		rows = append(rows, row)
	}
	return rows
}

// TestWasteCSVReadBack: encoding/csv, as strict as it is, gives back every text of
// any records as it was signed, under its column.
func TestWasteCSVReadBack(t *testing.T) {
	check := func(t rapid.TB, a waste.Account) {
		data, err := wasteCSV(a)
		if err != nil {
			t.Fatal(err)
		}
		// RFC 4180, section 2: CR LF after every row; our texts hold no line breaks.
		if n := len(a.Entries) + 1; bytes.Count(data, []byte("\r\n")) != n || bytes.Count(data, []byte("\n")) != n {
			t.Fatalf("lines of %q", data)
		}
		rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		var got []map[string]string
		for _, cells := range rows[1:] {
			row := map[string]string{}
			for i, cell := range cells {
				row[rows[0][i]] = cell
			}
			got = append(got, row)
		}
		if !reflect.DeepEqual(got, wantRows(a)) {
			t.Fatalf("got %q\nwant %q", got, wantRows(a))
		}
		for i, e := range a.Entries {
			r := e.From.Record
			if row := got[i]; row["receipt"] != e.Waste.Receipt || row["to"] != e.Waste.To || row["held"] != e.Waste.Held ||
				row["serial"] != r.Machine.Serial || row["vessel"] != r.Machine.Vessel || row["job_number"] != r.Job.Number ||
				row["as_written"] != e.Waste.Amount.String() || row["system"] != e.Waste.System {
				t.Fatalf("%q is not %+v of %+v", row, e.Waste, r.Machine)
			}
		}
	}
	check(t, awkward())
	rapid.Check(t, func(t *rapid.T) { check(t, accountOf(recordtest.Random(t), recordtest.Random(t))) })
}

const readWithPython = `import csv, io, json, sys
text = io.TextIOWrapper(sys.stdin.buffer, encoding="utf-8", newline="")
json.dump(list(csv.DictReader(text, strict=True)), sys.stdout)`

// TestWasteCSVByPython: Python's csv module reads the same.
func TestWasteCSVByPython(t *testing.T) {
	data, err := wasteCSV(awkward())
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(outside.Program(t, "python3"), "-c", readWithPython)
	cmd.Stdin = bytes.NewReader(data)
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	var got []map[string]string
	if err := json.Unmarshal(out, &got); err != nil {
		t.Fatal(err)
	}
	if want := wantRows(awkward()); !reflect.DeepEqual(got, want) {
		t.Errorf("got %q\nwant %q", got, want)
	}
}

// TestFormulaTexts: what a spreadsheet may take for a formula is named, once.
func TestFormulaTexts(t *testing.T) {
	want := []string{"=2+3", "-5521", "+5521", "@5521", "=HYPERLINK(1)"}
	if got := formulaTexts(awkward()); !reflect.DeepEqual(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	if got := formulaTexts(accountOf(recordtest.Example())); got != nil {
		t.Errorf("%q of the example", got)
	}
}

// TestWasteTextWidth: 80 columns hold the longest ids and names and the largest
// amounts that a record may have.
func TestWasteTextWidth(t *testing.T) {
	r := recordtest.Example()
	system := strings.Repeat("o", 40)
	r.Machine.ID = strings.Repeat("m", 40)
	most := quantity.Measured{}
	for range quantity.MaxPortions {
		most.Portions = append(most.Portions, quantity.Portion{Amount: int64(quantity.MaxMass), Unit: quantity.UnitKilogram, Places: 3})
	}
	if err := most.Valid(); err != nil {
		t.Fatal(err)
	}
	long := strings.Repeat("harbour ", record.MaxText/8)
	r.Waste = []record.Waste{
		{System: system, Amount: most, To: long, Receipt: long},
		{System: system, Amount: quantity.Measured{NotMeasured: true}, Held: long},
		{System: system, Amount: most},
	}
	r.Fluids[0].Drained = &most
	var out bytes.Buffer
	made := yardWaste{yard: long, Account: accountOf(r), named: []string{r.Machine.ID, r.Machine.ID}, machines: 2, leftOut: []string{r.Machine.ID, r.Machine.ID}, soFar: "2026-11-25"}
	(&program{stdout: &out}).wasteText(made)
	for line := range strings.Lines(out.String()) {
		if n := utf8.RuneCountInString(strings.TrimSuffix(line, "\n")); n > 80 {
			t.Errorf("%d columns: %s", n, line)
		}
	}
	for _, want := range []string{"not stated", "held by the yard: harbour", "to harbour", "Drained, and no record of where it went:"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("no %q in\n%s", want, out.String())
		}
	}
	if strings.Count(out.String(), "Filters and") != 1 {
		t.Error("filters and rags are not named once")
	}
}
