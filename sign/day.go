package sign

import (
	"errors"
	"math"
	"time"
)

// Day is a calendar day in UTC, counted from 1970-01-01.
type Day int32

const (
	secondsADay = 24 * 60 * 60
	dayLayout   = "2006-01-02"
)

// ParseDay reads YYYY-MM-DD.
func ParseDay(text string) (Day, error) {
	t, err := time.Parse(dayLayout, text)
	if err != nil {
		return 0, errors.New(`not a date: write it as YYYY-MM-DD, such as 2026-05-04`)
	}
	return Day(floorDays(t.Unix())), nil
}

// DayOf is the day of a time in seconds since 1970-01-01 00:00 UTC. Times
// beyond what a Day holds give its first or last value.
func DayOf(unixSeconds int64) Day {
	return Day(max(math.MinInt32, min(math.MaxInt32, floorDays(unixSeconds))))
}

func floorDays(unixSeconds int64) int64 {
	days := unixSeconds / secondsADay
	if unixSeconds%secondsADay < 0 {
		days--
	}
	return days
}

// printable tells whether the day's year has four digits, as ParseDay reads it.
func (d Day) printable() bool {
	const first, last = -719528, 2932896 // 0000-01-01 and 9999-12-31
	return first <= d && d <= last
}

// String is the day as YYYY-MM-DD.
func (d Day) String() string {
	return time.Unix(int64(d)*secondsADay, 0).UTC().Format(dayLayout)
}
