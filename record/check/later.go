package check

import (
	"cmp"
	"fmt"
	"slices"

	"hourseal/record"
	"hourseal/record/jobsheet"
)

// counting is a chain as it counts for the job: that of a correction or void without
// the record it is about.
func (in Input) counting(chain []record.Earlier) []record.Earlier {
	if in.Kind != record.Correction && in.Kind != record.Void {
		return chain
	}
	taken := &record.Record{Kind: record.Void, Subject: in.Subject}
	return append(slices.Clip(chain), record.Earlier{Record: taken})
}

// WithoutSheet makes what has no job sheet: a void, or an addendum whose words are
// its Subject.Why. It is written today, and states nothing of the machine: its hours
// and meter offset are those of its subject, which has to be in Earlier, with no
// reading. Its tasks stand as they do after it. Job is not used; Files go with it.
func WithoutSheet(in Input) Result {
	in.Job = jobsheet.Job{Machine: in.Machine.ID, Date: in.Today}
	subject := in.subject()
	if (in.Kind != record.Void && in.Kind != record.Addendum) || subject == nil {
		return Result{Outcome: Malformed, Draft: &record.Record{Kind: in.Kind, Subject: in.Subject},
			Faults: jobsheet.Faults{{Message: "only a void or an addendum to a record of this machine needs no job sheet: name its record and write why"}}}
	}
	for _, f := range in.Files {
		in.Job.Files = append(in.Job.Files, f.Name)
	}
	of := subject.Record.Job
	in.Job.Reason, in.Job.Number = of.Reason, of.Number
	in.Job.Meter = record.Meter{State: record.NoMeter, Basis: fmt.Sprintf("as in record %d, nothing was read", subject.Record.Number)}
	in.Job.Estimate = &of.Hours
	b := newBench(in)
	b.draft.Job.Meter.Offset = of.Meter.Offset
	return b.result()
}

// subject is the record of the chain that this one is about; nil without it.
func (in Input) subject() *record.Earlier {
	if in.Subject == nil {
		return nil
	}
	if i := slices.IndexFunc(in.Earlier, func(e record.Earlier) bool { return e.ID == in.Subject.Record }); i >= 0 {
		return &in.Earlier[i]
	}
	return nil
}

// addendumFaults find work in the sheet of an addendum, where it would count for
// nothing, and a date before that of the record added to.
func (b *bench) addendumFaults() jobsheet.Faults {
	if b.Kind != record.Addendum {
		return nil
	}
	var faults jobsheet.Faults
	fault := func(at, field, format string, args ...any) {
		faults = append(faults, b.Job.Source.Fault(at, field, format, args...))
	}
	const own = "in an addendum it would not count: issue work as a job of its own, without --adds-to"
	for i, t := range b.Job.Tasks {
		if t.Result == record.Done {
			fault(path("tasks", i), "result", "%s was done; %s", t.ID, own)
		}
	}
	for i, f := range b.Job.Fluids {
		if f.Drained != nil || f.Filled != nil || f.DrawnDown != nil {
			fault(path("fluids", i), "fluids", "%s was drained or filled; %s", f.System, own)
		}
	}
	for _, other := range []struct {
		key    string
		stated bool
	}{
		{"topped_up", len(b.Job.ToppedUp) > 0},
		{"waste", len(b.Job.Waste) > 0},
		{"meter_change", b.Job.Meter.Change != nil},
	} {
		if other.stated {
			fault(other.key, other.key, "%s", own)
		}
	}
	slices.SortStableFunc(faults, func(a, b jobsheet.Fault) int { return cmp.Compare(a.Pos.Line, b.Pos.Line) })
	subject := b.subject()
	switch {
	case subject == nil:
		fault("machine", "machine", "the record that this adds to is of another machine")
	case b.Job.Date < subject.Record.Job.Date:
		fault("date", "date", "%v is before %v, the date of record %d that this adds to", b.Job.Date, subject.Record.Job.Date, subject.Record.Number)
	}
	return faults
}
