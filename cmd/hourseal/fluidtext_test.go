package main

import (
	"encoding/json"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
	"hourseal/record/recordtest"
	"hourseal/render/words"
)

func rowsText(rows [][]string) string {
	var lines []string
	for _, row := range rows {
		lines = append(lines, strings.Join(row, " | "))
	}
	return strings.Join(lines, "\n")
}

// What follows from the figures of a fluid, as check prints it.
func TestBalanceRows(t *testing.T) {
	litres := func(text string) *quantity.Measured {
		m, err := quantity.ParseMeasured(text)
		if err != nil {
			t.Fatal(err)
		}
		return &m
	}
	for _, c := range []struct {
		name string
		edit func(*record.Record, *record.Fluid)
		want string
	}{
		{"everything", func(*record.Record, *record.Fluid) {}, `at 15 °C | 8.74 L out, 9.09 L in, give or take 0.27 L and 0.11 L
level expected | 0.87, give or take 0.20; 0.85 read, which agrees within what the measuring allows
old oil left in | 0.41 L, 5 % of the fill, give or take 0.39 L
used | 1.44 L in 202.4 h, give or take 0.25 L; 0.71 L in 100 h; 0.08 % of the fuel; 0.19 g/kWh. Volumes cannot exclude that less than 0.7 L got in.`},
		{"nothing", func(_ *record.Record, f *record.Fluid) { f.Balance = nil }, ""},
		{"written in litres at 15 C", func(_ *record.Record, f *record.Fluid) {
			f.Drained, f.Filled = litres("8.742 L at 15 C"), litres("9.1 L at 16 C")
			f.Balance = &record.Balance{Drained: f.Balance.Drained, Filled: f.Balance.Filled}
		}, "at 15 °C | 8.74 L out, 9.09 L in, give or take 0.27 L and 0.11 L"},
		{"weighed", func(_ *record.Record, f *record.Fluid) {
			f.Drained, f.Filled = litres("7.7 kg"), nil
			f.Balance = &record.Balance{Drained: &record.Estimate{Volume: 8750, Within: 114}}
		}, "at 15 °C | 8.75 L out, give or take 0.11 L"},
		{"level not read, by volumes", func(_ *record.Record, f *record.Fluid) {
			f.Level = &record.Level{}
			f.Balance = &record.Balance{Level: &record.LevelEstimate{Reading: 898, Within: 204},
				Used: &record.Estimate{Volume: 400, Within: 500}, Over: 20_000, By: record.ByVolumes,
				Trend: []record.Use{{Hours: 80_000, Per100: 200, Within: 250}}}
		}, `level expected | 0.90, give or take 0.20; not read
used | 0.40 L in 200 h, give or take 0.50 L, by volumes only; 0.20 L in 100 h. Volumes cannot exclude that less than 1.4 L got in.`},
		{"too few hours for a rate", func(_ *record.Record, f *record.Fluid) {
			f.Balance = &record.Balance{Used: &record.Estimate{Volume: 40, Within: 180}, Over: 310, By: record.ByLevels}
		}, "used | 0.04 L in 3.1 h, give or take 0.18 L. Volumes cannot exclude that less than 0.5 L got in."},
		{"more out than was in", func(_ *record.Record, f *record.Fluid) {
			f.Balance = &record.Balance{Carried: &record.Estimate{Volume: -120, Within: 389}}
		}, "old oil left in | less than the measuring can tell, give or take 0.39 L"},
		{"oil gained, and found so", func(r *record.Record, f *record.Fluid) {
			r.Findings = append(r.Findings, record.Finding{Code: record.OilGained, Subject: f.System})
			f.Balance = &record.Balance{Used: &record.Estimate{Volume: -990, Within: 180}, Over: 20_000, By: record.ByLevels}
		}, "used | none by the figures: 0.99 L more in after 200 h, give or take 0.18 L"},
	} {
		r := recordtest.Accounted()
		c.edit(r, &r.Fluids[0])
		if got := rowsText(balanceRows(r, r.Fluids[0])); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want)
		}
	}
}

// The rows of show hold what a fluid's and a waste's fields say.
func TestFluidRows(t *testing.T) {
	got := rowsText(fluidRows(recordtest.Accounted(), words.Report()))
	for _, want := range []string{
		"engine-oil | drawn down | 0.2 L at 40 C",
		"engine-oil | seen | water, metal: milky on the dipstick, bright flakes in the filter",
		"engine-oil | level expected | 0.87, give or take 0.20; 0.85 read, which agrees within what the measuring allows",
		"coolant | glycol | ethylene", "coolant | seen | nothing", "coolant | waste | 10.5 L, held: drum 3, oil store",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("no row %q in\n%s", want, got)
		}
	}
	if strings.Contains(got, "coolant | at 15") {
		t.Errorf("a coolant's volume is not corrected:\n%s", got)
	}
}

// The JSON of a fluid: litres, shares and rates as numbers, each with its standard
// uncertainty, null for what does not follow.
func TestFluidJSON(t *testing.T) {
	r := recordtest.Accounted()
	asJSON := func(value any) string {
		text, err := json.Marshal(value)
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	oil := asJSON(fluidOf(r.Fluids[0], jobsheet.System{Density: 880}))
	for _, want := range []string{
		`"drained_l15":8.742,"filled_l15":9.093,"expected_level":0.868,"carried_over_l":0.412,"consumed_l":1.440,"consumed_l_per_100h":0.711`,
		`"uncertainty":{"drained_l15":0.274,"filled_l15":0.105,"expected_level":0.204,"carried_over_l":0.389,"consumed_l":0.251,"consumed_l_per_100h":0.124}`,
		`"seen":["water","metal"]`, `{"hours":407.90,"l_per_100h":-0.038,"uncertainty":0.130}`,
		`"consumed_of_fuel_percent":0.0778,"consumed_g_per_kwh":0.188`,
	} {
		if !strings.Contains(oil, want) {
			t.Errorf("no %s in\n%s", want, oil)
		}
	}
	coolant := asJSON(fluidOf(r.Fluids[1], jobsheet.System{Glycol: "ethylene"}))
	const want = `{"system":"coolant","drained_l":10.500,"filled_l":10.800,"level":null,` +
		`"drained_l15":null,"filled_l15":null,"expected_level":null,"carried_over_l":null,"consumed_l":null,"consumed_l_per_100h":null,` +
		`"uncertainty":{"drained_l15":null,"filled_l15":null,"expected_level":null,"carried_over_l":null,"consumed_l":null,"consumed_l_per_100h":null},` +
		`"density_kg_m3":1060,"density_assumed":true,"seen":["nothing"],"trend":[],"consumed_of_fuel_percent":null,"consumed_g_per_kwh":null}`
	if coolant != want {
		t.Errorf("coolant:\n got %s\nwant %s", coolant, want)
	}
	finding := asJSON(findingOf(r.Findings[len(r.Findings)-1]))
	if !strings.Contains(finding, `"value":62.5,"limit":60.0,"uncertainty":1.5,"unit":"%"`) {
		t.Errorf("finding: %s", finding)
	}
}
