package picture

import "math"

// frame maps modules to the picture by a projection that takes the middles of the
// three finder patterns to their places. Module coordinates run from (0, 0) at the
// symbol's outer corner; the first module's middle is (0.5, 0.5).
type frame struct {
	corner, right, below point
	legs                 float64 // modules between the finders' middles
	g, h                 float64 // foreshortening along the top and along the left side
}

func (f *frame) place(u, v float64) point {
	s, t := (u-3.5)/f.legs, (v-3.5)/f.legs
	w := 1 + f.g*s + f.h*t
	a, b, c := (1-s-t)/w, s*(1+f.g)/w, t*(1+f.h)/w
	return point{a*f.corner.x + b*f.right.x + c*f.below.x, a*f.corner.y + b*f.right.y + c*f.below.y}
}

// foreshortenedTo gives the frame with the foreshortening that takes it nearest to
// anchors; the places of the finder patterns stay. The equations are linear once
// they are multiplied by the denominator.
func (f *frame) foreshortenedTo(anchors []anchor) *frame {
	a := newNormal(2, 1)
	for _, p := range anchors {
		s, t := (p.u-3.5)/f.legs, (p.v-3.5)/f.legs
		flat := f.corner.times(1 - s - t).plus(f.right.times(s)).plus(f.below.times(t)).minus(p.at)
		g, h := p.at.minus(f.right).times(s), p.at.minus(f.below).times(t)
		a.add([]float64{g.x, h.x}, []float64{flat.x}, p.weight)
		a.add([]float64{g.y, h.y}, []float64{flat.y}, p.weight)
	}
	to := *f
	if k := a.solve()[0]; k[0] > -maxBend && k[0] < maxBend && k[1] > -maxBend && k[1] < maxBend {
		to.g, to.h = k[0], k[1]
	}
	return &to
}

// maxBend bounds the foreshortening that anchors may ask for, so that no place of
// a symbol is behind the camera.
const maxBend = 0.4

// placer is a way from modules to the picture.
type placer interface{ place(u, v float64) point }

// axesAt are the steps in the picture of a module along the row and along the
// column, at a place of the symbol.
func axesAt(p placer, u, v float64) (along, down point) {
	along = p.place(u+0.5, v).minus(p.place(u-0.5, v))
	down = p.place(u, v+0.5).minus(p.place(u, v-0.5))
	return along, down
}

// leastTiming is how well a timing pattern has to alternate, of 1.
const leastTiming = 0.4

// frameOf finds the version of a triple's symbol, and the projection, by trying
// which make the timing patterns alternate and the version information agree.
// timing says how well the first do, 0 to 1.
func frameOf(r *raster, t triple) (best frame, version int, timing float64) {
	low, high := t.side*0.88-2, t.side*1.12+2
	var most float64
	for v := 1; v <= 40; v++ {
		side := float64(sideOf(v))
		if side < low || side > high {
			continue
		}
		f := frame{corner: t.corner.at, right: t.right.at, below: t.below.at, legs: side - 7}
		score := f.foreshorten(r, sideOf(v))
		total := score - bendCost*f.bend()
		if v >= leastWithInfo {
			total += f.versionLikeness(r, v) / 2
		}
		if total > most {
			best, version, timing, most = f, v, score, total
		}
	}
	// The two projections hang together, but weakly: along the top the one for the
	// left side moves the line by a fraction of a module.
	if version > 0 {
		again := best
		if score := again.foreshorten(r, sideOf(version)); score > timing {
			best, timing = again, score
		}
	}
	return best, version, timing
}

// foreshorten searches along both sides, and gives the mean of how well their
// timing patterns alternate.
func (f *frame) foreshorten(r *raster, side int) float64 {
	var top, left float64
	f.g, top = f.search(r, side, true)
	f.h, left = f.search(r, side, false)
	return (top + left) / 2
}

// versionLikeness is how well the modules of the version information agree with a
// version, at most 1. They lie beside finder patterns, so that they are in place
// even where the timing patterns are bent.
func (f *frame) versionLikeness(r *raster, version int) float64 {
	var values [36]float32
	var mean float32
	for i, at := range versionModules(sideOf(version)) {
		values[i] = r.grey(f.place(float64(at[1])+0.5, float64(at[0])+0.5))
		mean += values[i] / 36
	}
	for i := range values {
		values[i] -= mean
	}
	return float64(likeness(versionWords[version], 18, values[:]))
}

// bendCost is what a foreshortening of 1 takes off how well a timing pattern alternates,
// so that of several that alternate as well the one that bends least is taken: a short
// pattern alternates under the next version too, bent enough.
const bendCost = 0.05

// bend is the mean foreshortening of both sides.
func (f *frame) bend() float64 { return (math.Abs(f.g) + math.Abs(f.h)) / 2 }

// maxForeshortening is the greatest ratio of module sizes from end to end of a
// side. Common practice, no source.
const maxForeshortening = 1.5

// search finds the foreshortening along the top, or along the left side, that
// makes its timing pattern alternate best.
func (f *frame) search(r *raster, side int, top bool) (best, score float64) {
	// A scale ratio of q from end to end moves the middle by legs·(q-1)/8 modules:
	// steps of a quarter module there.
	steps := int(math.Ceil(f.legs * math.Log(maxForeshortening) / 8 * 4))
	try := *f
	values := make([]float32, side-16)
	most := -2.0
	for i := -steps; i <= steps; i++ {
		k := math.Exp(math.Log(maxForeshortening)/2*float64(i)/float64(steps)) - 1
		if top {
			try.g = k
		} else {
			try.h = k
		}
		for m := range values {
			if top {
				values[m] = r.grey(try.place(float64(m)+8.5, 6.5))
			} else {
				values[m] = r.grey(try.place(6.5, float64(m)+8.5))
			}
		}
		s := alternation(values)
		if preferred := s - bendCost*math.Abs(k); preferred > most {
			best, score, most = k, s, preferred
		}
	}
	return best, score
}

// alternation is how well values alternate, the first being dark: 1 for each
// darker than its neighbours or lighter by turns, 0 for chance. Slow changes of
// light do not count.
func alternation(values []float32) float64 {
	var agreed, all float32
	for i := 1; i+1 < len(values); i++ {
		d := values[i] - (values[i-1]+values[i+1])/2
		if i%2 == 0 {
			d = -d
		}
		agreed += d
		all += max(d, -d)
	}
	if all == 0 {
		return 0
	}
	return float64(agreed / all)
}
