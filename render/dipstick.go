package render

import (
	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/render/sheet"
)

// A dipstick is drawn lying down, from stickLow to stickHigh on the scale on
// which 0 is the lower mark and 1 the upper. A level beyond is drawn at the end;
// the words beside it have the figure.
const (
	stickLow  quantity.Ratio = -400
	stickHigh quantity.Ratio = 1400
)

const (
	stickThick = 5 * sheet.Pt
	notch      = 4 * sheet.Pt
)

// dipstick draws the level after the job as a filled bar between the two marks,
// and the one before as a notch above it.
func (p *report) dipstick(f *record.Fluid) sheet.Item {
	return sheet.Item{Height: stickThick + notch + fine.Leading + 3*sheet.Pt, Draw: func(d *sheet.Document, page int, b sheet.Box) {
		at := func(r quantity.Ratio) sheet.Len {
			r = min(max(r, stickLow), stickHigh)
			return b.X + sheet.Len(int64(b.W)*int64(r-stickLow)/int64(stickHigh-stickLow))
		}
		stick := sheet.Box{X: b.X, Y: b.Y + notch, W: b.W, H: stickThick}
		if l := f.Level; isRead(l) && at(*l.Reading) > b.X {
			d.Fill(page, used, sheet.Box{X: b.X, Y: stick.Y, W: at(*l.Reading) - b.X, H: stickThick})
		}
		d.Stroke(page, stick, sheet.Pt/2, grey)
		if l := f.LevelBefore; isRead(l) {
			x := min(max(at(*l.Reading)-sheet.Pt/2, b.X), b.Right()-sheet.Pt)
			d.Fill(page, ink, sheet.Box{X: x, Y: b.Y, W: sheet.Pt, H: notch - sheet.Pt/2})
		}
		t := p.texts.Fluids
		for _, mark := range []struct {
			at    quantity.Ratio
			label string
		}{{0, t.Lower}, {quantity.One, t.Upper}} {
			x := at(mark.at)
			d.Fill(page, ink, sheet.Box{X: x - sheet.Pt/2, Y: stick.Y - sheet.Pt, W: sheet.Pt, H: stickThick + 3*sheet.Pt})
			w := fine.Width(mark.label)
			d.Text(page, min(max(x-w/2, b.X), b.Right()-w), stick.Bottom()+2*sheet.Pt, fine, mark.label)
		}
	}}
}
