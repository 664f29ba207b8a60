package fluid

import (
	"testing"

	"pgregory.net/rapid"

	"hourseal/record/quantity"
)

func measured(t testing.TB, texts ...string) quantity.Measured {
	t.Helper()
	var portions []quantity.Portion
	for _, text := range texts {
		p, err := quantity.ParsePortion(text)
		if err != nil {
			t.Fatal(err)
		}
		portions = append(portions, p)
	}
	m, err := quantity.SumOf(portions...)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// TestVolume: masses by the definition of density; 7.7 kg of 880 kg/m3 is the
// handbook's 8.75 L. US gallon: NIST HB 44 Appendix C.
func TestVolume(t *testing.T) {
	for _, c := range []struct {
		texts   []string
		density quantity.Density
		want    quantity.Volume
	}{
		{[]string{"9.3 L"}, 880, 9300},
		{[]string{"5 L at 16 C", "4.3 L at 16 C"}, 880, 9300},
		{[]string{"2.4 US gal at 68 C"}, 880, 9085}, // 9.0850 L: nothing is corrected to 15 degC here
		{[]string{"7.7 kg"}, 880, 8750},
		{[]string{"7.7 kg"}, 0, 8750},   // 880 is assumed
		{[]string{"7.7 kg"}, 875, 8800}, // 8.8 L
		{[]string{"1 kg"}, 1000, 1000},  // water
		{[]string{"1 g"}, 880, 1},       // 1.14 mL
		{[]string{"1 g"}, 2001, 0},      // 0.4998 mL
		{[]string{"1 g"}, 2000, 1},      // 0.5 mL: half up
		{[]string{"1 kg"}, 1036, 965},   // 965.25 mL, propylene glycol
		{[]string{"1 kg"}, 1113, 898},   // 898.47 mL, ethylene glycol
		{[]string{"1 lb"}, 880, 516},    // 454 g as stored: 515.9 mL
		{[]string{"8 L", "660 g"}, 880, 8750},
		{[]string{"0 L"}, 880, 0},
		{[]string{"100000 kg"}, 1, 100_000_000_000},
	} {
		if got := Volume(measured(t, c.texts...), c.density); got != c.want {
			t.Errorf("%v at %v: %v, want %v", c.texts, c.density, got, c.want)
		}
	}
	for _, nothing := range []quantity.Measured{{}, {NotMeasured: true}} {
		if got := Volume(nothing, 880); got != 0 {
			t.Errorf("%v: %v", nothing, got)
		}
	}
}

// TestVolumeWeighsBack: the volume of a mass times the density is the mass, to
// half a mL of it.
func TestVolumeWeighsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		grams := rapid.Int64Range(0, int64(quantity.MaxMass)).Draw(t, "g")
		density := rapid.Int64Range(1, int64(quantity.MaxDensity)).Draw(t, "kg/m3")
		m := quantity.Measured{Portions: []quantity.Portion{{Amount: grams, Unit: quantity.UnitGram}}}
		volume := int64(Volume(m, quantity.Density(density)))
		// In mg: mL * kg/m3; half a mL either way.
		if off := 2 * (volume*density - grams*1000); off > density || off <= -density {
			t.Fatalf("%d g of %d kg/m3 is %d mL", grams, density, volume)
		}
	})
}

func TestNeedsTemperature(t *testing.T) {
	for _, c := range []struct {
		texts []string
		want  bool
	}{
		{[]string{"9.3 L"}, true},
		{[]string{"9.3 L at 16 C"}, false},
		{[]string{"5 L at 16 C", "4.3 L"}, true},
		{[]string{"5 L at 16 C", "4.3 L at 60 F"}, false},
		{[]string{"7.7 kg"}, false},
		{[]string{"7.7 kg", "1 L"}, true},
		{[]string{"7.7 kg", "1 L at 0 C"}, false},
	} {
		if got := NeedsTemperature(measured(t, c.texts...)); got != c.want {
			t.Errorf("%v: %v", c.texts, got)
		}
	}
	if NeedsTemperature(quantity.Measured{NotMeasured: true}) {
		t.Error("what was not measured has no temperature")
	}
}

// TestLimits: the limits are those of the design: 1.15 and 0.3 of the span,
// twice the content, 5 minutes (TM 55-1905-223-24-5); drained oil 60 +- 20 degC,
// filled 15 +- 10, the level read at 40 +- 20.
func TestLimits(t *testing.T) {
	for got, want := range map[string]string{
		LevelUpper.String(): "1", LevelOverfilled.String(): "1.15", LevelLow.String(): "0.3", DrainBack.String(): "5 min",
		AssumedDensity.String():                    "880 kg/m3",
		AssumedDrained.At.String():                 "60 °C",
		AssumedFilled.At.String():                  "15 °C",
		AssumedLevel.At.String():                   "40 °C",
		FillLimit(Content(10_000, 0)).String():     "20 L",
		FillLimit(Content(0, 11_500)).String():     "23 L",
		FillLimit(Content(10_000, 9_500)).String(): "20 L",
		FillLimit(Content(0, 0)).String():          "0 L", // neither is known: there is no limit to hold it to
	} {
		if got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
	if AssumedDrained.Within != 200 || AssumedFilled.Within != 100 || AssumedLevel.Within != 200 {
		t.Error("how far an assumed temperature may be out")
	}
}
