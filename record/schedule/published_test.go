package schedule_test

import (
	"testing"

	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// TestMonthEnds: Regulation (EEC, Euratom) 1182/71, Article 3(2)(c), once more,
// at leap days, the ends of years and the centuries. Which years are leap years
// is the Gregorian rule: divisible by four, centuries by four hundred. The last
// two are other programs' own published examples; dateutil 2.9.0 (Python),
// relativedelta, gives the same for all of them.
func TestMonthEnds(t *testing.T) {
	for _, c := range []struct {
		inService string
		months    quantity.Months
		due       string
	}{
		{"2024-02-29", 1, "2024-03-29"},
		{"2024-02-29", 11, "2025-01-29"},
		{"2024-02-29", 24, "2026-02-28"},
		{"2024-02-29", 36, "2027-02-28"},
		{"2024-02-29", 60, "2029-02-28"},
		{"2024-02-29", 96, "2032-02-29"},
		{"2023-02-28", 12, "2024-02-28"}, // not the month's last day: the same day
		{"2096-02-29", 48, "2100-02-28"}, // 2100 is no leap year
		{"2096-02-29", 96, "2104-02-29"},
		{"1996-02-29", 48, "2000-02-29"}, // 2000 is
		{"1904-02-29", 1152, "2000-02-29"},

		{"2025-12-31", 1, "2026-01-31"},
		{"2025-12-31", 2, "2026-02-28"},
		{"2025-12-31", 4, "2026-04-30"},
		{"2025-12-31", 6, "2026-06-30"},
		{"2025-12-31", 12, "2026-12-31"},
		{"2023-12-31", 2, "2024-02-29"},
		{"2025-11-30", 1, "2025-12-30"},
		{"2025-11-30", 3, "2026-02-28"},
		{"2023-11-30", 3, "2024-02-29"},
		{"2023-11-29", 3, "2024-02-29"},
		{"2024-11-29", 3, "2025-02-28"},
		{"2025-10-31", 1, "2025-11-30"},
		{"2025-12-01", 1, "2026-01-01"},

		{"2007-03-31", 1, "2007-04-30"}, // java.time.LocalDate.plusMonths, its own documentation
		{"2011-01-30", 1, "2011-02-28"}, // time_machine (Dart), LocalDate.addMonths, likewise
	} {
		equal(t, c.inService, dueDates(t, byDate(schedule.FromDone, c.months, 0), c.inService), []string{c.due})
	}
}

// TestPublishedChains: the published rules, over more than one inspection. The
// rules are as beside TestPublishedHours and TestPublishedWindow; the later
// figures are worked out from them here.
func TestPublishedChains(t *testing.T) {
	hundred := func(policy schedule.NextFrom) schedule.Schedule { return byHours(policy, 100*quantity.Hour, 0) }
	// 91.409(b): the overrun of 8 h comes out of the next interval only.
	equal(t, "91.409(b), late, in time, early", dueHours(t, hundred(schedule.FromGrid), "1000", "1108", "1200", "1290"), []string{"1100", "1200", "1300", "1390"})
	equal(t, "91.409(b), early, late", dueHours(t, hundred(schedule.FromGrid), "1000", "1095", "1203"), []string{"1100", "1195", "1295"})
	equal(t, "Part-ML, late, late", dueHours(t, hundred(schedule.FromDone), "1000", "1108", "1210"), []string{"1100", "1208", "1310"})

	// SOLAS: surveys every 12 months within three months of the anniversary keep it
	// through the five years.
	yearly := byDate(schedule.FromWindow, 12, 92)
	equal(t, "annual surveys", dueDates(t, yearly, "2021-06-15", "2022-04-01", "2023-09-15", "2024-06-15", "2025-03-15"),
		[]string{"2022-06-15", "2023-06-15", "2024-06-15", "2025-06-15", "2026-06-15"})
	equal(t, "one too early moves it", dueDates(t, yearly, "2021-06-15", "2022-04-01", "2023-02-01", "2024-03-01"),
		[]string{"2022-06-15", "2023-06-15", "2024-02-01", "2025-02-01"})
}
