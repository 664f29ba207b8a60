package fluid

import "hourseal/record/quantity"

// Limits of a dipstick reading, in thousandths of the span between the marks.
// Keeping the oil between the marks is published (TM 55-1905-223-24-5); how far
// beyond calls for what is common practice, no source.
const (
	LevelUpper      quantity.Ratio   = 1000
	LevelOverfilled quantity.Ratio   = 1150
	LevelLow        quantity.Ratio   = 300
	LevelReach      quantity.Ratio   = 5000 // beyond the marks no dipstick reads so far
	DrainBack       quantity.Minutes = 5    // at least, before the level is read: TM 55-1905-223-24-5
)

// What is taken where a job sheet does not say how warm it was measured, and how
// far that may be out. Common practice, no source.
var (
	AssumedDrained = Assumed{At: 600, Within: 200}
	AssumedFilled  = Assumed{At: 150, Within: 100}
	AssumedLevel   = Assumed{At: 400, Within: 200}
)

// Assumed is a temperature that was not stated.
type Assumed struct{ At, Within quantity.Temperature }

// Content is the most that a system is said to hold: at the upper mark with a
// new filter, or as filled; 0 when neither is known.
func Content(atUpper, holds quantity.Volume) quantity.Volume { return max(atUpper, holds) }

// FillLimit is what no fill can exceed: twice the content. Above it the figure
// or its unit is wrong.
func FillLimit(content quantity.Volume) quantity.Volume { return 2 * content }

// AssumedDensity is taken for an oil whose density the machine file does not
// give: typical engine oils have 854 to 890 kg/m3 at 15 degC (trade press).
const AssumedDensity quantity.Density = 880

// AssumedCoolantDensity is taken for a coolant: half glycol, half water, of either
// glycol within 3 % (handbook densities, from memory).
const AssumedCoolantDensity quantity.Density = 1060

// Volume is what was measured as a volume, masses divided by the density (0:
// AssumedDensity), each rounded to the nearest mL, half up; not corrected for
// temperature. It is 0 for what was not measured: ask m.NotMeasured first.
func Volume(m quantity.Measured, density quantity.Density) quantity.Volume {
	if density <= 0 {
		density = AssumedDensity
	}
	var total quantity.Volume
	for _, p := range m.Portions {
		if v, ok := p.Volume(); ok {
			total += v
		} else if mass, ok := p.Mass(); ok {
			// g / (kg/m3) is 1/1000 m3, a litre: a thousand times that in mL.
			total += quantity.Volume((int64(mass)*1000 + int64(density)/2) / int64(density))
		}
	}
	return total
}

// NeedsTemperature says whether a volume was written without its temperature. A
// mass needs none.
func NeedsTemperature(m quantity.Measured) bool {
	for _, p := range m.Portions {
		if _, isVolume := p.Volume(); isVolume && p.At == nil {
			return true
		}
	}
	return false
}
