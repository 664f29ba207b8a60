package quantity

import (
	"fmt"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

// parsers are all of them, for the tables of this file, its neighbours and
// the fuzz target. Each gives the value and its printed form that the same
// parser reads back.
var parsers = map[string]func(string) (value any, printed string, err error){
	"volume":      read(ParseVolume),
	"mass":        read(ParseMass),
	"hours":       read(ParseHours),
	"temperature": read(ParseTemperature),
	"power":       read(ParsePower),
	"density":     read(ParseDensity),
	"ratio":       read(ParseRatio),
	"percent": func(s string) (any, string, error) {
		r, err := ParsePercent(s)
		return r, r.Percent(), err
	},
	"months":  read(ParseMonths),
	"days":    read(ParseDays),
	"minutes": read(ParseMinutes),
	"date":    read(ParseDate),
	"portion": func(s string) (any, string, error) {
		p, err := ParsePortion(s)
		return p, p.String(), err
	},
	"measured": func(s string) (any, string, error) {
		m, err := ParseMeasured(s)
		return m, m.String(), err
	},
	"figure": func(s string) (any, string, error) {
		f, err := ParseFigure(s)
		return f, f.String(), err
	},
}

func read[T fmt.Stringer](parse func(string) (T, error)) func(string) (any, string, error) {
	return func(s string) (any, string, error) {
		v, err := parse(s)
		return v, v.String(), err
	}
}

func TestParse(t *testing.T) {
	for _, c := range []struct {
		parser, text, printed string
	}{
		{"volume", "10.0 L", "10 L"},
		{"volume", "1.6 L", "1.6 L"},
		{"volume", " 9.4  L ", "9.4 L"},
		{"volume", "9.4L", "9.4 L"},
		{"volume", "9.4\u00a0l", "9.4 L"},
		{"volume", "9.4 litres", "9.4 L"},
		{"volume", "1 litre", "1 L"},
		{"volume", "450 ml", "0.45 L"},
		{"volume", "2.4 US gal", "9.085 L"},
		{"volume", "0 L", "0 L"},
		{"mass", "7.7 kg", "7.7 kg"},
		{"mass", "7700 g", "7.7 kg"},
		{"mass", "17 lb", "7.711 kg"},
		{"hours", "812.6", "812.6"},
		{"hours", "812.60", "812.6"},
		{"hours", "812.65", "812.65"},
		{"hours", "809", "809"},
		{"hours", "0.05", "0.05"},
		{"hours", "1000000", "1000000"},
		{"temperature", "70 C", "70 °C"},
		{"temperature", "70C", "70 °C"},
		{"temperature", "70 c", "70 °C"},
		{"temperature", "70 °C", "70 °C"},
		{"temperature", "70 degC", "70 °C"},
		{"temperature", "70 deg C", "70 °C"},
		{"temperature", "-25 C", "-25 °C"},
		{"temperature", "-0.5 C", "-0.5 °C"},
		{"temperature", "158 °F", "70 °C"},
		{"temperature", "158degF", "70 °C"},
		{"power", "55 kW", "55 kW"},
		{"power", "55 kw", "55 kW"},
		{"power", "750 W", "0.75 kW"},
		{"density", "880 kg/m3", "880 kg/m3"},
		{"density", "880 kg/m³", "880 kg/m3"},
		{"density", "0.88 kg/L", "880 kg/m3"},
		{"density", "0.88 kg/l", "880 kg/m3"},
		{"minutes", "15 min", "15 min"},
		{"minutes", "15 minutes", "15 min"},
		{"percent", "10 %", "10 %"},
		{"percent", "12.5%", "12.5 %"},
		{"ratio", "0.85", "0.85"},
		{"ratio", "-0.1", "-0.1"},
		{"ratio", "1", "1"},
		{"ratio", "0.125", "0.125"},
		{"months", "12", "12"},
		{"days", "30", "30"},
		{"date", "2026-05-04", "2026-05-04"},
		{"date", "2024-02-29", "2024-02-29"},
		{"portion", "2.4 US gal at 68 C", "2.4 US gal at 68 C"},
		{"portion", "2.40 us gal AT 68 °C", "2.40 US gal at 68 C"},
		{"portion", "2.5USgal", "2.5 US gal"},
		{"portion", "2.5 U.S. gallons", "2.5 US gal"},
		{"portion", "4.5 US quarts", "4.5 US qt"},
		{"portion", "1 imp gal", "1 imp gal"},
		{"portion", "1 imp. gal.", "1 imp gal"},
		{"portion", "3 Imperial pints", "3 imp pt"},
		{"portion", "3 UK pints", "3 imp pt"},
		{"portion", "8 US fl oz", "8 US fl oz"},
		{"portion", "8 imp fluid ounces", "8 imp fl oz"},
		{"portion", "7.7 kg", "7.7 kg"},
		{"portion", "7.7 kg at 60 C", "7.7 kg at 60 C"},
		{"portion", "5 L at 16.5 C", "5 L at 16.5 C"},
		{"portion", "2.4 US gal at 154 F", "2.4 US gal at 67.8 C"},
		{"portion", "5.00 L", "5.00 L"},
		{"portion", "0.0 L", "0.0 L"},
		{"measured", "9.4 L", "9.4 L"},
		{"measured", "not measured", "not measured"},
		{"measured", "Not measured", "not measured"},
		{"figure", "-27 C", "-27 C"},
		{"figure", "-27.0 °C", "-27.0 C"},
		{"figure", "0.25 mm", "0.25 mm"},
		{"figure", "0.0102 in", "0.0102 in"},
		{"figure", "3.50 Bar", "3.50 bar"},
		{"figure", "12.62 V", "12.62 V"},
		{"figure", "40 %", "40 %"},
		{"figure", "1.5 us qt", "1.5 US qt"},
		{"figure", "45 N m", "45 N m"},
		{"figure", "3", "3"},
	} {
		_, printed, err := parsers[c.parser](c.text)
		if err != nil || printed != c.printed {
			t.Errorf("%s %q: %s, %v; want %s", c.parser, c.text, printed, err, c.printed)
		}
	}
}

// TestFahrenheit: degC = (degF - 32) * 5/9, NIST SP 811 B.8. Water freezes at
// 32 F and boils at 212 F, and the scales meet at -40, by that definition;
// 154 F by GNU units 2.22 is 67.7777777778 C.
func TestFahrenheit(t *testing.T) {
	for text, tenths := range map[string]Temperature{
		"32 F": 0, "212 F": 1000, "-40 F": -400, "158 F": 700, "154 F": 678,
		"100 F": 378, "0 F": -178, "99.5 F": 375, "31.9 F": -1, "-0.4 F": -180,
	} {
		if got, err := ParseTemperature(text); err != nil || got != tenths {
			t.Errorf("%s is %v, %v; want %v", text, got, err, tenths)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Int64Range(-1480, 18320).Draw(t, "tenths of degF") // -100 to 1000 C
		want := new(big.Rat).Mul(big.NewRat(f-320, 1), big.NewRat(5, 9))
		got, err := ParseTemperature(fixed(f, 1) + " F")
		if err != nil || int64(got) != roundHalfAway(want).Int64() {
			t.Fatalf("%s F: %v, %v; want %s", fixed(f, 1), got, err, want.FloatString(3))
		}
	})
}

// TestPowers: 550 ft lbf/s and 75 kgf m/s, NIST SP 811 B.8. 30 hp is
// 22.37099615 kW and 30 PS is 22.0649625 kW (also by GNU units 2.22).
func TestPowers(t *testing.T) {
	for text, watts := range map[string]Power{
		"1 hp": 746, "1 PS": 735, "30 hp": 22371, "30 PS": 22065, "75 hp": 55927, "75 PS": 55162,
		"55 kW": 55000, "0.5 kW": 500, "7.5 hp": 5593, "100000 kW": MaxPower, "2 W": 2,
	} {
		if got, err := ParsePower(text); err != nil || got != watts {
			t.Errorf("%s is %d W, %v; want %d", text, got, err, watts)
		}
	}
}
