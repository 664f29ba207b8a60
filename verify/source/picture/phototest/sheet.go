package phototest

import (
	"errors"
	"fmt"
	"image"
	"math"
	"math/rand/v2"

	"github.com/skip2/go-qrcode"
)

// quietModules is the white around a symbol on each side (ISO/IEC 18004).
const quietModules = 4

// Sheet is a piece of paper with a code at level M, its modules that many pixels
// wide, which need not be a whole number, and lines of marks like text above and
// below it. It gives where the code is, without the white around it.
func Sheet(text string, module float64) (sheet *image.Gray, code image.Rectangle, err error) {
	if !(module >= 1 && module <= 100) {
		return nil, image.Rectangle{}, errors.New("a module is to be 1 to 100 pixels wide")
	}
	made, err := qrcode.New(text, qrcode.Medium)
	if err != nil {
		return nil, image.Rectangle{}, fmt.Errorf("make the code: %w", err)
	}
	made.DisableBorder = true
	modules := made.Bitmap()
	side := module * float64(len(modules))
	left := math.Ceil(module * quietModules * 2)
	top := left + math.Ceil(side/6)
	sheet = white(image.Rect(0, 0, int(side+2*left), int(side+2*top)))
	code = image.Rect(int(left), int(top), int(math.Ceil(left+side)), int(math.Ceil(top+side)))
	for j, row := range modules {
		for i, dark := range row {
			if dark {
				fill(sheet, left+float64(i)*module, top+float64(j)*module, module)
			}
		}
	}
	write(sheet, code, module)
	return sheet, code, nil
}

func white(of image.Rectangle) *image.Gray {
	sheet := image.NewGray(of)
	for i := range sheet.Pix {
		sheet.Pix[i] = 255
	}
	return sheet
}

// fill takes a square from the white, each pixel by as much of it as is covered.
func fill(sheet *image.Gray, x, y, side float64) {
	for j := int(y); float64(j) < y+side; j++ {
		for i := int(x); float64(i) < x+side; i++ {
			covered := overlap(float64(i), x, side) * overlap(float64(j), y, side)
			at := sheet.PixOffset(i, j)
			sheet.Pix[at] -= uint8(min(math.Round(255*covered), float64(sheet.Pix[at])))
		}
	}
}

// overlap is how much of the pixel at i lies between from and from+length.
func overlap(i, from, length float64) float64 {
	return max(0, min(i+1, from+length)-max(i, from))
}

// write fills the sheet above and below the code with words of marks, as high as
// two modules.
func write(sheet *image.Gray, code image.Rectangle, module float64) {
	draws := rand.New(rand.NewPCG(1, 0x74657874)) // "text"
	b, quiet := sheet.Bounds(), int(module*quietModules)
	high, stroke := max(2, int(2*module)), max(1, int(module/3))
	for y := quiet; y+high < b.Max.Y-quiet; y += 2 * high {
		if y+high > code.Min.Y-quiet && y < code.Max.Y+quiet {
			continue
		}
		for x := quiet; x+stroke < b.Max.X-quiet; x += stroke * (2 + draws.IntN(2)) {
			if draws.IntN(6) == 0 { // between two words
				x += high / 2
				continue
			}
			from, to := draws.IntN(high/2+1), high-draws.IntN(high/2+1)
			for j := y + from; j < y+to; j++ {
				for i := x; i < x+stroke; i++ {
					sheet.Pix[sheet.PixOffset(i, j)] = 0
				}
			}
		}
	}
}
