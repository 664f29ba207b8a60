package worksheet

import (
	"strconv"

	"hourseal/record/schedule"
	"hourseal/render/sheet"
)

// head is the yard and what this is, then the machine with its hours.
func (p *page) head() {
	t := p.texts.Document
	left := says(masthead, p.Yard.Name)
	left = append(left, says(small, joined(" · ", p.Yard.Address, p.Yard.Contact))...)
	right := sheet.Cell{textRight(masthead.In(ink), t.Title), textRight(strong, t.MadeFor.With("date", p.date()))}
	area := p.flow.Area()
	wr := area.W * 28 / 100
	wl := area.W - wr - 12*sheet.Pt
	h := max(left.Height(wl), right.Height(wr))
	p.flow.Block(h+9*sheet.Pt, func(page int, b sheet.Box) {
		left.Place(p.doc, page, sheet.Box{X: b.X, Y: b.Y, W: wl, H: h})
		right.Place(p.doc, page, sheet.Box{X: b.Right() - wr, Y: b.Y, W: wr, H: h})
		p.doc.Rule(page, b.X, b.Y+h+3*sheet.Pt, b.W, 2*sheet.Pt, accent)
	})
	p.machine()
}

func (p *page) machine() {
	m, t := p.Plan.Machine, p.report.Machine
	facts := []sheet.Fact{
		{Caption: t.Make, Value: says(plate, m.Make)},
		{Caption: t.Model, Value: says(plate, m.Model)},
		{Caption: t.Serial, Value: says(plate, m.Serial)},
		{Caption: t.Vessel, Value: says(body, m.Vessel.Name)},
		{Caption: t.Position, Value: says(body, m.Position)},
		{Caption: p.texts.Form.File, Value: says(body, m.ID)},
		{Caption: t.DrivenBy, Value: says(body, m.DrivenBy)},
	}
	hours := p.hoursNow()
	area, pad := p.flow.Area(), 7*sheet.Pt
	wr := area.W * 32 / 100
	wl := area.W - wr - 4*pad
	h := max(sheet.FactsHeight(p.look(), wl, 3, facts), hours.Height(wr)) + 2*pad
	p.flow.Block(h+2*sheet.Pt, func(page int, b sheet.Box) {
		b.H = h
		p.doc.Fill(page, panel, b)
		p.doc.Stroke(page, b, sheet.Pt/2, accent)
		in := b.Inset(pad)
		sheet.PlaceFacts(p.doc, p.look(), page, sheet.Box{X: in.X, Y: in.Y, W: wl, H: in.H}, 3, facts)
		x := in.Right() - wr
		p.doc.Fill(page, hair, sheet.Box{X: x - pad, Y: in.Y, W: sheet.Pt / 2, H: in.H})
		hours.Place(p.doc, page, sheet.Box{X: x, Y: in.Y, W: wr, H: in.H})
	})
}

// hoursNow is where the hours stand, and how that is known.
func (p *page) hoursNow() sheet.Cell {
	now, t := p.Plan.Hours, p.texts.Hours
	total, meter := p.hours(now.Total), p.hours(now.Reading(now.Total))
	var cell sheet.Cell
	if now.Given {
		cell = append(says(caption, t.Total), says(figures, t.Line.With("hours", total))...)
	} else {
		cell = append(says(caption, t.TotalEstimated), says(figures, t.About.With("hours", total))...)
		cell = append(cell, says(small, p.workedOut())...)
	}
	switch {
	case !now.Runs():
		return cell
	case now.Given && now.Offset == 0:
		return append(cell, says(small, t.Read)...)
	case now.Offset == 0:
		return cell
	case now.Given:
		cell = append(cell, says(body, t.Reading.With("reading", meter))...)
	default:
		cell = append(cell, says(body, t.ReadingAbout.With("reading", meter))...)
	}
	if now.Offset < 0 {
		return append(cell, says(small, t.MeterAhead.With("offset", p.style.Hours(-now.Offset)))...)
	}
	return append(cell, says(small, t.OtherMeters.With("offset", p.style.Hours(now.Offset)))...)
}

// workedOut says from which reading the hours were carried on, and how.
func (p *page) workedOut() string {
	now, use, t := p.Plan.Hours, p.Plan.Use, p.texts.Hours
	date := p.style.Date(now.Last.Date)
	switch {
	case use.Basis == schedule.UseUnknown:
		return t.LastNoUse.With("date", date)
	case now.Total == now.Last.Hours:
		return t.Last.With("date", date)
	}
	basis := map[schedule.UseBasis]string{
		schedule.FromReadings: "readings", schedule.FromMachineFile: "file", schedule.FromFewReadings: "few",
	}[use.Basis]
	return t.Carried.With("hours", p.style.Hours(now.Last.Hours), "date", date,
		"year", p.hours(use.PerYear), "basis", string(t.Basis.Of(basis)))
}

// form are the lines to fill in first.
func (p *page) form() {
	t, width := p.texts.Form, p.flow.Area().W
	cell := blanks(width,
		sheet.Blank{Label: t.Meter, Unit: t.MeterUnit, Rule: 70 * sheet.Pt},
		sheet.Blank{Label: t.Date, Rule: 76 * sheet.Pt},
		sheet.Blank{Label: t.Job, Rule: 0})
	cell = append(cell, blanks(width, sheet.Blank{Label: t.Technician, Rule: 180 * sheet.Pt}, sheet.Blank{Label: t.Place})...)
	h := cell.Height(width)
	p.flow.Block(h+2*sheet.Pt, func(page int, b sheet.Box) { cell.Place(p.doc, page, b) })
}

// furniture is what each page has beside its content: the machine and the date,
// and the page's number. What is too long ends in an ellipsis; the first page
// has it in full.
func (p *page) furniture() {
	area, t, m := p.flow.Area(), p.texts.Document, p.Plan.Machine
	gap := 12 * sheet.Pt
	running := t.Running.With("machine", p.machineName(), "date", p.date())
	foot := t.Footer.With("machine", joined(" ", m.Make, m.Model), "serial", m.Serial)
	for page := 1; page <= p.doc.Pages(); page++ {
		top := area.Y - 17*sheet.Pt
		p.doc.TextIn(page, area.X, area.W, top, sheet.Right, faint, t.Title)
		// The date comes last and must not be what is left out.
		room := area.W - faint.Width(t.Title) - gap
		if faint.Width(running) > room {
			date := t.Running.With("machine", "…", "date", p.date())
			name := faint.Elide(p.machineName(), room-faint.Width(date))
			running = t.Running.With("machine", name, "date", p.date())
		}
		p.doc.Text(page, area.X, top, faint, running)
		number := t.Page.With("page", strconv.Itoa(page), "pages", strconv.Itoa(p.doc.Pages()))
		top = area.Bottom() + 8*sheet.Pt
		p.doc.Rule(page, area.X, top-3*sheet.Pt, area.W, sheet.Pt/2, hair)
		p.doc.TextIn(page, area.X, area.W, top, sheet.Right, faint, number)
		p.doc.Text(page, area.X, top, faint, faint.Elide(foot, area.W-faint.Width(number)-gap))
	}
}
