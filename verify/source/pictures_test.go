package source_test

import (
	"image"
	"image/color"
	"image/draw"
	"testing"

	"github.com/skip2/go-qrcode"
)

// codeOf draws a QR code at level M with its white border of four modules, each
// module so many pixels wide.
func codeOf(t testing.TB, text string, module int) *image.Gray {
	t.Helper()
	code, err := qrcode.New(text, qrcode.Medium)
	if err != nil {
		t.Fatal(err)
	}
	bits := code.Bitmap() // with the border
	img := image.NewGray(image.Rect(0, 0, len(bits)*module, len(bits)*module))
	for y := range img.Rect.Dy() {
		for x := range img.Rect.Dx() {
			if !bits[y/module][x/module] {
				img.SetGray(x, y, color.Gray{Y: 255})
			}
		}
	}
	return img
}

// sheetOf lays codes side by side on white paper.
func sheetOf(codes ...*image.Gray) *image.Gray {
	width, height := 0, 0
	for _, code := range codes {
		width += code.Rect.Dx()
		height = max(height, code.Rect.Dy())
	}
	sheet := image.NewGray(image.Rect(0, 0, width, height))
	draw.Draw(sheet, sheet.Rect, image.White, image.Point{}, draw.Src)
	x := 0
	for _, code := range codes {
		draw.Draw(sheet, code.Rect.Add(image.Pt(x, 0)), code, image.Point{}, draw.Src)
		x += code.Rect.Dx()
	}
	return sheet
}

// sheetWith draws the codes of texts.
func sheetWith(t testing.TB, texts ...string) *image.Gray {
	t.Helper()
	codes := make([]*image.Gray, len(texts))
	for i, text := range texts {
		codes[i] = codeOf(t, text, 4)
	}
	return sheetOf(codes...)
}
