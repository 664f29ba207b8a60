package quantity

import "slices"

// scale turns a figure written in one unit into the stored whole number:
// stored = figure * factor / divisor, rounded once.
type scale struct {
	name            string   // as printed
	words           []string // as read, folded by unitKey
	factor, divisor uint64   // 0 where a figure is only ever kept as written
	places          uint8    // decimals that a figure may have
}

func (s scale) called(key string) bool { return slices.Contains(s.words, key) }

// of converts n, a figure without its point, with the given decimals. It
// rounds half away from zero, and reports false when the result does not
// fit or the unit has no stored form.
func (s scale) of(n int64, places uint8) (int64, bool) {
	if places > s.places {
		return 0, false
	}
	stored, ok := mulDiv(magnitude(n), s.factor, s.divisor*pow10[places])
	if n < 0 {
		stored = -stored
	}
	return stored, ok
}

// figureOf is the inverse of of: the figure, without its point, that is
// stored as amount. It reports false when there is none.
//
// With a step of the last decimal of s units stored per tick, any figure n
// stored as amount has |n*s - amount| <= 1/2, so |n - amount/s| <= 1/(2s);
// with s >= 1, which the limits on decimals see to, the nearest whole number
// to amount/s is the only candidate.
func (s scale) figureOf(amount int64, places uint8) (int64, bool) {
	if places > s.places || amount < 0 {
		return 0, false
	}
	n, ok := mulDiv(uint64(amount), s.divisor*pow10[places], s.factor)
	if !ok {
		return 0, false
	}
	back, ok := s.of(n, places)
	return n, ok && back == amount
}

// plainScale is for figures without a unit: stored in 1/10^places.
func plainScale(name string, places uint8) scale {
	return scale{name: name, factor: pow10[places], divisor: 1, places: places}
}
