package check_test

import (
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/check"
)

// oddSheet has two findings of one code that need a reason, one of another that
// does, and a note.
func oddSheet(t *testing.T, accept string) string {
	return edits{
		{"2027-04-20", "2027-05-04"},
		{"  - { id: belt-look, result: ok }\n  - { id: belt, result: done }\n", ""},
		{"after: 15 min", "after: 4 min"},
		{"[API CI-4]", "[API CK-4]"},
	}.in(t, nextSheet) + accept
}

const (
	oddEarly = "decide level-read-early/engine-oil 4 min 5 min"
	oddNote  = `note oil-suits-by-table/engine-oil "API CK-4 for API CI-4"`
	oddLook  = "decide due-not-mentioned/belt-look 0d"
	oddBelt  = "decide due-not-mentioned/belt 1000h"
)

func TestAccept(t *testing.T) {
	const both = "  due-not-mentioned/belt: next month\n  due-not-mentioned/belt-look: with the belt\n"
	for _, c := range []struct {
		name    string
		accept  string
		faults  []string
		outcome check.Outcome
		reasons []string // in the order of the findings
	}{
		{name: "none", outcome: check.Undecided, reasons: []string{"", "", "", ""}},
		{name: "by code and by code/subject", accept: "accept:\n  level-read-early: the tide\n" + both, outcome: check.Issuable,
			reasons: []string{"with the belt", "next month", "the tide", ""}},
		{name: "by code/subject alone", accept: "accept:\n  level-read-early/engine-oil: the tide\n" + both, outcome: check.Issuable,
			reasons: []string{"with the belt", "next month", "the tide", ""}},
		{name: "one left", accept: "accept:\n" + both, outcome: check.Undecided, reasons: []string{"with the belt", "next month", "", ""}},
		{name: "one subject of a code left", accept: "accept:\n  level-read-early: the tide\n  due-not-mentioned/belt: next month\n", outcome: check.Undecided,
			reasons: []string{"", "next month", "the tide", ""}},
		{name: "bare code with two subjects", accept: "accept:\n  level-read-early: the tide\n  due-not-mentioned: next month\n", outcome: check.Malformed,
			faults:  []string{"sheet.yaml:27:3: accept: due-not-mentioned fits 2 findings: write due-not-mentioned/belt-look and due-not-mentioned/belt"},
			reasons: []string{"", "", "the tide", ""}},
		{name: "a finding that is not there", accept: "accept:\n  leak-seen: a drop\n  level-read-early: the tide\n" + both, outcome: check.Malformed,
			faults:  []string{"sheet.yaml:26:3: accept: leak-seen accepts nothing: this job has no such finding: take the line out"},
			reasons: []string{"with the belt", "next month", "the tide", ""}},
		{name: "another subject", accept: "accept:\n  level-read-early/gear-oil: the tide\n" + both, outcome: check.Malformed,
			faults:  []string{"sheet.yaml:26:3: accept: level-read-early/gear-oil accepts nothing: this job has no such finding: take the line out"},
			reasons: []string{"with the belt", "next month", "", ""}},
		{name: "no rule of that name", accept: "accept:\n  level-read-erly: the tide\n" + both, outcome: check.Malformed,
			faults:  []string{`sheet.yaml:26:20: accept: "level-read-erly" is no finding: write level-read-early`},
			reasons: []string{"with the belt", "next month", "", ""}},
		{name: "a note", accept: "accept:\n  oil-suits-by-table: as the handbook has it\n  level-read-early: the tide\n" + both, outcome: check.Malformed,
			faults:  []string{"sheet.yaml:26:3: accept: oil-suits-by-table needs no reason: take the line out"},
			reasons: []string{"with the belt", "next month", "the tide", ""}},
		{name: "twice", accept: "accept:\n  level-read-early: the tide\n  level-read-early/engine-oil: the rain\n" + both, outcome: check.Malformed,
			faults:  []string{"sheet.yaml:27:3: accept: level-read-early/engine-oil is accepted twice: keep one line"},
			reasons: []string{"with the belt", "next month", "the tide", ""}},
		{name: "every fault at once", accept: "accept:\n  leak-seen: a drop\n  oil-suits-by-table: fine\n" + both, outcome: check.Malformed,
			faults: []string{"sheet.yaml:26:3: accept: leak-seen accepts nothing: this job has no such finding: take the line out",
				"sheet.yaml:27:3: accept: oil-suits-by-table needs no reason: take the line out"},
			reasons: []string{"with the belt", "next month", "", ""}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newScene(t, nil, nil)
			s.issue(t, firstSheet)
			result := s.run(t, oddSheet(t, c.accept))
			wantSaid(t, result, oddLook, oddBelt, oddEarly, oddNote)
			wantFaults(t, result, c.faults...)
			if result.Outcome != c.outcome || (result.Passed != nil) != (c.outcome == check.Issuable) {
				t.Errorf("outcome %s, passed %v, want %s", result.Outcome, result.Passed != nil, c.outcome)
			}
			for i, f := range result.Findings {
				if f.Accepted != c.reasons[i] {
					t.Errorf("%v: accepted %q, want %q", f.Code, f.Accepted, c.reasons[i])
				}
			}
			if result.Passed == nil {
				return
			}
			for i, f := range result.Passed.CheckedRecord().Findings {
				if f.Accepted != c.reasons[i] {
					t.Errorf("record: %v: accepted %q, want %q", f.Code, f.Accepted, c.reasons[i])
				}
			}
		})
	}
}

func TestAcceptRefusal(t *testing.T) {
	s := newScene(t, nil, nil)
	s.issue(t, firstSheet)
	result := s.run(t, edits{{"hours: 1005", "hours: 812.5"}}.in(t, nextSheet)+"accept: { hours-below-earlier: the clock was slow }\n")
	wantFaults(t, result, "sheet.yaml:27:11: accept: hours-below-earlier cannot be true, no reason makes it so: correct the sheet")
	if result.Outcome != check.Refused || result.Passed != nil || result.Findings[0].Accepted != "" {
		t.Errorf("outcome %s, passed %v, accepted %q", result.Outcome, result.Passed, result.Findings[0].Accepted)
	}
}

// TestAcceptTwoOfOneSubject: two tests of the coolant on one job say the same of
// the same system, and no key could tell them apart: one reason is for both.
func TestAcceptTwoOfOneSubject(t *testing.T) {
	plan := edits{{"  - id: impeller\n", "  - id: coolant\n    title: Renew the coolant\n    kind: replace\n    every: { months: 36 }\n  - id: impeller\n"}}
	s := newScene(t, nil, plan)
	s.issue(t, firstSheet)
	sheet := edits{{"-27 C } }", "-20 C } }\n  - { id: coolant, result: done, reading: { freezing_point: -22 C } }"}}.in(t, nextSheet)
	result := s.run(t, sheet+"accept: { coolant-protection: laid up ashore }\n")
	wantSaid(t, result, "decide coolant-protection/coolant -20 °C -25 °C", "decide coolant-protection/coolant -22 °C -25 °C")
	wantFaults(t, result)
	if result.Outcome != check.Issuable {
		t.Errorf("outcome %s", result.Outcome)
	}
}

// TestOutcome: the worst of all that is said decides, and only a job without any
// of it passes.
func TestOutcome(t *testing.T) {
	for _, c := range []struct {
		name string
		edit edits
		want check.Outcome
	}{
		{"nothing said", nil, check.Issuable},
		{"a note", edits{{"reading: 0.85", "reading: 1.1"}}, check.Issuable},
		{"a decision", edits{{"reading: 0.85", "reading: 1.2"}}, check.Undecided},
		{"a decision and a refusal", edits{{"reading: 0.85", "reading: 1.2"}, {"hours: 1005", "hours: 812.5"}}, check.Refused},
		{"a refusal before a decision", edits{{"2027-04-20", "2028-04-20"}, {"reading: 0.85", "reading: 1.2"}}, check.Refused},
	} {
		s := newScene(t, nil, nil)
		s.issue(t, firstSheet)
		if result := s.run(t, c.edit.in(t, nextSheet)); result.Outcome != c.want || (result.Passed != nil) != (c.want == check.Issuable) {
			t.Errorf("%s: outcome %s, passed %v, want %s", c.name, result.Outcome, result.Passed != nil, c.want)
		}
	}
}

// TestAllAtOnce: everything wrong with a job is said in one go, in the order of
// the rules (dates, hours, job number, plate, answers, evidence, leaks, early and
// late, not mentioned, level, fill, oil, coolant, not measured), within a rule in
// the order of the sheet.
func TestAllAtOnce(t *testing.T) {
	s := newScene(t, edits{{"GB-ELS00042A323", "ELS-42"}}, nil)
	s.issue(t, firstSheet)
	s.today = day("2027-04-19")
	result := s.run(t, `machine: gannet-port
date: 2027-04-20
hours: 9900
reason: scheduled
job_number: J-2217
tasks:
  - { id: impeller, result: done }
  - { id: coolant-strength, result: defect, reading: { freezing_point: -20 C } }
  - { id: oil-filter, result: done }
fluids:
  - system: engine-oil
    drained: not measured
    filled: 21 L
    viscosity: 30
    meets: [API CD]
    level: { reading: 1.3, after: 2 min }
`)
	wantSaid(t, result,
		"refuse date-in-future 2027-04-20 2027-04-19",
		// 351 days, both ends whole: 352 x 24.48 + 0.1 = 8617.06.
		`refuse hours-outrun-clock 9087.4h 8617.06h "2026-05-04"`,
		// 420 x 351 / 365.25 = 403.61.
		`decide hours-outrun-use 9087.4h 404h "2026-05-04"`,
		`decide job-number-used 2026-05-04 "J-2217"`,
		`note hull-number-form "ELS-42"`,
		`refuse answer-missing/coolant-strength "defect"`,
		`refuse evidence-missing/impeller "part impeller"`,
		`refuse evidence-missing/oil-filter "part oil filter"`,
		"decide leak-check-missing/oil-filter",
		"note done-late/impeller 8687.4h 1212.6h",
		"note done-late/oil-filter 8887.4h 1012.6h",
		"decide due-not-mentioned/engine-oil 8887.4h 1012.6h",
		"decide due-not-mentioned/belt-look 8887.4h 1012.6h",
		"decide due-not-mentioned/belt 1000h",
		"decide level-overfilled/engine-oil 1.3 1.15",
		"decide level-read-early/engine-oil 2 min 5 min",
		"refuse fill-beyond-system/engine-oil 21 L 20 L",
		`decide oil-category/engine-oil "API CD; asked: API CI-4 or ACEA E7; API CD is older than API CI-4: an older one never answers a newer"`,
		`decide oil-viscosity/engine-oil "30; asked: 15W-40 or 10W-40; 30 is thinner when hot (9.3 to 12.5 mm2/s at 100 °C) than 15W-40 (12.5 to 16.3 mm2/s)"`,
		"decide coolant-protection/coolant -20 °C -25 °C",
		`note not-measured/engine-oil "drained"`,
		`note temperature-assumed/engine-oil 15 °C 10 °C "filled"`,
		`note temperature-assumed/engine-oil 40 °C 20 °C "level"`,
	)
	for _, f := range result.Findings {
		if !strings.HasPrefix(f.At, "sheet.yaml:") {
			t.Errorf("%v: place %q", f.Code, f.At)
		}
		if record.Rules[f.Code].Name == "" {
			t.Errorf("no rule %d", f.Code)
		}
	}
}
