package history

import (
	"slices"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// lateIssue is how long after the work a record is asked about: a month and a
// fortnight. Common practice, no source.
const lateIssue quantity.Days = 45

// readingFaults holds the readings of those that count to each other.
func (m *Machine) readingFaults() {
	for n, i := range m.Counted {
		e := &m.Entries[i]
		if late := issuedOn(e.Record).Sub(e.Record.Job.Date); late > lateIssue && e.Record.Kind != record.Correction {
			m.Faults = append(m.Faults, Fault{Code: IssuedLate, Entry: i, Other: -1, Date: issuedOn(e.Record)})
		}
		if issuedOn(e.Record)+1 < e.Record.Job.Date { // a day for the clocks around the world
			m.Faults = append(m.Faults, Fault{Code: IssuedEarly, Entry: i, Other: -1, Date: issuedOn(e.Record)})
		}
		change := e.Record.Job.Meter.Change
		if change != nil && change.RemovedAt == nil {
			m.Faults = append(m.Faults, Fault{Code: MeterUnknown, Entry: i, Other: -1})
		}
		if n == 0 {
			continue
		}
		before := &m.Entries[m.Counted[n-1]]
		f := Fault{Entry: i, Other: m.Counted[n-1], From: before.Point(), To: e.Point()}
		ran := f.To.Hours - f.From.Hours
		switch {
		case ran < 0:
			f.Code = HoursBack
		case ran > schedule.MostHours(f.From.Date, f.To.Date):
			f.Code = HoursTooFast
		case change == nil && read(before.Record) && read(e.Record) && e.Record.Job.Meter.Offset != before.Record.Job.Meter.Offset:
			f.Code = OffsetOdd
		default:
			continue
		}
		m.Faults = append(m.Faults, f)
	}
	slices.SortStableFunc(m.Faults, byWeight)
}

// read says whether somebody read a meter.
func read(r *record.Record) bool { return r.Job.Meter.Reading != nil }
