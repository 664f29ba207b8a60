package quantity

import "fmt"

// The largest and smallest quantities that a sheet or a record may state.
// They are there to catch slips and hostile files, far outside anything a
// yard measures; what is plausible for a machine is judged elsewhere.
const (
	MaxVolume      = 100_000 * Litre
	MaxMass        = 100_000 * Kilogram
	MaxHours       = 1_000_000 * Hour // 114 years without a stop
	MinTemperature = -100 * Degree
	MaxTemperature = 1000 * Degree // exhaust gas is the hottest thing read
	MaxPower       = 100_000 * Kilowatt
	MinDensity     = Density(1)
	MaxDensity     = Density(25_000)
	MinRatio       = -1000 * One
	MaxRatio       = 1000 * One
	MaxMonths      = Months(1200)
	MaxDays        = Days(36_525)
	MaxMinutes     = Minutes(100_000)
)

// limited is a quantity that prints itself and knows its own limits.
type limited[T any] interface {
	~int64
	fmt.Stringer
	limits() (low, high T)
}

func (Volume) limits() (low, high Volume)           { return 0, MaxVolume }
func (Mass) limits() (low, high Mass)               { return 0, MaxMass }
func (Hours) limits() (low, high Hours)             { return 0, MaxHours }
func (Temperature) limits() (low, high Temperature) { return MinTemperature, MaxTemperature }
func (Power) limits() (low, high Power)             { return 0, MaxPower }
func (Density) limits() (low, high Density)         { return MinDensity, MaxDensity }
func (Ratio) limits() (low, high Ratio)             { return MinRatio, MaxRatio }
func (Months) limits() (low, high Months)           { return 0, MaxMonths }
func (Days) limits() (low, high Days)               { return 0, MaxDays }
func (Minutes) limits() (low, high Minutes)         { return 0, MaxMinutes }
func (Date) limits() (low, high Date)               { return MinDate, MaxDate }

// Valid refuses a volume outside 0 to MaxVolume.
func (v Volume) Valid() error { return within("volume", v) }

// Valid refuses a mass outside 0 to MaxMass.
func (m Mass) Valid() error { return within("mass", m) }

// Valid refuses hours outside 0 to MaxHours. It is for readings and
// intervals; a difference of hours may well be negative.
func (h Hours) Valid() error { return within("hours", h) }

// Valid refuses a temperature outside MinTemperature to MaxTemperature.
func (t Temperature) Valid() error { return within("temperature", t) }

// Valid refuses a power outside 0 to MaxPower.
func (p Power) Valid() error { return within("power", p) }

// Valid refuses a density outside MinDensity to MaxDensity.
func (d Density) Valid() error { return within("density", d) }

// Valid refuses a ratio outside MinRatio to MaxRatio.
func (r Ratio) Valid() error { return within("ratio", r) }

// Valid refuses months outside 0 to MaxMonths.
func (m Months) Valid() error { return within("months", m) }

// Valid refuses days outside 0 to MaxDays.
func (d Days) Valid() error { return within("days", d) }

// Valid refuses minutes outside 0 to MaxMinutes.
func (m Minutes) Valid() error { return within("minutes", m) }

// Valid refuses a date outside the years 1900 to 2199.
func (d Date) Valid() error { return within("date", d) }

// within refuses a quantity that did not come from text.
func within[T limited[T]](noun string, v T) error {
	if low, high := v.limits(); v < low || v > high {
		return fmt.Errorf("%s %v: outside %v to %v", noun, v, low, high)
	}
	return nil
}

// inside refuses a quantity read from text; fits is false when it did not
// even fit the integer.
func inside[T limited[T]](text string, v T, fits bool) (T, error) {
	low, high := v.limits()
	if !fits || v < low || v > high {
		return 0, refuse(text, "outside %v to %v", low, high)
	}
	return v, nil
}
