package statement

import (
	"strconv"
	"time"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/render/sheet"
	"hourseal/render/words"
	"hourseal/verify/history"
)

// Settings is all that a statement needs beside the judgement.
type Settings struct {
	Paper       record.Paper
	MadeOn      quantity.Date // the day that it is made
	AsTheyStand bool          // the reader has named no signer
	// SignedList is the name of the signed list that goes with it; nil: none does.
	SignedList *string
	Aside      []history.SetAside
}

// Statement prints the history of a machine as a PDF file; see the package comment.
func Statement(m *history.Machine, in Settings) ([]byte, error) {
	press := sheet.Begin(paperOf(in), sheet.Meta{
		Producer: "hourseal",
		Title:    words.Statement().Document.File.With("machine", m.Title()),
		Lang:     "en-GB",
		Date:     time.Unix(int64(in.MadeOn)*24*60*60, 0),
	})
	p, err := set(m, in)
	if err != nil {
		return nil, err
	}
	return p.doc.PDF(press)
}

// page is one statement while it is being set.
type page struct {
	m      *history.Machine
	in     Settings
	texts  words.StatementTexts
	report words.Texts // for what a report says in the same words
	doc    *sheet.Document
	flow   *sheet.Flow

	// first is what the first page leaves over; at are the pages that have it, as far
	// as they are known, by section.
	first leftOver
	at    map[part]int

	unprintable bool
}

// part is what the first page refers to.
type part int

const (
	faultsPart part = iota
	chartPart
	questionsPart
	barsPart
	standsPart
	endsPart
)

// leftOver says of what the first page does not have everything.
type leftOver struct{ faults, graphs, questions, bars bool }

// set lays the statement out twice: the first page names pages that are known only
// when the others are set.
func set(m *history.Machine, in Settings) (*page, error) {
	p := &page{m: m, in: in, at: map[part]int{}}
	for range 2 {
		p = &page{m: m, in: in, at: p.at, texts: words.Statement(), report: words.Report()}
		paper := paperOf(in)
		p.doc = sheet.NewDocument(paper)
		p.flow = sheet.NewFlow(p.doc, pageArea(paper), p.look())
		p.pageOne()
		p.flow.Break()
		p.overflow()
		p.stands()
		p.tasks()
		p.records()
		p.ends()
		p.lists()
		p.aside()
		p.furniture()
	}
	return p, p.doc.Err()
}

func paperOf(in Settings) sheet.Paper {
	if in.Paper == record.Letter {
		return sheet.Letter
	}
	return sheet.A4
}

// begin begins a section that the first page refers to.
func (p *page) begin(which part, heading string, least sheet.Len) {
	p.flow.Section(p.clean(heading))
	p.flow.Require(least)
	p.at[which] = p.flow.Page()
}

func (p *page) pageOf(which part) string { return strconv.Itoa(p.at[which]) }

// furniture is the foot of each page: the machine, and the page's number. What is too
// long ends in an ellipsis, the make and model before the serial number; the first page
// has it in full.
func (p *page) furniture() {
	area, t, gap := p.flow.Area(), p.texts.Document, 12*sheet.Pt
	name, serial := p.clean(p.m.Make+" "+p.m.Model), faint.Elide(p.clean(p.m.Serial), area.W*2/5)
	letters := ""
	if p.unprintable {
		letters = t.Letters
	}
	for page := 1; page <= p.doc.Pages(); page++ {
		number := t.Page.With("page", strconv.Itoa(page), "pages", strconv.Itoa(p.doc.Pages()))
		if page > 1 {
			number = t.Made.With("date", p.in.MadeOn.String()) + " · " + number
		}
		top := area.Bottom() + 8*sheet.Pt
		p.doc.Rule(page, area.X, top-3*sheet.Pt, area.W, sheet.Pt/2, hair)
		p.doc.TextIn(page, area.X, area.W, top, sheet.Right, faint, number)
		room := area.W - faint.Width(number) - gap
		foot := t.Footer.With("machine", name, "serial", serial)
		if faint.Width(foot) > room {
			rest := faint.Width(t.Footer.With("machine", "…", "serial", serial))
			foot = t.Footer.With("machine", faint.Elide(name, room-rest), "serial", serial)
		}
		p.doc.Text(page, area.X, top, faint, foot)
		p.doc.Text(page, area.X, top+faint.Leading, fine, letters)
	}
}
