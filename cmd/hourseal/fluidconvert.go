package main

import (
	"cmp"
	"errors"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"hourseal/record/fluid"
	"hourseal/record/quantity"
)

const unitSource = "US measures and the pound: NIST Handbook 44, Appendix C; imperial: UK Weights and Measures Act 1985"

// The units that an amount is told in where no other is asked for.
var (
	volumeUnits = []quantity.Unit{quantity.UnitLitre, quantity.UnitUSGallon, quantity.UnitUSQuart, quantity.UnitImperialGallon, quantity.UnitImperialQuart}
	massUnits   = []quantity.Unit{quantity.UnitKilogram, quantity.UnitPound}
)

// fluidConvert tells an amount in other units. From a volume to a mass and back it
// needs a density.
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
	units := slices.DeleteFunc(slices.Concat(volumeUnits, massUnits), func(u quantity.Unit) bool {
		return u == portion.Unit || density == 0 && u.IsMass() != portion.Unit.IsMass()
	})
	if c.String("to") != "" {
		to, err := wanted(c, "to", "L", unitNamed)
		if err != nil {
			return exitUsage, err
		}
		if density == 0 && to.IsMass() != portion.Unit.IsMass() {
			return exitUsage, usageError{"between a volume and a mass there is a density", `--density "880 kg/m3"`}
		}
		units = []quantity.Unit{to}
	}
	s := benchSum{Input: map[string]any{"amount": sum.String()}, Result: map[string]any{}, Source: unitSource}
	other, how, err := s.byDensity(sum, density)
	if err != nil {
		return exitUsage, badSum(err)
	}
	s.Formula = cmp.Or(strings.Join(append(definitions(portion.Unit, units), how...), ", "), "nothing to convert")
	for _, unit := range units {
		of := portion
		if unit.IsMass() != portion.Unit.IsMass() {
			of = other
		}
		// No more decimals than a millilitre or a gram makes good.
		text, ok := of.Rounded(unit, min(unit.MaxPlaces(), 3))
		if !ok {
			return exitUsage, usageError{portion.Written() + " is too much for this sum", `hourseal fluid convert "2.4 US gal"`}
		}
		s.rows = append(s.rows, []string{unit.String(), text})
		s.Result[unit.String()] = jsonNumber(text)
	}
	s.answer = degreesSign(sum.String()) + " is"
	if len(units) == 1 {
		s.answer += " " + s.rows[0][1] + " " + units[0].String() + "."
		s.rows = nil
	}
	if portion.Unit.IsMass() && density == 0 {
		s.cautions = append(s.cautions, `For litres, say the density at 15 °C: --density "880 kg/m3"`)
	}
	return p.saySum(c, s)
}

// byDensity is the one portion of a sum as a mass where it is a volume, and the other
// way about, and the formula for it; the sum says what was assumed. Without a density
// there is none.
func (s *benchSum) byDensity(sum quantity.Measured, density quantity.Density) (other quantity.Portion, formula []string, err error) {
	if density == 0 {
		return other, nil, nil
	}
	s.Input["density_kg_m3"] = int64(density)
	portion := sum.Portions[0]
	if portion.Unit.IsMass() {
		s.Assumed = append(s.Assumed, "the volume is at 15 °C, as the density is")
		return quantity.Portion{Unit: quantity.UnitMillilitre, Amount: int64(fluid.Volume(sum, density))}, []string{"volume = mass / density"}, nil
	}
	mass, err := fluid.MassOf(sum, density)
	formula = []string{"mass = volume at 15 °C x density"}
	if portion.At == nil {
		s.Assumed = append(s.Assumed, "the volume is at 15 °C, as the density is")
	} else {
		s.Source += "; to 15 °C: " + correctionSource
	}
	return quantity.Portion{Unit: quantity.UnitGram, Amount: int64(mass)}, formula, err
}

// unitNamed reads a unit of volume or mass; a bare gallon is refused as in an amount.
func unitNamed(text string) (quantity.Unit, error) {
	portion, err := quantity.ParsePortion("1 " + text)
	if err == nil && portion.At != nil {
		err = errors.New(text + ": a unit only, as L")
	}
	return portion.Unit, err
}

// definitions are what units are by law: "1 US gal = 3.785411784 L".
func definitions(own quantity.Unit, others []quantity.Unit) []string {
	var list []string
	for _, unit := range append([]quantity.Unit{own}, others...) {
		text := "1 " + unit.String() + " = " + unit.Definition()
		if unit != quantity.UnitLitre && unit != quantity.UnitKilogram && !slices.Contains(list, text) {
			list = append(list, text)
		}
	}
	return list
}
