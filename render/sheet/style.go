package sheet

// Color is an RGB colour. Every colour used has to stay legible in a
// black-and-white print: what it says is said by words or shapes as well.
type Color struct{ R, G, B uint8 }

// Style is how text is set. Size and Leading (from line to line) are in 1/100 pt.
type Style struct {
	Face    Face
	Size    Len
	Leading Len
	Color   Color
}

// In returns the style in another colour.
func (s Style) In(c Color) Style { s.Color = c; return s }

// Bold returns the style in the bold face.
func (s Style) Bold() Style { s.Face = Bold; return s }

// Width returns the width of text, rounded up. A rune without a glyph has none;
// setting it is an error.
func (s Style) Width(text string) Len {
	var sum int64
	for _, r := range text {
		sum += int64(s.Face.advance(r))
	}
	return Len((sum*int64(s.Size) + emUnits - 1) / emUnits)
}

// Elide returns text if it is no wider than width, else as much of it as fits
// before an ellipsis, which the reader sees. It is for what stands in full
// elsewhere.
func (s Style) Elide(text string, width Len) string {
	const ellipsis = "…"
	if s.Width(text) <= width {
		return text
	}
	runes := []rune(text)
	for n := len(runes) - 1; n > 0; n-- {
		if cut := string(runes[:n]) + ellipsis; s.Width(cut) <= width {
			return cut
		}
	}
	return ellipsis
}

// baseline is how far below the top of a line its baseline is: the line's
// blank space is shared so that capitals look centred in it.
func (s Style) baseline() Len { return (s.Leading + s.Size*72/100) / 2 }

// ascent and descent bound what a line of text marks, close enough to find
// text that runs into other text: capitals with an accent, and the tail of a g.
func (s Style) ascent() Len  { return s.Size * 74 / 100 }
func (s Style) descent() Len { return s.Size * 22 / 100 }

// Align is where in its width a line stands.
type Align uint8

// The alignments.
const (
	Left Align = iota
	Right
	Center
)

func (a Align) x(left, width, text Len) Len {
	switch a {
	case Right:
		return left + width - text
	case Center:
		return left + (width-text)/2
	}
	return left
}
