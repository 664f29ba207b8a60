package render

import (
	"slices"
	"strings"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/render/sheet"
	"hourseal/render/words"
)

// beyondChance is how many standard uncertainties a difference may have, in tenths,
// before the check takes it for more than chance.
const beyondChance = 27

// What the check takes an engine to burn in g a kWh, where its load is not known.
const (
	dieselBurns = 230
	petrolBurns = 320
)

// offLevel are the findings by which fill and level may disagree.
var offLevel = []record.Code{record.FillOffLevel, record.UnitSwapped, record.FilterMiscounted, record.DrainedBeyondSystem}

// found says whether the check found one of these about a system.
func (p *report) found(system string, codes ...record.Code) bool {
	return slices.ContainsFunc(p.r.Findings, func(f record.Finding) bool {
		return f.Subject == system && slices.Contains(codes, f.Code)
	})
}

// follows is what follows from the figures of a fluid, in sentences, with the trend
// of the oil used beside them at the right, of a width.
func (p *report) follows(f *record.Fluid, right sheet.Len) sheet.Cell {
	if f.Balance == nil {
		return nil
	}
	said := says(body, p.carried(f), p.levelFollows(f), sentences(" ", p.used100(f), p.ofFuel(f)), p.notExcluded(f))
	for i := range said {
		said[i].Mark, said[i].Indent = "–", 8*sheet.Pt
	}
	if len(said) > 0 {
		said = append(says(small.Bold(), p.texts.Fluids.Follows), said...)
	}
	chart := p.trend(f, right)
	if chart == nil {
		return said
	}
	const gap = 12 * sheet.Pt
	left := p.flow.Area().W - right - gap
	return sheet.Cell{{Height: max(said.Height(left), chart.Height), Draw: func(d *sheet.Document, page int, b sheet.Box) {
		said.Place(d, page, sheet.Box{X: b.X, Y: b.Y, W: left, H: b.H})
		chart.Draw(d, page, sheet.Box{X: b.Right() - right, Y: b.Y, W: right, H: chart.Height})
	}}}
}

// carried is the old oil that was left in.
func (p *report) carried(f *record.Fluid) string {
	t, e := p.texts.Fluids, f.Balance.Carried
	switch {
	case e == nil:
		return ""
	case e.Volume <= 0:
		return t.CarriedNone.With("within", e.Within.Hundredths())
	}
	share := ""
	if filled := f.Balance.Filled; filled != nil {
		// What was drawn off again is no part of the fill.
		if kept := filled.Volume - volumeOf(f, f.DrawnDown, nil); kept > 0 {
			share = quantity.Ratio(int64(e.Volume) * int64(quantity.One) / int64(kept)).Whole().Percent()
		}
	}
	return t.Carried.With("volume", e.Volume.Hundredths(), "share", share, "within", e.Within.Hundredths())
}

// levelFollows is the level expected beside the one that was read. That they agree
// is said only where the check had nothing to say of it.
func (p *report) levelFollows(f *record.Fluid) string {
	t, e := p.texts.Fluids, expectedLevel(f)
	if e == nil {
		return ""
	}
	phrase, read := t.ExpectedNotRead, ""
	if isRead(f.Level) {
		phrase, read = t.ExpectedRead, f.Level.Reading.String()
		off := int64(*f.Level.Reading - e.Reading)
		switch {
		case p.found(f.System, offLevel...):
			phrase = t.ExpectedDoubted
		case max(off, -off)*10 <= beyondChance*int64(e.Within):
			phrase = t.ExpectedAgrees
		}
	}
	return phrase.With("expected", words.Hundredths(e.Reading), "within", words.Hundredths(e.Within), "read", read,
		"section", p.texts.Findings.Heading)
}

// used100 is the oil used since the last service, in 100 h too where enough hours
// were run to tell.
func (p *report) used100(f *record.Fluid) string {
	t, b := p.texts.Fluids, f.Balance
	e := b.Used
	if e == nil {
		return ""
	}
	phrase := t.Used
	volume, within := e.Volume, e.Within
	switch in100 := b.Per100(); {
	case volume < 0 && p.found(f.System, record.OilGained):
		phrase, volume = t.Gained, -volume
	case volume <= 0:
		phrase = t.UsedNone
	case in100 != nil:
		return t.UsedPer100.With("volume", volume.Hundredths(), "hours", b.Over.String(), "method", string(t.Methods.Of(b.By.String())),
			"per_100", in100.Volume.Hundredths(), "within", in100.Within.Hundredths())
	}
	return phrase.With("volume", volume.Hundredths(), "hours", b.Over.String(), "method", string(t.Methods.Of(b.By.String())), "within", within.Hundredths())
}

// ofFuel is the oil used against the fuel burnt.
func (p *report) ofFuel(f *record.Fluid) string {
	t, b := p.texts.Fluids, f.Balance
	if b.OfFuelPPM == 0 && b.PerEnergyMgKWh == 0 {
		return ""
	}
	burns := quantity.Figure{Digits: dieselBurns}
	if strings.Contains(strings.ToLower(p.r.Machine.Kind), "petrol") {
		burns.Digits = petrolBurns
	}
	share, grams := "", ""
	if b.OfFuelPPM != 0 {
		share = t.OfFuel.With("share", p.rounded(b.OfFuelPPM, 100, 2))
	}
	if b.PerEnergyMgKWh != 0 {
		grams = t.PerEnergy.With("grams", p.rounded(b.PerEnergyMgKWh, 100, 1), "burns", burns.String())
	}
	return t.Against.With("figures", sentences("; ", share, grams))
}

// rounded is a positive figure in units of 1/(by x 10^places), to so many places;
// less than half of the last of them is said to be less than one.
func (p *report) rounded(n, by int64, places uint8) string {
	t, figure := p.texts.Fluids, quantity.Figure{Digits: (n + by/2) / by, Places: places}
	phrase := t.About
	if figure.Digits == 0 {
		phrase, figure.Digits = t.LessThan, 1
	}
	return phrase.With("figure", figure.String())
}

// notExcluded says what volumes cannot tell, unless the check found that they do.
func (p *report) notExcluded(f *record.Fluid) string {
	t, e := p.texts.Fluids, f.Balance.Used
	if e == nil || p.found(f.System, record.OilGained) {
		return ""
	}
	phrase := t.NotExcludedOther
	if f.System == engineOil {
		phrase = t.NotExcluded
	}
	const tenth = quantity.Litre / 10
	limit := (quantity.Volume(beyondChance)*e.Within/10 + tenth - 1) / tenth * tenth
	return phrase.With("limit", limit.String())
}

// engineOil is the system that fuel and coolant can get into.
const engineOil = "engine-oil"
