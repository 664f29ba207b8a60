package fluid

import (
	"errors"
	"fmt"
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record/quantity"
)

// TestFreezesAt: two decimals, computed from Melinder's polynomial with another
// program's arithmetic.
func TestFreezesAt(t *testing.T) {
	for _, c := range []struct {
		g          Glycol
		mass, degC float64
	}{
		{Ethylene, 20, -7.95},
		{Ethylene, 30, -14.58},
		{Ethylene, 40, -23.81},
		{Ethylene, 50, -35.99},
		{Propylene, 30, -12.79},
		{Propylene, 40, -20.57},
		{Propylene, 50, -32.19},
		{Ethylene, 10, -3.36},
		{Ethylene, 60, -51.20},
		{Propylene, 20, -7.17},
		{Propylene, 60, -50.00},
		{Ethylene, 0, 0.00},
		{Propylene, 0, -0.02}, // where it is fitted to no better than that
	} {
		if got := glycols[c.g].freezesAt(c.mass / 100); !near(got, c.degC, 0.0051) {
			t.Errorf("%v %v %% by mass: %.3f degC, want %.2f", c.g, c.mass, got, c.degC)
		}
	}
}

// TestFreezesAsTheTablesDo: the strengths that Melinder's tables are printed for,
// which are those that freeze at whole degrees. The strengths are as an open library
// lists them, which degree belongs to which is from memory.
func TestFreezesAsTheTablesDo(t *testing.T) {
	for g, table := range map[Glycol]map[float64]float64{
		Ethylene:  {13.95: -5, 23.5: -10, 30.5: -15, 36.2: -20, 45.5: -30, 52.6: -40},
		Propylene: {15.6: -5, 25.4: -10, 32.9: -15, 39.39: -20, 48.82: -30},
	} {
		for mass, want := range table {
			if got := glycols[g].freezesAt(mass / 100); !near(got, want, 0.6) {
				t.Errorf("%v %v %% by mass: %.2f degC, want %v", g, mass, got, want)
			}
		}
	}
}

// TestFreezesByVolume: propylene glycol by volume, measured by others: Lange's
// Handbook of Chemistry, 15th edition, Table 5.13. It is for the curve and the
// change from volume to mass together.
func TestFreezesByVolume(t *testing.T) {
	for volume, want := range map[quantity.Ratio]float64{
		50: -1.1, 100: -2.2, 150: -3.9, 200: -6.7, 250: -8.9,
		300: -12.8, 350: -16.1, 400: -20.6, 450: -26.7, 500: -33.3,
	} {
		if got, ok := Propylene.freezesAtVolume(of(volume)); !ok || !near(got, want, 1.3) {
			t.Errorf("%v by volume: %.2f degC, the handbook has %v", volume.Percent(), got, want)
		}
	}
}

// powersOfX is Melinder's polynomial multiplied out exactly: the coefficients of x^0
// to x^5 instead of those of (x - middle).
func powersOfX(t testing.TB, g Glycol) []*big.Rat {
	t.Helper()
	exact := func(text string) *big.Rat {
		r, ok := new(big.Rat).SetString(text)
		if !ok {
			t.Fatal(text)
		}
		return r
	}
	table := map[Glycol][]string{
		Ethylene:  {"30.8462", "-15.25", "-0.808", "-0.01334", "-7.293e-5", "1.006e-6", "1.14e-9"},
		Propylene: {"30.7031", "-13.25", "-0.6631", "-0.01094", "-2.283e-4", "-3.409e-6", "1.465e-8"},
	}[g]
	middle := exact(table[0])
	sum := make([]*big.Rat, 6)
	for i := range sum {
		sum[i] = new(big.Rat)
	}
	for n, text := range table[1:] {
		for k := 0; k <= n; k++ { // a (x - m)^n = a sum C(n,k) x^k (-m)^(n-k)
			term := new(big.Rat).Mul(exact(text), new(big.Rat).SetInt(new(big.Int).Binomial(int64(n), int64(k))))
			for range n - k {
				term.Mul(term, new(big.Rat).Neg(middle))
			}
			sum[k].Add(sum[k], term)
		}
	}
	return sum
}

// exactFreezing is the value of powersOfX for a share by mass.
func exactFreezing(powers []*big.Rat, mass *big.Rat) *big.Rat {
	x := new(big.Rat).Mul(mass, big.NewRat(100, 1))
	sum, power := new(big.Rat), big.NewRat(1, 1)
	for _, c := range powers {
		sum.Add(sum, new(big.Rat).Mul(c, power))
		power.Mul(power, x)
	}
	return sum
}

// TestFreezingPointInPowersOfX compares every strength with the polynomial in
// another base, worked out exactly in degF: a whole degree C is the nearest where
// twice the difference is at most 1.8 degF, the warmer of two.
func TestFreezingPointInPowersOfX(t *testing.T) {
	for _, g := range bothGlycols {
		powers := powersOfX(t, g)
		for share := quantity.Ratio(0); share <= strongestCurve; share++ {
			want := exactFreezing(powers, big.NewRat(int64(share), 1000))
			float, _ := want.Float64()
			if got := glycols[g].freezesAt(of(share)); !near(got, float, 1e-9) {
				t.Errorf("%v %v by mass: %v degC, want %v", g, share.Percent(), got, float)
			}
			got, err := FreezingPoint(g, share)
			if err != nil || got%quantity.Degree != 0 {
				t.Fatalf("%v %v by mass: %v, %v", g, share.Percent(), got, err)
			}
			degF := new(big.Rat).Mul(want, big.NewRat(9, 5))
			degF.Add(degF, big.NewRat(32, 1))
			printed := big.NewRat(int64(got/quantity.Degree)*9+160, 5)
			above := new(big.Rat).Sub(printed, degF)
			if above.Cmp(big.NewRat(9, 10)) > 0 || above.Cmp(big.NewRat(-9, 10)) <= 0 {
				t.Errorf("%v %v by mass: %v, %s degF", g, share.Percent(), got, degF.FloatString(3))
			}
		}
	}
}

func TestWholeDegrees(t *testing.T) {
	for degC, want := range map[float64]quantity.Temperature{-12.5: -120, -12.51: -130, -12.49: -120, -0.3: 0, -0.5: 0, -0.51: -10, 0.5: 10} {
		if got := wholeDegrees(degC); got != want {
			t.Errorf("%v degC is printed as %v, want %v", degC, got, want)
		}
	}
}

func TestFreezingPointRefuses(t *testing.T) {
	for _, g := range bothGlycols {
		for _, share := range []quantity.Ratio{-1, 601, 1000, math.MinInt64, math.MaxInt64} {
			_, err := FreezingPoint(g, share)
			wantError(t, share.Percent(), err, share.Percent(), "by mass", "from 0 % to 60 %")
		}
		if end, err := FreezingPoint(g, 600); err != nil || end > -500 {
			t.Errorf("%v at 60 %% by mass: %v, %v", g, end, err)
		}
	}
	for _, g := range []Glycol{0, 3} {
		_, err := FreezingPoint(g, 400)
		wantError(t, g.String(), err, "write ethylene or propylene")
	}
}

// TestStrengthOf: per cent by volume, computed with another program by the secant
// method on the whole way from volume to degC: ethylene -27 degC 40.22 %, and so on.
func TestStrengthOf(t *testing.T) {
	for _, c := range []struct {
		g        Glycol
		freezing quantity.Temperature
		want     quantity.Ratio
	}{
		{Ethylene, -10, 30},    // 2.89
		{Ethylene, -50, 130},   // 12.74
		{Ethylene, -100, 220},  // 21.59
		{Ethylene, -200, 340},  // 33.75
		{Ethylene, -270, 400},  // 40.22
		{Ethylene, -370, 480},  // 48.00
		{Ethylene, -500, 570},  // 56.61
		{Propylene, -10, 40},   // 4.11
		{Propylene, -100, 250}, // 24.68
		{Propylene, -250, 430}, // 43.41
		{Propylene, -270, 450}, // 45.12
		{Propylene, -400, 540}, // 53.99
		{Propylene, -500, 590}, // 59.10
		{Ethylene, -1, 0},      // less than half a per cent
	} {
		if got, err := StrengthOf(c.g, c.freezing); err != nil || got != c.want {
			t.Errorf("%v that freezes at %v: %v by volume, want %v (%v)", c.g, c.freezing, got.Percent(), c.want.Percent(), err)
		}
	}
}

// TestStrengthOfByPouring adds glycol to a jug a drop at a time, 1/100 % by volume,
// weighs it and looks it up on the exact curve in powers of x, until it freezes no
// sooner than asked.
func TestStrengthOfByPouring(t *testing.T) {
	weight := map[Glycol]int64{Ethylene: 11135, Propylene: 10361}
	for _, g := range bothGlycols {
		var powers []float64
		for _, c := range powersOfX(t, g) {
			f, _ := c.Float64()
			powers = append(powers, f)
		}
		drops := int64(0)
		freezes := func() float64 {
			poured := float64(drops * weight[g])
			x := 100 * poured / (poured + float64((10_000-drops)*9982))
			return powers[0] + x*(powers[1]+x*(powers[2]+x*(powers[3]+x*(powers[4]+x*powers[5]))))
		}
		for freezing := quantity.Temperature(-1); freezing >= -500; freezing-- {
			for freezes() > inDegC(freezing) {
				drops++
			}
			got, err := StrengthOf(g, freezing)
			if err != nil || got%10 != 0 || !near(float64(got)*10, float64(drops), 51) {
				t.Fatalf("%v that freezes at %v: %v by volume, poured %.2f %% (%v)", g, freezing, got.Percent(), float64(drops)/100, err)
			}
		}
	}
}

func TestStrengthOfRefuses(t *testing.T) {
	for _, g := range bothGlycols {
		for _, freezing := range []quantity.Temperature{0, 1, 200, math.MaxInt64} {
			if _, err := StrengthOf(g, freezing); !errors.Is(err, ErrNoGlycol) {
				t.Errorf("%v that freezes at %v: %v", g, freezing, err)
			}
		}
		for _, freezing := range []quantity.Temperature{-513, -600, math.MinInt64} {
			if _, err := StrengthOf(g, freezing); !errors.Is(err, ErrTooStrong) {
				t.Errorf("%v that freezes at %v: %v", g, freezing, err)
			}
		}
	}
	// The curves end at -51.20 and -50.003 degC.
	for g, last := range map[Glycol]quantity.Temperature{Ethylene: -512, Propylene: -500} {
		if _, err := StrengthOf(g, last); err != nil {
			t.Error(err)
		}
		_, err := StrengthOf(g, last-1)
		wantError(t, fmt.Sprintf("%v at %v", g, last-1), err, (last - 1).String(), g.String(), "60 % by mass", "the wrong scale")
	}
	_, err := StrengthOf(0, -100)
	wantError(t, "no glycol named", err, "write ethylene or propylene")
}

// TestFreezingThereAndBack: stronger freezes later all along, ethylene later than
// propylene from 4 % on, and both ways agree within their rounding.
func TestFreezingThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := rapid.SampledFrom(bothGlycols).Draw(t, "glycol")
		mass := quantity.Ratio(rapid.Int64Range(30, 600).Draw(t, "by mass"))
		freezing, err := FreezingPoint(g, mass)
		if err != nil {
			t.Fatal(err)
		}
		if weaker, err := FreezingPoint(g, mass-1); err != nil || weaker < freezing {
			t.Fatalf("%v: %v at %v, but %v at %v", g, freezing, mass, weaker, mass-1)
		}
		if glycols[g].freezesAt(of(mass)) >= glycols[g].freezesAt(of(mass-1)) {
			t.Fatalf("%v: no lower at %v than at %v", g, mass, mass-1)
		}
		byVolume, err := StrengthOf(g, freezing)
		if err != nil {
			t.Fatal(err)
		}
		back, ok := g.freezesAtVolume(of(byVolume))
		// Half a degree, and half a per cent of a slope below 1.8 K a per cent.
		if !ok || !near(back, glycols[g].freezesAt(of(mass)), 0.5+0.9) {
			t.Fatalf("%v %v by mass: freezes at %v, which is %v by volume, which freezes at %.2f", g, mass, freezing, byVolume, back)
		}
	})
	for volume := 40.0; volume <= 560; volume++ {
		ethylene, _ := Ethylene.freezesAtVolume(volume / 1000)
		if propylene, ok := Propylene.freezesAtVolume(volume / 1000); !ok || ethylene >= propylene {
			t.Errorf("%v thousandths by volume: ethylene %.2f, propylene %.2f", volume, ethylene, propylene)
		}
	}
}
