package picture

import "math"

// A pattern is a square of rings, from its middle outwards, of which it is known
// whether they are dark.
type pattern []bool

var (
	alignmentPattern = pattern{true, false, true}
	finderPattern    = pattern{true, true, false, true}
)

// seek looks for a pattern around a place within reach, in modules, and gives the
// place where the greys are most like it, to a small part of a module, and how like they are, as a
// coefficient of correlation. along and down are the picture's steps of a module.
func (p pattern) seek(r *raster, around, along, down point, reach float64) (at point, like float64) {
	const step = 0.3 // of a module
	n := int(math.Ceil(reach / step))
	scores := make([]float64, (2*n+1)*(2*n+1))
	like = -2
	var bi, bj int
	for j := -n; j <= n; j++ {
		for i := -n; i <= n; i++ {
			place := around.plus(along.times(float64(i) * step)).plus(down.times(float64(j) * step))
			s := p.likeness(r, place, along, down)
			scores[(j+n)*(2*n+1)+i+n] = s
			// What is far off has to be a little better than what is near.
			if s -= 0.02 * step * math.Hypot(float64(i), float64(j)) / max(reach, 1); s > like {
				like, bi, bj = s, i, j
			}
		}
	}
	at = around.plus(along.times(float64(bi) * step)).plus(down.times(float64(bj) * step))
	// Twice a parabola through three values each way.
	for fine := step / 2; fine > step/5; fine /= 2 {
		here := p.likeness(r, at, along, down)
		x := peak(p.likeness(r, at.minus(along.times(fine)), along, down), here, p.likeness(r, at.plus(along.times(fine)), along, down))
		y := peak(p.likeness(r, at.minus(down.times(fine)), along, down), here, p.likeness(r, at.plus(down.times(fine)), along, down))
		at = at.plus(along.times(x * fine)).plus(down.times(y * fine))
	}
	return at, p.likeness(r, at, along, down)
}

// peak is where a parabola through values at -1, 0 and 1 is highest, at most 1 off.
func peak(before, here, after float64) float64 {
	bend := before - 2*here + after
	if bend >= 0 {
		switch {
		case before > after:
			return -1
		case after > before:
			return 1
		}
		return 0
	}
	return max(-1, min(1, (before-after)/(2*bend)))
}

// likeness is the correlation of the greys around a place with the pattern.
func (p pattern) likeness(r *raster, middle, along, down point) float64 {
	n := len(p) - 1
	var c correlation
	for j := -n; j <= n; j++ {
		start := middle.plus(down.times(float64(j)))
		for i := -n; i <= n; i++ {
			c.add(float64(r.grey(start.plus(along.times(float64(i))))), !p[max(i, -i, j, -j)])
		}
	}
	return c.coefficient()
}

// correlation gathers greys and whether each should be light.
type correlation struct {
	count, light           float64
	sum, squares, sumLight float64 // of greys; of the greys that should be light
}

func (c *correlation) add(grey float64, light bool) {
	c.count++
	c.sum += grey
	c.squares += grey * grey
	if light {
		c.light++
		c.sumLight += grey
	}
}

// coefficient is Pearson's, 0 where the greys deviate by less than one.
func (c *correlation) coefficient() float64 {
	mean, share := c.sum/c.count, c.light/c.count
	variance := c.squares/c.count - mean*mean
	if variance <= 1 {
		return 0
	}
	return (c.sumLight/c.count - share*mean) / math.Sqrt(variance*share*(1-share))
}
