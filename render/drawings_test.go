package render

import (
	"testing"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/render/sheet"
)

func TestTrendTakesThreePoints(t *testing.T) {
	r := accounted()
	f := &r.Fluids[0]
	p := setting(r)
	if p.trend(f, 150*sheet.Pt) == nil {
		t.Error("three points: no chart")
	}
	f.Balance.Trend = f.Balance.Trend[1:]
	if p.trend(f, 150*sheet.Pt) != nil {
		t.Error("two points: a chart")
	}
}

func TestAxis(t *testing.T) {
	for _, c := range []struct {
		uses []record.Use
		want axis
	}{
		{[]record.Use{{}}, axis{0, 10, 10}},
		{[]record.Use{{Per100: 39, Within: 1}}, axis{0, 40, 10}},
		{[]record.Use{{Per100: 40, Within: 1}}, axis{0, 60, 20}},
		{[]record.Use{{Per100: 711, Within: 124}, {Per100: -38, Within: 130}}, axis{-500, 1000, 500}},
		{[]record.Use{{Per100: -711, Within: 100}}, axis{-1000, 0, 500}},
		{[]record.Use{{Per100: quantity.MaxVolume, Within: quantity.MaxVolume}}, axis{0, 200_000_000, 50_000_000}},
	} {
		if got := axisOf(c.uses); got != c.want {
			t.Errorf("%v: got %v, want %v", c.uses, got, c.want)
		}
	}
}

// Any trend that a record may hold: the scale has zero and every use on it, in few
// enough steps, and what is drawn stays in its box with no text on another.
func TestTrendStaysInItsBox(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := anyBalance(t)
		if b == nil || len(b.Trend) < leastTrend {
			t.Skip("no trend")
		}
		a := axisOf(b.Trend)
		if a.low > 0 || a.high < 0 || a.low%a.step != 0 || a.high%a.step != 0 || a.high <= a.low || (a.high-a.low)/a.step > mostSteps {
			t.Fatalf("axis %+v", a)
		}
		for _, u := range b.Trend {
			if u.Per100-u.Within < a.low || u.Per100+u.Within > a.high {
				t.Fatalf("%v is off the axis %+v", u, a)
			}
		}
		p := setting(accounted())
		chart := p.trend(&record.Fluid{Balance: b}, 150*sheet.Pt)
		box := sheet.Box{X: 100 * sheet.Pt, Y: 100 * sheet.Pt, W: 150 * sheet.Pt, H: chart.Height}
		chart.Draw(p.doc, 1, box)
		if err := p.doc.Err(); err != nil {
			t.Fatal(err)
		}
		placed := p.doc.Placed()
		for i, m := range placed {
			if !box.Contains(m.Box) {
				t.Fatalf("%q at %v is outside %v", m.Text, m.Box, box)
			}
			for _, other := range placed[:i] {
				if m.Text != "" && other.Text != "" && m.Box.Overlaps(other.Box) {
					t.Fatalf("%q runs into %q", m.Text, other.Text)
				}
			}
		}
	})
}

// A level far off the stick, and an expectation as wide as it may be, stay on it.
func TestDipstickStaysInItsBox(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ratio := func(name string) quantity.Ratio {
			return quantity.Ratio(rapid.OneOf(rapid.Int64Range(-500, 1500), rapid.Int64Range(int64(quantity.MinRatio), int64(quantity.MaxRatio))).Draw(t, name))
		}
		f := &record.Fluid{
			Level: &record.Level{Reading: ptr(ratio("level"))}, LevelBefore: &record.Level{Reading: ptr(ratio("before"))},
			Balance: &record.Balance{Level: &record.LevelEstimate{Reading: ratio("expected"), Within: max(ratio("within"), 0)}},
		}
		p := setting(accounted())
		item := p.dipstick(f)
		box := sheet.Box{X: 100 * sheet.Pt, Y: 100 * sheet.Pt, W: 150 * sheet.Pt, H: item.Height}
		item.Draw(p.doc, 1, box)
		if err := p.doc.Err(); err != nil {
			t.Fatal(err)
		}
		for _, m := range p.doc.Placed() {
			if !box.Contains(m.Box) {
				t.Fatalf("%q at %v is outside %v", m.Text, m.Box, box)
			}
		}
	})
}

// Amounts of any size, or none: the bars stay in their box, one for each amount.
func TestBarsStayInTheirBox(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		volume := func(name string) quantity.Volume {
			most := rapid.SampledFrom([]quantity.Volume{0, 9, 9999, quantity.MaxVolume}).Draw(t, "most")
			return number(t, name, 0, most)
		}
		bars := bars{out: volume("out"), in: volume("in"), mark: volume("mark"), says: "100000 L at the upper mark"}
		bars.drawnOff = number(t, "drawn off", 0, bars.in)
		bars.scale = max(bars.out, bars.in, bars.mark)
		if bars.out == 0 && bars.in == 0 {
			t.Skip("nothing to draw")
		}
		p := setting(accounted())
		item := p.drawn(bars)
		box := sheet.Box{X: 100 * sheet.Pt, Y: 100 * sheet.Pt, W: 190 * sheet.Pt, H: item.Height}
		item.Draw(p.doc, 1, box)
		if err := p.doc.Err(); err != nil {
			t.Fatal(err)
		}
		named := map[string]bool{}
		for _, m := range p.doc.Placed() {
			if !box.Contains(m.Box) {
				t.Fatalf("%q at %v is outside %v", m.Text, m.Box, box)
			}
			named[m.Text] = true
		}
		if named["out"] != (bars.out > 0) || named["in"] != (bars.in > 0) {
			t.Fatalf("%+v: bars %v", bars, named)
		}
	})
}
