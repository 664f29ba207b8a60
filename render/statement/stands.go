package statement

import (
	"strconv"

	"hourseal/render/sheet"
	"hourseal/verify/history"
)

// stoodInAll counts the tasks by how they stood, by all records.
func (p *page) stoodInAll(s *history.Stands) string {
	n, most := map[history.Adherence]int{}, 0
	for _, task := range s.Tasks {
		n[task.All.At.State]++
		if task.All.Most == history.Late {
			most++
		}
	}
	some := func(n int) string {
		if n == 0 {
			return ""
		}
		return strconv.Itoa(n)
	}
	return p.texts.First.StoodAll.With("all", strconv.Itoa(len(s.Tasks)), "overdue", strconv.Itoa(n[history.Late]), "most", some(most),
		"grace", some(n[history.InGrace]), "unknown", some(n[history.NotTold]))
}

// stands is where the machine stood on the day asked about, in two columns.
func (p *page) stands() {
	s := p.m.Stands
	if s == nil {
		return
	}
	t := p.texts.Stands
	p.begin(standsPart, t.Heading.With("date", s.On.String()), 60*sheet.Pt)
	p.flow.Text(strong, p.clean(s.Hours.Words()))
	p.flow.Text(body, t.ShownOf.With("shown", strconv.Itoa(s.Shown), "all", strconv.Itoa(s.All)))
	p.flow.Space(2 * sheet.Pt)
	table := sheet.Table{Columns: []sheet.Column{{Title: t.Task, Share: 34}, {Title: t.Shown, Share: 40}, {Title: t.All, Share: 40}}}
	for _, task := range s.Tasks {
		table.Rows = append(table.Rows, sheet.Row{Cells: []sheet.Cell{
			append(p.says(strong, task.Title), p.text(fine, task.Task)), p.stood(task.Shown), p.stood(task.All),
		}})
	}
	p.flow.Table(table)
	p.flow.End()
}

func (p *page) stood(s history.Stood) sheet.Cell {
	how := body
	if s.At.State == history.Late {
		how = strong
	}
	last := p.texts.Stands.NoLast
	if s.Last != nil {
		last = p.texts.Stands.Last.With("date", s.Last.Date.String(), "hours", s.Last.Hours.String())
	}
	cell := p.says(how, s.Words())
	if s.Was == nil && s.Last == nil {
		return cell
	}
	if s.Was != nil {
		last = p.texts.Stands.Was.With("last", last, "due", p.dueWords(s.Was.Due))
	}
	return append(cell, p.text(fine, last))
}
