package quantity_test

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	. "hourseal/record/quantity"
)

// The litres of one unit's amount, and the other way about, as others have published them.
func TestSecondUnitAgainstPublishedTables(t *testing.T) {
	for _, c := range []struct {
		unit   Unit
		litres Volume
		want   string // of a published figure, rounded to what is printed
	}{
		// 1 L in each unit, from NIST Handbook 44, Appendix C: 0.264 172 1 gal,
		// 1.056 688 liquid qt, 2.113 376 liquid pt, 33.814 02 fl oz.
		{UnitUSGallon, 1000 * Litre, "264.17"},
		{UnitUSQuart, 1000 * Litre, "1056.69"},
		{UnitUSPint, 1000 * Litre, "2113.4"},
		{UnitUSFluidOunce, 1000 * Litre, "33814"},
		// 1 L in imperial measure, from the gallon of 4.54609 L (UK Weights and Measures Act
		// 1985, Schedule 1): 0.219 969 2 gal, 0.879 877 qt, 1.759 754 pt, 35.195 08 fl oz, as
		// conversion tables print them.
		{UnitImperialGallon, 1000 * Litre, "219.97"},
		{UnitImperialQuart, 1000 * Litre, "879.88"},
		{UnitImperialPint, 1000 * Litre, "1759.8"},
		{UnitImperialFluidOunce, 1000 * Litre, "35195"},
		// 1 gal = 3.785 L, 1 qt = 0.946 L, 1 pt = 0.473 L, the same Appendix C.
		{UnitUSGallon, 3785, "1.000"},
		{UnitUSQuart, 946, "1.00"},
		{UnitUSPint, 473, "1.00"},
		{UnitImperialGallon, 4546, "1.000"},
	} {
		style := Style{Second: c.unit}
		if got, want := style.Volume(c.litres), c.litres.String()+" ("+c.want+" "+c.unit.String()+")"; got != want {
			t.Errorf("got %s, want %s", got, want)
		}
	}
}

func TestStyleOfVolumes(t *testing.T) {
	us, qt, oz := Style{Second: UnitUSGallon}, Style{Second: UnitUSQuart}, Style{Second: UnitImperialFluidOunce}
	comma := Style{Second: UnitUSGallon, Comma: true}
	for _, c := range []struct{ got, want string }{
		{us.Hundredths(9400), "9.40 L (2.48 US gal)"},
		{us.Hundredths(9404), "9.40 L (2.48 US gal)"},
		{us.Volume(9400), "9.4 L (2.48 US gal)"},
		{us.Volume(5 * Litre), "5 L (1.32 US gal)"},
		{us.Volume(9085), "9.085 L (2.400 US gal)"},
		{us.Tenths(8650), "8.7 L (2.3 US gal)"},
		{us.Tenths(9 * Litre), "9 L (2.4 US gal)"},
		{us.Hundredths(-1020), "-1.02 L (-0.27 US gal)"},
		{us.Tenths(-1050), "-1.1 L (-0.3 US gal)"},
		{us.Hundredths(3), "0.00 L (0.00 US gal)"},
		{qt.Hundredths(710), "0.71 L (0.75 US qt)"},
		{qt.Tenths(8650), "8.7 L (9.1 US qt)"},
		{oz.Hundredths(710), "0.71 L (25 imp fl oz)"},
		{oz.Tenths(8650), "8.7 L (300 imp fl oz)"}, // 304.4 in tens: a ten is 0.28 L
		{comma.Volume(9085), "9,085 L (2,400 US gal)"},
		{comma.Hundredths(-1020), "-1,02 L (-0,27 US gal)"},
		{Style{Second: UnitLitre}.Volume(9400), "9.4 L"},
		{Style{Second: UnitMillilitre}.Volume(9400), "9.4 L"},
		{Style{Second: UnitKilogram}.Volume(9400), "9.4 L"},
		{Style{Second: 99}.Volume(9400), "9.4 L"},
		{Style{}.Hundredths(9400), "9.40 L"},
		{Style{}.Tenths(8650), "8.7 L"},
	} {
		if c.got != c.want {
			t.Errorf("got %s, want %s", c.got, c.want)
		}
	}
	for _, places := range []int{-1, 4} {
		if figure, ok := us.InSecond(Litre, places); ok {
			t.Errorf("%d decimals: %s", places, figure)
		}
	}
}

func TestStyleOfOtherFigures(t *testing.T) {
	comma := Style{Comma: true}
	for _, c := range []struct{ got, want string }{
		{comma.Hours(81260), "812,6"},
		{comma.Hours(-25), "-0,25"},
		{comma.Marked(Ratio(850).String()), "0,85"},
		{comma.Marked(Temperature(-25).String()), "-2,5 °C"},
		{comma.Marked("2.4 US gal at 68.5 C + 5 L"), "2,4 US gal at 68,5 C + 5 L"},
		{comma.Marked("1."), "1."},
		{comma.Marked(".5"), ".5"},
		{comma.Marked(""), ""},
		{Style{}.Hours(81260), "812.6"},
		{Style{}.Marked("812.6"), "812.6"},
	} {
		if c.got != c.want {
			t.Errorf("got %s, want %s", c.got, c.want)
		}
	}
}

func TestStyleOfDates(t *testing.T) {
	may, september := FromYMD(2026, 5, 4), FromYMD(2026, 9, 23)
	for _, c := range []struct {
		order          DateOrder
		may, september string
	}{
		{YearFirst, "2026-05-04", "2026-09-23"},
		{DayFirst, "4 May 2026", "23 Sep 2026"},
		{MonthFirst, "May 4, 2026", "Sep 23, 2026"},
		{99, "2026-05-04", "2026-09-23"},
	} {
		s := Style{Dates: c.order}
		if a, b := s.Date(may), s.Date(september); a != c.may || b != c.september {
			t.Errorf("%d: %s, %s", c.order, a, b)
		}
	}
	if got := (Style{Dates: DayFirst}).Date(math.MaxInt64); !strings.HasPrefix(got, "day ") {
		t.Errorf("no date: %s", got)
	}
}

// Every day that may be written comes back out of what is printed, in each order, and typed
// as it was printed it is refused with what to type.
func TestDatesAsPrinted(t *testing.T) {
	for d := MinDate; d <= MaxDate; d += 17 {
		for _, order := range []DateOrder{DayFirst, MonthFirst} {
			text := Style{Dates: order}.Date(d)
			if got, err := ParseDateOrder(text); err != nil || got != order {
				t.Fatalf("%s: order %d, %v", text, got, err)
			}
			if _, err := ParseDate(text); err == nil || !strings.HasSuffix(err.Error(), ": write "+d.String()) {
				t.Fatalf("%s: %v", text, err)
			}
			if len(text) > 12 {
				t.Fatalf("%s is wider than 12", text)
			}
		}
		if got, err := ParseDateOrder(d.String()); err != nil || got != YearFirst {
			t.Fatalf("%v: %d, %v", d, got, err)
		}
	}
}

func TestParseDateOrderRefuses(t *testing.T) {
	for text, want := range map[string]string{
		"04/05/2026":        "write an example with the month in letters",
		"4.5.2026":          "write an example with the month in letters",
		"31 Feb 2026":       "write an example with the month in letters",
		"4 Ma 2026":         "write an example with the month in letters",
		"":                  "write an example with the month in letters",
		"4 may 2026":        "write 4 May 2026",
		"04 May 2026":       "write 4 May 2026",
		"23 September 2026": "write 23 Sep 2026",
		"Sept. 23, 2026":    "write Sep 23, 2026",
		"Sep 23 2026":       "write Sep 23, 2026",
	} {
		if _, err := ParseDateOrder(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %s", text, err, want)
		}
	}
}

func TestParseSecondUnit(t *testing.T) {
	for text, want := range map[string]Unit{"US gal": UnitUSGallon, "usqt": UnitUSQuart, "imperial pints": UnitImperialPint, " imp  fl oz ": UnitImperialFluidOunce} {
		if got, err := ParseSecondUnit(text); err != nil || got != want {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	for text, want := range map[string]string{
		"gal":      `bare "gal": write "US gal" (3.785 L) or "imp gal" (4.546 L)`,
		"oz":       `bare "oz": write "US fl oz"`,
		"L":        "litres stand first in any case",
		"mL":       "litres stand first in any case",
		"kg":       "kg is a mass: write a unit of volume",
		"firkin":   `unknown unit "firkin": write US gal, US qt,`,
		"":         `unknown unit "": write US gal,`,
		"1 US gal": `unknown unit "1 US gal"`,
	} {
		if got, err := ParseSecondUnit(text); err == nil || got != 0 || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, %v, want %s", text, got, err, want)
		}
	}
}

var printedVolume = regexp.MustCompile(`^(-?[0-9.]+ L)(?: \((-?[0-9.]+) (.+)\))?$`)

// Whatever the style, the litres are those that are printed without one, and the second
// figure is the volume within half a step of its last place, which is no finer than nine
// tenths of the litres' step.
func FuzzStyleKeepsTheValue(f *testing.F) {
	f.Add(int64(9400), uint8(UnitUSGallon), false)
	f.Add(int64(-1020), uint8(UnitUSQuart), true)
	f.Add(int64(8650), uint8(UnitImperialFluidOunce), false)
	f.Add(int64(math.MinInt64), uint8(UnitUSFluidOunce), true)
	f.Add(int64(math.MaxInt64), uint8(UnitUSFluidOunce), true)
	f.Fuzz(func(t *testing.T, n int64, unit uint8, comma bool) {
		v, s := Volume(n), Style{Second: Unit(unit), Comma: comma}
		if s.Hours(Hours(n)) != s.Marked(Hours(n).String()) {
			t.Error("hours")
		}
		fine := 2 // decimals of the litres that Volume goes by
		if n%10 != 0 {
			fine = 3
		}
		for _, c := range []struct {
			plain, styled string
			places        int
		}{{v.String(), s.Volume(v), fine}, {v.Hundredths(), s.Hundredths(v), 2}, {Style{}.Tenths(v), s.Tenths(v), 1}} {
			if comma && strings.Contains(c.styled, ".") {
				t.Fatalf("a point in %s", c.styled)
			}
			parts := printedVolume.FindStringSubmatch(strings.ReplaceAll(c.styled, ",", "."))
			if parts == nil || parts[1] != c.plain {
				t.Fatalf("%s is printed %s", c.plain, c.styled)
			}
			if parts[2] == "" || n > int64(MaxVolume) || n < -int64(MaxVolume) {
				continue
			}
			one, err := strconv.ParseFloat(strings.TrimSuffix(Unit(unit).Definition(), " L"), 64)
			if err != nil {
				t.Fatal(err)
			}
			second, _ := strconv.ParseFloat(parts[2], 64)
			step := one
			if _, decimals, found := strings.Cut(parts[2], "."); found {
				step /= math.Pow10(len(decimals))
			} else if strings.Contains(c.styled, "fl oz") && c.places == 1 {
				step *= 10
			}
			if off := math.Abs(second*one - float64(n)/1000); off > step/2+1e-6 {
				t.Errorf("%s: off by %g L, a step is %g L", c.styled, off, step)
			}
			if step < 0.9*math.Pow10(-c.places) {
				t.Errorf("%s: a step of %g L", c.styled, step)
			}
		}
	})
}

// A volume as it is printed, typed back, is refused with the litres as they are typed,
// never with a comma.
func TestVolumeAsPrintedIsRefused(t *testing.T) {
	for printed, want := range map[string]string{
		"9.40 L (2.48 US gal)":         "write 9.40 L, without what stands in brackets",
		"9,40 L (2,48 US gal)":         `"9,40 L": write 9.40 L with a point`,
		"9.40 L (2.48 US gal) at 16 C": "write 9.40 L, without what stands in brackets",
		"9,085 L (2,400 US gal)":       "write 9085 L without a separator, or 9.085 L with a point",
		"(2.48 US gal)":                "no figure",
	} {
		_, err := ParsePortion(printed)
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %s", printed, err, want)
		}
	}
}
