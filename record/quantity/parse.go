package quantity

import (
	"math"
	"strings"
)

// ParseVolume reads a volume in any unit of volume, without a temperature:
// "10.0 L", "2.5 US gal". Rounded half away from zero to 1 mL.
func ParseVolume(text string) (Volume, error) {
	if amount, _, ok := cutAt(text); ok {
		return 0, refuse(text, "no temperature here: write %s", escaped(amount))
	}
	p, err := parseAmount(kind{noun: "a volume", example: "9.4 L"}, text, volume)
	return Volume(p.Amount), err
}

// ParseMass reads a mass in any unit of mass, without a temperature:
// "7.7 kg". Rounded half away from zero to 1 g.
func ParseMass(text string) (Mass, error) {
	if amount, _, ok := cutAt(text); ok {
		return 0, refuse(text, "no temperature here: write %s", escaped(amount))
	}
	p, err := parseAmount(kind{noun: "a mass", example: "7.7 kg"}, text, mass)
	return Mass(p.Amount), err
}

// ParsePower reads "55 kW", "750 W", "75 hp" (550 ft lbf/s) or "75 PS" (75 kgf m/s).
// Rounded half away from zero to 1 W.
func ParsePower(text string) (Power, error) {
	return parseScaled[Power](kind{noun: "a power", example: "55 kW"}, text, power)
}

// ParseDensity reads "880 kg/m3" or "0.88 kg/L".
func ParseDensity(text string) (Density, error) {
	return parseScaled[Density](kind{noun: "a density", example: "880 kg/m3"}, text, density)
}

// ParseMinutes reads "15 min".
func ParseMinutes(text string) (Minutes, error) {
	return parseScaled[Minutes](kind{noun: "minutes", example: "15 min"}, text, minutes)
}

// ParsePercent reads "10 %" or "12.5 %", from 0 to 1000 %.
func ParsePercent(text string) (Ratio, error) {
	p, err := parseScaled[percentage](kind{noun: "a percentage", example: "10 %"}, text, share)
	return Ratio(p), err
}

// percentage is a Ratio with the limits and the print of one written in percent.
type percentage Ratio

func (percentage) limits() (low, high percentage) { return 0, percentage(10 * One) }
func (p percentage) String() string               { return Ratio(p).Percent() }

// ParseHours reads a plain figure of hours with at most two decimals: "812.6".
func ParseHours(text string) (Hours, error) {
	return parsePlain[Hours](kind{noun: "hours", example: "812.6"}, text, plainScale("hours", 2))
}

// ParseRatio reads a plain figure with at most three decimals, which may be
// negative: "0.85", "-0.1".
func ParseRatio(text string) (Ratio, error) {
	return parsePlain[Ratio](kind{noun: "a ratio", example: "0.85", signed: true}, text, plainScale("a ratio", 3))
}

// ParseMonths reads a plain whole number: "12".
func ParseMonths(text string) (Months, error) {
	return parsePlain[Months](kind{noun: "months", example: "12"}, text, plainScale("months", 0))
}

// ParseDays reads a plain whole number: "30".
func ParseDays(text string) (Days, error) {
	return parsePlain[Days](kind{noun: "days", example: "30"}, text, plainScale("days", 0))
}

// ParseTemperature reads "70 C", "158 F" or "-25 C", with at most one
// decimal; "°C" and "degC" are the same. Rounded half away from zero to
// 0.1 degC: degC = (degF - 32) * 5/9, NIST SP 811 B.8.
func ParseTemperature(text string) (Temperature, error) {
	d, word, err := kind{noun: "a temperature", example: "70 C", signed: true}.scan(text)
	if err != nil {
		return 0, err
	}
	row, err := findUnit(text, word, temperature)
	if err != nil {
		return 0, err
	}
	if err := d.decimals(text, row.scale); err != nil {
		return 0, err
	}
	n, ok := d.digits()
	if !ok {
		return inside(text, Temperature(0), false)
	}
	t, ok := toTemperature(n, d.places(), row.scale.name == "F")
	return inside(text, t, ok)
}

// toTemperature wants a figure without its point.
func toTemperature(n int64, places uint8, fahrenheit bool) (Temperature, bool) {
	tenths, ok := plainScale("", 1).of(n, places)
	if !ok || !fahrenheit {
		return Temperature(tenths), ok
	}
	return fromFahrenheit(tenths)
}

// fromFahrenheit wants 1/10 degF.
func fromFahrenheit(tenths int64) (Temperature, bool) {
	if tenths < math.MinInt64+320 {
		return 0, false
	}
	above := tenths - 320
	c, ok := mulDiv(magnitude(above), 5, 9)
	if above < 0 {
		c = -c
	}
	return Temperature(c), ok
}

// parseScaled reads a figure with one of the units of a dimension.
func parseScaled[T limited[T]](k kind, text string, of dimension) (T, error) {
	d, word, err := k.scan(text)
	if err != nil {
		return 0, err
	}
	row, err := findUnit(text, word, of)
	if err != nil {
		return 0, err
	}
	return stored[T](text, d, row.scale)
}

// parsePlain reads a figure that has no unit.
func parsePlain[T limited[T]](k kind, text string, s scale) (T, error) {
	d, word, err := k.scan(text)
	if err != nil {
		return 0, err
	}
	if word != "" {
		return 0, refuse(text, "no unit here: write %s as a plain figure, as %s", k.noun, k.example)
	}
	return stored[T](text, d, s)
}

// stored turns a figure into whole stored units.
func stored[T limited[T]](text string, d decimal, s scale) (T, error) {
	if err := d.decimals(text, s); err != nil {
		return 0, err
	}
	n, ok := d.digits()
	if !ok {
		return inside(text, T(0), false)
	}
	amount, ok := s.of(n, d.places())
	return inside(text, T(amount), ok)
}

// cutAt splits "2.4 US gal at 68 C" at the word "at".
func cutAt(text string) (amount, temperature string, ok bool) {
	words := strings.FieldsFunc(text, isGap)
	for i, w := range words {
		if i > 0 && lowerASCII(w) == "at" {
			return strings.Join(words[:i], " "), strings.Join(words[i+1:], " "), true
		}
	}
	return text, "", false
}
