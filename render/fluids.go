package render

import (
	"strings"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/render/sheet"
	"hourseal/render/words"
)

// fluids are, of each system, what came out, what went in, the level between its
// marks and what follows; then what was topped up and burnt before the job and
// where the waste went.
func (p *report) fluids() {
	t := p.texts.Fluids
	table := sheet.Table{Columns: p.fluidColumns()}
	widths := p.flow.Widths(table.Columns)
	for i := range p.r.Fluids {
		f := &p.r.Fluids[i]
		table.Rows = append(table.Rows, sheet.Row{
			Cells: []sheet.Cell{p.fluidName(f), p.outAndIn(f, widths[1]), p.level(f)},
			Under: append(p.follows(f, widths[2]), p.machineFigures(f)...),
		})
	}
	p.flow.Section(t.Heading)
	p.flow.Table(table)
	if key := p.fluidsKey(); key != "" {
		p.flow.Space(2 * sheet.Pt)
		p.flow.Text(fine, key)
	}
	p.flow.Space(5 * sheet.Pt)
	p.flow.Table(p.aside())
	p.flow.End()
}

func (p *report) fluidColumns() []sheet.Column {
	t := p.texts.Fluids
	return []sheet.Column{{Title: t.System, Share: 30}, {Title: sentences(dot, t.Drained, t.Filled), Share: 54}, {Title: t.Level, Share: 48}}
}

// fluidsKey says what the drawings mean, as far as there are any.
func (p *report) fluidsKey() string {
	t := p.texts.Fluids
	var levels, before, expected, drawnOff, worked bool
	for i := range p.r.Fluids {
		f := &p.r.Fluids[i]
		levels = levels || hasStick(f)
		before = before || isRead(f.LevelBefore)
		expected = expected || expectedLevel(f) != nil
		drawnOff = drawnOff || p.bars(f).drawnOff > 0
		worked = worked || f.Balance != nil
	}
	var said []string
	for _, part := range []struct {
		there bool
		says  string
	}{{levels, t.LevelScale}, {before, t.BeforeKey}, {expected, t.ExpectedKey}, {drawnOff, t.DrawnDownKey}, {worked, t.WithinKey}} {
		if part.there {
			said = append(said, part.says)
		}
	}
	return sentences(" ", said...)
}

func (p *report) fluidName(f *record.Fluid) sheet.Cell {
	t := p.texts.Fluids
	cell := sheet.Cell{text(strong, words.Name(f.System)), text(body, sentences(" ", f.Product, f.Viscosity))}
	if f.Glycol != 0 {
		cell = append(cell, text(body, string(t.Glycols.Of(f.Glycol.String()))))
	}
	if len(f.Meets) > 0 {
		cell = append(cell, text(small, t.Meets+": "+strings.Join(f.Meets, ", ")))
	}
	if f.Batch != "" {
		cell = append(cell, text(small, t.Batch+": "+f.Batch))
	}
	return cell
}

// assumedDensity is what the check takes for an oil whose density the machine file
// does not give.
const assumedDensity quantity.Density = 880

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
	var lines []string
	if b := f.Balance; f.Density == 0 && !f.IsCoolant() && b != nil && (b.Drained != nil || b.Filled != nil) {
		lines = append(lines, t.DensityAssumed.With("density", assumedDensity.String()))
	}
	if len(parts) > 0 {
		lines = append(lines, t.MachineFile+": "+strings.Join(parts, ", "))
	}
	if len(lines) == 0 {
		return nil
	}
	return sheet.Cell{{Style: fine, Text: sentences(" ", lines...), Before: 2 * sheet.Pt}}
}

// aside is what was topped up and burnt before the job, and beside it where the
// waste went: lists, each an entry a row.
func (p *report) aside() sheet.Table {
	t := p.texts.Fluids
	var up, burnt, waste []sheet.Cell
	if m := p.r.Job.FuelUsed; m != nil {
		burnt = append(burnt, says(body, p.amountLine(m)))
	}
	for i := range p.r.ToppedUp {
		u := &p.r.ToppedUp[i]
		up = append(up, says(body, words.Name(u.System)+": "+p.amountLine(&u.Amount)))
	}
	for i := range p.r.Waste {
		w := &p.r.Waste[i]
		receipt, held := "", ""
		if w.Receipt != "" {
			receipt = t.Receipt.With("number", w.Receipt)
		}
		if w.Held != "" {
			held = t.Held.With("where", w.Held)
		}
		waste = append(waste, says(body, words.Name(w.System)+": "+sentences(", ", p.amountLine(&w.Amount), w.To, receipt, held)))
	}
	var table sheet.Table
	for _, list := range []struct {
		title string
		share int
		cells []sheet.Cell
	}{{t.ToppedUp, 2, up}, {t.FuelUsed, 2, burnt}, {t.Waste, 3, waste}} {
		if len(list.cells) == 0 {
			continue
		}
		table.Columns = append(table.Columns, sheet.Column{Title: list.title, Share: list.share})
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
