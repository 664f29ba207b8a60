package historytest

import (
	"cmp"
	"crypto/sha256"
	"fmt"
	"slices"
	"strings"

	"hourseal/record"
	"hourseal/record/logbook"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// Technician is no word that any text about a history may hold.
const Technician = "K-118"

// record makes the record of an entry, as its yard would: the rows of its tasks by
// the records that it cites, directly or by way of others.
func (w *Told) record(y *Record, machine string, e *Sealed, nth int) *record.Record {
	w.t.Helper()
	yard, date, hours := w.yard(y.Yard), quantity.Date(y.On), quantity.Hours(y.Hours)
	const afternoon = 16 * 3600
	r := &record.Record{
		Format: record.Format, Renderer: 1, Paper: record.A4, Kind: record.Service, Machine: w.machine(machine),
		Job:    record.Job{Date: date, Hours: hours, Reason: record.Scheduled, Number: y.As},
		By:     record.By{Number: Technician},
		Issuer: record.Issuer{Name: yard.Name, Kind: record.YardIssuer},
		Number: 1, IssuedAt: int64(date)*86400 + afternoon,
	}
	if y.Issued != nil {
		r.IssuedAt = int64(*y.Issued)*86400 + afternoon
	}
	if p := e.Previous; p != nil {
		r.Number = p.Record.Number + 1
		r.Previous = &record.Previous{Record: p.ID, Date: p.Record.Job.Date, Hours: p.Record.Job.Hours}
		if y.Cites != nil {
			r.Previous.Date, r.Previous.Hours = y.Cites.Date, y.Cites.Hours
		}
	}
	r.Number = cmp.Or(y.Number, r.Number)
	w.subject(y, r, e)
	r.Job.Meter = w.meter(y, e, hours)
	s := w.schedule(y.Edition)
	r.Schedule = record.ScheduleRef{ID: s.ID, Edition: s.Edition, Digest: sha256.Sum256(fmt.Append(nil, s.ID, s.Edition)),
		Basis: schedule.Basis{Kind: word[schedule.BasisKind](w.t, schedule.BasisKinds(), s.Basis)}}
	for _, task := range s.Tasks {
		r.Tasks = append(r.Tasks, w.row(y, r, e, task, nth))
	}
	for id := range y.Did {
		if !slices.ContainsFunc(s.Tasks, func(task *Task) bool { return task.ID == id }) {
			w.t.Fatalf("record %s: no task %q", y.As, id)
		}
	}
	w.materials(y, r)
	return r
}

func (w *Told) subject(y *Record, r *record.Record, e *Sealed) {
	for kind, label := range map[record.Kind]string{record.Correction: y.Corrects, record.Void: y.Voids, record.Addendum: y.AddsTo} {
		if label != "" {
			e.About = w.Find(label)
			r.Kind, r.Subject = kind, &record.Subject{Record: e.About.ID, Why: y.Why}
		}
	}
}

// meter goes on with the meter of the record before it, unless told otherwise.
func (w *Told) meter(y *Record, e *Sealed, hours quantity.Hours) record.Meter {
	if y.Estimate != "" {
		return record.Meter{State: record.Stopped, Basis: y.Estimate}
	}
	m := record.Meter{State: record.Running}
	if e.Previous != nil {
		m.Offset = e.Previous.Record.Job.Meter.Offset
	}
	m.Reading = new(hours - m.Offset)
	if y.Meter == nil {
		return m
	}
	if y.Meter.Reading != nil {
		m.Reading = (*quantity.Hours)(y.Meter.Reading)
		m.Offset = hours - *m.Reading
	}
	if y.Meter.Fitted != nil {
		m.Change = &record.MeterChange{FittedAt: quantity.Hours(*y.Meter.Fitted), Why: y.Meter.Why}
		if y.Meter.Removed != "unknown" {
			m.Change.RemovedAt = new(must[quantity.Hours](w.t)(quantity.ParseHours(y.Meter.Removed)))
		}
	}
	return m
}

func (w *Told) schedule(edition uint) *Schedule {
	w.t.Helper()
	if edition == 0 {
		return w.Schedules[0]
	}
	i := slices.IndexFunc(w.Schedules, func(s *Schedule) bool { return s.Edition == edition })
	if i < 0 {
		w.t.Fatalf("no edition %d", edition)
	}
	return w.Schedules[i]
}

// row is a task as it stands after a record: what the next interval counts from is
// when it was last done, or the entry into service.
func (w *Told) row(y *Record, r *record.Record, e *Sealed, task *Task, nth int) record.Task {
	w.t.Helper()
	row := record.Task{ID: task.ID, Title: task.Title, Kind: word[schedule.Kind](w.t, schedule.Kinds(), task.Kind),
		Every: schedule.Interval(task.Every), Leeway: schedule.Leeway(task.Grace), Once: task.Once}
	if did, mentioned := y.Did[task.ID]; mentioned && (did.Each == 0 || (nth-1)%did.Each == 0) {
		row.Result = word[record.Result](w.t, record.ResultWords, did.Is)
		if did.Why != "" {
			row.Answer = &record.Answer{Why: did.Why, Told: &r.Job.Date}
			if did.Advice != "" {
				row.Answer.Advice = word[record.Advice](w.t, record.AdviceWords, did.Advice)
			}
			if did.Owner != "" {
				row.Answer.Owner = word[record.OwnerAnswer](w.t, record.OwnerWords, did.Owner)
			}
		}
	}
	if stated, ok := w.Stated[task.ID]; ok {
		row.Last = &record.Last{Date: stated.Date, Hours: stated.Hours, Stated: true}
	}
	for _, at := range w.known(r, e, &row) {
		row.Last = &record.Last{Date: at.Date, Hours: at.Hours}
	}
	says, otherwise := y.Says[task.ID]
	if otherwise && says.Last != nil {
		row.Last = &record.Last{Date: says.Last.Date, Hours: says.Last.Hours}
	}
	from := r.Machine.InService
	if row.Last != nil {
		from = schedule.Point{Date: row.Last.Date, Hours: row.Last.Hours}
	}
	if row.Once && row.Last != nil {
		return row
	}
	if row.Every.Hours != 0 {
		row.Due.Hours = new(from.Hours + row.Every.Hours)
	}
	if row.Every.Months != 0 {
		row.Due.Date = new(from.Date.AddMonths(row.Every.Months))
	}
	if otherwise && says.Due != nil {
		row.Due = schedule.Due{Hours: (*quantity.Hours)(says.Due.Hours), Date: (*quantity.Date)(says.Due.Date)}
	}
	return row
}

// known are the times up to a record's date that a task was done, by date and hours,
// as the yard knows them: by this record, and those that it cites directly or by way
// of others, without what they take back.
func (w *Told) known(r *record.Record, e *Sealed, row *record.Task) []schedule.Point {
	taken := map[*Sealed]bool{}
	for at := e; at != nil; at = at.Previous {
		if at.About != nil && (at == e && r.Kind != record.Addendum || at != e && at.Record.Kind != record.Addendum) {
			taken[at.About] = true
		}
	}
	var points []schedule.Point
	if (r.Kind == record.Service || r.Kind == record.Correction) && logbook.Counts(row.Kind, row.Result) {
		points = append(points, schedule.Point{Date: r.Job.Date, Hours: r.Job.Hours})
	}
	for at := e.Previous; at != nil; at = at.Previous {
		kind := at.Record.Kind
		if taken[at] || kind != record.Service && kind != record.Correction || at.Record.Job.Date > r.Job.Date {
			continue
		}
		for _, then := range at.Record.Tasks {
			if then.ID == row.ID && logbook.Counts(then.Kind, then.Result) {
				points = append(points, schedule.Point{Date: at.Record.Job.Date, Hours: at.Record.Job.Hours})
			}
		}
	}
	slices.SortStableFunc(points, func(a, b schedule.Point) int {
		return cmp.Or(cmp.Compare(a.Date, b.Date), cmp.Compare(a.Hours, b.Hours))
	})
	return points
}

func (w *Told) materials(y *Record, r *record.Record) {
	w.t.Helper()
	for _, f := range y.Fluids {
		fluid := record.Fluid{System: f.System, Product: f.Product}
		if f.Drained != "" {
			fluid.Drained = w.measured(f.Drained)
		}
		if len(f.Filled) > 0 {
			fluid.Filled = w.measured(f.Filled...)
		}
		if f.Used != "" {
			fluid.Balance = &record.Balance{Over: quantity.Hours(f.Over), By: record.ByVolumes, Used: &record.Estimate{
				Volume: must[quantity.Volume](w.t)(quantity.ParseVolume(f.Used)), Within: must[quantity.Volume](w.t)(quantity.ParseVolume(f.Within))}}
		}
		r.Fluids = append(r.Fluids, fluid)
	}
	for _, p := range y.Parts {
		r.Parts = append(r.Parts, record.Part{Item: p.Item, Number: p.Number, Quantity: 1, SuppliedBy: record.ByYard, Serial: p.Serial})
	}
	for _, waste := range y.Waste {
		r.Waste = append(r.Waste, record.Waste{System: waste.System, Amount: *w.measured(waste.Amount), To: waste.To, Receipt: waste.Receipt})
	}
}

func (w *Told) measured(texts ...string) *quantity.Measured {
	w.t.Helper()
	var portions []quantity.Portion
	for _, text := range texts {
		portions = append(portions, must[quantity.Portion](w.t)(quantity.ParsePortion(text)))
	}
	return new(must[quantity.Measured](w.t)(quantity.SumOf(portions...)))
}

// word is the number of a word in its list.
func word[T ~uint8](t Reporter, words []string, text string) T {
	t.Helper()
	i := slices.Index(words, text)
	if i < 0 {
		t.Fatalf("%q: one of %s", text, strings.Join(words, ", "))
	}
	return T(i + 1)
}
