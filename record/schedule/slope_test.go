package schedule_test

import (
	"cmp"
	"math"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// points reads "2026-05-04", 81260 pairs: hours are in 1/100 h.
func points(t testing.TB, list ...any) []schedule.Point {
	t.Helper()
	var out []schedule.Point
	for i := 0; i < len(list); i += 2 {
		out = append(out, schedule.Point{Date: day(t, list[i].(string)), Hours: quantity.Hours(list[i+1].(int))})
	}
	return out
}

// TestTheilSenFigures holds the rates against scipy.stats.theilslopes of SciPy
// 1.10.1 (NumPy 1.24.2), called with alpha=0.90 on days and 1/100 h, its figures
// times 365.25 and rounded.
func TestTheilSenFigures(t *testing.T) {
	cases := []struct {
		name           string
		readings       []schedule.Point
		rate, low, top quantity.Hours
	}{
		// 22983.2090, 22236.4573, 23498.6654
		{"oil changes of a launch", points(t,
			"2023-11-20", 61240, "2024-03-04", 66890, "2024-06-10", 74315, "2024-09-02", 79980, "2024-12-16", 85105,
			"2025-04-07", 92560, "2025-07-21", 99870, "2025-10-13", 104410, "2026-02-09", 111935), 22983, 22236, 23499},
		// 7042.6078, 5422.1847, 8684.3196
		{"lay-ups without an hour, ties in hours", points(t,
			"2024-05-15", 31200, "2024-07-01", 33850, "2024-10-20", 38410, "2025-02-01", 38410, "2025-04-10", 38410,
			"2025-08-04", 42975, "2025-10-18", 45120, "2026-01-15", 45120, "2026-04-02", 45120, "2026-05-04", 46000), 7043, 5422, 8684},
		// 10491.3187, 9229.8095, 11786.3716
		{"before and after a trial, ties in dates", points(t,
			"2024-05-04", 80000, "2024-05-04", 80450, "2024-11-02", 86110, "2025-03-15", 88000, "2025-03-15", 88320,
			"2025-03-15", 88410, "2025-10-01", 95555, "2026-04-20", 101260), 10491, 9230, 11786},
		// 13706.2491, 13251.6322, 14251.9118
		{"a figure with a digit too many", points(t,
			"2025-01-10", 10010, "2025-03-02", 12000, "2025-05-11", 14400, "2025-06-30", 163500, "2025-08-14", 18210,
			"2025-10-05", 19900, "2025-12-01", 22470, "2026-02-20", 25030, "2026-04-18", 27600), 13706, 13252, 14252},
		// 9791.8903, 5235.2500, 14228.6951
		{"four readings", points(t,
			"2025-06-01", 5000, "2025-09-01", 7510, "2025-11-30", 8800, "2026-03-01", 12345), 9792, 5235, 14229},
	}
	for _, c := range cases {
		u := schedule.UseOf(c.readings, 0, day(t, "2026-05-04"))
		if u.Basis != schedule.FromReadings || u.Seasonal || u.PerYear != c.rate || u.Low != c.low || u.High != c.top {
			t.Errorf("%s: %+v, want %d (%d to %d)", c.name, u, c.rate, c.low, c.top)
		}
		if n := len(c.readings); u.Readings != n || u.From != c.readings[0].Date || u.To != c.readings[n-1].Date {
			t.Errorf("%s: from %d readings, %v to %v", c.name, u.Readings, u.From, u.To)
		}
	}
}

// TestOneWildReading: one reading among ten that is wrong by any amount moves the
// rate by no more than honest readings differ among themselves.
func TestOneWildReading(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pace := int64(rapid.IntRange(1_000, 200_000).Draw(t, "a year"))
		on := quantity.Date(20_577)
		var readings []schedule.Point
		for i := range 10 {
			days := int64(100*i + rapid.IntRange(0, 30).Draw(t, "days"))
			noise := int64(rapid.IntRange(0, int(pace/50)).Draw(t, "noise")) // a week's hours
			readings = append(readings, schedule.Point{Date: on - 940 + quantity.Date(days), Hours: quantity.Hours(500_000 + pace*days/365 + noise)})
		}
		honest := schedule.UseOf(readings, 0, on)
		readings[rapid.IntRange(0, 9).Draw(t, "which")].Hours = quantity.Hours(rapid.Int64Range(0, int64(quantity.MaxHours)).Draw(t, "wild"))
		wild := schedule.UseOf(readings, 0, on)
		if off := int64(wild.PerYear - honest.PerYear); max(off, -off) > pace/25 {
			t.Fatalf("%v a year, with one wild reading %v", honest.PerYear, wild.PerYear)
		}
	})
}

// drawReadings draws what a machine's book may hold: steady, by the season, with
// meters that fall and readings that tie, some of it outside the window.
func drawReadings(t *rapid.T, on quantity.Date) []schedule.Point {
	n := rapid.SampledFrom([]int{0, 1, 2, 3, 4, 5, 9, 13, 25, 40}).Draw(t, "readings")
	gap := rapid.SampledFrom([]int{0, 12, 31, 60, 91}).Draw(t, "gap")
	manner := rapid.SampledFrom([]string{"steady", "summers", "anything", "ties"}).Draw(t, "manner")
	pace := rapid.IntRange(0, 3_000).Draw(t, "a day")
	first := on - quantity.Date(min(n*(gap+4), 1_100)+rapid.IntRange(-30, 200).Draw(t, "first"))
	at := schedule.Point{Date: first, Hours: quantity.Hours(rapid.IntRange(0, 1_000_000).Draw(t, "hours"))}
	var out []schedule.Point
	for range n {
		switch manner {
		case "anything":
			at.Date = on + quantity.Date(rapid.IntRange(-1_300, 100).Draw(t, "date"))
			at.Hours = quantity.Hours(rapid.Int64Range(0, int64(quantity.MaxHours)).Draw(t, "hours"))
		case "ties":
			at.Date = on + 30*quantity.Date(rapid.IntRange(-12, 0).Draw(t, "date"))
			at.Hours = 5_000 * quantity.Hours(rapid.IntRange(0, 5).Draw(t, "hours"))
		default:
			for range gap + rapid.IntRange(0, 20).Draw(t, "days") {
				at.Date++
				if m := at.Date.Month(); manner == "steady" || m >= time.May && m <= time.September {
					at.Hours += quantity.Hours(pace)
				}
			}
			at.Hours += quantity.Hours(rapid.IntRange(0, 300).Draw(t, "more"))
		}
		out = append(out, at)
	}
	return out
}

// TestAgainstBruteForce holds UseOf against the same rules written a second time,
// in floats, day by day and without a thought to speed.
func TestAgainstBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		for range 10 {
			on := quantity.Date(rapid.IntRange(15_000, 25_000).Draw(t, "on"))
			readings := drawReadings(t, on)
			expected := quantity.Hours(rapid.SampledFrom([]int{0, 0, 10_000}).Draw(t, "expected"))
			got, want := schedule.UseOf(readings, expected, on), bruteUse(readings, expected, on)
			if want.undecided {
				continue
			}
			if got.Basis != want.basis || got.Seasonal != want.seasonal {
				t.Fatalf("basis %d, seasonal %v; want %d, %v: %v", got.Basis, got.Seasonal, want.basis, want.seasonal, readings)
			}
			slack := 0.51
			switch {
			case want.seasonal: // a weight rounded the other way
				slack += 0.01 * want.high
			case want.basis != schedule.FromReadings: // a quarter of a rounded rate, rounded again
				slack = 1.4
			}
			for i, pair := range [][2]float64{{float64(got.PerYear), want.rate}, {float64(got.Low), want.low}, {float64(got.High), want.high}} {
				if math.Abs(pair[0]-pair[1]) > slack {
					t.Fatalf("figure %d of %+v, want %+v: %v", i, got, want, readings)
				}
			}
		}
	})
}

type floatUse struct {
	basis               schedule.UseBasis
	rate, low, high     float64
	seasonal, undecided bool // undecided: too near a limit for floats to tell
}

func bruteUse(all []schedule.Point, expected quantity.Hours, on quantity.Date) floatUse {
	seen := map[schedule.Point]bool{}
	dates := map[quantity.Date]bool{}
	var readings []schedule.Point
	for _, p := range all {
		if !seen[p] && p.Date <= on && p.Date >= on.AddMonths(-36) {
			seen[p], dates[p.Date] = true, true
			readings = append(readings, p)
		}
	}
	first, last := on, on.AddMonths(-36)
	for d := range dates {
		first, last = min(first, d), max(last, d)
	}
	slices.SortFunc(readings, func(a, b schedule.Point) int {
		return cmp.Or(int(a.Date-b.Date), int(a.Hours-b.Hours))
	})
	if len(dates) >= 4 && last-first >= 180 {
		weights, undecided := bruteSeason(readings, dates)
		slopes := bruteSlopes(readings, weights)
		if median(slopes) >= 0 {
			low, high := bruteInterval(slopes, readings)
			return floatUse{schedule.FromReadings, capped(median(slopes)), capped(low), capped(high), weights != nil, undecided}
		}
	}
	if e := float64(expected); e > 0 {
		return floatUse{basis: schedule.FromMachineFile, rate: e, low: 0.75 * e, high: 1.25 * e}
	}
	if len(dates) >= 2 && last-first >= 60 {
		slopes := bruteSlopes(readings, nil)
		if m := median(slopes); m >= 0 {
			return floatUse{basis: schedule.FromFewReadings, rate: capped(m),
				low: capped(min(slopes[0], 0.75*m)), high: capped(max(slopes[len(slopes)-1], 1.25*m))}
		}
	}
	return floatUse{}
}

// capped keeps a rate to what a clock allows: 24.48 h a day.
func capped(rate float64) float64 { return min(max(rate, 0), 24.48*365.25*100) }

func median(sorted []float64) float64 {
	n := len(sorted)
	return (sorted[(n-1)/2] + sorted[n/2]) / 2
}

// bruteSlopes are the slopes in order, in 1/100 h a year.
func bruteSlopes(readings []schedule.Point, weights map[time.Month]float64) []float64 {
	weight := func(m time.Month) float64 {
		if weights == nil {
			return 1
		}
		return weights[m]
	}
	year := 0.25 * weight(time.February)
	for d := quantity.FromYMD(2025, time.January, 1); d.Year() == 2025; d++ {
		year += weight(d.Month())
	}
	weighed := map[quantity.Date]float64{}
	sum := 0.0
	for d := readings[0].Date; d <= readings[len(readings)-1].Date; d++ {
		weighed[d] = sum
		sum += weight(d.Month())
	}
	var slopes []float64
	for _, a := range readings {
		for _, b := range readings {
			if a.Date < b.Date {
				slopes = append(slopes, float64(b.Hours-a.Hours)/(weighed[b.Date]-weighed[a.Date])*year)
			}
		}
	}
	slices.Sort(slopes)
	return slopes
}

func bruteInterval(slopes []float64, readings []schedule.Point) (low, high float64) {
	byDate, byHours := map[quantity.Date]float64{}, map[quantity.Hours]float64{}
	for _, p := range readings {
		byDate[p.Date]++
		byHours[p.Hours]++
	}
	term := func(k float64) float64 { return k * (k - 1) * (2*k + 5) / 18 }
	variance := term(float64(len(readings)))
	for _, k := range byDate {
		variance -= term(k)
	}
	for _, k := range byHours {
		variance -= term(k)
	}
	n, w := float64(len(slopes)), 1.6448536269514722*math.Sqrt(max(variance, 0))
	lower, upper := int(math.RoundToEven((n-w)/2))-1, int(math.RoundToEven((n+w)/2))
	m := median(slopes)
	return min(slopes[max(lower, 0)], m), max(slopes[min(upper, len(slopes)-1)], m)
}

// bruteSeason walks the whole years a day at a time; nil: no season.
func bruteSeason(readings []schedule.Point, dates map[quantity.Date]bool) (weights map[time.Month]float64, undecided bool) {
	first, last := readings[0].Date, readings[len(readings)-1].Date
	for i := 1; i < len(readings); i++ {
		if readings[i].Hours < readings[i-1].Hours {
			return nil, false
		}
	}
	hoursAt := func(d quantity.Date) float64 {
		before, after := readings[0], readings[len(readings)-1]
		for _, p := range readings {
			if p.Date <= d {
				before = p
			}
		}
		for _, p := range slices.Backward(readings) {
			if p.Date > d {
				after = p
			}
		}
		if after.Date <= d {
			return float64(before.Hours)
		}
		return float64(before.Hours) + float64(after.Hours-before.Hours)*float64(d-before.Date)/float64(after.Date-before.Date)
	}
	possible := map[time.Month]bool{}
	for m := time.January; m <= time.December; m++ {
		possible[m] = true
	}
	hours, days := map[time.Month]float64{}, map[time.Month]float64{}
	total, length, years := 0.0, 0.0, 0
	for ; last.AddMonths(quantity.Months(-12*years-12)) >= first; years++ {
		from, to := last.AddMonths(quantity.Months(-12*years-12)), last.AddMonths(quantity.Months(-12*years))
		read := 0
		own, whole := map[time.Month]float64{}, 0.0
		for d := from; d < to; d++ {
			if dates[d+1] {
				read++
			}
			run := hoursAt(d+1) - hoursAt(d)
			own[d.Month()] += run
			hours[d.Month()] += run
			days[d.Month()]++
			whole += run
			total += run
			length++
		}
		if read < 4 || whole <= 0 {
			return nil, false
		}
		for m := time.January; m <= time.December; m++ {
			six := 0.0
			for k := range time.Month(6) {
				six += own[(m+k-1)%12+1]
			}
			if math.Abs(six/whole-2.0/3) < 1e-4 {
				undecided = true
			}
			possible[m] = possible[m] && six/whole >= 2.0/3
		}
	}
	seen := false
	for _, ok := range possible {
		seen = seen || ok
	}
	if years < 2 || !seen {
		return nil, undecided && years >= 2
	}
	weights = map[time.Month]float64{}
	for m := range possible {
		weights[m] = max(math.Round(1000*hours[m]/days[m]/(total/length)), 20)
	}
	return weights, undecided
}
