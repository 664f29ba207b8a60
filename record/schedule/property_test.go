package schedule_test

import (
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// history is any task with the times that it was done, oldest first.
type history struct {
	schedule  schedule.Schedule
	task      schedule.Task
	inService schedule.Point
	events    []schedule.Event
}

func drawHistory(t *rapid.T, policies ...schedule.NextFrom) history {
	h := history{
		schedule: schedule.Schedule{NextFrom: rapid.SampledFrom(policies).Draw(t, "policy")},
		task: schedule.Task{Every: schedule.Interval{
			Hours:  quantity.Hours(rapid.IntRange(1, 100_000).Draw(t, "every")),
			Months: quantity.Months(rapid.IntRange(1, 60).Draw(t, "months")),
		}},
	}
	// A grace longer than the interval would be none.
	h.schedule.Grace = schedule.Grace{Hours: quantity.Hours(rapid.IntRange(0, int(h.task.Every.Hours)/2).Draw(t, "grace")), Days: quantity.Days(rapid.IntRange(0, 14).Draw(t, "days"))}
	at := schedule.Point{Date: quantity.Date(rapid.IntRange(10_000, 30_000).Draw(t, "in service")), Hours: quantity.Hours(rapid.IntRange(0, 50_000).Draw(t, "hours"))}
	h.inService = at
	for range rapid.IntRange(0, 6).Draw(t, "times") {
		at.Date += quantity.Date(rapid.IntRange(0, 1_000).Draw(t, "later"))
		at.Hours += quantity.Hours(rapid.IntRange(0, 100_000).Draw(t, "run"))
		h.events = append(h.events, schedule.Event{Point: at})
	}
	return h
}

func (h history) stand() schedule.Standing {
	return h.schedule.Stand(h.task, h.inService, h.events, nil)
}

var policies = []schedule.NextFrom{schedule.FromDone, schedule.FromGrid, schedule.FromWindow}

// TestNextIsAhead: after the work the next due point lies ahead of it, by one
// interval and its grace at most.
func TestNextIsAhead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := drawHistory(t, policies...)
		standing := h.stand()
		if standing.Last == nil {
			return
		}
		hours, date, every := *standing.Due.Hours, *standing.Due.Date, h.task.Every
		if last := standing.Last.Hours; hours <= last || hours > last+every.Hours+h.schedule.Grace.Hours {
			t.Fatalf("done at %v h, next at %v h", last, hours)
		}
		if last := standing.Last.Date; date <= last || date > last.AddDays(h.schedule.Grace.Days).AddMonths(every.Months)+3 {
			t.Fatalf("done on %v, next on %v", last, date) // 3: month ends of 28 and 31 days
		}
	})
}

// TestReplay: the events decide and nothing else: not the caller's slice, not
// what was asked before, and an event's due point is the standing before it.
func TestReplay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := drawHistory(t, policies...)
		whole := h.stand()
		kept := slices.Clone(h.events)
		for n := range h.events {
			shorter := h
			shorter.events = slices.Clone(h.events[:n])
			longer := h
			longer.events = slices.Clone(h.events[:n+1])
			if !reflect.DeepEqual(longer.stand().Before, shorter.stand().Due) {
				t.Fatalf("after %d events", n)
			}
		}
		if !reflect.DeepEqual(h.stand(), whole) || !slices.Equal(h.events, kept) {
			t.Fatal("asked again it says something else")
		}
		stated := h
		stated.events = slices.Clone(h.events)
		for i := range stated.events {
			stated.events[i].Stated = true
		}
		if !reflect.DeepEqual(stated.stand().Due, whole.Due) {
			t.Fatal("what is stated counts otherwise")
		}
	})
}

// TestLaterIsNeverSooner: work done later never makes the next due point come
// earlier, under any policy: not across the line between early and in time
// either.
func TestLaterIsNeverSooner(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := drawHistory(t, policies...)
		if len(h.events) == 0 {
			return
		}
		later := h
		later.events = slices.Clone(h.events)
		last := &later.events[len(later.events)-1]
		last.Hours += quantity.Hours(rapid.IntRange(0, 200_000).Draw(t, "run on"))
		last.Date += quantity.Date(rapid.IntRange(0, 2_000).Draw(t, "days on"))
		a, b := h.stand().Due, later.stand().Due
		if *b.Hours < *a.Hours || *b.Date < *a.Date {
			t.Fatalf("%v %v, later %v %v", *a.Hours, *a.Date, *b.Hours, *b.Date)
		}
	})
}

// TestGridLate: while the work is late, doing it later never moves the next due
// point earlier, and every due point lies on the grid of the first.
func TestGridLate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		every := quantity.Hours(rapid.IntRange(1, 50_000).Draw(t, "every"))
		months := quantity.Months(rapid.IntRange(1, 60).Draw(t, "months"))
		s := schedule.Schedule{NextFrom: schedule.FromGrid}
		task := schedule.Task{Every: schedule.Interval{Hours: every, Months: months}}
		inService := schedule.Point{Date: quantity.Date(rapid.IntRange(10_000, 30_000).Draw(t, "in service"))}
		var events []schedule.Event
		due := s.Stand(task, inService, nil, nil).Due
		for range rapid.IntRange(1, 8).Draw(t, "times") {
			late := schedule.Event{Point: schedule.Point{
				Hours: *due.Hours + quantity.Hours(rapid.IntRange(0, 120_000).Draw(t, "late")),
				Date:  *due.Date + quantity.Date(rapid.IntRange(0, 1_500).Draw(t, "days late")),
			}}
			later := late
			later.Hours += quantity.Hours(rapid.IntRange(0, 120_000).Draw(t, "later"))
			later.Date += quantity.Date(rapid.IntRange(0, 1_500).Draw(t, "days later"))
			next := s.Stand(task, inService, append(slices.Clone(events), late), nil).Due
			after := s.Stand(task, inService, append(slices.Clone(events), later), nil).Due
			if *after.Hours < *next.Hours || *after.Date < *next.Date {
				t.Fatalf("done at %v next is %v, done later at %v %v", late, next, later, after)
			}
			if *next.Hours%every != 0 || !onGrid(inService.Date, months, *next.Date) {
				t.Fatalf("%v h or %v is not on the grid", *next.Hours, *next.Date)
			}
			events, due = append(events, late), next
		}
	})
}

// onGrid says whether a date is a whole number of intervals from the anchor,
// counted by the calendar's months and clamped to the month's end, reckoned here
// apart from the code.
func onGrid(anchor quantity.Date, every quantity.Months, date quantity.Date) bool {
	y0, m0, d0 := anchor.YMD()
	y, m, d := date.YMD()
	between := (y-y0)*12 + int(m-m0)
	_, _, last := quantity.FromYMD(y, m+1, 0).YMD()
	return between%int(every) == 0 && d == min(d0, last)
}

// TestWindowNeverDrifts: work within the grace, early and late in turn, keeps the
// anniversary for ever, from the 31st of a month too.
func TestWindowNeverDrifts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		months := quantity.Months(rapid.IntRange(2, 60).Draw(t, "months"))
		s := schedule.Schedule{NextFrom: schedule.FromWindow, Grace: schedule.Grace{Days: 14, Hours: 500}}
		task := schedule.Task{Every: schedule.Interval{Months: months, Hours: 20_000}}
		inService := schedule.Point{Date: quantity.Date(rapid.IntRange(10_000, 30_000).Draw(t, "in service"))}
		var events []schedule.Event
		for n := quantity.Months(1); n <= 20; n++ {
			due := s.Stand(task, inService, events, nil).Due
			if *due.Date != inService.Date.AddMonths(n*months) || *due.Hours != quantity.Hours(n)*20_000 {
				t.Fatalf("anniversary %d on %v", n, *due.Date)
			}
			events = append(events, schedule.Event{Point: schedule.Point{
				Date:  *due.Date + quantity.Date(rapid.IntRange(-14, 14).Draw(t, "days off")),
				Hours: *due.Hours + quantity.Hours(rapid.IntRange(-500, 500).Draw(t, "hours off")),
			}})
		}
	})
}

// TestFirstOfTwo: the state of a task that goes by both is the later of the
// states by each alone: whichever comes first decides.
func TestFirstOfTwo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := drawHistory(t, policies...)
		due, every, leeway := h.stand().Due, h.task.Every, h.schedule.Leeway(h.task, h.task.Every)
		now := schedule.Point{
			Hours: *due.Hours + quantity.Hours(rapid.IntRange(-150_000, 60_000).Draw(t, "hours")),
			Date:  *due.Date + quantity.Date(rapid.IntRange(-90, 60).Draw(t, "days")),
		}
		hours := schedule.Due{Hours: due.Hours}.At(now, every, leeway)
		date := schedule.Due{Date: due.Date}.At(now, every, leeway)
		if got := due.At(now, every, leeway); got != max(hours, date) {
			t.Fatalf("%v by hours, %v by date, %v by both", hours, date, got)
		}
		// What comes first is never the one that still lies ahead when the other is past.
		use := quantity.Hours(rapid.IntRange(0, 300_000).Draw(t, "use"))
		past, _, days, _ := due.Past(now)
		switch first := due.ComesFirst(now, schedule.Use{PerYear: use}); {
		case past >= 0 && days < 0 && first != "hours", days >= 0 && past < 0 && first != "date":
			t.Fatalf("%v h and %v days past: %s first", past, days, first)
		}
	})
}
