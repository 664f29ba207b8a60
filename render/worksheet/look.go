package worksheet

import "hourseal/render/sheet"

// Larger than a report's: it is read at arm's length, by a lamp.
var (
	ink    = sheet.Ink
	grey   = sheet.Grey
	accent = sheet.Accent
	hair   = sheet.Hair
	panel  = sheet.Panel
)

// The type scale, from large to small.
var (
	figures  = sheet.NewStyle(sheet.Bold, 19*sheet.Pt, 23*sheet.Pt, ink)
	masthead = sheet.NewStyle(sheet.Bold, 15*sheet.Pt, 19*sheet.Pt, accent)
	plate    = sheet.NewStyle(sheet.Bold, 12*sheet.Pt, 15*sheet.Pt, ink)
	section  = sheet.NewStyle(sheet.Bold, 105*sheet.Pt/10, 14*sheet.Pt, accent)
	body     = sheet.NewStyle(sheet.Regular, 9*sheet.Pt, 115*sheet.Pt/10, ink)
	strong   = body.Bold()
	small    = sheet.NewStyle(sheet.Regular, 8*sheet.Pt, 10*sheet.Pt, ink)
	faint    = sheet.NewStyle(sheet.Regular, 74*sheet.Pt/10, 95*sheet.Pt/10, grey)
	caption  = sheet.NewStyle(sheet.Regular, 7*sheet.Pt, 9*sheet.Pt, grey)
)

const (
	tickSide = 10 * sheet.Pt
	// writing is the height of a line to write on by hand.
	writing = 16 * sheet.Pt
	// The lengths of the lines to write on.
	shortLine = 40 * sheet.Pt
	longLine  = 90 * sheet.Pt
)

// pageArea is what the running head and the foot leave of a page.
func pageArea(p sheet.Paper) sheet.Box {
	side, top, foot := sheet.MM(15), sheet.MM(15), sheet.MM(16)
	return sheet.Box{X: side, Y: top, W: p.W - 2*side, H: p.H - top - foot}
}

func (p *page) look() sheet.Look {
	return sheet.Look{
		Section:     section,
		SectionRule: accent,
		SpaceBefore: 5 * sheet.Pt,
		Head:        caption,
		HeadRule:    hair,
		RowRule:     hair,
		Caption:     caption,
		Continued: func(section string) string {
			return p.texts.Document.Continued.With("section", section)
		},
	}
}

var (
	text      = sheet.Text
	textRight = sheet.TextRight
	says      = sheet.Says
)

// tick is a box to tick on a line of body text.
func tick(a sheet.Align) sheet.Item { return sheet.TickBox(body, tickSide, ink, a) }

// blanks are lines to write on, in a width.
func blanks(width sheet.Len, list ...sheet.Blank) sheet.Cell {
	return sheet.Blanks(small, grey, writing, width, list)
}

// written is one line to write on, as wide as its cell.
func written(width sheet.Len) sheet.Cell { return blanks(width, sheet.Blank{}) }
