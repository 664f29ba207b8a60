package statement

import (
	"strconv"

	"hourseal/record/quantity"
	"hourseal/record/schedule"
	"hourseal/render/sheet"
	"hourseal/render/words"
	"hourseal/verify/history"
)

// tasks is each task with every time that it was done.
func (p *page) tasks() {
	if len(p.m.Tasks) == 0 {
		return
	}
	t := p.texts.Tasks
	p.flow.Space(spaceBefore)
	p.flow.Require(120 * sheet.Pt)
	p.block(p.says(masthead, t.Chapter), 2*sheet.Pt)
	p.flow.Text(small, t.How)
	for i := range p.m.Tasks {
		p.task(&p.m.Tasks[i])
	}
}

// tableStart is the head of a table with two rows, which stay with what is above.
const tableStart = 45 * sheet.Pt

func (p *page) task(task *history.Task) {
	t := p.texts.Tasks
	p.flow.Section(p.clean(t.Section.With("title", task.Title, "id", task.ID)))
	said := p.says(small, t.Every.With("kind", task.Kind.String(), "interval", p.interval(task), "grace", p.grace(task.Leeway)))
	for _, by := range task.By {
		said = append(said, p.text(small, p.by(by)))
	}
	said = append(said, p.text(small, words.Joined(" ", p.share(task), t.Now.With("now", task.NowWords()))))
	p.flow.Require(min(p.height(said), 60*sheet.Pt) + tableStart)
	if len(task.By) > 4 {
		p.flowing(said)
	} else {
		p.block(said, 2*sheet.Pt)
	}
	table := sheet.Table{Columns: []sheet.Column{
		{Title: t.Date, Share: 18}, {Title: t.Hours, Share: 17}, {Title: t.Record, Share: 27}, {Title: t.Result, Share: 27}, {Title: t.Due, Share: 38}, {Title: t.When, Share: 62},
	}}
	for i, d := range task.Done {
		table.Rows = append(table.Rows, sheet.Row{Cells: p.done(task, d, i == 0)})
	}
	p.flow.Table(table)
	var notes []string
	if len(task.Done) == 0 {
		notes = append(notes, t.None)
	}
	for _, w := range task.Waits {
		notes = append(notes, capital(p.m.WaitWords(w)))
	}
	if s := task.Stated; s != nil {
		notes = append(notes, t.Stated.With("date", s.Date.String(), "hours", s.Hours.String()))
	}
	if len(notes) > 0 {
		p.flow.Space(2 * sheet.Pt)
		p.flowing(p.list(body, notes...))
	}
	p.flow.End()
}

// done is one time that a task was done, the first on record or not.
func (p *page) done(task *history.Task, d history.Done, first bool) []sheet.Cell {
	t, e := p.texts.Tasks, &p.m.Entries[d.Entry]
	result := t.Covered
	if d.Result != 0 {
		result = p.report.Tasks.ResultOf(task.Kind, d.Result)
	}
	due, when, s := "", string(t.States.Of(string(history.NotTold))), small
	switch {
	case d.Was == nil && first:
		due, when = t.First, ""
	case d.Was == nil:
	case !d.Was.Tells():
		due, when = p.dueWords(d.Was.Due), t.Open
	default:
		due, when = p.dueWords(d.Was.Due), p.reached(d.When)
	}
	if d.When.State == history.Late {
		s = small.Bold()
	}
	return []sheet.Cell{
		p.says(small, d.Date.String()), p.says(small, p.hoursOf(d.Hours)), p.says(small, strconv.FormatUint(uint64(e.Record.Number), 10)+", "+shortID(e.ID)[:9]),
		p.says(small, result), p.says(small, due), p.says(s, when),
	}
}

// reached says how early or late something was. What falls due at hours or on a date
// that was just reached is due, however far off the other is.
func (p *page) reached(r history.Reached) string {
	reachedHours, reachedDays := r.Hours != nil && *r.Hours == 0, r.Days != nil && *r.Days == 0
	pastOther := r.Hours != nil && *r.Hours > 0 || r.Days != nil && *r.Days > 0
	if r.State == history.InGrace && (reachedHours || reachedDays) && !pastOther {
		return p.texts.Tasks.OnDue
	}
	return p.texts.Tasks.States.Of(string(r.State)).With("words", r.Words())
}

func (p *page) dueWords(d schedule.Due) string {
	t := p.texts.Tasks
	switch {
	case d.Hours != nil && d.Date != nil:
		return t.DueBoth.With("hours", d.Hours.String(), "date", d.Date.String())
	case d.Hours != nil:
		return t.DueHours.With("hours", d.Hours.String())
	case d.Date != nil:
		return t.DueDate.With("date", d.Date.String())
	}
	return p.report.Next.NothingMore
}

// interval is how often a task is asked for.
func (p *page) interval(task *history.Task) string {
	t, e := p.report.Next, task.Every
	var said string
	switch {
	case e.Hours != 0 && e.Months != 0:
		said = t.IntervalBoth.With("hours", e.Hours.String(), "months", e.Months.String())
	case e.Hours != 0:
		said = t.IntervalHours.With("hours", e.Hours.String())
	case e.Months != 0:
		said = t.IntervalMonths.With("months", e.Months.String())
	}
	if task.Once {
		said = words.Joined(", ", said, t.Once)
	}
	return said
}

func (p *page) grace(g schedule.Leeway) string {
	t := p.report.Next
	var hours, days string
	if g.Hours != 0 {
		hours = t.GraceHours.With("hours", g.Hours.String())
	}
	if g.Days != 0 {
		days = t.GraceDays.With("days", g.Days.String())
	}
	if hours == "" && days == "" {
		return ""
	}
	return t.Grace + " " + words.Joined(", ", hours, days)
}

// by is a schedule, whose it is, and its edition.
func (p *page) by(s history.ScheduleUsed) string {
	t := p.report.Schedule
	var document, edition, page string
	if s.Basis.Document != "" {
		document = t.Document.With("document", s.Basis.Document)
	}
	if s.Basis.Edition != "" {
		edition = t.DocumentEdition.With("edition", s.Basis.Edition)
	}
	if s.Basis.Page != "" {
		page = t.DocumentPage.With("page", s.Basis.Page)
	}
	return p.texts.Tasks.By.With("id", s.ID, "edition", strconv.FormatUint(uint64(s.Edition), 10),
		"basis", string(t.Basis.Of(s.Basis.Kind.String())), "document", words.Joined(", ", document, edition, page), "date", s.From.Date.String())
}

// share is how much of the hours was run overdue. Where a part of them is not known,
// no share is told.
func (p *page) share(task *history.Task) string {
	if task.Run <= 0 || len(task.Done) == 0 {
		return ""
	}
	var unknown quantity.Hours
	for _, s := range task.Stretches {
		if s.State == history.NotTold {
			unknown += max(0, s.To.Hours-s.From.Hours)
		}
	}
	share, part := "", ""
	if unknown > 0 {
		part = unknown.String()
	} else if s := task.InsideShare(); s != nil {
		share = s.Percent()
	}
	phrase, overdue := p.texts.Tasks.Overdue, task.Overdue
	if task.About {
		phrase, overdue = p.texts.Tasks.About, overdue.Whole()
	}
	return phrase.With("run", task.Run.String(), "hours", overdue.String(), "share", share, "unknown", part)
}
