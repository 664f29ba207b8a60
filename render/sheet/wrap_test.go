package sheet

import (
	"strings"
	"testing"

	"github.com/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"pgregory.net/rapid"
)

var plain = Style{Size: 9 * Pt, Leading: 11 * Pt}

// printableRunes are some of every script that the faces have.
var printableRunes = []rune("abcdefghijWMil .,-/0123456789 äéßčŁ ΓΔΩ Жя €–…·")

func someText() *rapid.Generator[string] {
	return rapid.StringOfN(rapid.SampledFrom(printableRunes), 0, 120, -1)
}

// Nothing but spaces at breaks is lost, and every line fits unless it is one
// rune.
func TestWrapKeepsEverything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.SliceOfN(someText(), 1, 3).Draw(t, "lines")
		whole := strings.Join(text, "\n")
		width := Len(rapid.IntRange(1, 20000).Draw(t, "width"))
		s := plain
		s.Face = rapid.SampledFrom([]Face{Regular, Bold}).Draw(t, "face")
		lines := s.Wrap(whole, width)
		for _, line := range lines {
			if w := s.Width(line); w > width && len([]rune(line)) > 1 {
				t.Fatalf("line %q is %d wide, at most %d", line, w, width)
			}
		}
		strip := strings.NewReplacer(" ", "", "\n", "").Replace
		if got, want := strip(strings.Join(lines, "")), strip(whole); got != want {
			t.Fatalf("got %q\nwant %q", got, want)
		}
	})
}

func TestWrap(t *testing.T) {
	em := plain.Size // as wide as no letter of these is
	for _, c := range []struct {
		text  string
		width Len
		want  []string
	}{
		{"", 10 * em, []string{""}},
		{"a\n\nb", 10 * em, []string{"a", "", "b"}},
		{"one two", plain.Width("one two"), []string{"one two"}},
		{"one two", plain.Width("one two") - 1, []string{"one", "two"}},
		{"one  two", plain.Width("one"), []string{"one", "two"}},
		{"a  b", 10 * em, []string{"a  b"}}, // two spaces are kept where nothing breaks
		{"iiii", plain.Width("ii"), []string{"ii", "ii"}},
		{"x iiii", plain.Width("iii"), []string{"x", "iii", "i"}},
		{"abc", 0, []string{"a", "b", "c"}},
	} {
		if got := plain.Wrap(c.text, c.width); strings.Join(got, "|") != strings.Join(c.want, "|") {
			t.Errorf("%q in %d: got %q, want %q", c.text, c.width, got, c.want)
		}
	}
}

// The widths are those that fpdf writes into the file, for every rune of the
// faces: what is measured here is what a reader of the PDF sets.
func TestWidthsAreThoseOfTheFile(t *testing.T) {
	pdf := fpdf.New("P", "pt", "A4", "")
	pdf.AddUTF8FontFromBytes("go", "", append([]byte(nil), goregular.TTF...))
	pdf.AddUTF8FontFromBytes("go", "B", append([]byte(nil), gobold.TTF...))
	for face, style := range []string{"", "B"} {
		pdf.SetFont("go", style, 1000)
		glyphs := 0
		for r := rune(' '); r <= 0xFFFF; r++ {
			ours := Face(face).advance(r)
			if ours == 0 {
				continue
			}
			glyphs++
			if theirs := pdf.GetStringSymbolWidth(string(r)); ours != theirs {
				t.Errorf("face %d, %q (U+%04X): %d here, %d in the file", face, r, r, ours, theirs)
			}
		}
		// Go fonts 2.010: letters of three scripts and the usual signs.
		if glyphs < 600 {
			t.Errorf("face %d: only %d glyphs", face, glyphs)
		}
	}
}

func TestElide(t *testing.T) {
	if got := plain.Elide("short", 100*Pt); got != "short" {
		t.Errorf("got %q", got)
	}
	long := strings.Repeat("serial ", 30)
	got := plain.Elide(long, 100*Pt)
	if !strings.HasSuffix(got, "…") || !strings.HasPrefix(long, strings.TrimSuffix(got, "…")) || plain.Width(got) > 100*Pt {
		t.Errorf("got %q", got)
	}
	if plain.Width(got+"ll") <= 100*Pt {
		t.Errorf("%q is cut short of what fits", got)
	}
}
