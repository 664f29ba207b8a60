package check

import (
	"errors"
	"fmt"
	"slices"

	"hourseal/record"
	"hourseal/record/jobsheet"
)

// faults are what is malformed in the sheet and in the machine file once they are
// held to each other, the schedule and the earlier records. A task or system
// that the others do not know would be left out of the record in silence.
func (b *bench) faults() jobsheet.Faults {
	var faults jobsheet.Faults
	if err := jobsheet.Resolve(b.Job, b.Machine, b.Schedule); err != nil && !errors.As(err, &faults) {
		faults = jobsheet.Faults{b.Job.Source.Fault("", "", "%v", err)}
	}
	for _, fault := range []*jobsheet.Fault{b.driverFault(), b.meterFault()} {
		if fault != nil {
			faults = append(faults, *fault)
		}
	}
	faults = append(append(faults, b.statementFaults()...), b.fileFaults()...)
	return append(faults, b.addendumFaults()...)
}

func (b *bench) driverFault() *jobsheet.Fault {
	id := b.Machine.DrivenBy
	if id == "" || b.Driver != nil && b.Driver.ID == id {
		return nil
	}
	fault := b.Machine.Source.Fault("driven_by", "driven_by", "the machine file of %s is not at hand: its hours count here", id)
	return &fault
}

// meterFault finds hours that are below those of the change of meter which the
// same sheet declares.
func (b *bench) meterFault() *jobsheet.Fault {
	if b.Job.Meter.Change == nil || b.here.Hours >= b.changedAt() {
		return nil
	}
	fault := b.Job.Source.Fault("meter_change", "meter_change",
		"the hours come to %v in total, and the meter was changed at %v: correct hours, removed_at or fitted_at", b.here.Hours, b.changedAt())
	return &fault
}

// statementFaults find what the machine file states as done after the first
// sealed record: such a line would hide how late the next job was.
func (b *bench) statementFaults() jobsheet.Faults {
	first := b.firstSealed()
	if first == nil {
		return nil
	}
	var faults jobsheet.Faults
	for i, s := range b.Machine.Earlier {
		if s.At.Date > first.Job.Date {
			faults = append(faults, b.Machine.Source.Fault(fmt.Sprintf("earlier/%d/date", i), "date",
				"%v is after the first record, %v: earlier is for what was done before it; take the line out and write a job sheet", s.At.Date, first.Job.Date))
		} else if last := b.carriedLast(s.Task); last != nil && s.At.Date > last.Date {
			faults = append(faults, b.Machine.Source.Fault(fmt.Sprintf("earlier/%d/date", i), "date",
				"%v is after %v, when the record that this yard's follow on has %s as last done: take the line out", s.At.Date, last.Date, s.Task))
		}
	}
	return faults
}

// carriedLast is when a task was last done by the first record of a chain that
// another yard began; nil where it has no record of that.
func (b *bench) carriedLast(task string) *record.Last {
	if len(b.Earlier) == 0 || b.Earlier[0].Record.Previous == nil {
		return nil
	}
	for _, row := range b.Earlier[0].Record.Tasks {
		if row.ID == task && row.Last != nil && !row.Last.Stated {
			return row.Last
		}
	}
	return nil
}

// firstSealed is the first record of the chain that counts; nil without one.
func (b *bench) firstSealed() *record.Record {
	for _, e := range b.Earlier {
		if slices.ContainsFunc(b.log.Own, func(c record.Earlier) bool { return c.Record == e.Record }) {
			return e.Record
		}
	}
	return nil
}

// fileFaults find files that the sheet names and the record would not have, or the
// other way: what is signed is the hash of a file that somebody had in hand.
func (b *bench) fileFaults() jobsheet.Faults {
	var faults jobsheet.Faults
	named := b.Job.Files
	for i, name := range named {
		if i >= len(b.Files) || b.Files[i].Name != name {
			return append(faults, b.Job.Source.Fault(path("files", i), "files", "%s is not at hand: put it there with hourseal attach, or take it out", name))
		}
	}
	if len(b.Files) > len(named) {
		faults = append(faults, b.Job.Source.Fault("files", "files", "%s is not named in the sheet: name it, or leave the file out", b.Files[len(named)].Name))
	}
	return faults
}
