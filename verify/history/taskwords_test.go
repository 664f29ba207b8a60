package history_test

import (
	"testing"

	"hourseal/record/quantity"
	"hourseal/record/schedule"
	"hourseal/verify/history"
)

// Of what counts from before the first record it is said what it counts from, and never
// that it is overdue.
func TestWordsOfWhatCountsFromBefore(t *testing.T) {
	at := history.Reached{State: history.NotTold, Hours: new(quantity.Hours(5700)), Days: new(quantity.Days(-40))}
	due := schedule.Due{Hours: new(quantity.Hours(70100))}
	for _, c := range []struct {
		due         history.DuePoint
		now, onDate string
	}{
		{history.DuePoint{Due: due, Before: true}, "no record of it; counted from entry into service, 57 h past due", "not known: counted from entry into service"},
		{history.DuePoint{Due: due, Stated: true}, "no record of it; counted from the statement, 57 h past due", "not known: counted from a statement"},
		{history.DuePoint{Due: due}, "57 h past due", "57 h past due"},
	} {
		if got := (history.Task{Now: &c.due, At: at}).NowWords(); got != c.now {
			t.Errorf("now: %q, want %q", got, c.now)
		}
		if got := (history.Stood{Was: &c.due, At: at}).Words(); got != c.onDate {
			t.Errorf("on a date: %q, want %q", got, c.onDate)
		}
	}
}
