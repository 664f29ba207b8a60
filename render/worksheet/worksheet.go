package worksheet

import (
	"cmp"
	"fmt"
	"time"

	"hourseal/record"
	"hourseal/record/jobsheet"
	"hourseal/record/plan"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
	"hourseal/render/sheet"
	"hourseal/render/words"
)

// Sheet is what a worksheet is printed from.
type Sheet struct {
	Yard jobsheet.Yard
	Plan plan.Plan
	Work []plan.Item // to be done on this visit, in the schedule's order; may be empty
	Kit  plan.Kit
	// Drain is extractor or plug for all systems, or "": as the machine file
	// says, else extractor where the yard has one, else plug.
	Drain string
}

// PDF prints a worksheet. The error matches [sheet.ErrNoGlyph] for a character
// that cannot be printed, or says which way of draining it does not know.
func PDF(s Sheet) ([]byte, error) {
	p, err := set(s)
	if err != nil {
		return nil, err
	}
	return p.doc.PDF(sheet.Begin(p.paper(), sheet.Meta{
		Producer: "hourseal",
		Title:    p.texts.Document.File.With("machine", p.machineName(), "date", p.date()),
		Author:   s.Yard.Name,
		Lang:     "en-GB",
		Date:     time.Unix(int64(s.Plan.On)*24*60*60, 0),
	}))
}

// page is one worksheet while it is being set.
type page struct {
	Sheet
	style  quantity.Style // of the yard
	texts  words.WorksheetTexts
	report words.Texts // for what a report says in the same words
	doc    *sheet.Document
	flow   *sheet.Flow
}

func set(s Sheet) (*page, error) {
	switch s.Drain {
	case "", words.DrainExtractor, words.DrainPlug:
	default:
		return nil, fmt.Errorf("drain: no way of draining is called %q: write extractor or plug", s.Drain)
	}
	p := &page{Sheet: s, style: s.Yard.Style, texts: words.Worksheet(), report: words.Report()}
	p.doc = sheet.NewDocument(p.paper())
	p.flow = sheet.NewFlow(p.doc, pageArea(p.paper()), p.look())
	p.head()
	if len(s.Work) == 0 {
		p.nothing()
	} else {
		p.form()
		p.cautions()
		p.due()
		p.kit()
		p.steps()
		p.results()
	}
	p.governs()
	p.furniture()
	return p, p.doc.Err()
}

func (p *page) paper() sheet.Paper {
	if p.Yard.Paper == record.Letter {
		return sheet.Letter
	}
	return sheet.A4
}

func (p *page) date() string { return p.style.Date(p.Plan.On) }

func (p *page) machineName() string {
	m := p.Plan.Machine
	return p.texts.Document.Machine.With("vessel", m.Vessel.Name, "make", m.Make, "model", m.Model, "position", m.Position)
}

// drain says how a system is emptied; see the package comment.
func (p *page) drain(system string) string {
	own, _ := p.Plan.Machine.System(system)
	usual := words.DrainPlug
	if p.Yard.Extractor != 0 {
		usual = words.DrainExtractor
	}
	return cmp.Or(p.Drain, own.Drain, usual)
}

// tasks are the tasks of the work.
func (p *page) tasks() []schedule.Task {
	tasks := make([]schedule.Task, len(p.Work))
	for i, item := range p.Work {
		tasks[i] = item.Task
	}
	return tasks
}

// hours prints hours that follow from where the machine stands: in whole hours
// where that was worked out.
func (p *page) hours(h quantity.Hours) string {
	if p.Plan.Hours.Given {
		return p.style.Hours(h)
	}
	return p.style.Hours(h.Whole())
}

var joined = words.Joined
