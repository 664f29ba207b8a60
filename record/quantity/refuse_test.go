package quantity

import (
	"strings"
	"testing"
	"unicode"
)

const (
	allAmounts = "L, mL, US gal, US qt, US pt, US fl oz, imp gal, imp qt, imp pt, imp fl oz, kg, g or lb"
	allVolumes = "L, mL, US gal, US qt, US pt, US fl oz, imp gal, imp qt, imp pt or imp fl oz"

	oneGallon  = `write "US gal" (3.785 L) or "imp gal" (4.546 L)`
	oneQuart   = `write "US qt" (0.946 L) or "imp qt" (1.137 L)`
	onePint    = `write "US pt" (0.473 L) or "imp pt" (0.568 L)`
	oneOunce   = `write "US fl oz" (29.6 mL) or "imp fl oz" (28.4 mL)`
	onePoint   = "write the figure with one point at most and no thousands separators, as 1234.5"
	digitsHint = "write the figure with the digits 0 to 9, as 9.4 L"
	dateHint   = "write the date as YYYY-MM-DD, as 2026-05-04"
)

var refusals = []struct{ parser, text, message string }{
	// Ambiguous units.
	{"portion", "2.5 gal", `bare "gal": ` + oneGallon},
	{"portion", "2.5gal", `bare "gal": ` + oneGallon},
	{"portion", "2.5 Gallons", `bare "Gallons": ` + oneGallon},
	{"portion", "1 gallon at 60 C", `bare "gallon": ` + oneGallon},
	{"portion", "4 qt", `bare "qt": ` + oneQuart},
	{"portion", "1 quart", `bare "quart": ` + oneQuart},
	{"portion", "3 pt", `bare "pt": ` + onePint},
	{"portion", "1 pint", `bare "pint": ` + onePint},
	{"portion", "8 oz", `bare "oz": ` + oneOunce},
	{"portion", "8 fl. oz.", `bare "fl. oz.": ` + oneOunce},
	{"volume", "2.5 gal", `bare "gal": ` + oneGallon},
	{"measured", "2.5 gal", `bare "gal": ` + oneGallon},
	{"figure", "2.5 gal", `bare "gal": ` + oneGallon},
	{"mass", "2.5 gal", `unknown unit "gal": write kg, g or lb`},

	// Units missing, unknown or of another kind.
	{"portion", "9.4", `"9.4": no unit: write ` + allAmounts + ` after the figure`},
	{"volume", "9.4", `"9.4": no unit: write ` + allVolumes + ` after the figure`},
	{"temperature", "70", `"70": no unit: write C or F after the figure`},
	{"percent", "10", `"10": no unit: write % after the figure`},
	{"portion", "5 cups", `unknown unit "cups": write ` + allAmounts},
	{"portion", "5 US oz", `unknown unit "US oz": write ` + allAmounts},
	{"portion", "5 L 16 C", `unknown unit "L 16 C": write ` + allAmounts},
	{"portion", "5-6 L", `unknown unit "-6 L": write ` + allAmounts},
	{"portion", "0x10 L", `unknown unit "x10 L": write ` + allAmounts},
	{"temperature", "343 K", `unknown unit "K": write C or F`},
	{"power", "55 MW", `unknown unit "MW": write kW, W, hp or PS`},
	{"power", "55 \u212aW", `unknown unit "` + "\u212aW" + `": write kW, W, hp or PS`}, // the Kelvin sign
	{"minutes", "1 h", `unknown unit "h": write min`},
	{"volume", "7.7 kg", `"7.7 kg": kg is a mass: write ` + allVolumes},
	{"mass", "9.4 L", `"9.4 L": L is a volume: write kg, g or lb`},
	{"portion", "70 C", `"70 C": C is a temperature: write ` + allAmounts},
	{"portion", "15 min", `"15 min": min is a time: write ` + allAmounts},
	{"density", "10 %", `"10 %": % is a percentage: write kg/m3 or kg/L`},
	{"hours", "812.6 h", `"812.6 h": no unit here: write hours as a plain figure, as 812.6`},
	{"months", "12 months", `"12 months": no unit here: write months as a plain figure, as 12`},
	{"days", "30 days", `"30 days": no unit here: write days as a plain figure, as 30`},
	{"ratio", "85 %", `"85 %": no unit here: write a ratio as a plain figure, as 0.85`},

	// Temperatures beside an amount.
	{"portion", "5 L at", `"5 L at": no temperature after "at": write 5 L at 16 C`},
	{"portion", "5 L at 16", `"16": no unit: write C or F after the figure`},
	{"portion", "5 L at 16 C at 17 C", `unknown unit "C at 17 C": write C or F`},
	{"portion", "5 L at 2000 C", `"2000 C": outside -100 °C to 1000 °C`},
	{"portion", "at 16 C", `"at 16 C": no figure: write an amount, as 9.4 L`},
	{"volume", "10 L at 15 C", `"10 L at 15 C": no temperature here: write 10 L`},
	{"mass", "7.7 kg at 60 C", `"7.7 kg at 60 C": no temperature here: write 7.7 kg`},

	// Figures.
	{"portion", "", `nothing written: write an amount, as 9.4 L`},
	{"portion", "L", `"L": no figure: write an amount, as 9.4 L`},
	{"measured", "unknown", `"unknown": no figure: write an amount or "not measured", as 9.4 L`},
	{"measured", "about 9 L", `"about 9 L": no figure: write an amount or "not measured", as 9.4 L`},
	{"measured", "5 L + 4 L at 16 C", `"5 L + 4 L at 16 C": write a sum as a list: [5 L, 4 L at 16 C]`},
	{"volume", "NaN L", `"NaN L": no figure: write a volume, as 9.4 L`},
	{"volume", "Inf L", `"Inf L": no figure: write a volume, as 9.4 L`},
	{"volume", "9,4 L", `"9,4 L": write 9.4 L with a point`},
	{"portion", "9,4 L at 16 C", `"9,4 L": write 9.4 L with a point`},
	{"temperature", "-0,5 C", `"-0,5 C": write -0.5 C with a point`},
	{"hours", "812,6", `"812,6": write 812.6 with a point`},
	{"volume", "0,450 L", `"0,450 L": write 0.450 L with a point`},
	{"volume", "1,200 L", `"1,200 L": write 1200 L without a separator, or 1.200 L with a point`},
	{"volume", "1,234.5 L", `"1,234.5 L": ` + onePoint},
	{"volume", "1.234,5 L", `"1.234,5 L": ` + onePoint},
	{"volume", "1.200.000 mL", `"1.200.000 mL": ` + onePoint},
	{"volume", "1'200 L", `"1'200 L": ` + onePoint},
	{"volume", "1’200 L", `"1’200 L": ` + onePoint},
	{"volume", "1_200 L", `"1_200 L": ` + onePoint},
	{"volume", "1 200 L", `"1 200 L": write 1200 L without a gap in the figure`},
	{"hours", "1\u202f200", `"1\u202f200": write 1200 without a gap in the figure`},
	{"volume", "5 4.3 L", `"5 4.3 L": write one figure, as 9.4 L`},
	{"volume", "1/2 L", `"1/2 L": write the fraction as decimals, as 0.5 for 1/2`},
	{"volume", "4 1/2 US qt", `"4 1/2 US qt": write the fraction as decimals, as 0.5 for 1/2`},
	{"volume", "4½ US qt", `"4½ US qt": ` + digitsHint},
	{"volume", "٩ L", `"٩ L": ` + digitsHint},
	{"volume", "９.4 L", `"９.4 L": ` + digitsHint},
	{"volume", "1e3 L", `"1e3 L": write the figure out, without an exponent`},
	{"volume", "1.5E-3 L", `"1.5E-3 L": write the figure out, without an exponent`},
	{"volume", "-5 L", `"-5 L": write 5 L without a sign`},
	{"volume", "+5 L", `"+5 L": write 5 L without a sign`},
	{"hours", "-1", `"-1": write 1 without a sign`},
	{"percent", "-10 %", `"-10 %": write 10 % without a sign`},
	{"temperature", "+5 C", `"+5 C": write 5 C without a sign`},
	{"temperature", "\u221225 C", `"` + "\u2212" + `25 C": write -25 C with a plain hyphen`},
	{"temperature", "- 25 C", `"- 25 C": no figure: write a temperature, as 70 C`},
	{"temperature", "--25 C", `"--25 C": no figure: write a temperature, as 70 C`},
	{"volume", ".5 L", `".5 L": write 0.5 L with a figure before the point`},
	{"ratio", "-.5", `"-.5": write -0.5 with a figure before the point`},
	{"volume", "5. L", `"5. L": write 5 L, or a digit after the point`},
	{"volume", "09.4 L", `"09.4 L": write 9.4 L without leading zeros`},
	{"months", "012", `"012": write 12 without leading zeros`},
	{"months", "00", `"00": write 0 without leading zeros`},

	// Too many decimals.
	{"volume", "9.4000 L", `"9.4000 L": at most 3 decimals for L`},
	{"portion", "450.5 mL", `"450.5 mL": no decimals for mL`},
	{"portion", "2.5000 US gal", `"2.5000 US gal": at most 3 decimals for US gal`},
	{"portion", "4.500 US qt", `"4.500 US qt": at most 2 decimals for US qt`},
	{"portion", "4.500 US pt", `"4.500 US pt": at most 2 decimals for US pt`},
	{"portion", "8.25 US fl oz", `"8.25 US fl oz": at most 1 decimal for US fl oz`},
	{"portion", "4.5000 imp qt", `"4.5000 imp qt": at most 3 decimals for imp qt`},
	{"portion", "17.125 lb", `"17.125 lb": at most 2 decimals for lb`},
	{"hours", "812.655", `"812.655": at most 2 decimals for hours`},
	{"months", "1.5", `"1.5": no decimals for months`},
	{"minutes", "2.5 min", `"2.5 min": no decimals for min`},
	{"ratio", "0.8555", `"0.8555": at most 3 decimals for a ratio`},
	{"percent", "12.55 %", `"12.55 %": at most 1 decimal for %`},
	{"temperature", "70.55 C", `"70.55 C": at most 1 decimal for C`},
	{"density", "880.5 kg/m3", `"880.5 kg/m3": no decimals for kg/m3`},
	{"figure", "1.23456 mm", `"1.23456 mm": at most 4 decimals for mm`},

	// Too much.
	{"volume", "100000.001 L", `"100000.001 L": outside 0 L to 100000 L`},
	{"volume", "9999999999999999999999 L", `"9999999999999999999999 L": outside 0 L to 100000 L`},
	{"mass", "200001 kg", `"200001 kg": outside 0 kg to 100000 kg`},
	{"hours", "1000000.01", `"1000000.01": outside 0 to 1000000`},
	{"temperature", "-100.1 C", `"-100.1 C": outside -100 °C to 1000 °C`},
	{"temperature", "99999999999999999999 F", `"99999999999999999999 F": outside -100 °C to 1000 °C`},
	{"power", "100000.001 kW", `"100000.001 kW": outside 0 kW to 100000 kW`},
	{"density", "0 kg/m3", `"0 kg/m3": outside 1 kg/m3 to 25000 kg/m3`},
	{"ratio", "-1000.001", `"-1000.001": outside -1000 to 1000`},
	{"percent", "1000.1 %", `"1000.1 %": outside 0 % to 1000 %`},
	{"months", "1201", `"1201": outside 0 to 1200`},
	{"minutes", "100001 min", `"100001 min": outside 0 min to 100000 min`},
	{"figure", "2000 C", `"2000 C": outside what a reading may be`},
	{"volume", strings.Repeat("9", 101), `"` + strings.Repeat("9", 40) + `…": too long for a volume: write it as 9.4 L`},

	// Text that must not reach a terminal as it is.
	{"volume", "9.4 L\x1b[31m", `unknown unit "L\x1b[31m": write ` + allVolumes},
	{"volume", "9.4 \u202eL", `unknown unit "\u202eL": write ` + allVolumes},
	{"volume", "9,4 \u202eL", `"9,4 \u202eL": write 9.4 \u202eL with a point`},
	{"volume", "9.4\tL", `unknown unit "\tL": write ` + allVolumes},
	{"volume", "\xff L", `"\xff L": no figure: write a volume, as 9.4 L`},

	// Dates.
	{"date", "", `"": ` + dateHint},
	{"date", "4.5.2026", `"4.5.2026": ` + dateHint},
	{"date", "04/05/2026", `"04/05/2026": ` + dateHint},
	{"date", "26-05-04", `"26-05-04": ` + dateHint},
	{"date", "2026-05", `"2026-05": ` + dateHint},
	{"date", "2026-05-04T10:00", `"2026-05-04T10:00": ` + dateHint},
	{"date", "2026-05-041", `"2026-05-041": ` + dateHint},
	{"date", "２０２６-05-04", `"２０２６-05-04": ` + dateHint},
	{"date", "2026-5-4", `"2026-5-4": write 2026-05-04`},
	{"date", "2026-13-01", `"2026-13-01": no month 13: months are 01 to 12`},
	{"date", "2026-00-10", `"2026-00-10": no month 0: months are 01 to 12`},
	{"date", "2026-02-29", `"2026-02-29": no day 29: February 2026 has 28 days`},
	{"date", "1900-02-29", `"1900-02-29": no day 29: February 1900 has 28 days`},
	{"date", "2026-04-31", `"2026-04-31": no day 31: April 2026 has 30 days`},
	{"date", "2026-01-00", `"2026-01-00": no day 0: January 2026 has 31 days`},
	{"date", "1899-12-31", `"1899-12-31": outside 1900-01-01 to 2199-12-31`},
	{"date", "2200-01-01", `"2200-01-01": outside 1900-01-01 to 2199-12-31`},
}

func TestRefusals(t *testing.T) {
	for _, c := range refusals {
		_, printed, err := parsers[c.parser](c.text)
		if err == nil {
			t.Errorf("%s %q: taken as %s", c.parser, c.text, printed)
			continue
		}
		if err.Error() != c.message {
			t.Errorf("%s %q:\n got  %s\n want %s", c.parser, c.text, err, c.message)
		}
	}
}

// TestRefusalsAreFitToShow: short, one line, no control or format characters.
func TestRefusalsAreFitToShow(t *testing.T) {
	hostile := []string{"\x1b]0;x\x07", "9,4 \u2066L\n", "9.4 " + strings.Repeat("\u202e", 30), "9." + strings.Repeat("1", 90) + " gal",
		strings.Repeat("x", 1<<16), strings.Repeat("9", 1<<16) + ",5 L", "5 L at " + strings.Repeat("\x00", 1000), strings.Repeat("5 L + ", 1000), "\xf0\x28\x8c\x28 L"}
	for name, parse := range parsers {
		for _, text := range hostile {
			_, _, err := parse(text)
			if err == nil {
				t.Errorf("%s took %.40q", name, text)
				continue
			}
			if len(err.Error()) > 1200 {
				t.Errorf("%s: %d bytes about %.40q", name, len(err.Error()), text)
			}
			for _, r := range err.Error() {
				if !unicode.IsPrint(r) || r == unicode.ReplacementChar {
					t.Errorf("%s: %q has %U", name, err, r)
					break
				}
			}
		}
	}
}
