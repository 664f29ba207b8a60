package fluid

import (
	"math"

	"hourseal/record/quantity"
)

// A refractometer has a scale for each glycol. It reads within 1 degC on the right
// one and can be 10 degC out on the other; a mixture of the two cannot be read at
// all: ASTM D3321.

// scaleFits is how far, in kelvin, a freezing point and a strength off one
// instrument may be apart on the curve: rounding and blends. Common practice, no
// source.
const scaleFits = 4.0

// WrongScale says whether a freezing point and a strength by volume, off one
// instrument, fit the other glycol within 4 K and not g. It is false where the curve
// of one of them does not reach so far.
func WrongScale(g Glycol, freezing quantity.Temperature, strength quantity.Ratio) bool {
	own, ok := g.freezesAtVolume(of(strength))
	other, otherOK := g.Other().freezesAtVolume(of(strength))
	at := inDegC(freezing)
	return ok && otherOK && math.Abs(own-at) > scaleFits && math.Abs(other-at) <= scaleFits
}

// ReadOnOther is where a coolant of g freezes, in whole degrees, if freezing was
// read off the other glycol's scale: the strength that is beside it there, by
// volume, taken for g's. This is near the truth only, as the two do not bend light
// quite alike. It reports false where the curve of one of them does not reach so far.
func ReadOnOther(g Glycol, freezing quantity.Temperature) (quantity.Temperature, bool) {
	other, err := g.Other().known()
	if err != nil {
		return 0, false
	}
	mass, err := other.massAt(freezing)
	if err != nil {
		return 0, false
	}
	degC, ok := g.freezesAtVolume(other.volumeOf(mass))
	return wholeDegrees(degC), ok
}

// freezesAtVolume is the freezing point in degC of a share by volume.
func (g Glycol) freezesAtVolume(volume float64) (float64, bool) {
	known, err := g.known()
	if err != nil || volume < 0 || volume > 1 {
		return 0, false
	}
	mass := known.massOf(volume)
	if mass > of(strongestCurve) {
		return 0, false
	}
	return known.freezesAt(mass), true
}
