package fluid

import (
	"math"

	"hourseal/record/quantity"
)

// Fuel is what is known of a kind of fuel. Both figures are taken where nothing
// else is known: common practice, no source.
type Fuel struct {
	Density     quantity.Density // at 15 degC
	GramsPerKWh int64            // burnt, at usual load
}

var (
	Diesel = Fuel{Density: 840, GramsPerKWh: 230}
	Petrol = Fuel{Density: 745, GramsPerKWh: 320}
)

// Outside these shares of the rated power the fuel or the hours cannot be right:
// common practice, no source.
const (
	leastLoad quantity.Ratio = 20
	mostLoad  quantity.Ratio = 1100
)

// PerFuel is oil used, in millionths of the fuel's volume and in mg a kWh. The
// energy comes from the fuel, since the load is not known otherwise. Both are 0
// for no oil or no fuel; the second also where the rated power (0: unknown) could
// not have burnt so much in those hours; both where it could not have burnt so little. Rounded to whole units, half away from
// zero.
func (f Fuel) PerFuel(used quantity.Volume, oil quantity.Density, burnt quantity.Measured, rated quantity.Power, over quantity.Hours) (ppm, mgPerKWh int64) {
	volume := float64(Volume(burnt, f.Density))
	if used <= 0 || volume <= 0 {
		return 0, 0
	}
	ppm = round(float64(used) / volume * 1e6)
	kWh := volume / 1000 * float64(f.Density) / float64(f.GramsPerKWh)
	rate := float64(rated) / 1000 * float64(over) / float64(quantity.Hour)
	switch {
	case rated <= 0:
	case kWh < of(leastLoad)*rate:
		return 0, 0
	case kWh > of(mostLoad)*rate:
		return ppm, 0
	}
	mg := float64(used) * float64(densityOr(oil)) // mL x kg/m3 is mg
	return ppm, round(mg / kWh)
}

// PerWork is oil used in mg a kWh at a known load: used x density over power x load
// x hours.
func PerWork(used quantity.Volume, oil quantity.Density, rated quantity.Power, load quantity.Ratio, over quantity.Hours) int64 {
	kWh := float64(rated) / 1000 * of(load) * float64(over) / float64(quantity.Hour)
	if kWh <= 0 {
		return 0
	}
	mg := float64(used) * float64(densityOr(oil))
	return int64(math.Round(mg / kWh))
}
