package quantity

import (
	"math"
	"strconv"
)

// The quantities, each a whole number of the unit named.
type (
	Volume      int64 // millilitres
	Mass        int64 // grams
	Hours       int64 // 1/100 h
	Temperature int64 // 1/10 degC
	Power       int64 // watts
	Density     int64 // kg/m3
	Ratio       int64 // 1/1000
	Months      int64 // calendar months
	Days        int64 // calendar days
	Minutes     int64 // minutes
)

// One of each, for writing quantities in code: 5 * quantity.Litre.
const (
	Litre    Volume      = 1000
	Kilogram Mass        = 1000
	Hour     Hours       = 100
	Degree   Temperature = 10
	Kilowatt Power       = 1000
	One      Ratio       = 1000
)

// String prints litres with as many of three decimals as are needed: "9.085 L", "10 L".
func (v Volume) String() string { return shortest(int64(v), 3) + " L" }

// Litres prints litres with three decimals and no unit: "9.085", "10.000".
func (v Volume) Litres() string { return fixed(int64(v), 3) }

// Hundredths prints litres rounded to two decimals, half away from zero, for what is
// only worked out: "0.26 L", "-1.02 L".
func (v Volume) Hundredths() string {
	half := Volume(5)
	if v < 0 {
		half = -half
	}
	return fixed(int64((v+half)/10), 2) + " L"
}

// MarshalJSON gives litres as a number with three decimals.
func (v Volume) MarshalJSON() ([]byte, error) { return []byte(v.Litres()), nil }

// String prints kilograms with as many of three decimals as are needed: "7.7 kg".
func (m Mass) String() string { return shortest(int64(m), 3) + " kg" }

// Kilograms prints kilograms with three decimals and no unit: "7.700".
func (m Mass) Kilograms() string { return fixed(int64(m), 3) }

// MarshalJSON gives kilograms as a number with three decimals.
func (m Mass) MarshalJSON() ([]byte, error) { return []byte(m.Kilograms()), nil }

// String prints hours with as many of two decimals as are needed and no
// unit: "812.6", "809", "0.25".
func (h Hours) String() string { return shortest(int64(h), 2) }

// Whole rounds to whole hours, half away from zero, for what is only worked out.
func (h Hours) Whole() Hours {
	half := Hour / 2
	if h < 0 {
		half = -half
	}
	return (h + half) / Hour * Hour
}

// MarshalJSON gives hours as a number with two decimals.
func (h Hours) MarshalJSON() ([]byte, error) { return []byte(fixed(int64(h), 2)), nil }

// Times returns h*r rounded half away from zero to 1/100 h, for a share of
// an interval (10 % of 200 h) or a shortened one. A result beyond int64 stays at
// the limit.
func (h Hours) Times(r Ratio) Hours {
	n, ok := mulDiv(magnitude(int64(h)), magnitude(int64(r)), uint64(One))
	if !ok {
		n = math.MaxInt64
	}
	if (h < 0) != (r < 0) {
		n = -n
	}
	return Hours(n)
}

// String prints degrees with at most one decimal: "68 °C", "-2.5 °C".
func (t Temperature) String() string { return t.degrees() + " °C" }

// degrees is the figure alone, as it stands in a Portion ("68").
func (t Temperature) degrees() string { return shortest(int64(t), 1) }

// MarshalJSON gives degC as a number with one decimal.
func (t Temperature) MarshalJSON() ([]byte, error) { return []byte(fixed(int64(t), 1)), nil }

// String prints kilowatts with as many of three decimals as are needed: "55 kW".
func (p Power) String() string { return shortest(int64(p), 3) + " kW" }

// String prints "880 kg/m3".
func (d Density) String() string { return fixed(int64(d), 0) + " kg/m3" }

// String prints a plain figure with as many of three decimals as are needed: "0.85", "-0.1".
func (r Ratio) String() string { return shortest(int64(r), 3) }

// Percent prints the ratio as a percentage: "10 %", "12.5 %".
func (r Ratio) Percent() string { return shortest(int64(r), 1) + " %" }

// Whole rounds to whole per cents, half away from zero, for what is only worked out.
func (r Ratio) Whole() Ratio {
	half := One / 200
	if r < 0 {
		half = -half
	}
	return (r + half) / (One / 100) * (One / 100)
}

// MarshalJSON gives the ratio as a number with three decimals.
func (r Ratio) MarshalJSON() ([]byte, error) { return []byte(fixed(int64(r), 3)), nil }

// String prints the plain count, without the word months: "12".
func (m Months) String() string { return strconv.FormatInt(int64(m), 10) }

// String prints the plain count, without the word days: "30".
func (d Days) String() string { return strconv.FormatInt(int64(d), 10) }

// String prints "15 min".
func (m Minutes) String() string { return strconv.FormatInt(int64(m), 10) + " min" }
