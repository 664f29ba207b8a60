package source

import (
	"bytes"
	"compress/zlib"
	"errors"
	"image"
	"image/color"
	"io"
)

var (
	errSamples   = errors.New("its pixels are damaged")
	errPredictor = errors.New("its pixels are written in an unusual way")
)

// lazyInflater inflates a stream as it is read, so that a picture is never in memory
// both as it was deflated and as it is.
type lazyInflater struct {
	deflated []byte
	zlib     io.Reader
}

func (l *lazyInflater) Read(b []byte) (int, error) {
	if l.zlib == nil {
		r, err := zlib.NewReader(bytes.NewReader(l.deflated))
		if err != nil {
			return 0, err
		}
		l.zlib = r
	}
	return l.zlib.Read(b)
}

// predictor is how the rows of a deflated picture are written, ISO 32000-1 section
// 7.4.4.4: 1 as they are, 2 as in TIFF, 10 and above as in PNG.
type predictor struct {
	kind                   int
	colours, bits, columns int
}

// png says whether rows are written as in PNG.
func (p predictor) png() bool { return p.kind >= 10 }

// filterBytes is how many bytes say, before each row, how the row is predicted.
func (p predictor) filterBytes() int {
	if p.png() {
		return 1
	}
	return 0
}

func (f *looseFile) predictor(d looseDict) predictor {
	p := predictor{kind: 1, colours: 1, bits: 8, columns: 1} // table 8, the defaults
	for key, to := range map[string]*int{"Predictor": &p.kind, "Colors": &p.colours, "BitsPerComponent": &p.bits, "Columns": &p.columns} {
		if n, ok := f.natural(d[key]); ok {
			*to = n
		}
	}
	return p
}

// rows reads rows of samples one by one.
type rows struct {
	r          io.Reader
	p          predictor
	step       int // bytes from a sample to the one that it is predicted from
	row, above []byte
}

// newRows reads rows of rowBytes bytes, as p says they are written.
func newRows(r io.Reader, p predictor, rowBytes int) (*rows, error) {
	// What PNG predicts from and TIFF adds up is laid down by these three. Where they
	// do not make the picture's row, nobody can say what was meant.
	if p.kind > 1 && (p.colours < 1 || p.colours > 4 || p.bits < 1 || p.bits > 16 || p.columns > maxPixels || (p.colours*p.bits*p.columns+7)/8 != rowBytes) {
		return nil, errPredictor
	}
	if p.kind == 2 && p.bits != 8 {
		return nil, errPredictor
	}
	return &rows{r: r, p: p, step: max(1, p.colours*p.bits/8), row: make([]byte, rowBytes+p.filterBytes()), above: make([]byte, rowBytes)}, nil
}

// next reads a row; it is good until the following call.
func (r *rows) next() ([]byte, error) {
	if _, err := io.ReadFull(r.r, r.row); err != nil {
		return nil, errSamples
	}
	switch {
	case r.p.png():
		row := r.row[1:]
		if !unfilter(r.row[0], row, r.above, r.step) {
			return nil, errSamples
		}
		copy(r.above, row)
		return row, nil
	case r.p.kind == 2:
		for i := r.step; i < len(r.row); i++ {
			r.row[i] += r.row[i-r.step]
		}
	}
	return r.row, nil
}

// unfilter undoes a row's PNG filter, ISO/IEC 15948 section 9.2.
func unfilter(filter byte, row, above []byte, step int) bool {
	switch filter {
	case 0:
	case 1:
		for i := step; i < len(row); i++ {
			row[i] += row[i-step]
		}
	case 2:
		for i := range row {
			row[i] += above[i]
		}
	case 3:
		for i := range row {
			left := 0
			if i >= step {
				left = int(row[i-step])
			}
			row[i] += byte((left + int(above[i])) / 2)
		}
	case 4:
		for i := range row {
			var left, corner int
			if i >= step {
				left, corner = int(row[i-step]), int(above[i-step])
			}
			row[i] += paeth(left, int(above[i]), corner)
		}
	default:
		return false
	}
	return true
}

// paeth is the predictor of ISO/IEC 15948 section 9.4.
func paeth(left, above, corner int) byte {
	p := left + above - corner
	fromLeft, fromAbove, fromCorner := distance(p, left), distance(p, above), distance(p, corner)
	switch {
	case fromLeft <= fromAbove && fromLeft <= fromCorner:
		return byte(left)
	case fromAbove <= fromCorner:
		return byte(above)
	}
	return byte(corner)
}

func distance(a, b int) int { return max(a-b, b-a) }

// samples decodes a picture that is stored as its pixels, row by row, and returns
// how many rows there were.
func (p pdfPicture) samples(img *image.Gray) (int, error) {
	space := p.colours
	if space.components == 0 {
		return 0, errSamples
	}
	source, err := newRows(p.open(), p.predictor, rowBytes(p.width, space.components, p.bits))
	if err != nil {
		return 0, err
	}
	components := make([]byte, p.width*space.components)
	scale := byte(1)
	if space.palette == nil && p.bits < 8 {
		scale = byte(255 / (1<<p.bits - 1))
	}
	for y := range p.height {
		packed, err := source.next()
		if err != nil {
			return y, err
		}
		unpack(components, packed, p.bits, scale)
		out := img.Pix[y*img.Stride:][:p.width]
		for x := range out {
			out[x] = space.shade(components[x*space.components:])
		}
		if p.inverted {
			invertRow(out)
		}
	}
	return p.height, nil
}

func rowBytes(width, components, bits int) int { return (width*components*bits + 7) / 8 }

// fitting finds the number of components by which the data fill the picture, for a
// colour space that cannot be found; none where they do not. It reads limit bytes at
// most, and says how many it read.
func (p pdfPicture) fitting(limit int) (space colourSpace, have int64) {
	most := int64(rowBytes(p.width, 4, p.bits)+1) * int64(p.height)
	have, _ = io.Copy(io.Discard, io.LimitReader(p.open(), min(most, int64(limit))))
	for _, space := range []colourSpace{{components: 4, ink: true}, {components: 3}, {components: 1}} {
		if int64(rowBytes(p.width, space.components, p.bits)+p.predictor.filterBytes())*int64(p.height) <= have {
			return space, have
		}
	}
	return colourSpace{}, have
}

// unpack spreads samples of 1, 2, 4, 8 or 16 bits over a byte each, times scale; of
// 16 bits the upper eight are kept.
func unpack(to, packed []byte, bits int, scale byte) {
	switch bits {
	case 8:
		copy(to, packed)
	case 16:
		for i := range to {
			to[i] = packed[2*i]
		}
	default:
		mask := byte(1<<bits - 1)
		for i := range to {
			at := i * bits
			to[i] = packed[at>>3] >> (8 - bits - at&7) & mask * scale
		}
	}
}

// shade is the brightness of a pixel.
func (c colourSpace) shade(pixel []byte) byte {
	switch {
	case c.palette != nil:
		return c.palette[pixel[0]]
	case c.components == 3:
		return luma(pixel[0], pixel[1], pixel[2])
	case c.components == 4:
		return luma(color.CMYKToRGB(pixel[0], pixel[1], pixel[2], pixel[3]))
	case c.ink:
		return 255 - pixel[0]
	}
	return pixel[0]
}
