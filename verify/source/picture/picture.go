package picture

import "image"

// Effort says how much work a picture is worth.
type Effort int

const (
	Quick    Effort = iota // one frame of a camera: the next one comes at once
	Thorough               // a photograph or a scan: there is only this one
)

// Symbol is one QR code that was seen. A code whose text is empty is told like one
// that was not decoded.
type Symbol struct {
	Text    string         // "" where it was seen but could not be decoded
	Version int            // 1 to 40, 0 where it is not known
	Module  float64        // the side of a module in pixels, roughly
	Corners [4]image.Point // of the symbol in the picture: its top left, top right, bottom right, bottom left
}

// Read finds the codes of a picture: those read in the order they were read, then
// those only seen, the surest first. It ends after a pass by which a code was read and
// none is left that was only seen.
func Read(img *image.Gray, effort Effort) []Symbol {
	if img == nil || min(img.Rect.Dx(), img.Rect.Dy()) < leastSide/2 {
		return nil
	}
	if w, h := img.Rect.Dx(), img.Rect.Dy(); img.Stride < w || len(img.Pix) < (h-1)*img.Stride+w {
		return nil // no picture that package image makes
	}
	if effort != Quick {
		effort = Thorough
	}
	s := &search{levels: pyramidOf(img), may: works[effort], tried: map[[3]int]bool{}}
	for _, p := range passesOf(s.levels, effort) {
		if s.look(p) {
			break
		}
	}
	symbols := append(s.read, s.unread()...)
	for i := range symbols {
		for k, c := range symbols[i].Corners {
			symbols[i].Corners[k] = c.Add(img.Rect.Min)
		}
	}
	return symbols
}
