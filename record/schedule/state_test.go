package schedule_test

import (
	"testing"

	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// TestGrace: fixed hours, or a share of the interval rounded half away from zero
// to 1/100 h.
func TestGrace(t *testing.T) {
	for _, c := range []struct {
		name  string
		grace schedule.Grace
		every quantity.Hours
		want  schedule.Leeway
	}{
		{"none", schedule.Grace{}, 20000, schedule.Leeway{}},
		{"hours and days", schedule.Grace{Hours: 2500, Days: 30}, 20000, schedule.Leeway{Hours: 2500, Days: 30}},
		{"a tenth", schedule.Grace{HoursShare: 100, Days: 30}, 20000, schedule.Leeway{Hours: 2000, Days: 30}},
		{"a tenth of no hours", schedule.Grace{HoursShare: 100, Days: 30}, 0, schedule.Leeway{Days: 30}},
		{"rounded up", schedule.Grace{HoursShare: 100}, 12345, schedule.Leeway{Hours: 1235}},
		{"rounded down", schedule.Grace{HoursShare: 100}, 12344, schedule.Leeway{Hours: 1234}},
		{"the whole", schedule.Grace{HoursShare: 1000}, 20000, schedule.Leeway{Hours: 20000}},
	} {
		if got := c.grace.For(schedule.Interval{Hours: c.every}); got != c.want {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
}

// TestStatesByHours: due at 200 h, interval 200 h (soon within 20 h), grace 10 h.
func TestStatesByHours(t *testing.T) {
	due := schedule.Due{Hours: new(200 * quantity.Hour)}
	for at, want := range map[string]schedule.State{
		"0": schedule.Later, "179.99": schedule.Later, "180": schedule.Soon, "199.99": schedule.Soon,
		"200": schedule.Now, "200.01": schedule.Now, "210": schedule.Now, "210.01": schedule.Overdue, "1000": schedule.Overdue,
	} {
		got := due.At(schedule.Point{Hours: hours(t, at)}, schedule.Interval{Hours: 200 * quantity.Hour}, schedule.Leeway{Hours: 10 * quantity.Hour})
		if got != want {
			t.Errorf("%s h: %v, want %v", at, got, want)
		}
	}
	// Without grace the hour after due is overdue.
	if got := due.At(schedule.Point{Hours: 20001}, schedule.Interval{Hours: 20000}, schedule.Leeway{}); got != schedule.Overdue {
		t.Errorf("no grace: %v", got)
	}
}

// TestStatesByDate: due on 2026-05-04, soon within 30 days, grace 14 days.
func TestStatesByDate(t *testing.T) {
	due := schedule.Due{Date: new(day(t, "2026-05-04"))}
	for on, want := range map[string]schedule.State{
		"2026-04-03": schedule.Later, "2026-04-04": schedule.Soon, "2026-05-03": schedule.Soon,
		"2026-05-04": schedule.Now, "2026-05-18": schedule.Now, "2026-05-19": schedule.Overdue,
	} {
		if got := due.At(schedule.Point{Date: day(t, on)}, schedule.Interval{Months: 12}, schedule.Leeway{Days: 14}); got != want {
			t.Errorf("%s: %v, want %v", on, got, want)
		}
	}
}

// TestLookAt: a second look at 200 h or on 2026-05-04, of a task every 200 h, is due
// when its time has come, and never late.
func TestLookAt(t *testing.T) {
	look := schedule.Due{Hours: new(200 * quantity.Hour), Date: new(day(t, "2026-05-04"))}
	every := schedule.Interval{Hours: 200 * quantity.Hour}
	for _, c := range []struct {
		hours, on string
		want      schedule.State
	}{
		{"179.99", "2026-04-03", schedule.Later},
		{"180", "2026-04-03", schedule.Soon},
		{"179.99", "2026-04-04", schedule.Soon},
		{"200", "2026-04-03", schedule.Now},
		{"1000", "2026-04-03", schedule.Now},
		{"179.99", "2030-01-01", schedule.Now},
	} {
		now := schedule.Point{Hours: hours(t, c.hours), Date: day(t, c.on)}
		if got := look.LookAt(now, every); got != c.want {
			t.Errorf("%s h on %s: %v, want %v", c.hours, c.on, got, c.want)
		}
		if got := (schedule.Due{}).LookAt(now, every); got != schedule.Later {
			t.Errorf("no second look: %v", got)
		}
	}
}

// TestWhicheverFirst: 40 CFR 94.9, "whichever comes first": the worse state of
// the two holds.
func TestWhicheverFirst(t *testing.T) {
	due := schedule.Due{Hours: new(quantity.Hours(20000)), Date: new(day(t, "2026-05-04"))}
	every := schedule.Interval{Hours: 20000, Months: 12}
	for _, c := range []struct {
		hours, on string
		want      schedule.State
	}{
		{"100", "2026-01-01", schedule.Later},
		{"190", "2026-01-01", schedule.Soon},
		{"100", "2026-04-20", schedule.Soon},
		{"201", "2026-01-01", schedule.Overdue},
		{"100", "2026-05-05", schedule.Overdue},
		{"200", "2026-04-20", schedule.Now},
		{"190", "2026-06-01", schedule.Overdue},
	} {
		if got := due.At(schedule.Point{Hours: hours(t, c.hours), Date: day(t, c.on)}, every, schedule.Leeway{}); got != c.want {
			t.Errorf("%s h on %s: %v, want %v", c.hours, c.on, got, c.want)
		}
	}
	if got := (schedule.Due{}).At(schedule.Point{}, schedule.Interval{}, schedule.Leeway{}); got != schedule.Later {
		t.Errorf("never due: %v", got)
	}
}

func TestPast(t *testing.T) {
	at := schedule.Point{Hours: 21050, Date: day(t, "2026-05-01")}
	both := schedule.Due{Hours: new(quantity.Hours(20000)), Date: new(day(t, "2026-05-04"))}
	if h, byHours, d, byDate := both.Past(at); h != 1050 || !byHours || d != -3 || !byDate {
		t.Errorf("both: %v %v %v %v", h, byHours, d, byDate)
	}
	if h, byHours, d, byDate := (schedule.Due{}).Past(at); h != 0 || byHours || d != 0 || byDate {
		t.Errorf("neither: %v %v %v %v", h, byHours, d, byDate)
	}
}

// TestComesFirst: 420 h a year are 1.15 h a day: 115 h last 100 days.
func TestComesFirst(t *testing.T) {
	now := schedule.Point{Hours: 80000, Date: day(t, "2026-05-04")}
	in := func(h quantity.Hours, d quantity.Days) schedule.Due {
		return schedule.Due{Hours: new(now.Hours + h), Date: new(now.Date.AddDays(d))}
	}
	const use = 420 * quantity.Hour
	for _, c := range []struct {
		name string
		due  schedule.Due
		use  quantity.Hours
		want string
	}{
		{"not due at all", schedule.Due{}, use, ""},
		{"hours only", schedule.Due{Hours: new(quantity.Hours(1))}, use, "hours"},
		{"date only", schedule.Due{Date: new(quantity.Date(1))}, use, "date"},
		{"115 h or 101 days", in(115_00, 101), use, "hours"},
		{"115 h or 100 days", in(115_00, 100), use, "date"}, // 100.009 days
		{"114.98 h or 100 days", in(114_98, 100), use, "hours"},
		{"little use", in(115_00, 101), 50 * quantity.Hour, "date"},
		{"use not known", in(115_00, 101), 0, "date"},
		{"hours past, use not known", in(-1, 101), 0, "hours"},
		{"hours just reached, use not known", in(0, 1), 0, "hours"},
		{"date past", in(115_00, -1), use, "date"},
		{"date past, use not known", in(115_00, -1), 0, "date"},
		{"both past, the hours longer ago", in(-115_00, -50), use, "hours"},
		{"both past, the date longer ago", in(-115_00, -200), use, "date"},
		{"both today", in(0, 0), use, "date"},
		{"far ahead", in(quantity.MaxHours, 36_525), quantity.MaxHours, "hours"}, // a year, or a hundred
		{"farther ahead", in(quantity.MaxHours, 36_525), 1, "date"},
	} {
		if got := c.due.ComesFirst(now, schedule.Use{PerYear: c.use}); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

func TestWords(t *testing.T) {
	for want, got := range map[string]string{
		"later": schedule.Later.String(), "soon": schedule.Soon.String(), "due": schedule.Now.String(), "overdue": schedule.Overdue.String(),
		"replace": schedule.Replace.String(), "test": schedule.Test.String(), "grid": schedule.FromGrid.String(),
		"common-practice": schedule.CommonPractice.String(), "unknown (0)": schedule.Kind(0).String(), "unknown (9)": schedule.State(9).String(),
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	// The lists are copies.
	schedule.Kinds()[0], schedule.NextFroms()[0], schedule.BasisKinds()[0] = "x", "x", "x"
	if schedule.Replace.String() != "replace" || schedule.FromDone.String() != "done" || schedule.Maker.String() != "maker" {
		t.Error("a caller changed the words")
	}
	if schedule.Kind(0).Valid() || schedule.Kind(6).Valid() || schedule.BasisKind(0).Valid() || schedule.BasisKind(5).Valid() {
		t.Error("a number without a word is valid")
	}
}
