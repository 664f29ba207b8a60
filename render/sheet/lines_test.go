package sheet

import (
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// drawn is the path that a document's only mark becomes in the file.
func drawn(t *testing.T, draw func(*Document)) string {
	t.Helper()
	d := NewDocument(A4)
	d.AddPage()
	draw(d)
	if err := d.Err(); err != nil {
		t.Fatal(err)
	}
	w := newWriter(A4, Meta{})
	w.pdf.AddPage()
	for _, m := range d.pages[0] {
		w.draw(m)
	}
	return string(w.path)
}

// The operators are those of ISO 32000-1: width w, round joins 1 j, dashes d, path
// m and l, stroke S. A4 is 841.89 pt high and y counts from its foot.
func TestPolyline(t *testing.T) {
	got := drawn(t, func(d *Document) {
		d.Polyline(1, Pt, 2*Pt, Color{R: 255}, Spot{100 * Pt, 41 * Pt}, Spot{110 * Pt, 31 * Pt}, Spot{120 * Pt, 41 * Pt})
	})
	want := "q 1.000 0.000 0.000 RG\n1.00 w 1 j\n[2.00 ] 0 d\n100.00 800.89 m\n110.00 810.89 l\n120.00 800.89 l\nS Q"
	if got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got := drawn(t, func(d *Document) { d.Polyline(1, Pt, 0, Color{}, Spot{100 * Pt, 100 * Pt}) }); got != "" {
		t.Errorf("one spot: %q", got)
	}
	if got := drawn(t, func(d *Document) {
		d.Polyline(1, Pt, 0, Color{}, Spot{100 * Pt, 100 * Pt}, Spot{101 * Pt, 100 * Pt})
	}); strings.Contains(got, " d\n") {
		t.Errorf("dashes, and none were asked for: %q", got)
	}
}

func TestLinesOutsideAreRefused(t *testing.T) {
	d := NewDocument(A4)
	d.AddPage()
	d.Polyline(1, Pt, 0, Color{}, Spot{100 * Pt, 100 * Pt}, Spot{A4.W, 100 * Pt})
	if !errors.Is(d.Err(), ErrOutside) {
		t.Errorf("got %v", d.Err())
	}
}

// Whatever the box: every line of a hatch rises at 45 degrees from one edge of it to
// another, and no two lie nearer to each other than was asked.
func TestHatchStaysInItsBox(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		side := func(name string) Len { return Len(rapid.IntRange(-10, 20000).Draw(r, name)) }
		b := Box{100 * Pt, 100 * Pt, side("width"), side("height")}
		apart := Len(rapid.IntRange(50, 2000).Draw(r, "apart"))
		d := NewDocument(A4)
		d.AddPage()
		d.Hatch(1, b, apart, Pt/4, Color{})
		if d.Err() != nil {
			r.Fatal(d.Err())
		}
		if len(d.pages[0]) == 0 {
			if b.W > apart && b.H > apart {
				r.Fatal("no line")
			}
			return
		}
		m := d.pages[0][0]
		if !b.Contains(m.box) {
			r.Fatalf("%v is outside %v", m.box, b)
		}
		for i, line := range m.lines {
			from, to := line[0], line[1]
			if to.X-from.X != from.Y-to.Y || to.X <= from.X {
				r.Fatalf("%v does not rise at 45 degrees", line)
			}
			if from.X != b.X && from.Y != b.Bottom() || to.Y != b.Y && to.X != b.Right() {
				r.Fatalf("%v does not reach from edge to edge of %v", line, b)
			}
			if i > 0 && from.X+from.Y-m.lines[i-1][0].X-m.lines[i-1][0].Y < apart {
				r.Fatalf("line %d is too near", i)
			}
		}
	})
}
