package fluid

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record/quantity"
)

// vcf is the factor for an oil, of a volume that can be corrected.
func vcf(t testing.TB, at quantity.Temperature, d quantity.Density) float64 {
	t.Helper()
	factor, err := correction(quantity.Litre, at, d)
	if err != nil {
		t.Fatal(err)
	}
	return factor
}

// TestFactor: five decimals, as the printed Table 54D has them. Computed from its
// published formula with another program's arithmetic (bc, 20 digits).
func TestFactor(t *testing.T) {
	for _, c := range []struct {
		at   quantity.Temperature
		d    quantity.Density
		want float64
	}{
		{0, 880, 1.01067},
		{15 * quantity.Degree, 880, 1},
		{25 * quantity.Degree, 880, 0.99285},
		{60 * quantity.Degree, 880, 0.96761},
		{80 * quantity.Degree, 880, 0.95305},
		{100 * quantity.Degree, 880, 0.93840},
		{70 * quantity.Degree, 875, 0.96011},
		{-20 * quantity.Degree, 800, 1.02723}, // and the corners of the table
		{150 * quantity.Degree, 800, 0.89144},
		{-20 * quantity.Degree, 1164, 1.01877},
		{150 * quantity.Degree, 1164, 0.92584},
	} {
		if got := vcf(t, c.at, c.d); math.Abs(got-c.want) > 0.000005 {
			t.Errorf("%v at %v: %.6f, want %.5f", c.d, c.at, got, c.want)
		}
		if c.d == AssumedDensity && vcf(t, c.at, 0) != vcf(t, c.at, c.d) {
			t.Errorf("at %v another density is assumed", c.at)
		}
	}
}

// TestAt15 has volumes computed from the formula of Table 54D. Drained hot at
// 2.4 US gal (9.085 L) and filled with 9.3 L is the example job.
func TestAt15(t *testing.T) {
	for _, c := range []struct {
		v    quantity.Volume
		at   quantity.Temperature
		d    quantity.Density
		want quantity.Volume
	}{
		{10_000, 80 * quantity.Degree, 880, 9530}, // 9.53046 L
		{4_500, 70 * quantity.Degree, 875, 4320},  // 4.32049 L
		{6_000, 5 * quantity.Degree, 880, 6043},   // 6.04271 L
		{9_085, 68 * quantity.Degree, 880, 8738},
		{9_300, 16 * quantity.Degree, 880, 9293},
		{9_300, 16 * quantity.Degree, 0, 9293}, // 880 is assumed
		{9_085, 15 * quantity.Degree, 1164, 9085},
		{0, 100 * quantity.Degree, 880, 0},
		{quantity.MaxVolume, 25 * quantity.Degree, 880, 99_285_087},
	} {
		got, err := At15(c.v, c.at, c.d)
		if err != nil || got != c.want {
			t.Errorf("%v at %v of %v: %v, want %v (%v)", c.v, c.at, c.d, got, c.want, err)
		}
	}
}

// TestFrom15: the same, divided instead of multiplied; 10 L of oil in an engine
// fill an extractor with 10.413 L at 70 degC. Computed as TestFactor.
func TestFrom15(t *testing.T) {
	for _, c := range []struct {
		v    quantity.Volume
		at   quantity.Temperature
		d    quantity.Density
		want quantity.Volume
	}{
		{10_000, 70 * quantity.Degree, 880, 10_413}, // 10.41299 L
		{10_000, 70 * quantity.Degree, 0, 10_413},
		{9_293, 16 * quantity.Degree, 880, 9300},   // 9.29964 L
		{10_000, -20 * quantity.Degree, 800, 9735}, // 9.73495 L
		{2_200, 15 * quantity.Degree, 900, 2200},
		{quantity.MaxVolume, 150 * quantity.Degree, 800, 112_178_379},
	} {
		got, err := From15(c.v, c.at, c.d)
		if err != nil || got != c.want {
			t.Errorf("%v at 15 degC of %v is %v at %v, want %v (%v)", c.v, c.d, got, c.at, c.want, err)
		}
	}
}

// TestLevelsTemperatureMatters: the old oil carried over in the example job, by
// what the level's oil may have been at: 0.47 L at 15 degC, 0.26 at 45, 0.15 at
// 60. The content at level 0.85 is 10.0 L less 0.15 of 1.6 L. Computed from the
// formula of Table 54D.
func TestLevelsTemperatureMatters(t *testing.T) {
	const content, filled quantity.Volume = 9760, 9293
	for at, want := range map[quantity.Temperature]quantity.Volume{
		15 * quantity.Degree: 470, 45 * quantity.Degree: 260, 60 * quantity.Degree: 150,
	} {
		at15, err := At15(content, at, 880)
		if err != nil {
			t.Fatal(err)
		}
		if carried := (at15 - filled + 5) / 10 * 10; carried != want {
			t.Errorf("level at %v: %v carried over, want %v", at, carried, want)
		}
	}
}

// TestRulesOfThumb: 0.07 % a kelvin, so that a hot drain at 80 degC reads about
// 4.7 % high; a density wrong by 20 kg/m3 moves the factor there by 0.0011.
func TestRulesOfThumb(t *testing.T) {
	const hot = 80 * quantity.Degree
	if perKelvin := (1 - vcf(t, 25*quantity.Degree, 880)) / 10; math.Abs(perKelvin-0.0007) > 0.00005 {
		t.Errorf("%.5f a kelvin", perKelvin)
	}
	if high := 1 - vcf(t, hot, 880); math.Abs(high-0.047) > 0.0005 {
		t.Errorf("a drain at 80 degC reads %.4f high", high)
	}
	if moved := vcf(t, hot, 900) - vcf(t, hot, 880); math.Abs(moved-0.0011) > 0.00005 {
		t.Errorf("20 kg/m3 move the factor by %.5f", moved)
	}
}

// TestAgreesWithTable6D: Table 6D of the same standard has the base at 60 degF,
// with 0.34878 for its constant. From one temperature to another both tables have
// to make the same of an oil, to 0.00002: the formula is not quite the same curve
// from another base, and the tables are printed with five decimals.
func TestAgreesWithTable6D(t *testing.T) {
	if got := math.Round(0.34878*1.8*10_000) / 10_000; got != expansion {
		t.Fatalf("0.34878 a degF is %v a kelvin, not %v", got, expansion)
	}
	const baseF = 15 + 5.0/9 // 60 degF, in degC
	for d := minCorrectedDensity; d <= maxCorrectedDensity; d += 14 {
		alpha := expansion / float64(d) * (baseF - 15)
		toBase := math.Exp(-alpha * (1 + 0.8*alpha)) // 54D, at 60 degF
		at60F := float64(d) * toBase                 // density there
		for at := minCorrectedAt; at <= maxCorrectedAt; at += 5 * quantity.Degree {
			fahrenheit := float64(at)/10*1.8 + 32
			alpha := 0.34878 / at60F * (fahrenheit - 60)
			table6 := math.Exp(-alpha * (1 + 0.8*alpha))
			if got := vcf(t, at, d) / toBase; math.Abs(got-table6) > 0.00002 {
				t.Fatalf("%v at %v: %.6f by Table 54D, %.6f by Table 6D", d, at, got, table6)
			}
		}
	}
}

func TestCorrectionRefuses(t *testing.T) {
	for _, c := range []struct {
		v    quantity.Volume
		at   quantity.Temperature
		d    quantity.Density
		want string // begins so
	}{
		{1000, 200, 799, "density 799 kg/m3: an oil's volume is corrected from 800 kg/m3 to 1164 kg/m3: write"},
		{1000, 200, 1165, "density 1165 kg/m3: "},
		{1000, 200, -1, "density -1 kg/m3: "},
		{1000, -201, 880, "temperature -20.1 °C: an oil's volume is corrected from -20 °C to 150 °C: write"},
		{1000, 1501, 0, "temperature 150.1 °C: "},
		{-1, 200, 880, "volume -0.001 L: outside 0 L to 100000 L"},
		{quantity.MaxVolume + 1, 200, 880, "volume 100000.001 L: "},
		{math.MinInt64, math.MinInt64, math.MinInt64, "volume "},
		{1000, math.MaxInt64, 1, "density 1 kg/m3: "}, // both are told
	} {
		for name, f := range map[string]func(quantity.Volume, quantity.Temperature, quantity.Density) (quantity.Volume, error){"At15": At15, "From15": From15} {
			got, err := f(c.v, c.at, c.d)
			if err == nil || got != 0 || !strings.HasPrefix(err.Error(), c.want) {
				t.Errorf("%s: %v at %v of %v: %v, %v; want %s", name, c.v, c.at, c.d, got, err, c.want)
			}
		}
	}
	for _, at := range []quantity.Temperature{minCorrectedAt, maxCorrectedAt} {
		for _, d := range []quantity.Density{minCorrectedDensity, maxCorrectedDensity} {
			if _, err := At15(1000, at, d); err != nil {
				t.Errorf("%v at %v: %v", d, at, err)
			}
		}
	}
}

// TestThereAndBack: oil warmed and measured again is the same oil, to the mL that
// the first rounding can take away; more of it is never less, and warm oil takes
// up no less room than cold.
func TestThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := quantity.Volume(rapid.Int64Range(0, int64(quantity.MaxVolume)).Draw(t, "mL at 15 degC"))
		at := quantity.Temperature(rapid.Int64Range(int64(minCorrectedAt), int64(maxCorrectedAt)).Draw(t, "1/10 degC"))
		d := quantity.Density(rapid.Int64Range(int64(minCorrectedDensity), int64(maxCorrectedDensity)).Draw(t, "kg/m3"))
		warm, err := From15(v, at, d)
		if err != nil {
			t.Fatal(err)
		}
		if (at >= correctionBase) != (warm >= v) && warm != v {
			t.Errorf("%v at 15 degC is %v at %v", v, warm, at)
		}
		if warm > quantity.MaxVolume {
			return
		}
		back, err := At15(warm, at, d)
		if off := back - v; err != nil || off < -1 || off > 1 {
			t.Errorf("%v at 15 degC is %v at %v, and that %v again (%v)", v, warm, at, back, err)
		}
		if more, err := At15(warm, min(at+1, maxCorrectedAt), d); err != nil || more > back {
			t.Errorf("%v at %v is %v, and %v a tenth of a degree warmer", warm, at, back, more)
		}
	})
}
