package main

import (
	"testing"

	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// The forms of the lines about use and reach that no script comes by in a style.
func TestDueWordsInAStyle(t *testing.T) {
	from, to := quantity.FromYMD(2024, 3, 18), quantity.FromYMD(2026, 5, 4)
	use := schedule.Use{Basis: schedule.FromReadings, PerYear: 42010, Low: 31500, High: 52500, Readings: 3, From: from, To: to}
	reach := schedule.Reach{On: to, From: from, To: to.AddMonths(1)}
	endless := schedule.Reach{On: to, From: from, To: to.AddMonths(schedule.Horizon)}
	own := dueWords{quantity.Style{Dates: quantity.MonthFirst, Comma: true}}
	for _, c := range []struct{ got, want string }{
		{dueWords{}.useLine(use), "Use: 420 h a year (315 to 525), by 3 readings from 2024-03-18 to 2026-05-04."},
		{own.useLine(use), "Use: 420 h a year (315 to 525), by 3 readings from Mar 18, 2024 to May 4, 2026."},
		{own.reachText(from, reach), "about May 4, 2026 (Mar 18, 2024 to Jun 4, 2026)"},
		{own.reachText(from, endless), "about May 4, 2026 (Mar 18, 2024 or later)"},
		{own.reachText(from, schedule.Reach{On: to, From: to, To: to}), "on May 4, 2026"},
		{own.point(81260, to), "812,6 h on May 4, 2026"},
	} {
		if c.got != c.want {
			t.Errorf("got %s, want %s", c.got, c.want)
		}
	}
}
