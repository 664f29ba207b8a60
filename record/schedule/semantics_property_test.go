package schedule_test

import (
	"flag"
	"math"
	"math/big"
	"reflect"
	"slices"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// aThousand holds a property to a thousand random cases, however few -rapid.checks
// asks for.
func aThousand(t *testing.T, property func(*rapid.T)) {
	t.Helper()
	checks, err := strconv.Atoi(flag.Lookup("rapid.checks").Value.String())
	if err != nil || checks < 1 {
		t.Fatalf("-rapid.checks: %d, %v", checks, err)
	}
	if testing.Short() { // when rapid makes a fifth of them
		checks = max(checks/5, 1)
	}
	for done := 0; done < 1000; done += checks {
		rapid.Check(t, property)
	}
}

// anyTask has any interval, first interval, grace, policy and severe duty that a
// schedule may state; the hours are to the hundredth.
func anyTask(t *rapid.T) schedule.Task {
	interval := func(least int, name string) schedule.Interval {
		return schedule.Interval{
			Hours:  quantity.Hours(rapid.IntRange(least, 100_000).Draw(t, name+" hours")),
			Months: quantity.Months(rapid.IntRange(least, 60).Draw(t, name+" months")),
		}
	}
	task := schedule.Task{ID: "task", Kind: schedule.Replace, Every: interval(1, "every"), NextFrom: rapid.SampledFrom(policies).Draw(t, "policy"),
		Grace: &schedule.Grace{Days: quantity.Days(rapid.IntRange(0, 90).Draw(t, "grace days"))}}
	if rapid.Bool().Draw(t, "a first") {
		task.First = interval(0, "first")
	}
	if rapid.Bool().Draw(t, "per cent") {
		task.Grace.HoursShare = quantity.Ratio(rapid.IntRange(0, 1000).Draw(t, "share"))
	} else {
		task.Grace.Hours = quantity.Hours(rapid.IntRange(0, 5_000).Draw(t, "grace"))
	}
	if rapid.Bool().Draw(t, "has a severe duty") {
		task.Severe = schedule.Severe{Factor: quantity.Ratio(rapid.IntRange(1, 1000).Draw(t, "factor")), When: dust}
	}
	return task
}

// anyTimes are times that a task was done, oldest first, from an entry into
// service.
func anyTimes(t *rapid.T) (inService schedule.Point, events []schedule.Event) {
	at := schedule.Point{Date: quantity.Date(rapid.IntRange(10_000, 30_000).Draw(t, "in service")), Hours: quantity.Hours(rapid.IntRange(0, 50_000).Draw(t, "hours"))}
	inService = at
	for range rapid.IntRange(0, 5).Draw(t, "times") {
		at = schedule.Point{
			Date:  at.Date + quantity.Date(rapid.IntRange(0, 1_000).Draw(t, "later")),
			Hours: at.Hours + quantity.Hours(rapid.IntRange(0, 100_000).Draw(t, "run")),
		}
		events = append(events, schedule.Event{Point: at, Stated: rapid.Bool().Draw(t, "stated")})
	}
	return inService, events
}

func anyDuty(t *rapid.T) schedule.Duty {
	return rapid.SampledFrom([]schedule.Duty{nil, {dust}, {sulphur, dust}, {sulphur}}).Draw(t, "duty")
}

// from1900 is one duty for the machine's whole life.
func from1900(duty schedule.Duty) []schedule.DutyFrom {
	return []schedule.DutyFrom{{Date: quantity.MinDate, Duty: duty}}
}

// TestGridByCounting: under grid, with any first interval and any one duty, work
// done later never makes the next due point come earlier; and that point is the
// first of the grid after the work, found here by counting up to it: under a severe
// duty the nearer of the first points by the shorter and by the usual interval. (A
// duty that changes between the two dates changes which of them is early.)
func TestGridByCounting(t *testing.T) {
	aThousand(t, func(t *rapid.T) {
		task := from(anyTask(t), schedule.FromGrid)
		inService, events := anyTimes(t)
		duty := anyDuty(t)
		s := schedule.Schedule{NextFrom: schedule.FromDone}
		due := s.Stand(task, inService, events, from1900(duty)).Due
		runs, every, usual := task.Runs(len(events) > 0, duty), task.Runs(true, duty), task.Runs(true, nil)

		work := schedule.Point{Hours: *due.Hours + quantity.Hours(rapid.IntRange(-100_000, 300_000).Draw(t, "hours past")),
			Date: *due.Date + quantity.Date(rapid.IntRange(-400, 3_000).Draw(t, "days past"))}
		if n := len(events); n > 0 {
			work.Hours, work.Date = max(work.Hours, events[n-1].Hours), max(work.Date, events[n-1].Date)
		}
		next := s.Stand(task, inService, append(slices.Clone(events), schedule.Event{Point: work}), from1900(duty)).Due

		hours := work.Hours + every.Hours // early: from when done
		if work.Hours >= *due.Hours {
			first := func(every quantity.Hours) quantity.Hours {
				at := *due.Hours
				for at <= work.Hours {
					at += every
				}
				return at
			}
			hours = min(first(every.Hours), first(usual.Hours))
		}
		if *next.Hours != hours {
			t.Fatalf("due at %v h, then every %v h, done at %v: next %v, want %v", due.Hours, every.Hours, work.Hours, next.Hours, hours)
		}
		if early := work.Date < *due.Date; early && *next.Date != work.Date.AddMonths(every.Months) ||
			!early && (*next.Date <= work.Date || *next.Date > work.Date.AddMonths(every.Months)+3) { // 3: month ends
			t.Fatalf("due on %v after %v months, then every %v, done on %v: next %v", due.Date, runs.Months, every.Months, work.Date, next.Date)
		}

		later := work
		later.Hours += quantity.Hours(rapid.IntRange(0, 200_000).Draw(t, "hours later"))
		later.Date += quantity.Date(rapid.IntRange(0, 2_000).Draw(t, "days later"))
		after := s.Stand(task, inService, append(slices.Clone(events), schedule.Event{Point: later}), from1900(duty)).Due
		if *after.Hours < *next.Hours || *after.Date < *next.Date {
			t.Fatalf("done at %v: next %s; done at %v: next %s", work, dueText(next), later, dueText(after))
		}
	})
}

// TestStateByBoth: whichever comes first: a task that goes by both stands as the
// worse of the two, each reckoned here from the words: past its due point, past
// its grace, a tenth of the interval or 30 days before. Without a sealed record it
// is due at worst.
func TestStateByBoth(t *testing.T) {
	reckon := func(left, soon, leeway int64) schedule.State {
		state := schedule.Later
		for worse, holds := range map[schedule.State]bool{schedule.Soon: left <= soon, schedule.Now: left <= 0, schedule.Overdue: left < 0 && -left > leeway} {
			if holds {
				state = max(state, worse)
			}
		}
		return state
	}
	seen := map[schedule.State]int{}
	aThousand(t, func(t *rapid.T) {
		task := anyTask(t)
		inService, events := anyTimes(t)
		standing := schedule.Schedule{}.Stand(task, inService, events, from1900(anyDuty(t)))
		now := schedule.Point{Hours: *standing.Due.Hours + quantity.Hours(rapid.IntRange(-20_000, 10_000).Draw(t, "hours")),
			Date: *standing.Due.Date + quantity.Date(rapid.IntRange(-90, 120).Draw(t, "days"))}
		tenth := (int64(standing.Runs.Hours) + 5) / 10 // half up
		byHours := reckon(int64(*standing.Due.Hours-now.Hours), tenth, int64(standing.Leeway.Hours))
		byDate := reckon(int64(standing.Due.Date.Sub(now.Date)), 30, int64(standing.Leeway.Days))
		want := max(byHours, byDate)
		if n := len(events); want == schedule.Overdue && (n == 0 || events[n-1].Stated) {
			want = schedule.Now
		}
		got := standing.At(now)
		seen[got]++
		if got != want {
			t.Fatalf("%v by hours, %v by date: %v, want %v", byHours, byDate, got, want)
		}
	})
	if len(seen) < 4 {
		t.Errorf("not every state came up: %v", seen)
	}
}

// TestSharesByRationals: the severe duty's interval and the grace in per cent of
// it, against fractions: half away from zero to 1/100 h, months rounded down, at
// least 1/100 h and one month.
func TestSharesByRationals(t *testing.T) {
	share := func(n int64, of quantity.Ratio) *big.Rat {
		return new(big.Rat).Mul(big.NewRat(n, 1), big.NewRat(int64(of), 1000))
	}
	down := func(r *big.Rat) int64 { return new(big.Int).Quo(r.Num(), r.Denom()).Int64() }
	nearest := func(r *big.Rat) int64 { return down(new(big.Rat).Add(r, big.NewRat(1, 2))) } // none is below 0
	aThousand(t, func(t *rapid.T) {
		task := anyTask(t)
		inService, events := anyTimes(t)
		duty := anyDuty(t)
		standing := schedule.Schedule{}.Stand(task, inService, events, from1900(duty))
		want := task.Every
		if len(events) == 0 && task.First.Hours > 0 {
			want.Hours = task.First.Hours
		}
		if len(events) == 0 && task.First.Months > 0 {
			want.Months = task.First.Months
		}
		if task.Severe.Factor > 0 && slices.Contains(duty, dust) {
			want.Hours = quantity.Hours(max(1, nearest(share(int64(want.Hours), task.Severe.Factor))))
			want.Months = quantity.Months(max(1, down(share(int64(want.Months), task.Severe.Factor))))
		}
		if standing.Runs != want {
			t.Fatalf("%+v under %q runs %+v, want %+v", task, duty, standing.Runs, want)
		}
		leeway := schedule.Leeway{Hours: task.Grace.Hours, Days: task.Grace.Days}
		if task.Grace.HoursShare > 0 {
			leeway.Hours = quantity.Hours(nearest(share(int64(want.Hours), task.Grace.HoursShare)))
		}
		if standing.Leeway != leeway {
			t.Fatalf("grace %+v of %+v: %+v, want %+v", task.Grace, want, standing.Leeway, leeway)
		}
	})
}

// TestSevereNeverLengthens: a severe duty never makes an interval longer; counted
// from when done, it never moves a due point away, whenever it was on; and switched
// on after the last time it does not under any policy.
func TestSevereNeverLengthens(t *testing.T) {
	sooner := func(a, b schedule.Due) bool { return *a.Hours <= *b.Hours && *a.Date <= *b.Date }
	aThousand(t, func(t *rapid.T) {
		task := severe(anyTask(t), quantity.Ratio(rapid.IntRange(1, 1000).Draw(t, "factor")), dust)
		for _, done := range []bool{false, true} {
			plain, short := task.Runs(done, nil), task.Runs(done, schedule.Duty{dust})
			if short.Hours > plain.Hours || short.Months > plain.Months || short.Hours < 1 || short.Months < 1 {
				t.Fatalf("%+v becomes %+v", plain, short)
			}
		}
		inService, events := anyTimes(t)
		newest := inService
		if n := len(events); n > 0 {
			newest = events[n-1].Point
		}
		s := schedule.Schedule{}
		on := []schedule.DutyFrom{{Date: quantity.MinDate}, {Date: newest.Date + quantity.Date(rapid.IntRange(0, 400).Draw(t, "on after")), Duty: schedule.Duty{dust}}}
		before, after := s.Stand(task, inService, events, nil), s.Stand(task, inService, events, on)
		if !sooner(after.Due, before.Due) {
			t.Fatalf("switched on: due %s, before %s", dueText(after.Due), dueText(before.Due))
		}

		task = from(task, schedule.FromDone)
		plain := s.Stand(task, inService, events, nil).Due
		begin := inService.Date + quantity.Date(rapid.IntRange(-10, 5_000).Draw(t, "on"))
		for _, duties := range [][]schedule.DutyFrom{on, {{Date: begin, Duty: schedule.Duty{dust}}}, {{Date: begin, Duty: schedule.Duty{dust}}, {Date: begin + 100}}} {
			if severe := s.Stand(task, inService, events, duties).Due; !sooner(severe, plain) {
				t.Fatalf("with %v: due %s, without %s", duties, dueText(severe), dueText(plain))
			}
		}
	})
}

// TestNeverDueBeforeDone: whatever the duties and whenever they change, what is
// due next is due after it was last done.
func TestNeverDueBeforeDone(t *testing.T) {
	aThousand(t, func(t *rapid.T) {
		task := anyTask(t)
		inService, events := anyTimes(t)
		if len(events) == 0 {
			return
		}
		done := events[len(events)-1].Point
		var duties []schedule.DutyFrom
		for at := inService.Date; len(duties) < 4; at += quantity.Date(rapid.IntRange(0, 800).Draw(t, "on")) {
			duties = append(duties, schedule.DutyFrom{Date: at, Duty: anyDuty(t)})
		}
		due := schedule.Schedule{}.Stand(task, inService, events, duties).Due
		if *due.Hours <= done.Hours || *due.Date <= done.Date {
			t.Fatalf("done %v %v, due %s: %v every %+v, factor %v, duties %v", done.Date, done.Hours, dueText(due), task.NextFrom, task.Every, task.Severe.Factor, duties)
		}
	})
}

// TestStandNeverPanics: with points and duties in any order, of any value, within
// what a schedule may state; and asked again it says the same.
func TestStandNeverPanics(t *testing.T) {
	anyPoint := rapid.Custom(func(t *rapid.T) schedule.Point {
		wild := rapid.OneOf(rapid.Int64(), rapid.Int64Range(-3_000_000, 3_000_000), rapid.SampledFrom([]int64{math.MinInt64, math.MaxInt64, 0, int64(quantity.MaxDate), int64(quantity.MinDate)}))
		return schedule.Point{Date: quantity.Date(wild.Draw(t, "date")), Hours: quantity.Hours(wild.Draw(t, "hours"))}
	})
	wildInterval := func(t *rapid.T) schedule.Interval {
		return schedule.Interval{Hours: quantity.Hours(rapid.Int64Range(0, int64(quantity.MaxHours)).Draw(t, "hours")), Months: quantity.Months(rapid.Int64Range(0, int64(quantity.MaxMonths)).Draw(t, "months"))}
	}
	aThousand(t, func(t *rapid.T) {
		task := anyTask(t)
		task.Every, task.First, task.Once = wildInterval(t), wildInterval(t), rapid.Bool().Draw(t, "once")
		task.NextFrom = schedule.NextFrom(rapid.Uint8Range(0, 4).Draw(t, "policy")) // 0 and 4 are none
		var events []schedule.Event
		for _, p := range rapid.SliceOfN(anyPoint, 0, 5).Draw(t, "events") {
			events = append(events, schedule.Event{Point: p})
		}
		var duties []schedule.DutyFrom
		for _, p := range rapid.SliceOfN(anyPoint, 0, 3).Draw(t, "duties") {
			duties = append(duties, schedule.DutyFrom{Date: p.Date, Duty: anyDuty(t)})
		}
		inService, now := anyPoint.Draw(t, "in service"), anyPoint.Draw(t, "now")
		s := schedule.Schedule{}
		standing := s.Stand(task, inService, events, duties)
		if state := standing.At(now); state < schedule.Later || state > schedule.Overdue {
			t.Fatalf("state %v", state)
		}
		if !reflect.DeepEqual(standing, s.Stand(task, inService, events, duties)) {
			t.Fatal("asked again it says something else")
		}
		if once := task.Once && len(events) > 0; once && standing.Due != (schedule.Due{}) {
			t.Fatalf("once, and due again %s", dueText(standing.Due))
		}
	})
}

// TestCoveringIsDoing: what covers a task, also by way of others, gives it the same
// due point as itself done then; what does not, leaves it as it was. Which covers
// which is found here by squaring the table until it stands still.
func TestCoveringIsDoing(t *testing.T) {
	seen := map[bool]int{}
	aThousand(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 6).Draw(t, "tasks")
		s := schedule.Schedule{NextFrom: rapid.SampledFrom(policies).Draw(t, "policy")}
		reach := make([][]bool, n)
		for i := range n {
			task := anyTask(t)
			task.ID, reach[i] = strconv.Itoa(i), make([]bool, n)
			for j := range n {
				if rapid.IntRange(0, 3).Draw(t, "covers") == 0 {
					task.Covers, reach[i][j] = append(task.Covers, strconv.Itoa(j)), true
				}
			}
			reach[i][i] = true
			s.Tasks = append(s.Tasks, task)
		}
		for range n {
			for i := range n {
				for j := range n {
					for k := range n {
						reach[i][j] = reach[i][j] || reach[i][k] && reach[k][j]
					}
				}
			}
		}
		inService, events := anyTimes(t)
		if len(events) == 0 {
			return
		}
		done, task := rapid.IntRange(0, n-1).Draw(t, "done"), rapid.IntRange(0, n-1).Draw(t, "task")
		// The last of the events is of the task done, the others of the task itself.
		by := events[:len(events)-1]
		if s.Does(strconv.Itoa(done), strconv.Itoa(task)) {
			by = events
		}
		want := events[:len(events)-1]
		if reach[done][task] {
			want = events
		}
		seen[reach[done][task] && done != task]++
		a, b := s.Stand(s.Tasks[task], inService, by, nil), s.Stand(s.Tasks[task], inService, want, nil)
		if !reflect.DeepEqual(a, b) {
			t.Fatalf("%d done counts for %d as %s, want %s", done, task, dueText(a.Due), dueText(b.Due))
		}
	})
	if seen[true] == 0 || seen[false] == 0 {
		t.Errorf("covered or not: %v", seen)
	}
}
