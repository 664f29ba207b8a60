package sheet

import (
	"errors"
	"fmt"
	"sync"
	"unicode/utf8"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Face is one of the two faces that pages are set in. Every face that a file
// embeds costs some 4 ms, so there are two.
type Face uint8

// The faces.
const (
	Regular Face = iota
	Bold
	faces
)

// emUnits are the units of a glyph's advance in a PDF file: 1/1000 em.
const emUnits = 1000

// quickRunes is how many runes, from zero, have their advance at hand; the
// others are looked up in the font.
const quickRunes = 0x180 // Latin to the end of Latin Extended-A

// ErrNoGlyph is matched by the error for a character that cannot be printed.
var ErrNoGlyph = errors.New("has no glyph in the fonts")

// typeface is a parsed font. It is never written to.
type typeface struct {
	ttf   []byte
	font  *sfnt.Font
	perEm int
	quick [quickRunes]uint16 // 0: no glyph
}

var typefaces = sync.OnceValue(func() [faces]*typeface {
	return [faces]*typeface{mustFace(goregular.TTF), mustFace(gobold.TTF)}
})

// Warm parses the faces.
func Warm() { typefaces() }

func mustFace(ttf []byte) *typeface {
	f, err := sfnt.Parse(ttf)
	if err != nil {
		panic("sheet: font of golang.org/x/image: " + err.Error()) // compiled in, tested
	}
	t := &typeface{ttf: ttf, font: f, perEm: int(f.UnitsPerEm())}
	var buf sfnt.Buffer
	for r := range rune(quickRunes) {
		t.quick[r] = t.lookUp(&buf, r)
	}
	return t
}

// lookUp returns the advance of a rune in 1/1000 em, rounded half up as fpdf
// rounds it, and 0 where the font has no glyph for it.
func (t *typeface) lookUp(buf *sfnt.Buffer, r rune) uint16 {
	if r < ' ' || r > 0xFFFF {
		return 0
	}
	glyph, err := t.font.GlyphIndex(buf, r)
	if err != nil || glyph == 0 {
		return 0
	}
	advance, err := t.font.GlyphAdvance(buf, glyph, fixed.I(t.perEm), font.HintingNone)
	if err != nil || advance <= 0 {
		return 0
	}
	return uint16((advance.Round()*emUnits*2 + t.perEm) / (2 * t.perEm))
}

// advance returns the advance of a rune in 1/1000 em, 0 without a glyph.
func (f Face) advance(r rune) int {
	t := typefaces()[f]
	if r >= 0 && r < quickRunes {
		return int(t.quick[r])
	}
	var buf sfnt.Buffer
	return int(t.lookUp(&buf, r))
}

// CheckGlyphs returns an error matching ErrNoGlyph that names the first
// character of text which one of the faces cannot print. Newlines pass; bytes
// that are no UTF-8 count as U+FFFD, which does not, though it has a glyph.
func CheckGlyphs(text string) error {
	for _, r := range text {
		if r == '\n' {
			continue
		}
		for f := range faces {
			if f.advance(r) == 0 || r == utf8.RuneError {
				return fmt.Errorf("character %q (U+%04X) %w", r, r, ErrNoGlyph)
			}
		}
	}
	return nil
}
