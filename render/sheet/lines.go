package sheet

// Spot is a place on a page.
type Spot struct{ X, Y Len }

// Polyline draws a line from spot to spot, its corners round. dash is how long its
// dashes and the gaps between them are, 0 for none. One spot alone draws nothing.
func (d *Document) Polyline(page int, thick, dash Len, c Color, spots ...Spot) {
	if len(spots) > 1 {
		d.lines(page, thick, dash, c, [][]Spot{spots})
	}
}

// Hatch fills a box with lines that rise to the right at 45 degrees, so far apart
// along its edges.
func (d *Document) Hatch(page int, b Box, apart, thick Len, c Color) {
	if b.W <= 0 || b.H <= 0 || apart <= 0 {
		return
	}
	var lines [][]Spot
	// Of each line, x + y from the box's upper left corner is the same.
	for sum := apart / 2; sum < b.W+b.H; sum += apart {
		left, right := max(0, sum-b.H), min(sum, b.W)
		if left < right {
			lines = append(lines, []Spot{{b.X + left, b.Y + sum - left}, {b.X + right, b.Y + sum - right}})
		}
	}
	if len(lines) > 0 {
		d.lines(page, thick, 0, c, lines)
	}
}

// lines adds lines as one mark. It covers their corners; half the thickness lies
// outside.
func (d *Document) lines(page int, thick, dash Len, c Color, lines [][]Spot) {
	first := lines[0][0]
	low, high := first, first
	for _, line := range lines {
		for _, s := range line {
			low.X, low.Y = min(low.X, s.X), min(low.Y, s.Y)
			high.X, high.Y = max(high.X, s.X), max(high.Y, s.Y)
		}
	}
	d.add(page, mark{kind: lineMark, box: Box{low.X, low.Y, high.X - low.X, high.Y - low.Y},
		color: c, width: thick, dash: dash, lines: lines})
}

// lines appends the path of a mark.
func (w *writer) lines(m mark) {
	w.number(m.width)
	w.path = append(w.path, "w 1 j\n"...)
	if m.dash > 0 {
		w.path = append(w.path, '[')
		w.number(m.dash)
		w.path = append(w.path, "] 0 d\n"...)
	}
	for _, line := range m.lines {
		for i, s := range line {
			w.number(s.X)
			w.number(w.height - s.Y)
			if i == 0 {
				w.path = append(w.path, "m\n"...)
			} else {
				w.path = append(w.path, "l\n"...)
			}
		}
	}
}
