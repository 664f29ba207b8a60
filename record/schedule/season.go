package schedule

import (
	"time"

	"hourseal/record/quantity"
)

// season is what a day weighs in each month, January first, about 1000 on average
// over a year. The zero value is no season: every day weighs 1000.
//
// Readings show a season when they cover at least two whole years, counted back
// from the last one, with readings on four dates or more in each, and the same
// six months in a row hold at least two thirds of the hours of each of those
// years. The hours between two readings are spread evenly over the days between
// them, which flattens the year where readings are far apart: a season is seen
// late rather than wrongly. Readings that fall anywhere show none. A
// day then weighs what its month's hours a day, over the whole years, are to the
// mean, and at least a fiftieth of it. Nothing is smoothed. All of this is our own rule, no source.
type season [12]int64

const (
	evenDay  = 1000 // what a day weighs on average
	quietest = 20   // at least: so that a calendar with a lay-up in it can be read backwards

	seasonYears    = 2 // whole years at least
	seasonReadings = 4 // dates a year at least
	seasonMonths   = 6
)

// holdsSeason says whether part of a whole is two thirds at least.
func holdsSeason(part, whole int64) bool { return whole > 0 && 3*part >= 2*whole }

// year is what a year of 365.25 days weighs.
func (s season) year() int64 {
	if s == (season{}) {
		return evenDay * 36525 / 100
	}
	quarters := s[1] // the leap day, every fourth year
	for m, weight := range s {
		quarters += 4 * weight * commonDays[m]
	}
	return roundDiv(quarters, 4)
}

var commonDays = [12]int64{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}

// upTo is what the days before a date weigh, counted from a fixed day. A number
// that is no date counts as the nearest one.
func (s season) upTo(date quantity.Date) int64 {
	if s == (season{}) {
		return int64(date.Sub(0)) * evenDay
	}
	y, month, day := date.YMD()
	year := int64(y)
	leapDays := (year+3)/4 - (year+99)/100 + (year+399)/400 // of the years 0 to year-1
	weight := leapDays*s[1] + int64(day-1)*s[month-1]
	if month > time.February && year%4 == 0 && (year%100 != 0 || year%400 == 0) {
		weight += s[1]
	}
	for m := range s {
		years := year
		if m < int(month-1) {
			years++
		}
		weight += years * commonDays[m] * s[m]
	}
	return weight
}

// seasonOf finds the season that readings show, oldest first, no two the same.
func seasonOf(readings []Point) (season, bool) {
	const mostYears = int(UseWindow / 12)
	first, last := readings[0].Date, readings[len(readings)-1].Date
	count := 0
	for count < mostYears && last.AddMonths(-12*quantity.Months(count+1)) >= first {
		count++
	}
	if count < seasonYears {
		return season{}, false
	}
	c := climb{readings: readings}
	var years [mostYears]profile
	for i := range count {
		from := last.AddMonths(-12 * quantity.Months(count-i))
		to := last.AddMonths(-12 * quantity.Months(count-i-1))
		if !often(readings, from, to) {
			return season{}, false
		}
		years[i].fill(&c, from, to)
	}
	if c.falls || !shared(years[:count]) {
		return season{}, false
	}
	return weigh(years[:count]), true
}

// often says whether readings stand on enough dates after from, up to to.
func often(readings []Point, from, to quantity.Date) bool {
	dates := 0
	for i, p := range readings {
		if p.Date > from && p.Date <= to && (i == 0 || p.Date != readings[i-1].Date) {
			dates++
		}
	}
	return dates >= seasonReadings
}

// profile is one whole year by calendar month: hours in 1/1000 of 1/100 h, and days.
type profile struct{ hours, days [12]int64 }

// fill cuts the days from one date up to another at the ends of the months.
func (p *profile) fill(c *climb, from, to quantity.Date) {
	year, month, _ := from.YMD()
	at, hours := from, c.at(from)
	for ; at < to; month++ {
		next := min(quantity.FromYMD(year, month+1, 1), to)
		reached := c.at(next)
		m := (month - 1) % 12 // the thirteenth is January again
		p.hours[m] += reached - hours
		p.days[m] += int64(next - at)
		at, hours = next, reached
	}
}

// climb is the hours on any date between readings, evenly between each two. It
// is asked for dates in their order.
type climb struct {
	readings []Point
	passed   int  // the newest reading not after the date last asked for
	falls    bool // a reading passed was below the one before it
}

// at gives the hours at the beginning of a date, in 1/1000 of 1/100 h.
func (c *climb) at(date quantity.Date) int64 {
	for c.passed+1 < len(c.readings) && c.readings[c.passed+1].Date <= date {
		c.passed++
		c.falls = c.falls || c.readings[c.passed].Hours < c.readings[c.passed-1].Hours
	}
	a := c.readings[c.passed]
	hours := int64(a.Hours) * slopeParts
	if c.passed+1 < len(c.readings) {
		b := c.readings[c.passed+1]
		hours += int64(b.Hours-a.Hours) * slopeParts * int64(date.Sub(a.Date)) / int64(b.Date.Sub(a.Date))
	}
	return hours
}

// shared says whether the same six months in a row hold two thirds of each year.
func shared(years []profile) bool {
	for start := range 12 {
		all := true
		for _, y := range years {
			part, whole := int64(0), int64(0)
			for m, hours := range y.hours {
				whole += hours
				if (m-start+12)%12 < seasonMonths {
					part += hours
				}
			}
			all = all && holdsSeason(part, whole)
		}
		if all {
			return true
		}
	}
	return false
}

// weigh gives what a day weighs in each month.
func weigh(years []profile) season {
	var sum profile
	hours, days := int64(0), int64(0)
	for _, y := range years {
		for m := range 12 {
			sum.hours[m] += y.hours[m]
			sum.days[m] += y.days[m]
			hours += y.hours[m]
			days += y.days[m]
		}
	}
	var s season
	for m := range s {
		s[m] = max(roundDiv(sum.hours[m]*days*evenDay, sum.days[m]*hours), quietest)
	}
	return s
}
