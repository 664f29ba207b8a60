package picture

// boxed gives, for each of w times h values, what is made of those in the square
// around it: along the rows first, and of what came of that along the columns. A
// window reaches so far to each side, and less at the borders; of makes its value from
// the sum and the number of those in it.
func boxed[V int32 | float32, S int64 | float64](values []V, w, h, reach int, of func(sum S, count int) V) []V {
	along, out := make([]V, len(values)), make([]V, len(values))
	for y := range h {
		slide(values[y*w:], along[y*w:], w, 1, reach, of)
	}
	for x := range w {
		slide(along[x:], out[x:], h, w, reach, of)
	}
	return out
}

// slide moves a window over n values, a step apart, and keeps its sum as it goes.
func slide[V int32 | float32, S int64 | float64](from, to []V, n, step, reach int, of func(sum S, count int) V) {
	var sum S
	first, last := 0, -1 // of the window
	for i := range n {
		for last < min(i+reach, n-1) {
			last++
			sum += S(from[last*step])
		}
		for first < i-reach {
			sum -= S(from[first*step])
			first++
		}
		to[i*step] = of(sum, last-first+1)
	}
}
