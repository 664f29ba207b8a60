package picture

// bitmap says which pixels of a raster are dark: 1, others 0.
type bitmap struct {
	dark []uint8
	w, h int
}

// blockSide is the side, in pixels, of the blocks whose means make thresholds, flat
// the difference of greys below which a block is taken for bare paper, or for all
// dark, and reach how many blocks to each side a threshold is the mean of.
const (
	blockSide = 8
	flat      = 24
	reach     = 2
)

// binarise divides pixels by a threshold that follows the light: the mean of the
// blocks around, and between block middles by straight lines. A block without contrast
// takes the level of what is beside it, so that the grain of bare paper is light.
func (s *scratch) binarise(r *raster) *bitmap {
	bw, bh := (r.w+blockSide-1)/blockSide, (r.h+blockSide-1)/blockSide
	levels := blockLevels(r, bw, bh)
	thresholds := boxMeans(levels, bw, bh, reach)
	b := &bitmap{sized(&s.dark, r.w*r.h), r.w, r.h}
	line := make([]int32, bw+1)
	for y := range r.h {
		// Threshold along this row at block middles, in 1/256 of a grey.
		by := max(y-blockSide/2, 0)
		j, fy := by/blockSide, int32(by%blockSide)
		k := min(j+1, bh-1)
		if y < blockSide/2 {
			fy = 0
		}
		for i := range bw {
			a, c := thresholds[j*bw+i], thresholds[k*bw+i]
			line[i] = a + (c-a)*fy/blockSide
		}
		line[bw] = line[bw-1]
		row, out := r.row(y), b.dark[y*r.w:(y+1)*r.w]
		for i := range bw + 1 {
			// From the middle of block i-1 to that of block i.
			from, to := max(i*blockSide-blockSide/2, 0), min(i*blockSide+blockSide/2, r.w)
			a, c := line[max(i-1, 0)], line[i]
			step := (c - a) / blockSide
			t := a
			for x := from; x < to; x++ {
				out[x] = 0
				if int32(row[x])<<8 < t {
					out[x] = 1
				}
				t += step
			}
		}
	}
	return b
}

// blockLevels gives the level between dark and light of each block, in 1/256 of a
// grey.
func blockLevels(r *raster, bw, bh int) []int32 {
	levels := make([]int32, bw*bh)
	for j := range bh {
		for i := range bw {
			x0, y0 := i*blockSide, j*blockSide
			x1, y1 := min(x0+blockSide, r.w), min(y0+blockSide, r.h)
			var sum int32
			least, most := uint8(255), uint8(0)
			for y := y0; y < y1; y++ {
				for _, v := range r.row(y)[x0:x1] {
					sum += int32(v)
					least, most = min(least, v), max(most, v)
				}
			}
			level := sum << 8 / int32((x1-x0)*(y1-y0))
			if most-least < flat {
				// As light as its surroundings are dark, or darker: half of its least
				// grey, unless the blocks before say that this is within a symbol.
				level = int32(least) << 7
				if i > 0 && j > 0 {
					around := (levels[(j-1)*bw+i] + 2*levels[j*bw+i-1] + levels[(j-1)*bw+i-1]) / 4
					if int32(least)<<8 < around {
						level = around
					}
				}
			}
			levels[j*bw+i] = level
		}
	}
	return levels
}

// boxMeans is the mean of a square around each value, reach to each side, less at
// the borders.
func boxMeans(values []int32, w, h, reach int) []int32 {
	return boxed(values, w, h, reach, func(sum int64, count int) int32 { return int32(sum / int64(count)) })
}
