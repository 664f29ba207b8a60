package phototest

import "image"

// Spoilt is a way to take a photograph that cannot be read, or hardly, for what a
// person is to be told then: of one code on a sheet of its own, mild in all else.
type Spoilt int

const (
	Unspoilt   Spoilt = iota // readable, to compare with
	Far                      // from so far away that a module is 3 pixels wide, where others have 6
	TooFar                   // 1.6 pixels, which with its blur is beyond any reader
	Cornerless               // the foot of the sheet is cut off, and with it a corner of the code and its square
	Glossy                   // a lamp's reflection hides a quarter of the code: level M makes up for 15 % (ISO/IEC 18004)
)

func (s Spoilt) String() string {
	names := [...]string{"unspoilt", "far", "too far", "cornerless", "glossy"}
	if s < 0 || int(s) >= len(names) {
		return "unknown"
	}
	return names[s]
}

const (
	printedMM    = 80.0 // how wide a code is on a report
	missingShare = 0.12 // of the code's side, cut off
	glareShare   = 0.28 // the glare's radius, relative to the code's side: a quarter of its area
)

// module is how wide a module is in the middle of the photograph, in pixels.
func (s Spoilt) module() float64 {
	switch s {
	case Far:
		return 3
	case TooFar:
		return 1.6
	default:
		return 6
	}
}

// Photograph takes the photograph.
func (s Spoilt) Photograph(text string, seed uint64) (*image.Gray, error) {
	sheet, code, err := Sheet(text, s.module())
	if err != nil {
		return nil, err
	}
	side := float64(code.Dx())
	switch s {
	case Cornerless:
		seen := sheet.Rect
		seen.Max.Y = code.Max.Y - int(missingShare*side)
		sheet = Frame(sheet, seen)
	case Glossy:
		sheet = Highlight(sheet, code.Min.Add(code.Size().Div(2)), glareShare*side)
	}
	dpi := int(side / printedMM * mmPerInch)
	return Take(sheet, Mild.At(dpi, seed), seed), nil
}
