package jobsheet

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"hourseal/record/quantity"
)

// lettered are the orders of a date with its month in letters, as time.Parse has them. The
// month is in full or shortened to three letters, in any letter case.
var lettered = []string{"2 January 2006", "2 Jan 2006", "January 2 2006", "Jan 2 2006"}

// LineDate reads a day as a person types it: "2026-05-04", "4 May 2026", "May 4, 2026". The month
// is in digits only with the year before it, since 04/05 is two days of the year, and the year has
// four digits. A job sheet takes only the first of the three; so what is kept of an
// answer is Date.String.
func LineDate(text string) (quantity.Date, error) {
	text = strings.TrimFunc(text, isGap)
	if text == "" {
		return 0, errors.New("nothing written: write the date, as 2026-05-04 or 4 May 2026")
	}
	date, err := quantity.ParseDate(text)
	if err == nil {
		return date, nil
	}
	if iso, ok := monthInLetters(text); ok {
		return quantity.ParseDate(iso)
	}
	if strings.Count(text, "/") == 2 || strings.Count(text, ".") == 2 {
		return 0, fmt.Errorf("%s: which of them is the month? Write 2026-05-04 or 4 May 2026", show(text))
	}
	return 0, err
}

// monthInLetters is such a date as YYYY-MM-DD, one that the calendar does not have too; false where it
// is in no such order.
func monthInLetters(text string) (string, bool) {
	words := strings.FieldsFunc(text, isGap)
	if len(words) != 3 {
		return "", false
	}
	// A comma stands only after the day: May 4, 2026.
	words[1] = strings.TrimSuffix(words[1], ",")
	day := 0
	if words[1] != "" && words[1][0] >= '0' && words[1][0] <= '9' {
		day = 1
	}
	if len(words[day]) == 1 {
		words[day] = "0" + words[day]
	}
	number := words[day]
	if len(number) != 2 {
		return "", false
	}
	// The day is put back afterwards, so that 31 June is told that June has 30 days.
	words[day] = "01"
	for _, layout := range lettered {
		if d, err := time.Parse(layout, strings.Join(words, " ")); err == nil {
			return d.Format("2006-01-") + number, true
		}
	}
	return "", false
}
