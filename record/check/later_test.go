package check_test

import (
	"testing"

	"hourseal/record"
	"hourseal/record/check"
)

// of is a sheet as a later record of one of the chain.
func (s *scene) of(t *testing.T, sheet string, kind record.Kind, subject int) check.Result {
	t.Helper()
	in := s.input(t, sheet)
	in.Kind, in.Subject = kind, &record.Subject{Record: s.earlier[subject].ID, Why: "hours misread"}
	return check.Run(in)
}

// without is a later record that has no sheet.
func (s *scene) without(t *testing.T, kind record.Kind, subject int) check.Result {
	t.Helper()
	in := s.input(t, lookSheet)
	in.Kind, in.Subject = kind, &record.Subject{Record: s.earlier[subject].ID, Why: "booked on the wrong machine"}
	return check.WithoutSheet(in)
}

func rowOf(t *testing.T, r *record.Record, id string) record.Task {
	t.Helper()
	for _, row := range r.Tasks {
		if row.ID == id {
			return row
		}
	}
	t.Fatalf("no task %s", id)
	return record.Task{}
}

// TestCorrection: the correcting sheet is held to the chain without what it corrects,
// and takes its place at the end of the whole chain.
func TestCorrection(t *testing.T) {
	s := newScene(t, nil, nil)
	s.issue(t, firstSheet)
	s.issue(t, edits{{"2027-04-20", "2026-09-01"}, {"hours: 1005", "hours: 960"}}.in(t, nextSheet))
	s.issue(t, look(t, "2026-10-01", "970"))

	// As a service the sheet is late paperwork, of a job number and a visit that are
	// on record.
	right := edits{{"2027-04-20", "2026-09-01"}, {"hours: 1005", "hours: 950"}}.in(t, nextSheet)
	if r := s.run(t, right); r.Outcome != check.Undecided {
		t.Errorf("as a service: %v %v", r.Outcome, said(r))
	}
	r := s.of(t, right, record.Correction, 1)
	if r.Passed == nil {
		t.Fatalf("%v %v %v", r.Outcome, said(r), r.Faults)
	}
	made := r.Passed.CheckedRecord()
	if made.Kind != record.Correction || *made.Subject != (record.Subject{Record: s.earlier[1].ID, Why: "hours misread"}) {
		t.Errorf("made %v of %v", made.Kind, made.Subject)
	}
	if made.Number != 4 || made.Previous.Record != s.earlier[2].ID {
		t.Errorf("number %d, previous %v", made.Number, made.Previous)
	}
	if last := rowOf(t, made, "engine-oil").Last; last == nil || last.Hours != 95000 || last.Date != day("2026-09-01") {
		t.Errorf("oil last changed %v, want it as corrected", last)
	}
	wantSince(t, r, &check.SinceLast{Hours: 13740, Days: 120, Record: s.earlier[0].ID})

	// It is held to all others all the same.
	wrong := edits{{"2027-04-20", "2026-09-01"}, {"hours: 1005", "hours: 971"}}.in(t, nextSheet)
	if r := s.of(t, wrong, record.Correction, 1); r.Outcome != check.Refused {
		t.Errorf("above the record after: %v %v", r.Outcome, said(r))
	}
	// A correction of a correction is held to neither of the two.
	s.add(made)
	if r := s.of(t, right, record.Correction, 3); r.Passed == nil || r.SinceLast.Record != s.earlier[0].ID {
		t.Errorf("of a correction: %v %v since %v", r.Outcome, said(r), r.SinceLast)
	}
}

// TestVoidWithoutSheet: it states no reading, and its tasks stand as they do
// without the voided record.
func TestVoidWithoutSheet(t *testing.T) {
	s := newScene(t, nil, nil)
	first := s.issue(t, firstSheet)
	s.issue(t, edits{{"2027-04-20", "2026-09-01"}, {"hours: 1005", "hours: 960"}}.in(t, nextSheet))
	r := s.without(t, record.Void, 1)
	if r.Passed == nil {
		t.Fatalf("%v %v %v", r.Outcome, said(r), r.Faults)
	}
	made := r.Passed.CheckedRecord()
	if made.Kind != record.Void || made.Subject.Record != s.earlier[1].ID || made.Number != 3 {
		t.Errorf("%v of %v, number %d", made.Kind, made.Subject, made.Number)
	}
	if j := made.Job; j.Hours != 96000 || j.Meter.Reading != nil || j.Meter.State != record.NoMeter ||
		j.Meter.Basis != "as in record 2, nothing was read" || j.Date != s.today {
		t.Errorf("job %+v", j)
	}
	if row := rowOf(t, made, "engine-oil"); row.Last == nil || row.Last.Hours != first.Job.Hours || row.Result != 0 {
		t.Errorf("oil %+v, want it as last done in record 1", row)
	}
	if len(made.Findings) > 0 {
		t.Errorf("findings %v: a void has none", said(r))
	}
}

// TestAddendumMade: nothing that a service should have had is asked of it, what it
// tells counts for nothing done, and work in it is refused.
func TestAddendumMade(t *testing.T) {
	s := newScene(t, nil, nil)
	s.issue(t, firstSheet)
	// By then all is due; a service would have to say something of it.
	revisit := edits{{"2026-06-13", "2027-09-01"}, {"hours: 900", "hours: 1100"}, {"reason: inspection",
		"reason: scheduled\njob_number: J-2217\ntasks: [ { id: coolant-strength, result: ok, reading: { freezing_point: -27 C } } ]"}}.in(t, lookSheet)
	if r := s.run(t, revisit); r.Outcome != check.Undecided {
		t.Errorf("as a service: %v %v", r.Outcome, said(r))
	}
	r := s.of(t, revisit, record.Addendum, 0)
	if r.Passed == nil {
		t.Fatalf("%v %v %v", r.Outcome, said(r), r.Faults)
	}
	row := rowOf(t, r.Passed.CheckedRecord(), "coolant-strength")
	if row.Result != record.OK || len(row.Readings) != 1 || row.Last.Date != day("2026-05-04") {
		t.Errorf("row %+v: what was read is kept, and the test stands as last done", row)
	}
	// Evidence for what it mentions is asked for.
	bare := edits{{", reading: { freezing_point: -27 C }", ""}}.in(t, revisit)
	wantSaid(t, s.of(t, bare, record.Addendum, 0), `refuse evidence-missing/coolant-strength "reading freezing_point"`)
	// Work is none of its own.
	work := edits{{"result: ok, reading: { freezing_point: -27 C } }", "result: ok, reading: { freezing_point: -27 C } }, { id: impeller, result: done }"},
		{"reason: scheduled", "reason: scheduled\nfluids: [ { system: engine-oil, filled: 1 L } ]"}}.in(t, revisit)
	worked := s.of(t, work, record.Addendum, 0)
	wantFaults(t, worked,
		"sheet.yaml:5:11: fluids: engine-oil was drained or filled; in an addendum it would not count: issue work as a job of its own, without --adds-to",
		"sheet.yaml:7:84: result: impeller was done; in an addendum it would not count: issue work as a job of its own, without --adds-to")
	// A visit before the record that it adds to is none after it.
	early := edits{{"2026-06-13", "2026-05-03"}, {"hours: 900", "hours: 812"}}.in(t, lookSheet)
	wantFaults(t, s.of(t, early, record.Addendum, 0), "sheet.yaml:2:7: date: 2026-05-03 is before 2026-05-04, the date of record 1 that this adds to")

	words := s.without(t, record.Addendum, 0)
	if words.Passed == nil || words.Passed.CheckedRecord().Subject.Why != "booked on the wrong machine" {
		t.Errorf("of words alone: %v %v", words.Outcome, words.Faults)
	}
}

// TestWithoutSheetOfNothing: there is none but of a record of the chain.
func TestWithoutSheetOfNothing(t *testing.T) {
	s := newScene(t, nil, nil)
	s.issue(t, firstSheet)
	for name, in := range map[string]check.Input{
		"a service":    {Kind: record.Service},
		"a correction": {Kind: record.Correction, Subject: &record.Subject{Record: s.earlier[0].ID, Why: "x"}},
		"no subject":   {Kind: record.Void},
		"another's":    {Kind: record.Void, Subject: &record.Subject{Record: record.ID{1, 2, 3}, Why: "x"}},
	} {
		whole := s.input(t, lookSheet)
		whole.Kind, whole.Subject = in.Kind, in.Subject
		if r := check.WithoutSheet(whole); r.Outcome != check.Malformed || r.Passed != nil || len(r.Faults) != 1 {
			t.Errorf("%s: %v %v", name, r.Outcome, r.Faults)
		}
	}
	// Without a reason no record can be made of it.
	whole := s.input(t, lookSheet)
	whole.Kind, whole.Subject = record.Void, &record.Subject{Record: s.earlier[0].ID}
	if r := check.WithoutSheet(whole); r.Outcome != check.Malformed || r.Passed != nil {
		t.Errorf("no reason: %v %v", r.Outcome, r.Faults)
	}
}

// TestAfterAnother: a chain that another yard began goes on with its numbers, cites
// its record, and what that has as last done before it counts: the oil, of which 7
// itself says nothing, is 37 h late.
func TestAfterAnother(t *testing.T) {
	s := newScene(t, nil, nil)
	s.issue(t, firstSheet)
	seventh := *s.issue(t, look(t, "2026-09-01", "940"))
	seventh.Number, seventh.Machine.ID = 7, "pe-12"
	s.earlier = []record.Earlier{{ID: record.ID{7}, Record: &seventh}}
	late := edits{{"hours: 1005", "hours: 1049.6"}}.in(t, nextSheet) // due at 1012.6 h
	r := s.run(t, late)
	if d := r.Draft; d.Number != 8 || d.Previous == nil || d.Previous.Record != s.earlier[0].ID || d.Previous.Hours != 94000 {
		t.Errorf("number %d, previous %v", d.Number, d.Previous)
	}
	found := false
	for _, f := range r.Findings {
		found = found || f.Code == record.DoneLate && f.Subject == "engine-oil" && *f.Value == 3700
	}
	if !found {
		t.Errorf("said %v, want the oil 37 h late", said(r))
	}
	wantSince(t, r, &check.SinceLast{Hours: 10960, Days: 231, Record: record.ID{7}})

	// A statement of this yard's cannot put it right: 2026-05-04 is on record.
	stated := newScene(t, edits{{"{ task: engine-oil, date: 2025-06-20, hours: 501", "{ task: engine-oil, date: 2026-05-05, hours: 813"}}, nil)
	stated.earlier = s.earlier
	if r := stated.run(t, late); r.Outcome != check.Malformed {
		t.Errorf("%v %v", r.Outcome, r.Faults)
	}
}
