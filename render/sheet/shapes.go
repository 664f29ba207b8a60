package sheet

// Bar draws a bar that is filled from the left by used of whole; a used amount
// beyond the whole fills it and is marked by a notch. Outline and fill are both
// dark enough for a black-and-white print.
func (d *Document) Bar(page int, b Box, used, whole int64, fill, outline Color) {
	if whole <= 0 {
		return
	}
	part := min(max(used, 0), whole)
	if w := Len(int64(b.W) * part / whole); w > 0 {
		d.Fill(page, fill, Box{b.X, b.Y, w, b.H})
	}
	d.Stroke(page, b, Pt/2, outline)
}

// Modules draws a matrix symbol of square modules, dark where true, with its
// upper left corner at x, y. Each row's dark modules are merged into runs, and a
// run that the next row repeats into one taller rectangle; all are one shape.
func (d *Document) Modules(page int, x, y, module Len, dark [][]bool) {
	type run struct{ from, to int }
	var boxes []Box
	open := map[run]int{} // runs of the row above, and their boxes
	for row, line := range dark {
		next := map[run]int{}
		for from := 0; from < len(line); from++ {
			if !line[from] {
				continue
			}
			to := from
			for to < len(line) && line[to] {
				to++
			}
			r := run{from, to}
			at, repeated := open[r]
			if repeated {
				boxes[at].H += module
			} else {
				at = len(boxes)
				boxes = append(boxes, Box{x + Len(from)*module, y + Len(row)*module, Len(to-from) * module, module})
			}
			next[r] = at
			from = to
		}
		open = next
	}
	d.Fill(page, Color{}, boxes...)
}
