package plain

import (
	"fmt"
	"slices"
	"strings"

	"hourseal/record"
	"hourseal/record/fluid"
	"hourseal/record/quantity"
	"hourseal/render/words"
)

// What follows from the figures of a fluid, in words: a few rows a system, of what was
// worked out and how well that is known.

// Balances are a block for each fluid of a job from which something follows, with the
// figures in a style.
func Balances(style quantity.Style, r *record.Record) []Block {
	var blocks []Block
	for _, f := range r.Fluids {
		if rows := (balance{style}).rows(r, f); len(rows) > 0 {
			blocks = append(blocks, Block{Heading: words.Name(f.System) + ": what follows from the figures", Rows: rows})
		}
	}
	return blocks
}

// balance prints what follows in a style.
type balance struct{ quantity.Style }

// rows are label and text; none where nothing follows.
func (w balance) rows(r *record.Record, f record.Fluid) [][]string {
	if f.Balance == nil {
		return nil
	}
	var rows [][]string
	for _, row := range [][]string{
		{"At 15 °C", w.at15Text(f)},
		{"Level expected", w.expectedText(r, f)},
		{"Old oil left in", w.carriedText(f.Balance)},
		{"Used", w.usedText(r, f)},
	} {
		if row[1] != "" {
			rows = append(rows, row)
		}
	}
	return rows
}

// at15Text is what came out and went in, where that is not what was written already:
// coolants are not corrected.
func (w balance) at15Text(f record.Fluid) string {
	var said, within []string
	corrected := false
	for _, side := range []struct {
		written *quantity.Measured
		volume  *record.Estimate
		where   string
	}{{f.Drained, f.Balance.Drained, "out"}, {f.Filled, f.Balance.Filled, "in"}} {
		if side.volume == nil || side.written == nil {
			continue
		}
		written, inLitres := side.written.TotalVolume()
		corrected = corrected || !inLitres || written != side.volume.Volume
		said = append(said, w.Hundredths(side.volume.Volume)+" "+side.where)
		within = append(within, w.Hundredths(side.volume.Within))
	}
	if !corrected {
		return ""
	}
	text := strings.Join(said, ", ") + ", give or take " + strings.Join(within, " and ")
	if f.Density == 0 && !f.IsCoolant() {
		text += "; density not stated, " + fluid.AssumedDensity.String() + " assumed"
	}
	return text
}

// expectedText says that what was read agrees with it, unless a finding doubts that.
func (w balance) expectedText(r *record.Record, f record.Fluid) string {
	expected := f.Balance.Level
	if expected == nil {
		return ""
	}
	read := "not read"
	if f.Level != nil && f.Level.Reading != nil {
		read = w.Marked(f.Level.Reading.String()) + " read"
		if !finds(r, f.System, record.FillOffLevel, record.UnitSwapped, record.FilterMiscounted, record.DrainedBeyondSystem) {
			read += ", which agrees within what the measuring allows"
		}
	}
	return fmt.Sprintf("%s, give or take %s; %s", w.Marked(words.Hundredths(expected.Reading)), w.Marked(words.Hundredths(expected.Within)), read)
}

// carriedText never says that nothing was left in, which no measuring can tell.
func (w balance) carriedText(b *record.Balance) string {
	left := b.Carried
	switch {
	case left == nil:
		return ""
	case left.Volume <= 0:
		return "less than the measuring can tell, give or take " + w.Hundredths(left.Within)
	}
	share := ""
	if b.Filled != nil && b.Filled.Volume > 0 {
		share = ", " + (quantity.One * quantity.Ratio(left.Volume) / quantity.Ratio(b.Filled.Volume)).Whole().Percent() + " of the fill"
	}
	return w.Hundredths(left.Volume) + share + ", give or take " + w.Hundredths(left.Within)
}

func (w balance) usedText(r *record.Record, f record.Fluid) string {
	b := f.Balance
	if b.Used == nil {
		return ""
	}
	if b.Used.Volume < 0 {
		return fmt.Sprintf("none by the figures: %s more in after %s h, give or take %s", w.Hundredths(-b.Used.Volume), w.Hours(b.Over), w.Hundredths(b.Used.Within)) + w.notExcluded(r, f)
	}
	text := fmt.Sprintf("%s in %s h, give or take %s", w.Hundredths(b.Used.Volume), w.Hours(b.Over), w.Hundredths(b.Used.Within))
	if b.By == record.ByVolumes {
		text += ", by volumes only"
	}
	if rate := b.Per100(); rate != nil {
		text += "; " + w.Hundredths(rate.Volume) + " in 100 h"
	}
	if b.OfFuelPPM > 0 {
		text += fmt.Sprintf("; %s %% of the fuel", w.Marked(hundredthsOf(b.OfFuelPPM, 100)))
	}
	if b.PerEnergyMgKWh > 0 {
		text += fmt.Sprintf("; %s g/kWh", w.Marked(hundredthsOf(b.PerEnergyMgKWh, 10)))
	}
	return text + w.notExcluded(r, f)
}

// hundredthsOf prints n, in parts of which so many are a hundredth, with two
// decimals.
func hundredthsOf(n, parts int64) string {
	return quantity.Figure{Digits: (n + parts/2) / parts, Places: 2}.String()
}

// notExcluded says what volumes cannot tell, where they did not tell it.
func (w balance) notExcluded(r *record.Record, f record.Fluid) string {
	if finds(r, f.System, record.OilGained) {
		return ""
	}
	const tenth = quantity.Litre / 10
	shows := quantity.Volume(fluid.Factor*float64(f.Balance.Used.Within)) + tenth - 1
	// Not by Tenths: a bound that is rounded up in litres is not to be rounded down in gallons.
	return fmt.Sprintf(". Volumes cannot exclude that less than %s got in.", w.Volume(shows/tenth*tenth))
}

// finds says whether a record has one of these findings about a system.
func finds(r *record.Record, system string, codes ...record.Code) bool {
	return slices.ContainsFunc(r.Findings, func(f record.Finding) bool {
		return f.Subject == system && slices.Contains(codes, f.Code)
	})
}
