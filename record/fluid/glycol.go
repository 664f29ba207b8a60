package fluid

import (
	"fmt"
	"math"

	"hourseal/record/quantity"
)

// Glycol is what keeps a coolant from freezing. The zero value says that it is not
// known which.
type Glycol uint8

// The glycols that coolants are made with.
const (
	Ethylene Glycol = iota + 1
	Propylene
)

// glycol is what is known of one.
type glycol struct {
	name     string
	density  float64    // kg/m3 at 20 degC
	middle   float64    // per cent by mass that the freezing curve is written about
	freezing [6]float64 // degC, coefficients of (x - middle)^0 to ^5, x in per cent by mass
}

// glycols has the freezing curves of Melinder (2010), Properties of Secondary
// Working Fluids, 2nd edition, IIR; open libraries that carry them agree. The
// densities, and water's, are handbook values (CRC, from memory).
var glycols = map[Glycol]glycol{
	Ethylene: {
		name: "ethylene", density: 1113.5, middle: 30.8462,
		freezing: [6]float64{-15.25, -0.808, -0.01334, -7.293e-5, 1.006e-6, 1.14e-9},
	},
	Propylene: {
		name: "propylene", density: 1036.1, middle: 30.7031,
		freezing: [6]float64{-13.25, -0.6631, -0.01094, -2.283e-4, -3.409e-6, 1.465e-8},
	},
}

const waterDensity = 998.2 // kg/m3 at 20 degC

// String is "ethylene" or "propylene".
func (g Glycol) String() string {
	if known, ok := glycols[g]; ok {
		return known.name
	}
	return fmt.Sprintf("unknown (%d)", uint8(g))
}

// GlycolNamed finds a glycol by its word in a machine file or on a job sheet.
func GlycolNamed(name string) (Glycol, bool) {
	for _, g := range []Glycol{Ethylene, Propylene} {
		if g.String() == name {
			return g, true
		}
	}
	return 0, false
}

// Other is propylene for ethylene and the other way about; 0 for neither.
func (g Glycol) Other() Glycol {
	switch g {
	case Ethylene:
		return Propylene
	case Propylene:
		return Ethylene
	}
	return 0
}

// known refuses a glycol that is neither.
func (g Glycol) known() (glycol, error) {
	if known, ok := glycols[g]; ok {
		return known, nil
	}
	return glycol{}, fmt.Errorf("glycol %v: write ethylene or propylene", g)
}

// MassShare is the share of glycol by mass in a coolant that has volumeShare of it
// by volume, both measured apart at 20 degC before they are mixed: v dg / (v dg +
// (1 - v) dw), to 1/1000. That the mixture takes up a little less room than its
// parts is left out.
func MassShare(g Glycol, volumeShare quantity.Ratio) (quantity.Ratio, error) {
	known, err := g.ofShare("by volume", volumeShare)
	if err != nil {
		return 0, err
	}
	return toRatio(known.massOf(of(volumeShare))), nil
}

// VolumeShare is MassShare the other way about, with the same limits.
func VolumeShare(g Glycol, massShare quantity.Ratio) (quantity.Ratio, error) {
	known, err := g.ofShare("by mass", massShare)
	if err != nil {
		return 0, err
	}
	return toRatio(known.volumeOf(of(massShare))), nil
}

// ofShare refuses a glycol that is neither and a share that is none of a whole.
func (g Glycol) ofShare(by string, share quantity.Ratio) (glycol, error) {
	if share < 0 || share > quantity.One {
		return glycol{}, fmt.Errorf("strength %s %s: write it from 0 %% to 100 %%", share.Percent(), by)
	}
	return g.known()
}

func (g glycol) massOf(volume float64) float64 {
	return volume * g.density / (volume*g.density + (1-volume)*waterDensity)
}

func (g glycol) volumeOf(mass float64) float64 {
	return mass * waterDensity / (mass*waterDensity + (1-mass)*g.density)
}

func toRatio(share float64) quantity.Ratio {
	return quantity.Ratio(math.Round(share * float64(quantity.One)))
}
