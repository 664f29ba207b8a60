package source

import (
	"bytes"
	"image"
	"image/color"
	"testing"
)

// What is transparent counts as white paper, and the weights of the colours are those
// of package image/color. The shades are worked out by hand: 0.299 x 255 for pure red,
// and black that a fifth is seen of.
func TestGrayOverWhite(t *testing.T) {
	of := func(rgba ...byte) []byte {
		width := len(rgba) / 4
		return grayOf(&image.NRGBA{Pix: rgba, Stride: 4 * width, Rect: image.Rect(0, 0, width, 1)}).Pix
	}
	got := of(0, 0, 0, 255, 0, 0, 0, 0, 255, 255, 255, 255, 255, 0, 0, 255, 0, 0, 0, 51)
	if want := []uint8{0, 255, 255, 76, 204}; !bytes.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	// Of 16 bits, premultiplied: black, nothing, white, red, and black that a fifth is seen of.
	deep := &image.RGBA64{Stride: 8 * 5, Rect: image.Rect(0, 0, 5, 1), Pix: []byte{
		0, 0, 0, 0, 0, 0, 255, 255,
		0, 0, 0, 0, 0, 0, 0, 0,
		255, 255, 255, 255, 255, 255, 255, 255,
		255, 255, 0, 0, 0, 0, 255, 255,
		0, 0, 0, 0, 0, 0, 51, 51,
	}}
	if got, want := grayOf(deep).Pix, []uint8{0, 255, 255, 76, 204}; !bytes.Equal(got, want) {
		t.Errorf("of 16 bits: %v, want %v", got, want)
	}
	for i, c := range []color.NRGBA{{12, 200, 99, 255}, {250, 3, 77, 255}} {
		got := of(c.R, c.G, c.B, c.A)[0]
		want := color.GrayModel.Convert(c).(color.Gray).Y
		if d := int(got) - int(want); d < -1 || d > 1 {
			t.Errorf("%d: %d, image/color has %d", i, got, want)
		}
	}
}
