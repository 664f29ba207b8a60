package picture

import (
	"math"
)

// finder is a place that looks like a finder pattern.
type finder struct {
	at          point   // its middle
	along, down float64 // a seventh of its width along the row and along the column, in picture pixels
	votes       int     // rows that crossed it
	number      int     // to tell it from the others of a search
	like        float64 // correlation with a finder pattern, turned as it suits best
}

func (f finder) module() float64 { return (f.along + f.down) / 2 }

// Bounds of the search, whatever the picture holds.
const (
	maxClusters = 4096 // places kept of one bitmap
	maxFinders  = 48   // of them gone on with
)

// findersIn looks for finder patterns in a bitmap: dark, light, dark, light, dark
// as 1:1:3:1:1, along rows, and across each hit along the column and the row again.
// A line through the middle of a square crosses it in these proportions at any
// angle. Places are in the bitmap's pixels.
func findersIn(b *bitmap) []finder {
	c := clustersOf(b)
	var runs []int
	for y := range b.h {
		row := b.dark[y*b.w : (y+1)*b.w]
		// Where each run begins: the even ones are light.
		runs = append(runs[:0], 0)
		var now uint8
		for x, v := range row {
			if v != now {
				runs = append(runs, x)
				now = v
			}
		}
		runs = append(runs, b.w)
		for i := 1; i+5 < len(runs); i += 2 {
			w := [5]int{runs[i+1] - runs[i], runs[i+2] - runs[i+1], runs[i+3] - runs[i+2], runs[i+4] - runs[i+3], runs[i+5] - runs[i+4]}
			if looksRight(w) {
				c.examine(b, float64(runs[i+2]+runs[i+3])/2, y, w)
			}
		}
	}
	return c.found
}

// leastFinder is the correlation that a finder pattern has to have.
const leastFinder = 0.5

// likeness is the best correlation of what is there with a finder pattern over
// all turns, or that of its circles where these are not like it at all.
func (f *finder) likeness(r *raster) (best float64) {
	if best = f.circles(r); best < leastCircles {
		return best
	}
	best = 0
	const turns = 6 // of a right angle
	for turn := range turns {
		sin, cos := math.Sincos(math.Pi / 2 / turns * float64(turn))
		module := f.module() * max(sin, cos)
		best = max(best, finderPattern.likeness(r, f.at, point{module * cos, module * sin}, point{-module * sin, module * cos}))
	}
	return best
}

// leastCircles is the correlation that the circles of a finder pattern have to
// have, a little less than all of it, since there are few places on them.
const leastCircles = 0.4

// circles is the correlation of circles around the middle with those that are in
// one ring of a finder pattern at any turn: at 1 module dark, at 2.3 light, at 3.45
// dark. The module is a seventh of the width upright, and less the more it is turned.
func (f *finder) circles(r *raster) (best float64) {
	const places = 8
	for _, turned := range [3]float64{1, 0.85, 0.72} {
		var c correlation
		module := f.module() * turned
		c.add(float64(r.grey(f.at)), false)
		for i := range places {
			sin, cos := math.Sincos(2 * math.Pi / places * float64(i))
			for ring, radius := range [3]float64{1, 2.3, 3.45} {
				c.add(float64(r.grey(f.at.plus(point{cos, sin}.times(radius*module)))), ring == 1)
			}
		}
		best = max(best, c.coefficient())
	}
	return best
}

// looksRight says whether five runs are 1:1:3:1:1, each off by half a module and
// half a pixel at most, the middle one by twice that.
func looksRight(w [5]int) bool {
	total := w[0] + w[1] + w[2] + w[3] + w[4]
	if total < 7 {
		return false
	}
	for i, n := range w {
		// In fourteenths of a module: the run, how long it should be, how far it may
		// be off.
		off, may := 14*n-2*total, total+7
		if i == 2 {
			off, may = 14*n-6*total, 2*may
		}
		if off > may || off < -may {
			return false
		}
	}
	return true
}

// cross measures the five runs of a line through a dark pixel, n being steps of the
// line in pixels of the bitmap's slice, and gives them with the middle of the
// third. No run may be longer than limit.
func cross(line func(i int) (dark, inside bool), limit int) (w [5]int, middle float64, ok bool) {
	walk := func(from, by int, dark bool) (n, next int, inside bool) {
		for i := from; ; i += by {
			d, in := line(i)
			if !in || d != dark {
				return n, i, in
			}
			if n++; n > limit {
				return n, i, false
			}
		}
	}
	var at [2]int
	for side, by := range [2]int{-1, 1} {
		start := 0
		if by > 0 {
			start = 1
		}
		n, next, inside := walk(start, by, true)
		if !inside {
			return w, 0, false
		}
		w[2] += n
		at[side] = next
		n, next, inside = walk(next, by, false)
		if !inside || n == 0 {
			return w, 0, false
		}
		w[2+by] = n
		n, _, _ = walk(next, by, true)
		if n == 0 || n > limit {
			return w, 0, false
		}
		w[2+2*by] = n
	}
	return w, float64(at[0]+1+at[1]) / 2, true
}

// clusters are the finders of a bitmap, those of one cell in a list.
type clusters struct {
	found []finder
	next  []int // the one before in the same cell, -1 for none
	cells []int // the last one of each square of pixels, -1 for none
	wide  int   // cells along a row, with one more to each side
}

const cellSide = 32

func clustersOf(b *bitmap) *clusters {
	c := &clusters{wide: b.w/cellSide + 3}
	c.cells = make([]int, c.wide*(b.h/cellSide+3))
	for i := range c.cells {
		c.cells[i] = -1
	}
	return c
}

// examine looks at a hit along the row more closely and keeps it if it stands.
func (c *clusters) examine(b *bitmap, x float64, y int, w [5]int) {
	total := w[0] + w[1] + w[2] + w[3] + w[4]
	limit := total // a run has three sevenths at most, and perspective does not double it
	column := int(x)
	down, middle, ok := cross(func(i int) (bool, bool) {
		if y+i < 0 || y+i >= b.h {
			return false, false
		}
		return b.dark[(y+i)*b.w+column] != 0, true
	}, limit)
	if !ok || !looksRight(down) {
		return
	}
	high := down[0] + down[1] + down[2] + down[3] + down[4]
	if high > 2*total || total > 2*high {
		return
	}
	cy := float64(y) + middle
	line := int(cy)
	along, middle, ok := cross(func(i int) (bool, bool) {
		if column+i < 0 || column+i >= b.w {
			return false, false
		}
		return b.dark[line*b.w+column+i] != 0, true
	}, limit)
	if !ok || !looksRight(along) {
		return
	}
	wide := along[0] + along[1] + along[2] + along[3] + along[4]
	c.add(finder{at: point{float64(column) + middle, cy}, along: float64(wide) / 7, down: float64(high) / 7, votes: 1})
}

// add joins a finder to the one that it is another sight of, or keeps it.
func (c *clusters) add(f finder) {
	cell := (int(f.at.y)/cellSide+1)*c.wide + int(f.at.x)/cellSide + 1
	for row := -c.wide; row <= c.wide; row += c.wide {
		for column := -1; column <= 1; column++ {
			for n := c.cells[cell+row+column]; n >= 0; n = c.next[n] {
				if c.found[n].join(f) {
					return
				}
			}
		}
	}
	if len(c.found) < maxClusters {
		c.next = append(c.next, c.cells[cell])
		c.cells[cell] = len(c.found)
		c.found = append(c.found, f)
	}
}

// same says whether another finder is of the same place and size.
func (f finder) same(g finder) bool {
	near := 1.5 * max(f.module(), 1)
	d := f.at.minus(g.at)
	return max(d.x, -d.x, d.y, -d.y) <= near && f.module() <= 1.6*g.module()+1 && g.module() <= 1.6*f.module()+1
}

// join takes another sight into the mean, if it is of the same place and size.
func (f *finder) join(g finder) bool {
	if !f.same(g) {
		return false
	}
	n, m := float64(f.votes), float64(g.votes)
	f.at = between(f.at, g.at, m/(n+m))
	f.along = (n*f.along + m*g.along) / (n + m)
	f.down = (n*f.down + m*g.down) / (n + m)
	f.votes += g.votes
	return true
}
