package sourcetest

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"image"
	"maps"
	"slices"
	"strconv"
	"strings"
)

// Picture is an image XObject to be shown on a page of its own.
type Picture struct {
	Width, Height int    // pixels
	Entries       string // further entries of its dictionary: its filter, colours and bits
	Content       []byte // as they say
	Apart         bool   // its /Length is an object of its own
}

// Scan is a PDF as scanners write it: a page a picture and nothing else. further are
// objects that the pictures refer to, by their numbers, from 5000 on.
func Scan(further map[int]string, pictures ...Picture) []byte {
	var b bytes.Buffer
	offsets := map[int]int{}
	object := func(number int, body string) {
		offsets[number] = b.Len()
		fmt.Fprintf(&b, "%d 0 obj\n%s\nendobj\n", number, body)
	}
	stream := func(dict, length string, content []byte) string {
		return fmt.Sprintf("<< %s /Length %s >>\nstream\n%s\nendstream", dict, length, content)
	}
	b.WriteString("%PDF-1.5\n%\xe2\xe3\xcf\xd3\n")
	var kids strings.Builder
	next := 3
	number := func() int { next++; return next - 1 }
	for _, p := range pictures {
		page, content, xobject := number(), number(), number()
		fmt.Fprintf(&kids, "%d 0 R ", page)
		object(page, fmt.Sprintf("<< /Type /Page /Parent 2 0 R /MediaBox [0 0 %d %d] /Contents %d 0 R /Resources << /XObject << /Im0 %d 0 R >> >> >>",
			p.Width, p.Height, content, xobject))
		paint := fmt.Appendf(nil, "q %d 0 0 %d 0 0 cm /Im0 Do Q", p.Width, p.Height)
		object(content, stream("", strconv.Itoa(len(paint)), paint))
		length := strconv.Itoa(len(p.Content))
		if p.Apart {
			apart := number()
			object(apart, length)
			length = fmt.Sprintf("%d 0 R", apart)
		}
		object(xobject, stream(fmt.Sprintf("/Type /XObject /Subtype /Image /Width %d /Height %d %s", p.Width, p.Height, p.Entries), length, p.Content))
	}
	for _, number := range slices.Sorted(maps.Keys(further)) {
		object(number, further[number])
	}
	object(1, "<< /Type /Catalog /Pages 2 0 R >>")
	object(2, fmt.Sprintf("<< /Type /Pages /Kids [ %s] /Count %d >>", kids.String(), len(pictures)))
	table := b.Len()
	b.WriteString("xref\n0 1\n0000000000 65535 f \n")
	numbers := slices.Sorted(maps.Keys(offsets))
	for _, number := range numbers {
		fmt.Fprintf(&b, "%d 1\n%010d 00000 n \n", number, offsets[number])
	}
	fmt.Fprintf(&b, "trailer\n<< /Size %d /Root 1 0 R >>\nstartxref\n%d\n%%%%EOF\n", slices.Max(numbers)+1, table)
	return b.Bytes()
}

// Deflate is a zlib stream of b, for FlateDecode.
func Deflate(b []byte) []byte {
	var out bytes.Buffer
	w := zlib.NewWriter(&out)
	_, _ = w.Write(b) // a bytes.Buffer takes everything
	_ = w.Close()
	return out.Bytes()
}

// Packed packs a picture's pixels into rows of so many bits each, as PDF has them.
func Packed(img *image.Gray, bits int) []byte {
	var out []byte
	for y := range img.Rect.Dy() {
		row := make([]byte, (img.Rect.Dx()*bits+7)/8)
		for x := range img.Rect.Dx() {
			at := x * bits
			if bits == 16 {
				row[2*x] = img.Pix[y*img.Stride+x]
				continue
			}
			row[at/8] |= img.Pix[y*img.Stride+x] >> (8 - bits) << (8 - bits - at%8)
		}
		out = append(out, row...)
	}
	return out
}

// PNGRows puts a PNG filter before each row, the five of them in turn (ISO/IEC 15948
// section 9.2); step is how many bytes a pixel has.
func PNGRows(rows []byte, rowBytes, step int) []byte {
	var out []byte
	above := make([]byte, rowBytes)
	for y := 0; y*rowBytes < len(rows); y++ {
		row := rows[y*rowBytes:][:rowBytes]
		filter := y % 5
		out = append(out, byte(filter))
		for i, c := range row {
			var left, corner int
			if i >= step {
				left, corner = int(row[i-step]), int(above[i-step])
			}
			up := int(above[i])
			guess := [5]int{0, left, up, (left + up) / 2, nearest(left+up-corner, left, up, corner)}
			out = append(out, c-byte(guess[filter]))
		}
		above = row
	}
	return out
}

// nearest is the first of the candidates that is nearest to p.
func nearest(p int, candidates ...int) int {
	best := candidates[0]
	for _, c := range candidates[1:] {
		if max(p-c, c-p) < max(p-best, best-p) {
			best = c
		}
	}
	return best
}
