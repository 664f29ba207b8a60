package source

import "image"

// turn says how a picture is stored: which way to step in it for a step to the
// right and a step down in the picture as it is to be seen.
type turn struct {
	fromRight, fromBottom bool // the picture's top left is at that edge of what is stored
	swapped               bool // its rows are stored as columns
}

// turns are the values of the tag Orientation, Exif 2.32 (CIPA DC-008-2019) section
// 4.6.4, "the 0th row is at the visual … of the image, the 0th column is the visual …".
var turns = [9]turn{
	1: {},                                                 // top, left-hand side
	2: {fromRight: true},                                  // top, right-hand side
	3: {fromRight: true, fromBottom: true},                // bottom, right-hand side
	4: {fromBottom: true},                                 // bottom, left-hand side
	5: {swapped: true},                                    // left-hand side, top
	6: {swapped: true, fromBottom: true},                  // right-hand side, top
	7: {swapped: true, fromRight: true, fromBottom: true}, // right-hand side, bottom
	8: {swapped: true, fromRight: true},                   // left-hand side, bottom
}

// upright is a picture as it is to be seen. Stored the right way round it is handed
// back as it is, else its pixels are copied.
func upright(img *image.Gray, orientation int) *image.Gray {
	if orientation < 2 || orientation >= len(turns) {
		return img
	}
	t := turns[orientation]
	b := img.Bounds()
	right, down := 1, img.Stride
	at := img.PixOffset(b.Min.X, b.Min.Y)
	if t.fromRight {
		at += (b.Dx() - 1) * right
		right = -right
	}
	if t.fromBottom {
		at += (b.Dy() - 1) * down
		down = -down
	}
	width, height := b.Dx(), b.Dy()
	if t.swapped {
		width, height = height, width
		right, down = down, right
	}
	out := image.NewGray(image.Rect(0, 0, width, height))
	for y := range height {
		from := at + y*down
		for x := range width {
			out.Pix[y*out.Stride+x] = img.Pix[from]
			from += right
		}
	}
	return out
}
