package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/urfave/cli/v2"

	"hourseal/record/fluid"
	"hourseal/record/quantity"
)

// fluidCoolant works out a partial drain and refill.
func (p *program) fluidCoolant(c *cli.Context) (exitCode, error) {
	if err := noNames(c, "holds"); err != nil {
		return exitUsage, err
	}
	glycol, ok := fluid.GlycolNamed(c.String("glycol"))
	if !ok {
		return exitUsage, usageError{"--glycol: " + c.String("glycol") + " is none that we know", "--glycol ethylene, or --glycol propylene"}
	}
	holds, err := wanted(c, "holds", "11.5 L", quantity.ParseVolume)
	if err != nil {
		return exitUsage, err
	}
	now, err := wanted(c, "reads", "-18 C", readStrength(glycol))
	if err != nil {
		return exitUsage, err
	}
	want, err := wanted(c, "want", "-25 C", wantedStrength(glycol))
	if err != nil {
		return exitUsage, err
	}
	added, err := wanted(c, "add", "100 %", addedStrength)
	if err != nil {
		return exitUsage, err
	}
	refill, err := fluid.RefillByJug(holds, now.byVolume, want.byVolume, added)
	if err != nil {
		return exitUsage, usageError{err.Error(), betterAdded(now.byVolume, want.byVolume, added)}
	}
	s := benchSum{
		Input: map[string]any{"glycol": glycol.String(), "holds_l": holds, "reads": c.String("reads"), "want": c.String("want"), "added_percent": wholePercent(added)},
		Result: map[string]any{"drain_l": refill.Drain, "add_l": refill.Add,
			"strength_now_percent": wholePercent(now.byVolume), "strength_wanted_percent": wholePercent(want.byVolume), "strength_after_percent": wholePercent(refill.Strength),
			"freezing_now_c": freezingNumber(glycol, now.byVolume), "freezing_after_c": freezingNumber(glycol, refill.Strength),
			"freezing_after_by_table_c": nil, "freezing_now_on_other_scale_c": nil,
			"too_strong": max(now.byVolume, refill.Strength) > fluid.StrongestShare},
		Formula: "drain = holds x (wanted - now) / (added - now), by volume, well mixed",
		Source:  "mass balance; freezing points: Melinder 2010, Properties of Secondary Working Fluids, IIR",
		rows: [][]string{
			{"holds", holds.String()},
			{"now", strengthText(glycol, now.byVolume)},
			{"wanted", want.byVolume.Whole().Percent() + " by volume"},
			{"added", addedText(added)},
			{"after", strengthText(glycol, refill.Strength)}},
		cautions: []string{
			"Never open a hot pressure cap. Glycol is poison to people and animals; used coolant goes to a receiver, not down a drain.",
			"Let it mix by a run, then read again. A mixture of the two glycols cannot be read by a refractometer (ASTM D3321).", governs},
	}
	if !c.IsSet("glycol") {
		s.Assumed = append(s.Assumed, glycol.String()+" glycol")
	}
	if !c.IsSet("add") {
		s.Assumed = append(s.Assumed, "neat glycol is added")
	}
	s.warnStrength(glycol, now, want, refill.Strength)
	s.answer = fmt.Sprintf("Drain %s, and fill up with %s of %s.", inTenths(refill.Drain), inTenths(refill.Add), addedText(added))
	if refill.Drain == 0 {
		s.answer = "Nothing to drain: it is there already."
	}
	return p.saySum(c, s)
}

// warnStrength adds what to beware of: the careful table, the other glycol's scale,
// too much glycol.
func (s *benchSum) warnStrength(glycol fluid.Glycol, now, want coolantReading, after quantity.Ratio) {
	if careful, ok := fluid.ArmyFreezingPoint(after); ok && glycol == fluid.Ethylene {
		text := fmt.Sprintf("%s by TM 9-6115-464-12, Table 2-1", careful)
		if want.freezing != nil && careful > *want.freezing {
			text += ", which is short of the " + want.freezing.String() + " wanted"
		}
		s.Result["freezing_after_by_table_c"] = wholeDegrees(careful)
		s.rows = append(s.rows, []string{"careful side", text})
	}
	if now.freezing != nil {
		if other, ok := fluid.ReadOnOther(glycol, *now.freezing); ok {
			s.Result["freezing_now_on_other_scale_c"] = wholeDegrees(other)
			s.rows = append(s.rows, []string{"wrong scale?", fmt.Sprintf("if %s was read on the scale for %s, this %s freezes at about %s: look which scale it was",
				now.freezing, glycol.Other(), glycol, other)})
		}
	}
	if max(now.byVolume, after) > fluid.StrongestShare {
		s.rows = append(s.rows, []string{"too strong", "over 60 % by volume protects less, not more (TM 9-6115-464-12, Table 2-1)"})
	}
}

// coolantReading is a strength, and the freezing point that it was written as, if it
// was.
type coolantReading struct {
	byVolume quantity.Ratio
	freezing *quantity.Temperature
}

// readStrength reads what an instrument gave, which may be that of plain water.
func readStrength(glycol fluid.Glycol) func(string) (coolantReading, error) {
	return coolantStrength(func(freezing quantity.Temperature) (quantity.Ratio, error) {
		share, err := fluid.ReadStrength(glycol, freezing)
		if errors.Is(err, fluid.ErrNoGlycol) && freezing == 0 {
			return 0, nil
		}
		return share, err
	})
}

// wantedStrength reads what it has to protect to, or a strength.
func wantedStrength(glycol fluid.Glycol) func(string) (coolantReading, error) {
	return coolantStrength(func(freezing quantity.Temperature) (quantity.Ratio, error) {
		share, err := fluid.StrengthFor(glycol, freezing)
		switch {
		case errors.Is(err, fluid.ErrTooStrong):
			err = fmt.Errorf("no %v glycol protects to %v: the curve ends at 60 %% by mass: write a warmer freezing point", glycol, freezing)
		case errors.Is(err, fluid.ErrNoGlycol):
			err = errors.New("water alone does that: write a freezing point below 0 °C, as -25 C")
		}
		return share, err
	})
}

func coolantStrength(of func(quantity.Temperature) (quantity.Ratio, error)) func(string) (coolantReading, error) {
	return func(text string) (coolantReading, error) {
		if strings.HasSuffix(strings.TrimSpace(text), "%") {
			share, err := shareOfGlycol(text)
			return coolantReading{share, nil}, err
		}
		freezing, err := quantity.ParseTemperature(text)
		if err != nil {
			return coolantReading{}, err
		}
		share, err := of(freezing)
		return coolantReading{share, &freezing}, err
	}
}

func addedStrength(text string) (quantity.Ratio, error) {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "neat":
		return quantity.One, nil
	case "water":
		return 0, nil
	}
	return shareOfGlycol(text)
}

func shareOfGlycol(text string) (quantity.Ratio, error) {
	share, err := quantity.ParsePercent(text)
	if err == nil && share > quantity.One {
		err = errors.New(share.Percent() + ": write the strength from 0 % to 100 %, by volume")
	}
	return share, err
}

// betterAdded is what to add where what was to be added leads the wrong way.
func betterAdded(now, want, added quantity.Ratio) string {
	switch {
	case want > now && added < want:
		return `--add "100 %"`
	case want < now && added > want:
		return `--add "0 %"`
	}
	return ""
}

func addedText(added quantity.Ratio) string {
	switch added {
	case 0:
		return "water"
	case quantity.One:
		return "neat glycol"
	}
	return added.Percent() + " coolant"
}

// strengthText is a strength in whole per cents, and where it freezes.
func strengthText(glycol fluid.Glycol, byVolume quantity.Ratio) string {
	if byVolume == 0 {
		return "plain water: freezes at 0 °C"
	}
	text := byVolume.Whole().Percent() + " " + glycol.String() + " by volume"
	freezing, mass, err := fluid.CoolantFreezing(glycol, byVolume)
	if err != nil {
		return text + ": where it freezes is not known, the curve ends at 60 % by mass"
	}
	return text + fmt.Sprintf(", %s by mass: freezes at about %s", mass.Percent(), freezing)
}

// freezingNumber is where a strength freezes, null where that is not known.
func freezingNumber(glycol fluid.Glycol, byVolume quantity.Ratio) any {
	freezing, _, err := fluid.CoolantFreezing(glycol, byVolume)
	if err != nil {
		return nil
	}
	return wholeDegrees(freezing)
}

// inTenths prints tenths of a litre, "3.0 L"; all of a system that holds no whole
// number of them as it is.
func inTenths(v quantity.Volume) string {
	const tenth = quantity.Litre / 10
	if v%tenth != 0 {
		return v.String()
	}
	return quantity.Figure{Digits: int64(v / tenth), Places: 1}.String() + " L"
}
