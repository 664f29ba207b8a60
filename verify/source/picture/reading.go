package picture

// reading is what came of sampling and decoding a symbol.
type reading struct {
	text     string // "" where it could not be decoded
	mapping  *mapping
	mirrored bool // seen in a mirror, or through the paper
	evidence evidence
}

// readSymbol samples a symbol's modules and decodes them: as they are with the
// blur undone, and without that, and both once more after the mapping was bent to
// the modules themselves.
func readSymbol(r *raster, f *frame, version int) (got reading) {
	l := layoutOf(version)
	got.mapping = aligned(r, f, version)
	for again := range 2 {
		if again > 0 {
			got.mapping = refined(r, got.mapping, l.side)
		}
		soft := levelled(sampled(r, got.mapping, l.side), l.side)
		got.evidence = evidenceOf(l, soft)
		turned := transposed(soft, l.side)
		if e := evidenceOf(l, turned); e.format > got.evidence.format {
			soft, got.evidence, got.mirrored = turned, e, true
		} else {
			got.mirrored = false
		}
		for _, modules := range [2][]float32{equalised(l, soft), soft} {
			if text, ok := decodeModules(l, modules); ok {
				got.text = text
				return got
			}
		}
	}
	return got
}

// transposed turns rows into columns.
func transposed(soft []float32, side int) []float32 {
	out := make([]float32, len(soft))
	for i, v := range soft {
		out[i%side*side+i/side] = v
	}
	return out
}

// refined bends a mapping to the modules: square by square it looks where the
// samples are furthest from the grey between dark and light, which is at the
// modules' middles.
func refined(r *raster, m *mapping, side int) *mapping {
	const (
		across = 9    // modules along a square
		step   = 0.15 // of a module
		steps  = 2    // to each side
	)
	greys := sampled(r, m, side)
	threshold, _ := levels(greys, side)
	var anchors []anchor
	for top := 0; top < side; top += across {
		for left := 0; left < side; left += across {
			rows, columns := min(across, side-top), min(across, side-left)
			u, v := float64(left)+float64(columns)/2, float64(top)+float64(rows)/2
			along, down := axesAt(m, u, v)
			var best float32
			var shift point
			for j := -steps; j <= steps; j++ {
				for i := -steps; i <= steps; i++ {
					off := along.times(step * float64(i)).plus(down.times(step * float64(j)))
					var open float32
					for row := top; row < top+rows; row++ {
						for c := left; c < left+columns; c++ {
							d := r.grey(m.place(float64(c)+0.5, float64(row)+0.5).plus(off)) - threshold[row*side+c]
							open += max(d, -d)
						}
					}
					if open > best {
						best, shift = open, off
					}
				}
			}
			anchors = append(anchors, anchor{u, v, m.place(u, v).plus(shift), 1})
		}
	}
	along, down := axesAt(m, m.side/2, m.side/2)
	return fit(m, m.side, anchors, 0.4*(along.size()+down.size())/2)
}
