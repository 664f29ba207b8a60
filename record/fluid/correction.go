package fluid

import (
	"errors"
	"fmt"
	"math"

	"hourseal/record/quantity"
)

// Lubricating oil takes up more room when it is warm. Its volumes are compared at
// 15 degC by ASTM D1250-80 (API MPMS 11.1, IP 200), Table 54D: an oil of density
// d at 15 degC (kg/m3) that takes up a volume V at t degC takes up V x VCF at 15,
//
//	VCF = exp(-alpha dT (1 + 0.8 alpha dT)), alpha = 0.6278/d, dT = t - 15
//
// It is for oils of 800 to 1164 kg/m3, and -20 to 150 degC (the temperatures from
// memory). Coolants do not follow it.
const expansion = 0.6278

const (
	correctionBase = 15 * quantity.Degree

	minCorrectedDensity quantity.Density = 800
	maxCorrectedDensity quantity.Density = 1164
	minCorrectedAt                       = -20 * quantity.Degree
	maxCorrectedAt                       = 150 * quantity.Degree
)

// At15 is the volume at 15 degC of the oil that takes up v at t, to 1 mL, half
// away from zero. Its density at 15 degC is d; 0 where it is not stated, and
// AssumedDensity is taken. What the table is not for is refused.
func At15(v quantity.Volume, t quantity.Temperature, d quantity.Density) (quantity.Volume, error) {
	vcf, err := correction(v, t, d)
	if err != nil {
		return 0, err
	}
	return quantity.Volume(math.Round(float64(v) * vcf)), nil
}

// From15 is the volume at t of the oil that takes up v at 15 degC: At15 the other
// way about, with the same rounding and refusals. It may be over
// quantity.MaxVolume by an eighth.
func From15(v quantity.Volume, t quantity.Temperature, d quantity.Density) (quantity.Volume, error) {
	vcf, err := correction(v, t, d)
	if err != nil {
		return 0, err
	}
	return quantity.Volume(math.Round(float64(v) / vcf)), nil
}

// correction is the VCF for an oil of density d at t, once all three are within
// what can be corrected.
func correction(v quantity.Volume, t quantity.Temperature, d quantity.Density) (float64, error) {
	if d == 0 {
		d = AssumedDensity
	}
	var density, temperature error
	if d < minCorrectedDensity || d > maxCorrectedDensity {
		density = fmt.Errorf("density %v: an oil's volume is corrected from %v to %v: write its density at 15 °C", d, minCorrectedDensity, maxCorrectedDensity)
	}
	if t < minCorrectedAt || t > maxCorrectedAt {
		temperature = fmt.Errorf("temperature %v: an oil's volume is corrected from %v to %v: write the temperature at which it was measured", t, minCorrectedAt, maxCorrectedAt)
	}
	if err := errors.Join(v.Valid(), density, temperature); err != nil {
		return 0, err
	}
	alphaDT := expansion / float64(d) * float64(t-correctionBase) / float64(quantity.Degree)
	return math.Exp(-alphaDT * (1 + 0.8*alphaDT)), nil
}
