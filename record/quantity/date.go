package quantity

import (
	"fmt"
	"time"
)

// Date is a day of the Gregorian calendar: days since 1970-01-01. It has no
// time of day and no time zone. Dates compare as numbers.
type Date int64

const (
	// MinDate and MaxDate are 1900-01-01 and 2199-12-31: what may be written.
	MinDate Date = -25567
	MaxDate Date = 84005

	// Arithmetic stays within the years that four digits can print.
	firstDate Date = -719528 // 0000-01-01
	lastDate  Date = 2932896 // 9999-12-31

	secondsPerDay = 86400
)

// FromYMD is for days known to exist. One that the calendar does not have
// counts on from the days before it, as time.Date does: 30 February is 2
// March, or 1 March in a leap year. ParseDate is what refuses such a day.
func FromYMD(year int, month time.Month, day int) Date {
	return FromUnix(time.Date(year, month, day, 0, 0, 0, 0, time.UTC).Unix())
}

// FromUnix returns the day, in UTC, of a count of seconds since 1970-01-01T00:00:00Z.
func FromUnix(seconds int64) Date {
	day := seconds / secondsPerDay
	if seconds%secondsPerDay < 0 {
		day-- // towards the past, not towards zero
	}
	return Date(day)
}

func daysIn(year int, month time.Month) int {
	// Day 0 of a month is the last day of the month before.
	return time.Date(year, month+1, 0, 0, 0, 0, 0, time.UTC).Day()
}

// YMD returns year, month and day of the month. A date outside the years
// 0000 to 9999 counts as the nearest day inside.
func (d Date) YMD() (year int, month time.Month, day int) {
	return time.Unix(int64(d.clamped())*secondsPerDay, 0).UTC().Date()
}

// Year returns the calendar year.
func (d Date) Year() int { y, _, _ := d.YMD(); return y }

// Month returns the month of the year.
func (d Date) Month() time.Month { _, m, _ := d.YMD(); return m }

// Day returns the day of the month.
func (d Date) Day() int { _, _, day := d.YMD(); return day }

func (d Date) clamped() Date { return min(max(d, firstDate), lastDate) }

// AddMonths adds all months at once and, where the month reached is too
// short, ends on its last day: Regulation (EEC, Euratom) 1182/71, Article
// 3(2)(c). Twelve steps of one month are not the same thing: 31 January plus
// two months is 31 March, but by way of 28 February it would be the 28th.
// The result stays within the years 0000 to 9999.
func (d Date) AddMonths(m Months) Date {
	const farthest = 10_000 * 12
	m = min(max(m, -farthest), farthest)
	year, month, day := d.YMD()
	total := int64(year)*12 + int64(month-time.January) + int64(m)
	switch {
	case total < 0:
		return firstDate
	case total >= farthest:
		return lastDate
	}
	year, month = int(total/12), time.January+time.Month(total%12)
	return FromYMD(year, month, min(day, daysIn(year, month)))
}

// AddDays returns the day n days later. The result stays within the years
// 0000 to 9999.
func (d Date) AddDays(n Days) Date {
	const farthest = Days(lastDate - firstDate)
	n = min(max(n, -farthest), farthest)
	return (d.clamped() + Date(n)).clamped()
}

// Sub returns the days from earlier to d, negative when d is before it.
func (d Date) Sub(earlier Date) Days {
	return Days(d.clamped() - earlier.clamped())
}

// String prints YYYY-MM-DD, and "day N" for a number that is no date of the
// years 0000 to 9999.
func (d Date) String() string {
	if d != d.clamped() {
		return fmt.Sprintf("day %d", int64(d))
	}
	y, m, day := d.YMD()
	return fmt.Sprintf("%04d-%02d-%02d", y, int(m), day)
}

// MarshalJSON gives the text "YYYY-MM-DD", or an error for a number that is
// no date of the years 0000 to 9999.
func (d Date) MarshalJSON() ([]byte, error) {
	if d != d.clamped() {
		return nil, fmt.Errorf("date %v: outside the years 0000 to 9999", d)
	}
	return []byte(`"` + d.String() + `"`), nil
}

// ParseDate reads YYYY-MM-DD, a day that the calendar has in the years 1900 to 2199.
func ParseDate(text string) (Date, error) {
	t := trimGap(text)
	year, month, day, ok := dateParts(t)
	if !ok {
		if d, _, isDate := worded(t); isDate { // as a yard may have it printed
			return 0, refuse(t, "write %v", d)
		}
		return 0, refuse(t, "write the date as YYYY-MM-DD, as 2026-05-04")
	}
	switch last := daysIn(year, time.Month(month)); {
	case month < 1 || month > 12:
		return 0, refuse(t, "no month %d: months are 01 to 12", month)
	case day < 1 || day > last:
		return 0, refuse(t, "no day %d: %v %d has %d days", day, time.Month(month), year, last)
	}
	d := FromYMD(year, time.Month(month), day)
	if d.Valid() != nil {
		return 0, refuse(t, "outside %v to %v", MinDate, MaxDate)
	}
	if d.String() != t {
		return 0, refuse(t, "write %v", d)
	}
	return d, nil
}

// dateParts reads digits-digits-digits, the year of four digits and the
// others of one or two, so that 2026-5-4 can be answered with 2026-05-04.
func dateParts(t string) (year, month, day int, ok bool) {
	parts := [3]int{}
	at := 0
	for i, width := range [3]int{4, 2, 2} {
		start := at
		for at < len(t) && at-start < width && isDigit(t[at]) {
			parts[i] = parts[i]*10 + int(t[at]-'0')
			at++
		}
		if at == start || (i == 0 && at-start != width) {
			return 0, 0, 0, false
		}
		if i < 2 {
			if at == len(t) || t[at] != '-' {
				return 0, 0, 0, false
			}
			at++
		}
	}
	return parts[0], parts[1], parts[2], at == len(t)
}
