package main

import (
	"fmt"
	"strconv"

	"github.com/urfave/cli/v2"

	"hourseal/record/fluid"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
	"hourseal/render/words"
)

// The sums about the volume and the level of an oil.

const correctionSource = "ASTM D1250-80 (API MPMS 11.1, IP 200), Table 54D, lubricating oils"

func (p *program) fluidCorrect(c *cli.Context) (exitCode, error) {
	density, err := densityFlag(c)
	if err != nil {
		return exitUsage, err
	}
	to, err := wanted(c, "to", "15 C", quantity.ParseTemperature)
	if err != nil {
		return exitUsage, err
	}
	sum, err := amounts(c, "10 L at 80 C")
	if err != nil {
		return exitUsage, err
	}
	s := benchSum{
		Input:   map[string]any{"amount": sum.String(), "to_c": to},
		Formula: "V x VCF(t) / VCF(to), VCF = exp(-a dT (1 + 0.8 a dT)), a = 0.6278 / density, dT = t - 15", Source: correctionSource,
	}
	s.assumedDensity(&density)
	mass, err := fluid.MassOf(sum, density)
	if err != nil {
		return exitUsage, badSum(err)
	}
	s.rows = append(s.rows, []string{"a", "0.6278 / " + strconv.Itoa(int(density)) + " = " + fluid.Expansion(density).String()})
	var total quantity.Volume
	for _, portion := range sum.Portions {
		volume, isVolume := portion.Volume()
		at := fluid.AssumedFilled.At
		switch {
		case !isVolume: // a mass has its volume at 15 degC
			volume = fluid.Volume(quantity.Measured{Portions: []quantity.Portion{portion}}, density)
		case portion.At != nil:
			at = *portion.At
		default:
			return exitUsage, usageError{portion.Written() + ": no temperature", `"` + portion.Written() + ` at 68 C"`}
		}
		factor, err := fluid.Factor5(at, density)
		if err != nil {
			return exitUsage, badSum(err)
		}
		then, err := fluid.Warmed(volume, at, to, density)
		if err != nil {
			return exitUsage, badSum(err)
		}
		total += then
		s.rows = append(s.rows, []string{portion.Written(), fmt.Sprintf("%s at %s, VCF %s: %s at %s", volume, at, factor, then, to)})
	}
	if to != fluid.AssumedFilled.At { // at 15 degC the VCF is 1
		factor, err := fluid.Factor5(to, density)
		if err != nil {
			return exitUsage, badSum(err)
		}
		s.rows = append(s.rows, []string{"at " + to.String(), "VCF " + factor.String()})
	}
	s.Result = map[string]any{"litres": total, "at_c": to, "mass_kg": mass}
	s.answer = fmt.Sprintf("%s is %s at %s, and weighs %s.", degreesSign(sum.String()), total, to, mass)
	return p.saySum(c, s)
}

// assumedDensity puts the density into a sum, and says where it was assumed.
func (s *benchSum) assumedDensity(density *quantity.Density) {
	if *density == 0 {
		*density = fluid.AssumedDensity
		s.Assumed = append(s.Assumed, "density "+density.String()+" at 15 °C; typical engine oils have 854 to 890 (trade press)")
	}
	s.Input["density_kg_m3"] = int64(*density)
	s.rows = append(s.rows, []string{"density", density.String() + " at 15 °C"})
}

func (p *program) fluidLevel(c *cli.Context) (exitCode, error) {
	system, self, err := p.levelSystem(c)
	if err != nil {
		return codeOf(err), err
	}
	left, err := wanted(c, "left", "0.3 L", quantity.ParseVolume)
	if err != nil {
		return exitUsage, err
	}
	at, err := wanted(c, "at", "45 C", quantity.ParseTemperature)
	if err != nil {
		return exitUsage, err
	}
	filled, err := amounts(c, "9.3 L at 16 C")
	if err != nil {
		return exitUsage, err
	}
	w := self.Style
	s := benchSum{
		style: w,
		Input: map[string]any{"filled": filled.String(), "left_l": left, "at_c": at, "at_upper_l": system.AtUpper, "between_marks_l": system.BetweenMarks},
		rows: [][]string{{"filled", w.Marked(degreesSign(filled.String()))}, {"old oil left in", w.Volume(left)}, {"read at", w.Marked(at.String())},
			{"at the upper mark", w.Volume(system.AtUpper)}, {"between the marks", w.Volume(system.BetweenMarks)}},
		Formula: "level = 1 + ((filled at 15 °C + left) / VCF - at upper) / between marks; 0 is the lower mark, 1 the upper",
		Source:  correctionSource + "; uncertainties: JCGM 100:2008, yard.yaml or trade judgement", cautions: []string{
			"Let the oil drain back before you read the level: 5 minutes at least (TM 55-1905-223-24-5). Put the last of it in by small amounts.", governs},
	}
	s.assumedDensity(&system.Density)
	if !c.IsSet("left") {
		s.Assumed = append(s.Assumed, "no old oil left in")
	}
	if !c.IsSet("at") {
		s.Assumed = append(s.Assumed, "the level is read at "+at.String())
	}
	if fluid.NeedsTemperature(filled) {
		s.Assumed = append(s.Assumed, fmt.Sprintf("filled at %s, give or take %s", fluid.AssumedFilled.At, fluid.AssumedFilled.Within))
	}
	level, err := fluid.LevelFor(system, self.Doubt, filled, left, at)
	if err != nil {
		return exitUsage, badSum(err)
	}
	add, over := fluid.ToUpper(system, level.Reading), fluid.OverUpper(system, level.Reading)
	s.Result = map[string]any{"level": level.Reading, "uncertainty": level.Within, "to_upper_mark_l": add, "over_upper_mark_l": over}
	s.answer = fmt.Sprintf("Level to expect: %s, give or take %s.", w.Marked(words.Hundredths(level.Reading)), w.Marked(words.Hundredths(level.Within)))
	switch {
	case level.Reading < 0:
		s.answer += " That is below the lower mark: " + w.Hundredths(add) + " more to the upper."
	case add > 0:
		s.answer += " To the upper mark: " + w.Hundredths(add) + " more."
	case over > 0:
		s.answer += " That is " + w.Hundredths(over) + " over the upper mark: nothing more goes in. Overfilled oil foams and blows out of the breather."
	default:
		s.answer += " That is at the upper mark: nothing more goes in."
	}
	return p.saySum(c, s)
}

// levelSystem is the machine's system, or the one that the flags describe, and the yard
// where one is known.
func (p *program) levelSystem(c *cli.Context) (fluid.System, jobsheet.Yard, error) {
	s, self, named, err := p.ofMachine(c)
	if err != nil {
		return fluid.System{}, self, err
	}
	if s.IsCoolant() {
		return fluid.System{}, self, usageError{"the system " + s.Name + " holds coolant, and this sum is for oil", `hourseal fluid coolant --holds "11.5 L" --reads "-18 C" --want "-25 C"`}
	}
	system := fluid.System{AtUpper: s.AtUpper, BetweenMarks: s.BetweenMarks, Density: s.Density}
	if !named || c.String("at-upper") != "" {
		if system.AtUpper, err = wanted(c, "at-upper", "10 L", quantity.ParseVolume); err != nil {
			return system, self, err
		}
	}
	if !named || c.String("between-marks") != "" {
		if system.BetweenMarks, err = wanted(c, "between-marks", "1.6 L", quantity.ParseVolume); err != nil {
			return system, self, err
		}
	}
	if system.AtUpper == 0 || system.BetweenMarks == 0 {
		return system, self, usageError{"the machine file has no at_upper and between_marks for " + s.Name, `--at-upper "10 L" --between-marks "1.6 L"`}
	}
	if c.String("density") != "" {
		system.Density, err = densityFlag(c)
	}
	return system, self, err
}
