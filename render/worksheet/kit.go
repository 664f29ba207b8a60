package worksheet

import (
	"strconv"
	"strings"

	"hourseal/record/plan"
	"hourseal/record/quantity"
	"hourseal/render/sheet"
	"hourseal/render/words"
)

// kit is what to bring: fluids with their arithmetic, the extractor, parts. Each
// has a box to tick when it is packed.
func (p *page) kit() {
	t := p.texts.Kit
	table := sheet.Table{Columns: []sheet.Column{{Share: 4}, {Title: t.Fluid, Share: 40}, {Title: t.Arithmetic, Share: 70}}}
	add := func(what, much sheet.Cell) {
		table.Rows = append(table.Rows, sheet.Row{Cells: []sheet.Cell{{tick(sheet.Left)}, what, much}})
	}
	for _, s := range p.Kit.Supplies {
		add(p.fluid(s), p.arithmetic(s))
	}
	for _, name := range p.oilForFilter() {
		system, _ := p.Plan.Machine.System(name)
		add(says(strong, words.Name(name)), says(body, t.FilterOil.With("holds", p.known(system.FilterHolds))))
	}
	for _, system := range p.drained() {
		add(p.emptying(system))
	}
	parts := p.parts()
	p.flow.Section(t.Heading)
	p.flow.Table(table)
	if len(table.Rows) > 0 && len(parts.Rows) > 0 {
		p.flow.Space(3 * sheet.Pt)
	}
	p.flow.Table(parts)
	if len(table.Rows)+len(parts.Rows) == 0 {
		p.flow.Text(body, t.Empty)
	}
	p.flow.End()
}

// fluid is which fluid: what suits, and what was filled last time.
func (p *page) fluid(s plan.Supply) sheet.Cell {
	t := p.texts.Kit
	system, _ := p.Plan.Machine.System(s.System)
	cell := says(strong, words.Name(s.System))
	cell = append(cell, says(small, p.anyOf(t.Viscosity, s.Viscosity), p.anyOf(t.Meets, s.Meets))...)
	if system.Glycol != "" {
		line := t.Glycol.With("glycol", system.Glycol)
		if to := system.ProtectTo; to != nil {
			line = joined(", ", line, t.Protect.With("temperature", p.style.Marked(to.String())))
		}
		cell = append(cell, text(small, line))
	}
	if s.Product != "" {
		cell = append(cell, text(small, t.LastProduct.With("product", s.Product)))
	}
	return cell
}

// anyOf names a list of which any one will do; one alone stands without "any
// of", as in "marked API CI-4".
func (p *page) anyOf(phrase words.Phrase, list []string) string {
	if len(list) == 0 {
		return ""
	}
	return phrase.With("list", strings.Join(list, p.texts.Kit.Or))
}

// arithmetic is how much is needed, how much to bring, and in which cans.
func (p *page) arithmetic(s plan.Supply) sheet.Cell {
	t := p.texts.Kit
	if s.Needs == 0 {
		key := "at_upper" // as the machine file has it for oils
		if system, _ := p.Plan.Machine.System(s.System); system.Glycol != "" {
			key = "holds"
		}
		return says(body, t.Unknown.With("machine", p.Plan.Machine.ID, "system", s.System, "key", key))
	}
	line := t.Sum.With("of", p.of(s), "margin", p.style.Marked(s.Margin.Percent()), "bring", p.style.Volume(s.Bring))
	exact := int64(quantity.One)
	if int64(s.Bring)*exact != int64(s.Needs)*(exact+int64(s.Margin)) {
		line += t.Rounded
	}
	if len(s.Cans) == 0 {
		return append(says(body, line), says(small, t.NoCans)...)
	}
	return says(body, line+t.Cans.With("cans", p.cans(s.Cans), "holds", p.style.Volume(s.Holds)))
}

// of is what the system takes, and what that figure is.
func (p *page) of(s plan.Supply) string {
	t := p.texts.Kit
	phrase := t.Holds
	if system, _ := p.Plan.Machine.System(s.System); system.AtUpper != 0 {
		phrase = t.UpperPlain
		if system.FilterHolds != 0 {
			phrase = t.Upper
		}
	}
	return phrase.With("needs", p.style.Volume(s.Needs))
}

// cans is "2 cans of 5 L and 1 of 1 L".
func (p *page) cans(cans []plan.Can) string {
	t := p.texts.Kit
	var said []string
	for i, can := range cans {
		phrase := t.CanFurther
		if i == 0 {
			phrase = t.CansFirst
			if can.Count == 1 {
				phrase = t.CanFirst
			}
		}
		said = append(said, phrase.With("count", strconv.Itoa(can.Count), "size", p.style.Volume(can.Size)))
	}
	if n := len(said); n > 1 {
		return strings.Join(said[:n-1], ", ") + t.And + said[n-1]
	}
	return strings.Join(said, "")
}

// fillings is "2 fillings of 6 L"; "" without an extractor.
func (p *page) fillings(e plan.Extraction) string {
	if e.Holds <= 0 {
		return ""
	}
	phrase := p.texts.Kit.Fillings
	if e.Fillings == 1 {
		phrase = p.texts.Kit.Filling
	}
	return phrase.With("count", strconv.Itoa(e.Fillings), "holds", p.style.Volume(e.Holds))
}

// partName is what a part is called, or what it is for.
func (p *page) partName(part plan.Part) string {
	if part.Item == "" {
		return p.texts.Kit.PartFor.With("title", part.For)
	}
	return words.Name(part.Item)
}

// parts are the parts with their numbers; where none is on record there is a line
// to write it on.
func (p *page) parts() sheet.Table {
	t := p.texts.Kit
	table := sheet.Table{Columns: []sheet.Column{
		{Share: 4}, {Title: t.Part, Share: 40}, {Title: t.Number, Share: 58}, {Title: t.Count, Share: 10},
	}}
	width := p.flow.Widths(table.Columns)[2]
	for _, part := range p.Kit.Parts {
		number := says(body, part.Number)
		if part.Number == "" {
			number = blanks(width, sheet.Blank{Label: t.NumberUnknown})
		}
		table.Rows = append(table.Rows, sheet.Row{Cells: []sheet.Cell{
			{tick(sheet.Left)}, says(strong, p.partName(part)), number,
			says(body, strconv.FormatUint(uint64(part.Quantity), 10)),
		}})
	}
	return table
}
