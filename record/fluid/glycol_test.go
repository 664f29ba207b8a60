package fluid

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record/quantity"
)

var bothGlycols = []Glycol{Ethylene, Propylene}

func near(got, want, within float64) bool { return math.Abs(got-want) <= within }

// wantError is for a refusal that has to say each of the texts.
func wantError(t *testing.T, what string, err error, texts ...string) {
	t.Helper()
	if err == nil {
		t.Errorf("%s: taken", what)
		return
	}
	for _, text := range texts {
		if !strings.Contains(err.Error(), text) {
			t.Errorf("%s: %q does not say %q", what, err, text)
		}
	}
}

func TestGlycolNames(t *testing.T) {
	for _, g := range bothGlycols {
		if named, ok := GlycolNamed(g.String()); !ok || named != g {
			t.Errorf("%v is read back as %v", g, named)
		}
		if g.Other() == g || g.Other().Other() != g {
			t.Errorf("the other of %v is %v", g, g.Other())
		}
	}
	if Ethylene.String() != "ethylene" || Propylene.String() != "propylene" || Glycol(0).Other() != 0 || Glycol(3).Other() != 0 {
		t.Errorf("%v, %v, %v, %v", Ethylene, Propylene, Glycol(0).Other(), Glycol(3).Other())
	}
	for _, name := range []string{"", "Ethylene", "glycerol", "unknown (0)"} {
		if g, ok := GlycolNamed(name); ok {
			t.Errorf("%q is %v", name, g)
		}
	}
}

// TestMassOfVolume: two decimals of a per cent, computed from the three densities.
// The last of each is computed in another unit system, pounds of a US gallon.
func TestMassOfVolume(t *testing.T) {
	for _, c := range []struct {
		g            Glycol
		volume, mass float64 // per cent
	}{
		{Ethylene, 30, 32.34},
		{Ethylene, 40, 42.65},
		{Ethylene, 50, 52.73},
		{Propylene, 40, 40.90},
		{Propylene, 30, 30.79},
		{Propylene, 50, 50.93},
		{Ethylene, 25, 27.11},  // 0.25 of 9.2926 lb/gal beside 0.75 of 8.3304: 2.3232 of 8.5709 lb
		{Propylene, 25, 25.71}, // 0.25 of 8.6467 lb/gal beside 0.75 of 8.3304: 2.1617 of 8.4095 lb
		{Ethylene, 0, 0},
		{Propylene, 100, 100},
	} {
		if got := glycols[c.g].massOf(c.volume/100) * 100; !near(got, c.mass, 0.0051) {
			t.Errorf("%v %v %% by volume: %.3f %% by mass, want %.2f", c.g, c.volume, got, c.mass)
		}
		if got := glycols[c.g].volumeOf(c.mass/100) * 100; !near(got, c.volume, 0.006) {
			t.Errorf("%v %v %% by mass: %.3f %% by volume, want %v", c.g, c.mass, got, c.volume)
		}
	}
}

// TestSharesByWeighing pours every strength into a litre jug and weighs it: whole
// milligrams, no formula. The way back is the strength whose mass is nearest.
func TestSharesByWeighing(t *testing.T) {
	mgPerML := map[Glycol]int64{Ethylene: 11135, Propylene: 10361} // tenths
	const water = 9982
	for _, g := range bothGlycols {
		var back [1001]quantity.Ratio // by thousandths of the mass, from every strength in 1/100 000
		for fine := int64(0); fine <= 100_000; fine++ {
			glycolMg, waterMg := fine*mgPerML[g], (100_000-fine)*water
			thousandth := (glycolMg*1000 + (glycolMg+waterMg)/2) / (glycolMg + waterMg)
			if glycolMg*1000 <= thousandth*(glycolMg+waterMg) {
				back[thousandth] = quantity.Ratio((fine + 50) / 100)
			}
			if fine%100 != 0 {
				continue
			}
			if got, err := MassShare(g, quantity.Ratio(fine/100)); err != nil || int64(got) != thousandth {
				t.Errorf("%v %v by volume: %v by mass, weighed %d (%v)", g, quantity.Ratio(fine/100).Percent(), got, thousandth, err)
			}
		}
		for mass, want := range back {
			if got, err := VolumeShare(g, quantity.Ratio(mass)); err != nil || got-want > 1 || want-got > 1 {
				t.Errorf("%v %v by mass: %v by volume, weighed %v (%v)", g, quantity.Ratio(mass).Percent(), got, want, err)
			}
		}
	}
}

func TestSharesRefuse(t *testing.T) {
	for _, share := range []quantity.Ratio{-1, 1001, math.MinInt64, math.MaxInt64} {
		_, err := MassShare(Ethylene, share)
		wantError(t, share.Percent()+" by volume", err, share.Percent(), "by volume", "from 0 % to 100 %")
		_, err = VolumeShare(Propylene, share)
		wantError(t, share.Percent()+" by mass", err, share.Percent(), "by mass", "from 0 % to 100 %")
	}
	for _, g := range []Glycol{0, 3, 255} {
		_, err := MassShare(g, 500)
		wantError(t, g.String(), err, "write ethylene or propylene")
		_, err = VolumeShare(g, 500)
		wantError(t, g.String(), err, "write ethylene or propylene")
	}
}

// TestSharesThereAndBack: glycol is the heavier part, so that its share by mass is
// never the smaller; both rise together.
func TestSharesThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := rapid.SampledFrom(bothGlycols).Draw(t, "glycol")
		volume := quantity.Ratio(rapid.Int64Range(0, 1000).Draw(t, "by volume"))
		mass, err := MassShare(g, volume)
		if err != nil || mass < volume {
			t.Fatalf("%v %v by volume is %v by mass, %v", g, volume, mass, err)
		}
		back, err := VolumeShare(g, mass)
		if err != nil || back-volume > 1 || volume-back > 1 {
			t.Fatalf("%v %v by volume comes back as %v, %v", g, volume, back, err)
		}
		if more, err := MassShare(g, min(volume+2, 1000)); err != nil || more < mass || (more == mass && volume < 1000-2) {
			t.Fatalf("%v: two thousandths more than %v by volume is %v by mass, not more than %v", g, volume, more, mass)
		}
	})
}
