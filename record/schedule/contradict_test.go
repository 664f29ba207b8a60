package schedule_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// every is an interval of hours and months, 0 for neither.
func every(hours quantity.Hours, months quantity.Months) schedule.Interval {
	return schedule.Interval{Hours: hours * quantity.Hour, Months: months}
}

func look(id string, i schedule.Interval) schedule.Task {
	return schedule.Task{ID: id, Kind: schedule.Inspect, Every: i}
}

func renew(id string, i schedule.Interval, covers ...string) schedule.Task {
	return schedule.Task{ID: id, Kind: schedule.Replace, Every: i, Covers: covers}
}

func once(t schedule.Task) schedule.Task {
	t.Once = true
	return t
}

func first(t schedule.Task, hours quantity.Hours, months quantity.Months) schedule.Task {
	t.First = every(hours, months)
	return t
}

func severe(t schedule.Task, factor quantity.Ratio, when string) schedule.Task {
	t.Severe = schedule.Severe{Factor: factor, When: when}
	return t
}

func lenient(t schedule.Task, g schedule.Grace) schedule.Task {
	t.Grace = &g
	return t
}

func from(t schedule.Task, n schedule.NextFrom) schedule.Task {
	t.NextFrom = n
	return t
}

const (
	sulphur = "fuel sulphur over 0.5 %"
	dust    = "dust"
)

// TestContradictions: each contradiction, and beside it the neighbour that is
// none. The limits are our own rules.
func TestContradictions(t *testing.T) {
	for _, c := range []struct {
		name  string
		grace schedule.Grace
		tasks []schedule.Task
		want  []string // path field: message
	}{
		// Rings of covers.
		{"covers itself", schedule.Grace{}, []schedule.Task{look("a", every(100, 0)), renew("belt", every(1000, 0), "a", "belt")},
			[]string{"tasks/1/covers/1 covers: belt covers itself: take it out"}},
		{"a ring of two", schedule.Grace{}, []schedule.Task{renew("belt", every(1000, 0), "pulley"), renew("pulley", every(1000, 0), "belt")},
			[]string{"tasks/0/covers/0 covers: belt covers pulley covers belt, so that belt covers itself: take one of them out"}},
		{"a ring of three, found from outside it", schedule.Grace{},
			[]schedule.Task{renew("d", every(4000, 0), "c"), renew("a", every(1000, 0), "b"), renew("b", every(1000, 0), "c"), renew("c", every(3000, 0), "a")},
			[]string{"tasks/1/covers/0 covers: a covers b covers c covers a, so that a covers itself: take one of them out"}},
		{"two rings through one task", schedule.Grace{},
			[]schedule.Task{renew("a", every(1000, 0), "b", "c"), renew("b", every(1000, 0), "a"), renew("c", every(1000, 0), "a")},
			[]string{
				"tasks/0/covers/0 covers: a covers b covers a, so that a covers itself: take one of them out",
				"tasks/0/covers/1 covers: a covers c covers a, so that a covers itself: take one of them out",
			}},
		{"no ring: two ways to one task", schedule.Grace{},
			[]schedule.Task{renew("a", every(4000, 0), "b", "c"), renew("b", every(2000, 0), "d"), renew("c", every(2000, 0), "d"), look("d", every(500, 0))}, nil},
		{"no ring: together both ways", schedule.Grace{}, []schedule.Task{
			{ID: "oil", Kind: schedule.Replace, Every: every(200, 0), With: []string{"filter"}}, {ID: "filter", Kind: schedule.Replace, Every: every(200, 0), With: []string{"oil"}}}, nil},
		{"no ring: together and covered", schedule.Grace{}, []schedule.Task{
			{ID: "belt", Kind: schedule.Replace, Every: every(1000, 0), Covers: []string{"look"}, With: []string{"look"}}, look("look", every(200, 0))}, nil},

		// Looks that count as a replacement.
		{"an inspection covers a replacement", schedule.Grace{}, []schedule.Task{
			{ID: "look", Kind: schedule.Inspect, Every: every(1000, 0), Covers: []string{"belt"}}, renew("belt", every(500, 0))},
			[]string{"tasks/0/covers/0 covers: belt replaces, and look (inspect) does not: take it out, or write look into the covers of belt"}},
		{"a test covers a replacement", schedule.Grace{}, []schedule.Task{
			{ID: "try", Kind: schedule.Test, Every: every(1000, 0), Covers: []string{"belt"}}, renew("belt", every(500, 0))},
			[]string{"tasks/0/covers/0 covers: belt replaces, and try (test) does not: take it out, or write try into the covers of belt"}},
		{"a cleaning covers a look", schedule.Grace{}, []schedule.Task{
			{ID: "clean", Kind: schedule.Clean, Every: every(1000, 0), Covers: []string{"look"}}, look("look", every(500, 0))}, nil},

		// Never due by itself.
		{"less often than its replacement", schedule.Grace{}, []schedule.Task{look("belt-look", every(1000, 0)), renew("belt", every(800, 0), "belt-look")},
			[]string{"tasks/0/every every: belt-look every 1000 h, no more often than belt, which covers it, so that it never falls due by itself: write a shorter interval, or take the task out"}},
		{"as often", schedule.Grace{}, []schedule.Task{look("belt-look", every(1000, 0)), renew("belt", every(1000, 0), "belt-look")},
			[]string{"tasks/0/every every: belt-look every 1000 h, no more often than belt, which covers it, so that it never falls due by itself: write a shorter interval, or take the task out"}},
		{"a little more often", schedule.Grace{}, []schedule.Task{look("belt-look", every(999, 0)), renew("belt", every(1000, 0), "belt-look")}, nil},
		{"not covered", schedule.Grace{}, []schedule.Task{look("belt-look", every(1000, 0)), renew("belt", every(800, 0))}, nil},
		{"by hours and months", schedule.Grace{}, []schedule.Task{look("look", every(1000, 48)), renew("belt", every(1000, 24), "look")},
			[]string{"tasks/0/every every: look every 1000 h or 48 months, no more often than belt, which covers it, so that it never falls due by itself: write a shorter interval, or take the task out"}},
		{"by months it may come first", schedule.Grace{}, []schedule.Task{look("look", every(1000, 12)), renew("belt", every(1000, 24), "look")}, nil},
		{"by months, and the replacement by hours alone", schedule.Grace{}, []schedule.Task{look("look", every(0, 60)), renew("belt", every(1000, 0), "look")}, nil},
		{"by hours alone, and the replacement by both", schedule.Grace{}, []schedule.Task{look("look", every(1000, 0)), renew("belt", every(1000, 12), "look")},
			[]string{"tasks/0/every every: look every 1000 h, no more often than belt, which covers it, so that it never falls due by itself: write a shorter interval, or take the task out"}},
		{"covered by way of another", schedule.Grace{}, []schedule.Task{look("look", every(1000, 0)), renew("overhaul", every(900, 0), "belt"), renew("belt", every(800, 24), "look")},
			[]string{
				"tasks/0/every every: look every 1000 h, no more often than overhaul, which covers it, so that it never falls due by itself: write a shorter interval, or take the task out",
			}},
		{"one by hours, another by months", schedule.Grace{}, []schedule.Task{look("look", every(1000, 36)), renew("belt", every(900, 0), "look"), renew("pump", every(0, 24), "look")},
			[]string{"tasks/0/every every: look every 1000 h or 36 months, no more often than belt and pump, which cover it, so that it never falls due by itself: write a shorter interval, or take the task out"}},
		{"its first time comes before", schedule.Grace{}, []schedule.Task{first(look("look", every(1000, 0)), 50, 0), renew("belt", every(1000, 0), "look")}, nil},
		{"the replacement's first comes early, it itself more often", schedule.Grace{}, []schedule.Task{look("look", every(100, 0)), first(renew("oil", every(200, 0), "look"), 50, 0)}, nil},
		{"severe duty makes it more frequent", schedule.Grace{}, []schedule.Task{severe(look("look", every(1000, 0)), 500, dust), renew("belt", every(1000, 0), "look")}, nil},
		{"severe duty for both", schedule.Grace{}, []schedule.Task{severe(look("look", every(1000, 0)), 500, dust), severe(renew("belt", every(1000, 0), "look"), 500, dust)},
			[]string{"tasks/0/every every: look every 1000 h, no more often than belt, which covers it, so that it never falls due by itself: write a shorter interval, or take the task out"}},
		{"severe duty of two kinds", schedule.Grace{}, []schedule.Task{severe(look("look", every(1000, 0)), 500, dust), severe(renew("belt", every(1000, 0), "look"), 500, sulphur)}, nil},

		// Tasks that fall due one time.
		{"once, covered and later", schedule.Grace{}, []schedule.Task{once(look("break-in", every(50, 0))), first(renew("oil", every(200, 0), "break-in"), 50, 0)},
			[]string{"tasks/0/once once: break-in once 50 h, no more often than oil, which covers it, so that it never falls due by itself: write a shorter interval, or take the task out"}},
		{"once, covered and earlier", schedule.Grace{}, []schedule.Task{once(look("break-in", every(50, 0))), renew("oil", every(200, 0), "break-in")}, nil},
		{"once covers what falls due again", schedule.Grace{}, []schedule.Task{once(renew("break-in", every(50, 0), "oil")), renew("oil", every(200, 0))}, nil},
		{"once covers once", schedule.Grace{}, []schedule.Task{once(renew("a", every(50, 0), "b")), once(look("b", every(60, 0)))},
			[]string{"tasks/1/once once: b once 60 h, no more often than a, which covers it, so that it never falls due by itself: write a shorter interval, or take the task out"}},
		{"a next time that never comes", schedule.Grace{}, []schedule.Task{from(once(look("a", every(50, 0))), schedule.FromGrid)},
			[]string{"tasks/0/next_from next_from: grid, for a task that falls due one time only: take it out"}},
		{"a next time that comes", schedule.Grace{}, []schedule.Task{from(look("a", every(50, 0)), schedule.FromGrid)}, nil},

		// First intervals.
		{"first longer than every", schedule.Grace{}, []schedule.Task{first(look("a", every(200, 12)), 201, 13)},
			[]string{
				"tasks/0/first/hours first: 201 h, longer than every, 200 h: write a shorter one, or take it out",
				"tasks/0/first/months first: 13 months, longer than every, 12 months: write a shorter one, or take it out",
			}},
		{"first as long as every", schedule.Grace{}, []schedule.Task{first(look("a", every(200, 12)), 200, 12)}, nil},
		{"first covered by one that comes as early", schedule.Grace{}, []schedule.Task{first(look("look", every(100, 0)), 50, 0), first(renew("oil", every(200, 0), "look"), 50, 0)},
			[]string{"tasks/0/first/hours first: 50 h, but oil covers look and falls due for the first time at 50 h: write a shorter one, or take it out"}},
		{"first covered by one that comes later", schedule.Grace{}, []schedule.Task{first(look("look", every(100, 0)), 49, 0), first(renew("oil", every(200, 0), "look"), 50, 0)}, nil},
		{"first by months, the other by hours", schedule.Grace{}, []schedule.Task{first(look("look", every(0, 6)), 0, 1), first(renew("oil", every(200, 0), "look"), 50, 0)}, nil},

		// Intervals beyond reason.
		{"too short", schedule.Grace{}, []schedule.Task{{ID: "a", Every: schedule.Interval{Hours: 99}}},
			[]string{"tasks/0/every/hours every: 0.99 h, under 1 h: write hours, as 200"}},
		{"just long enough", schedule.Grace{}, []schedule.Task{look("a", every(1, 1))}, nil},
		{"too long", schedule.Grace{}, []schedule.Task{{ID: "a", Every: schedule.Interval{Hours: 2_000_001, Months: 361}}},
			[]string{
				"tasks/0/every/hours every: 20000.01 h, over 20000 h: write hours, as 200",
				"tasks/0/every/months every: 361 months, over 360 months: write months, as 12",
			}},
		{"as long as it may be", schedule.Grace{}, []schedule.Task{look("a", every(20_000, 360))}, nil},
		{"first and once", schedule.Grace{}, []schedule.Task{{ID: "a", Every: every(100, 0), First: schedule.Interval{Hours: 1}}, once(look("b", every(20_001, 0)))},
			[]string{
				"tasks/0/first/hours first: 0.01 h, under 1 h: write hours, as 200",
				"tasks/1/once/hours once: 20001 h, over 20000 h: write hours, as 200",
			}},
		{"shortened to nothing", schedule.Grace{}, []schedule.Task{severe(look("a", every(100, 0)), 9, dust)},
			[]string{"tasks/0/severe/factor severe: 0.009 of 100 h is 0.9 h, under 1 h: write a larger factor"}},
		{"shortened to an hour", schedule.Grace{}, []schedule.Task{severe(look("a", every(100, 0)), 10, dust)}, nil},

		// Severe duties.
		{"shortens nothing", schedule.Grace{}, []schedule.Task{severe(look("a", every(100, 12)), 1000, dust)},
			[]string{"tasks/0/severe/factor severe: factor 1 leaves 100 h or 12 months as it is: write a smaller one, or take severe out"}},
		{"shortens a little", schedule.Grace{}, []schedule.Task{severe(look("a", every(100, 12)), 999, dust)}, nil},
		{"a month stays a month", schedule.Grace{}, []schedule.Task{severe(look("a", every(0, 1)), 500, dust)},
			[]string{"tasks/0/severe/factor severe: factor 0.5 leaves 1 month as it is: write a smaller one, or take severe out"}},
		{"the same words otherwise", schedule.Grace{}, []schedule.Task{severe(look("a", every(100, 0)), 500, sulphur), severe(look("b", every(100, 0)), 500, "Fuel sulphur over 0.5%")},
			[]string{`tasks/1/severe/when when: "Fuel sulphur over 0.5%" here and "fuel sulphur over 0.5 %" in a differ only in case or spaces: write both alike`}},
		{"the same words and others", schedule.Grace{}, []schedule.Task{
			severe(look("a", every(100, 0)), 500, sulphur), severe(look("b", every(100, 0)), 250, sulphur), severe(look("c", every(100, 0)), 500, "fuel sulphur over 1.0 %"), look("d", every(100, 0)), look("e", every(100, 0))}, nil},

		// Grace.
		{"the task's grace, the whole interval", schedule.Grace{}, []schedule.Task{lenient(look("a", every(100, 12)), schedule.Grace{HoursShare: 1000, Days: 365})},
			[]string{
				"tasks/0/grace/hours grace: 100 h, as long as the interval of 100 h, or longer: write less, as { hours: 10 % }",
				"tasks/0/grace/days grace: 365 days, as long as the interval of 12 months, or longer: write less, as { days: 3 }",
			}},
		{"a little less", schedule.Grace{}, []schedule.Task{lenient(look("a", every(100, 12)), schedule.Grace{HoursShare: 999, Days: 364})}, nil},
		{"fixed hours", schedule.Grace{}, []schedule.Task{lenient(once(look("a", every(50, 0))), schedule.Grace{Hours: 50 * quantity.Hour})},
			[]string{"tasks/0/grace/hours grace: 50 h, as long as the interval of 50 h, or longer: write less, as { hours: 10 % }"}},
		{"grace by what it never falls due by", schedule.Grace{}, []schedule.Task{lenient(look("a", every(100, 0)), schedule.Grace{Days: 900})}, nil},
		{"the schedule's, for every task", schedule.Grace{HoursShare: 1000, Days: 30}, []schedule.Task{look("a", every(100, 0)), look("b", every(200, 0)), look("c", every(0, 12))},
			[]string{"grace/hours grace: as long as every interval that it is for, or longer: write fewer hours"}},
		{"the schedule's, for one of them", schedule.Grace{HoursShare: 100, Days: 30}, []schedule.Task{look("a", every(100, 12)), look("monthly", every(0, 1))},
			[]string{"tasks/1/every/months every: 1 month, no longer than the schedule's grace of 30 days: write a grace of its own for the task, as { days: 3 }"}},
		{"the schedule's, and two months", schedule.Grace{HoursShare: 100, Days: 30}, []schedule.Task{look("a", every(100, 12)), look("b", every(0, 2))}, nil},
		{"the schedule's, and one with its own", schedule.Grace{Days: 30}, []schedule.Task{look("a", every(0, 12)), lenient(look("monthly", every(0, 1)), schedule.Grace{Days: 3})}, nil},
		{"shortened to the schedule's grace", schedule.Grace{Hours: 25 * quantity.Hour}, []schedule.Task{severe(look("a", every(100, 0)), 250, dust)},
			[]string{"tasks/0/severe/factor severe: leaves an interval of 25 h, no longer than the schedule's grace of 25 h: write a grace of its own for the task, as { hours: 10 % }"}},
		{"shortened, still longer", schedule.Grace{Hours: 25 * quantity.Hour}, []schedule.Task{severe(look("a", every(100, 0)), 251, dust)}, nil},

		{"nothing at all", schedule.Grace{Hours: 1, Days: 1}, nil, nil},
	} {
		s := schedule.Schedule{NextFrom: schedule.FromDone, Grace: c.grace, Tasks: c.tasks}
		var got []string
		for _, f := range s.Contradictions() {
			got = append(got, fmt.Sprintf("%s %s: %s", f.Path, f.Field, f.Message))
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s:\n got %s\nwant %s", c.name, strings.Join(got, "\n     "), strings.Join(c.want, "\n     "))
		}
	}
}

// TestElleryContradictsNothing: the yard's own schedule of the scenario.
func TestElleryContradictsNothing(t *testing.T) {
	s := ellery()
	s.Tasks = s.Tasks[:6] // what comes after is there for its odd figures
	if got := s.Contradictions(); len(got) != 0 {
		t.Errorf("%+v", got)
	}
}

// drawSchedule is any schedule of tasks a, b, c, ..., some of which cover others.
func drawSchedule(t *rapid.T) schedule.Schedule {
	s := schedule.Schedule{NextFrom: schedule.FromDone}
	n := rapid.IntRange(1, 7).Draw(t, "tasks")
	for i := range n {
		task := schedule.Task{ID: string(rune('a' + i)), Kind: schedule.Clean, Once: rapid.IntRange(0, 4).Draw(t, "once") == 0}
		task.Every.Hours = quantity.Hours(rapid.IntRange(0, 4).Draw(t, "hours")) * 100 * quantity.Hour
		task.Every.Months = quantity.Months(rapid.IntRange(0, 3).Draw(t, "months")) * 12
		if task.Every == (schedule.Interval{}) {
			task.Every.Months = 12
		}
		if !task.Once && task.Every.Hours > 0 && rapid.Bool().Draw(t, "with a first") {
			task.First.Hours = quantity.Hours(rapid.IntRange(1, int(task.Every.Hours/quantity.Hour)/50).Draw(t, "first")) * 50 * quantity.Hour
		}
		if rapid.IntRange(0, 2).Draw(t, "severe") == 0 {
			task.Severe = schedule.Severe{Factor: 500, When: rapid.SampledFrom([]string{dust, sulphur}).Draw(t, "when")}
		}
		for k := range n {
			if rapid.IntRange(0, 5).Draw(t, "covers") == 0 {
				task.Covers = append(task.Covers, string(rune('a'+k)))
			}
		}
		s.Tasks = append(s.Tasks, task)
	}
	return s
}

// TestRingsByDoes: a task of a ring is one that counts as done by what it covers;
// every such task stands in a ring that is named, and no other does.
func TestRingsByDoes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSchedule(t)
		named := map[string]bool{}
		for _, c := range s.Contradictions() {
			names, _, _ := strings.Cut(c.Message, ",")
			if c.Field != "covers" {
				continue
			}
			if rest, alone := strings.CutSuffix(c.Message, " covers itself: take it out"); alone {
				named[rest] = true
				continue
			}
			ring := strings.Split(names, " covers ")
			for i, id := range ring[1:] {
				task, _ := s.Task(ring[i])
				if !slices.Contains(task.Covers, id) {
					t.Fatalf("%s: %s does not cover %s", c.Message, ring[i], id)
				}
				named[id] = true
			}
		}
		for _, task := range s.Tasks {
			inRing := slices.ContainsFunc(task.Covers, func(id string) bool { return s.Does(id, task.ID) })
			if inRing != named[task.ID] {
				t.Fatalf("%s in a ring: %v, named: %v\n%+v", task.ID, inRing, named[task.ID], s.Tasks)
			}
		}
	})
}

// TestNeverDueByReplay: a task that is said never to fall due by itself never
// does, however the machine is run: whenever it is due, so is one that covers it.
// Each time something is due, all that is due is done, and now and then something
// else besides.
func TestNeverDueByReplay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSchedule(t)
		never := map[string]bool{}
		for _, c := range s.Contradictions() {
			if id, _, _ := strings.Cut(c.Message, " "); strings.Contains(c.Message, "never falls due by itself") {
				never[id] = true
			}
		}
		if len(never) == 0 {
			return
		}
		duties := []schedule.DutyFrom{{Date: 0, Duty: rapid.SampledFrom([]schedule.Duty{nil, {dust}, {sulphur}, {dust, sulphur}}).Draw(t, "duty")}}
		start := schedule.Point{Date: 20_000}
		now := start
		events := map[string][]schedule.Event{}
		do := func(id string) {
			for _, task := range s.Tasks {
				if s.Does(id, task.ID) {
					events[task.ID] = append(events[task.ID], schedule.Event{Point: now})
				}
			}
		}
		for range 60 {
			now.Hours += quantity.Hours(rapid.IntRange(0, 40).Draw(t, "run")) * quantity.Hour
			now.Date += quantity.Date(rapid.IntRange(1, 60).Draw(t, "days"))
			var due []string
			for _, task := range s.Tasks {
				d := s.Stand(task, start, events[task.ID], duties).Due
				if d.Hours != nil && *d.Hours <= now.Hours || d.Date != nil && *d.Date <= now.Date {
					due = append(due, task.ID)
				}
			}
			for _, id := range due {
				if never[id] && !slices.ContainsFunc(due, func(other string) bool { return other != id && s.Does(other, id) }) {
					t.Fatalf("%s fell due by itself on %v at %v h\n%+v", id, now.Date, now.Hours, s.Tasks)
				}
			}
			for _, id := range due {
				do(id)
			}
			if len(due) == 0 && rapid.IntRange(0, 3).Draw(t, "besides") == 0 {
				do(rapid.SampledFrom(s.Tasks).Draw(t, "early").ID)
			}
		}
	})
}
