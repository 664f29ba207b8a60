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
	boxes := make([]Box, 0, len(dark)*len(dark)/4) // about what a QR code has
	// For each module of the row above that begins a run: the run's box, from 1.
	above, here := make([]int, len(dark)+1), make([]int, len(dark)+1)
	for row, line := range dark {
		clear(here)
		for from := 0; from < len(line); from++ {
			if !line[from] {
				continue
			}
			to := from
			for to < len(line) && line[to] {
				to++
			}
			width := Len(to-from) * module
			if at := above[from]; at > 0 && boxes[at-1].W == width {
				boxes[at-1].H += module
				here[from] = at
			} else {
				boxes = append(boxes, Box{x + Len(from)*module, y + Len(row)*module, width, module})
				here[from] = len(boxes)
			}
			from = to
		}
		above, here = here, above
	}
	d.fill(page, Color{}, module, boxes)
}
