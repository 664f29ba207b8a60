package phototest

import (
	"image"
	"image/draw"
	"math"
)

// Highlight is a picture with a lamp's reflection on glossy paper: all white
// within the radius in pixels, fading out to twice that.
func Highlight(picture *image.Gray, middle image.Point, radius float64) *image.Gray {
	out := copyOf(picture)
	for y := out.Rect.Min.Y; y < out.Rect.Max.Y; y++ {
		for x := out.Rect.Min.X; x < out.Rect.Max.X; x++ {
			far := math.Hypot(float64(x-middle.X), float64(y-middle.Y)) / radius
			glare := smooth(2 - far)
			at := out.PixOffset(x, y)
			out.Pix[at] += uint8(glare * float64(255-out.Pix[at]))
		}
	}
	return out
}

// Frame is a part of a picture, as if the camera had seen no more.
func Frame(picture *image.Gray, part image.Rectangle) *image.Gray {
	part = part.Intersect(picture.Rect)
	out := image.NewGray(image.Rect(0, 0, part.Dx(), part.Dy()))
	draw.Draw(out, out.Rect, picture, part.Min, draw.Src)
	return out
}

func copyOf(picture *image.Gray) *image.Gray {
	out := image.NewGray(picture.Rect)
	draw.Draw(out, out.Rect, picture, picture.Rect.Min, draw.Src)
	return out
}
