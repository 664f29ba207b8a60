package fluid

import (
	"fmt"
	"math"

	"hourseal/record/quantity"
)

// Factor5 is the VCF of Table 54D for an oil of density d at 15 degC (0:
// AssumedDensity) at t, to five decimals, as the table is printed.
func Factor5(t quantity.Temperature, d quantity.Density) (quantity.Figure, error) {
	vcf, err := correction(0, t, d)
	if err != nil {
		return quantity.Figure{}, err
	}
	const places = 5
	return quantity.Figure{Digits: int64(math.Round(vcf * 1e5)), Places: places}, nil
}

// Warmed is the volume at to of the oil that takes up v at from: At15, then From15.
func Warmed(v quantity.Volume, from, to quantity.Temperature, d quantity.Density) (quantity.Volume, error) {
	at15, err := correction(v, from, d)
	if err != nil {
		return 0, err
	}
	then, err := correction(v, to, d)
	if err != nil {
		return 0, err
	}
	return quantity.Volume(math.Round(float64(v) * at15 / then)), nil
}

// Expansion is alpha of Table 54D for an oil of density d at 15 degC (0:
// AssumedDensity), a kelvin, to seven decimals.
func Expansion(d quantity.Density) quantity.Figure {
	return quantity.Figure{Digits: int64(math.Round(expansion / float64(densityOr(d)) * 1e7)), Places: 7}
}

// MassOf is what an amount weighs, masses as they are, and volumes at 15 degC by
// their temperature; a volume without one is taken as it stands. The density at 15
// degC is d, 0 for AssumedDensity.
func MassOf(m quantity.Measured, d quantity.Density) (quantity.Mass, error) {
	var total quantity.Mass
	for _, p := range m.Portions {
		if mass, ok := p.Mass(); ok {
			total += mass
			continue
		}
		v, _ := p.Volume()
		if p.At != nil {
			var err error
			if v, err = At15(v, *p.At, d); err != nil {
				return 0, err
			}
		}
		total += Mass(v, d)
	}
	return total, nil
}

// ToUpper is how much more oil brings a level to the upper mark, at the level's
// temperature, to 1 mL; 0 for a level at or above it.
func ToUpper(s System, level quantity.Ratio) quantity.Volume {
	return between(s, quantity.One-level)
}

// OverUpper is how much oil is above the upper mark, as ToUpper has it for what is
// short of it.
func OverUpper(s System, level quantity.Ratio) quantity.Volume {
	return between(s, level-quantity.One)
}

func between(s System, share quantity.Ratio) quantity.Volume {
	if share <= 0 {
		return 0
	}
	return quantity.Volume(math.Round(float64(s.BetweenMarks) * of(share)))
}

// RefillByJug is RefillFor with what is drained in tenths of a litre, to no more than
// the system holds: rounded up where the coolant gets stronger, down where it gets
// weaker, so that it is not left weaker than the target.
func RefillByJug(holds quantity.Volume, now, target, added quantity.Ratio) (Refill, error) {
	r, err := RefillFor(holds, now, target, added)
	if err != nil {
		return Refill{}, err
	}
	const tenth = quantity.Litre / 10
	if target < now && r.Drain < holds {
		r.Drain = r.Drain / tenth * tenth
		// RefillFor has rounded up already, to 10 mL.
		if reached, err := StrengthAfter(holds, r.Drain, now, added); err == nil && reached < target {
			r.Drain -= tenth
		}
	} else {
		r.Drain = min((r.Drain+tenth-1)/tenth*tenth, holds)
	}
	r.Add = r.Drain
	r.Strength, err = StrengthAfter(holds, r.Drain, now, added)
	return r, err
}

// StrengthFor is the least strength by volume, in whole per cents, that protects to a
// temperature: StrengthOf, and one more where that is a degree short of it. It
// refuses as StrengthOf does.
func StrengthFor(g Glycol, protect quantity.Temperature) (quantity.Ratio, error) {
	share, err := StrengthOf(g, protect)
	if err != nil {
		return 0, err
	}
	if freezing, ok := g.freezesAtVolume(of(share)); ok && freezing > inDegC(protect) {
		share += quantity.One / 100
	}
	return share, nil
}

// ReadStrength is StrengthOf for a sum: to 1/1000, rounded down, so that what is
// worked out from it is never weaker than it says.
func ReadStrength(g Glycol, freezing quantity.Temperature) (quantity.Ratio, error) {
	known, err := g.known()
	if err != nil {
		return 0, err
	}
	mass, err := known.massAt(freezing)
	if err != nil {
		return 0, fmt.Errorf("freezing point %v of %v glycol: %w", freezing, g, err)
	}
	return quantity.Ratio(math.Floor(known.volumeOf(mass) * float64(quantity.One))), nil
}

// Strengthen is how much of a coolant that freezes at reads is drained, in tenths of
// a litre, and made up with neat glycol, for it to protect to a temperature: never
// less than that takes. It refuses as StrengthOf does.
func Strengthen(g Glycol, holds quantity.Volume, reads, protect quantity.Temperature) (Refill, error) {
	now, err := ReadStrength(g, reads)
	if err != nil {
		return Refill{}, err
	}
	target, err := StrengthFor(g, protect)
	if err != nil {
		return Refill{}, err
	}
	return RefillByJug(holds, now, target, quantity.One)
}

// CoolantFreezing is the freezing point of a strength by volume, in whole degrees, and
// the strength by mass in whole per cents.
func CoolantFreezing(g Glycol, byVolume quantity.Ratio) (quantity.Temperature, quantity.Ratio, error) {
	mass, err := MassShare(g, byVolume)
	if err != nil {
		return 0, 0, err
	}
	freezing, err := FreezingPoint(g, mass)
	if err != nil {
		return 0, 0, fmt.Errorf("%s by volume: %w", byVolume.Percent(), err)
	}
	return freezing, mass.Whole(), nil
}

// Mass is what a volume at 15 degC weighs, in g, half up; the density is 0 for
// AssumedDensity.
func Mass(v quantity.Volume, d quantity.Density) quantity.Mass {
	return quantity.Mass((int64(v)*int64(densityOr(d)) + 500) / 1000)
}
