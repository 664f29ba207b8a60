package quantity

import (
	"testing"

	"pgregory.net/rapid"
)

// TestFigureRoundTrip: a valid figure, in any unit or none, is what its own
// print reads as.
func TestFigureRoundTrip(t *testing.T) {
	units := append([]string{""}, readingUnits...)
	for _, row := range unitTable {
		units = append(units, row.scale.name)
	}
	valid := 0
	rapid.Check(t, func(t *rapid.T) {
		f := Figure{
			Digits: rapid.Int64Range(-maxFigureDigits-10, maxFigureDigits+10).Draw(t, "digits"),
			Places: rapid.Uint8Range(0, maxFigurePlaces+1).Draw(t, "places"),
			Unit:   rapid.SampledFrom(units).Draw(t, "unit"),
		}
		got, err := ParseFigure(f.String())
		if isValid := f.Valid() == nil; isValid != (err == nil) || isValid && got != f {
			t.Fatalf("%+v: valid %v, but %s reads as %+v, %v", f, isValid, f, got, err)
		}
		if f.Valid() == nil {
			valid++
		}
	})
	if valid == 0 {
		t.Error("no valid figure was drawn")
	}
}

func TestFigureTemperature(t *testing.T) {
	for text, want := range map[string]Temperature{"-27 C": -270, "-16.6 F": -270, "10.5 °C": 105} {
		f, err := ParseFigure(text)
		if err != nil {
			t.Fatal(err)
		}
		if got, ok := f.Temperature(); !ok || got != want {
			t.Errorf("%s: %v, %v; want %v", text, got, ok, want)
		}
	}
	if _, ok := (Figure{Digits: 3, Unit: "bar"}).Temperature(); ok {
		t.Error("3 bar has a temperature")
	}
	for _, f := range []Figure{
		{Digits: 1, Unit: "furlong"}, {Digits: 1, Unit: "°C"}, {Digits: 1, Unit: "BAR"}, {Digits: 1, Places: 2, Unit: "C"},
		{Digits: 1, Places: 5}, {Digits: maxFigureDigits + 1}, {Digits: -maxFigureDigits - 1}, {Digits: 9999, Unit: "C"},
		{Digits: 1, Places: 255, Unit: "mm"}, {Digits: 1, Unit: "gal"},
	} {
		if f.Valid() == nil {
			t.Errorf("%+v is said to be valid", f)
		}
	}
}

func TestFigureShare(t *testing.T) {
	for text, want := range map[string]Ratio{"45 %": 450, "62.5 %": 625, "0 %": 0} {
		f, err := ParseFigure(text)
		if err != nil {
			t.Fatal(err)
		}
		if got, ok := f.Share(); !ok || got != want {
			t.Errorf("%s: %v, %v", text, got, ok)
		}
	}
	for _, f := range []Figure{{Digits: 45}, {Digits: -27, Unit: "C"}, {Digits: -1, Unit: "%"}, {Digits: 2000, Unit: "%"}} {
		if got, ok := f.Share(); ok {
			t.Errorf("%v is a share: %v", f, got)
		}
	}
}
