package check_test

import (
	"testing"

	"hourseal/record"
	"hourseal/record/check"
)

func look(t *testing.T, date, hours string) string {
	return edits{{"2026-06-13", date}, {"hours: 900", "hours: " + hours}}.in(t, lookSheet)
}

func wantSince(t *testing.T, r check.Result, want *check.SinceLast) {
	t.Helper()
	if (r.SinceLast == nil) != (want == nil) || want != nil && *r.SinceLast != *want {
		t.Errorf("since last %+v, want %+v", r.SinceLast, want)
	}
}

// TestLatePaperwork: a job dated before the last record needs a reason, is held
// to the records on both sides, and cites the last of the chain.
func TestLatePaperwork(t *testing.T) {
	s := newScene(t, nil, nil)
	s.issue(t, firstSheet)
	s.issue(t, look(t, "2026-09-01", "940"))

	result := s.run(t, look(t, "2026-06-13", "860"))
	wantSaid(t, result, "decide date-before-last 2026-06-13 2026-09-01")
	wantSince(t, result, &check.SinceLast{Hours: 4740, Days: 40, Record: s.earlier[0].ID})
	wantSaid(t, s.run(t, look(t, "2026-06-13", "812.5")), "decide date-before-last 2026-06-13 2026-09-01", `refuse hours-below-earlier 812.5h 812.6h "2026-05-04"`)
	wantSaid(t, s.run(t, look(t, "2026-06-13", "940.1")), "decide date-before-last 2026-06-13 2026-09-01", `refuse hours-above-later 940.1h 940h "2026-09-01"`)

	late := s.issue(t, look(t, "2026-06-13", "860"))
	if p := late.Previous; late.Number != 3 || p.Record != s.earlier[1].ID || p.Date != day("2026-09-01") || p.Hours != 94000 {
		t.Errorf("number %d, previous %+v", late.Number, p)
	}
	// The last of the chain is the late one now; the last by date still counts.
	wantSaid(t, s.run(t, look(t, "2026-08-01", "900")), "decide date-before-last 2026-08-01 2026-09-01")
	wantSaid(t, s.run(t, look(t, "2026-08-01", "859.9")), "decide date-before-last 2026-08-01 2026-09-01", `refuse hours-below-earlier 859.9h 860h "2026-06-13"`)
	after := s.run(t, look(t, "2026-09-20", "950"))
	wantSaid(t, after)
	wantSince(t, after, &check.SinceLast{Hours: 1000, Days: 19, Record: s.earlier[1].ID})
}

// TestPaperworkBeforeTheFirst: on its own day it had no earlier record, and
// nothing is early or late.
func TestPaperworkBeforeTheFirst(t *testing.T) {
	s := newScene(t, nil, nil)
	s.issue(t, firstSheet)
	sheet := edits{{"2026-05-04", "2026-03-01"}, {"hours: 812.6", "hours: 790"}, {"J-2217", "J-2100"}}.in(t, firstSheet)
	result := s.run(t, sheet)
	wantSaid(t, result, "note no-earlier-record", "decide date-before-last 2026-03-01 2026-05-04")
	wantSince(t, result, nil)
	if p := result.Draft.Previous; p == nil || p.Record != s.earlier[0].ID {
		t.Errorf("previous %+v", p)
	}
}

// TestVoidedRecord: it does not count for hours, dates, due points, job numbers
// or what has passed since; the chain still cites it.
func TestVoidedRecord(t *testing.T) {
	s := newScene(t, nil, nil)
	s.issue(t, firstSheet)
	wrong := edits{{"2027-04-20", "2026-09-01"}, {"hours: 1005", "hours: 960"}}.in(t, nextSheet)
	s.issue(t, wrong)
	wantSaid(t, s.run(t, look(t, "2026-06-14", "900")), "decide date-before-last 2026-06-14 2026-09-01")
	last := s.void(s.earlier[1].ID, nil)

	wantSaid(t, s.run(t, look(t, "2026-06-14", "900")))
	right := s.run(t, nextSheet) // of the same job number
	wantSaid(t, right)
	wantSince(t, right, &check.SinceLast{Hours: 19240, Days: 351, Record: s.earlier[0].ID})
	if r := right.Draft; r.Number != 4 || r.Previous.Record != last {
		t.Errorf("number %d, previous %+v", r.Number, r.Previous)
	}
	if got := nextOf(s.run(t, look(t, "2026-10-01", "965")), "engine-oil"); got != "1012.6 2027-05-04 hours later" && got != "1012.6 2027-05-04 date later" {
		t.Errorf("next %s, want it from the first record", got)
	}
}

func TestOnlyRecordVoided(t *testing.T) {
	s := newScene(t, nil, nil)
	s.issue(t, firstSheet)
	s.void(s.earlier[0].ID, nil)
	result := s.run(t, firstSheet)
	wantSaid(t, result, "note no-earlier-record")
	wantSince(t, result, nil)
}

// TestCorrectedRecord: the correction stands in the place of what it corrects.
func TestCorrectedRecord(t *testing.T) {
	s := newScene(t, nil, nil)
	s.issue(t, firstSheet)
	s.issue(t, look(t, "2026-09-01", "990"))
	wantSaid(t, s.run(t, look(t, "2026-10-01", "960")), `refuse hours-below-earlier 960h 990h "2026-09-01"`)
	right := *s.earlier[1].Record
	right.Job.Hours, right.Job.Meter.Reading = 90900, new(right.Job.Hours-8100)
	s.void(s.earlier[1].ID, &right)
	wantSaid(t, s.run(t, look(t, "2026-10-01", "960")))
	wantSaid(t, s.run(t, look(t, "2026-10-01", "908.9")), `refuse hours-below-earlier 908.9h 909h "2026-09-01"`)
}

// TestAddendum: it adds to a record and is no visit of its own.
func TestAddendum(t *testing.T) {
	s := newScene(t, nil, nil)
	s.issue(t, firstSheet)
	note := *s.earlier[0].Record
	note.Kind, note.Subject = record.Addendum, &record.Subject{Record: s.earlier[0].ID, Why: "laboratory sheet came"}
	note.Job.Date, note.Job.Hours = day("2026-08-01"), 99900
	s.add(&note)
	result := s.run(t, look(t, "2026-06-13", "860"))
	wantSaid(t, result)
	wantSince(t, result, &check.SinceLast{Hours: 4740, Days: 40, Record: s.earlier[0].ID})
}

// TestMeters: hours in total are the sum over all meters of (removed - fitted).
func TestMeters(t *testing.T) {
	busy := edits{{"expected_hours_per_year: 420", "expected_hours_per_year: 1000"}}
	const change = "\nmeter_change: { removed_at: 1482.3, fitted_at: 12, why: glass broken }"
	s := newScene(t, busy, nil)
	s.issue(t, look(t, "2026-05-04", "1400"))

	// A 0 to 1482.3, B fitted at 12.0, now 87.5: 1557.8 in total.
	r := s.issue(t, look(t, "2026-08-01", "87.5"+change))
	if r.Job.Hours.String() != "1557.8" || r.Job.Meter.Offset.String() != "1470.3" {
		t.Errorf("%v in total, offset %v", r.Job.Hours, r.Job.Meter.Offset)
	}
	// The next sheet states the new meter's reading alone.
	result := s.run(t, look(t, "2026-09-01", "100"))
	if got := result.Draft.Job.Hours.String(); got != "1570.3" {
		t.Errorf("%s in total", got)
	}
}

// TestMeterRemovedUnknown: the old meter counts as it was last read, the least
// that it can have been: at 1400 in the record, at 0 without one.
func TestMeterRemovedUnknown(t *testing.T) {
	const change = "87.5\nmeter_change: { removed_at: unknown, fitted_at: 12, why: glass broken }"
	for _, c := range []struct{ first, want string }{{"1400", "1475.5"}, {"", "75.5"}, {"{ meter: stopped, estimate: 1300, basis: log }", "1375.5"}} {
		s := newScene(t, edits{useUnknown}, nil)
		if c.first != "" {
			s.issue(t, look(t, "2026-05-04", c.first))
		}
		result := s.run(t, look(t, "2026-08-01", change))
		if got := result.Draft.Job.Hours.String(); got != c.want {
			t.Errorf("after %q: %s in total, want %s", c.first, got, c.want)
		}
		wantFaults(t, result)
	}
}

// TestMeterChangeContradicted: the hours cannot be below those at which the
// same sheet changed the meter.
func TestMeterChangeContradicted(t *testing.T) {
	s := newScene(t, nil, nil)
	s.issue(t, firstSheet)
	result := s.run(t, look(t, "2026-06-13", "11.9\nmeter_change: { removed_at: 850, fitted_at: 12, why: glass broken }"))
	wantFaults(t, result, "sheet.yaml:4:15: meter_change: the hours come to 849.9 in total, and the meter was changed at 850: correct hours, removed_at or fitted_at")
	wantFaults(t, s.run(t, look(t, "2026-06-13", "12\nmeter_change: { removed_at: 850, fitted_at: 12, why: glass broken }")))
}

// TestMeterStopped: an estimate counts in total; the meter's own reckoning goes
// on when it runs again.
func TestMeterStopped(t *testing.T) {
	s := newScene(t, nil, nil)
	s.issue(t, firstSheet)
	r := s.issue(t, look(t, "2026-06-13", "{ meter: stopped, estimate: 860, basis: engine log }"))
	if r.Job.Hours != 86000 || r.Job.Meter.Reading != nil || r.Job.Meter.State != record.Stopped || r.Job.Meter.Basis != "engine log" {
		t.Errorf("job %+v", r.Job)
	}
	wantSaid(t, s.run(t, look(t, "2026-07-13", "812.5")), `refuse hours-below-earlier 812.5h 812.6h "2026-05-04"`)
	wantSaid(t, s.run(t, look(t, "2026-07-13", "860")))
}

// TestEstimateProvesNothing: hours that do not agree with an estimate are asked
// about, not refused; the estimate was perhaps wrong.
func TestEstimateProvesNothing(t *testing.T) {
	s := newScene(t, edits{useUnknown}, nil)
	s.issue(t, firstSheet)
	s.issue(t, look(t, "2026-06-13", "{ meter: stopped, estimate: 860, basis: engine log }"))
	wantSaid(t, s.run(t, look(t, "2026-07-13", "859.9")), `decide hours-below-earlier 859.9h 860h "2026-06-13"`)
	wantSaid(t, s.run(t, look(t, "2026-06-12", "860.1")), "decide date-before-last 2026-06-12 2026-06-13", `decide hours-above-later 860.1h 860h "2026-06-13"`)
	// 2 x 24.48 + 0.1 = 49.06 h.
	wantSaid(t, s.run(t, look(t, "2026-06-14", "909.07")), `decide hours-outrun-clock 49.07h 49.06h "2026-06-13"`)
	wantSaid(t, s.run(t, look(t, "2026-06-14", "909.06")))
}

// TestSameSheetAgain: a sheet that is issued already is no second job of its
// number.
func TestSameSheetAgain(t *testing.T) {
	s := newScene(t, nil, nil)
	s.issue(t, firstSheet)
	for _, f := range s.run(t, firstSheet).Findings {
		if f.Code == record.JobNumberUsed {
			t.Errorf("finding %s", saidOne(f.Finding))
		}
	}
}

// TestUseOfAnEstimateTooHigh: a chain whose hours went down says nothing of the
// use.
func TestUseOfAnEstimateTooHigh(t *testing.T) {
	s := newScene(t, edits{useUnknown}, nil)
	s.issue(t, look(t, "2026-05-04", "{ meter: stopped, estimate: 900, basis: engine log }"))
	s.issue(t, look(t, "2026-08-01", "850"))
	for _, f := range s.run(t, look(t, "2027-08-01", "860")).Findings {
		if f.Code == record.HoursOutrunUse {
			t.Errorf("finding %s", saidOne(f.Finding))
		}
	}
}
