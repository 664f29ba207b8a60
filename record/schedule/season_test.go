package schedule_test

import (
	"testing"
	"time"

	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// monthly reads a meter on the 1st of every month; run is the hours (1/100 h) of
// each calendar month, January first.
func monthly(from quantity.Date, months int, run [12]int) []schedule.Point {
	at := schedule.Point{Date: from, Hours: 20_000}
	out := []schedule.Point{at}
	for range months {
		at.Hours += quantity.Hours(run[at.Date.Month()-1])
		at.Date = at.Date.AddMonths(1)
		out = append(out, at)
	}
	return out
}

var (
	summers   = [12]int{0, 0, 0, 500, 1500, 2500, 3500, 3000, 1000, 0, 0, 0}
	winters   = [12]int{3000, 2000, 500, 0, 0, 0, 0, 0, 0, 1000, 2500, 3000}
	allYear   = [12]int{900, 800, 1000, 1100, 1000, 1000, 1200, 1000, 1000, 1100, 900, 1000}
	halfAHalf = [12]int{600, 600, 600, 600, 1200, 1200, 1200, 1200, 1200, 1190, 600, 600} // 7190 of 10790 h: under two thirds
	twoThirds = [12]int{600, 600, 600, 600, 1200, 1200, 1200, 1200, 1200, 1200, 600, 600}
)

func TestSeasonal(t *testing.T) {
	from := day(t, "2024-05-01")
	cases := []struct {
		name     string
		readings []schedule.Point
		want     bool
	}{
		{"a summer boat, two years", monthly(from, 24, summers), true},
		{"a winter boat: six months across the new year", monthly(from, 24, winters), true},
		{"all year", monthly(from, 24, allYear), false},
		{"two thirds exactly", monthly(from, 24, twoThirds), true},
		{"a little less than two thirds", monthly(from, 24, halfAHalf), false},
		{"one year", monthly(from, 12, summers), false},
		{"two years less a month", monthly(from, 23, summers), false},
		{"three years", monthly(day(t, "2023-05-01"), 36, summers), true},
		{"summers that change about", append(monthly(from, 12, summers), after(monthly(from.AddMonths(12), 12, winters), 13_000)...), false},
		{"four readings a year, at the turn of the season", points(t,
			"2024-05-01", 20000, "2024-07-01", 24000, "2024-09-01", 29000, "2024-10-01", 30500, "2025-05-01", 31000,
			"2025-07-01", 35000, "2025-09-01", 40000, "2025-10-01", 41500, "2026-05-01", 42000), true},
		{"three readings in the second year", points(t,
			"2024-05-01", 20000, "2024-07-01", 24000, "2024-09-01", 29000, "2024-10-01", 30500, "2025-05-01", 31000,
			"2025-07-01", 35000, "2025-10-01", 41500, "2026-05-01", 42000), false},
		{"a reading that fell", points(t,
			"2024-05-01", 20000, "2024-07-01", 24000, "2024-09-01", 29000, "2024-10-01", 30500, "2025-05-01", 30000,
			"2025-07-01", 35000, "2025-09-01", 40000, "2025-10-01", 41500, "2026-05-01", 42000), false},
		{"never run", monthly(from, 24, [12]int{}), false},
	}
	for _, c := range cases {
		u := schedule.UseOf(c.readings, 0, day(t, "2026-05-04"))
		if u.Basis != schedule.FromReadings || u.Seasonal != c.want {
			t.Errorf("%s: basis %d, seasonal %v, want %v", c.name, u.Basis, u.Seasonal, c.want)
		}
	}
}

func after(readings []schedule.Point, hours quantity.Hours) []schedule.Point {
	for i := range readings {
		readings[i].Hours += hours
	}
	return readings
}

// TestSeasonalFigures: readings on the first of each month in the season, weighed
// day by day with numpy.interp, then scipy.stats.theilslopes of SciPy 1.10.1
// (alpha=0.90) over the weighed days: 11162.8081, 11134.8619 to 11191.3138. The
// weights came out as 20 20 20 349 1352 1953 3400 3210 1359 216 20 20.
func TestSeasonalFigures(t *testing.T) {
	u := schedule.UseOf(boatOfTwoSummers(t), 0, day(t, "2026-05-04"))
	if !u.Seasonal || u.PerYear != 11163 || u.Low != 11135 || u.High != 11191 {
		t.Errorf("%+v", u)
	}
	// 366373 parts weigh 11163: July is 31 x 3400 of them, January 31 x 20.
	for _, c := range []struct {
		from, to string
		want     quantity.Hours
	}{
		{"2026-07-01", "2026-08-01", 3211},       // 105400 x 11163 / 366373 = 3211.45
		{"2027-01-01", "2027-02-01", 19},         // 620 x 11163 / 366373 = 18.89
		{"2026-09-15", "2026-10-11", 728},        // 16 x 1359 + 10 x 216 = 23904: 728.33
		{"2027-02-10", "2027-04-01", 30},         // 50 x 20 = 1000: 30.47
		{"2028-02-10", "2028-04-01", 31},         // a leap day more, 1020: 31.08
		{"2026-05-04", "2030-05-04", 4 * 11_163}, // four years with one leap day
	} {
		if got := u.Between(day(t, c.from), day(t, c.to)); got != c.want {
			t.Errorf("%s to %s: %d, want %d", c.from, c.to, got, c.want)
		}
	}
}

func boatOfTwoSummers(t testing.TB) []schedule.Point {
	return points(t,
		"2024-05-01", 20000, "2024-06-01", 21210, "2024-07-01", 23050, "2024-08-01", 26180, "2024-09-01", 29340,
		"2024-10-01", 30520, "2024-11-01", 30760, "2025-01-10", 30780, "2025-04-01", 30810, "2025-05-01", 31100,
		"2025-06-01", 32450, "2025-07-01", 34190, "2025-08-01", 37500, "2025-09-01", 40420, "2025-10-01", 41730,
		"2025-11-01", 41900, "2026-04-01", 41950, "2026-05-01", 42300)
}

// TestLayUpMoves: what a year of even use would put into the lay-up is reached
// early in the next season, or late in the one that runs.
func TestLayUpMoves(t *testing.T) {
	u := schedule.UseOf(monthly(day(t, "2024-05-01"), 24, summers), 0, day(t, "2026-05-04"))
	even := schedule.Use{Basis: u.Basis, PerYear: u.PerYear, Low: u.Low, High: u.High}
	now := schedule.Point{Date: day(t, "2026-09-01"), Hours: 40_000} // 10 h of this season to come
	for _, c := range []struct {
		left       quantity.Hours
		even, want time.Month
	}{
		{500, time.September, time.September},
		{2_500, time.November, time.May}, // 10 in September, 5 in April, 10 of 15 in May
		{4_000, time.January, time.June},
	} {
		flat, ok := even.Reach(now, now.Hours+c.left)
		moved, ok2 := u.Reach(now, now.Hours+c.left)
		if !ok || !ok2 || flat.On.Month() != c.even || moved.On.Month() != c.want {
			t.Errorf("%v h left: %v, by the season %v", c.left, flat, moved)
		}
	}
}
