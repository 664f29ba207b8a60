package fluid

import (
	"errors"
	"fmt"
	"math"

	"hourseal/record/quantity"
)

// strongestCurve is where Melinder's curves end, by mass.
const strongestCurve quantity.Ratio = 600

// StrongestShare, by volume, protects most; stronger than that, a coolant freezes
// sooner again. Inhibited ethylene glycol: TM 9-6115-464-12 / NAVFAC P-8-624-12,
// Table 2-1.
const StrongestShare quantity.Ratio = 600

var (
	// ErrTooStrong is what a freezing point below the end of the curve says.
	ErrTooStrong = errors.New("stronger than 60 % by mass, or read off the wrong scale: read it again on the scale of the glycol that is in")
	// ErrNoGlycol is what a freezing point of 0 degC or more says.
	ErrNoGlycol = errors.New("plain water freezes at 0 °C: there is no glycol in, or it was read wrongly: write the freezing point below 0 °C, as -27 C")
)

// FreezingPoint is where ice begins to form in a coolant with massShare of glycol,
// in whole degrees, half towards warm: tenths would be false. Melinder (2010), see
// glycols; for 0 to 60 % by mass, and what is beyond is refused.
func FreezingPoint(g Glycol, massShare quantity.Ratio) (quantity.Temperature, error) {
	known, err := g.known()
	if err != nil {
		return 0, err
	}
	if massShare < 0 || massShare > strongestCurve {
		return 0, fmt.Errorf("strength %s by mass: the freezing point is known from 0 %% to %s: write a strength within that", massShare.Percent(), strongestCurve.Percent())
	}
	return wholeDegrees(known.freezesAt(of(massShare))), nil
}

// freezesAt is the freezing point in degC of a share by mass.
func (g glycol) freezesAt(mass float64) float64 {
	x := mass*100 - g.middle
	sum := 0.0
	for i := len(g.freezing) - 1; i >= 0; i-- {
		sum = sum*x + g.freezing[i]
	}
	return sum
}

// wholeDegrees rounds half towards warm.
func wholeDegrees(degC float64) quantity.Temperature {
	return quantity.Temperature(math.Floor(degC+0.5)) * quantity.Degree
}

// StrengthOf is the share of glycol by volume in a coolant that freezes at freezing,
// to whole per cents: FreezingPoint the other way about. It refuses with ErrNoGlycol
// and ErrTooStrong.
func StrengthOf(g Glycol, freezing quantity.Temperature) (byVolume quantity.Ratio, err error) {
	known, err := g.known()
	if err != nil {
		return 0, err
	}
	mass, err := known.massAt(freezing)
	if err != nil {
		return 0, fmt.Errorf("freezing point %v of %v glycol: %w", freezing, g, err)
	}
	// In one step: rounded to 1/1000 first, 1.46 % would become 2 %.
	return quantity.Ratio(math.Round(known.volumeOf(mass)*100)) * (quantity.One / 100), nil
}

// massAt is the share by mass that freezes at freezing, found by halving: the curve
// falls all the way from 0 to 60 %.
func (g glycol) massAt(freezing quantity.Temperature) (float64, error) {
	wanted := inDegC(freezing)
	low, high := 0.0, of(strongestCurve)
	switch {
	case freezing >= 0:
		return 0, ErrNoGlycol
	case wanted < g.freezesAt(high):
		return 0, ErrTooStrong
	}
	const halvings = 40 // to less than 1e-12, far below a degree
	for range halvings {
		if middle := (low + high) / 2; g.freezesAt(middle) > wanted {
			low = middle
		} else {
			high = middle
		}
	}
	return high, nil
}

func inDegC(t quantity.Temperature) float64 { return float64(t) / float64(quantity.Degree) }
