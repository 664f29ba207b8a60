package quantity

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"
)

func date(t testing.TB, s string) Date {
	t.Helper()
	d, err := ParseDate(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// monthLength is the Gregorian rule written out, apart from package time.
func monthLength(year, month int) int {
	if month == 2 && year%4 == 0 && (year%100 != 0 || year%400 == 0) {
		return 29
	}
	return [...]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}[month-1]
}

// TestEveryDay walks the calendar from 1900-01-01 by the rule above.
func TestEveryDay(t *testing.T) {
	d := MinDate
	for year := 1900; year <= 2199; year++ {
		for month := 1; month <= 12; month++ {
			for day := 1; day <= monthLength(year, month); day++ {
				if y, m, dd := d.YMD(); y != year || int(m) != month || dd != day {
					t.Fatalf("day %d is %v, want %d-%d-%d", int64(d), d, year, month, day)
				}
				if FromYMD(year, time.Month(month), day) != d {
					t.Fatalf("%d-%d-%d is not day %d", year, month, day, int64(d))
				}
				if got, err := ParseDate(d.String()); err != nil || got != d {
					t.Fatalf("%v reads back as %v, %v", d, got, err)
				}
				d++
			}
		}
	}
	if d != MaxDate+1 {
		t.Errorf("2199-12-31 is day %d, MaxDate is %d", int64(d-1), int64(MaxDate))
	}
	if MinDate.Valid() != nil || MaxDate.Valid() != nil || (MinDate-1).Valid() == nil || (MaxDate+1).Valid() == nil {
		t.Error("the valid dates are not 1900-01-01 to 2199-12-31")
	}
}

// TestKnownDays: the Unix epoch is day 0; 2000-03-01 is day 11017 (951868800
// seconds). All of these by GNU date, which has 0000-01-01 as day -719528 and
// 9999-12-31 as day 2932896.
func TestKnownDays(t *testing.T) {
	for s, day := range map[string]Date{"1970-01-01": 0, "1969-12-31": -1, "2000-03-01": 11017, "1900-01-01": -25567, "2026-05-04": 20577} {
		if got := date(t, s); got != day {
			t.Errorf("%s is day %d, want %d", s, int64(got), int64(day))
		}
	}
	if firstDate.String() != "0000-01-01" || lastDate.String() != "9999-12-31" {
		t.Errorf("the printable days are %v to %v", firstDate, lastDate)
	}
	if d := date(t, "2026-05-04"); d.Year() != 2026 || d.Month() != time.May || d.Day() != 4 {
		t.Errorf("2026-05-04 is %d %v %d", d.Year(), d.Month(), d.Day())
	}
	if got := FromYMD(2026, 2, 30); got != date(t, "2026-03-02") {
		t.Errorf("30 February 2026 counts on to %v", got)
	}
}

func TestFromUnix(t *testing.T) {
	for seconds, want := range map[int64]string{0: "1970-01-01", 86399: "1970-01-01", 86400: "1970-01-02", -1: "1969-12-31", -86400: "1969-12-31", -86401: "1969-12-30", 951868799: "2000-02-29", 951868800: "2000-03-01"} {
		if got := FromUnix(seconds).String(); got != want {
			t.Errorf("second %d is %s, want %s", seconds, got, want)
		}
	}
}

// TestAddMonths: Regulation (EEC, Euratom) 1182/71, Article 3(2)(c): the same
// date of the last month, or its last day where there is no such date.
func TestAddMonths(t *testing.T) {
	for _, c := range []struct {
		from   string
		months Months
		want   string
	}{
		{"2024-01-31", 1, "2024-02-29"},
		{"2023-01-31", 1, "2023-02-28"},
		{"2024-02-29", 12, "2025-02-28"},
		{"2024-08-31", 6, "2025-02-28"},
		{"2024-01-31", 2, "2024-03-31"}, // not by way of 29 February
		{"2024-02-29", 48, "2028-02-29"},
		{"2025-06-20", 12, "2026-06-20"},
		{"2021-06-15", 60, "2026-06-15"},
		{"2026-05-04", 0, "2026-05-04"},
		{"2024-12-31", 2, "2025-02-28"},
		{"2024-03-31", -1, "2024-02-29"},
		{"2024-01-15", -1, "2023-12-15"},
		{"2024-01-15", -13, "2022-12-15"},
		{"1970-01-31", -11, "1969-02-28"},
	} {
		if got := date(t, c.from).AddMonths(c.months); got.String() != c.want {
			t.Errorf("%s + %v months = %v, want %s", c.from, c.months, got, c.want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		d := Date(rapid.Int64Range(int64(MinDate), int64(MaxDate)).Draw(t, "day"))
		m := Months(rapid.Int64Range(-1200, 1200).Draw(t, "months"))
		y, mon, day := d.YMD()
		y2, mon2, day2 := d.AddMonths(m).YMD()
		if (y2*12+int(mon2))-(y*12+int(mon)) != int(m) || day2 != min(day, monthLength(y2, int(mon2))) {
			t.Fatalf("%v + %v months = %v", d, m, d.AddMonths(m))
		}
		if m2 := m + 1; d.AddMonths(m2) <= d.AddMonths(m) {
			t.Fatalf("%v: %v months come after %v", d, m, m2)
		}
	})
}

func TestDays(t *testing.T) {
	a, b := date(t, "2025-06-20"), date(t, "2026-05-04")
	if got := b.Sub(a); got != 318 { // GNU date: (1777852800 - 1750377600) / 86400
		t.Errorf("from %v to %v are %v days, want 318", a, b, got)
	}
	if got := a.AddDays(318); got != b || b.AddDays(-318) != a {
		t.Errorf("%v + 318 days = %v", a, got)
	}
}

// TestDatesOutOfRange: numbers that only a damaged or hostile record has
// neither panic nor print as some other day.
func TestDatesOutOfRange(t *testing.T) {
	for _, d := range []Date{math.MinInt64, math.MaxInt64, firstDate - 1, lastDate + 1, math.MaxInt64 / secondsPerDay} {
		if d.Valid() == nil {
			t.Errorf("%d is a valid date", int64(d))
		}
		if _, err := d.MarshalJSON(); err == nil {
			t.Errorf("%d has a JSON form", int64(d))
		}
		if got := d.String(); len(got) < 5 || got[:4] != "day " {
			t.Errorf("%d prints as %s", int64(d), got)
		}
		for _, m := range []Months{math.MinInt64, -1, 0, 1, math.MaxInt64} {
			if got := d.AddMonths(m); got < firstDate || got > lastDate {
				t.Errorf("%d + %d months = %d", int64(d), int64(m), int64(got))
			}
		}
		for _, n := range []Days{math.MinInt64, 0, math.MaxInt64} {
			if got := d.AddDays(n); got < firstDate || got > lastDate {
				t.Errorf("%d + %d days = %d", int64(d), int64(n), int64(got))
			}
		}
		if n := d.Sub(0); n < Days(firstDate) || n > Days(lastDate) {
			t.Errorf("%d is %v days from 1970", int64(d), n)
		}
	}
	if got := Date(0).AddMonths(math.MaxInt64); got != lastDate {
		t.Errorf("for ever after is %v", got)
	}
	if got := Date(0).AddMonths(math.MinInt64); got != firstDate {
		t.Errorf("for ever before is %v", got)
	}
}
