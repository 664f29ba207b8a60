package statement

import (
	"slices"
	"strconv"

	"hourseal/render/sheet"
	"hourseal/verify/history"
)

// marks are those of what does not count, then of what counts, then of what is
// missing, so that the rarer ones are always seen.
func (c *plot) marks() {
	counts := func(e *history.Entry) bool { return e.Counts == history.Counts }
	var done []sheet.Spot
	var numbered []*history.Entry
	for i := range c.m.Entries {
		e := &c.m.Entries[i]
		at := c.spot(e.Point())
		if !counts(e) || near(&done, at) {
			c.thinned = c.thinned || counts(e)
			continue
		}
		c.doc.Fill(c.number, ink, square(at, markSide))
		c.taken = append(c.taken, square(at, markSide))
		numbered = append(numbered, e)
	}
	done = nil
	for i := range c.m.Entries {
		e := &c.m.Entries[i]
		if at := c.spot(e.Point()); !counts(e) {
			if near(&done, at) {
				c.thinned = true
				continue
			}
			c.doc.Fill(c.number, white, square(at, hollowSide))
			c.doc.Stroke(c.number, square(at, hollowSide), 8*sheet.Pt/10, ink)
			c.taken = append(c.taken, square(at, hollowSide))
			numbered = append(numbered, e)
		}
	}
	done = nil
	for _, f := range c.missing {
		if at := c.spot(*f.Missing.Point); near(&done, at) {
			c.thinned = true
		} else {
			c.cross(at)
			c.taken = append(c.taken, square(at, crossSide))
		}
	}
	for _, f := range c.missing {
		c.label(c.spot(*f.Missing.Point), c.texts.Chart.Missing.With("number", strconv.FormatUint(uint64(f.Missing.Number), 10)))
	}
	for i := range c.m.Entries {
		if e := &c.m.Entries[i]; e.Record.Job.Meter.Change != nil {
			c.label(c.spot(e.Point()), c.texts.Chart.Meter)
		}
	}
	every := 1
	for len(numbered) > mostNumbers*every {
		every++
	}
	for i, e := range numbered {
		if i%every == 0 || e.Counts != history.Counts {
			c.label(c.spot(e.Point()), strconv.FormatUint(uint64(e.Record.Number), 10))
		}
	}
}

// near says whether a mark would lie on one that was drawn, and notes it if not.
func near(done *[]sheet.Spot, at sheet.Spot) bool {
	for _, s := range slices.Backward(*done) {
		if max(s.X-at.X, at.X-s.X) < apart && max(s.Y-at.Y, at.Y-s.Y) < apart {
			return true
		}
	}
	*done = append(*done, at)
	return false
}

func square(at sheet.Spot, side sheet.Len) sheet.Box {
	return sheet.Box{X: at.X - side/2, Y: at.Y - side/2, W: side, H: side}
}

func (c *plot) cross(at sheet.Spot) {
	h := crossSide / 2
	for _, rise := range []sheet.Len{h, -h} {
		c.doc.Polyline(c.number, 14*sheet.Pt/10, 0, ink, sheet.Spot{X: at.X - h, Y: at.Y - rise}, sheet.Spot{X: at.X + h, Y: at.Y + rise})
	}
}

// label sets words beside a mark where there is room: above it, else below or at its
// sides. Words that would lie on others are left out; the table of records has them.
func (c *plot) label(at sheet.Spot, text string) {
	s := fine.In(ink)
	w, off := s.Width(text), 35*sheet.Pt/10
	for _, b := range []sheet.Box{
		{X: at.X - w - sheet.Pt, Y: at.Y - off - 7*sheet.Pt, W: w, H: 7 * sheet.Pt},
		{X: at.X - w - off, Y: at.Y - off, W: w, H: 7 * sheet.Pt},
		{X: at.X + off/2, Y: at.Y + off, W: w, H: 7 * sheet.Pt},
		{X: at.X + off, Y: at.Y - off, W: w, H: 7 * sheet.Pt},
	} {
		if c.area.Contains(b) && !slices.ContainsFunc(c.taken, b.Overlaps) {
			c.taken = append(c.taken, b)
			c.doc.Text(c.number, b.X, b.Y-sheet.Pt/2, s, text)
			return
		}
	}
}

// asked is the day that is asked about.
func (c *plot) asked() {
	s := c.m.Stands
	if s == nil || s.On < c.days.first || s.On > c.days.last {
		return
	}
	x := c.days.at(s.On)
	c.doc.Polyline(c.number, 9*sheet.Pt/10, 2*sheet.Pt, ink, sheet.Spot{X: x, Y: c.area.Y}, sheet.Spot{X: x, Y: c.area.Bottom()})
	said := c.texts.Chart.Asked.With("date", s.On.String())
	w := fine.Width(said)
	left := x - w - 2*sheet.Pt
	if left < c.area.X {
		left = x + 2*sheet.Pt
	}
	top := c.area.Bottom() - fine.Leading - sheet.Pt
	c.taken = append(c.taken, sheet.Box{X: left, Y: top, W: w, H: fine.Leading})
	c.doc.Text(c.number, left, top, fine.In(ink), said)
}

// legend says what the marks that there are mean.
func (c *plot) legend(at sheet.Spot) {
	t, mid := c.texts.Chart, at.Y+fine.Leading/2
	entry := func(draw func(sheet.Spot), said string) {
		draw(sheet.Spot{X: at.X + 3*sheet.Pt, Y: mid})
		at.X += 9 * sheet.Pt
		c.doc.Text(c.number, at.X, at.Y, fine.In(ink), said)
		at.X += fine.Width(said) + 14*sheet.Pt
	}
	entry(func(s sheet.Spot) { c.doc.Fill(c.number, ink, square(s, markSide)) }, t.Counts)
	if len(c.m.Counted) < len(c.m.Entries) {
		entry(func(s sheet.Spot) { c.doc.Stroke(c.number, square(s, hollowSide), 8*sheet.Pt/10, ink) }, t.Hollow)
	}
	if len(c.missing) > 0 {
		entry(c.cross, t.Cited)
	}
	if slices.ContainsFunc(c.m.Entries, func(e history.Entry) bool { return e.Record.Job.Meter.Change != nil }) {
		entry(func(s sheet.Spot) { c.doc.Text(c.number, s.X-3*sheet.Pt, at.Y, fine.In(ink).Bold(), t.Meter) }, t.Change)
	}
	if c.thinned {
		entry(func(sheet.Spot) { at.X -= 9 * sheet.Pt }, t.Thinned)
	}
}
