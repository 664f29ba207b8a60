package render

import (
	"crypto/sha256"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/render/sheet/sheettest"
)

// A record that only speaks of another looks like no service: no job, no look for
// leaks, no bars from hours that nobody read. What one states all the same is shown.
func TestStatesNothing(t *testing.T) {
	about := sha256.Sum256([]byte("earlier"))
	later := func(kind record.Kind) *record.Record {
		r := shortest()
		r.Kind, r.Subject = kind, &record.Subject{Record: about, Why: "two meters were mixed up"}
		r.Job.Meter = record.Meter{State: record.NoMeter, Basis: "as in record 2, nothing was read"}
		r.Job.Place, r.By, r.LeakCheck, r.Findings = "", record.By{}, nil, nil
		return r
	}
	service := []string{"Hour meter", "estimate", "Reason", "Schedule items on this job", "Look for leaks", "Put off"}
	for _, kind := range []record.Kind{record.Void, record.Addendum} {
		said := sheettest.TextLayer(t, seal(t, later(kind)).report(t))
		if !strings.Contains(said, "as in record 2, nothing was read") {
			t.Errorf("%v: its hours are not said to be another's:\n%s", kind, said)
		}
		for _, word := range service {
			if strings.Contains(said, word) {
				t.Errorf("%v: it says %q:\n%s", kind, word, said)
			}
		}
	}
	stated := later(record.Void)
	stated.OtherWork = []record.OtherWork{{Text: "Replaced the hose", Result: record.Done}}
	if said := sheettest.TextLayer(t, seal(t, stated).report(t)); !strings.Contains(said, "Replaced the hose") || !strings.Contains(said, "Reason") {
		t.Errorf("what a void states is not shown:\n%s", said)
	}
	looked := later(record.Addendum)
	looked.Job.Meter = record.Meter{State: record.Running, Reading: &looked.Job.Hours}
	if said := sheettest.TextLayer(t, seal(t, looked).report(t)); !strings.Contains(said, "Hour meter") || strings.Contains(said, "Look for leaks") {
		t.Errorf("a look after:\n%s", said)
	}
}
