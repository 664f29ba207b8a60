package quantity

import (
	"fmt"
	"math"
)

// Style is how a yard writes figures in text for people. The zero value prints what
// the quantities themselves print. A style changes no value: litres stand first and
// are the same in every style.
//
// Nothing that is typed, and nothing that programs read, is printed in a style.
type Style struct {
	Second Unit // volumes also in this unit, in brackets; 0: in litres alone
	Dates  DateOrder
	// Comma is the decimal marker of all figures, since one text has one marker;
	// point or comma: SI Brochure, 9th edition, 5.4.4.
	Comma bool
}

// Marked prints a figure that is written with a point, with its unit if it has one, with
// the style's decimal marker: "0,85", "-2,5 °C". A point that has no digit on each side
// stays.
func (s Style) Marked(figure string) string {
	if !s.Comma {
		return figure
	}
	text := []byte(figure)
	for i := 1; i+1 < len(text); i++ {
		if text[i] == '.' && isDigit(text[i-1]) && isDigit(text[i+1]) {
			text[i] = ','
		}
	}
	return string(text)
}

// Hours prints hours as Hours.String does: "812,6".
func (s Style) Hours(h Hours) string { return s.Marked(h.String()) }

// Volume prints litres as Volume.String does, and the second unit: "9.4 L (2.48 US gal)".
func (s Style) Volume(v Volume) string {
	places := 2 // String leaves out noughts at the end that may well have been measured
	if v%10 != 0 {
		places = 3
	}
	return s.withSecond(v.String(), v, places)
}

// Hundredths prints litres as Volume.Hundredths does, and the second unit, converted from
// the volume as it was before it was rounded: "0.26 L (0.07 US gal)".
func (s Style) Hundredths(v Volume) string { return s.withSecond(v.Hundredths(), v, 2) }

// Tenths prints litres rounded to one decimal, half away from zero, without a nought
// after the point, and the second unit, for what is measured no better: "8.7 L (2.3 US
// gal)", "9 L (2.4 US gal)".
func (s Style) Tenths(v Volume) string {
	half := Litre / 20
	if v < 0 {
		half = -half
	}
	return s.withSecond(((v + half) / (Litre / 10) * (Litre / 10)).String(), v, 1)
}

func (s Style) withSecond(litres string, v Volume, places int) string {
	litres = s.Marked(litres)
	if figure, ok := s.InSecond(v, places); ok {
		return fmt.Sprintf("%s (%s %v)", litres, figure, s.Second)
	}
	return litres
}

// InSecond is a volume in the second unit, the figure alone, as it stands beside litres
// with so many decimals, 0 to 3. It reports false where the style has none, or past int64.
//
// It is rounded once, half away from zero, and never shown more closely than the litres
// are: to the most decimals for which a step of the last is no smaller than the step of the
// litres, or smaller by less than a tenth, as for the US quart. A fluid ounce beside
// 0.1 L is so given in tens. Common practice, no source.
func (s Style) InSecond(v Volume, places int) (figure string, ok bool) {
	if !s.Second.besideLitres() || places < 0 || places >= len(pow10) {
		return "", false
	}
	factor := s.Second.row().scale.factor
	decimals, step := s.Second.decimalsBeside(pow10[places])
	n, ok := mulDiv(magnitude(int64(v)), tenBillion*pow10[decimals], factor*step)
	if !ok || n > math.MaxInt64/int64(step) {
		return "", false
	}
	if n *= int64(step); v < 0 {
		n = -n
	}
	return s.Marked(fixed(n, decimals)), true
}

// besideLitres says whether volumes may be told in u beside litres, which litres and
// millilitres are not.
func (u Unit) besideLitres() bool {
	return u.IsVolume() && u != UnitLitre && u != UnitMillilitre
}

// decimalsBeside is how many decimals stand beside litres that are given to 1/parts L, and
// the step of the last place, which is 1 but where there are none.
func (u Unit) decimalsBeside(parts uint64) (decimals int, step uint64) {
	const tenths = 9 // of the litres' step
	litre, factor := UnitLitre.row().scale.factor, u.row().scale.factor
	for decimals = int(u.MaxPlaces()); decimals > 0; decimals-- {
		if factor*parts*10 >= tenths*litre*pow10[decimals] {
			return decimals, 1
		}
	}
	for step = 1; factor*step*parts*10 < tenths*litre; step *= 10 {
	}
	return 0, step
}

// ParseSecondUnit reads the unit in which volumes are told beside litres: "US gal". A bare
// gallon is refused as in an amount, and so are litres.
func ParseSecondUnit(text string) (Unit, error) {
	row := called(unitKey(text))
	switch {
	case row != nil && row.unit.besideLitres():
		return row.unit, nil
	case row != nil && row.of == volume:
		return 0, refuse(text, "litres stand first in any case: write another unit, as US gal")
	case row != nil:
		return 0, refuse(text, "%s is %s: write a unit of volume, as US gal", row.scale.name, dimensionNouns[row.of])
	}
	var names []string
	for _, row := range unitTable {
		if row.unit.besideLitres() {
			names = append(names, row.scale.name)
		}
	}
	return 0, unknownUnit(trimGap(text), names)
}
