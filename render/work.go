package render

import (
	"hourseal/record"
	"hourseal/render/sheet"
	"hourseal/render/words"
)

// isLeft says whether a result leaves something open: put off, or found and left.
func isLeft(result record.Result) bool {
	return result == record.Deferred || result == record.Defect
}

// tasks are the items of the schedule that something was done about.
func (p *report) tasks() {
	t := p.texts.Tasks
	table := sheet.Table{Columns: []sheet.Column{{Title: t.Item, Share: 40}, {Title: t.Result, Share: 24}, {Title: t.Detail, Share: 50}}}
	left := false
	for i := range p.r.Tasks {
		task := &p.r.Tasks[i]
		if task.Result == 0 {
			continue
		}
		if isLeft(task.Result) {
			left = true
			continue
		}
		table.Rows = append(table.Rows, sheet.Row{Cells: []sheet.Cell{
			says(strong, task.Title),
			says(body, t.ResultOf(task.Kind, task.Result)),
			p.detail(task),
		}})
	}
	p.flow.Section(t.Heading)
	switch {
	case len(table.Rows) > 0:
		p.flow.Table(table)
	case !left:
		p.flow.Text(body, t.Empty)
	}
	p.flow.End()
}

// detail is what was read on a task, when to look again, and the remarks.
func (p *report) detail(task *record.Task) sheet.Cell {
	cell := p.readings(task)
	cell = append(cell, p.lookAgain(task.LookAgain)...)
	cell = append(cell, p.answer(task.Answer)...)
	return append(cell, p.doneBy(task.DoneBy)...)
}

func (p *report) lookAgain(look *record.LookAgain) sheet.Cell {
	if look == nil {
		return nil
	}
	t := p.texts.Tasks
	var when string
	switch {
	case look.Hours != nil && look.Date != nil:
		when = t.LookAgainBoth.With("hours", look.Hours.String(), "date", look.Date.String())
	case look.Hours != nil:
		when = t.LookAgainAt.With("hours", look.Hours.String())
	case look.Date != nil:
		when = t.LookAgainOn.With("date", look.Date.String())
	}
	return says(strong, t.LookAgain.With("when", when))
}

func (p *report) doneBy(name string) sheet.Cell {
	if name == "" {
		return nil
	}
	return says(body, p.texts.Tasks.DoneBy.With("name", name))
}

func (p *report) readings(task *record.Task) sheet.Cell {
	t := p.texts.Tasks
	var cell sheet.Cell
	for _, r := range task.Readings {
		var values []string
		if r.Value != nil {
			values = append(values, r.Value.String())
		}
		if r.AsFound != nil {
			values = append(values, t.AsFound.With("value", r.AsFound.String()))
		}
		if r.AsLeft != nil {
			values = append(values, t.AsLeft.With("value", r.AsLeft.String()))
		}
		cell = append(cell, text(body, words.Name(r.Name)+": "+sentences(", ", values...)))
	}
	return cell
}

// answer is why, what was advised, and what the owner said, for something that
// is not left open: a table of its own has the columns for what is.
func (p *report) answer(a *record.Answer) sheet.Cell {
	if a == nil {
		return nil
	}
	t := p.texts.Left
	var cell sheet.Cell
	if a.Why != "" {
		cell = append(cell, text(body, p.texts.Tasks.Why.With("why", a.Why)))
	}
	if a.Advice != 0 {
		cell = append(cell, text(body, t.Advice+": "+string(t.Advices.Of(a.Advice.String()))))
	}
	return append(cell, p.told(a)...)
}

func (p *report) told(a *record.Answer) sheet.Cell {
	t := p.texts.Left
	var cell sheet.Cell
	if a.Told != nil {
		cell = append(cell, text(body, t.Told+": "+a.Told.String()))
	}
	if a.Owner != 0 {
		cell = append(cell, text(body, t.Owner+": "+string(t.Answers.Of(a.Owner.String()))))
	}
	return cell
}

// left is what was put off, or found and left: tasks, other work, and what was seen
// in a fluid that was drained.
func (p *report) left() {
	t := p.texts.Left
	table := sheet.Table{Columns: []sheet.Column{
		{Title: t.Item, Share: 41}, {Title: t.Result, Share: 18}, {Title: t.Why, Share: 30},
		{Title: t.Advice, Share: 26}, {Title: t.Answer, Share: 31},
	}}
	add := func(item sheet.Cell, result string, a *record.Answer) {
		if a == nil {
			a = &record.Answer{}
		}
		var advice string
		if a.Advice != 0 {
			advice = string(t.Advices.Of(a.Advice.String()))
		}
		table.Rows = append(table.Rows, sheet.Row{Cells: []sheet.Cell{
			item, says(strong, result), says(body, a.Why), says(body, advice), p.told(a),
		}})
	}
	for i := range p.r.Tasks {
		if task := &p.r.Tasks[i]; isLeft(task.Result) {
			item := append(says(strong, task.Title), p.readings(task)...)
			item = append(item, p.doneBy(task.DoneBy)...)
			item = append(item, p.lookAgain(task.LookAgain)...)
			add(item, p.texts.Tasks.ResultOf(task.Kind, task.Result), task.Answer)
		}
	}
	for _, w := range p.r.OtherWork {
		if isLeft(w.Result) {
			add(append(says(strong, w.Text), p.doneBy(w.DoneBy)...), p.texts.Tasks.ResultOfOther(w.Result), w.Answer)
		}
	}
	for i := range p.r.Fluids {
		if f := &p.r.Fluids[i]; isSeen(f) {
			add(says(strong, words.Name(f.System)+": "+p.sights(f)), t.Seen, f.Answer)
		}
	}
	p.flow.Section(t.Heading)
	if len(table.Rows) > 0 {
		p.flow.Table(table)
	} else {
		p.flow.Text(body, t.Empty)
	}
	p.flow.End()
}

// otherWork is what was done beside the schedule.
func (p *report) otherWork() {
	t := p.texts
	table := sheet.Table{Columns: []sheet.Column{{Share: 40}, {Share: 24}, {Share: 50}}}
	for _, w := range p.r.OtherWork {
		if isLeft(w.Result) {
			continue
		}
		table.Rows = append(table.Rows, sheet.Row{Cells: []sheet.Cell{
			says(strong, w.Text),
			says(body, t.Tasks.ResultOfOther(w.Result)),
			append(p.answer(w.Answer), p.doneBy(w.DoneBy)...),
		}})
	}
	p.flow.Section(t.OtherWork.Heading)
	p.flow.Table(table)
	p.flow.End()
}
