package jobsheet

import (
	"fmt"
	"strings"

	"hourseal/record"
	"hourseal/record/quantity"
)

// LineAmount reads what was measured of a fluid: "9.4 L", "2.4 US gal at 68 C", a sum
// with a comma, a plus or "and" between its amounts, in brackets or not; "not measured"
// or "-".
func LineAmount(text string) (quantity.Measured, error) {
	l, err := readLine(text, "an amount, as 9.4 L or 9.4 L at 16 C, a sum, as 5 L, 4.3 L, or - for not measured")
	if err != nil {
		return quantity.Measured{}, err
	}
	return l.amount()
}

func (l typed) amount() (quantity.Measured, error) {
	if strings.HasPrefix(l.text, "[") && strings.HasSuffix(l.text, "]") {
		l = l.sub(1, len(l.text)-1)
	}
	if l.is("-", notMeasured) {
		return quantity.Measured{NotMeasured: true}, nil
	}
	pieces := l.amounts()
	if len(pieces) == 1 {
		return quantity.ParseMeasured(pieces[0].text)
	}
	if len(pieces) > quantity.MaxPortions {
		return quantity.Measured{}, fmt.Errorf("a sum of %d amounts, at most %d fit: write some of them as one amount", len(pieces), quantity.MaxPortions)
	}
	var portions []quantity.Portion
	for i, piece := range pieces {
		next := ""
		if i+1 < len(pieces) {
			next = pieces[i+1].text
		}
		portion, err := portionBefore(next)(piece.text)
		if err != nil {
			return quantity.Measured{}, err
		}
		portions = append(portions, portion)
	}
	return quantity.SumOf(portions...)
}

// amounts cuts a sum into its amounts.
func (l typed) amounts() []typed {
	var pieces []typed
	for _, part := range l.split(l.figureCommas()) {
		if len(pieces) > 0 {
			part, _ = part.label("and") // 5 L, and 4 L
		}
		for {
			before, after, found := part.cutSum()
			pieces = append(pieces, before)
			if !found {
				break
			}
			part = after
		}
	}
	return pieces
}

// cutSum cuts a sum at its first plus or "and". A plus at the beginning is a sign.
func (l typed) cutSum() (before, after typed, found bool) {
	plus := l.marks('+')
	if len(plus) > 0 && plus[0] == 0 {
		plus = plus[1:]
	}
	if and := l.places("and"); len(and) > 0 && (len(plus) == 0 || and[0].from < plus[0]) {
		return l.sub(0, and[0].from), l.sub(and[0].to, len(l.text)), true
	}
	if len(plus) > 0 {
		return l.sub(0, plus[0]), l.sub(plus[0]+1, len(l.text)), true
	}
	return l, typed{}, false
}

// AmountLine is the inverse of LineAmount: "5 L at 16 C, 4.3 L at 16 C".
func AmountLine(m quantity.Measured) string {
	if m.NotMeasured {
		return notMeasured
	}
	words := make([]string, len(m.Portions))
	for i, p := range m.Portions {
		words[i] = p.String()
	}
	return strings.Join(words, ", ")
}

// LineLevel reads a dipstick level: "0.85 after 15 min at 45 C", of which "after" and
// "at" may be left out; "not measured" or "-". Minutes need no unit.
func LineLevel(text string) (record.Level, error) {
	l, err := readLine(text, "a level, 0 for the lower mark and 1 for the upper, as 0.85 after 15 min at 45 C, or - for not measured")
	if err != nil {
		return record.Level{}, err
	}
	if l.is("-", notMeasured) {
		return record.Level{}, nil
	}
	head, said, err := l.circumstances("after", "at")
	if err != nil {
		return record.Level{}, err
	}
	reading, err := quantity.ParseRatio(head.text)
	if err != nil {
		return record.Level{}, err
	}
	level := record.Level{Reading: &reading}
	if level.After, err = saidAs(said, "after", lineMinutes); err != nil {
		return record.Level{}, err
	}
	if level.At, err = saidAs(said, "at", oilTemperature); err != nil {
		return record.Level{}, err
	}
	return level, nil
}

// saidAs reads what stands after a word; nil where the word is left out.
func saidAs[T any](said map[string]typed, word string, parse parser[T]) (*T, error) {
	l, there := said[word]
	if !there {
		return nil, nil
	}
	value, err := parse(l.text)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", word, err)
	}
	return &value, nil
}

// lineMinutes reads minutes with or without their unit.
func lineMinutes(text string) (quantity.Minutes, error) {
	if isWhole(text) {
		text += " min"
	}
	return quantity.ParseMinutes(text)
}

// LevelLine is the inverse of LineLevel.
func LevelLine(l record.Level) string {
	if l.Reading == nil {
		return notMeasured
	}
	line := l.Reading.String()
	if l.After != nil {
		line += " after " + l.After.String()
	}
	if l.At != nil {
		line += " at " + celsius(*l.At)
	}
	return line
}

// celsius is a temperature as a job sheet has it, "45 C".
func celsius(t quantity.Temperature) string { return strings.ReplaceAll(t.String(), "°", "") }

// LineReading reads a figure, "-27 C", or one before and one after the work, "found
// 0.25 mm, left 0.20 mm", either of which may be left out. Name is the reading's.
func LineReading(name, text string) (record.Reading, error) {
	r := record.Reading{Name: name}
	if err := record.CheckText(name, record.MaxText); err != nil || name == "" {
		return record.Reading{}, fmt.Errorf("%s is no name for a reading: write one as freezing_point", show(name))
	}
	l, err := readLine(text, "a figure with its unit, as -27 C, or found 0.25 mm, left 0.20 mm")
	if err != nil {
		return record.Reading{}, err
	}
	head, said, err := l.circumstances("found", "left")
	switch {
	case err != nil:
	case len(said) == 0:
		var value quantity.Figure
		value, err = quantity.ParseFigure(l.text)
		r.Value = &value
	case !head.empty():
		err = fmt.Errorf("%s before found or left: write found 0.25 mm, left 0.20 mm, or one figure alone", show(head.text))
	default:
		if r.AsFound, err = saidAs(said, "found", quantity.ParseFigure); err == nil {
			r.AsLeft, err = saidAs(said, "left", quantity.ParseFigure)
		}
	}
	if err != nil {
		return record.Reading{}, err
	}
	return r, nil
}

// ReadingLine is the inverse of LineReading, without the name.
func ReadingLine(r record.Reading) string {
	if r.Value != nil {
		return r.Value.String()
	}
	var words []string
	if r.AsFound != nil {
		words = append(words, "found "+r.AsFound.String())
	}
	if r.AsLeft != nil {
		words = append(words, "left "+r.AsLeft.String())
	}
	return strings.Join(words, ", ")
}
