package jobsheet_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
)

func TestLineDate(t *testing.T) {
	want := quantity.FromYMD(2026, time.May, 4)
	for _, text := range []string{"2026-05-04", " 2026-05-04 ", "4 May 2026", "04 may 2026", "4  MAY  2026", "4\u00a0May 2026", "May 4, 2026", "may 04 2026"} {
		if date, err := jobsheet.LineDate(text); err != nil || date != want {
			t.Errorf("%q: %v %v", text, date, err)
		}
	}
	for _, c := range []struct{ text, says string }{
		{"", "nothing written"},
		{"04/05/2026", "which of them is the month"},
		{"4.5.2026", "which of them is the month"},
		{"4/5/26", "which of them is the month"},
		{"04-05-2026", "2026-05-04"},
		{"2026-5-4", "write 2026-05-04"},
		{"4 May 26", "YYYY-MM-DD"},
		{"4 May", "YYYY-MM-DD"},
		{"May 2026", "YYYY-MM-DD"},
		{"4 Ma 2026", "YYYY-MM-DD"},
		{"4, May 2026", "2026-05-04"},
		{"31 June 2026", "June 2026 has 30 days"},
		{"Feb 29, 2026", "February 2026 has 28 days"},
		{"00 May 2026", "no day 0"},
		{"4 May 2326", "outside"},
		{"004 May 2026", "YYYY-MM-DD"},
		{"4 May -026", "YYYY-MM-DD"},
		{"4 5 2026", "YYYY-MM-DD"},
		{"tomorrow", "YYYY-MM-DD"},
	} {
		if date, err := jobsheet.LineDate(c.text); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q: %v %v, want %q", c.text, date, err, c.says)
		}
	}
}

// Every day as the two ways of printing it have it, and with the month in full.
func TestLineDateReadsWhatIsPrinted(t *testing.T) {
	for d := quantity.FromYMD(2023, time.December, 1); d < quantity.FromYMD(2025, time.February, 1); d++ {
		year, month, day := d.YMD()
		for _, text := range []string{
			quantity.Style{Dates: quantity.YearFirst}.Date(d), quantity.Style{Dates: quantity.DayFirst}.Date(d), quantity.Style{Dates: quantity.MonthFirst}.Date(d),
			fmt.Sprintf("%d %v %d", day, month, year), fmt.Sprintf("%v %d, %d", month, day, year),
		} {
			if read, err := jobsheet.LineDate(text); err != nil || read != d {
				t.Fatalf("%q: %v %v", text, read, err)
			}
		}
	}
}
