package render

import (
	"strings"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/render/sheet"
)

// outAndIn is what came out and what went in: drawn as two bars on one scale, then
// in words, set for a width.
func (p *report) outAndIn(f *record.Fluid, width sheet.Len) sheet.Cell {
	t, b := p.texts.Fluids, f.Balance
	if b == nil {
		b = &record.Balance{}
	}
	width -= p.nameWidth()
	out := append(p.measured(f.Drained, width), p.workedOut(f, f.Drained, b.Drained)...)
	if f.WithFilter != nil {
		note := t.DrainedWithoutFilter
		if *f.WithFilter {
			note = t.DrainedWithFilter
		}
		out = append(out, text(small, note))
	}
	out = append(out, p.seen(f)...)
	in := append(p.measured(f.Filled, width), p.workedOut(f, f.Filled, b.Filled)...)
	if f.DrawnDown != nil {
		in = append(in, text(small, t.DrawnDown.With("amount", p.amountLine(f.DrawnDown))))
	}
	var cell sheet.Cell
	if bars := p.bars(f); bars.scale > 0 {
		cell = append(cell, p.drawn(bars))
	}
	cell = append(cell, p.named(t.Out, out)...)
	return append(cell, p.named(t.In, in)...)
}

// nameWidth is what the names of the two bars take, the gap after them included.
func (p *report) nameWidth() sheet.Len {
	t := p.texts.Fluids
	return max(strong.Width(t.Out), strong.Width(t.In)) + 5*sheet.Pt
}

// named hangs a cell beside the name of its bar.
func (p *report) named(name string, cell sheet.Cell) sheet.Cell {
	for i := range cell {
		cell[i].Indent = p.nameWidth()
	}
	if len(cell) > 0 {
		cell[0].Mark, cell[0].Before = name, 3*sheet.Pt
	}
	return cell
}

// measured is an amount as written, and the same in litres or kilograms where
// it was written otherwise: on one line where the width allows.
func (p *report) measured(m *quantity.Measured, width sheet.Len) sheet.Cell {
	if m == nil {
		return nil
	}
	if line := p.amountLine(m); m.NotMeasured || strong.Width(line) <= width {
		return says(strong, line)
	}
	return says(strong, degrees(m.String()), p.otherwise(m))
}

// amountLine is an amount on one line: as written, and in litres or kilograms.
func (p *report) amountLine(m *quantity.Measured) string {
	if m.NotMeasured {
		return p.texts.Document.NotMeasured
	}
	return sentences(" ", degrees(m.String()), p.otherwise(m))
}

// otherwise is an amount in litres or kilograms, "" where it was written so.
func (p *report) otherwise(m *quantity.Measured) string {
	sum := inAll(m)
	if sum == "" || len(m.Portions) == 1 && sum == m.Portions[0].Written() {
		return ""
	}
	return p.texts.Fluids.Litres.With("litres", sum)
}

// inAll is the sum in litres or kilograms, as measured; "" for a sum of both.
func inAll(m *quantity.Measured) string {
	if v, ok := m.TotalVolume(); ok {
		return v.String()
	}
	if w, ok := m.TotalMass(); ok {
		return w.String()
	}
	return ""
}

// degrees prints the temperatures of an amount with their degree sign.
func degrees(amount string) string {
	return strings.ReplaceAll(amount+" ", " C ", " °C ")[:len(amount)+strings.Count(amount+" ", " C ")*len("°")]
}

// workedOut is an amount as it is reckoned with: the volume at 15 degC, that of
// coolant as measured.
func (p *report) workedOut(f *record.Fluid, m *quantity.Measured, e *record.Estimate) sheet.Cell {
	if e == nil {
		return nil
	}
	phrase, volume := p.texts.Fluids.At15, e.Volume.Hundredths()
	if f.IsCoolant() {
		phrase = p.texts.Fluids.AsMeasured
		if m != nil {
			if same, ok := m.TotalVolume(); ok && same == e.Volume {
				volume = ""
			}
		}
	}
	return says(small, phrase.With("volume", volume, "within", e.Within.Hundredths()))
}

// seen is what was seen in what was drained, and what was said to it.
func (p *report) seen(f *record.Fluid) sheet.Cell {
	t := p.texts.Fluids
	switch {
	case len(f.Saw) == 0:
		return nil
	case !isSeen(f):
		return says(small, t.SawNothing)
	}
	cell := says(small.Bold(), t.Saw.With("what", p.sights(f)))
	if f.Answer != nil && f.Answer.Why != "" {
		cell = append(cell, text(small, p.texts.Tasks.Why.With("why", f.Answer.Why)))
	}
	return cell
}

// isSeen says whether something was seen in what was drained.
func isSeen(f *record.Fluid) bool { return len(f.Saw) > 0 && f.Saw[0] != record.SawNothing }

func (p *report) sights(f *record.Fluid) string {
	var names []string
	for _, s := range f.Saw {
		names = append(names, string(p.texts.Fluids.Sights.Of(s.String())))
	}
	return sentences(", ", names...)
}

// bars are what came out and what went in, in mL on one scale. Of what went in
// drawnOff came out again. With fewer than two figures there is nothing to compare,
// and scale is 0.
type bars struct {
	out, in, drawnOff quantity.Volume
	mark              quantity.Volume // what the system holds; 0: unknown
	says              string          // of mark
	scale             quantity.Volume
}

func (p *report) bars(f *record.Fluid) bars {
	t, worked := p.texts.Fluids, f.Balance
	if worked == nil {
		worked = &record.Balance{}
	}
	b := bars{out: volumeOf(f, f.Drained, worked.Drained), in: volumeOf(f, f.Filled, worked.Filled)}
	switch {
	case f.AtUpper > 0:
		b.mark, b.says = f.AtUpper, t.AtUpper.With("volume", f.AtUpper.String())
	case f.Holds > 0:
		b.mark, b.says = f.Holds, t.Holds.With("volume", f.Holds.String())
	}
	b.drawnOff = min(b.in, volumeOf(f, f.DrawnDown, nil))
	if (b.out > 0 || b.in > 0) && (b.mark > 0 || b.out > 0 && b.in > 0) {
		b.scale = max(b.out, b.in, b.mark)
	} else {
		b.drawnOff = 0
	}
	return b
}

// volumeOf is an amount for drawing: as worked out, or else as measured.
func volumeOf(f *record.Fluid, m *quantity.Measured, e *record.Estimate) quantity.Volume {
	if e != nil {
		return max(e.Volume, 0)
	}
	if m == nil {
		return 0
	}
	density := f.Density
	if density == 0 {
		density = assumedDensity
	}
	var sum quantity.Volume
	for _, portion := range m.Portions {
		if v, ok := portion.Volume(); ok {
			sum += v
		} else if w, ok := portion.Mass(); ok {
			sum += quantity.Volume(int64(w) * 1000 / int64(density)) // g / (kg/m3) is a litre
		}
	}
	return sum
}

const (
	barThick = 6 * sheet.Pt
	barGap   = 4 * sheet.Pt
	barTail  = 2 * sheet.Pt // of the mark, below the bars
)

// bar is one of them; of whole, offEnd came out again.
type bar struct {
	name          string
	whole, offEnd quantity.Volume
}

// drawn are the bars of what is known, one above the other; a line through them is
// what the system holds.
func (p *report) drawn(bars bars) sheet.Item {
	var drawn []bar
	for _, b := range []bar{{p.texts.Fluids.Out, bars.out, 0}, {p.texts.Fluids.In, bars.in, bars.drawnOff}} {
		if b.whole > 0 {
			drawn = append(drawn, b)
		}
	}
	tall := sheet.Len(len(drawn))*(barThick+barGap) - barGap
	height := barGap/2 + tall + 2*sheet.Pt
	if bars.mark > 0 {
		height += barTail + fine.Leading
	}
	return sheet.Item{Height: height, Draw: func(d *sheet.Document, page int, b sheet.Box) {
		x, width := b.X+p.nameWidth(), b.W-p.nameWidth()
		at := func(v quantity.Volume) sheet.Len {
			return sheet.Len(int64(width) * int64(v) / int64(bars.scale))
		}
		first := b.Y + barGap/2
		for i, bar := range drawn {
			y := first + sheet.Len(i)*(barThick+barGap)
			d.Text(page, b.X, y+(barThick-small.Leading)/2, small, bar.name)
			end, kept := max(at(bar.whole), sheet.Pt), at(bar.whole-bar.offEnd)
			if kept > 0 {
				d.Fill(page, used, sheet.Box{X: x, Y: y, W: kept, H: barThick})
			}
			if bar.offEnd > 0 {
				hatch(d, page, sheet.Box{X: x + kept, Y: y, W: end - kept, H: barThick})
			}
			d.Stroke(page, sheet.Box{X: x, Y: y, W: end, H: barThick}, sheet.Pt/2, grey)
		}
		if bars.mark > 0 {
			line, bottom := x+at(bars.mark), first+tall+barTail
			d.Fill(page, ink, sheet.Box{X: min(line, b.Right()-sheet.Pt/2), Y: first - sheet.Pt, W: sheet.Pt / 2, H: bottom - first + sheet.Pt})
			w := fine.Width(bars.says)
			d.Text(page, max(b.X, min(line-w/2, b.Right()-w)), bottom, fine, bars.says)
		}
	}}
}

// hatch fills a box with upright strokes, few enough to be told from a symbol.
func hatch(d *sheet.Document, page int, b sheet.Box) {
	step := max(2*sheet.Pt, b.W/40)
	var strokes []sheet.Box
	for x := b.X + step/2; x+step/4 <= b.Right(); x += step {
		strokes = append(strokes, sheet.Box{X: x, Y: b.Y, W: step / 4, H: b.H})
	}
	d.Fill(page, used, strokes...)
}
