package phototest_test

import (
	"bytes"
	"errors"
	"fmt"
	"image"
)

// A portable grey map (Netpbm's "P5") is a line each for the kind, the size and
// the highest level, then a byte a pixel. zbarimg reads it, pdftoppm writes it.

func writePGM(picture *image.Gray) []byte {
	var file bytes.Buffer
	fmt.Fprintf(&file, "P5\n%d %d\n255\n", picture.Rect.Dx(), picture.Rect.Dy())
	for y := picture.Rect.Min.Y; y < picture.Rect.Max.Y; y++ {
		from := picture.PixOffset(picture.Rect.Min.X, y)
		file.Write(picture.Pix[from : from+picture.Rect.Dx()])
	}
	return file.Bytes()
}

func readPGM(file []byte) (*image.Gray, error) {
	var w, h, highest int
	r := bytes.NewReader(file)
	if _, err := fmt.Fscanf(r, "P5\n%d %d\n%d", &w, &h, &highest); err != nil {
		return nil, fmt.Errorf("head of a grey map: %w", err)
	}
	if pixels := r.Len() - 1; highest != 255 || w < 1 || h < 1 || pixels != w*h {
		return nil, errors.New("not a grey map of a byte a pixel")
	}
	return &image.Gray{Pix: file[len(file)-w*h:], Stride: w, Rect: image.Rect(0, 0, w, h)}, nil
}
