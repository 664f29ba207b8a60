package sheet

// Blank is a place to write by hand: what it is, a line, and the unit after it.
// A Rule of 0 takes what is left of the width. With Tick it is a box and its
// label, without a line.
type Blank struct {
	Label, Unit string
	Rule        Len
	Tick        bool
}

const (
	blankGap   = 14 * Pt // between two blanks of a line
	blankSpace = 3 * Pt  // between a line and the words at its ends
	blankLeast = 90 * Pt // the shortest line that takes what is left
	tickSide   = 9 * Pt
	besideRoom = 2 * Pt // above text that is written beside
)

// Blanks sets blanks one after another in a width, in lines of a height to write
// in. A label or unit too long to leave room for the line stands above it.
func Blanks(s Style, rule Color, height, width Len, blanks []Blank) Cell {
	var cell Cell
	var line []Blank
	used := Len(0)
	flush := func() {
		if len(line) > 0 {
			cell = append(cell, blankLine(s, rule, height, line))
			line, used = nil, 0
		}
	}
	for _, b := range blanks {
		if b.natural(s) > width && !b.Tick {
			flush()
			cell = append(cell, Item{Text: b.Label, Style: s, Before: blankSpace})
			if b.Label, b.Rule = "", min(b.Rule, width/2); b.natural(s) > width {
				cell, b.Unit = append(cell, Item{Text: b.Unit, Style: s}), ""
			}
		}
		if need := b.natural(s); used > 0 && used+blankGap+need > width {
			flush()
		} else if used > 0 {
			used += blankGap
		}
		line, used = append(line, b), used+b.natural(s)
		if b.Rule == 0 && !b.Tick {
			flush()
		}
	}
	flush()
	return cell
}

// TextAndBlanks sets text with blanks after it: on its last line where they fit
// there, else below it.
func TextAndBlanks(s Style, text string, small Style, rule Color, height, width Len, blanks []Blank) Cell {
	lines := s.Wrap(text, width)
	last := len(lines) - 1
	used := s.Width(lines[last]) + blankGap
	beside := Blanks(small, rule, height, max(width-used, 0), blanks)
	if len(blanks) == 0 || len(beside) != 1 || beside[0].Draw == nil || naturalOf(small, blanks) > width-used {
		return append(Cell{{Text: text, Style: s}}, Blanks(small, rule, height, width, blanks)...)
	}
	var cell Cell
	for _, line := range lines[:last] {
		cell = append(cell, Item{Text: line, Style: s})
	}
	draw, h := beside[0].Draw, s.Leading+besideRoom
	return append(cell, Item{Height: h, Draw: func(d *Document, page int, b Box) {
		d.Text(page, b.X, b.Bottom()-s.Leading, s, lines[last])
		drop := s.baseline() - s.Leading - (small.baseline() - small.Leading) // one baseline for both
		draw(d, page, Box{b.X + used, b.Y + drop, b.W - used, b.H})
	}})
}

func naturalOf(s Style, blanks []Blank) Len {
	all := blankGap * Len(max(len(blanks)-1, 0))
	for _, b := range blanks {
		all += b.natural(s)
	}
	return all
}

// ends are the widths of what stands before and after the line, gaps included.
func (b Blank) ends(s Style) (label, unit Len) {
	if b.Label != "" {
		label = s.Width(b.Label) + blankSpace
	}
	if b.Unit != "" {
		unit = s.Width(b.Unit) + blankSpace
	}
	return label, unit
}

func (b Blank) natural(s Style) Len {
	label, unit := b.ends(s)
	switch {
	case b.Tick:
		return tickSide + blankSpace + label
	case b.Rule == 0:
		return label + blankLeast + unit
	}
	return label + b.Rule + unit
}

func blankLine(s Style, rule Color, height Len, line []Blank) Item {
	return Item{Height: height, Draw: func(d *Document, page int, at Box) {
		x, top := at.X, at.Bottom()-s.Leading
		for _, b := range line {
			if b.Tick {
				d.tick(page, Box{x, top, tickSide, s.Leading}, tickSide, rule, Left)
				d.Text(page, x+tickSide+blankSpace, top, s, b.Label)
				x += b.natural(s) + blankGap
				continue
			}
			label, unit := b.ends(s)
			width := b.Rule
			if width == 0 {
				width = at.Right() - x - label - unit
			}
			d.Text(page, x, top, s, b.Label)
			d.Rule(page, x+label, top+s.baseline(), width, Pt/2, rule)
			d.Text(page, x+label+width+blankSpace, top, s, b.Unit)
			x += label + width + unit + blankGap
		}
	}}
}

// TickBox is an empty square to tick, its middle on the middle of a line of
// text of that style: the faces have no such sign.
func TickBox(s Style, side Len, c Color, a Align) Item {
	return Item{Height: max(side, s.Leading), Draw: func(d *Document, page int, b Box) {
		d.tick(page, Box{b.X, b.Y, b.W, max(side, s.Leading)}, side, c, a)
	}}
}

func (d *Document) tick(page int, in Box, side Len, c Color, a Align) {
	d.Stroke(page, Box{a.x(in.X, in.W, side), in.Y + (in.H-side)/2, side, side}, 8*Pt/10, c)
}

// Widths are the widths that a table gives to its columns on this flow's pages.
func (f *Flow) Widths(columns []Column) []Len { return f.widths(columns) }
