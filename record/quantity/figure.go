package quantity

import (
	"errors"
	"fmt"
)

// Figure is a measured reading of any kind, kept as it was written: Digits in
// units of 10^-Places of Unit. It is shown, not reckoned with, but for a
// temperature (see Figure.Temperature).
type Figure struct {
	Digits int64  `cbor:"1,keyasint"`
	Places uint8  `cbor:"2,keyasint,omitempty"`
	Unit   string `cbor:"3,keyasint,omitempty"` // "" for a bare number
}

// readingUnits are the units that a reading may be in besides those of
// unitTable: SI, or customary in engine handbooks.
var readingUnits = []string{"mm", "um", "in", "bar", "kPa", "psi", "V", "A", "ohm", "rpm",
	"deg", "N m", "lbf ft", "h", "s", "Hz", "pH", "ppm", "mg/kg", "mm2/s"}

const (
	maxFigurePlaces = 4
	maxFigureDigits = 1_000_000_000_000
)

var readingKind = kind{noun: "a reading", example: "-27 C", signed: true}

// ParseFigure reads a reading such as "-27 C", "0.25 mm" or "3", with at most
// four decimals, or what the unit takes elsewhere. A bare number is a count or
// a ratio.
func ParseFigure(text string) (Figure, error) {
	d, word, err := readingKind.scan(text)
	if err != nil {
		return Figure{}, err
	}
	s := scale{name: "a reading", places: maxFigurePlaces}
	unit := ""
	if word != "" {
		if s, err = readingUnit(word); err != nil {
			return Figure{}, err
		}
		unit = s.name
	}
	if err := d.decimals(text, s); err != nil {
		return Figure{}, err
	}
	n, ok := d.digits()
	f := Figure{Digits: n, Places: d.places(), Unit: unit}
	if !ok || f.Valid() != nil {
		return Figure{}, refuse(text, "outside what a reading may be")
	}
	return f, nil
}

// readingUnit finds the unit of a reading, in any letter case. Its scale is of
// use only for its name and decimals.
func readingUnit(word string) (scale, error) {
	key := unitKey(word)
	if row := called(key); row != nil {
		return row.scale, nil
	}
	for _, name := range readingUnits {
		if lowerASCII(name) == key {
			return scale{name: name, places: maxFigurePlaces}, nil
		}
	}
	var names []string
	for _, row := range unitTable {
		names = append(names, row.scale.name)
	}
	return scale{}, unknownUnit(word, append(names, readingUnits...))
}

// Valid checks a figure that came out of a record.
func (f Figure) Valid() error {
	places := uint8(maxFigurePlaces)
	if f.Unit != "" {
		s, err := readingUnit(f.Unit)
		if err != nil {
			return err
		}
		if s.name != f.Unit {
			return fmt.Errorf(`unit "%s": written %s in a record`, escaped(f.Unit), s.name)
		}
		places = s.places
	}
	if f.Places > places || f.Digits > maxFigureDigits || f.Digits < -maxFigureDigits {
		return errors.New("reading is out of range")
	}
	if f.Unit == "C" || f.Unit == "F" {
		_, err := ParseTemperature(f.String())
		return err
	}
	return nil
}

// String gives the figure as written, "-27 C".
func (f Figure) String() string {
	number := fixed(f.Digits, int(f.Places))
	if f.Unit == "" {
		return number
	}
	return number + " " + f.Unit
}

// Temperature gives a figure in C or F as a temperature, rounded to 1/10 degC.
func (f Figure) Temperature() (Temperature, bool) {
	if f.Unit != "C" && f.Unit != "F" {
		return 0, false
	}
	t, err := ParseTemperature(f.String())
	return t, err == nil
}

// Share gives a figure in % as a ratio. A percentage has one decimal at most, so
// that nothing is rounded.
func (f Figure) Share() (Ratio, bool) {
	if f.Unit != "%" {
		return 0, false
	}
	share, err := ParsePercent(f.String())
	return share, err == nil
}
