package render

import (
	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/render/sheet"
)

func isRead(l *record.Level) bool { return l != nil && l.Reading != nil }

// expectedLevel is the level that follows from what came out and went in; nil where
// none does.
func expectedLevel(f *record.Fluid) *record.LevelEstimate {
	if f.Balance == nil {
		return nil
	}
	return f.Balance.Level
}

// hasStick says whether there is a level to draw.
func hasStick(f *record.Fluid) bool {
	return isRead(f.Level) || isRead(f.LevelBefore) || expectedLevel(f) != nil
}

// level is the dipstick drawn, and what was read off it.
func (p *report) level(f *record.Fluid) sheet.Cell {
	t := p.texts.Fluids
	var cell sheet.Cell
	if hasStick(f) {
		cell = append(cell, p.dipstick(f))
	}
	if f.LevelBefore != nil {
		cell = append(cell, text(small, t.LevelBefore+": "+p.levelLine(f.LevelBefore)))
	}
	if f.Level != nil {
		cell = append(cell, text(small.Bold(), t.LevelNow+": "+p.levelLine(f.Level)))
	}
	return cell
}

func (p *report) levelLine(l *record.Level) string {
	t := p.texts.Fluids
	reading, after, at := p.texts.Document.NotMeasured, "", ""
	if l.Reading != nil {
		reading = l.Reading.String()
	}
	if l.After != nil {
		after = t.After.With("minutes", l.After.String())
	}
	if l.At != nil {
		at = t.At.With("temperature", l.At.String())
	}
	return sentences(", ", reading, after, at)
}

// A dipstick is drawn lying down, from stickLow to stickHigh on the scale on
// which 0 is the lower mark and 1 the upper. A level beyond is drawn at the end;
// the words beside it have the figure.
const (
	stickLow  quantity.Ratio = -400
	stickHigh quantity.Ratio = 1400
)

const (
	stickThick = 6 * sheet.Pt
	notch      = 4 * sheet.Pt
	frame      = 5 * sheet.Pt // of the level expected, above the stick
)

// stick is a dipstick that is being drawn.
type stick struct {
	d    *sheet.Document
	page int
	in   sheet.Box // the stick itself
}

// at is where a level stands along the stick, its ends for what is beyond.
func (s stick) at(r quantity.Ratio) sheet.Len {
	r = min(max(r, stickLow), stickHigh)
	return s.in.X + sheet.Len(int64(s.in.W)*int64(r-stickLow)/int64(stickHigh-stickLow))
}

// upright is a line of a thickness at a level, from top to bottom.
func (s stick) upright(r quantity.Ratio, thick, top, bottom sheet.Len) {
	x := min(max(s.at(r)-thick/2, s.in.X), s.in.Right()-thick)
	s.d.Fill(s.page, ink, sheet.Box{X: x, Y: top, W: thick, H: bottom - top})
}

// label is a word with its middle at a level, as far as the stick's ends allow.
func (s stick) label(r quantity.Ratio, top sheet.Len, word string) {
	w := fine.Width(word)
	s.d.Text(s.page, max(s.in.X, min(s.at(r)-w/2, s.in.Right()-w)), top, fine, word)
}

// dipstick draws the level after the job as a filled bar between the two marks,
// the one before as a notch below it, and the one expected as a frame above.
func (p *report) dipstick(f *record.Fluid) sheet.Item {
	t, expected := p.texts.Fluids, expectedLevel(f)
	above := 2 * sheet.Pt
	if expected != nil {
		above = fine.Leading + frame
	}
	return sheet.Item{Height: above + stickThick + notch + fine.Leading + 2*sheet.Pt, Draw: func(d *sheet.Document, page int, b sheet.Box) {
		s := stick{d, page, sheet.Box{X: b.X, Y: b.Y + above, W: b.W, H: stickThick}}
		if l := f.Level; isRead(l) && s.at(*l.Reading) > b.X {
			d.Fill(page, used, sheet.Box{X: b.X, Y: s.in.Y, W: s.at(*l.Reading) - b.X, H: stickThick})
		}
		d.Stroke(page, s.in, sheet.Pt/2, grey)
		bottom := s.in.Bottom()
		if l := f.LevelBefore; isRead(l) {
			s.upright(*l.Reading, 2*sheet.Pt, bottom, bottom+notch)
		}
		for _, mark := range []struct {
			at    quantity.Ratio
			label string
		}{{0, t.Lower}, {quantity.One, t.Upper}} {
			s.upright(mark.at, sheet.Pt, s.in.Y-sheet.Pt, bottom+notch/2)
			s.label(mark.at, bottom+notch+sheet.Pt/2, mark.label)
		}
		if expected != nil {
			// Wide enough to be seen, however little is left to chance.
			const half = 3 * sheet.Pt / 2
			middle := min(max(s.at(expected.Reading), b.X+half), b.Right()-half)
			from, to := min(s.at(expected.Reading-expected.Within), middle-half), max(s.at(expected.Reading+expected.Within), middle+half)
			top := s.in.Y - frame
			d.Stroke(page, sheet.Box{X: from, Y: top, W: to - from, H: frame - sheet.Pt}, 6*sheet.Pt/10, ink)
			s.upright(expected.Reading, sheet.Pt, top, s.in.Y)
			s.label(expected.Reading, b.Y, t.Expected)
		}
	}}
}
