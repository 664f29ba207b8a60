package schedule

import (
	"cmp"
	"math/bits"
	"slices"
	"sort"

	"hourseal/record/quantity"
)

// UseBasis is what a machine's use was worked out from.
type UseBasis uint8

// The bases.
const (
	UseUnknown      UseBasis = iota
	FromReadings             // the machine's own readings
	FromMachineFile          // the hours a year that the machine file expects
	FromFewReadings          // fewer readings than are asked for, and no figure in the machine file
)

// Use is how fast a machine gathers hours, in 1/100 h a year of 365.25 days.
// Low <= PerYear <= High, and none is below 0.
type Use struct {
	Basis              UseBasis
	PerYear, Low, High quantity.Hours
	Readings           int           // how many it was worked out from; 0: none
	From, To           quantity.Date // of the first and last of them
	Seasonal           bool
	season             season
}

// Reach is when a reading is expected: From at the high rate, To at the low one.
// From <= On <= To.
type Reach struct{ On, From, To quantity.Date }

// What the use is worked out from. The lengths and counts are our own rule, no
// source.
const (
	// UseWindow is how far back readings count: a machine's use changes with its
	// owner, and three years hold the two that a season takes to show.
	UseWindow quantity.Months = 36

	// Horizon is how far ahead Reach looks.
	Horizon quantity.Months = 240

	mostReadings = 1000 // the newest; the pairs grow with the square

	enoughReadings               = 4 // on different dates
	enoughDays     quantity.Days = 180
	fewReadings                  = 2 // on different dates
	fewDays        quantity.Days = 60

	// A rate that nothing shows the spread of is taken as known to a quarter.
	quarter = 4

	// fastest is 24.48 h a day, all that a meter 2 % fast can show (SAE J1378,
	// second hand), for a year of 365.25 days.
	fastest quantity.Hours = 894_132
)

// MostHours is the most that hours in total can rise between two days. An hour
// meter is within 2 % or 0.1 h (SAE J1378, second hand), so that it rises by at
// most 24.48 h a day and 0.1 h. The time of day is not known, so both days count
// whole; 0 where the second lies before the first.
func MostHours(from, to quantity.Date) quantity.Hours {
	days := to.Sub(from) + 1
	if days < 1 {
		return 0
	}
	return quantity.Hours(days)*2448 + 10
}

// UseOf works the use out from readings (hours in total; any order, the same one
// twice counts once), over the window that ends on on. expected is the machine
// file's hours a year, 0 where it states none.
//
// The rate is the Theil-Sen slope: the median of the slopes of all pairs of
// readings on different dates, so that a reading written down wrong hardly moves
// it (H. Theil, A rank-invariant method of linear and polynomial regression
// analysis, Proc. Kon. Ned. Akad. Wetensch. 53, 1950, 386; P. K. Sen, Estimates
// of the regression coefficient based on Kendall's tau, J. Amer. Statist. Assoc.
// 63, 1968, 1379). Low and High are Sen's interval at 90 %, taken from the
// ordered slopes, with his correction for readings that tie.
//
// Readings count from UseWindow before on up to on, the newest thousand of them.
// One outside what may be written (quantity.Hours.Valid, Date.Valid) is left out.
// In order:
//
//   - FromReadings: four readings or more, on different dates over at least 180
//     days. Where they show a season (see season), the slopes are taken over
//     days that weigh as much as their month, so that the hours of one summer
//     and a lay-up are not taken for the pace of the whole year.
//   - FromMachineFile: expected, Low and High a quarter below and above.
//   - FromFewReadings: two readings or more over at least 60 days. The same
//     median; Low and High are the lowest and the highest slope, but at least a
//     quarter below and above.
//   - UseUnknown, with every rate 0.
//
// Hours in total never fall. Readings whose median slope is below 0 contradict
// each other and say nothing: the next basis is tried. Low is at least 0 and no
// rate is above 24.48 h a day.
//
// Slopes are whole numbers of 1/1000 of 1/100 h a year, and rates are rounded to
// 1/100 h a year, both half away from zero: every machine gives the same.
func UseOf(readings []Point, expected quantity.Hours, on quantity.Date) Use {
	var room [32]Point // enough for most machines without asking for memory
	readings = inWindow(room[:0], readings, on)
	dates, days := 0, quantity.Days(0)
	if n := len(readings); n > 0 {
		dates, days = countDates(readings), readings[n-1].Date.Sub(readings[0].Date)
	}
	if dates >= enoughReadings && days >= enoughDays {
		s, seasonal := seasonOf(readings)
		if rate, ok := theilSen(readings, s); ok {
			u := Use{Basis: FromReadings, Seasonal: seasonal, season: s}
			return u.from(readings).at(rate.median, rate.low, rate.high)
		}
	}
	if expected > 0 && expected.Valid() == nil {
		u := Use{Basis: FromMachineFile, PerYear: expected}
		u.Low, u.High = aQuarter(expected)
		return u
	}
	if dates >= fewReadings && days >= fewDays {
		if rate, ok := theilSen(readings, season{}); ok {
			low, high := aQuarter(rate.median)
			u := Use{Basis: FromFewReadings}
			return u.from(readings).at(rate.median, min(rate.lowest, low), max(rate.highest, high))
		}
	}
	return Use{}
}

// inWindow appends the readings that count, oldest first, each once.
func inWindow(to, readings []Point, on quantity.Date) []Point {
	first := on.AddMonths(-UseWindow)
	for _, p := range readings {
		if p.Date >= first && p.Date <= on && p.Date.Valid() == nil && p.Hours.Valid() == nil {
			to = append(to, p)
		}
	}
	slices.SortFunc(to, func(a, b Point) int {
		return cmp.Or(cmp.Compare(a.Date, b.Date), cmp.Compare(a.Hours, b.Hours))
	})
	to = slices.Compact(to)
	return to[max(len(to)-mostReadings, 0):]
}

// countDates counts the different dates of readings in their order.
func countDates(readings []Point) int {
	n := 0
	for i, p := range readings {
		if i == 0 || p.Date != readings[i-1].Date {
			n++
		}
	}
	return n
}

// aQuarter is a quarter below and above a rate of 0 or more.
func aQuarter(rate quantity.Hours) (low, high quantity.Hours) {
	return rate - rate/quarter, rate + rate/quarter
}

func (u Use) from(readings []Point) Use {
	u.Readings = len(readings)
	u.From, u.To = readings[0].Date, readings[len(readings)-1].Date
	return u
}

func (u Use) at(perYear, low, high quantity.Hours) Use {
	u.PerYear = min(perYear, fastest)
	u.Low = min(max(low, 0), u.PerYear)
	u.High = max(min(high, fastest), u.PerYear)
	return u
}

// Between is the hours expected to be run from one date to another, rounded to
// 1/100 h, half up, and at most quantity.MaxHours; 0 if the use is unknown or to
// is not after from. A seasonal machine gathers them in its season.
func (u Use) Between(from, to quantity.Date) quantity.Hours {
	days := u.season.upTo(to) - u.season.upTo(from)
	if u.PerYear <= 0 || days <= 0 {
		return 0
	}
	year := uint64(u.season.year())
	hours, rest, ok := mulDiv(uint64(u.PerYear), uint64(days), year)
	if !ok || hours >= uint64(quantity.MaxHours) {
		return quantity.MaxHours
	}
	if rest >= year-rest {
		hours++
	}
	return quantity.Hours(hours)
}

// Reach is when target hours are expected to be reached, seen from now: on the
// first day by whose beginning they have been gathered. A range that ends at
// Horizon means "then or later". ok is false when the use is unknown or zero,
// when target is reached already, and when On lies beyond Horizon.
func (u Use) Reach(now Point, target quantity.Hours) (Reach, bool) {
	if u.PerYear <= 0 || target <= now.Hours {
		return Reach{}, false
	}
	left := uint64(target) - uint64(now.Hours) // right for any two, as target is the larger
	today := now.Date.AddDays(0)               // a number that is no date counts as the nearest
	on, ok := u.gathered(today, left, u.PerYear)
	if !ok {
		return Reach{}, false
	}
	from, _ := u.gathered(today, left, max(u.High, u.PerYear))
	to, ok := u.gathered(today, left, min(u.Low, u.PerYear))
	if !ok {
		to = today.AddMonths(Horizon)
	}
	return Reach{On: on, From: from, To: to}, true
}

// gathered is the first day by whose beginning so many hours have been gathered
// since the beginning of today, at a rate in 1/100 h a year.
func (u Use) gathered(today quantity.Date, left uint64, rate quantity.Hours) (quantity.Date, bool) {
	if rate <= 0 {
		return 0, false
	}
	days, rest, ok := mulDiv(left, uint64(u.season.year()), uint64(rate))
	if !ok {
		return 0, false
	}
	if rest > 0 {
		days++
	}
	start, end := u.season.upTo(today), today.AddMonths(Horizon)
	if days > uint64(u.season.upTo(end)-start) {
		return 0, false
	}
	goal := start + int64(days)
	wait := sort.Search(int(end.Sub(today)), func(n int) bool {
		return u.season.upTo(today+quantity.Date(n)) >= goal
	})
	return today + quantity.Date(wait), true
}

// mulDiv returns a*b/d rounded down, and the rest; the product has 128 bits. It
// reports false when d is 0 or the result does not fit.
func mulDiv(a, b, d uint64) (quotient, rest uint64, ok bool) {
	hi, lo := bits.Mul64(a, b)
	if hi >= d {
		return 0, 0, false
	}
	quotient, rest = bits.Div64(hi, lo, d)
	return quotient, rest, true
}
