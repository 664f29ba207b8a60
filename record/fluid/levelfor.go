package fluid

import (
	"errors"

	"hourseal/record/quantity"
)

// ErrNoMarks is the answer about a system of which the content at the upper mark or
// that between the marks is not known.
var ErrNoMarks = errors.New("the level needs at_upper and between_marks: write both")

// LevelFor is the level to expect once an amount of oil was filled in on top of
// what was left, both at 15 degC or as written, when it is read at a temperature:
//
//	level = 1 + (V15 / VCF - upper) / span
//
// Left is taken as exact. The uncertainty is that of a reading less this level.
func LevelFor(s System, d Doubt, filled quantity.Measured, left quantity.Volume, at quantity.Temperature) (LevelAmount, error) {
	if s.AtUpper <= 0 || s.BetweenMarks <= 0 {
		return LevelAmount{}, ErrNoMarks
	}
	b := newBench(s, d, nil)
	w := b.work(0, Visit{Filled: &filled, After: &Level{Reading: LevelUpper, At: &at}})
	if len(w.beyond) > 0 {
		return LevelAmount{}, w.beyond[0].Err
	}
	if w.poured == nil {
		return LevelAmount{}, errors.New("not measured: write an amount, as 9.3 L")
	}
	if w.after == nil {
		return LevelAmount{}, ErrNoMarks
	}
	return *b.levelOf(w, w.poured.and(exactly(left))), nil
}
