package fluid

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record/quantity"
)

// TestWrongScale: by volume, ethylene 50 % freezes at -39.85 and propylene at -33.55
// degC; 40 % at -26.75 and -21.42; 20 % at -8.98 and -7.47, too near to tell.
func TestWrongScale(t *testing.T) {
	for _, c := range []struct {
		what     string
		g        Glycol
		freezing quantity.Temperature
		strength quantity.Ratio
		want     bool
	}{
		{"ethylene read on its own scale", Ethylene, -400, 500, false},
		{"propylene read on its own scale", Propylene, -340, 500, false},
		{"ethylene read on propylene's", Ethylene, -340, 500, true},
		{"propylene read on ethylene's", Propylene, -400, 500, true},
		{"40 %, read on ethylene's", Propylene, -267, 400, true},
		{"40 %, within 4 K of both", Propylene, -250, 400, false},
		{"50 %, 4.0 K from propylene", Propylene, -375, 500, false},
		{"50 %, 4.1 K from propylene", Propylene, -377, 500, true},
		{"20 %, both alike", Ethylene, -75, 200, false},
		{"fits neither", Ethylene, -200, 500, false},
		{"fits neither, colder", Propylene, -450, 500, false},
		{"beyond ethylene's curve", Ethylene, -480, 580, false},
		{"no glycol named", 0, -400, 500, false},
		{"no strength", Ethylene, -400, -1, false},
		{"more than all", Ethylene, -400, 1001, false},
		{"far out", Ethylene, math.MinInt64, math.MaxInt64, false},
	} {
		if got := WrongScale(c.g, c.freezing, c.strength); got != c.want {
			t.Errorf("%s: %v", c.what, got)
		}
	}
}

// TestRightScaleIsNeverWrong: an instrument that reads within 1 degC, printed to
// whole degrees and whole per cents, is not blamed.
func TestRightScaleIsNeverWrong(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := rapid.SampledFrom(bothGlycols).Draw(t, "glycol")
		volume := rapid.Float64Range(0, 0.57).Draw(t, "by volume")
		degC, ok := g.freezesAtVolume(volume)
		if !ok {
			t.Fatalf("%v has no freezing point at %v", g, volume)
		}
		off := rapid.Float64Range(-1, 1).Draw(t, "off")
		if freezing, strength := wholeDegrees(degC+off), toRatio(volume).Whole(); WrongScale(g, freezing, strength) {
			t.Fatalf("%v: %v beside %v", g, freezing, strength.Percent())
		}
	})
}

// TestReadOnOther: computed with another program, by the secant method on one curve
// and the polynomial of the other: propylene that reads -27 degC on ethylene's scale
// has 40.22 % by volume beside it and freezes at -21.64.
func TestReadOnOther(t *testing.T) {
	for _, c := range []struct {
		g          Glycol
		read, want quantity.Temperature
	}{
		{Propylene, -100, -80},  // 21.59 %, -8.29
		{Propylene, -200, -160}, // 33.75 %, -16.00
		{Propylene, -270, -220}, // 40.22 %, -21.64
		{Propylene, -400, -340}, // 50.10 %, -33.71
		{Ethylene, -100, -120},  // 24.68 %, -12.17
		{Ethylene, -200, -250},  // 38.50 %, -25.02
		{Ethylene, -270, -330},  // 45.12 %, -33.11
		{Ethylene, -370, -430},  // 52.21 %, -43.12
	} {
		if got, ok := ReadOnOther(c.g, c.read); !ok || got != c.want {
			t.Errorf("%v that reads %v on the other scale freezes at %v, want %v", c.g, c.read, got, c.want)
		}
	}
	for _, c := range []struct {
		g    Glycol
		read quantity.Temperature
	}{
		{Ethylene, 0}, {Ethylene, -490}, {Ethylene, -501}, {Propylene, -513}, {Propylene, 100},
		{0, -200}, {3, -200}, {Ethylene, math.MinInt64}, {Propylene, math.MaxInt64},
	} {
		if got, ok := ReadOnOther(c.g, c.read); ok {
			t.Errorf("%v that reads %v on the other scale freezes at %v", c.g, c.read, got)
		}
	}
}

// TestReadOnOtherThereAndBack: taken for the other and back it is the same reading,
// within the rounding; and no further out than ASTM D3321's 10 degC.
func TestReadOnOtherThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := rapid.SampledFrom(bothGlycols).Draw(t, "glycol")
		read := quantity.Temperature(rapid.Int64Range(-440, -20).Draw(t, "read"))
		truth, ok := ReadOnOther(g, read)
		if !ok || truth-read > 100 || read-truth > 100 {
			t.Fatalf("%v that reads %v freezes at %v, %v", g, read, truth, ok)
		}
		back, ok := ReadOnOther(g.Other(), truth)
		if !ok || back-read > 15 || read-back > 15 {
			t.Fatalf("%v that reads %v freezes at %v, and that comes back as %v", g, read, truth, back)
		}
	})
}
