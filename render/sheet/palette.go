package sheet

// The colours that all printed sheets share: one accent, dark enough to print as
// black, and greys.
var (
	Ink    = Color{}
	Grey   = Color{R: 84, G: 84, B: 84}
	Accent = Color{R: 0, G: 66, B: 84}
	Hair   = Color{R: 176, G: 182, B: 184}
	Panel  = Color{R: 241, G: 244, B: 245}
	White  = Color{R: 255, G: 255, B: 255}
)

// NewStyle is a style of a face at a size, with the distance from line to line.
func NewStyle(face Face, size, leading Len, c Color) Style {
	return Style{Face: face, Size: size, Leading: leading, Color: c}
}
