package logbook_test

import (
	"slices"
	"testing"

	"hourseal/record"
	"hourseal/record/logbook"
	"hourseal/record/schedule"
)

// TestDoneUnderAnotherEdition: a new edition loses no work that is under seal, and
// makes none of it.
func TestDoneUnderAnotherEdition(t *testing.T) {
	// The belt was fitted, which covered its look: the record says so of both rows.
	fitted := with(t, job(t, "2025-06-01 500"), map[string]record.Result{"belt": record.Done})
	for i := range fitted.Tasks {
		row := &fitted.Tasks[i]
		row.Last = nil
		if row.ID == "belt" || row.ID == "belt-look" {
			row.Last = &record.Last{Date: fitted.Job.Date, Hours: fitted.Job.Hours}
		}
	}
	// An impeller that was looked at in an edition that asked for no more.
	looked := with(t, job(t, "2025-09-01 600"), map[string]record.Result{"impeller": record.OK})
	for i := range looked.Tasks {
		row := &looked.Tasks[i]
		row.Last = nil
		if row.ID == "impeller" {
			row.Kind, row.Last = schedule.Inspect, &record.Last{Date: looked.Job.Date, Hours: looked.Job.Hours}
		}
	}
	log := logbook.New(at(t, "2024-03-18 0"), nil, nil, chain(fitted, looked), nil)

	withoutBelt := ellery()
	withoutBelt.Tasks = slices.DeleteFunc(withoutBelt.Tasks, func(t schedule.Task) bool { return t.ID == "belt" || t.ID == "overhaul" })
	if done := log.Done(withoutBelt, "belt-look", day(t, "2026-01-01")); len(done) != 1 || done[0].Point != at(t, "2025-06-01 500") || done[0].Record == nil {
		t.Errorf("the look that the belt covered: %+v", done)
	}
	impeller := schedule.Task{ID: "impeller", Kind: schedule.Replace, Every: schedule.Interval{Months: 12}}
	next := schedule.Schedule{NextFrom: schedule.FromDone, Tasks: []schedule.Task{impeller}}
	if done := log.Done(next, "impeller", day(t, "2026-01-01")); len(done) != 0 {
		t.Errorf("an old look passes for a new impeller: %+v", done)
	}
	next.Tasks[0].Kind = schedule.Inspect
	if done := log.Done(next, "impeller", day(t, "2026-01-01")); len(done) != 1 {
		t.Errorf("the look itself: %+v", done)
	}
	// A row that says it was done on another day says nothing of this one.
	fitted.Tasks[0].Last = &record.Last{Date: fitted.Job.Date - 1, Hours: fitted.Job.Hours}
	if done := log.Done(withoutBelt, fitted.Tasks[0].ID, day(t, "2026-01-01")); len(done) != 0 {
		t.Errorf("done on another day: %+v", done)
	}
}
