package check

import (
	"slices"
	"strconv"
	"strings"

	"hourseal/record"
	"hourseal/record/logbook"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// bench is one job being worked out: the input, what follows from it, and the
// findings so far.
type bench struct {
	Input
	log      logbook.Log
	draft    *record.Record
	here     schedule.Point  // the job's date and hours in total
	before   *record.Earlier // the machine's nearest record that counts, not after the job's date
	after    *record.Earlier // the nearest after it: this is late paperwork
	read     *record.Earlier // as before, or a nearer one of its engine
	readNext *record.Earlier // as after, or a nearer one of its engine
	use      schedule.Use    // as known on the job's date
	findings []Finding
}

func newBench(in Input) *bench {
	if in.Kind == 0 {
		in.Kind = record.Service
	}
	// A machine's record may have been written for its engine's, or the other way.
	own, engine := in.counting(in.Earlier), in.counting(in.Engine)
	b := &bench{Input: in, log: in.Machine.Log(own, engine)}
	date := in.Job.Date
	b.before, b.after = b.log.Before(date), b.log.After(date)
	b.read, b.readNext = b.log.ReadingBefore(date), b.log.ReadingAfter(date)
	b.use = in.Machine.UseOn(b.log, in.Driver, engine, date)
	b.draft = b.newDraft()
	b.here = schedule.Point{Date: date, Hours: b.draft.Job.Hours}
	b.draft.Job.SevereDuty = b.log.DutyWith(in.Job.SevereDuty)
	b.draft.Tasks = b.tasks()
	return b
}

// newDraft fills the record but for its tasks and findings.
func (b *bench) newDraft() *record.Record {
	m, job := b.Machine, b.Job
	r := &record.Record{
		Format: record.Format, Renderer: b.Renderer, Paper: b.Yard.Paper, PageHost: b.Yard.PageHost,
		Kind: b.Kind, Subject: b.Subject,
		Machine: record.Machine{
			ID: m.ID, Vessel: m.Vessel.Name, Hull: m.Vessel.Hull, Kind: m.Kind, Position: m.Position,
			Make: m.Make, Model: m.Model, Serial: m.Serial, RatedPower: m.RatedPower, InService: m.InService,
		},
		Job: record.Job{
			Date: job.Date, Meter: job.Meter, Reason: job.Reason, Place: job.Place, Number: job.Number, FuelUsed: job.FuelUsed,
		},
		By: job.By,
		Schedule: record.ScheduleRef{
			ID: b.Schedule.ID, Edition: uint(b.Schedule.Edition),
			Basis: b.Schedule.Basis, Digest: record.Digest(b.Schedule.Digest()),
		},
		OtherWork: job.OtherWork, Fluids: slices.Clone(job.Fluids), ToppedUp: job.ToppedUp, Waste: job.Waste,
		Parts: job.Parts, LeakCheck: job.LeakCheck, Notes: job.Notes, Files: b.Files,
		Issuer: record.Issuer{Name: b.Yard.Name, Kind: b.Yard.Kind, Contact: b.Yard.Contact, Address: b.Yard.Address},
		Number: 1, IssuedAt: b.Now,
	}
	if d := b.Driver; d != nil {
		r.Machine.DrivenBy = strings.Join([]string{d.Make, d.Model, d.Serial}, " ")
	}
	if n := len(b.Earlier); n > 0 {
		last := b.Earlier[n-1]
		r.Number = last.Record.Number + 1
		r.Previous = &record.Previous{Record: last.ID, Date: last.Record.Job.Date, Hours: last.Record.Job.Hours}
	}
	for i := range r.Fluids {
		if s, ok := m.System(r.Fluids[i].System); ok {
			f := &r.Fluids[i]
			f.AtUpper, f.BetweenMarks, f.FilterHolds, f.Holds, f.Density = s.AtUpper, s.BetweenMarks, s.FilterHolds, s.Holds, s.Density
		}
	}
	r.Job.Hours, r.Job.Meter.Offset = b.totalHours()
	return r
}

// totalHours adds the meters up: hours in total are the sum over all meters of
// (removed - fitted). A removed reading that is not known counts as the last
// one that was read, which is the least that it can have been.
func (b *bench) totalHours() (total, offset quantity.Hours) {
	meter := b.Job.Meter
	lastReading := b.Machine.InService.Hours
	if b.read != nil {
		last := b.read.Record.Job
		offset = last.Meter.Offset
		lastReading = last.Hours - offset
	}
	if change := meter.Change; change != nil {
		removed := lastReading
		if change.RemovedAt != nil {
			removed = *change.RemovedAt
		}
		offset += removed - change.FittedAt
	}
	if meter.Reading == nil {
		if b.Job.Estimate != nil {
			total = *b.Job.Estimate
		}
		return total, offset
	}
	return *meter.Reading + offset, offset
}

// find adds a finding about the place at path in the job sheet.
func (b *bench) find(severity record.Severity, path string, f record.Finding) {
	f.Severity = severity
	b.findings = append(b.findings, Finding{Finding: f, Path: path, At: b.Job.Source.At(path)})
}

func (b *bench) sinceLast() *SinceLast {
	if b.before == nil {
		return nil
	}
	last := logbook.PointOf(b.before.Record)
	return &SinceLast{Hours: b.here.Hours - last.Hours, Days: b.here.Date.Sub(last.Date), Record: b.before.ID}
}

func path(parts ...any) string {
	var b strings.Builder
	for i, p := range parts {
		if i > 0 {
			b.WriteByte('/')
		}
		switch p := p.(type) {
		case string:
			b.WriteString(p)
		case int:
			b.WriteString(strconv.Itoa(p))
		}
	}
	return b.String()
}

// num gives a finding's value or limit.
func num[T ~int64](v T) *int64 {
	n := int64(v)
	return &n
}
