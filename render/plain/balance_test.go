package plain

import (
	"strings"
	"testing"

	"hourseal/record"
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
		{"everything", func(*record.Record, *record.Fluid) {}, `At 15 °C | 8.74 L out, 9.09 L in, give or take 0.27 L and 0.11 L
Level expected | 0.87, give or take 0.20; 0.85 read, which agrees within what the measuring allows
Old oil left in | 0.41 L, 5 % of the fill, give or take 0.39 L
Used | 1.44 L in 202.4 h, give or take 0.25 L; 0.71 L in 100 h; 0.08 % of the fuel; 0.19 g/kWh. Volumes cannot exclude that less than 0.7 L got in.`},
		{"nothing", func(_ *record.Record, f *record.Fluid) { f.Balance = nil }, ""},
		{"written in litres at 15 C", func(_ *record.Record, f *record.Fluid) {
			f.Drained, f.Filled = litres("8.742 L at 15 C"), litres("9.1 L at 16 C")
			f.Balance = &record.Balance{Drained: f.Balance.Drained, Filled: f.Balance.Filled}
		}, "At 15 °C | 8.74 L out, 9.09 L in, give or take 0.27 L and 0.11 L"},
		{"weighed", func(_ *record.Record, f *record.Fluid) {
			f.Drained, f.Filled = litres("7.7 kg"), nil
			f.Balance = &record.Balance{Drained: &record.Estimate{Volume: 8750, Within: 114}}
		}, "At 15 °C | 8.75 L out, give or take 0.11 L"},
		{"level not read, by volumes", func(_ *record.Record, f *record.Fluid) {
			f.Level = &record.Level{}
			f.Balance = &record.Balance{Level: &record.LevelEstimate{Reading: 898, Within: 204},
				Used: &record.Estimate{Volume: 400, Within: 500}, Over: 20_000, By: record.ByVolumes,
				Trend: []record.Use{{Hours: 80_000, Per100: 200, Within: 250}}}
		}, `Level expected | 0.90, give or take 0.20; not read
Used | 0.40 L in 200 h, give or take 0.50 L, by volumes only; 0.20 L in 100 h. Volumes cannot exclude that less than 1.4 L got in.`},
		{"too few hours for a rate", func(_ *record.Record, f *record.Fluid) {
			f.Balance = &record.Balance{Used: &record.Estimate{Volume: 40, Within: 180}, Over: 310, By: record.ByLevels}
		}, "Used | 0.04 L in 3.1 h, give or take 0.18 L. Volumes cannot exclude that less than 0.5 L got in."},
		{"more out than was in", func(_ *record.Record, f *record.Fluid) {
			f.Balance = &record.Balance{Carried: &record.Estimate{Volume: -120, Within: 389}}
		}, "Old oil left in | less than the measuring can tell, give or take 0.39 L"},
		{"oil gained, and found so", func(r *record.Record, f *record.Fluid) {
			r.Findings = append(r.Findings, record.Finding{Code: record.OilGained, Subject: f.System})
			f.Balance = &record.Balance{Used: &record.Estimate{Volume: -990, Within: 180}, Over: 20_000, By: record.ByLevels}
		}, "Used | none by the figures: 0.99 L more in after 200 h, give or take 0.18 L"},
	} {
		r := recordtest.Accounted()
		c.edit(r, &r.Fluids[0])
		if got := rowsText(balance{}.rows(r, r.Fluids[0])); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want)
		}
	}
}

// The rows of show hold what a fluid's and a waste's fields say.
func TestFluidRows(t *testing.T) {
	got := rowsText(fluidRows(recordtest.Accounted(), words.Report()))
	for _, want := range []string{
		"Engine oil | Drawn down | 0.2 L at 40 C",
		"Engine oil | Seen | water, metal: milky on the dipstick, bright flakes in the filter",
		"Engine oil | Level expected | 0.87, give or take 0.20; 0.85 read, which agrees within what the measuring allows",
		"Coolant | Glycol | ethylene", "Coolant | Seen | nothing", "Coolant | Waste | 10.5 L, held: drum 3, oil store",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("no row %q in\n%s", want, got)
		}
	}
	if strings.Contains(got, "Coolant | At 15") {
		t.Errorf("a coolant's volume is not corrected:\n%s", got)
	}
}
