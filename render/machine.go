package render

import (
	"hourseal/record"
	"hourseal/render/sheet"
)

// machine is the name plate, with the hours beside it.
func (p *report) machine() {
	m, t := p.r.Machine, p.texts.Machine
	power := ""
	if m.RatedPower != 0 {
		power = m.RatedPower.String()
	}
	facts := []sheet.Fact{
		fact(t.Make, says(plate, m.Make)),
		fact(t.Model, says(plate, m.Model)),
		fact(t.Serial, says(plate, m.Serial)),
		fact(t.Kind, says(body, m.Kind)),
		fact(t.Position, says(body, m.Position)),
		fact(t.Power, says(body, power)),
		fact(t.Vessel, says(body, m.Vessel)),
		fact(t.Hull, says(body, m.Hull)),
		fact(t.ID, says(body, m.ID)),
		wide(3, fact(t.DrivenBy, says(body, m.DrivenBy))),
	}
	hours := p.hours()
	look, area, pad := p.look(), p.flow.Area(), 8*sheet.Pt
	wr := area.W * 30 / 100
	wl := area.W - wr - 4*pad
	h := max(sheet.FactsHeight(look, wl, 3, facts), hours.Height(wr)) + 2*pad
	p.flow.Block(h+2*sheet.Pt, func(page int, b sheet.Box) {
		b.H = h
		p.doc.Fill(page, panel, b)
		p.doc.Stroke(page, b, sheet.Pt/2, accent)
		in := b.Inset(pad)
		sheet.PlaceFacts(p.doc, look, page, sheet.Box{X: in.X, Y: in.Y, W: wl, H: in.H}, 3, facts)
		x := in.Right() - wr
		p.doc.Fill(page, hair, sheet.Box{X: x - pad, Y: in.Y, W: sheet.Pt / 2, H: in.H})
		hours.Place(p.doc, page, sheet.Box{X: x, Y: in.Y, W: wr, H: in.H})
	})
}

// hours are the hours in total, and how they came about.
func (p *report) hours() sheet.Cell {
	j, t := p.r.Job, p.texts.Machine
	m := j.Meter
	name := t.Hours
	if m.State != record.Running && !p.statesNothing() {
		name = t.HoursEstimated
	}
	cell := sheet.Cell{
		text(caption, name),
		text(figures, t.HoursLine.With("hours", j.Hours.String())),
	}
	reading := ""
	if m.Reading != nil {
		reading = m.Reading.String()
	}
	switch {
	case p.statesNothing(): // and estimated nothing
		cell = append(cell, text(body, m.Basis))
	case m.State != record.Running:
		cell = append(cell, text(body, t.Meter+": "+string(t.MeterState.Of(m.State.String()))), text(body, t.Estimate.With("basis", m.Basis)))
	default:
		cell = append(cell, text(body, t.Meter+": "+t.MeterState.Of(m.State.String()).With("reading", reading)))
	}
	if m.Offset != 0 {
		cell = append(cell, text(body, t.MeterOffset.With("offset", m.Offset.String())))
	}
	if c := m.Change; c != nil {
		change := t.MeterChangeLost
		removed := ""
		if c.RemovedAt != nil {
			change, removed = t.MeterChange, c.RemovedAt.String()
		}
		cell = append(cell, text(body, change.With("removed", removed, "fitted", c.FittedAt.String(), "why", c.Why)))
	}
	start := p.r.Machine.InService
	return append(cell, text(body, t.InService.With("date", start.Date.String(), "hours", start.Hours.String())))
}

// job is the visit.
func (p *report) job() {
	j, by, t := p.r.Job, p.r.By, p.texts.Job
	number := ""
	if by.Number != "" {
		number = t.TechnicianNumber.With("number", by.Number)
	}
	p.flow.Section(t.Heading)
	p.flow.Facts(6, []sheet.Fact{
		fact(t.Reason, says(body, string(t.Reasons.Of(j.Reason.String())))),
		fact(t.Date, says(body, j.Date.String())),
		fact(t.Place, says(body, j.Place)),
		fact(t.Number, says(body, j.Number)),
		fact(t.Technician, says(body, sentences(", ", by.Name, number))),
		fact(t.Credential, says(body, by.Credential)),
	})
	p.flow.End()
}
