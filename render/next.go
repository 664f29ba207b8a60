package render

import (
	"encoding/hex"
	"strconv"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
	"hourseal/render/sheet"
)

// next is every task of the schedule: when it was last done, how often it is
// asked for, when it falls due, and how much of the interval is used.
func (p *report) next() {
	t := p.texts.Next
	table := sheet.Table{Columns: []sheet.Column{
		{Title: t.Item, Share: 34}, {Title: t.Last, Share: 25}, {Title: t.Interval, Share: 27}, {Title: t.Due, Share: 18}, {Title: t.Used, Share: 30},
	}}
	for i := range p.r.Tasks {
		task := &p.r.Tasks[i]
		table.Rows = append(table.Rows, sheet.Row{Cells: []sheet.Cell{
			{text(strong, task.Title), text(fine, task.ID+", "+task.Kind.String())},
			p.last(task),
			p.interval(task),
			p.due(task),
			p.used(task),
		}})
	}
	p.flow.Section(t.Heading)
	p.flow.Table(table)
	p.flow.Space(2 * sheet.Pt)
	if len(table.Rows) > 0 {
		p.flow.Text(fine, t.Whichever+" "+t.Bar)
		p.flow.Space(3 * sheet.Pt)
	}
	p.schedule()
	p.flow.End()
}

func (p *report) last(task *record.Task) sheet.Cell {
	t := p.texts.Next
	if task.Last == nil {
		return says(body, t.NoRecord)
	}
	cell := says(body, t.LastLine.With("date", task.Last.Date.String(), "hours", task.Last.Hours.String()))
	if task.Last.Stated {
		cell = append(cell, text(small, t.Stated))
	}
	return cell
}

func (p *report) interval(task *record.Task) sheet.Cell {
	t := p.texts.Next
	var cell sheet.Cell
	hours, months := task.Every.Hours.String(), task.Every.Months.String()
	switch e := task.Every; {
	case e.Hours != 0 && e.Months != 0:
		cell = says(body, t.IntervalBoth.With("hours", hours, "months", months))
	case e.Hours != 0:
		cell = says(body, t.IntervalHours.With("hours", hours))
	case e.Months != 0:
		cell = says(body, t.IntervalMonths.With("months", months))
	}
	if task.Once {
		cell = append(cell, text(body, t.Once))
	}
	if g := task.Leeway; g != (schedule.Leeway{}) {
		var hours, days string
		if g.Hours != 0 {
			hours = t.GraceHours.With("hours", g.Hours.String())
		}
		if g.Days != 0 {
			days = t.GraceDays.With("days", g.Days.String())
		}
		cell = append(cell, text(fine, t.Grace+" "+sentences(", ", hours, days)))
	}
	return cell
}

func (p *report) due(task *record.Task) sheet.Cell {
	t := p.texts.Next
	var cell sheet.Cell
	if task.Due.Hours != nil {
		cell = append(cell, text(strong, t.DueHours.With("hours", task.Due.Hours.String())))
		// What was due under an earlier meter, this one never read.
		if offset := p.r.Job.Meter.Offset; offset != 0 && p.r.Job.Meter.State == record.Running && *task.Due.Hours > offset {
			cell = append(cell, text(small, t.DueReading.With("reading", (*task.Due.Hours-offset).String())))
		}
	}
	if task.Due.Date != nil {
		cell = append(cell, text(strong, task.Due.Date.String()))
	}
	if task.Due == (schedule.Due{}) {
		return says(body, t.NothingMore)
	}
	return cell
}

// span is an interval as far as it has run: from its start to its due point,
// in 1/100 h or in days.
type span struct{ start, now, due int64 }

func (s span) used() int64  { return max(s.now-s.start, 0) }
func (s span) whole() int64 { return max(s.due-s.start, 1) }
func (s span) left() int64  { return s.due - s.now }

// further says whether more of s is used than of o; compared as fractions, both
// within 2^31, so the products fit.
func (s span) further(o span) bool { return s.used()*o.whole() > o.used()*s.whole() }

// spans are the intervals that a task runs by. They start when it was last done,
// or, with no record of that, when the machine went into service.
func (p *report) spans(task *record.Task) (hours, days *span) {
	start := p.r.Machine.InService
	if task.Last != nil {
		start = schedule.Point{Date: task.Last.Date, Hours: task.Last.Hours}
	}
	if d := task.Due.Hours; d != nil {
		hours = &span{int64(start.Hours), int64(p.r.Job.Hours), int64(*d)}
	}
	if d := task.Due.Date; d != nil {
		days = &span{int64(start.Date), int64(p.r.Job.Date), int64(*d)}
	}
	return hours, days
}

// used is the bar of whichever interval is further used, with what is left of
// each in words.
func (p *report) used(task *record.Task) sheet.Cell {
	t := p.texts.Next
	hours, days := p.spans(task)
	bar := hours
	if bar == nil || days != nil && days.further(*bar) {
		bar = days
	}
	if bar == nil || p.statesNothing() { // how far it has run, nobody read
		return nil
	}
	cell := sheet.Cell{{Height: 10 * sheet.Pt, Draw: func(d *sheet.Document, page int, b sheet.Box) {
		d.Bar(page, sheet.Box{X: b.X, Y: b.Y + 2*sheet.Pt, W: b.W, H: 6 * sheet.Pt}, bar.used(), bar.whole(), used, grey)
	}}}
	var left, past []string
	if hours != nil {
		n := quantity.Hours(hours.left())
		if n > 0 {
			left = append(left, t.Hours.With("hours", n.String()))
		} else {
			past = append(past, t.Hours.With("hours", (-n).String()))
		}
	}
	if days != nil {
		n := days.left()
		if n > 0 {
			left = append(left, t.Days.With("days", strconv.FormatInt(n, 10)))
		} else {
			past = append(past, t.Days.With("days", strconv.FormatInt(-n, 10)))
		}
	}
	if len(past) > 0 {
		return append(cell, text(small.Bold(), p.pastDue(task, sentences(", ", past...))))
	}
	return append(cell, text(small, t.Left.With("amount", sentences(", ", left...))))
}

// pastDue says that a task is due. Only a sealed record of it can make it late:
// without one the words say what the interval was counted from.
func (p *report) pastDue(task *record.Task, amount string) string {
	switch t := p.texts.Next; {
	case task.Last == nil:
		return t.DueFromService
	case task.Last.Stated:
		return t.DueFromStated
	default:
		return t.Past.With("amount", amount)
	}
}

// schedule says by which schedule the job was checked, whose it is, and that the
// maker's handbook governs.
func (p *report) schedule() {
	s, t := p.r.Schedule, p.texts.Schedule
	var from []string
	if s.Basis.Document != "" {
		from = append(from, t.Document.With("document", s.Basis.Document))
	}
	if s.Basis.Edition != "" {
		from = append(from, t.DocumentEdition.With("edition", s.Basis.Edition))
	}
	if s.Basis.Page != "" {
		from = append(from, t.DocumentPage.With("page", s.Basis.Page))
	}
	line := t.Line.With("id", s.ID, "edition", strconv.FormatUint(uint64(s.Edition), 10))
	basis := sentences(", ", string(t.Basis.Of(s.Basis.Kind.String())), sentences(", ", from...))
	p.flow.Text(small, sentences(" ", t.Heading+": "+line+".", t.BasisCaption+": "+basis+".", t.Governs))
	p.flow.Text(fine, t.Digest+": "+hex.EncodeToString(s.Digest[:]))
}
