package schedule_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

func TestUseBases(t *testing.T) {
	const none, unknown = quantity.Hours(0), schedule.UseUnknown
	// 100 h in 200 days, 24 days apart, then 50 h in 100 days.
	steady := points(t, "2025-10-01", 1000, "2025-12-10", 4500, "2026-02-18", 8000, "2026-04-29", 11500)
	cases := []struct {
		name      string
		readings  []schedule.Point
		expected  quantity.Hours
		basis     schedule.UseBasis
		used      int
		rate      quantity.Hours
		low, high quantity.Hours
	}{
		{"no reading, no figure", nil, none, unknown, 0, 0, 0, 0},
		{"no reading", nil, 12_000, schedule.FromMachineFile, 0, 12_000, 9_000, 15_000},
		{"50 h in 100 days is 182.63 h a year", steady, 12_000, schedule.FromReadings, 4, 18_263, 18_263, 18_263},
		{"three readings", steady[:3], 12_000, schedule.FromMachineFile, 0, 12_000, 9_000, 15_000},
		{"three readings, no figure", steady[:3], none, schedule.FromFewReadings, 3, 18_263, 13_698, 22_828},
		{"two readings", steady[:2], none, schedule.FromFewReadings, 2, 18_263, 13_698, 22_828},
		{"one reading", steady[:1], none, unknown, 0, 0, 0, 0},
		{"the same one four times", slices.Repeat(steady[:1], 4), none, unknown, 0, 0, 0, 0},
		// 365.25 x 90/61, 10/29, 100/90: the middle one stands between the others.
		{"few and uneven", points(t, "2026-01-30", 0, "2026-04-01", 9000, "2026-04-30", 10_000), none, schedule.FromFewReadings, 3, 40_583, 12_595, 53_889},
		{"four on three dates", points(t, "2025-07-01", 100, "2025-07-01", 200, "2025-10-01", 300, "2026-05-01", 400), 5_001, schedule.FromMachineFile, 0, 5_001, 3_751, 6_251},
		{"four over 179 days", points(t, "2025-11-01", 100, "2025-12-01", 200, "2026-01-01", 300, "2026-04-29", 400), 5_000, schedule.FromMachineFile, 0, 5_000, 3_750, 6_250},
		{"four over 180 days", points(t, "2025-10-31", 0, "2025-12-30", 60, "2026-02-28", 120, "2026-04-29", 180), 5_000, schedule.FromReadings, 4, 365, 365, 365},
		{"two over 59 days", points(t, "2026-03-01", 0, "2026-04-29", 590), none, unknown, 0, 0, 0, 0},
		{"two over 60 days", points(t, "2026-02-28", 0, "2026-04-29", 600), none, schedule.FromFewReadings, 2, 3_653, 2_740, 4_566},
		{"all on one day", points(t, "2026-04-29", 100, "2026-04-29", 200, "2026-04-29", 300, "2026-04-29", 400), none, unknown, 0, 0, 0, 0},
		{"later than the day asked about", append(points(t, "2026-05-05", 99_000, "2027-05-04", 99_900), steady...), none, schedule.FromReadings, 4, 18_263, 18_263, 18_263},
		{"on the day itself, and on the window's first", points(t, "2023-05-04", 0, "2024-05-04", 36_600, "2025-05-04", 73_100, "2026-05-04", 109_600), none, schedule.FromReadings, 4, 36_525, 36_525, 36_525},
		{"a day before the window", points(t, "2023-05-03", 0, "2024-05-04", 36_600, "2025-05-04", 73_100, "2026-05-04", 109_600), none, schedule.FromFewReadings, 3, 36_525, 27_394, 45_656},
		{"laid up", points(t, "2025-06-01", 500, "2025-08-01", 500, "2025-10-01", 500, "2026-04-01", 500), 5_000, schedule.FromReadings, 4, 0, 0, 0},
		{"hours that fall", points(t, "2025-06-01", 900, "2025-08-01", 800, "2025-10-01", 700, "2026-04-01", 600), 5_000, schedule.FromMachineFile, 0, 5_000, 3_750, 6_250},
		{"hours that fall, no figure", points(t, "2025-06-01", 900, "2025-08-01", 800), none, unknown, 0, 0, 0, 0},
		{"faster than the clock", points(t, "2025-06-01", 0, "2025-08-01", 99_000_000), none, schedule.FromFewReadings, 2, 894_132, 894_132, 894_132},
		{"no such reading", []schedule.Point{{Date: 20_000, Hours: math.MinInt64}, {Date: 20_400, Hours: math.MaxInt64}, {Date: math.MinInt64}, {Date: math.MaxInt64}}, none, unknown, 0, 0, 0, 0},
		{"no such figure", nil, math.MaxInt64, unknown, 0, 0, 0, 0},
		{"a figure below nothing", nil, -1, unknown, 0, 0, 0, 0},
	}
	for _, c := range cases {
		u := schedule.UseOf(c.readings, c.expected, day(t, "2026-05-04"))
		if u.Basis != c.basis || u.Readings != c.used || u.PerYear != c.rate || u.Low != c.low || u.High != c.high || u.Seasonal {
			t.Errorf("%s: %+v", c.name, u)
		}
		if (u.Readings == 0) != (u.From == 0 && u.To == 0) {
			t.Errorf("%s: %d readings from %v to %v", c.name, u.Readings, u.From, u.To)
		}
	}
}

// TestBetweenAndReach: 365.25 h a year is an hour a day.
func TestBetweenAndReach(t *testing.T) {
	u := schedule.Use{PerYear: 36_525, Low: 18_263, High: 73_050}
	now := schedule.Point{Date: day(t, "2026-05-04"), Hours: 80_000}
	if got := u.Between(now.Date, day(t, "2027-05-04")); got != 36_500 {
		t.Errorf("a year of 365 days: %v", got)
	}
	if u.Between(now.Date, now.Date) != 0 || u.Between(now.Date, now.Date-1) != 0 || (schedule.Use{}).Between(now.Date, now.Date+9) != 0 {
		t.Error("hours out of nothing")
	}
	// 100 h left: in 100 days; in 50 at the high rate; in 200, and a little less, at the low one.
	got, ok := u.Reach(now, 90_000)
	if want := (schedule.Reach{On: day(t, "2026-08-12"), From: day(t, "2026-06-23"), To: day(t, "2026-11-20")}); !ok || got != want {
		t.Errorf("100 h: %v", got)
	}
	got, _ = u.Reach(now, 80_001) // 1/100 h: tomorrow, by any rate
	if got.On != now.Date+1 || got.From != now.Date+1 || got.To != now.Date+1 {
		t.Errorf("1/100 h: %v", got)
	}
	// 20 years are 7305 days.
	got, ok = u.Reach(now, 80_000+730_500)
	if !ok || got.On != day(t, "2046-05-04") || got.To != got.On {
		t.Errorf("20 years: %v", got)
	}
	for name, c := range map[string]struct {
		use    schedule.Use
		target quantity.Hours
	}{
		"reached":             {u, 80_000},
		"long reached":        {u, math.MinInt64},
		"beyond the horizon":  {u, 80_000 + 730_501},
		"no end to it":        {u, math.MaxInt64},
		"unknown use":         {schedule.Use{}, 90_000},
		"laid up for good":    {schedule.Use{Basis: schedule.FromReadings, High: 100}, 90_000},
		"below nothing a day": {schedule.Use{PerYear: -1}, 90_000},
	} {
		if got, ok := c.use.Reach(now, c.target); ok || got != (schedule.Reach{}) {
			t.Errorf("%s: %v", name, got)
		}
	}
}

func drawUse(t *rapid.T) schedule.Use {
	on := quantity.Date(rapid.IntRange(15_000, 25_000).Draw(t, "on"))
	return schedule.UseOf(drawReadings(t, on), quantity.Hours(rapid.IntRange(0, 50_000).Draw(t, "expected")), on)
}

// TestUseOrder: neither the order of the readings nor writing one down twice
// changes the use, and the caller's slice is left as it was.
func TestUseOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		for range 10 {
			on := quantity.Date(rapid.IntRange(15_000, 25_000).Draw(t, "on"))
			readings := drawReadings(t, on)
			kept := slices.Clone(readings)
			want := schedule.UseOf(readings, 0, on)
			if !slices.Equal(readings, kept) {
				t.Fatal("the readings were changed")
			}
			other := rapid.Permutation(readings).Draw(t, "order")
			if len(other) > 0 {
				other = append(slices.Clone(other), rapid.SampledFrom(readings).Draw(t, "twice"))
			}
			if got := schedule.UseOf(other, 0, on); got != want {
				t.Fatalf("%+v, in another order %+v", want, got)
			}
		}
	})
}

func TestUseProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		for range 10 {
			u := drawUse(t)
			if u.Low < 0 || u.Low > u.PerYear || u.PerYear > u.High {
				t.Fatalf("%+v", u)
			}
			a := quantity.Date(rapid.IntRange(10_000, 30_000).Draw(t, "a"))
			b := a + quantity.Date(rapid.IntRange(0, 3_000).Draw(t, "b"))
			c := b + quantity.Date(rapid.IntRange(0, 3_000).Draw(t, "c"))
			if off := u.Between(a, b) + u.Between(b, c) - u.Between(a, c); off < -1 || off > 1 {
				t.Fatalf("%v to %v to %v: %v over", a, b, c, off)
			}
			now := schedule.Point{Date: a, Hours: quantity.Hours(rapid.IntRange(0, 1_000_000).Draw(t, "now"))}
			left := quantity.Hours(rapid.IntRange(1, 300_000).Draw(t, "left"))
			r, ok := u.Reach(now, now.Hours+left)
			if end := a.AddMonths(schedule.Horizon); !ok {
				if u.Between(a, end) > left {
					t.Fatalf("%+v: %v h within the horizon", u, left)
				}
				continue
			} else if r.From <= a || r.From > r.On || r.On > r.To || r.To > end {
				t.Fatalf("%+v from %v", r, a)
			}
			if u.Between(a, r.On) < left || u.Between(a, r.On-1) > left {
				t.Fatalf("%v h left, %v by %v", left, u.Between(a, r.On), r.On)
			}
		}
	})
}

// TestUseHostile: no figure makes anything panic, run over or go below 0.
func TestUseHostile(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var readings []schedule.Point
		for range rapid.IntRange(0, 12).Draw(t, "readings") {
			readings = append(readings, schedule.Point{Date: quantity.Date(rapid.Int64().Draw(t, "date")), Hours: quantity.Hours(rapid.Int64().Draw(t, "hours"))})
		}
		readings = append(readings, drawReadings(t, 20_000)...)
		on := rapid.OneOf(rapid.Just(int64(20_000)), rapid.Int64()).Draw(t, "on")
		u := schedule.UseOf(readings, quantity.Hours(rapid.Int64().Draw(t, "expected")), quantity.Date(on))
		if rapid.Bool().Draw(t, "made up") {
			u = schedule.Use{PerYear: quantity.Hours(rapid.Int64().Draw(t, "rate")), Low: quantity.Hours(rapid.Int64().Draw(t, "low")), High: quantity.Hours(rapid.Int64().Draw(t, "high"))}
		}
		a, b := quantity.Date(rapid.Int64().Draw(t, "a")), quantity.Date(rapid.Int64().Draw(t, "b"))
		if got := u.Between(a, b); got < 0 || got > quantity.MaxHours {
			t.Fatalf("%v h", got)
		}
		r, ok := u.Reach(schedule.Point{Date: a, Hours: quantity.Hours(rapid.Int64().Draw(t, "now"))}, quantity.Hours(rapid.Int64().Draw(t, "target")))
		if ok && (r.From > r.On || r.On > r.To) {
			t.Fatalf("%+v", r)
		}
	})
}

// yearsOf draws n readings over the three years before a day, at 250 h a year.
func yearsOf(n int, on quantity.Date) []schedule.Point {
	random := rand.New(rand.NewPCG(1, 2))
	readings := make([]schedule.Point, n)
	for i := range readings {
		days := 1095 * (i + 1) / n
		readings[i] = schedule.Point{Date: on - 1095 + quantity.Date(days), Hours: quantity.Hours(10_000 + days*25_000/365 + random.IntN(500))}
	}
	return readings
}

// TestManyReadings: past a thousand only the newest count, so that a book of any
// length is answered at once.
func TestManyReadings(t *testing.T) {
	on := day(t, "2026-05-04")
	var readings []schedule.Point
	for i := range quantity.Hours(3_000) { // three a day
		readings = append(readings, schedule.Point{Date: on - 1_000 + quantity.Date(i/3), Hours: 20_000 + 10*i})
	}
	u := schedule.UseOf(readings, 0, on)
	if u.Readings != 1_000 || u.To != readings[2_999].Date || u.From != readings[2_000].Date {
		t.Errorf("%+v", u)
	}
}

func BenchmarkUseOf(b *testing.B) {
	on := day(b, "2026-05-04")
	for name, readings := range map[string][]schedule.Point{
		"20": yearsOf(20, on), "20 by the season": boatOfTwoSummers(b), "1000": yearsOf(1000, on),
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				schedule.UseOf(readings, 0, on)
			}
		})
	}
}

func BenchmarkReach(b *testing.B) {
	on := day(b, "2026-05-04")
	for name, readings := range map[string][]schedule.Point{"even": yearsOf(20, on), "by the season": boatOfTwoSummers(b)} {
		u := schedule.UseOf(readings, 0, on)
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				u.Reach(schedule.Point{Date: on, Hours: 50_000}, 90_000)
			}
		})
	}
}
