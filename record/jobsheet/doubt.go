package jobsheet

import (
	"fmt"
	"strings"

	"hourseal/record/fluid"
	"hourseal/record/quantity"
)

var doubtForm = form{
	{"jug", "a share of what was filled, as 2 %", optional},
	{"jug_least", "a volume, as 0.1 L", optional},
	{"can", "a share of what sealed cans hold, as 1 %", optional},
	{"extractor", "a share of what was drained, as 3 %", optional},
	{"extractor_least", "a volume, as 0.25 L", optional},
	{"hanging_scale", "a mass, as 0.1 kg", optional},
	{"dipstick", "a share of what is between the marks, as 12 %", optional},
	{"dipstick_reading", "a share of what is between the marks, as 8 %", optional},
	{"thermometer", "a difference of temperature, as 3 C", optional},
	{"at_upper", "a share of the machine file's at_upper, as 3 %", optional},
	{"topped_up", "a share of what was topped up, as 20 %", optional},
	{"filter", "a share of what the filter holds, as 20 %", optional},
	{"left_by_extraction", "a share of the machine file's at_upper, as 1.5 %", optional},
}

// doubtShare reads a share. A yard whose measuring is worse than this has none, and
// nothing that it writes could ever be found not to add up.
var doubtShare = percentWithin(1, 500)

// widestScale is more than any hanging scale in use is out by.
const widestScale = 5 * quantity.Kilogram

// doubt reads the standard uncertainties of the yard's measurements; those that
// are left out are the trade's.
func doubt(f fields) fluid.Doubt {
	d := fluid.TradeDoubt
	for _, share := range []struct {
		name string
		to   *quantity.Ratio
	}{
		{"jug", &d.Jug}, {"can", &d.Can}, {"extractor", &d.Extractor}, {"at_upper", &d.AtUpper},
		{"topped_up", &d.ToppedUp}, {"filter", &d.Filter}, {"left_by_extraction", &d.LeftByExtraction},
	} {
		set(f, share.name, share.to, doubtShare)
	}
	set(f, "jug_least", &d.JugLeast, above(quantity.ParseVolume))
	set(f, "extractor_least", &d.ExtractorLeast, above(quantity.ParseVolume))
	set(f, "hanging_scale", &d.HangingScale, within(above(quantity.ParseMass), 1, widestScale))
	set(f, "thermometer", &d.Thermometer, temperatureDifference)
	whole, part := set(f, "dipstick", &d.Dipstick, doubtShare), set(f, "dipstick_reading", &d.DipstickReading, doubtShare)
	if whole && part && d.DipstickReading > d.Dipstick {
		dipstickFault(f, d)
	}
	return d
}

// dipstickFault says which of the two figures cannot be so, also beside the usual one
// of the other.
func dipstickFault(f fields, d fluid.Doubt) {
	whole, isWhole := f.values["dipstick"]
	part, isPart := f.values["dipstick_reading"]
	switch {
	case isWhole && isPart:
		part.fail("more than dipstick, %s, which it is a part of: write no more than that", d.Dipstick.Percent())
	case isPart:
		part.fail("more than dipstick, which it is a part of and which is %s where it is left out: write both", d.Dipstick.Percent())
	default:
		whole.fail("less than dipstick_reading, which is a part of it and is %s where it is left out: write both", d.DipstickReading.Percent())
	}
}

// set takes over a value that is written; where it is not, what is there stays. It
// is false for one that cannot be read.
func set[T any](f fields, name string, to *T, parse parser[T]) bool {
	if _, there := f.values[name]; !there {
		return true
	}
	value := maybe(f, name, parse)
	if value != nil {
		*to = *value
	}
	return value != nil
}

// widestDifference is more than any thermometer in use is out by.
const widestDifference = 50 * quantity.Degree

// temperatureDifference reads a difference in C. One in F would be read 32 degF
// off, since ParseTemperature reads temperatures.
func temperatureDifference(s string) (quantity.Temperature, error) {
	if unit := strings.ToUpper(s); strings.HasSuffix(unit, "F") || strings.HasSuffix(unit, "K") {
		return 0, fmt.Errorf("%s: write the difference in C, as 3 C", show(s))
	}
	t, err := quantity.ParseTemperature(s)
	if err == nil && (t <= 0 || t > widestDifference) {
		err = fmt.Errorf("%s: write a difference from 0.1 C to 50 C, as 3 C", show(s))
	}
	return t, err
}
