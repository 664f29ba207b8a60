package quantity

import "fmt"

// Portion is one amount as it was measured: a volume or a mass in the unit
// and with the decimals it was written in, and its temperature where that
// was said.
//
// Amount is the written figure in mL (g), rounded half away from zero. With
// Unit and Places it gives back the figure: 9085 mL, US gallons and one
// decimal can only have been 2.4 US gal.
type Portion struct {
	Amount int64        `cbor:"1,keyasint"` // mL or g, by Unit
	Unit   Unit         `cbor:"2,keyasint"`
	Places uint8        `cbor:"3,keyasint,omitempty"` // decimals as written
	At     *Temperature `cbor:"4,keyasint,omitempty"` // nil when not said
}

// ParsePortion reads "2.4 US gal at 68 C", "7.7 kg" or any other volume or
// mass, with or without its temperature.
func ParsePortion(text string) (Portion, error) {
	return parsePortion(kind{noun: "an amount", example: "9.4 L"}, text)
}

func parsePortion(k kind, text string) (Portion, error) {
	amount, at, said := cutAt(text)
	p, err := parseAmount(k, amount, volume, mass)
	if err != nil || !said {
		return p, err
	}
	if at == "" {
		return Portion{}, refuse(text, `no temperature after "at": write %s at 16 C`, escaped(amount))
	}
	t, err := ParseTemperature(at)
	if err != nil {
		return Portion{}, err
	}
	p.At = &t
	return p, nil
}

// parseAmount reads a figure with a unit of one of the dimensions, which are
// volume and mass.
func parseAmount(k kind, text string, of ...dimension) (Portion, error) {
	d, word, err := k.scan(text)
	if err != nil {
		return Portion{}, err
	}
	row, err := findUnit(text, word, of...)
	if err != nil {
		return Portion{}, err
	}
	p := Portion{Unit: row.unit, Places: d.places()}
	if row.of == mass {
		var m Mass
		m, err = stored[Mass](text, d, row.scale)
		p.Amount = int64(m)
	} else {
		var v Volume
		v, err = stored[Volume](text, d, row.scale)
		p.Amount = int64(v)
	}
	if err != nil {
		return Portion{}, err
	}
	return p, nil
}

// Volume returns the volume as measured, not corrected for temperature, and
// false for a mass.
func (p Portion) Volume() (Volume, bool) {
	if !p.Unit.IsVolume() {
		return 0, false
	}
	return Volume(p.Amount), true
}

// Mass returns the mass, and false for a volume.
func (p Portion) Mass() (Mass, bool) {
	if !p.Unit.IsMass() {
		return 0, false
	}
	return Mass(p.Amount), true
}

// In is the same figure in another unit of the same kind, with the same decimals: 2.4 US
// gal becomes 2.4 imp gal, another amount. It reports false where the unit does not
// take those decimals, or the amount does not fit.
func (p Portion) In(unit Unit) (Portion, bool) {
	figure, ok := p.Unit.row().scale.figureOf(p.Amount, p.Places)
	if !ok || p.Unit.IsVolume() != unit.IsVolume() {
		return Portion{}, false
	}
	if p.Amount, ok = unit.row().scale.of(figure, p.Places); !ok {
		return Portion{}, false
	}
	p.Unit = unit
	return p, p.Valid() == nil
}

// Rounded is the amount in another unit of the same kind, rounded half away from zero
// to so many decimals: 5 L is "5.283" US qt. It reports false for a unit of another
// kind, or too many decimals.
func (p Portion) Rounded(unit Unit, places uint8) (string, bool) {
	s := unit.row().scale
	if s.factor == 0 || p.Amount < 0 || p.Unit.IsVolume() != unit.IsVolume() || p.Unit.IsMass() != unit.IsMass() || int(places) >= len(pow10) {
		return "", false
	}
	n, ok := mulDiv(uint64(p.Amount), s.divisor*pow10[places], s.factor)
	return fixed(n, int(places)), ok
}

// Written is the amount as it was written, without the temperature: "2.4 US gal".
// A portion that is not Valid has no such text; what it holds is printed as
// numbers.
func (p Portion) Written() string {
	scale := p.Unit.row().scale
	if figure, ok := scale.figureOf(p.Amount, p.Places); ok {
		return fixed(figure, int(p.Places)) + " " + scale.name
	}
	return fmt.Sprintf("no amount (%d, %v, %d decimals)", p.Amount, p.Unit, p.Places)
}

// String is the portion as it was written, the temperature in degC:
// "2.4 US gal at 68 C".
func (p Portion) String() string {
	if p.At == nil {
		return p.Written()
	}
	return p.Written() + " at " + p.At.degrees() + " C"
}

// Valid refuses a portion that no written text could have given: an unknown
// unit, more decimals than the unit takes, an amount or temperature outside
// the limits, or an amount that is no rounded figure of that unit and those
// decimals.
func (p Portion) Valid() error {
	row := p.Unit.row()
	if row.of != volume && row.of != mass {
		return fmt.Errorf("%v is no unit of volume or mass", p.Unit)
	}
	if p.Places > row.scale.places {
		return fmt.Errorf("%d decimals for %s: at most %d", p.Places, row.scale.name, row.scale.places)
	}
	check := Volume(p.Amount).Valid
	if row.of == mass {
		check = Mass(p.Amount).Valid
	}
	if err := check(); err != nil {
		return err
	}
	if _, ok := row.scale.figureOf(p.Amount, p.Places); !ok {
		return fmt.Errorf("amount %d is no figure in %s with %d decimals", p.Amount, row.scale.name, p.Places)
	}
	if p.At != nil {
		return p.At.Valid()
	}
	return nil
}
