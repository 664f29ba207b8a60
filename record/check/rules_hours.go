package check

import (
	"strconv"

	"hourseal/record"
	"hourseal/record/logbook"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

func dateRules(b *bench) {
	job, m := b.Job, b.Machine
	if job.Date > b.Today {
		b.find(record.Refuse, "date", record.Finding{Code: record.DateInFuture, Value: num(job.Date), Limit: num(b.Today), Unit: record.AsDate})
	}
	if job.Date < m.InService.Date {
		b.find(record.Refuse, "date", record.Finding{Code: record.BeforeInService, Value: num(job.Date), Limit: num(m.InService.Date), Unit: record.AsDate})
	}
	if b.before == nil {
		b.find(record.Note, "machine", record.Finding{Code: record.NoEarlierRecord})
	}
	// The last by date, which need not be the last of the chain: that may be late
	// paperwork itself. Why a correction comes late is what it is made for.
	if b.after != nil && b.Kind == record.Service {
		last := b.log.Own[len(b.log.Own)-1].Record
		b.find(record.Decide, "date", record.Finding{Code: record.DateBeforeLast, Value: num(job.Date), Limit: num(last.Job.Date), Unit: record.AsDate})
	}
}

func hoursRules(b *bench) {
	total := b.here.Hours
	if b.Job.Meter.State != record.Running {
		b.find(record.Note, "hours", record.Finding{Code: record.HoursEstimated, Value: num(total), Unit: record.InHours, Text: b.Job.Meter.Basis})
	}
	b.meterChangeRules()
	if total < b.Machine.InService.Hours {
		b.find(record.Refuse, "hours", record.Finding{Code: record.HoursBelowInService, Value: num(total), Limit: num(b.Machine.InService.Hours), Unit: record.InHours})
	}
	if !b.belowEarlier(total, "hours") {
		from, severity := b.Machine.InService, record.Refuse
		if b.read != nil {
			from, severity = logbook.PointOf(b.read.Record), weight(b.read.Record)
		}
		b.againstClock(severity, from, b.here)
	}
	b.againstLater(total)
}

// meterChangeRules note a change of meter and hold the reading at which the old
// one came off to what it had read before.
func (b *bench) meterChangeRules() {
	change := b.Job.Meter.Change
	if change == nil {
		return
	}
	at := b.changedAt()
	b.find(record.Note, "meter_change", record.Finding{Code: record.MeterChanged, Value: num(at), Unit: record.InHours, Text: change.Why})
	if change.RemovedAt == nil {
		b.find(record.Note, "meter_change", record.Finding{Code: record.RemovedReadingLost, Value: num(at), Unit: record.InHours})
		return
	}
	if b.read == nil && at < b.Machine.InService.Hours {
		b.find(record.Refuse, "meter_change/removed_at", record.Finding{Code: record.HoursBelowInService, Value: num(at), Limit: num(b.Machine.InService.Hours), Unit: record.InHours})
	}
	b.belowEarlier(at, "meter_change/removed_at")
}

// changedAt is the hours in total at which the meter was changed.
func (b *bench) changedAt() quantity.Hours {
	return b.draft.Job.Meter.Offset + b.Job.Meter.Change.FittedAt
}

// weight is how much a record's hours can say against others: an estimate
// proves nothing.
func weight(r *record.Record) record.Severity {
	if r.Job.Meter.State == record.Running {
		return record.Refuse
	}
	return record.Decide
}

// belowEarlier holds hours in total to the highest that an earlier date read,
// and else to the highest that was estimated.
func (b *bench) belowEarlier(total quantity.Hours, at string) bool {
	for _, severity := range []record.Severity{record.Refuse, record.Decide} {
		var highest *record.Record
		for _, e := range b.log.Readings() {
			if e.Record.Job.Date < b.here.Date && weight(e.Record) == severity &&
				(highest == nil || e.Record.Job.Hours > highest.Job.Hours) {
				highest = e.Record
			}
		}
		if highest != nil && total < highest.Job.Hours {
			b.find(severity, at, record.Finding{Code: record.HoursBelowEarlier, Value: num(total), Limit: num(highest.Job.Hours), Unit: record.InHours, Text: highest.Job.Date.String()})
			return true
		}
	}
	return false
}

// againstLater holds the hours to the nearest later record, for paperwork that
// comes late.
func (b *bench) againstLater(total quantity.Hours) {
	if b.readNext == nil {
		return
	}
	later := logbook.PointOf(b.readNext.Record)
	if total > later.Hours {
		b.find(weight(b.readNext.Record), "hours", record.Finding{Code: record.HoursAboveLater, Value: num(total), Limit: num(later.Hours), Unit: record.InHours, Text: later.Date.String()})
		return
	}
	b.againstClock(weight(b.readNext.Record), b.here, later)
}

// againstClock finds a rise that no clock allows.
func (b *bench) againstClock(severity record.Severity, from, to schedule.Point) {
	limit := schedule.MostHours(from.Date, to.Date)
	if limit == 0 {
		return // a date before in-service has its own finding
	}
	if rise := to.Hours - from.Hours; rise > limit {
		b.find(severity, "hours", record.Finding{Code: record.HoursOutrunClock, Value: num(rise), Limit: num(limit), Unit: record.InHours, Text: from.Date.String()})
	}
}

// start is the point that the job's hours rose from: the nearest earlier
// reading, else entry into service.
func (b *bench) start() schedule.Point {
	if b.read != nil {
		return logbook.PointOf(b.read.Record)
	}
	return b.Machine.InService
}

// Hours that rise faster than this call for a reason: three times the expected
// use and a day's work more. Our own rule of thumb, no source.
const (
	useFactor = 3
	useMargin = quantity.Hours(2500)
)

// useKnown says whether a rise may be held to the machine's use: two or three
// readings say too little of it.
func (b *bench) useKnown() bool {
	return b.use.PerYear > 0 && b.use.Basis != schedule.FromFewReadings
}

func useRule(b *bench) {
	from := b.start()
	if !b.useKnown() || b.here.Date < from.Date {
		return
	}
	expected := b.use.Between(from.Date, b.here.Date)
	if rise := b.here.Hours - from.Hours; rise > useFactor*expected+useMargin {
		b.find(record.Decide, "hours", record.Finding{Code: record.HoursOutrunUse, Value: num(rise), Limit: num(expected.Whole()), Unit: record.InHours, Text: from.Date.String()})
	}
}

func jobNumberRule(b *bench) {
	if b.Job.Number == "" || b.Kind == record.Addendum { // which has that of its subject
		return
	}
	for _, e := range b.log.Own {
		if e.Record.Job.Number == b.Job.Number && !record.SameJob(e.Record, b.draft) {
			b.find(record.Decide, "job_number", record.Finding{Code: record.JobNumberUsed, Value: num(e.Record.Job.Date), Unit: record.AsDate, Text: b.Job.Number})
			return
		}
	}
}

// sameVisitRule asks about a job of the date and hours of an earlier record, which
// has no other job number: the sheet of a record that was changed since makes a
// second record of the one visit.
func sameVisitRule(b *bench) {
	if b.Kind == record.Addendum || b.Job.Meter.State != record.Running {
		return
	}
	for _, e := range b.log.Own {
		numbered := e.Record.Job.Number != "" && b.Job.Number != "" // jobNumberRule has those of one number
		if !numbered && logbook.PointOf(e.Record) == b.here && !record.SameJob(e.Record, b.draft) {
			b.find(record.Decide, "date", record.Finding{Code: record.SameVisit, Value: num(b.here.Date), Unit: record.AsDate, Text: strconv.FormatUint(uint64(e.Record.Number), 10)})
			return
		}
	}
}
