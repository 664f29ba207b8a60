package quantity

import (
	"reflect"
	"testing"
)

// FuzzParse gives any text to every parser: none may panic, and what one
// takes is within its limits and reads back, from its print, as the same
// value with the same print.
func FuzzParse(f *testing.F) {
	for _, c := range refusals {
		if len(c.text) < 60 {
			f.Add(c.text)
		}
	}
	for _, s := range []string{"2.4 US gal at 68 C", "9.4L", "450 mL", "4.5 imp qt at -2.5 °C", "7.7 kg", "17.25 lb at 154 F", "not measured",
		"812.6", "-0.85", "10 %", "55 kW", "75 hp", "75 PS", "0.88 kg/L", "15 min", "2024-02-29", "-27 C", "0.25 mm", "100000 L"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for name, parse := range parsers {
			value, printed, err := parse(text)
			if err != nil {
				continue
			}
			if v, ok := value.(interface{ Valid() error }); !ok || v.Valid() != nil {
				t.Fatalf("%s %q: %v is not valid", name, text, value)
			}
			again, reprinted, err := parse(printed)
			if err != nil || !reflect.DeepEqual(again, value) || reprinted != printed {
				t.Fatalf("%s %q: %s reads back as %v, %v", name, text, printed, again, err)
			}
		}
	})
}

// FuzzPortion gives any numbers, as a decoded record might hold: nothing
// panics, and what is valid is what its own print reads as.
func FuzzPortion(f *testing.F) {
	f.Add(int64(9085), uint8(3), uint8(1), int64(680), true)
	f.Add(int64(9084), uint8(3), uint8(1), int64(0), false)
	f.Add(int64(-1), uint8(255), uint8(255), int64(-1<<63), true)
	f.Add(int64(1<<63-1), uint8(22), uint8(2), int64(1<<63-1), true)
	f.Fuzz(func(t *testing.T, amount int64, unit, places uint8, at int64, said bool) {
		p := Portion{Amount: amount, Unit: Unit(unit), Places: places}
		if said {
			temperature := Temperature(at)
			p.At = &temperature
		}
		printed := p.String()
		got, err := ParsePortion(printed)
		if valid := p.Valid() == nil; valid != (err == nil) || valid && !reflect.DeepEqual(got, p) {
			t.Fatalf("%+v: valid %v, but %q reads as %+v, %v", p, valid, printed, got, err)
		}
	})
}
