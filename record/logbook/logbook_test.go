package logbook_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/logbook"
	"hourseal/record/quantity"
	"hourseal/record/recordtest"
	"hourseal/record/schedule"
)

func day(t testing.TB, text string) quantity.Date {
	t.Helper()
	d, err := quantity.ParseDate(text)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func hours(t testing.TB, text string) quantity.Hours {
	t.Helper()
	h, err := quantity.ParseHours(text)
	if err != nil {
		t.Fatal(err)
	}
	return h
}

// at reads "DATE HOURS".
func at(t testing.TB, text string) schedule.Point {
	t.Helper()
	date, h, _ := strings.Cut(text, " ")
	return schedule.Point{Date: day(t, date), Hours: hours(t, h)}
}

// job is a record of the Gannet's port engine at "DATE HOURS", on its first meter,
// with nothing done.
func job(t testing.TB, when string) *record.Record {
	t.Helper()
	r := recordtest.Example()
	p := at(t, when)
	r.Job.Date, r.Job.Hours = p.Date, p.Hours
	r.Job.Meter = record.Meter{State: record.Running, Reading: &p.Hours}
	for i := range r.Tasks {
		r.Tasks[i] = record.Task{ID: r.Tasks[i].ID, Title: r.Tasks[i].Title, Kind: r.Tasks[i].Kind, Every: r.Tasks[i].Every}
	}
	return r
}

// speaking is a record of another: kind is addendum, correction or void, n the
// place of the other in its chain, from 1.
func speaking(r *record.Record, kind record.Kind, n byte) *record.Record {
	r.Kind, r.Subject = kind, &record.Subject{Record: record.ID{n}, Why: "as said"}
	return r
}

// with gives a record results, in pairs of task and result.
func with(t testing.TB, r *record.Record, results map[string]record.Result) *record.Record {
	t.Helper()
	found := 0
	for i := range r.Tasks {
		if result, ok := results[r.Tasks[i].ID]; ok {
			r.Tasks[i].Result = result
			found++
		}
	}
	if found != len(results) {
		t.Fatalf("%v: not all are tasks of the record", results)
	}
	return r
}

// chain numbers records: the id of the first begins with 1.
func chain(records ...*record.Record) []record.Earlier {
	var list []record.Earlier
	for i, r := range records {
		r.Number = uint32(i + 1)
		list = append(list, record.Earlier{ID: record.ID{byte(i + 1)}, Record: r})
	}
	return list
}

// numbers are the places in the chain of what is left of it.
func numbers(list []record.Earlier) []uint32 {
	got := []uint32{}
	for _, e := range list {
		got = append(got, e.Record.Number)
	}
	return got
}

func logOf(t testing.TB, own, engine []record.Earlier) logbook.Log {
	t.Helper()
	return logbook.New(at(t, "2024-03-18 0"), nil, nil, own, engine)
}

// TestCounting: a service counts until it is voided or corrected, a correction
// likewise; what only speaks of others does not.
func TestCounting(t *testing.T) {
	const add, correct, void = record.Addendum, record.Correction, record.Void
	one, two := func() *record.Record { return job(t, "2025-03-01 300") }, func() *record.Record { return job(t, "2026-03-01 600") }
	for _, c := range []struct {
		name  string
		chain []*record.Record
		want  []uint32
	}{
		{"none", nil, []uint32{}},
		{"services", []*record.Record{one(), two()}, []uint32{1, 2}},
		{"one voided", []*record.Record{one(), two(), speaking(two(), void, 1)}, []uint32{2}},
		{"one corrected, in its place", []*record.Record{one(), two(), speaking(one(), correct, 1)}, []uint32{3, 2}},
		{"one added to", []*record.Record{one(), two(), speaking(two(), add, 1)}, []uint32{1, 2}},
		{"an addendum voided", []*record.Record{one(), speaking(one(), add, 1), speaking(one(), void, 2)}, []uint32{1}},
		{"a correction corrected", []*record.Record{one(), speaking(one(), correct, 1), speaking(two(), correct, 2)}, []uint32{3}},
		{"a correction voided: the first stays corrected", []*record.Record{one(), speaking(one(), correct, 1), speaking(one(), void, 2)}, []uint32{}},
		{"a void voided: the first stays void", []*record.Record{one(), speaking(one(), void, 1), speaking(one(), void, 2)}, []uint32{}},
		{"corrected twice: both stand", []*record.Record{one(), speaking(one(), correct, 1), speaking(one(), correct, 1)}, []uint32{2, 3}},
		{"a void of a record that is not here", []*record.Record{one(), speaking(one(), void, 9)}, []uint32{1}},
	} {
		stored := chain(c.chain...)
		kept := slices.Clone(stored)
		log := logOf(t, stored, stored)
		if got := numbers(log.Own); !slices.Equal(got, c.want) {
			t.Errorf("%s: own %v, want %v", c.name, got, c.want)
		}
		if got := numbers(log.Engine); !slices.Equal(got, c.want) {
			t.Errorf("%s: engine %v, want %v", c.name, got, c.want)
		}
		if !reflect.DeepEqual(stored, kept) {
			t.Errorf("%s: the chain itself was changed", c.name)
		}
	}
}

// TestOrder: by date, then hours, then as in the chain: late paperwork comes
// where it belongs.
func TestOrder(t *testing.T) {
	log := logOf(t, chain(
		job(t, "2026-05-04 812.6"),
		job(t, "2025-06-20 501"),   // late paperwork
		job(t, "2026-05-04 809"),   // the same day, before the first
		job(t, "2026-05-04 812.6"), // and a second sheet of that visit
		job(t, "2027-01-10 700"),   // fewer hours, by a later date
	), nil)
	if got, want := numbers(log.Own), []uint32{2, 3, 1, 4, 5}; !slices.Equal(got, want) {
		t.Errorf("order %v, want %v", got, want)
	}
	if p := logbook.PointOf(log.Own[0].Record); p != at(t, "2025-06-20 501") {
		t.Errorf("point %v", p)
	}
	for date, want := range map[string][2]uint32{ // the nearest not after it, and the nearest after
		"2025-06-19": {0, 2}, "2025-06-20": {2, 3}, "2026-05-03": {2, 3}, "2026-05-04": {4, 5}, "2027-01-10": {5, 0}, "2099-01-01": {5, 0},
	} {
		got := [2]uint32{}
		if e := log.Before(day(t, date)); e != nil {
			got[0] = e.Record.Number
		}
		if e := log.After(day(t, date)); e != nil {
			got[1] = e.Record.Number
		}
		if got != want {
			t.Errorf("%s: before and after %v, want %v", date, got, want)
		}
	}
}

// TestUntilByLooking: what is up to a date, the nearest before and after, against
// going through all records one by one.
func TestUntilByLooking(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var jobs [2][]*record.Record
		for side := range jobs {
			for range rapid.IntRange(0, 6).Draw(rt, "jobs") {
				r := &record.Record{Kind: record.Service}
				r.Job.Date, r.Job.Hours = quantity.Date(rapid.IntRange(1, 9).Draw(rt, "date")), quantity.Hours(rapid.IntRange(0, 3).Draw(rt, "hours"))
				jobs[side] = append(jobs[side], r)
			}
		}
		own, engine := chain(jobs[0]...), chain(jobs[1]...)
		log := logbook.New(schedule.Point{}, nil, nil, own, engine)
		date := quantity.Date(rapid.IntRange(0, 10).Draw(rt, "asked"))
		until := 0
		for _, e := range own {
			if e.Record.Job.Date <= date {
				until++
			}
		}
		if got := len(log.OwnUntil(date)); got != until {
			rt.Fatalf("until %v: %d of %d", date, got, until)
		}
		all := append(slices.Clone(own), engine...)
		if len(log.Readings()) != len(all) {
			rt.Fatalf("%d readings of %d", len(log.Readings()), len(all))
		}
		nearest := func(list []record.Earlier, ok func(quantity.Date) bool, better func(a, b schedule.Point) bool) *schedule.Point {
			var best *schedule.Point
			for _, e := range list {
				p := logbook.PointOf(e.Record)
				if ok(p.Date) && (best == nil || better(p, *best)) {
					best = &p
				}
			}
			return best
		}
		later := func(a, b schedule.Point) bool { return a.Date > b.Date || a.Date == b.Date && a.Hours > b.Hours }
		before, after := func(d quantity.Date) bool { return d <= date }, func(d quantity.Date) bool { return d > date }
		for name, pair := range map[string][2]*schedule.Point{
			"before":         {point(log.Before(date)), nearest(own, before, later)},
			"after":          {point(log.After(date)), nearest(own, after, func(a, b schedule.Point) bool { return later(b, a) })},
			"reading before": {point(log.ReadingBefore(date)), nearest(all, before, later)},
			"reading after":  {point(log.ReadingAfter(date)), nearest(all, after, func(a, b schedule.Point) bool { return later(b, a) })},
		} {
			if !reflect.DeepEqual(pair[0], pair[1]) {
				rt.Fatalf("%s %v: %v, want %v", name, date, pair[0], pair[1])
			}
		}
	})
}

func point(e *record.Earlier) *schedule.Point {
	if e == nil {
		return nil
	}
	return new(logbook.PointOf(e.Record))
}
