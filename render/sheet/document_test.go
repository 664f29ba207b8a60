package sheet

import (
	"bytes"
	"errors"
	"strings"
	"testing"
	"time"
)

func TestCheckGlyphs(t *testing.T) {
	for _, text := range []string{"", "Harrow HD 15W-40", "68 °C · 5 L – 4.3 L…", "Łódź, Ø 12 mm", "a\nb", "Жук Ωμέγα"} {
		if err := CheckGlyphs(text); err != nil {
			t.Errorf("%q: %v", text, err)
		}
	}
	for _, c := range []struct{ text, want string }{
		{"tick ✓", `character '✓' (U+2713) has no glyph in the fonts`},
		{"水", `character '水' (U+6C34) has no glyph in the fonts`},
		{"e\u0301", `character '́' (U+0301) has no glyph in the fonts`},
		{"🚤", `character '🚤' (U+1F6A4) has no glyph in the fonts`},
		{"\x1b[31m", `character '\x1b' (U+001B) has no glyph in the fonts`},
		{"\u202e", `character '\u202e' (U+202E) has no glyph in the fonts`},
		{"\xff", `character '�' (U+FFFD) has no glyph in the fonts`},
	} {
		err := CheckGlyphs(c.text)
		if !errors.Is(err, ErrNoGlyph) {
			t.Errorf("%q passed", c.text)
			continue
		}
		if err.Error() != c.want {
			t.Errorf("%q: got %q, want %q", c.text, err, c.want)
		}
	}
}

func TestMarksOutsideAreRefused(t *testing.T) {
	for name, draw := range map[string]func(*Document){
		"text past the right edge": func(d *Document) { d.Text(1, A4.W-50*Pt, 100*Pt, plain, "a long line of text") },
		"text under the foot":      func(d *Document) { d.Text(1, 100*Pt, A4.H-20*Pt, plain, "text") },
		"box left of the edge":     func(d *Document) { d.Fill(1, Color{}, Box{-1, 100 * Pt, 10 * Pt, 10 * Pt}) },
		"one box of many":          func(d *Document) { d.Fill(1, Color{}, Box{9000, 9000, 9, 9}, Box{A4.W, 9000, 9, 9}) },
		"no such page":             func(d *Document) { d.Text(2, 100*Pt, 100*Pt, plain, "text") },
	} {
		d := NewDocument(A4)
		d.AddPage()
		draw(d)
		if _, err := d.PDF(Begin(A4, Meta{})); err == nil {
			t.Errorf("%s passed", name)
		} else if name != "no such page" && !errors.Is(err, ErrOutside) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A label printer's margin is its own: what an office printer could not reach is
// inside a sticker, and what is nearer to the edge than 1.5 mm is not.
func TestMarginIsThePapers(t *testing.T) {
	for _, c := range []struct {
		paper Paper
		x     Len
		ok    bool
	}{{A4, MM(6), true}, {A4, MM(6) - 1, false}, {Letter, MM(6) - 1, false}, {Sticker(62, 29), MM(15) / 10, true}, {Sticker(62, 29), MM(15)/10 - 1, false}, {Sticker(40, 40), 0, false}} {
		d := NewDocument(c.paper)
		d.AddPage()
		d.Fill(1, Color{}, Box{c.x, c.paper.H / 2, Pt, Pt})
		d.Fill(1, Color{}, Box{c.paper.W - c.x - Pt, c.paper.H / 2, Pt, Pt})
		if err := d.Err(); (err == nil) != c.ok || err != nil && !errors.Is(err, ErrOutside) {
			t.Errorf("%v at %d: %v", c.paper, c.x, err)
		}
	}
}

// 62 mm are 175.748 pt, 29 mm 82.205, 40 mm 113.386 (at 25.4 mm and 72 pt an
// inch).
func TestStickersAreOfTheirSize(t *testing.T) {
	if got, want := Sticker(62, 29), (Paper{17575, 8220, 425}); got != want {
		t.Errorf("62 by 29 mm: %v, want %v", got, want)
	}
	if got, want := Sticker(40, 40), (Paper{11339, 11339, 425}); got != want {
		t.Errorf("40 by 40 mm: %v, want %v", got, want)
	}
}

func TestGlyphlessTextFailsTheDocument(t *testing.T) {
	d := NewDocument(A4)
	d.AddPage()
	d.Text(1, 100*Pt, 100*Pt, plain, "水")
	if _, err := d.PDF(Begin(A4, Meta{})); !errors.Is(err, ErrNoGlyph) {
		t.Errorf("got %v", err)
	}
}

func TestEmptyDocumentIsRefused(t *testing.T) {
	if _, err := NewDocument(A4).PDF(Begin(A4, Meta{})); err == nil {
		t.Error("a document without a page passed")
	}
}

func TestAppendDecimal(t *testing.T) {
	for _, c := range []struct {
		n      int64
		places int
		want   string
	}{{0, 2, "0.00"}, {5, 2, "0.05"}, {84189, 2, "841.89"}, {-50, 2, "-0.50"}, {1000, 3, "1.000"}, {84, 3, "0.084"}} {
		if got := string(appendDecimal(nil, c.n, c.places)); got != c.want {
			t.Errorf("%d: got %s, want %s", c.n, got, c.want)
		}
	}
}

// The rectangles of a symbol cover its dark modules and nothing else.
func TestModulesCoverTheSymbol(t *testing.T) {
	var dark [][]bool
	for y := range 31 {
		row := make([]bool, 31)
		for x := range row {
			row[x] = (x*x+3*y+x*y/7)%5 < 2 || y == 3 || x == 9
		}
		dark = append(dark, row)
	}
	d := NewDocument(A4)
	d.AddPage()
	const module = 181
	d.Modules(1, 100*Pt, 200*Pt, module, dark)
	covered := map[[2]Len]int{}
	for _, b := range d.pages[0][0].boxes {
		for y := b.Y; y < b.Bottom(); y += module {
			for x := b.X; x < b.Right(); x += module {
				covered[[2]Len{(x - 100*Pt) / module, (y - 200*Pt) / module}]++
			}
		}
	}
	for y, row := range dark {
		for x, want := range row {
			if got := covered[[2]Len{Len(x), Len(y)}]; got != map[bool]int{false: 0, true: 1}[want] {
				t.Fatalf("module %d,%d is covered %d times, dark: %v", x, y, got, want)
			}
		}
	}
}

func TestDatesAreWrittenInUTC(t *testing.T) {
	d := NewDocument(Letter)
	d.AddPage()
	zone := time.FixedZone("", 5*3600)
	pdf, err := d.PDF(Begin(Letter, Meta{Producer: "p", Title: "t", Lang: "en-GB", Date: time.Date(2026, 5, 4, 20, 20, 0, 0, zone)}))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"/CreationDate (D:20260504152000)", "/ModDate (D:20260504152000)", "/Lang (en-GB)", "/MediaBox [0 0 612.00 792.00]"} {
		if !bytes.Contains(pdf, []byte(want)) {
			t.Errorf("no %s", want)
		}
	}
	if strings.Contains(string(pdf), "FPDF") {
		t.Error("names the library as its producer")
	}
}
