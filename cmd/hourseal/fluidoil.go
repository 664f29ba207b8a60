package main

import (
	"fmt"
	"strings"

	"github.com/urfave/cli/v2"

	"hourseal/record/fluid"
	"hourseal/record/quantity"
	"hourseal/render/words"
)

// The sums about amounts and levels of oil.

const (
	unitSource       = "US measures: NIST Handbook 44, Appendix C; imperial: UK Weights and Measures Act 1985"
	correctionSource = "ASTM D1250-80 (API MPMS 11.1, IP 200), Table 54D, lubricating oils"
)

func (p *program) fluidConvert(c *cli.Context) (exitCode, error) {
	density, err := densityFlag(c)
	if err != nil {
		return exitUsage, err
	}
	sum, err := amounts(c, "2.4 US gal")
	if err != nil {
		return exitUsage, err
	}
	if len(sum.Portions) != 1 {
		return exitUsage, usageError{"more than one amount", `hourseal fluid convert "2.4 US gal"`}
	}
	portion := sum.Portions[0]
	s := benchSum{
		Input: map[string]any{"amount": portion.Written()}, Result: map[string]any{},
		Formula: definitions(quantity.UnitUSGallon, quantity.UnitImperialGallon), Source: unitSource,
	}
	volumes := []quantity.Unit{quantity.UnitLitre, quantity.UnitUSGallon, quantity.UnitUSQuart, quantity.UnitImperialGallon, quantity.UnitImperialQuart}
	masses := []quantity.Unit{quantity.UnitKilogram, quantity.UnitPound}
	own, other := volumes, masses
	// The other kind, by the density where one is given.
	converted := quantity.Portion{Unit: quantity.UnitGram}
	if portion.Unit.IsMass() {
		own, other = masses, volumes
		s.Formula = definitions(quantity.UnitPound)
		converted = quantity.Portion{Unit: quantity.UnitMillilitre, Amount: int64(fluid.Volume(sum, density))}
	} else if density != 0 {
		converted.Amount = int64(fluid.Mass(quantity.Volume(portion.Amount), density))
	}
	add := func(of quantity.Portion, units []quantity.Unit) {
		for _, unit := range units {
			if text, ok := of.Rounded(unit, 3); ok && unit != portion.Unit {
				s.rows = append(s.rows, []string{unit.String(), text})
				s.Result[unit.String()] = jsonNumber(text)
			}
		}
	}
	add(portion, own)
	if density != 0 {
		s.Input["density_kg_m3"] = int64(density)
		s.Formula += "; volume = mass / density"
		add(converted, other)
	}
	s.answer = portion.Written() + " is"
	return p.saySum(c, s)
}

// definitions are what the units are by law, "1 US gal = 3.785411784 L".
func definitions(units ...quantity.Unit) string {
	var list []string
	for _, unit := range units {
		list = append(list, "1 "+unit.String()+" = "+unit.Definition())
	}
	return strings.Join(list, ", ")
}

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
	s.Result = map[string]any{"litres": total, "at_c": to}
	s.answer = fmt.Sprintf("%s is %s at %s.", degreesSign(sum.String()), total, to)
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
	system, doubt, err := p.levelSystem(c)
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
	s := benchSum{
		Input: map[string]any{"filled": filled.String(), "left_l": left, "at_c": at, "at_upper_l": system.AtUpper, "between_marks_l": system.BetweenMarks},
		rows: [][]string{{"filled", degreesSign(filled.String())}, {"old oil left in", left.String()}, {"read at", at.String()},
			{"at the upper mark", system.AtUpper.String()}, {"between the marks", system.BetweenMarks.String()}},
		Formula: "level = 1 + ((filled at 15 °C + left) / VCF - at upper) / between marks; 0 is the lower mark, 1 the upper",
		Source:  correctionSource + "; uncertainties: JCGM 100:2008, yard.yaml or trade judgement", cautions: []string{governs},
	}
	s.assumedDensity(&system.Density)
	if fluid.NeedsTemperature(filled) {
		s.Assumed = append(s.Assumed, fmt.Sprintf("filled at %s, give or take %s", fluid.AssumedFilled.At, fluid.AssumedFilled.Within))
	}
	level, err := fluid.LevelFor(system, doubt, filled, left, at)
	if err != nil {
		return exitUsage, badSum(err)
	}
	add := fluid.ToUpper(system, level.Reading)
	s.Result = map[string]any{"level": level.Reading, "uncertainty": level.Within, "to_upper_mark_l": add}
	s.answer = fmt.Sprintf("Level to expect: %s, give or take %s.", words.Hundredths(level.Reading), words.Hundredths(level.Within))
	if add > 0 {
		s.answer += " To the upper mark: " + add.Hundredths() + " more."
	} else {
		s.answer += " That is at the upper mark or above: nothing more goes in."
	}
	return p.saySum(c, s)
}

// levelSystem is the machine's system, or the one that the flags describe.
func (p *program) levelSystem(c *cli.Context) (fluid.System, fluid.Doubt, error) {
	s, doubt, named, err := p.ofMachine(c)
	if err != nil {
		return fluid.System{}, doubt, err
	}
	system := fluid.System{AtUpper: s.AtUpper, BetweenMarks: s.BetweenMarks, Density: s.Density}
	if !named || c.String("at-upper") != "" {
		if system.AtUpper, err = wanted(c, "at-upper", "10 L", quantity.ParseVolume); err != nil {
			return system, doubt, err
		}
	}
	if !named || c.String("between-marks") != "" {
		if system.BetweenMarks, err = wanted(c, "between-marks", "1.6 L", quantity.ParseVolume); err != nil {
			return system, doubt, err
		}
	}
	if c.String("density") != "" {
		system.Density, err = densityFlag(c)
	}
	return system, doubt, err
}

func (p *program) fluidSuits(c *cli.Context) (exitCode, error) {
	s, _, named, err := p.ofMachine(c)
	if err != nil {
		return codeOf(err), err
	}
	if c.String("oil") == "" {
		return exitUsage, usageError{"--oil is needed", `--oil "API CK-4, 15W-40"`}
	}
	meets, grades := marksAndGrades(c.String("oil"))
	askedMeets, askedGrades := s.Meets, s.Viscosity
	if !named {
		if c.String("asked") == "" {
			return exitUsage, usageError{"--asked or --machine is needed", `--asked "API CI-4, ACEA E7, 15W-40"`}
		}
		askedMeets, askedGrades = marksAndGrades(c.String("asked"))
	}
	sum := benchSum{
		Input:    map[string]any{"oil": c.String("oil"), "asked": append(append([]string{}, askedMeets...), askedGrades...)},
		Formula:  "any one of the marks asked for, and any one of the grades; another by the table only",
		Source:   "API Motor Oil Guide; ACEA 2022; SAE J300-2015; SAE J306-2005",
		cautions: []string{governs},
	}
	suits := true
	judge := func(what string, asked []string, found string, got fluid.Suitability) {
		if len(asked) == 0 {
			return
		}
		text := ""
		switch {
		case got.Suits && got.Direct:
			text = got.Have + " is asked for"
		case got.Suits:
			text = got.Have + " for " + got.Asked + ": " + got.Why
		case found == "":
			text, suits = "not stated; asked: "+strings.Join(asked, " or "), false
		default:
			text, suits = found+" does not answer "+strings.Join(asked, " or "), false
			if got.Why != "" {
				text += ": " + got.Why
			}
		}
		sum.rows = append(sum.rows, []string{what, text})
	}
	judge("marks", askedMeets, strings.Join(meets, ", "), fluid.Suits(meets, askedMeets))
	judge("grade", askedGrades, strings.Join(grades, ", "), bestGrade(grades, askedGrades))
	if len(askedMeets)+len(askedGrades) == 0 {
		return exitUsage, usageError{"nothing is asked for: the machine file names no meets and no viscosity", `--asked "API CI-4, 15W-40"`}
	}
	sum.Result = map[string]any{"suits": suits}
	sum.answer = "It suits, by the tables."
	if !suits {
		sum.answer = "By the tables it does not suit."
	}
	if code, err := p.saySum(c, sum); err != nil || suits {
		return code, err
	}
	return exitDecide, nil
}

// marksAndGrades parts a list with commas: what is a grade of SAE J300 or J306, and
// the rest.
func marksAndGrades(list string) (marks, grades []string) {
	for part := range strings.SplitSeq(list, ",") {
		part = strings.TrimSpace(part)
		if _, _, _, isGrade := fluid.KinematicRange(part); isGrade {
			grades = append(grades, part)
		} else if part != "" {
			marks = append(marks, part)
		}
	}
	return marks, grades
}

// bestGrade is what the tables say of the grades on a container, of which there is
// one as a rule.
func bestGrade(grades, asked []string) fluid.Suitability {
	var answer fluid.Suitability
	for i, grade := range grades {
		if got := fluid.Viscosity(grade, asked); i == 0 || got.Suits && !answer.Suits {
			answer = got
		}
	}
	return answer
}
