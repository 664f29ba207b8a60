package picture

import (
	"cmp"
	"slices"
)

// scratch is memory that passes share.
type scratch struct {
	dark, smooth []uint8
	sums         []uint16
}

// A large raster is looked at in bands of so many pixels, with rows in common for
// the patterns that lie across.
const (
	bandPixels = 1 << 22
	commonRows = 192
)

// findersOf gives the finders of a raster, in the picture's pixels, the likest
// first.
func (s *scratch) findersOf(r *raster, smooth bool) (found []finder) {
	high := max(bandPixels/r.w, 2*commonRows)
	for top := 0; ; top += high - commonRows {
		band := r.band(top, min(top+high, r.h))
		if smooth {
			band = s.smoothed(band)
		}
		for _, f := range findersIn(s.binarise(band)) {
			f.at.y += float64(top)
			f.at, f.along, f.down = f.at.times(r.scale), f.along*r.scale, f.down*r.scale
			if f.like = f.likeness(r); f.like >= leastFinder {
				found = append(found, f)
			}
		}
		if top+high >= r.h {
			break
		}
	}
	slices.SortStableFunc(found, func(p, q finder) int { return cmp.Compare(q.like, p.like) })
	return found[:min(len(found), maxFinders)]
}

// sized gives a slice of so many elements, the old one if it is long enough.
func sized[T any](old *[]T, n int) []T {
	if cap(*old) < n {
		*old = make([]T, n)
	}
	return (*old)[:n]
}

// smoothed is a raster with the grain taken off: each pixel and its eight
// neighbours, weighted 1, 2, 1 along and across. It lasts until the next one.
func (s *scratch) smoothed(r *raster) *raster {
	out := &raster{sized(&s.smooth, r.w*r.h), r.w, r.h, r.w, r.scale}
	sums := sized(&s.sums, r.w)
	for y := range r.h {
		above, here, below := r.row(max(y-1, 0)), r.row(y), r.row(min(y+1, r.h-1))
		for x := range sums {
			sums[x] = uint16(above[x]) + 2*uint16(here[x]) + uint16(below[x])
		}
		to := out.row(y)
		for x := range to {
			to[x] = uint8((sums[max(x-1, 0)] + 2*sums[x] + sums[min(x+1, r.w-1)] + 8) / 16)
		}
	}
	return out
}
