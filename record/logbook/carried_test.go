package logbook_test

import (
	"slices"
	"testing"

	"hourseal/record"
	"hourseal/record/logbook"
	"hourseal/record/schedule"
)

// TestCarried: what the first record at hand has as last done before it counts as on
// record, what it has as stated stays stated, and what it did itself counts once.
func TestCarried(t *testing.T) {
	seventh := with(t, job(t, "2027-05-04 1100"), map[string]record.Result{"oil-filter": record.Done})
	last := func(id, on string, kind schedule.Kind, stated bool) {
		p := at(t, on)
		seventh.Tasks = slices.DeleteFunc(seventh.Tasks, func(row record.Task) bool { return row.ID == id && row.Result == 0 })
		for i := range seventh.Tasks {
			if row := &seventh.Tasks[i]; row.ID == id {
				row.Last = &record.Last{Date: p.Date, Hours: p.Hours}
				return
			}
		}
		seventh.Tasks = append(seventh.Tasks, record.Task{ID: id, Kind: kind, Last: &record.Last{Date: p.Date, Hours: p.Hours, Stated: stated}})
	}
	last("engine-oil", "2026-05-04 812.6", schedule.Replace, false)
	last("oil-filter", "2027-05-04 1100", schedule.Replace, false)
	last("belt", "2025-06-20 501", schedule.Replace, true)
	last("belt-look", "2026-05-04 812.6", schedule.Replace, false) // the other yard's has another kind of work by that id

	log := logbook.New(at(t, "2024-03-18 0"), nil, nil, chain(seventh), nil)
	if done := log.Done(ellery(), "engine-oil", day(t, "2028-01-01")); len(done) != 0 {
		t.Errorf("a log that carries nothing: %v", done)
	}
	log = log.Carrying(log.Own[0])
	for _, c := range []struct {
		task, until string
		on          string
		stated      bool
		want        int
	}{
		{"engine-oil", "2028-01-01", "2026-05-04 812.6", false, 1},
		{"engine-oil", "2026-05-03", "", false, 0},
		{"oil-filter", "2028-01-01", "2027-05-04 1100", false, 1},
		{"belt", "2028-01-01", "2025-06-20 501", true, 1},
		{"belt-look", "2028-01-01", "2025-06-20 501", true, 1}, // by the belt
		{"overhaul", "2028-01-01", "", false, 0},
	} {
		done := log.Done(ellery(), c.task, day(t, c.until))
		if len(done) != c.want {
			t.Errorf("%s: done %v", c.task, done)
			continue
		}
		if c.want == 1 && (done[0].Point != at(t, c.on) || done[0].Stated != c.stated || (done[0].Record == nil) != c.stated) {
			t.Errorf("%s: done %+v, want %s", c.task, done[0], c.on)
		}
	}
	// Is the record voided, what it did itself does not count, and the rest does.
	taken := logbook.New(at(t, "2024-03-18 0"), nil, nil, nil, nil).Carrying(chain(seventh)[0])
	if n := len(taken.Done(ellery(), "oil-filter", day(t, "2028-01-01"))); n != 0 {
		t.Errorf("the voided record's filter: done %d times", n)
	}
	if n := len(taken.Done(ellery(), "engine-oil", day(t, "2028-01-01"))); n != 1 {
		t.Errorf("the oil before the voided record: done %d times", n)
	}
}
