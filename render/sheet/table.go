package sheet

// Column is a column of a table. Share is its part of the width, relative to
// the others' shares.
type Column struct {
	Title string
	Share int
	Align Align // of the title; items carry their own
}

// Table is rows of cells under column titles. A row has a cell for each column;
// Under, if any, runs below its cells over the whole width.
type Table struct {
	Columns []Column
	Rows    []Row
}

// Row is one row of a table.
type Row struct {
	Cells []Cell
	Under Cell
}

const (
	columnGap  = 9 * Pt
	rowPadding = 5 * Pt / 2
	underGap   = 3 * Pt
)

// Table places a table, as many pages as it takes, and repeats the column
// titles on each. A row stays whole unless it is taller than a page, when it
// goes on at the top of the next one.
func (f *Flow) Table(t Table) {
	if len(t.Rows) == 0 {
		return
	}
	widths := f.widths(t.Columns)
	head := f.head(t.Columns, widths)
	headed := false
	for _, row := range t.Rows {
		rest := row.measure(widths, f.area.W)
		for first := true; first || rest.left(); first = false {
			need := rest.height()
			if !headed {
				need += head.height
			}
			if f.begin(min(need, f.tallest(head.height))) || !headed {
				head.place(f)
				headed = true
			}
			rest = rest.place(f, widths)
			if rest.left() {
				f.Break()
				f.continued()
				headed = false
			}
		}
		f.doc.Rule(f.page, f.area.X, f.y, f.area.W, Pt/4, f.look.RowRule)
		f.y += Pt / 4
	}
}

// tallest is the most that a row under its column titles may ask for: a whole
// page less the heading over it.
func (f *Flow) tallest(head Len) Len {
	return f.area.H - f.headingHeight() - f.look.SpaceBefore - head
}

// widths shares the width out; the last column takes what rounding leaves.
func (f *Flow) widths(columns []Column) []Len {
	shares := 0
	for _, c := range columns {
		shares += c.Share
	}
	all := f.area.W - columnGap*Len(len(columns)-1)
	widths, left := make([]Len, len(columns)), all
	for i, c := range columns {
		widths[i] = Len(int64(all) * int64(c.Share) / int64(max(shares, 1)))
		left -= widths[i]
	}
	if len(widths) > 0 {
		widths[len(widths)-1] += left
	}
	return widths
}

type tableHead struct {
	cells  [][]piece
	widths []Len
	height Len
}

func (f *Flow) head(columns []Column, widths []Len) tableHead {
	h := tableHead{widths: widths}
	for i, c := range columns {
		cell := Cell{{Text: c.Title, Style: f.look.Head, Align: c.Align}}.pieces(widths[i])
		h.cells = append(h.cells, cell)
		h.height = max(h.height, heightOf(cell))
	}
	if h.height > 0 {
		h.height += Pt + Pt/2
	}
	return h
}

// place sets the titles, each at the foot of the head.
func (h tableHead) place(f *Flow) {
	if h.height == 0 {
		return
	}
	x := f.area.X
	for i, cell := range h.cells {
		lower := h.height - Pt - Pt/2 - heightOf(cell)
		place(f.doc, f.page, Box{x, f.y + lower, h.widths[i], h.height}, cell)
		x += h.widths[i] + columnGap
	}
	f.y += h.height - Pt/2
	f.doc.Rule(f.page, f.area.X, f.y, f.area.W, Pt/2, f.look.HeadRule)
	f.y += Pt / 2
}

// measured is a row, or what is left of it.
type measured struct {
	cells [][]piece
	under []piece
}

func (r Row) measure(widths []Len, whole Len) measured {
	m := measured{cells: make([][]piece, len(widths)), under: r.Under.pieces(whole)}
	for i := range m.cells {
		if i < len(r.Cells) {
			m.cells[i] = r.Cells[i].pieces(widths[i])
		}
	}
	return m
}

func (m measured) left() bool {
	for _, cell := range m.cells {
		if len(cell) > 0 {
			return true
		}
	}
	return len(m.under) > 0
}

func (m measured) tallestCell() Len {
	var h Len
	for _, cell := range m.cells {
		h = max(h, heightOf(cell))
	}
	return h
}

func (m measured) height() Len {
	h := m.tallestCell() + heightOf(m.under) + 2*rowPadding
	if len(m.under) > 0 && m.cellsLeft() {
		h += underGap
	}
	return h
}

// place draws what fits above the foot of the page and returns the rest. A
// piece taller than an empty page is drawn all the same, so that the document
// fails rather than never ends.
func (m measured) place(f *Flow, widths []Len) measured {
	room := f.room() - 2*rowPadding
	fresh := f.blank
	f.y += rowPadding
	x, used := f.area.X, Len(0)
	rest := measured{cells: make([][]piece, len(m.cells))}
	for i, cell := range m.cells {
		fit, h := fitting(cell, room, fresh)
		place(f.doc, f.page, Box{x, f.y, widths[i], h}, cell[:fit])
		rest.cells[i], used = cell[fit:], max(used, h)
		x += widths[i] + columnGap
	}
	f.y += used
	rest.under = m.under
	if len(m.under) > 0 && used > 0 {
		f.y, used = f.y+underGap, used+underGap
	}
	if !rest.cellsLeft() {
		fit, h := fitting(m.under, room-used, fresh && used == 0)
		place(f.doc, f.page, Box{f.area.X, f.y, f.area.W, h}, m.under[:fit])
		rest.under = m.under[fit:]
		f.y += h
	}
	f.y, f.blank = f.y+rowPadding, false
	return rest
}

func (m measured) cellsLeft() bool { m.under = nil; return m.left() }

// fitting counts the pieces that fit in a height, at least one on a fresh page.
func fitting(pieces []piece, room Len, fresh bool) (n int, h Len) {
	for n < len(pieces) && (h+pieces[n].height <= room || fresh && n == 0) {
		h += pieces[n].height
		n++
	}
	return n, h
}
