package sheet

// Item is one thing in a cell: wrapped text, or a drawing of a fixed height over
// the cell's width. Before is the gap above it, none for the first. Text with a
// Mark before it (a dash, a number) hangs clear of it by Indent.
type Item struct {
	Text   string
	Style  Style
	Align  Align
	Before Len
	Mark   string
	Indent Len
	Height Len // of Draw
	Draw   func(d *Document, page int, b Box)
}

// Cell is a stack of items.
type Cell []Item

// Text is an item of text, and TextRight one at the right.
func Text(s Style, text string) Item      { return Item{Style: s, Text: text} }
func TextRight(s Style, text string) Item { return Item{Style: s, Text: text, Align: Right} }

// Says is a cell of the texts that are not empty.
func Says(s Style, texts ...string) Cell {
	var cell Cell
	for _, text := range texts {
		if text != "" {
			cell = append(cell, Text(s, text))
		}
	}
	return cell
}

// piece is a part of a cell that is placed whole: a line or a drawing.
type piece struct {
	height Len
	draw   func(d *Document, page int, b Box)
}

// pieces measures a cell for a width.
func (c Cell) pieces(width Len) []piece {
	var all []piece
	for _, item := range c {
		gap := item.Before
		if len(all) == 0 {
			gap = 0
		}
		if item.Draw != nil {
			all = append(all, piece{gap + item.Height, below(gap, item.Draw)})
			continue
		}
		if item.Text == "" {
			continue
		}
		for i, line := range item.Style.Wrap(item.Text, width-item.Indent) {
			mark := ""
			if i == 0 {
				mark = item.Mark
			}
			all = append(all, piece{gap + item.Style.Leading, below(gap, func(d *Document, page int, b Box) {
				d.Text(page, b.X, b.Y, item.Style, mark)
				d.TextIn(page, b.X+item.Indent, b.W-item.Indent, b.Y, item.Align, item.Style, line)
			})})
			gap = 0
		}
	}
	return all
}

func below(gap Len, draw func(*Document, int, Box)) func(*Document, int, Box) {
	return func(d *Document, page int, b Box) {
		b.Y, b.H = b.Y+gap, b.H-gap
		draw(d, page, b)
	}
}

func heightOf(pieces []piece) Len {
	var h Len
	for _, p := range pieces {
		h += p.height
	}
	return h
}

// Height is how tall a cell is in a width.
func (c Cell) Height(width Len) Len { return heightOf(c.pieces(width)) }

// Place draws a cell in a box of at least its height.
func (c Cell) Place(d *Document, page int, b Box) { place(d, page, b, c.pieces(b.W)) }

func place(d *Document, page int, b Box, pieces []piece) {
	for _, p := range pieces {
		p.draw(d, page, Box{b.X, b.Y, b.W, p.height})
		b.Y += p.height
	}
}
