package quantity

import (
	"fmt"
	"strings"
	"time"
)

// DateOrder is how dates stand in text for people. No order has a month in digits but
// the one of ISO 8601: 04/05 is two days of the year.
type DateOrder uint8

const (
	YearFirst  DateOrder = iota // 2026-09-23, ISO 8601
	DayFirst                    // 23 Sep 2026
	MonthFirst                  // Sep 23, 2026
)

// shortMonth is how many letters of a month's English name are printed: with three,
// no date is wider than 12 characters, for tables. Common practice, no source.
const shortMonth = 3

// Date prints a day in the style's order. What is no date of the years 0000 to 9999 is
// printed as Date.String has it.
func (s Style) Date(d Date) string {
	if d != d.clamped() {
		return d.String()
	}
	year, month, day := d.YMD()
	name := month.String()[:shortMonth]
	switch s.Dates {
	case DayFirst:
		return fmt.Sprintf("%d %s %04d", day, name, year)
	case MonthFirst:
		return fmt.Sprintf("%s %d, %04d", name, day, year)
	default:
		return d.String()
	}
}

// ParseDateOrder reads the order off an example, any day written as Style.Date prints it.
func ParseDateOrder(example string) (DateOrder, error) {
	t := trimGap(example)
	if _, err := ParseDate(t); err == nil {
		return YearFirst, nil
	}
	d, order, ok := worded(t)
	if !ok {
		return 0, refuse(t, "write an example with the month in letters, as 23 Sep 2026 or Sep 23, 2026, or the year first, as 2026-09-23")
	}
	if printed := (Style{Dates: order}).Date(d); printed != t {
		return 0, refuse(t, "write %s", printed)
	}
	return order, nil
}

// worded reads a date with its month in letters, in full or shortened, the year last. It is
// no way of typing a date: it is for saying what to type instead, so it takes no
// notice of commas and full stops, or of letter case.
func worded(t string) (d Date, order DateOrder, ok bool) {
	words := strings.FieldsFunc(t, func(r rune) bool { return isGap(r) || r == ',' || r == '.' })
	if len(words) != 3 {
		return 0, 0, false
	}
	month, order := monthNamed(words[1]), DayFirst
	day := words[0]
	if month == 0 {
		month, order = monthNamed(words[0]), MonthFirst
		day = words[1]
	}
	if month == 0 {
		return 0, 0, false
	}
	if len(day) == 1 {
		day = "0" + day
	}
	d, err := ParseDate(fmt.Sprintf("%s-%02d-%s", words[2], int(month), day))
	return d, order, err == nil
}

// monthNamed is the month of an English name or its beginning, three letters at least;
// 0 where there is none.
func monthNamed(word string) time.Month {
	for m := time.January; m <= time.December; m++ {
		if len(word) >= shortMonth && strings.HasPrefix(lowerASCII(m.String()), lowerASCII(word)) {
			return m
		}
	}
	return 0
}
