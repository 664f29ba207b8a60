package history_test

import (
	"flag"
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record/quantity"
	"hourseal/record/schedule"
	"hourseal/verify/history"
	"hourseal/verify/history/historytest"
)

// TestRandomHistories: what holds for the library holds for histories that nobody
// thought of: two or three yards that do or do not know of each other, work done,
// skipped and put off, corrections, hours that go back, keys in other hands, records
// left out, lists that name anything.
//
// The draws are the same in every run, so that a change which breaks one is noticed by
// whoever made it; -rapid.seed and -rapid.checks draw others.
func TestRandomHistories(t *testing.T) {
	if seed := flag.Lookup("rapid.seed"); seed.Value.String() == seed.DefValue {
		defer flag.Set("rapid.seed", seed.DefValue)
		flag.Set("rapid.seed", "20261125")
	}
	rapid.Check(t, func(t *rapid.T) {
		s := randomTale(t)
		t.Log(short(s))
		w := tell(t, s)
		in := w.Input()
		want := dump(history.Assess(w.twice(in)))
		for range 2 {
			w.anyOrder(t, in, want)
		}
		readTwice(t, w)
		leftOut(t, w, nil)
		lastLeftOut(t, w)
		stretchesHold(t, w)
		wordsHold(t, w)
	})
}

func randomTale(t *rapid.T) *historytest.Tale {
	yes := func(label string, oneIn int) bool { return rapid.IntRange(1, oneIn).Draw(t, label) == 1 }
	start := must[quantity.Date](t)(quantity.ParseDate("2022-03-07"))
	s := &historytest.Tale{
		Machines: map[string]*historytest.Plate{"port": {Serial: "0045120", InService: historytest.Point{Date: start}}, "starboard": {Serial: "0045121", InService: historytest.Point{Date: start}}},
		Schedules: []*historytest.Schedule{{ID: "diesel-inboard-ellery", Edition: 1, Basis: "yard", Tasks: []*historytest.Task{
			{ID: "engine-oil", Title: "Change the engine oil", Kind: "replace", Every: historytest.Interval{Hours: 200 * quantity.Hour, Months: 12},
				Grace: historytest.Grace(schedule.Leeway{Hours: 20 * quantity.Hour, Days: 30})},
			{ID: "belt-look", Title: "Look over the drive belt", Kind: "inspect", Every: historytest.Interval{Months: 12}, Grace: historytest.Grace(schedule.Leeway{Days: 30})},
			{ID: "break-in", Title: "First service", Kind: "adjust", Every: historytest.Interval{Hours: 50 * quantity.Hour}, Once: true},
		}}},
		Yards: map[string]*historytest.Yard{"ellery": {Name: "Ellery Slip Boatyard", Seed: "a", Trusted: true},
			"quay": {Name: "Ellery North Quay", Seed: "b", Trusted: !yes("quay unknown", 4)}},
		Received: map[string]historytest.Date{},
	}
	if yes("revoked", 4) {
		s.Yards["ellery"].Revoked = &historytest.Revocation{From: historytest.Date(start.AddDays(700)), Why: rapid.SampledFrom([]string{"retired", "compromised"}).Draw(t, "why")}
	}
	date, hours := start, quantity.Hours(0)
	for n := range rapid.IntRange(2, 7).Draw(t, "records") {
		date = date.AddDays(quantity.Days(rapid.IntRange(0, 500).Draw(t, "days")))
		hours += quantity.Hours(rapid.IntRange(0, 3500).Draw(t, "tenths")) * quantity.Hour / 10
		if yes("hours back", 12) {
			hours /= 2
		}
		r := &historytest.Record{As: fmt.Sprint("r", n+1), Yard: rapid.SampledFrom([]string{"ellery", "ellery", "quay"}).Draw(t, "yard"),
			Machine: "port", On: historytest.Date(date), Hours: historytest.Hours(hours), Did: map[string]historytest.Did{}, Why: "written wrongly"}
		if yes("twin", 8) {
			r.Machine = "starboard"
		}
		if yes("late paper", 8) {
			r.On, r.Issued = historytest.Date(date.AddDays(-60)), new(historytest.Date(date))
		}
		earlier := func() string { return rapid.SampledFrom(s.Records).Draw(t, "of").As }
		if n > 0 {
			switch rapid.IntRange(0, 11).Draw(t, "kind") {
			case 0:
				r.Corrects = earlier()
			case 1:
				r.Voids, r.Estimate = earlier(), "as it was"
			case 2:
				r.AddsTo, r.Estimate = earlier(), "as it was"
			}
			switch rapid.IntRange(0, 5).Draw(t, "after") {
			case 0:
				r.After = earlier()
			case 1:
				r.After = s.Records[n-1].As
			case 2:
				r.After = rapid.SampledFrom([]string{"", "none"}).Draw(t, "none")
			}
		}
		for _, task := range s.Schedules[0].Tasks {
			if did := rapid.SampledFrom([]string{"done", "done", "", "deferred"}).Draw(t, "did"); did != "" {
				r.Did[task.ID] = historytest.Did{Is: did, Why: "no time", Owner: "agreed"}
			}
		}
		s.Records = append(s.Records, r)
		if yes("left out", 6) {
			s.LeaveOut = append(s.LeaveOut, r.As)
		}
		if yes("received", 8) {
			s.Received[r.As] = historytest.Date(date.AddDays(3))
		}
	}
	if yes("list", 4) {
		s.Lists = []*historytest.List{{As: "list", Yard: "ellery", Ends: []string{rapid.SampledFrom(s.Records).Draw(t, "end").As}, Until: historytest.Date(date.AddDays(10)), For: "claim 26-118"}}
	}
	if yes("on a day", 3) {
		s.On = new(historytest.Date(start.AddDays(quantity.Days(rapid.IntRange(0, 1500).Draw(t, "day")))))
	}
	return s
}

// short tells a random history short, for the one that fails.
func short(s *historytest.Tale) string {
	text := fmt.Sprintf("revoked %+v, quay trusted %t, left out %v, received %v\n", s.Yards["ellery"].Revoked, s.Yards["quay"].Trusted, s.LeaveOut, s.Received)
	for _, r := range s.Records {
		text += fmt.Sprintf("%s %s %s %v %v h, after %q, corrects %q, voids %q, adds to %q, did %v\n", r.As, r.Yard, r.Machine,
			quantity.Date(r.On), quantity.Hours(r.Hours), r.After, r.Corrects, r.Voids, r.AddsTo, r.Did)
	}
	for _, l := range s.Lists {
		text += fmt.Sprintf("list of %v until %v\n", l.Ends, quantity.Date(l.Until))
	}
	return text
}
