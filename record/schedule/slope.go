package schedule

import (
	"math"
	"slices"

	"hourseal/record/quantity"
)

// slopeParts: slopes are kept in 1/1000 of the 1/100 h a year that rates are
// given in, so that rounding them does not show.
const slopeParts = 1000

// rates are what the slopes of all pairs of readings say, in 1/100 h a year; low
// and high are Sen's interval at 90 %.
type rates struct{ median, low, high, lowest, highest quantity.Hours }

// theilSen works the rates out from readings of at least two dates, oldest first,
// no two the same, with days weighed by the season. It reports false for a median
// below 0.
func theilSen(readings []Point, s season) (rates, bool) {
	var room [32 * 31 / 2]int64
	slopes := pairSlopes(room[:0], readings, s)
	slices.Sort(slopes)
	n := len(slopes)
	low, high := senInterval(n, senVariance(readings))
	rate := func(i, j int) quantity.Hours { // the mean of two
		return quantity.Hours(roundDiv(slopes[i]+slopes[j], 2*slopeParts))
	}
	r := rates{
		median: rate((n-1)/2, n/2), low: rate(low, low), high: rate(high, high),
		lowest: rate(0, 0), highest: rate(n-1, n-1),
	}
	return r, slopes[(n-1)/2]+slopes[n/2] >= 0
}

// pairSlopes appends the slope of each pair of readings on different dates. The
// figures fit: hours up to 1e8, a year up to 1e6 parts.
func pairSlopes(to []int64, readings []Point, s season) []int64 {
	var room [32]int64
	at := room[:0]
	for _, p := range readings {
		at = append(at, s.upTo(p.Date))
	}
	if pairs := len(at) * (len(at) - 1) / 2; pairs > cap(to) {
		to = make([]int64, 0, pairs)
	}
	perYear := s.year() * slopeParts
	for j := range readings {
		for i := range j {
			if days := at[j] - at[i]; days > 0 {
				rise := int64(readings[j].Hours - readings[i].Hours)
				to = append(to, roundDiv(rise*perYear, days))
			}
		}
	}
	return to
}

// senVariance is 18 times the variance of Kendall's score for readings in their
// order, with the groups that share a date or a reading taken off (Sen 1968,
// equation 2.6).
func senVariance(readings []Point) uint64 {
	var room [32]quantity.Hours
	hours := room[:0]
	for _, p := range readings {
		hours = append(hours, p.Hours)
	}
	slices.Sort(hours)
	variance := scoreTerm(len(readings))
	sameDate, sameHours := 1, 1
	for i := 1; i <= len(readings); i++ {
		if i < len(readings) && readings[i].Date == readings[i-1].Date {
			sameDate++
		} else {
			variance -= scoreTerm(sameDate)
			sameDate = 1
		}
		if i < len(hours) && hours[i] == hours[i-1] {
			sameHours++
		} else {
			variance -= scoreTerm(sameHours)
			sameHours = 1
		}
	}
	return uint64(max(variance, 0))
}

// scoreTerm is n (n-1) (2n+5), which is 0 for one reading by itself.
func scoreTerm(n int) int64 { return int64(n) * int64(n-1) * int64(2*n+5) }

// z2 is the square of 1.6448536269514722, the 95 % point of the normal
// distribution: 5 % of it on either side leaves 90 %.
const (
	z2      = 2_705_543_454_095_404
	z2Scale = 1_000_000_000_000_000
)

// senInterval gives the places, counted from 0, of the interval's ends among n
// slopes in order: (n-w)/2 and (n+w)/2 rounded to the nearest, less one for the
// lower, with w the score's standard deviation times 1.645. (scipy.stats.theilslopes
// counts alike.)
func senInterval(n int, variance uint64) (low, high int) {
	// w is irrational, so that only its whole part counts in what is rounded. A
	// thousand readings make a square of 3e8: its root is right in every float64.
	square, _, _ := mulDiv(variance, z2, 18*z2Scale)
	w := int(math.Sqrt(float64(square)))
	return max((n-w)/2-1, 0), min((n+1+w)/2, n-1)
}

// roundDiv is n/d rounded half away from zero; d is above 0.
func roundDiv(n, d int64) int64 {
	quotient, rest := n/d, n%d
	switch {
	case rest >= d-rest:
		return quotient + 1
	case -rest >= d+rest:
		return quotient - 1
	}
	return quotient
}
