package check

import (
	"hourseal/record"
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
	n := len(b.Earlier)
	if n == 0 {
		b.find(record.Note, "machine", record.Finding{Code: record.NoEarlierRecord})
		return
	}
	if last := b.Earlier[n-1].Record; job.Date < last.Job.Date {
		b.find(record.Decide, "date", record.Finding{Code: record.DateBeforeLast, Value: num(job.Date), Limit: num(last.Job.Date), Unit: record.AsDate})
	}
}

func hoursRules(b *bench) {
	total := b.here.Hours
	if b.Job.Meter.State != record.Running {
		b.find(record.Note, "hours", record.Finding{Code: record.HoursEstimated, Value: num(total), Unit: record.InHours, Text: b.Job.Meter.Basis})
	}
	if change := b.Job.Meter.Change; change != nil {
		b.find(record.Note, "meter_change", record.Finding{Code: record.MeterChanged, Value: num(b.draft.Job.Meter.Offset + change.FittedAt), Unit: record.InHours, Text: change.Why})
		if change.RemovedAt == nil {
			b.find(record.Note, "meter_change", record.Finding{Code: record.RemovedReadingLost, Value: num(b.draft.Job.Meter.Offset + change.FittedAt), Unit: record.InHours})
		}
	}
	if total < b.Machine.InService.Hours {
		b.find(record.Refuse, "hours", record.Finding{Code: record.HoursBelowInService, Value: num(total), Limit: num(b.Machine.InService.Hours), Unit: record.InHours})
	}
	b.againstEarlier(total)
	b.againstLater(total)
}

// againstEarlier holds the hours to the highest that an earlier date read, and
// to what the clock allows since the nearest earlier record.
func (b *bench) againstEarlier(total quantity.Hours) {
	var highest *record.Record
	for _, e := range b.counting {
		if e.Record.Job.Date < b.here.Date && (highest == nil || e.Record.Job.Hours > highest.Job.Hours) {
			highest = e.Record
		}
	}
	if highest != nil && total < highest.Job.Hours {
		b.find(record.Refuse, "hours", record.Finding{Code: record.HoursBelowEarlier, Value: num(total), Limit: num(highest.Job.Hours), Unit: record.InHours, Text: highest.Job.Date.String()})
		return
	}
	b.againstClock(b.start(), b.here)
}

// againstLater does the same against the nearest later record, for paperwork
// that comes late.
func (b *bench) againstLater(total quantity.Hours) {
	if b.after == nil {
		return
	}
	later := pointOf(b.after)
	if total > later.Hours {
		b.find(record.Refuse, "hours", record.Finding{Code: record.HoursAboveLater, Value: num(total), Limit: num(later.Hours), Unit: record.InHours, Text: later.Date.String()})
		return
	}
	b.againstClock(b.here, later)
}

// againstClock refuses a rise that no clock allows. An hour meter is within 2 %
// or 0.1 h (SAE J1378, second hand), so that it rises by at most 24.48 h a day
// and 0.1 h. The time of day is not known, so both days count whole.
func (b *bench) againstClock(from, to schedule.Point) {
	days := int64(to.Date.Sub(from.Date)) + 1
	if days < 1 {
		return // a date before in-service has its own finding
	}
	limit := quantity.Hours(days*2448 + 10)
	if rise := to.Hours - from.Hours; rise > limit {
		b.find(record.Refuse, "hours", record.Finding{Code: record.HoursOutrunClock, Value: num(rise), Limit: num(limit), Unit: record.InHours, Text: from.Date.String()})
	}
}

// start is the point that the job's hours rose from: the nearest earlier
// record, else entry into service.
func (b *bench) start() schedule.Point {
	if b.before != nil {
		return pointOf(b.before)
	}
	return b.Machine.InService
}

// Hours that rise faster than this call for a reason: three times the expected
// use and a day's work more. Our own rule of thumb, no source.
const (
	useFactor = 3
	useMargin = quantity.Hours(2500)
)

func useRule(b *bench) {
	from, use := b.start(), b.use()
	days := int64(b.here.Date.Sub(from.Date))
	if use == 0 || days < 0 {
		return
	}
	expected := quantity.Hours(int64(use) * days * 100 / 36525)
	if rise := b.here.Hours - from.Hours; rise > useFactor*expected+useMargin {
		b.find(record.Decide, "hours", record.Finding{Code: record.HoursOutrunUse, Value: num(rise), Limit: num(expected), Unit: record.InHours, Text: from.Date.String()})
	}
}

func jobNumberRule(b *bench) {
	if b.Job.Number == "" {
		return
	}
	for _, e := range b.Earlier {
		if e.Record.Job.Number == b.Job.Number && !record.SameJob(e.Record, b.draft) {
			b.find(record.Decide, "job_number", record.Finding{Code: record.JobNumberUsed, Value: num(e.Record.Job.Date), Unit: record.AsDate, Text: b.Job.Number})
			return
		}
	}
}
