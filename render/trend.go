package render

import (
	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/render/sheet"
)

// leastTrend is how many points make a trend.
const leastTrend = 3

const (
	plotHeight = 46 * sheet.Pt
	plotEdge   = 7 * sheet.Pt // from the ends of the plot to the first and last point
	point      = 3 * sheet.Pt
	lastPoint  = 9 * sheet.Pt / 2
	whisker    = 7 * sheet.Pt / 10
	whiskerEnd = 4 * sheet.Pt
)

// trend draws the oil used in 100 h at each service against the hours in total; nil
// where too few are known.
func (p *report) trend(f *record.Fluid, width sheet.Len) *sheet.Item {
	t, uses := p.texts.Fluids, f.Balance.Trend
	if len(uses) < leastTrend {
		return nil
	}
	foot := says(fine, t.TrendKey)
	heading := says(small.Bold(), t.Trend)
	above := heading.Height(width) + 4*sheet.Pt
	below := 3*sheet.Pt + fine.Leading
	return &sheet.Item{Height: above + plotHeight + below + foot.Height(width), Draw: func(d *sheet.Document, page int, b sheet.Box) {
		heading.Place(d, page, b)
		p.plot(d, page, sheet.Box{X: b.X, Y: b.Y + above, W: b.W, H: plotHeight}, uses)
		foot.Place(d, page, sheet.Box{X: b.X, Y: b.Y + above + plotHeight + below, W: b.W, H: foot.Height(b.W)})
	}}
}

// plot draws the uses in a box, the figures of the scale at its left and the hours
// under it.
func (p *report) plot(d *sheet.Document, page int, b sheet.Box, uses []record.Use) {
	axis := axisOf(uses)
	var figures sheet.Len
	for v := axis.low; v <= axis.high; v += axis.step {
		figures = max(figures, fine.Width(v.String()))
	}
	area := sheet.Box{X: b.X + figures + 4*sheet.Pt, Y: b.Y, W: b.W - figures - 4*sheet.Pt, H: b.H}
	y := func(v quantity.Volume) sheet.Len {
		return area.Bottom() - sheet.Len(int64(area.H)*int64(v-axis.low)/int64(axis.high-axis.low))
	}
	for v := axis.low; v <= axis.high; v += axis.step {
		thick, c := sheet.Pt/4, hair
		if v == 0 {
			thick, c = 6*sheet.Pt/10, ink
		}
		d.Rule(page, area.X, y(v)-thick/2, area.W, thick, c)
		d.TextIn(page, b.X, figures, y(v)-fine.Leading/2, sheet.Right, fine, v.String())
	}
	first, last := uses[0].Hours, uses[len(uses)-1].Hours
	x := func(h quantity.Hours) sheet.Len {
		if first == last {
			return area.X + area.W/2
		}
		return area.X + plotEdge + sheet.Len(int64(area.W-2*plotEdge)*int64(h-first)/int64(last-first))
	}
	for i, u := range uses {
		at, high, low := x(u.Hours), y(u.Per100+u.Within), y(u.Per100-u.Within)
		size, c := point, used
		if i == len(uses)-1 {
			size, c = lastPoint, ink
		}
		d.Fill(page, c,
			sheet.Box{X: at - whisker/2, Y: high, W: whisker, H: low - high},
			sheet.Box{X: at - whiskerEnd/2, Y: high - whisker/2, W: whiskerEnd, H: whisker},
			sheet.Box{X: at - whiskerEnd/2, Y: low - whisker/2, W: whiskerEnd, H: whisker},
			sheet.Box{X: at - size/2, Y: y(u.Per100) - size/2, W: size, H: size})
	}
	t, under := p.texts.Machine, area.Bottom()+3*sheet.Pt
	d.Text(page, area.X, under, fine, t.HoursLine.With("hours", first.String()))
	d.TextIn(page, area.X, area.W, under, sheet.Right, fine, t.HoursLine.With("hours", last.String()))
}

// axis is a scale of volumes with zero on it, its ends whole steps from zero.
type axis struct{ low, high, step quantity.Volume }

// mostSteps keeps the figures of the scale apart from each other.
const mostSteps = 4

// axisOf takes the finest of the steps 1, 2, 5, 10, 20 and so on, of 10 mL or more,
// that makes no more than mostSteps over all uses and their uncertainties.
func axisOf(uses []record.Use) axis {
	var low, high quantity.Volume
	for _, u := range uses {
		low, high = min(low, u.Per100-u.Within), max(high, u.Per100+u.Within)
	}
	for ten := quantity.Volume(10); ; ten *= 10 {
		for _, step := range []quantity.Volume{ten, 2 * ten, 5 * ten} {
			down, up := (step-1-low)/step, (high+step-1)/step
			if down+up <= mostSteps {
				return axis{-down * step, max(up, 1-down) * step, step}
			}
		}
	}
}
