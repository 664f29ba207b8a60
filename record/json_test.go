package record_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/recordtest"
)

var update = flag.Bool("update", false, "write the golden files anew: read them line by line afterwards")

func jsonOf(t interface{ Fatal(...any) }, v any) string {
	data, err := json.MarshalIndent(v, "", "  ")
	if err != nil {
		t.Fatal(err)
	}
	return string(data) + "\n"
}

// TestJSON: a record in JSON speaks the words of the job sheet and the units of
// the trade; the golden file was read line by line.
func TestJSON(t *testing.T) {
	const golden = "../testdata/golden/record.json"
	got := jsonOf(t, recordtest.Accounted())
	if *update {
		if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s differs from:\n%s", golden, got)
	}
}

func TestJSONOfAnyRecord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := recordtest.Random(t)
		data, err := json.Marshal(r)
		if err != nil || !json.Valid(data) || bytes.Contains(data, []byte("unknown (")) {
			t.Fatalf("%v: %s", err, data)
		}
	})
}

// TestFindingJSON: figures stand in the unit that is named beside them.
func TestFindingJSON(t *testing.T) {
	for _, c := range []struct {
		unit          record.Unit
		value         int64
		figure, named string
	}{
		{record.NoUnit, 3, "3", "null"},
		{record.InHours, 105_25, "105.25", `"h"`},
		{record.InDays, -12, "-12", `"d"`},
		{record.AsDate, 20577, `"2026-05-04"`, `"date"`},
		{record.InShare, 1180, "1.180", `"1"`},
		{record.InMinutes, 4, "4", `"min"`},
		{record.InVolume, 9085, "9.085", `"L"`},
		{record.InDegrees, 155, "15.5", `"degC"`},
		{record.InPer100Hours, -38, "-0.038", `"L/100h"`},
		{record.InPercent, -5, "-0.5", `"%"`},
	} {
		f := record.Finding{Code: record.DoneLate, Severity: record.Note, Subject: "engine-oil", Value: &c.value, Unit: c.unit}
		want := `{"code":"done-late","severity":"note","subject":"engine-oil","value":` + c.figure +
			`,"limit":null,"unit":` + c.named + `,"text":"","accepted":"","standard_uncertainty":null}`
		if got, err := json.Marshal(f); err != nil || string(got) != want {
			t.Errorf("%s, %v; want %s", got, err, want)
		}
	}
}

// TestFindingUncertaintyJSON: the standard uncertainty stands in the same unit, of a
// date in days.
func TestFindingUncertaintyJSON(t *testing.T) {
	for unit, want := range map[record.Unit]string{
		record.NoUnit: "124", record.InHours: "1.24", record.AsDate: "124", record.InShare: "0.124", record.InVolume: "0.124",
		record.InDegrees: "12.4", record.InPer100Hours: "0.124", record.InPercent: "12.4",
	} {
		f := record.Finding{Code: record.OilUseHeavy, Severity: record.Note, Value: new(int64(711)), Unit: unit, Within: new(int64(124))}
		if got := jsonOf(t, f); !strings.Contains(got, `"standard_uncertainty": `+want+"\n") {
			t.Errorf("%v: %s, want %s", unit, got, want)
		}
	}
}
