package picture

// sampled gives the grey of each module of a symbol, row by row: the mean of five
// places around its middle.
func sampled(r *raster, m placer, side int) []float32 {
	const off = 0.2 // of a module
	values := make([]float32, side*side)
	for row := range side {
		v := float64(row) + 0.5
		// The projection is worked out at the ends of every fourth module; between
		// them it is straight to a thousandth of a module.
		const apart = 4
		var from, to point
		for c := 0; c < side; c++ {
			if c%apart == 0 {
				from, to = m.place(float64(c)+0.5, v), m.place(float64(c+apart)+0.5, v)
			}
			p := between(from, to, float64(c%apart)/apart)
			along := to.minus(from).times(off / apart)
			across := point{-along.y, along.x}
			values[row*side+c] = (r.grey(p) + r.grey(p.plus(along)) + r.grey(p.minus(along)) + r.grey(p.plus(across)) + r.grey(p.minus(across))) / 5
		}
	}
	return values
}

// levelled turns greys into soft modules: about 1 for light and -1 for dark, 0
// between, by the light and dark levels around each module.
func levelled(greys []float32, side int) []float32 {
	threshold, spread := levels(greys, side)
	soft := make([]float32, len(greys))
	for i, g := range greys {
		soft[i] = max(-2, min(2, (g-threshold[i])/spread[i]))
	}
	return soft
}

// levels gives for each module the grey between dark and light around it, and how
// far either is from that, one grey at least.
func levels(greys []float32, side int) (threshold, spread []float32) {
	const reach = 6 // modules to each side
	ones := make([]float32, len(greys))
	for i := range ones {
		ones[i] = 1
	}
	threshold, spread = ratio(boxSums(greys, side, reach), boxSums(ones, side, reach)), ones
	for range 2 {
		light, dark := make([]float32, len(greys)), make([]float32, len(greys))
		isLight, isDark := make([]float32, len(greys)), make([]float32, len(greys))
		for i, g := range greys {
			if g >= threshold[i] {
				light[i], isLight[i] = g, 1
			} else {
				dark[i], isDark[i] = g, 1
			}
		}
		above := ratio(boxSums(light, side, reach), boxSums(isLight, side, reach))
		below := ratio(boxSums(dark, side, reach), boxSums(isDark, side, reach))
		for i := range threshold {
			threshold[i] = (above[i] + below[i]) / 2
			spread[i] = max((above[i]-below[i])/2, 1)
		}
	}
	return threshold, spread
}

func ratio(sums, counts []float32) []float32 {
	for i := range sums {
		sums[i] /= max(counts[i], 1)
	}
	return sums
}

// boxSums is the sum of a square around each value, reach to each side, less at the
// borders.
func boxSums(values []float32, side, reach int) []float32 {
	return boxed(values, side, side, reach, func(sum float64, _ int) float32 { return float32(sum) })
}
