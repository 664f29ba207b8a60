package fluid

import (
	"math"
	"testing"

	"hourseal/record/quantity"
)

// TestFaults: one visit each, worked out by hand. Levels at 15 degC, so that 10 L
// are at the upper mark and 8.4 at the lower.
func TestFaults(t *testing.T) {
	weighed := func(before quantity.Ratio, kg string, f Filter, filled string, after quantity.Ratio) Visit {
		return Visit{Before: read(before, 150), Drained: amountIn(t, kg), Filter: f, Filled: amountIn(t, filled), After: read(after, 150)}
	}
	big := gannet
	big.FilterHolds = 1500
	for _, c := range []struct {
		what string
		s    System
		v    Visit
		want []Kind
	}{
		// 8.88 L in, 0.6 with the filter and 7.92 drained (6.97 kg) leave 0.36; 9.4 filled make 9.76.
		{"it adds up", gannet, weighed(300, "6.97 kg", FilterNotDrained, "9.4 L at 15 C", 850), nil},
		{"2 L less in than filled", gannet, weighed(300, "6.97 kg", FilterNotDrained, "11.4 L at 15 C", 850), []Kind{FillOffLevel}},
		{"2 L more in than filled", gannet, weighed(300, "6.97 kg", FilterNotDrained, "7.4 L at 15 C", 850), []Kind{FillOffLevel}},
		// Without the level before the mark alone tells: less in than was filled.
		{"no level before, 2 L less", gannet, Visit{Drained: amountIn(t, "6.97 kg"), Filled: amountIn(t, "11.8 L at 15 C"), After: read(850, 150)}, []Kind{FillOffLevel}},
		{"no level before, 2 L more", gannet, Visit{Drained: amountIn(t, "6.97 kg"), Filled: amountIn(t, "7.8 L at 15 C"), After: read(850, 150)}, nil},
		{"drained more than was in", gannet, weighed(300, "9.7 kg", FilterNotDrained, "9.4 L at 15 C", 850), []Kind{DrainedBeyond}},
		{"drained more than it holds", gannet, Visit{Drained: amountIn(t, "10.2 kg")}, []Kind{DrainedBeyond}},
		{"drained as much as it may hold", gannet, Visit{Drained: amountIn(t, "9.2 kg")}, nil},
		// 3 L drained leave 5.28; 4.48 filled make 9.76.
		{"stopped early", gannet, weighed(300, "2.64 kg", FilterNotDrained, "4.48 L at 15 C", 850), []Kind{OldOilLeft}},
		// The filter's 1.5 L went elsewhere, and 6.42 kg are written as with it: 7.02 drained and 9.4 filled leave 8.26 + ...
		{"filter not counted", big, weighed(300, "6.18 kg", FilterInDrained, "9.4 L at 15 C", 850), []Kind{FilterMiscounted}},
		{"filter counted twice", big, weighed(300, "7.50 kg", FilterNotDrained, "9.4 L at 15 C", 850), []Kind{FilterMiscounted}},
		{"new filter empty", big, weighed(300, "7.50 kg", FilterInDrained, "8.4 L at 15 C", 1125), []Kind{FilterMiscounted}},
		// 2.1 US gal, 7.95 L, came out; 2.1 imp gal are 9.55.
		{"imperial gallons drained", gannet, weighed(300, "2.1 imp gal at 15 C", FilterNotDrained, "9.4 L at 15 C", 850), []Kind{UnitSwapped}},
		{"US gallons drained", gannet, weighed(300, "1.74 US gal at 15 C", FilterNotDrained, "9.4 L at 15 C", 850), []Kind{UnitSwapped}},
		{"imperial gallons filled", gannet, weighed(300, "6.97 kg", FilterNotDrained, "2.48 imp gal at 15 C", 850), []Kind{UnitSwapped}},
		{"both", gannet, weighed(300, "2.6 imp gal at 15 C", FilterNotDrained, "2.48 imp gal at 15 C", 350), []Kind{DrainedBeyond}},
		// An overfill that was drawn down again is no contradiction.
		{"drawn down", gannet, func() Visit {
			v := weighed(300, "6.97 kg", FilterNotDrained, "10.4 L at 15 C", 850)
			v.DrawnDown = amountIn(t, "1 L at 15 C")
			return v
		}(), []Kind{DrawnDown}},
		{"overfilled", gannet, weighed(300, "6.97 kg", FilterNotDrained, "10.6 L at 15 C", 1600), nil},
		{"drawn down without a change", gannet, Visit{Before: read(1400, 150), DrawnDown: amountIn(t, "0.88 kg"), After: read(800, 150)}, []Kind{DrawnDown}},
		{"no mark known", System{BetweenMarks: 1600, FilterHolds: 600, Density: 880}, weighed(300, "6.97 kg", FilterNotDrained, "9.4 L at 15 C", 850), nil},
		{"no mark known, 2 L less in than filled", System{BetweenMarks: 1600, FilterHolds: 600, Density: 880}, weighed(300, "6.97 kg", FilterNotDrained, "11.4 L at 15 C", 850), []Kind{FillOffLevel}},
		{"nothing known", System{}, weighed(300, "6.97 kg", FilterNotDrained, "11.4 L at 15 C", 850), nil},
		{"coolant, more drained than it holds", System{Holds: 11_500, Coolant: true}, Visit{Drained: amountIn(t, "13 L")}, []Kind{DrainedBeyond}},
		{"coolant", System{Holds: 11_500, Coolant: true}, Visit{Drained: amountIn(t, "12 L at 90 C"), Filled: amountIn(t, "11 L")}, nil},
	} {
		wantKinds(t, c.what, AccountOf(c.s, TradeDoubt, []Visit{c.v}), c.want...)
	}
}

// TestWhatFaultsSay: the figures that go with them.
func TestWhatFaultsSay(t *testing.T) {
	say := func(v Visit) Remark {
		t.Helper()
		a := AccountOf(gannet, TradeDoubt, []Visit{v})
		if len(a.Remarks) != 1 {
			t.Fatalf("%+v", a.Remarks)
		}
		return a.Remarks[0]
	}
	v := Visit{Before: read(300, 150), Drained: amountIn(t, "6.97 kg"), Filter: FilterNotDrained, Filled: amountIn(t, "11.4 L at 15 C"), After: read(850, 150)}
	// 0.36 and 11.4 make 11.76 L: 1 + 1.76/1.6.
	if r := say(v); r.Value != 850 || r.Limit != 2100 || r.Off != -2000 {
		t.Errorf("%+v", r)
	}
	v.Drained, v.Filled = amountIn(t, "2.1 imp gal at 15 C"), amountIn(t, "9.4 L at 15 C")
	if r := say(v); r.Amount != "drained" || r.Written != "2.1 imp gal at 15 C" || r.Swapped != "2.1 US gal at 15 C" || r.Value != 9547 || r.Limit != 7949 {
		t.Errorf("%+v", r)
	}
	v.Drained = amountIn(t, "9.7 kg") // 11.023 L, and 0.6: 11.62; 8.88 were in
	if r := say(v); r.Value != 11_623 || r.Limit != 8880 {
		t.Errorf("%+v", r)
	}
	v.Drained, v.Filled = amountIn(t, "2.64 kg"), amountIn(t, "4.48 L at 15 C")
	if r := say(v); r.Value != 5280 || r.Limit != 1500 || r.Share != 1000 && r.Share < 1170 || r.Share > 1190 {
		t.Errorf("%+v", r) // 5.28 of a fill of 4.48
	}
}

// TestLevelFor: 9.3 L at 16 degC on top of 0.3 are 9.593 at 15; at 45 degC
// 9.593/0.97847 = 9.804, that is 0.196 under the upper mark: 0.877 of 1.6 L.
func TestLevelFor(t *testing.T) {
	level, err := LevelFor(gannet, Doubt{}, measured(t, "9.3 L at 16 C"), 300, 450)
	if err != nil || level.Reading != 878 && level.Reading != 877 {
		t.Errorf("%+v, %v", level, err)
	}
	for _, c := range []struct {
		s      System
		filled quantity.Measured
		at     quantity.Temperature
	}{
		{System{AtUpper: 10_000}, measured(t, "9 L"), 150},
		{System{BetweenMarks: 1600}, measured(t, "9 L"), 150},
		{gannet, quantity.Measured{NotMeasured: true}, 150},
		{gannet, measured(t, "9 L at 200 C"), 150},
		{gannet, measured(t, "9 L"), 2000},
		{System{AtUpper: 10_000, BetweenMarks: 1600, Coolant: true}, measured(t, "9 L"), 150},
	} {
		if level, err := LevelFor(c.s, Doubt{}, c.filled, 0, c.at); err == nil {
			t.Errorf("%+v: %+v", c, level)
		}
	}
}

// TestBest: the weights of least variance for two measurements that are independent
// are the inverse variances (JCGM 100:2008 cites it; any handbook of statistics):
// 10.0 +- 0.1 and 10.4 +- 0.2 make 10.08 +- 0.0894.
func TestBest(t *testing.T) {
	a := estimate{mL: 10_000}.moved(term{source: fromUpper}, 100)
	b := estimate{mL: 10_400}.moved(term{source: fromFilter}, 200)
	got := best(a, b, estimate{})
	if math.Abs(got.mL-10_080) > 1e-6 || math.Abs(got.within()-89.4427) > 0.001 {
		t.Errorf("%.1f +- %.4f", got.mL, got.within())
	}
	if same := best(a, a, estimate{}); same.mL != a.mL || same.within() != a.within() {
		t.Errorf("the same twice: %+v", same)
	}
	if d := a.less(a); d.mL != 0 || d.within() != 0 {
		t.Errorf("a figure less itself: %+v", d)
	}
}
