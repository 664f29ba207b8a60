package statement

import (
	"strconv"
	"strings"

	"hourseal/render/sheet"
	"hourseal/verify/history"
)

// The least that the chart and the bars take of the first page, and the most that the
// chart does.
const (
	leastPlot = 80 * sheet.Pt
	mostPlot  = 250 * sheet.Pt
	fewMarks  = 3 // need no high chart
	leastBars = 6
	mostEnds  = 2 // chains whose end the first page tells
	mostLines = 3 // of a question on a page that is too full
)

// pageOne is the page to read. What stands below the chart and the bars is measured
// first, and the faults, the bars and the chart share out what is left.
func (p *page) pageOne() {
	p.head()
	p.plate()
	asked, shown := p.questions(), p.notShown()
	room := p.flow.Area().Bottom() - p.flow.Y()
	for _, cell := range []sheet.Cell{asked, shown} {
		if len(cell) > 0 {
			room -= headingHeight + p.height(cell)
		}
	}
	if len(p.m.Counted) == 0 {
		p.faults(room - headingHeight - body.Leading)
		p.flow.Section(p.texts.Chart.Heading)
		p.flow.Text(body, p.texts.Chart.None)
		p.flow.End()
	} else {
		p.graphs(room)
	}
	p.under(p.texts.First.Questions, asked)
	p.under(p.texts.First.NotShown, shown)
}

// graphs are the chart and the bars, after the faults. Where long names have left no
// room for them, they stand on the next page.
func (p *page) graphs(room sheet.Len) {
	chart, bars := headingHeight+p.chartEdges(), headingHeight+p.barsEdges()
	least := chart + leastPlot + bars
	room -= p.faults(room - least - barRow*sheet.Len(min(len(p.m.Tasks), leastBars)+1))
	n := p.barsThatFit(room - least)
	if room < least+barRow {
		p.first.graphs = true
		p.flow.Space(spaceBefore)
		p.flow.Text(strong, p.texts.First.Graphs.With("page", p.pageOf(chartPart)))
		return
	}
	plot := min(room-bars-p.barsHeight(n)-chart, mostPlot)
	if len(p.m.Entries) < fewMarks {
		plot = leastPlot
	}
	p.chart(plot)
	p.bars(n)
}

func (p *page) height(cell sheet.Cell) sheet.Len { return cell.Height(p.flow.Area().W) }

// under places a cell, whole, under a heading.
func (p *page) under(heading string, cell sheet.Cell) {
	if len(cell) == 0 {
		return
	}
	p.flow.Section(heading)
	p.block(cell, 0)
	p.flow.End()
}

// head is the judgement, then what this paper is.
func (p *page) head() {
	t := p.texts.Document
	area := p.flow.Area()
	p.flow.Block(masthead.Leading+7*sheet.Pt, func(page int, b sheet.Box) {
		p.doc.Text(page, b.X, b.Y, masthead, t.Title)
		p.doc.TextIn(page, b.X, b.W, b.Y+(masthead.Leading-body.Leading)/2, sheet.Right, body, t.Made.With("date", p.in.MadeOn.String()))
		p.doc.Rule(page, b.X, b.Y+masthead.Leading+sheet.Pt, b.W, 2*sheet.Pt, accent)
	})
	pad := 7 * sheet.Pt
	cell := p.says(judgement, p.m.Sentence())
	if cell.Height(area.W-2*pad) > 4*judgement.Leading {
		cell = p.says(longer, p.m.Sentence())
	}
	h := cell.Height(area.W-2*pad) + 2*pad
	p.flow.Block(h+4*sheet.Pt, func(page int, b sheet.Box) {
		b.H = h
		p.doc.Stroke(page, b, 3*sheet.Pt/2, ink)
		cell.Place(p.doc, page, b.Inset(pad))
	})
	made := sheet.Cell{}
	if p.in.AsTheyStand {
		made = append(made, p.text(strong, t.AsTheyStand))
	}
	if p.in.SignedList != nil {
		made = append(made, p.text(small, t.WithList.With("file", *p.in.SignedList)))
	} else {
		made = append(made, p.text(small, t.NotSigned))
	}
	p.block(made, 4*sheet.Pt)
}

// plate is the machine, and what there is of it.
func (p *page) plate() {
	m, t := p.m, p.texts.Machine
	fact := func(caption string, s sheet.Style, text string) sheet.Fact {
		return sheet.Fact{Caption: caption, Value: p.says(s, text)}
	}
	counted := ""
	if len(m.Counted) != len(m.Entries) {
		counted = strconv.Itoa(len(m.Counted))
	}
	facts := []sheet.Fact{
		fact(t.Make, strong, m.Make), fact(t.Model, strong, m.Model), fact(t.Serial, strong, m.Serial),
		fact(t.Vessel, body, m.Vessel), fact(t.Hull, body, m.Hull), fact(t.Kind, body, m.Kind),
		fact(t.Records, body, t.Counted.With("all", strconv.Itoa(len(m.Entries)), "counted", counted)),
	}
	if s := m.Span; s != nil {
		span := t.SpanLine.With("first", s.First.Date.String(), "last", s.Last.Date.String())
		hours := t.HoursLine.With("first", s.First.Hours.String(), "last", s.Last.Hours.String())
		if s.First == s.Last {
			span, hours = s.First.Date.String(), p.hoursOf(s.First.Hours)
		}
		wide := fact(t.Span, body, span)
		wide.Span = 2
		facts = append(facts, wide, fact(t.Hours, body, hours))
	}
	pad := 5 * sheet.Pt
	columns, h := 0, sheet.Len(0)
	for n := 5; n > 1; n-- { // long names want wide columns
		if high := sheet.FactsHeight(p.look(), p.flow.Area().W-2*pad, n, facts) + 2*pad; columns == 0 || high < h {
			columns, h = n, high
		}
	}
	p.flow.Block(h, func(page int, b sheet.Box) {
		p.doc.Fill(page, panel, b)
		sheet.PlaceFacts(p.doc, p.look(), page, b.Inset(pad), columns, facts)
	})
	if s := m.Stands; s != nil {
		p.flow.Space(3 * sheet.Pt)
		said := p.says(strong, p.texts.First.Stood.With("date", s.On.String(), "page", p.pageOf(standsPart), "hours", s.Hours.Words()))
		p.block(append(said, p.text(body, p.stoodInAll(s))), 0)
	}
}

// faults are as many as fit, the worst first. It returns what they take.
func (p *page) faults(room sheet.Len) sheet.Len {
	if len(p.m.Faults) == 0 {
		return 0
	}
	all := p.faultList()
	more := func(n int) sheet.Cell {
		if n == len(all) {
			return all
		}
		said := p.texts.First.MoreFaults.With("count", strconv.Itoa(len(all)-n), "page", p.pageOf(faultsPart))
		return append(all[:n:n], p.text(strong, said))
	}
	n := len(all)
	for n > 1 && headingHeight+p.height(more(n)) > room {
		n--
	}
	p.first.faults = n < len(all)
	p.under(p.texts.First.Faults, more(n))
	return headingHeight + p.height(more(n))
}

func (p *page) faultList() sheet.Cell {
	said := make([]string, len(p.m.Faults))
	for i, f := range p.m.Faults {
		said[i] = p.m.FaultWords(f)
	}
	return p.list(body, said...)
}

// questions are at most five. Where they would take more than a quarter of the page,
// the long ones are cut and said to be.
func (p *page) questions() sheet.Cell {
	asked, most := p.questionList(), p.flow.Area().H/4
	for lines := mostLines; p.height(asked) > most && lines > 0; lines-- {
		p.first.questions = true
		asked = p.questionList()
		for i := range asked {
			asked[i].Text = cut(asked[i], lines, p.flow.Area().W-asked[i].Indent)
		}
		asked = append(asked, p.text(strong, p.texts.First.InFull.With("page", p.pageOf(questionsPart))))
	}
	return asked
}

// cut is as much of a text as fits so many lines, then an ellipsis.
func cut(item sheet.Item, lines int, width sheet.Len) string {
	all := item.Style.Wrap(item.Text, width)
	if len(all) <= lines {
		return item.Text
	}
	// With a word of the next line it is too wide, so that Elide cuts it.
	last := item.Style.Elide(all[lines-1]+" "+all[lines], width)
	return strings.Join(append(all[:lines-1:lines-1], last), "\n")
}

func (p *page) questionList() sheet.Cell {
	said := make([]string, len(p.m.Questions))
	for i, q := range p.m.Questions {
		said[i] = q.Text
	}
	return p.list(body, said...)
}

// notShown is where the chains end, and what no history shows.
func (p *page) notShown() sheet.Cell {
	var said []string
	for i, c := range p.m.Tails() {
		if i == mostEnds && len(p.m.Tails()) > mostEnds+1 {
			said = append(said, p.texts.First.MoreTails.With("count", strconv.Itoa(len(p.m.Tails())-i), "page", p.pageOf(endsPart)))
			break
		}
		said = append(said, p.m.TailWords(c))
	}
	return p.list(small, append(said, history.NotShown...)...)
}

// overflow is what the first page had no room for.
func (p *page) overflow() {
	if p.first.graphs {
		p.at[chartPart] = p.flow.Page()
		p.chart(mostPlot)
	}
	if p.first.faults {
		p.begin(faultsPart, p.texts.Faults.Heading, 3*body.Leading)
		p.flowing(p.faultList())
		p.flow.End()
	}
	if p.first.questions {
		p.begin(questionsPart, p.texts.Questions.Heading, 3*body.Leading)
		p.flowing(p.questionList())
		p.flow.End()
	}
	if p.first.bars || p.first.graphs {
		p.begin(barsPart, p.texts.BarsMore.Heading, 3*barRow)
		p.allBars()
		p.flow.End()
	}
}
