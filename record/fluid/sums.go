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

// ToUpper is how much more oil brings a level to the upper mark, at the level's
// temperature, to 1 mL; 0 for a level at or above it.
func ToUpper(s System, level quantity.Ratio) quantity.Volume {
	short := quantity.One - level
	if short <= 0 {
		return 0
	}
	return quantity.Volume(math.Round(float64(s.BetweenMarks) * of(short)))
}

// RefillByJug is RefillFor with what is drained rounded up to a tenth of a litre, but to
// no more than the system holds.
func RefillByJug(holds quantity.Volume, now, target, added quantity.Ratio) (Refill, error) {
	r, err := RefillFor(holds, now, target, added)
	if err != nil {
		return Refill{}, err
	}
	const tenth = quantity.Litre / 10
	r.Drain = min((r.Drain+tenth-1)/tenth*tenth, holds)
	r.Add = r.Drain
	r.Strength, err = StrengthAfter(holds, r.Drain, now, added)
	return r, err
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
