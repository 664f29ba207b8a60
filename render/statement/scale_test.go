package statement_test

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record/quantity"
	"hourseal/render/statement"
	"hourseal/verify/history"
)

func TestTicks(t *testing.T) {
	for _, c := range []struct {
		first, last string
		want        []string
	}{
		{"2021-04-12", "2026-03-09", []string{"2022", "2023", "2024", "2025", "2026"}},
		{"2021-04-12", "2022-03-09", []string{"2021-05", "2021-07", "2021-09", "2021-11", "2022-01", "2022-03"}},
		{"2021-01-01", "2021-04-01", []string{"2021-01", "2021-02", "2021-03", "2021-04"}},
		{"2021-04-12", "2021-04-20", []string{"2021-04-12", "2021-04-20"}},
		{"2021-04-12", "2021-04-12", []string{"2021-04-12"}},
		{"1990-06-01", "2026-03-09", []string{"1995", "2000", "2005", "2010", "2015", "2020", "2025"}},
	} {
		var got []string
		for _, tick := range statement.TicksOf(day(c.first), day(c.last)) {
			got = append(got, tick.String())
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s to %s: got %q, want %q", c.first, c.last, got, c.want)
		}
	}
}

// Over any two days there are ticks, in order, between the two, and not too many.
func TestTicksOverAnyTime(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		first := quantity.Date(rapid.Int64Range(0, 60000).Draw(r, "first"))
		last := first + quantity.Date(rapid.Int64Range(0, 60000).Draw(r, "days"))
		ticks := statement.TicksOf(first, last)
		if len(ticks) == 0 || len(ticks) > 9 {
			r.Fatalf("%d ticks", len(ticks))
		}
		before := first.String()
		for _, tick := range ticks {
			if tick.Date() < before || tick.Date() > last.String() {
				r.Fatalf("%v after %s, until %v", tick.Date(), before, last)
			}
			before = tick.Date()
		}
	})
}

// The scale covers its hours with whole steps, at most five.
func TestHoursScale(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		low := rapid.Int64Range(0, int64(quantity.MaxHours)).Draw(r, "low")
		high := rapid.Int64Range(low, int64(quantity.MaxHours)).Draw(r, "high")
		from, to, step := statement.HoursScale(quantity.Hours(low), quantity.Hours(high)).Ends()
		if from > low || to < high || from < 0 || from%step != 0 || to%step != 0 || (to-from)/step > 5 || from == to {
			r.Fatalf("%d to %d: %d to %d by %d", low, high, from, to, step)
		}
	})
}

// Oil was due at 222 h and changed at 259 h: 37 h past due, beyond 20 h of grace, of 437
// h between the first record at 22 h and the last at 459 h. The filter was changed at
// 236 h, within grace; the belt was looked at in time; the coolant has no record.
func TestBarWords(t *testing.T) {
	b := newBook(ellery)
	b.visit(at("2021-04-12", 22), []string{"engine-oil", "oil-filter", "belt-look"})
	b.visit(at("2021-06-14", 120), []string{"belt-look"})
	b.visit(at("2021-08-16", 210), []string{"belt-look"})
	b.visit(at("2021-09-20", 236), []string{"oil-filter"})
	b.visit(at("2021-10-11", 259), []string{"engine-oil", "belt-look"})
	b.visit(at("2021-12-13", 355), []string{"belt-look"})
	b.visit(at("2022-02-14", 436), []string{"belt-look", "oil-filter"})
	b.visit(at("2022-03-14", 459), []string{"engine-oil"})
	m, settings := judged(history.Input{Items: b.items, Trust: known})
	said := statement.Bars(m, settings)
	for id, want := range map[string]string{
		"engine-oil": "37 h of 437 h overdue",
		"oil-filter": "inside, or within grace, 100 %",
		"belt-look":  "inside 100 %",
		"coolant":    "no record of it",
	} {
		if said[id] != want {
			t.Errorf("%s: got %q, want %q", id, said[id], want)
		}
	}
	m.Tasks[0].About = true
	if got := statement.Bars(m, settings)["engine-oil"]; got != "about 37 h of 437 h overdue" {
		t.Errorf("worked out: got %q", got)
	}
	alone, settings := judged(one())
	if got := fmt.Sprint(statement.Bars(alone, settings)["engine-oil"]); got != "not known" {
		t.Errorf("one record: got %q", got)
	}
}
