package worksheet

import (
	"strconv"

	"hourseal/record"
	"hourseal/record/plan"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
	"hourseal/render/sheet"
	"hourseal/render/words"
)

// cautions stand before everything that is done.
func (p *page) cautions() {
	var cell sheet.Cell
	for _, c := range words.Cautions(words.WorkAhead(p.job())) {
		cell = append(cell, sheet.Item{
			Style: small, Text: c.Text, Mark: "–", Indent: 7 * sheet.Pt, Before: sheet.Pt,
		})
	}
	p.flow.Section(p.texts.Cautions.Heading)
	p.flow.Columns(3, cell)
	p.flow.Text(small.Bold(), p.report.Cautions.Governs)
	p.flow.End()
}

// governs is the last line: over the whole sheet.
func (p *page) governs() {
	p.flow.Space(5 * sheet.Pt)
	said := sheet.Cell{text(small.Bold(), p.report.Cautions.Governs), text(faint, p.texts.Document.NoRecord)}
	p.flow.Block(said.Height(p.flow.Area().W), func(page int, b sheet.Box) { said.Place(p.doc, page, b) })
}

// due is each item, and why it is on the sheet.
func (p *page) due() {
	t := p.texts.Due
	table := sheet.Table{Columns: []sheet.Column{
		{Title: t.Item, Share: 36}, {Title: t.Why, Share: 26}, {Title: t.Due, Share: 20}, {Title: t.Last, Share: 28},
	}}
	for _, item := range p.Work {
		table.Rows = append(table.Rows, sheet.Row{
			Cells: []sheet.Cell{p.itemName(item), p.why(item), p.dueAt(item), p.last(item)},
			Under: p.open(item),
		})
	}
	p.flow.Section(t.Heading)
	p.flow.Table(table)
	p.dueNotes()
	p.flow.End()
}

// dueNotes say how the table is to be read, and by which schedule it is.
func (p *page) dueNotes() {
	t, s := p.texts.Due, p.Plan.Schedule
	total := ""
	if p.Plan.Hours.Offset != 0 {
		total = t.Total
	}
	p.flow.Space(2 * sheet.Pt)
	p.flow.Text(faint, joined(" ", t.First, total, t.Schedule.With(
		"id", s.ID, "edition", strconv.FormatUint(uint64(s.Edition), 10),
		"basis", string(p.report.Schedule.Basis.Of(s.Basis.Kind.String())), "document", s.Basis.Document)))
	if change := p.Plan.Edition; change != nil {
		p.flow.Text(small.Bold(), t.Edition.With("number", strconv.FormatUint(uint64(change.Record.Number), 10),
			"id", change.Then.ID, "edition", strconv.FormatUint(uint64(change.Then.Edition), 10)))
	}
}

func (p *page) itemName(item plan.Item) sheet.Cell {
	cell := says(strong, item.Task.Title)
	if item.Severe {
		cell = append(cell, says(small, p.texts.Due.Severe.With("when", item.Task.Severe.When))...)
	}
	return cell
}

// why is how the item stands, and what put it on the sheet where that is not
// enough of a reason.
func (p *page) why(item plan.Item) sheet.Cell {
	t, cell := p.texts.Due, p.stands(item)
	if len(item.With) > 0 {
		return append(cell, says(small, t.With.With("tasks", p.titles(item.With)))...)
	}
	if item.State == schedule.Later {
		return append(cell, says(small, t.Asked)...)
	}
	return cell
}

// stands is how the item stands: only a sealed record of it can make it late. What
// a look again or an advice makes due is due by that, not by the schedule.
func (p *page) stands(item plan.Item) sheet.Cell {
	t := p.texts.Due
	state := item.State
	if !item.Recorded() {
		state = min(state, schedule.Now)
	}
	left, past, reached := p.leftAndPast(item)
	said := string(t.States.Of(state.String()))
	switch {
	case state == schedule.Now && p.lookDue(item):
		said = t.Look
	case state == schedule.Now && !reached && item.Open != nil:
		return says(strong, t.Advised)
	case state == schedule.Soon && item.Open != nil && item.Open.Result == record.Defect:
		said = t.OpenDefect
	case reached && item.Last == nil:
		said = t.FromService
	case reached && !item.Recorded():
		said = t.FromStated
	}
	cell := says(strong, said)
	switch {
	case !reached && left != "":
		return append(cell, says(small, t.Left.With("amount", left))...)
	case past != "" && item.Recorded():
		return append(cell, says(small, t.Past.With("amount", past))...)
	}
	return cell
}

// leftAndPast are the amounts that are left, and those by which the item is past
// its due point; what rounds to nothing is left out. Reached: it is at that point
// or past it.
func (p *page) leftAndPast(item plan.Item) (left, past string, reached bool) {
	t := p.texts.Due
	add := func(n int64, amount string, none bool) {
		reached = reached || n <= 0
		switch {
		case none:
		case n > 0:
			left = joined(", ", left, amount)
		default:
			past = joined(", ", past, amount)
		}
	}
	if h := item.HoursLeft; h != nil {
		amount := p.hours(max(*h, -*h))
		add(int64(*h), t.Hours.With("hours", amount), amount == "0")
	}
	if d := item.DaysLeft; d != nil {
		add(int64(*d), t.Days.With("days", max(*d, -*d).String()), *d == 0)
	}
	return left, past, reached
}

// lookDue says whether the time has come for another look that a record asked for.
func (p *page) lookDue(item plan.Item) bool {
	if item.Open == nil {
		return false
	}
	now := schedule.Point{Date: p.Plan.On, Hours: p.Plan.Hours.Total}
	return item.Open.LookAgain.At(now, schedule.Interval{}, schedule.Leeway{}) >= schedule.Now
}

// titles are the titles of tasks, by their ids.
func (p *page) titles(ids []string) string {
	var titles []string
	for _, id := range ids {
		title := id
		for _, item := range p.Plan.Items {
			if item.Task.ID == id {
				title = item.Task.Title
			}
		}
		titles = append(titles, title)
	}
	return joined("; ", titles...)
}

// dueAt is the due point, what comes first in bold.
func (p *page) dueAt(item plan.Item) sheet.Cell {
	t := p.texts.Due
	in := func(by string) sheet.Style {
		if item.By == by {
			return strong
		}
		return body
	}
	var cell sheet.Cell
	if h := item.Due.Hours; h != nil {
		cell = says(in("hours"), t.AtHours.With("hours", p.style.Hours(*h)))
		if p.Plan.Hours.Differs(*h) {
			cell = append(cell, says(small, t.AtMeter.With("reading", p.style.Hours(p.Plan.Hours.Reading(*h))))...)
		}
	}
	if d := item.Due.Date; d != nil {
		cell = append(cell, says(in("date"), p.style.Date(*d))...)
	}
	if len(cell) == 0 {
		return says(body, t.NothingMore)
	}
	return cell
}

// last is when the item was last done, and who says so.
func (p *page) last(item plan.Item) sheet.Cell {
	t, last := p.texts.Due, item.Last
	if last == nil {
		start := p.Plan.Machine.InService
		return says(small, t.NoRecord.With("date", p.style.Date(start.Date), "hours", p.style.Hours(start.Hours)))
	}
	cell := says(body, t.LastLine.With("date", p.style.Date(last.Date), "hours", p.style.Hours(last.Hours)))
	if last.Record == nil {
		return append(cell, says(small, t.Stated.With("source", last.Source))...)
	}
	return append(cell, says(small, t.Record.With("number", strconv.FormatUint(uint64(last.Record.Number), 10)))...)
}

// open is what the last record left open, with its why.
func (p *page) open(item plan.Item) sheet.Cell {
	open := item.Open
	if open == nil {
		return nil
	}
	answer := record.Answer{}
	if open.Answer != nil {
		answer = *open.Answer
	}
	advice, told, owner := "", "", ""
	if answer.Advice != 0 {
		advice = string(p.report.Left.Advices.Of(answer.Advice.String()))
	}
	if answer.Told != nil {
		told = p.style.Date(*answer.Told)
	}
	if answer.Owner != 0 {
		owner = string(p.report.Left.Answers.Of(answer.Owner.String()))
	}
	return says(body, p.texts.Due.Open.With("date", p.style.Date(open.Date),
		"what", p.report.Tasks.ResultOf(item.Task.Kind, open.Result), "why", answer.Why,
		"advice", advice, "told", told, "owner", owner, "when", p.lookAgain(open.LookAgain)))
}

// lookAgain is when to look again; "" where nothing says.
func (p *page) lookAgain(at schedule.Due) string {
	t := p.texts.Due
	var hours quantity.Hours
	if at.Hours != nil {
		hours = *at.Hours
	}
	switch {
	case at.Hours != nil && at.Date != nil:
		return t.LookBoth.With("hours", p.style.Hours(hours), "date", p.style.Date(*at.Date))
	case at.Hours != nil:
		return t.LookHours.With("hours", p.style.Hours(hours))
	case at.Date != nil:
		return t.LookDate.With("date", p.style.Date(*at.Date))
	}
	return ""
}
