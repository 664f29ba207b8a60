package worksheet

import (
	"slices"

	"hourseal/record"
	"hourseal/record/plan"
	"hourseal/record/schedule"
	"hourseal/render/sheet"
	"hourseal/render/words"
)

// results are a table to note what came of each item, then what the job sheet
// asks for besides.
func (p *page) results() {
	t := p.texts.Results
	columns := []sheet.Column{{Title: t.Item, Share: 54}}
	for _, word := range record.ResultWords {
		columns = append(columns, sheet.Column{Title: string(t.Marks.Of(word)), Share: 8, Align: sheet.Center})
	}
	columns = append(columns, sheet.Column{Title: t.Why, Share: 52})
	widths := p.flow.Widths(columns)
	table := sheet.Table{Columns: columns}
	for _, item := range p.Work {
		cells := []sheet.Cell{append(says(strong, item.Task.Title), says(faint, p.asks(item.Task))...)}
		for range record.ResultWords {
			cells = append(cells, sheet.Cell{tick(sheet.Center)})
		}
		table.Rows = append(table.Rows, sheet.Row{Cells: append(cells, append(written(widths[len(widths)-1]), written(widths[len(widths)-1])...))})
	}
	p.flow.Section(t.Heading)
	p.flow.Table(table)
	p.flow.Space(2 * sheet.Pt)
	p.flow.Text(faint, t.Intro)
	p.lines(t.Leaks, []sheet.Blank{
		{Label: t.NoneSeen, Tick: true}, {Label: t.After, Unit: t.Minutes, Rule: shortLine}, {Label: t.Seen, Tick: true}, {},
	})
	p.lines(t.Other, []sheet.Blank{{}}, sheet.Blank{})
	p.flow.End()
	p.waste()
}

// lines are a caption with lines to write on: beside it, and further ones below.
// They stay together.
func (p *page) lines(title string, beside []sheet.Blank, below ...sheet.Blank) {
	width := p.flow.Area().W
	cell := append(sheet.TextAndBlanks(strong, title, small, grey, writing, width, beside), blanks(width, below...)...)
	p.flow.Space(5 * sheet.Pt)
	p.flow.Block(cell.Height(width)+2*sheet.Pt, func(page int, b sheet.Box) { cell.Place(p.doc, page, b) })
}

// asks is what the job sheet wants to see of a task that was done.
func (p *page) asks(task schedule.Task) string {
	t, n := p.texts.Results, task.Needs
	in := func(phrase words.Phrase, place, value string) string {
		if value == "" {
			return ""
		}
		return phrase.With(place, words.LowerName(value))
	}
	leaks := ""
	if n.LeakCheck {
		leaks = t.LeakCheck
	}
	part := ""
	if n.Part != "" {
		part = t.Part.With("item", n.Part)
	}
	list := joined(", ", in(t.Drained, "system", n.Drained), in(t.Filled, "system", n.Filled), in(t.Level, "system", n.Level),
		leaks, part, in(t.Reading, "name", n.Reading))
	if list == "" {
		return ""
	}
	return t.Asks.With("list", list)
}

// waste is what came out and who took it.
func (p *page) waste() {
	t := p.texts.Results
	columns := []sheet.Column{
		{Title: t.What, Share: 30}, {Title: t.Amount, Share: 18}, {Title: t.To, Share: 34}, {Title: t.When, Share: 18}, {Title: t.Receipt, Share: 34},
	}
	widths := p.flow.Widths(columns)
	table := sheet.Table{Columns: columns}
	for _, what := range p.wastes() {
		cells := []sheet.Cell{says(strong, what)}
		for _, width := range widths[1:] {
			cells = append(cells, written(width))
		}
		table.Rows = append(table.Rows, sheet.Row{Cells: cells})
	}
	p.flow.Section(t.Waste)
	p.flow.Table(table)
	p.flow.End()
}

// wastes are the fluids that are drained, and the filters and rags of work with
// oil or fuel.
func (p *page) wastes() []string {
	var all []string
	for _, system := range p.drained() {
		all = append(all, words.Name(system))
	}
	work := words.WorkAhead(p.job())
	if work["oil"] || work["fuel"] {
		all = append(all, p.texts.Results.Filters)
	}
	return all
}

// nothing is the sheet without work: it says so, and what comes next.
func (p *page) nothing() {
	t := p.texts.Nothing
	line := t.Line
	if !p.Plan.Hours.Given {
		line = t.LineAbout
	}
	said := line.With("date", p.date(), "hours", p.hours(p.Plan.Hours.Total))
	if slices.ContainsFunc(p.Plan.Items, func(i plan.Item) bool { return i.State >= schedule.Now }) {
		said = t.NoneChosen
	}
	p.flow.Space(10 * sheet.Pt)
	p.flow.Text(plate, said)
	p.flow.Space(3 * sheet.Pt)
	p.flow.Text(small, t.Silence)
	p.flow.Section(t.Heading)
	table := p.next()
	if len(table.Rows) == 0 {
		p.flow.Text(body, t.NoSchedule)
	}
	p.flow.Table(table)
	p.dueNotes()
	p.flow.End()
}

// nextItems is how many of the items to come are named: a page holds them with
// the longest titles that there may be.
const nextItems = 8

// next are the items that fall due the earliest.
func (p *page) next() sheet.Table {
	t, due := p.texts.Nothing, p.texts.Due
	items := slices.DeleteFunc(slices.Clone(p.Plan.Items), func(i plan.Item) bool { return i.Due == (schedule.Due{}) })
	slices.SortStableFunc(items, plan.Urgency)
	table := sheet.Table{Columns: []sheet.Column{
		{Title: due.Item, Share: 40}, {Title: due.Due, Share: 22}, {Title: t.Expected, Share: 28}, {Title: due.Last, Share: 26},
	}}
	for _, item := range items[:min(len(items), nextItems)] {
		table.Rows = append(table.Rows, sheet.Row{
			Cells: []sheet.Cell{append(p.itemName(item), p.standing(item)...), p.dueAt(item), p.expected(item), p.last(item)},
			Under: p.open(item),
		})
	}
	return table
}

// standing is what is left, small; in words what is due already.
func (p *page) standing(item plan.Item) sheet.Cell {
	var cell sheet.Cell
	for _, part := range p.stands(item) {
		part.Style = small
		cell = append(cell, part)
	}
	return cell
}

// expected is when the item is reckoned to fall due, by the machine's use.
func (p *page) expected(item plan.Item) sheet.Cell {
	e, t := item.Expected, p.texts.Nothing
	switch {
	case e == nil:
		return nil
	case e.From == e.To:
		return says(body, p.style.Date(e.On))
	}
	return append(says(body, t.ExpectedOn.With("date", p.style.Date(e.On))),
		says(small, t.ExpectedRange.With("from", p.style.Date(e.From), "to", p.style.Date(e.To)))...)
}
