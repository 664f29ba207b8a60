package sheet

// Fact is a caption with what stands under it. Span is how many columns it
// takes, 1 if zero. A fact without any item is left out.
type Fact struct {
	Caption string
	Value   Cell
	Span    int
}

const factGap = 4 * Pt

// Facts places facts in so many equal columns, row by row.
func (f *Flow) Facts(columns int, facts []Fact) {
	for _, row := range factRows(columns, facts) {
		h := factsHeight(f.look, f.area.W, columns, row) + factGap
		f.Block(h, func(page int, b Box) { placeFacts(f.doc, f.look, page, b, columns, row) })
	}
}

// FactsHeight is how tall facts are in a width.
func FactsHeight(look Look, width Len, columns int, facts []Fact) Len {
	var h Len
	for i, row := range factRows(columns, facts) {
		if i > 0 {
			h += factGap
		}
		h += factsHeight(look, width, columns, row)
	}
	return h
}

// PlaceFacts draws facts in a box of at least their height.
func PlaceFacts(d *Document, look Look, page int, b Box, columns int, facts []Fact) {
	for _, row := range factRows(columns, facts) {
		placeFacts(d, look, page, b, columns, row)
		b.Y += factsHeight(look, b.W, columns, row) + factGap
	}
}

// factRows cuts the facts into rows, none of them wider than the columns.
func factRows(columns int, facts []Fact) [][]Fact {
	var rows [][]Fact
	used := columns
	for _, fact := range facts {
		if len(fact.Value) == 0 {
			continue
		}
		span := min(max(fact.Span, 1), columns)
		if used+span > columns {
			rows, used = append(rows, nil), 0
		}
		fact.Span = span
		last := len(rows) - 1
		rows[last], used = append(rows[last], fact), used+span
	}
	return rows
}

func factWidth(width Len, columns, span int) Len {
	one := (width - columnGap*Len(columns-1)) / Len(columns)
	return one*Len(span) + columnGap*Len(span-1)
}

// cell is the caption with the value under it.
func (fact Fact) cell(look Look) Cell {
	return append(Cell{{Text: fact.Caption, Style: look.Caption}}, fact.Value...)
}

func factsHeight(look Look, width Len, columns int, row []Fact) Len {
	var h Len
	for _, fact := range row {
		h = max(h, fact.cell(look).Height(factWidth(width, columns, fact.Span)))
	}
	return h
}

func placeFacts(d *Document, look Look, page int, b Box, columns int, row []Fact) {
	x := b.X
	for _, fact := range row {
		w := factWidth(b.W, columns, fact.Span)
		fact.cell(look).Place(d, page, Box{x, b.Y, w, b.H})
		x += w + columnGap
	}
}
