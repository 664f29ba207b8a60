package picture

// equalised undoes blur between modules: a weighted sum of each module and its
// eight neighbours that makes the modules whose colour is known, and those that
// are sure, come out best, by least squares. A lens spreads a module over its
// neighbours in much the same way everywhere in a symbol.
func equalised(l *layout, soft []float32) []float32 {
	const taps = 10 // nine modules and a constant
	a := newNormal(taps, 1)
	var row [taps]float64
	for r := range l.side {
		for c := range l.side {
			i := r*l.side + c
			want, weight := 0.0, 1.0
			switch l.kinds[i] {
			case knownDark:
				want = -1
			case knownLight:
				want = 1
			default:
				switch {
				case soft[i] > 0.3:
					want = 1
				case soft[i] < -0.3:
					want = -1
				default:
					continue
				}
				weight = 0.5
			}
			neighbours(l.side, soft, r, c, &row)
			a.add(row[:], []float64{want}, weight)
		}
	}
	for i := range taps {
		to := 0.0
		if i == 4 {
			to = 1
		}
		a.pull(i, 2, []float64{to})
	}
	weights := a.solve()[0]
	out := make([]float32, len(soft))
	for r := range l.side {
		for c := range l.side {
			neighbours(l.side, soft, r, c, &row)
			var sum float64
			for i, w := range weights {
				sum += w * row[i]
			}
			out[r*l.side+c] = float32(sum)
		}
	}
	return out
}

// neighbours fills row with the module and those around it, row by row, and 1.
// Outside the symbol is light.
func neighbours(side int, soft []float32, r, c int, row *[10]float64) {
	k := 0
	for dr := -1; dr <= 1; dr++ {
		for dc := -1; dc <= 1; dc++ {
			row[k] = 1
			if r+dr >= 0 && r+dr < side && c+dc >= 0 && c+dc < side {
				row[k] = float64(soft[(r+dr)*side+c+dc])
			}
			k++
		}
	}
	row[k] = 1
}
