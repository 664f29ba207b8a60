package picture

// pass is one way of looking at the picture.
type pass struct {
	level  int  // of the pyramid; -1 is twice the picture
	smooth bool // with the grain taken off first
}

// work is what an effort may cost.
type work struct {
	startPixels  int // the first raster that is looked at has so many, or fewer
	mostPixels   int // no raster with more is searched for finder patterns
	compared     int // triples that are compared with the picture in one pass
	timed        int // of these, triples whose timing patterns are looked for
	decoded      int // of these, symbols that are decoded
	timedInAll   int // the same in all passes
	decodedInAll int
}

// works holds the bounds. A raster of 16 megapixels shows modules of two of its
// pixels and more: on a larger picture the next scale does for finding them, and
// they are read at its own scale nevertheless.
var works = map[Effort]work{
	Quick:    {1 << 21, 1 << 22, 60, 6, 3, 12, 6},
	Thorough: {1 << 22, 1 << 24, 400, 40, 8, 160, 40},
}

// passesOf gives the passes over a picture, those first that read most
// pictures: a raster of a few million pixels, its neighbours, and the same again
// without grain. A camera's frame gets the first few only.
func passesOf(levels pyramid, effort Effort) (passes []pass) {
	may := works[effort]
	pixels := func(level int) int { return levels[level].w * levels[level].h }
	start := 0
	for start < len(levels)-1 && pixels(start) > may.startPixels {
		start++
	}
	if effort == Quick {
		passes = []pass{{start, false}, {start, true}}
		if start+1 < len(levels) {
			passes = append(passes, pass{start + 1, false})
		}
		return passes
	}
	order := []int{start}
	for away := 1; away < len(levels); away++ {
		if start+away < len(levels) {
			order = append(order, start+away)
		}
		if start-away >= 0 && pixels(start-away) <= may.mostPixels {
			order = append(order, start-away)
		}
	}
	for _, smooth := range []bool{false, true} {
		for _, level := range order {
			passes = append(passes, pass{level, smooth})
		}
	}
	if 4*pixels(0) <= may.mostPixels {
		passes = append(passes, pass{-1, true})
	}
	return passes
}
