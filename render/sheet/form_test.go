package sheet

import (
	"testing"

	"pgregory.net/rapid"
)

const formWidth = 300 * Pt

func formMarks(t testing.TB, c Cell) []Placed {
	t.Helper()
	d := NewDocument(A4)
	d.AddPage()
	c.Place(d, 1, Box{100 * Pt, 100 * Pt, formWidth, c.Height(formWidth)})
	if err := d.Err(); err != nil {
		t.Fatal(err)
	}
	return d.Placed()
}

func TestBlanksStandInLines(t *testing.T) {
	short := Blank{Label: "level", Unit: "L", Rule: 40 * Pt}
	for _, c := range []struct {
		what   string
		blanks []Blank
		lines  int
	}{
		{"none", nil, 0},
		{"one", []Blank{short}, 1},
		{"three in a line", []Blank{short, short, short}, 1},
		{"six in two", []Blank{short, short, short, short, short, short}, 2},
		{"a wide one ends its line", []Blank{short, {Label: "seen"}, short}, 2},
		{"boxes and a wide one", []Blank{{Label: "none", Tick: true}, {Label: "seen", Tick: true}, {}}, 1},
	} {
		if got := len(Blanks(plain, Color{}, 17*Pt, formWidth, c.blanks)); got != c.lines {
			t.Errorf("%s: %d lines, want %d", c.what, got, c.lines)
		}
	}
}

// A wide blank reaches to the edge, whether it stands alone, after another or
// beside text.
func TestWideBlankReachesTheEdge(t *testing.T) {
	wide := Blank{Label: "seen"}
	for what, c := range map[string]Cell{
		"alone":       Blanks(plain, Color{}, 17*Pt, formWidth, []Blank{wide}),
		"after one":   Blanks(plain, Color{}, 17*Pt, formWidth, []Blank{{Label: "for", Unit: "min", Rule: 40 * Pt}, wide}),
		"beside text": TextAndBlanks(plain, "Look.", plain, Color{}, 17*Pt, formWidth, []Blank{wide}),
	} {
		var right Len
		for _, m := range formMarks(t, c) {
			right = max(right, m.Box.Right())
		}
		if right != 100*Pt+formWidth {
			t.Errorf("%s: ends at %d, want %d", what, right, 100*Pt+formWidth)
		}
	}
}

// Whatever is to be written down: each blank has its line of some length, all
// stays within the width, and no text runs into text or a line.
func TestBlanksStayWithinTheirWidth(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		var list []Blank
		rules := 0
		for range rapid.IntRange(0, 6).Draw(r, "blanks") {
			b := Blank{Label: someText().Draw(r, "label"), Unit: rapid.SampledFrom([]string{"", "L", "°C", "min"}).Draw(r, "unit"),
				Rule: Len(rapid.SampledFrom([]int{0, 4000, 9000}).Draw(r, "rule"))}
			list, rules = append(list, b), rules+1
		}
		cell := TextAndBlanks(plain, someText().Draw(r, "text"), plain, Color{}, 17*Pt, formWidth, list)
		placed := formMarks(t, cell)
		for i, m := range placed {
			if m.Box.X < 100*Pt || m.Box.Right() > 100*Pt+formWidth {
				r.Fatalf("%q at %v is outside", m.Text, m.Box)
			}
			if m.Text == "" {
				if rules--; m.Box.W < 20*Pt {
					r.Fatalf("a line of %d to write on", m.Box.W)
				}
			}
			for _, other := range placed[:i] {
				if m.Box.Overlaps(other.Box) {
					r.Fatalf("%q at %v runs into %q at %v", m.Text, m.Box, other.Text, other.Box)
				}
			}
		}
		if rules != 0 {
			r.Fatalf("%d lines too few", rules)
		}
	})
}

func TestTextAndBlanks(t *testing.T) {
	short := []Blank{{Label: "at", Unit: "L", Rule: 40 * Pt}}
	for _, c := range []struct {
		what, text string
		blanks     []Blank
		items      int
	}{
		{"no blanks", "Stop.", nil, 1},
		{"beside", "Stop.", short, 1},
		{"below, as there is no room", "Look under and around it with a lamp before wiping anything at all.", short, 2},
		{"beside the last of two lines", "Look under and around it with a lamp before wiping anything at all, and then once again.", short, 2},
	} {
		cell := TextAndBlanks(plain, c.text, plain, Color{}, 17*Pt, formWidth, c.blanks)
		if len(cell) != c.items {
			t.Errorf("%s: %d items, want %d", c.what, len(cell), c.items)
		}
	}
}
