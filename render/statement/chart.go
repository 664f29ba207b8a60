package statement

import (
	"slices"

	"hourseal/record/quantity"
	"hourseal/record/schedule"
	"hourseal/render/sheet"
	"hourseal/verify/history"
)

const (
	markSide   = 34 * sheet.Pt / 10
	hollowSide = 48 * sheet.Pt / 10
	crossSide  = 52 * sheet.Pt / 10
	apart      = 32 * sheet.Pt / 10 // marks nearer than that are drawn once
	plotEdge   = 9 * sheet.Pt       // from the ends of the plot to the first and last mark
	// leastInterval is how far apart the ends of intervals are drawn, mostNumbers how
	// many marks have the numbers of their records beside them.
	leastInterval = 8 * sheet.Pt
	mostNumbers   = 40
	bandWords     = 9 * sheet.Pt  // above the plot
	axisWords     = 10 * sheet.Pt // below it
)

// chartEdges is what the chart takes beside its plot.
func (p *page) chartEdges() sheet.Len {
	return bandWords + axisWords + fine.Leading + sheet.Pt
}

// chart is the hours against the date, with a task's stretches as bands behind.
func (p *page) chart(plot sheet.Len) {
	t := p.texts.Chart
	task := p.shown()
	heading := t.Heading
	if task != nil {
		title := p.clean(task.Title)
		whole := func() string { return t.Heading + "; " + t.Behind.With("task", title) }
		for width := p.flow.Area().W; section.Width(whole()) > width && len(title) > len("…"); {
			title = section.Elide(title, section.Width(title)-(section.Width(whole())-width))
		}
		heading = whole()
	}
	p.flow.Section(heading)
	p.flow.Block(plot+p.chartEdges(), func(page int, b sheet.Box) {
		c := p.plotIn(page, b, plot)
		c.bands(task)
		c.axes()
		c.asked()
		c.line()
		c.marks()
		c.legend(sheet.Spot{X: b.X, Y: b.Bottom() - fine.Leading})
	})
	p.flow.End()
}

// shown is the task whose stretches stand behind the chart; see the package comment.
func (p *page) shown() *history.Task {
	var most, replaced *history.Task
	for i := range p.m.Tasks {
		t := &p.m.Tasks[i]
		if t.Overdue > 0 && (most == nil || t.Overdue > most.Overdue) {
			most = t
		}
		if replaced == nil && t.Kind == schedule.Replace && len(t.Done) > 0 {
			replaced = t
		}
	}
	switch {
	case most != nil:
		return most
	case replaced != nil:
		return replaced
	case len(p.m.Tasks) > 0:
		return &p.m.Tasks[0]
	}
	return nil
}

// plot is the chart while it is being drawn.
type plot struct {
	*page
	number  int // of the page
	area    sheet.Box
	days    days
	scale   hoursScale
	missing []history.Fault // with date and hours
	taken   []sheet.Box     // by words
	thinned bool
}

// plotIn makes the scales over all records, what is cited and missing, and the day
// asked about where it is not far off.
func (p *page) plotIn(number int, b sheet.Box, height sheet.Len) *plot {
	c := &plot{page: p, number: number}
	first, last := p.m.Span.First.Date, p.m.Span.Last.Date
	low, high := p.m.Span.First.Hours, p.m.Span.First.Hours
	include := func(at schedule.Point) {
		first, last = min(first, at.Date), max(last, at.Date)
		low, high = min(low, at.Hours), max(high, at.Hours)
	}
	for i := range p.m.Entries {
		include(p.m.Entries[i].Point())
	}
	for _, f := range p.m.Faults {
		if f.Code == history.RecordMissing && f.Missing != nil && f.Missing.Point != nil {
			c.missing = append(c.missing, f)
			include(*f.Missing.Point)
		}
	}
	if s := p.m.Stands; s != nil && s.On > last && s.On.Sub(last) <= max(last.Sub(first), 366) {
		last = s.On
	}
	if low == high {
		low, high = max(low-quantity.Hour, 0), high+quantity.Hour
	}
	c.scale = hoursScaleOf(low, high)
	var figures sheet.Len
	for v := c.scale.low; v <= c.scale.high; v += c.scale.step {
		figures = max(figures, fine.Width(p.texts.Chart.Hours.With("hours", v.String())))
	}
	figures += 4 * sheet.Pt
	c.area = sheet.Box{X: b.X + figures, Y: b.Y + bandWords, W: b.W - figures, H: height}
	c.days = days{first, last, c.area.X + plotEdge, c.area.W - 2*plotEdge}
	return c
}

func (c *plot) y(h quantity.Hours) sheet.Len {
	return c.area.Bottom() - sheet.Len(int64(c.area.H)*int64(h-c.scale.low)/int64(c.scale.high-c.scale.low))
}

func (c *plot) spot(at schedule.Point) sheet.Spot {
	return sheet.Spot{X: c.days.at(at.Date), Y: c.y(at.Hours)}
}

// bands are a task's stretches, with their words above where there is room.
func (c *plot) bands(t *history.Task) {
	if t == nil {
		return
	}
	c.stretches(c.number, c.days, c.area.Y, c.area.H, t)
	over := sheet.Len(0)
	for _, s := range merged(t.Stretches) {
		b := c.days.stretch(s, c.area.Y, c.area.H)
		said := string(c.texts.Chart.Bands.Of(string(s.State)))
		w := fine.Width(said)
		x := b.X + (b.W-w)/2
		roomy := w+2*sheet.Pt <= b.W
		if s.State == history.Late { // told even where it is narrow
			x, roomy = min(max(x, c.area.X), c.area.Right()-w), true
		}
		if roomy && x >= over {
			c.doc.Text(c.number, x, c.area.Y-fine.Leading, fine.In(ink), said)
			over = x + w + 2*sheet.Pt
		}
	}
	// Each time that it was done ends an interval; many of them would hide the bands.
	if sheet.Len(len(t.Done))*leastInterval > c.area.W {
		return
	}
	for _, d := range t.Done {
		c.doc.Fill(c.number, grey, sheet.Box{X: c.days.at(d.Date) - sheet.Pt/8, Y: c.area.Y, W: sheet.Pt / 4, H: c.area.H})
	}
}

func (c *plot) axes() {
	for v := c.scale.low; v <= c.scale.high; v += c.scale.step {
		said := c.texts.Chart.Hours.With("hours", v.String())
		c.doc.Rule(c.number, c.area.X, c.y(v)-sheet.Pt/8, c.area.W, sheet.Pt/4, hair)
		c.doc.TextIn(c.number, c.area.X-fine.Width(said)-4*sheet.Pt, fine.Width(said), c.y(v)-fine.Leading/2, sheet.Left, fine, said)
	}
	c.doc.Stroke(c.number, c.area, sheet.Pt/2, grey)
	over := c.area.X - 20*sheet.Pt
	for _, tick := range ticksOf(c.days.first, c.days.last) {
		x, w := c.days.at(tick.date), fine.Width(tick.text)
		c.doc.Fill(c.number, grey, sheet.Box{X: x - sheet.Pt/4, Y: c.area.Bottom(), W: sheet.Pt / 2, H: 2 * sheet.Pt})
		if left := min(max(x-w/2, c.area.X), c.area.Right()-w); left >= over {
			c.doc.Text(c.number, left, c.area.Bottom()+2*sheet.Pt, fine, tick.text)
			over = left + w + 6*sheet.Pt
		}
	}
}

// line goes through the records that count, broken where one is missing between two.
func (c *plot) line() {
	var run []sheet.Spot
	flush := func() {
		c.doc.Polyline(c.number, 9*sheet.Pt/10, 0, ink, run...)
		run = nil
	}
	for n, i := range c.m.Counted {
		at := c.m.Entries[i].Point()
		if n > 0 && c.broken(c.m.Entries[c.m.Counted[n-1]].Point(), at) {
			flush()
		}
		run = append(run, c.spot(at))
	}
	flush()
}

// broken says whether a record is cited between two points, and missing.
func (c *plot) broken(from, to schedule.Point) bool {
	return slices.ContainsFunc(c.missing, func(f history.Fault) bool {
		at := *f.Missing.Point
		return from.Date <= at.Date && at.Date <= to.Date && from.Hours <= at.Hours && at.Hours <= to.Hours
	})
}
