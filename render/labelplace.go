package render

import (
	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/render/sheet"
)

// labelPlace is where things stand on one size of label.
type labelPlace struct {
	paper  sheet.Paper
	square sheet.Len // of the code with its white
	above  bool      // what was done stands above the code over the whole width, not beside it
}

var labelPlaces = map[LabelSize]labelPlace{
	Label62x29: {paper: sheet.Sticker(62, 29), square: 56 * sheet.Pt},
	Label40x40: {paper: sheet.Sticker(40, 40), square: 50 * sheet.Pt, above: true},
}

// labelGap is what parts texts that stand side by side.
const labelGap = 3 * sheet.Pt

func labelType(face sheet.Face, size sheet.Len) sheet.Style {
	return at(sheet.Style{Face: face, Color: ink}, size)
}

// The type of a label.
var (
	labelWhat = labelType(sheet.Bold, 9*sheet.Pt)
	labelDone = labelType(sheet.Bold, 10*sheet.Pt)
	labelNext = labelType(sheet.Bold, 15*sheet.Pt/2)
	labelBody = labelType(sheet.Regular, 13*sheet.Pt/2)
	labelFine = labelType(sheet.Regular, 21*sheet.Pt/4)
	labelTiny = labelType(sheet.Regular, leastSize)
)

// set lays a label out.
func (p labelPlace) set(l *label) error {
	l.doc.AddPage()
	safe := p.paper.Safe()
	warning := ""
	if l.r.PageHost != "" {
		warning = l.texts.Warning
	}
	id := []labelText{{text: l.id.String(), style: labelTiny, whole: true}}
	left := sheet.Box{X: safe.X, Y: safe.Y, W: safe.W - p.square - labelGap, H: safe.H}
	right := sheet.Box{X: safe.Right() - p.square, Y: safe.Y, W: p.square, H: safe.H}
	if !p.above {
		if warning != "" {
			id = append(id, labelText{text: warning, style: labelTiny, whole: true})
		}
		texts := append(l.figures(), l.names(true)...)
		if err := l.fill(present(texts), left, sheet.Left, true); err != nil {
			return err
		}
		return l.codeOver(right, p.square, id)
	}
	if warning != "" {
		foot := sheet.Box{X: safe.X, Y: safe.Bottom() - labelTiny.Leading, W: safe.W, H: labelTiny.Leading}
		if err := l.fill([]labelText{{text: warning, style: labelTiny, whole: true}}, foot, sheet.Left, false); err != nil {
			return err
		}
		left.H, right.H = left.H-foot.H, right.H-foot.H
	}
	beside := p.square + labelTiny.Leading
	head := sheet.Box{X: safe.X, Y: safe.Y, W: safe.W, H: left.H - beside}
	left.Y, right.Y, left.H, right.H = head.Bottom(), head.Bottom(), beside, beside
	if err := l.fill(present(l.figures()), head, sheet.Left, false); err != nil {
		return err
	}
	if err := l.fill(present(l.names(false)), left, sheet.Left, true); err != nil {
		return err
	}
	return l.codeOver(right, p.square, id)
}

func present(texts []labelText) []labelText {
	var there []labelText
	for _, t := range texts {
		if t.text != "" {
			there = append(there, t)
		}
	}
	return there
}

// fill fits texts into a box and draws them.
func (l *label) fill(texts []labelText, b sheet.Box, a sheet.Align, apart bool) error {
	set, err := stack(texts, b.W, b.H)
	if err != nil {
		return err
	}
	l.place(set, b, a, apart)
	return nil
}

// codeOver draws the code in a square at the top of a box, texts centred under
// it. The square includes four modules of white on each side.
func (l *label) codeOver(b sheet.Box, square sheet.Len, under []labelText) error {
	n := sheet.Len(len(l.code.dark))
	module := square / (n + 2*quietModules)
	edge := (square - module*n) / 2
	l.doc.Modules(1, b.X+edge, b.Y+edge, module, l.code.dark)
	b.Y, b.H = b.Y+square, b.H-square
	return l.fill(under, b, sheet.Center, false)
}

// figures are what was done and when, and when it falls due next.
func (l *label) figures() []labelText {
	next, nextNote := l.next()
	done, doneNote := l.done()
	return []labelText{
		{text: l.task.what, style: labelWhat, rank: 2},
		{text: done, style: labelDone, whole: true},
		{text: doneNote, style: labelFine, whole: true},
		{text: next, style: labelNext, whole: true},
		{text: nextNote, style: labelFine, whole: true},
	}
}

// done is the date and the hours, as the meter reads where there are earlier
// meters, and how they came about where that has to be said.
func (l *label) done() (line, note string) {
	t, j := l.texts, l.r.Job
	hours := j.Hours
	switch m := j.Meter; {
	case m.State != record.Running:
		note = t.Estimated
	case m.Offset != 0 && m.Reading != nil:
		hours, note = *m.Reading, t.Reading.With("total", j.Hours.String())
	}
	return t.Done.With("date", j.Date.String(), "hours", hours.String()), note
}

// next is when the work falls due next, in the hours that done is in.
func (l *label) next() (line, note string) {
	t, due := l.texts, l.task.due
	hours, date := "", ""
	if due.Hours != nil {
		hours, note = l.dueHours(*due.Hours)
	}
	if due.Date != nil {
		date = due.Date.String()
	}
	switch {
	case hours != "" && date != "":
		return t.NextBoth.With("hours", hours, "date", date), sentences(", ", note, t.Whichever)
	case hours != "":
		return t.NextHours.With("hours", hours), note
	case date != "":
		return t.NextDate.With("date", date), ""
	default:
		return t.NextNone, ""
	}
}

// dueHours are due hours in total as the meter in use will read them. What was
// due under an earlier meter, this one never reads: it stays in total.
func (l *label) dueHours(total quantity.Hours) (hours, note string) {
	m := l.r.Job.Meter
	switch reading := total - m.Offset; {
	case m.State != record.Running || m.Offset == 0 || m.Reading == nil:
		return total.String(), ""
	case reading > 0:
		return reading.String(), l.texts.NextReading.With("total", total.String())
	default:
		return total.String(), l.texts.NextTotal
	}
}

// names are the machine, what was filled, and who signs the record. The serial
// number stands before make and model, which are lost first.
func (l *label) names(inOneLine bool) []labelText {
	m, t := l.r.Machine, l.texts
	serial, model := t.Serial.With("serial", m.Serial), m.Make+" "+m.Model
	if inOneLine {
		serial, model = sentences(dot, serial, model), ""
	}
	return []labelText{
		{text: sentences(", ", m.Vessel, m.Position), style: labelBody, rank: 3},
		{text: serial, style: labelBody, rank: 1},
		{text: model, style: labelBody, rank: 5},
		{text: l.filled(), style: labelBody, rank: 4},
		{text: sentences(dot, t.Record, l.r.Issuer.Name), style: labelFine, rank: 6},
	}
}

// filled is product and viscosity of what was filled, where that goes with the
// label's task.
func (l *label) filled() string {
	for i := range l.r.Fluids {
		if f := &l.r.Fluids[i]; f.System == l.task.system && f.Filled != nil {
			return sentences(" ", f.Product, f.Viscosity)
		}
	}
	return ""
}
