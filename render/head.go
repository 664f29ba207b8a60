package render

import (
	"strconv"

	"hourseal/record"
	"hourseal/render/sheet"
	"hourseal/render/words"
	"hourseal/sign"
)

var sentences = words.Joined

const dot = " · "

// head is the yard on the left, what this is on the right.
func (p *report) head() {
	r, t := p.r, p.texts
	left := sheet.Cell{text(masthead, r.Issuer.Name)}
	if r.Issuer.Kind != record.YardIssuer {
		left = append(left, text(strong, string(t.Issuer.By.Of(r.Issuer.Kind.String()))))
	}
	left = append(left, text(small, r.Issuer.Address), text(small, r.Issuer.Contact))
	right := sheet.Cell{
		textRight(masthead.In(ink), string(t.Document.Titles.Of(r.Kind.String()))),
		textRight(strong, sentences(dot, r.Job.Number, r.Job.Date.String())),
		textRight(small, p.number()),
		textRight(small, t.Document.ID+" "+p.id.String()),
	}
	area := p.flow.Area()
	wl := area.W * 56 / 100
	wr := area.W - wl - 12*sheet.Pt
	h := max(left.Height(wl), right.Height(wr))
	p.flow.Block(h+10*sheet.Pt, func(page int, b sheet.Box) {
		left.Place(p.doc, page, sheet.Box{X: b.X, Y: b.Y, W: wl, H: h})
		right.Place(p.doc, page, sheet.Box{X: b.Right() - wr, Y: b.Y, W: wr, H: h})
		p.doc.Rule(page, b.X, b.Y+h+4*sheet.Pt, b.W, 2*sheet.Pt, accent)
	})
}

func (p *report) number() string {
	return p.texts.Document.Number.With("number", strconv.FormatUint(uint64(p.r.Number), 10))
}

// firstThings are what a reader must not miss.
func (p *report) firstThings() {
	for _, f := range p.r.Findings {
		if f.Code == record.LevelOverfilled {
			p.box(night, true,
				text(plate.In(white), p.texts.Banner.Overfilled),
				text(small.In(white), p.texts.Banner.OverfilledWhy))
			break
		}
	}
	if s := p.r.Subject; s != nil {
		id := sign.ID(s.Record)
		p.box(ink, false,
			text(plate, p.texts.Document.About.Of(p.r.Kind.String()).With("id", id.String())),
			text(body, p.texts.Document.Why+": "+s.Why),
			text(fine, id.Hex()))
	}
}

// box is a paragraph that stands out: on a dark ground, or in a frame.
func (p *report) box(c sheet.Color, filled bool, items ...sheet.Item) {
	cell, pad := sheet.Cell(items), 7*sheet.Pt
	h := cell.Height(p.flow.Area().W-2*pad) + 2*pad
	p.flow.Block(h+6*sheet.Pt, func(page int, b sheet.Box) {
		b.H = h
		if filled {
			p.doc.Fill(page, c, b)
		} else {
			p.doc.Stroke(page, b, 3*sheet.Pt/2, c)
		}
		cell.Place(p.doc, page, b.Inset(pad))
	})
}

// furniture is what each page has beside its content: from the second on who
// made the report, and at the foot of each what it is about. What is too long
// for it ends in an ellipsis; the first page has it in full.
func (p *report) furniture() {
	area, t := p.flow.Area(), p.texts.Document
	gap, half := 12*sheet.Pt, area.W/2
	machine := t.Footer.With("machine", p.r.Machine.Make+" "+p.r.Machine.Model, "serial", p.r.Machine.Serial)
	title := faint.Elide(p.title(), half)
	for page := 1; page <= p.doc.Pages(); page++ {
		if page > 1 {
			top := area.Y - 17*sheet.Pt
			p.doc.TextIn(page, area.X, area.W, top, sheet.Right, faint, title)
			p.doc.Text(page, area.X, top, faint, faint.Elide(p.r.Issuer.Name, half-gap))
		}
		number := sentences(dot, t.ID+" "+p.id.String(),
			t.Page.With("page", strconv.Itoa(page), "pages", strconv.Itoa(p.doc.Pages())))
		top := area.Bottom() + 8*sheet.Pt
		p.doc.Rule(page, area.X, top-3*sheet.Pt, area.W, sheet.Pt/2, hair)
		p.doc.TextIn(page, area.X, area.W, top, sheet.Right, faint, number)
		p.doc.Text(page, area.X, top, faint, faint.Elide(machine, area.W-faint.Width(number)-gap))
	}
}
