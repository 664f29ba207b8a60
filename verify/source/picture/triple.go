package picture

import (
	"cmp"
	"math"
	"slices"
)

// triple is three finders that may be the corners of one symbol.
type triple struct {
	corner, right, below finder  // top left, top right, bottom left
	side                 float64 // modules along a side, by the finders' sizes
	misfit               float64 // 0 for three equal corners of a square
	like                 float64 // the least correlation of its corners with a finder pattern
}

// module is the side of a module in pixels of the picture.
func (t triple) module() float64 {
	p, q := t.right.at.minus(t.corner.at), t.below.at.minus(t.corner.at)
	return (p.size() + q.size()) / 2 / (t.side - 7)
}

// key tells a triple from others by its finders.
func (t triple) key() [3]int { return [3]int{t.corner.number, t.right.number, t.below.number} }

// axes are the steps of a module in the picture along the top and down the left.
func (t triple) axes() (along, down point) {
	return t.right.at.minus(t.corner.at).times(1 / (t.side - 7)), t.below.at.minus(t.corner.at).times(1 / (t.side - 7))
}

// Limits of what a photograph may do to a square. Common practice, no source.
const (
	maxLegs  = 1.8 // ratio of the sides
	maxSlant = 0.5 // cosine of the angle
	maxSizes = 1.8 // ratio of the finders' sizes
	minSide  = 17  // modules along a side, by the finders' sizes, for version 1 with a measuring error
	maxSide  = 215 // the same, for version 40
)

// triplesOf gives the triples that look like a symbol, the likeliest first.
func triplesOf(found []finder) []triple {
	var all []triple
	for i := range found {
		for j := i + 1; j < len(found); j++ {
			if !alike(found[i], found[j]) {
				continue
			}
			for k := j + 1; k < len(found); k++ {
				if t, ok := tripleOf(found[i], found[j], found[k]); ok {
					all = append(all, t)
				}
			}
		}
	}
	slices.SortStableFunc(all, func(s, t triple) int { return cmp.Compare(s.misfit, t.misfit) })
	return all
}

func alike(f, g finder) bool {
	return f.module() < maxSizes*g.module() && g.module() < maxSizes*f.module()
}

// tripleOf puts three finders in order, if they can be a symbol's.
func tripleOf(f, g, h finder) (t triple, ok bool) {
	if !alike(f, h) || !alike(g, h) {
		return t, false
	}
	// The corner is opposite the longest distance.
	fg, gh, hf := f.at.minus(g.at), g.at.minus(h.at), h.at.minus(f.at)
	a, b, c := fg.dot(fg), gh.dot(gh), hf.dot(hf)
	switch {
	case a >= b && a >= c:
		f, h = h, f
	case c >= a && c >= b:
		f, g = g, f
	}
	p, q := g.at.minus(f.at), h.at.minus(f.at)
	if p.cross(q) < 0 { // y runs downwards: the right one is followed by the one below
		g, h, p, q = h, g, q, p
	}
	lp, lq := p.size(), q.size()
	if lp > maxLegs*lq || lq > maxLegs*lp || lp == 0 || lq == 0 {
		return t, false
	}
	slant := math.Abs(p.dot(q)) / (lp * lq)
	if slant > maxSlant {
		return t, false
	}
	across, down := f.length(p)+g.length(p), f.length(q)+h.length(q)
	sideP, sideQ := 2*lp/across+7, 2*lq/down+7
	side := (sideP + sideQ) / 2
	if side < minSide || side > maxSide {
		return t, false
	}
	sizes := math.Log(f.module() / g.module())
	sizes = sizes*sizes + math.Pow(math.Log(f.module()/h.module()), 2) + math.Pow(math.Log(g.module()/h.module()), 2)
	legs := math.Log(lp / lq)
	misfit := math.Sqrt(sizes+legs*legs+slant*slant) + math.Abs(math.Log(sideP/sideQ))
	return triple{corner: f, right: g, below: h, side: side, misfit: misfit}, true
}

// length is the side of a module of a finder along a direction. A row crosses a
// square that is turned by an angle in its width over the angle's cosine.
func (f finder) length(along point) float64 {
	x, y := math.Abs(along.x), math.Abs(along.y)
	turned := max(x, y) / math.Hypot(x, y)
	if x > y {
		return f.along * turned
	}
	return f.down * turned
}
