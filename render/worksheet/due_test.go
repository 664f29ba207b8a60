package worksheet

import (
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/plan"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// Without a sealed record an item is due and never late, by any word, and no
// amount past is held against it.
func TestNoRecordIsNeverLate(t *testing.T) {
	s := gannet(t)
	for i := range s.Work {
		item := &s.Work[i]
		item.State, item.With = schedule.Now, nil
		item.Last = nil
		if i == 1 {
			item.Last = &plan.Last{Point: schedule.Point{Date: date("2025-06-20"), Hours: hours("501")}, Source: "owner"}
		}
	}
	said := textOf(t, s)
	due, _, _ := strings.Cut(said, "What to bring")
	for _, word := range []string{"overdue", " late", " past", "631 h", "330 h"} {
		if strings.Contains(due, word) {
			t.Errorf("says %q of an item without a sealed record", word)
		}
	}
	for _, want := range []string{"due, counted from entry into service", "due, counted from what is stated", "stated, not under seal: owner",
		"no record of it, counted from entry into service, 2024-03-18, 0 h", "On 2026-05-04: put off, why: part on order"} {
		if !strings.Contains(due, want) {
			t.Errorf("no %q in %s", want, due)
		}
	}
	s.Work[0].Last, s.Work[0].State = &plan.Last{Record: &plan.Cited{Number: 7}}, schedule.Overdue
	if due, _, _ := strings.Cut(textOf(t, s), "What to bring"); !strings.Contains(due, "overdue 18.4 h past") || !strings.Contains(due, "record 7") {
		t.Errorf("a sealed record, past its grace: %s", due)
	}
}

// What another look or an advice makes due is said to be due by that; without a
// sealed record of the work itself it is never late either, and no amount past is
// held against it.
func TestDueByWhatARecordAsked(t *testing.T) {
	sealed := &plan.Last{Record: &plan.Cited{Number: 7}}
	stated := &plan.Last{Source: "invoice"}
	ago, ahead := new(-hours("20")), new(hours("20"))
	look := &plan.Open{Result: record.Watch, LookAgain: schedule.Due{Hours: new(hours("1011"))}}
	later := &plan.Open{Result: record.Watch, LookAgain: schedule.Due{Hours: new(hours("1200"))}}
	beforeUse := &plan.Open{Result: record.Deferred, Answer: &record.Answer{Advice: record.BeforeUse}}
	defect := &plan.Open{Result: record.Defect}
	for _, c := range []struct {
		what  string
		state schedule.State
		last  *plan.Last
		left  *quantity.Hours
		open  *plan.Open
		want  string
	}{
		{"no record, look again", schedule.Now, nil, ago, look, "due for another look"},
		{"stated, look again", schedule.Now, stated, ago, look, "due for another look"},
		{"a record, look again", schedule.Now, sealed, ago, look, "due for another look|20 h past"},
		{"late by its schedule, look again", schedule.Overdue, sealed, ago, look, "overdue|20 h past"},
		{"no record, overdue by mistake", schedule.Overdue, nil, ago, look, "due for another look"},
		{"no record, nothing open, overdue by mistake", schedule.Overdue, nil, nil, nil, "due"},
		{"no record, before use", schedule.Now, nil, ahead, beforeUse, "due, as the last record asked"},
		{"a record, before use", schedule.Now, sealed, ahead, beforeUse, "due, as the last record asked"},
		{"before use, and past", schedule.Now, nil, ago, beforeUse, "due, counted from entry into service"},
		{"a look that waits", schedule.Soon, nil, ahead, later, "soon due|20 h left"},
		{"found and left", schedule.Soon, sealed, ahead, defect, "defect left open|20 h left"},
		{"at the very hour", schedule.Now, sealed, new(quantity.Hours(0)), nil, "due"},
	} {
		s := gannet(t)
		p, err := set(s)
		if err != nil {
			t.Fatal(err)
		}
		var said []string
		for _, part := range p.stands(plan.Item{State: c.state, Last: c.last, HoursLeft: c.left, Open: c.open}) {
			said = append(said, part.Text)
		}
		if got := strings.Join(said, "|"); got != c.want {
			t.Errorf("%s: %q, want %q", c.what, got, c.want)
		}
	}
}

// Hours that were worked out are whole ones: less than half an hour is no amount.
func TestHoursThatRoundToNothing(t *testing.T) {
	s := gannet(t)
	s.Plan.Hours.Given = false
	s.Work[0].HoursLeft, s.Work[0].DaysLeft = new(-hours("0.4")), nil
	if said := textOf(t, s); strings.Contains(said, "0 h past") || strings.Contains(said, "not stated") {
		t.Errorf("got %.900s", said)
	}
}
