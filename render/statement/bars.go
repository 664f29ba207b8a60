package statement

import (
	"cmp"
	"slices"
	"strconv"

	"hourseal/record/quantity"
	"hourseal/record/schedule"
	"hourseal/render/sheet"
	"hourseal/verify/history"
)

const (
	barRow    = 13 * sheet.Pt
	barHeight = 8 * sheet.Pt
	barGap    = 8 * sheet.Pt
)

// days are the days that a width stands for.
type days struct {
	first, last quantity.Date
	x, w        sheet.Len
}

// at is where a day lies; the middle, where there is only one.
func (d days) at(date quantity.Date) sheet.Len {
	all := int64(d.last.Sub(d.first))
	if all <= 0 {
		return d.x + d.w/2
	}
	return d.x + sheet.Len(int64(d.w)*int64(date.Sub(d.first))/all)
}

// stretch is where a stretch of time lies, at least a point wide where it is not
// inside the interval.
func (d days) stretch(s history.Stretch, y, h sheet.Len) sheet.Box {
	from, to := d.at(s.From.Date), d.at(s.To.Date)
	if d.first == d.last {
		from, to = d.x, d.x+d.w
	}
	if s.State != history.Inside && s.State != history.NotTold && to-from < sheet.Pt {
		to = min(from+sheet.Pt, d.x+d.w)
		from = to - sheet.Pt
	}
	return sheet.Box{X: from, Y: y, W: max(to-from, 0), H: h}
}

// shade fills a box as its state is shown; not known stays blank.
func (p *page) shade(page int, b sheet.Box, state history.Adherence) {
	if b.W <= 0 {
		return
	}
	switch state {
	case history.Inside:
		p.doc.Fill(page, insideShade, b)
	case history.InGrace:
		p.doc.Fill(page, white, b)
		p.doc.Hatch(page, b, 3*sheet.Pt, sheet.Pt/2, hatchShade)
	case history.Late:
		p.doc.Fill(page, overdueShade, b)
	}
}

// stretches draws those of a task, what is inside first, so that a short one of
// another kind stays in sight.
func (p *page) stretches(page int, d days, y, h sheet.Len, t *history.Task) {
	for _, state := range []history.Adherence{history.Inside, history.InGrace, history.Late} {
		for _, s := range merged(t.Stretches) {
			if s.State == state {
				p.shade(page, d.stretch(s, y, h), state)
			}
		}
	}
}

// merged joins stretches of one state that follow each other, so that no seam shows.
func merged(stretches []history.Stretch) []history.Stretch {
	var all []history.Stretch
	for _, s := range stretches {
		if n := len(all); n > 0 && all[n-1].State == s.State {
			all[n-1].To = s.To
			continue
		}
		all = append(all, s)
	}
	return all
}

// barsEdges is what the bars take beside their rows: the legend.
func (p *page) barsEdges() sheet.Len { return fine.Leading + 3*sheet.Pt }

func (p *page) barsHeight(n int) sheet.Len {
	if n < len(p.m.Tasks) {
		return barRow * sheet.Len(n+1)
	}
	return barRow * sheet.Len(n)
}

// barsThatFit is how many, with the line that counts the rest.
func (p *page) barsThatFit(room sheet.Len) int {
	n := len(p.m.Tasks)
	for n > 0 && p.barsHeight(n) > room {
		n--
	}
	return n
}

// bars are n tasks in the schedule's order; where not all fit, those with the most
// hours run overdue come first.
func (p *page) bars(n int) {
	if len(p.m.Tasks) == 0 {
		return
	}
	p.first.bars = n < len(p.m.Tasks)
	tasks := p.m.Tasks
	if p.first.bars {
		tasks = slices.Clone(tasks)
		slices.SortStableFunc(tasks, func(a, b history.Task) int { return cmp.Compare(b.Overdue, a.Overdue) })
	}
	p.flow.Section(p.barsHeading())
	h := p.barsHeight(n) + p.barsEdges()
	p.flow.Block(h, func(page int, b sheet.Box) {
		p.legend(page, b.X, b.Y)
		y := b.Y + p.barsEdges()
		for i := range n {
			p.bar(page, sheet.Box{X: b.X, Y: y, W: b.W, H: barRow}, &tasks[i])
			y += barRow
		}
		if p.first.bars {
			p.doc.Text(page, b.X, y+(barRow-body.Leading)/2, strong, p.texts.Bars.More.With("count", strconv.Itoa(len(p.m.Tasks)-n), "page", p.pageOf(barsPart)))
		}
	})
	p.flow.End()
}

func (p *page) barsHeading() string {
	t, s := p.texts.Bars, p.m.Span
	if s.First.Date == s.Last.Date {
		return t.OneDay.With("first", s.First.Date.String())
	}
	return t.Heading.With("first", s.First.Date.String(), "last", s.Last.Date.String())
}

// allBars are those of all tasks, on further pages.
func (p *page) allBars() {
	p.flow.Block(p.barsEdges(), func(page int, b sheet.Box) { p.legend(page, b.X, b.Y) })
	for i := range p.m.Tasks {
		p.flow.Block(barRow, func(page int, b sheet.Box) { p.bar(page, b, &p.m.Tasks[i]) })
	}
}

// bar is one task: its title, its bar, and what the bar says.
func (p *page) bar(page int, b sheet.Box, t *history.Task) {
	title, bar := b.W*37/100, b.W*31/100
	mid := func(s sheet.Style) sheet.Len { return b.Y + (b.H-s.Leading)/2 }
	name, room := p.clean(t.Title), title-barGap
	if s := body; s.Width(name) <= room {
		p.doc.Text(page, b.X, mid(s), s, name)
	} else {
		p.doc.Text(page, b.X, mid(small), small, small.Elide(name, room))
	}
	box := sheet.Box{X: b.X + title, Y: b.Y + (b.H-barHeight)/2, W: bar, H: barHeight}
	p.taskBar(page, box, t)
	x := box.Right() + barGap
	said, s := p.barWords(t), body
	if t.Overdue > 0 {
		s = strong
	}
	for _, smaller := range []sheet.Style{small, fine} {
		if s.Width(said) > b.Right()-x {
			s.Size, s.Leading = smaller.Size, smaller.Leading
		}
	}
	p.doc.Text(page, x, mid(s), s, s.Elide(said, b.Right()-x))
}

func (p *page) taskBar(page int, box sheet.Box, t *history.Task) {
	p.doc.Fill(page, white, box)
	p.stretches(page, days{p.m.Span.First.Date, p.m.Span.Last.Date, box.X, box.W}, box.Y, box.H, t)
	p.doc.Stroke(page, box, sheet.Pt/2, grey)
}

// barWords are the figures at the end of a bar.
func (p *page) barWords(t *history.Task) string {
	w := p.texts.Bars
	var known quantity.Hours
	grace, blank := false, false
	for _, s := range t.Stretches {
		if s.State == history.NotTold {
			blank = true
			continue
		}
		known += max(0, s.To.Hours-s.From.Hours)
		grace = grace || s.State == history.InGrace
	}
	switch {
	case t.Overdue > 0 && t.About:
		return w.AboutOf.With("hours", t.Overdue.Whole().String(), "run", t.Run.String())
	case t.Overdue > 0:
		return w.OverdueOf.With("hours", t.Overdue.String(), "run", t.Run.String())
	case t.At.State == history.Late || t.DoneLate() > 0:
		return w.ByDate
	case len(t.Done) == 0:
		return w.NoRecord
	case t.Now != nil && t.Now.Due == (schedule.Due{}):
		return w.Once
	case known == 0 && (blank || len(t.Stretches) == 0):
		return w.Unknown
	case blank:
		return w.Part.With("hours", known.String(), "run", t.Run.String())
	case grace:
		return w.GraceAll
	default:
		return w.InsideAll
	}
}

// legend says what the shades mean.
func (p *page) legend(page int, x, y sheet.Len) {
	t := p.texts.Bars
	for _, e := range []struct {
		state history.Adherence
		text  string
	}{{history.Inside, t.Inside}, {history.InGrace, t.InGrace}, {history.Late, t.Overdue}, {history.NotTold, t.NotKnown}} {
		box := sheet.Box{X: x, Y: y + sheet.Pt, W: 14 * sheet.Pt, H: 6 * sheet.Pt}
		p.shade(page, box, e.state)
		p.doc.Stroke(page, box, sheet.Pt/2, grey)
		x = box.Right() + 4*sheet.Pt
		p.doc.Text(page, x, y, fine.In(ink), e.text)
		x += fine.Width(e.text) + 14*sheet.Pt
	}
}
