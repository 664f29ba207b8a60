package source

import (
	"image"
	"image/color"
)

// grayOf gives the brightness of a picture, 0 for black to 255 for white: the
// luminance of a photograph as it is stored, colours weighed as by Recommendation
// ITU-R BT.601, as package image/color does, and what is transparent over white
// paper.
func grayOf(img image.Image) *image.Gray {
	if gray, ok := img.(*image.Gray); ok {
		return gray
	}
	b := img.Bounds()
	out := image.NewGray(image.Rect(0, 0, b.Dx(), b.Dy()))
	for y := range b.Dy() {
		grayRow(out.Pix[y*out.Stride:][:b.Dx()], img, b.Min.X, b.Min.Y+y)
	}
	return out
}

// grayRow fills row with the brightness of the pixels from (x, y) to the right.
func grayRow(row []byte, img image.Image, x, y int) {
	switch img := img.(type) {
	case *image.YCbCr:
		copy(row, img.Y[img.YOffset(x, y):])
	case *image.Paletted:
		from := img.Pix[img.PixOffset(x, y):]
		var shades [256]byte
		for i, c := range img.Palette {
			shades[i] = shade(c)
		}
		for i := range row {
			row[i] = shades[from[i]]
		}
	case *image.RGBA:
		from := img.Pix[img.PixOffset(x, y):]
		for i := range row {
			p := from[4*i:][:4]
			row[i] = luma(p[0], p[1], p[2]) + 255 - p[3] // premultiplied: the rest is paper
		}
	case *image.NRGBA:
		from := img.Pix[img.PixOffset(x, y):]
		for i := range row {
			p := from[4*i:][:4]
			row[i] = overWhite(luma(p[0], p[1], p[2]), p[3])
		}
	case *image.NRGBA64:
		from := img.Pix[img.PixOffset(x, y):]
		for i := range row {
			p := from[8*i:][:8] // the upper bytes will do
			row[i] = overWhite(luma(p[0], p[2], p[4]), p[6])
		}
	case *image.RGBA64:
		from := img.Pix[img.PixOffset(x, y):]
		for i := range row {
			p := from[8*i:][:8]
			row[i] = luma(p[0], p[2], p[4]) + 255 - p[6] // as of RGBA
		}
	case *image.Gray16:
		from := img.Pix[img.PixOffset(x, y):]
		for i := range row {
			row[i] = from[2*i]
		}
	case *image.CMYK:
		from := img.Pix[img.PixOffset(x, y):]
		for i := range row {
			p := from[4*i:][:4]
			row[i] = luma(color.CMYKToRGB(p[0], p[1], p[2], p[3]))
		}
	default:
		for i := range row {
			row[i] = shade(img.At(x+i, y))
		}
	}
}

// luma: the weights are 0.299, 0.587 and 0.114 in 1/65536.
func luma(r, g, b uint8) uint8 {
	return uint8((19595*uint32(r) + 38470*uint32(g) + 7471*uint32(b) + 1<<15) >> 16)
}

func overWhite(shade, alpha uint8) uint8 {
	a := uint32(alpha)
	return uint8((uint32(shade)*a + 255*(255-a) + 127) / 255)
}

// shade is the brightness of a colour over white.
func shade(c color.Color) uint8 {
	n := color.NRGBAModel.Convert(c).(color.NRGBA)
	return overWhite(luma(n.R, n.G, n.B), n.A)
}

// invert turns black into white.
func invert(img *image.Gray) {
	b := img.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y++ {
		invertRow(img.Pix[img.PixOffset(b.Min.X, y):][:b.Dx()])
	}
}

func invertRow(row []byte) {
	for i := range row {
		row[i] = 255 - row[i]
	}
}
