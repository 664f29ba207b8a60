package render

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/render/sheet"
)

// plainName prints an id of a file (a system, a reading) as words.
func plainName(id string) string {
	name := strings.NewReplacer("-", " ", "_", " ").Replace(id)
	first, size := utf8.DecodeRuneInString(name)
	return string(unicode.ToUpper(first)) + name[size:]
}

// fluids are what came out, what went in, and the levels; then what was topped
// up before the job and where the waste went.
func (p *report) fluids() {
	t := p.texts.Fluids
	table := sheet.Table{Columns: []sheet.Column{
		{Title: t.System, Share: 32}, {Title: t.Drained, Share: 28}, {Title: t.Filled, Share: 32}, {Title: t.Level, Share: 43},
	}}
	levels := false
	for i := range p.r.Fluids {
		f := &p.r.Fluids[i]
		levels = levels || isRead(f.Level) || isRead(f.LevelBefore)
		table.Rows = append(table.Rows, sheet.Row{
			Cells: []sheet.Cell{p.fluidName(f), p.drained(f), p.measured(f.Filled), p.level(f)},
			Under: p.machineFigures(f),
		})
	}
	p.flow.Section(t.Heading)
	p.flow.Table(table)
	if levels {
		p.flow.Space(2 * sheet.Pt)
		p.flow.Text(fine, t.LevelScale)
	}
	p.flow.Space(5 * sheet.Pt)
	p.flow.Table(p.aside())
	p.flow.End()
}

func (p *report) fluidName(f *record.Fluid) sheet.Cell {
	t := p.texts.Fluids
	cell := sheet.Cell{text(strong, plainName(f.System)), text(body, sentences(" ", f.Product, f.Viscosity))}
	if len(f.Meets) > 0 {
		cell = append(cell, text(small, t.Meets+": "+strings.Join(f.Meets, ", ")))
	}
	if f.Batch != "" {
		cell = append(cell, text(small, t.Batch+": "+f.Batch))
	}
	return cell
}

// measured is an amount as written, and the same in litres or kilograms where
// it was written otherwise.
func (p *report) measured(m *quantity.Measured) sheet.Cell {
	if m == nil {
		return nil
	}
	if m.NotMeasured {
		return says(body, p.texts.Document.NotMeasured)
	}
	cell := says(strong, degrees(m.String()))
	if sum := inAll(m); sum != "" && !(len(m.Portions) == 1 && m.Portions[0].Written() == sum) {
		cell = append(cell, text(body, p.texts.Fluids.Litres.With("litres", sum)))
	}
	return cell
}

// inAll is the sum in litres or kilograms, as measured; "" for a sum of both.
func inAll(m *quantity.Measured) string {
	if v, ok := m.TotalVolume(); ok {
		return v.String()
	}
	if w, ok := m.TotalMass(); ok {
		return w.String()
	}
	return ""
}

// degrees prints the temperatures of an amount with their degree sign.
func degrees(amount string) string {
	return strings.ReplaceAll(amount+" ", " C ", " °C ")[:len(amount)+strings.Count(amount+" ", " C ")*len("°")]
}

func (p *report) drained(f *record.Fluid) sheet.Cell {
	cell := p.measured(f.Drained)
	if f.WithFilter != nil {
		note := p.texts.Fluids.DrainedWithoutFilter
		if *f.WithFilter {
			note = p.texts.Fluids.DrainedWithFilter
		}
		cell = append(cell, text(small, note))
	}
	return cell
}

func isRead(l *record.Level) bool { return l != nil && l.Reading != nil }

// level is the dipstick drawn, and what was read off it.
func (p *report) level(f *record.Fluid) sheet.Cell {
	t := p.texts.Fluids
	var cell sheet.Cell
	if isRead(f.Level) {
		cell = append(cell, p.dipstick(f))
	}
	if f.LevelBefore != nil {
		cell = append(cell, text(small, t.LevelBefore+": "+p.levelLine(f.LevelBefore)))
	}
	if f.Level != nil {
		cell = append(cell, text(small.Bold(), t.LevelNow+": "+p.levelLine(f.Level)))
	}
	return cell
}

func (p *report) levelLine(l *record.Level) string {
	t := p.texts.Fluids
	reading, after, at := p.texts.Document.NotMeasured, "", ""
	if l.Reading != nil {
		reading = l.Reading.String()
	}
	if l.After != nil {
		after = t.After.With("minutes", l.After.String())
	}
	if l.At != nil {
		at = t.At.With("temperature", l.At.String())
	}
	return sentences(", ", reading, after, at)
}

// machineFigures are what the reader needs of the machine file to judge the
// quantities.
func (p *report) machineFigures(f *record.Fluid) sheet.Cell {
	t := p.texts.Fluids
	var parts []string
	for _, figure := range []struct {
		volume quantity.Volume
		say    interface{ With(...string) string }
	}{{f.AtUpper, t.AtUpper}, {f.BetweenMarks, t.BetweenMarks}, {f.FilterHolds, t.FilterHolds}, {f.Holds, t.Holds}} {
		if figure.volume != 0 {
			parts = append(parts, figure.say.With("volume", figure.volume.String()))
		}
	}
	if f.Density != 0 {
		parts = append(parts, t.Density.With("density", f.Density.String()))
	}
	if len(parts) == 0 {
		return nil
	}
	return says(fine, t.MachineFile+": "+strings.Join(parts, ", "))
}

// aside is what was topped up before the job, and beside it where the waste
// went: two lists, each an entry a row.
func (p *report) aside() sheet.Table {
	t := p.texts.Fluids
	var up, waste []sheet.Cell
	for i := range p.r.ToppedUp {
		u := &p.r.ToppedUp[i]
		up = append(up, says(body, plainName(u.System)+": "+p.amountLine(&u.Amount)))
	}
	for i := range p.r.Waste {
		w := &p.r.Waste[i]
		receipt := ""
		if w.Receipt != "" {
			receipt = t.Receipt.With("number", w.Receipt)
		}
		waste = append(waste, says(body, plainName(w.System)+": "+sentences(", ", p.amountLine(&w.Amount), w.To, receipt)))
	}
	var table sheet.Table
	for _, list := range []struct {
		title string
		cells []sheet.Cell
	}{{t.ToppedUp, up}, {t.Waste, waste}} {
		if len(list.cells) == 0 {
			continue
		}
		table.Columns = append(table.Columns, sheet.Column{Title: list.title, Share: 1})
		for i, cell := range list.cells {
			if i == len(table.Rows) {
				table.Rows = append(table.Rows, sheet.Row{})
			}
			row := &table.Rows[i]
			for len(row.Cells) < len(table.Columns)-1 {
				row.Cells = append(row.Cells, nil)
			}
			row.Cells = append(row.Cells, cell)
		}
	}
	return table
}

// amountLine is an amount on one line: as written, and in litres or kilograms.
func (p *report) amountLine(m *quantity.Measured) string {
	if m.NotMeasured {
		return p.texts.Document.NotMeasured
	}
	line := degrees(m.String())
	if sum := inAll(m); sum != "" && (len(m.Portions) > 1 || sum != m.Portions[0].Written()) {
		line += " " + p.texts.Fluids.Litres.With("litres", sum)
	}
	return line
}
