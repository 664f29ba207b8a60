package sheet

// Columns places a cell cut into so many columns of about the same height, in
// reading order down the columns. The whole stays on one page, so it is for what
// is short.
func (f *Flow) Columns(n int, c Cell) {
	if len(c) == 0 {
		return
	}
	width := factWidth(f.area.W, n, 1)
	columns := c.cut(n, width)
	var h Len
	for _, column := range columns {
		h = max(h, column.Height(width))
	}
	f.Block(h+factGap/2, func(page int, b Box) {
		for i, column := range columns {
			column.Place(f.doc, page, Box{b.X + Len(i)*(width+columnGap), b.Y, width, h})
		}
	})
}

// cut finds the lowest height at which the items, in order, fit n columns.
func (c Cell) cut(n int, width Len) []Cell {
	heights := make([]Len, len(c))
	var low, high Len
	for i := range c {
		heights[i] = c[i].Before + c[i:i+1].Height(width)
		low, high = max(low, heights[i]), high+heights[i]
	}
	for low < high {
		middle := low + (high-low)/2
		if len(c.fill(heights, middle)) <= n {
			high = middle
		} else {
			low = middle + 1
		}
	}
	return c.fill(heights, low)
}

// fill puts the items into columns no taller than limit.
func (c Cell) fill(heights []Len, limit Len) []Cell {
	var columns []Cell
	var h Len
	for i, item := range c {
		if len(columns) == 0 || h+heights[i] > limit {
			columns, h = append(columns, nil), 0
		}
		last := len(columns) - 1
		columns[last], h = append(columns[last], item), h+heights[i]
	}
	return columns
}
