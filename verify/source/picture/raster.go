package picture

import (
	"image"
	"math"
)

// point is a place in the picture, in its pixels: the first pixel's middle is at
// (0.5, 0.5).
type point struct{ x, y float64 }

func (p point) plus(q point) point        { return point{p.x + q.x, p.y + q.y} }
func (p point) minus(q point) point       { return point{p.x - q.x, p.y - q.y} }
func (p point) times(f float64) point     { return point{p.x * f, p.y * f} }
func (p point) dot(q point) float64       { return p.x*q.x + p.y*q.y }
func (p point) cross(q point) float64     { return p.x*q.y - p.y*q.x }
func (p point) size() float64             { return math.Hypot(p.x, p.y) }
func (p point) rounded() image.Point      { return image.Pt(int(p.x), int(p.y)) }
func between(p, q point, f float64) point { return p.plus(q.minus(p).times(f)) }

// raster is the picture, or the picture at another scale.
type raster struct {
	pix    []uint8
	w, h   int
	stride int
	scale  float64 // pixels of the picture to one of the raster
}

func rasterOf(img *image.Gray) *raster {
	b := img.Bounds()
	return &raster{img.Pix, b.Dx(), b.Dy(), img.Stride, 1}
}

func (r *raster) row(y int) []uint8 { return r.pix[y*r.stride : y*r.stride+r.w] }

// half is the raster at half the scale: the mean of two pixels by two. An odd last
// row or column is left out.
func (r *raster) half() *raster {
	w, h := r.w/2, r.h/2
	out := &raster{make([]uint8, w*h), w, h, w, r.scale * 2}
	for y := range h {
		above, below := r.row(2*y), r.row(2*y+1)
		to := out.row(y)
		for x := range to {
			sum := int(above[2*x]) + int(above[2*x+1]) + int(below[2*x]) + int(below[2*x+1])
			to[x] = uint8((sum + 2) / 4)
		}
	}
	return out
}

// band is the rows of a raster from one to before another.
func (r *raster) band(from, to int) *raster {
	return &raster{r.pix[from*r.stride:], r.w, to - from, r.stride, r.scale}
}

// doubled is the raster at twice the scale, between pixels by straight lines.
func (r *raster) doubled() *raster {
	w, h := 2*r.w, 2*r.h
	out := &raster{make([]uint8, w*h), w, h, w, r.scale / 2}
	for y := range h {
		near := r.row(y / 2)
		far := r.row(min(max(y/2-1+y%2*2, 0), r.h-1))
		to := out.row(y)
		for x := range to {
			i := x / 2
			j := min(max(i-1+x%2*2, 0), r.w-1)
			to[x] = uint8((9*int(near[i]) + 3*int(near[j]) + 3*int(far[i]) + int(far[j]) + 8) / 16)
		}
	}
	return out
}

// grey is the value at a place of the picture, between the pixels by straight
// lines. Outside it is that of the nearest pixel.
func (r *raster) grey(p point) float32 {
	x, y := float32(p.x/r.scale-0.5), float32(p.y/r.scale-0.5)
	// NaN fails both comparisons of the clamp below, so it is caught by these.
	if !(x > 0) {
		x = 0
	}
	if !(y > 0) {
		y = 0
	}
	x, y = min(x, float32(r.w-1)), min(y, float32(r.h-1))
	i, j := int(x), int(y)
	fx, fy := x-float32(i), y-float32(j)
	right, down := 1, r.stride
	if i+1 >= r.w {
		right = 0
	}
	if j+1 >= r.h {
		down = 0
	}
	at := j*r.stride + i
	a, b := float32(r.pix[at]), float32(r.pix[at+right])
	c, d := float32(r.pix[at+down]), float32(r.pix[at+down+right])
	top, bottom := a+(b-a)*fx, c+(d-c)*fx
	return top + (bottom-top)*fy
}

// pyramid is the picture at its own scale, half, a quarter and so on.
type pyramid []*raster

// leastSide is the shortest side, in pixels, of a raster that may hold a symbol:
// version 1 with modules of two pixels.
const leastSide = 42

func pyramidOf(img *image.Gray) pyramid {
	p := pyramid{rasterOf(img)}
	for {
		last := p[len(p)-1]
		if min(last.w, last.h)/2 < leastSide {
			return p
		}
		p = append(p, last.half())
	}
}

// enoughPixels is the side of a module, in pixels, that sampling wants.
const enoughPixels = 4.5

// forModule is the coarsest scale at which a module of so many picture pixels has
// pixels enough: its pixels are means already, which takes off noise.
func (p pyramid) forModule(module float64) *raster {
	best := p[0]
	for _, r := range p[1:] {
		if module/r.scale < enoughPixels {
			break
		}
		best = r
	}
	return best
}
