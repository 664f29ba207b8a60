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
	glycol, ok := fluid.GlycolNamed(c.String("glycol"))
	if !ok {
		return exitUsage, usageError{"--glycol: " + c.String("glycol") + " is none that we know", "--glycol ethylene, or --glycol propylene"}
	}
	holds, err := wanted(c, "holds", "11.5 L", quantity.ParseVolume)
	if err != nil {
		return exitUsage, err
	}
	now, err := wanted(c, "reads", "-18 C", strengthOf(glycol, true))
	if err != nil {
		return exitUsage, err
	}
	want, err := wanted(c, "want", "-25 C", strengthOf(glycol, false))
	if err != nil {
		return exitUsage, err
	}
	added, err := wanted(c, "add", "100 %", quantity.ParsePercent)
	if err != nil {
		return exitUsage, err
	}
	refill, err := fluid.RefillByJug(holds, now, want, added)
	if err != nil {
		return exitUsage, badSum(err)
	}
	drain, after := refill.Drain, refill.Strength
	s := benchSum{
		Input: map[string]any{"glycol": glycol.String(), "holds_l": holds, "reads": c.String("reads"), "want": c.String("want"), "added_percent": percentNumber(added)},
		Result: map[string]any{"drain_l": drain, "add_l": drain, "strength_now_percent": percentNumber(now.Whole()),
			"strength_after_percent": percentNumber(after.Whole()), "freezing_after_c": nil},
		Formula: "drain = holds x (wanted - now) / (added - now), by volume, once mixed",
		Source:  "mass balance; freezing points: Melinder 2010, Properties of Secondary Working Fluids, IIR",
		cautions: []string{
			"Never open a hot pressure cap. Glycol is poison to people and animals; used coolant goes to a receiver, not down a drain.",
			"Let it mix by a run, then read again. A mixture of the two glycols cannot be read by a refractometer (ASTM D3321).", governs},
	}
	what := map[quantity.Ratio]string{0: "water", quantity.One: "neat glycol"}[added]
	if what == "" {
		what = added.Percent() + " coolant"
	}
	s.rows = [][]string{{"now", strengthText(glycol, now)}, {"after", strengthText(glycol, after)}}
	if freezing, _, err := fluid.CoolantFreezing(glycol, after); err == nil {
		s.Result["freezing_after_c"] = freezing
	}
	if careful, ok := fluid.ArmyFreezingPoint(after); ok && glycol == fluid.Ethylene {
		s.rows = append(s.rows, []string{"on the careful side", fmt.Sprintf("%s by TM 9-6115-464-12, Table 2-1", careful)})
	}
	if want > fluid.StrongestShare || after > fluid.StrongestShare {
		s.rows = append(s.rows, []string{"too strong", "over 60 % by volume protects less"})
	}
	s.answer = fmt.Sprintf("Drain %s, and fill up with %s of %s.", tenthOfLitre(drain), tenthOfLitre(drain), what)
	if drain == 0 {
		s.answer = "Nothing to drain: it is there already."
	}
	return p.saySum(c, s)
}

// strengthOf reads a strength by volume, or a freezing point that stands for one. A
// reading may be of plain water, a wish may not.
func strengthOf(glycol fluid.Glycol, reading bool) func(string) (quantity.Ratio, error) {
	return func(text string) (quantity.Ratio, error) {
		if strings.HasSuffix(strings.TrimSpace(text), "%") {
			return quantity.ParsePercent(text)
		}
		freezing, err := quantity.ParseTemperature(text)
		if err != nil {
			return 0, err
		}
		share, err := fluid.StrengthOf(glycol, freezing)
		if errors.Is(err, fluid.ErrNoGlycol) && freezing == 0 && reading {
			return 0, nil
		}
		return share, err
	}
}

// strengthText is a strength in whole per cents, and where it freezes.
func strengthText(glycol fluid.Glycol, byVolume quantity.Ratio) string {
	text := byVolume.Whole().Percent() + " " + glycol.String() + " by volume"
	if freezing, mass, err := fluid.CoolantFreezing(glycol, byVolume); err == nil {
		text += fmt.Sprintf(", %s by mass: freezes at about %s", mass.Percent(), freezing)
	}
	return text
}

func tenthOfLitre(v quantity.Volume) string {
	return quantity.Figure{Digits: int64((v + 50) / 100), Places: 1}.String() + " L"
}
