package render

import "hourseal/render/sheet"

// The report has one accent, dark enough to print as black.
var (
	ink    = sheet.Ink
	grey   = sheet.Grey
	accent = sheet.Accent
	hair   = sheet.Hair
	panel  = sheet.Panel
	used   = sheet.Color{R: 64, G: 92, B: 102}
	night  = sheet.Color{R: 28, G: 28, B: 28}
	white  = sheet.White
)

// The type scale, from large to small.
var (
	figures  = sheet.NewStyle(sheet.Bold, 22*sheet.Pt, 25*sheet.Pt, ink)
	masthead = sheet.NewStyle(sheet.Bold, 15*sheet.Pt, 19*sheet.Pt, accent)
	plate    = sheet.NewStyle(sheet.Bold, 12*sheet.Pt, 15*sheet.Pt, ink)
	section  = sheet.NewStyle(sheet.Bold, 10*sheet.Pt, 13*sheet.Pt, accent)
	body     = sheet.NewStyle(sheet.Regular, 86*sheet.Pt/10, 11*sheet.Pt, ink)
	strong   = body.Bold()
	small    = sheet.NewStyle(sheet.Regular, 74*sheet.Pt/10, 95*sheet.Pt/10, ink)
	faint    = small.In(grey)
	caption  = sheet.NewStyle(sheet.Regular, 68*sheet.Pt/10, 9*sheet.Pt, grey)
	fine     = sheet.NewStyle(sheet.Regular, 62*sheet.Pt/10, 8*sheet.Pt, grey)
)

// pageArea is what the running head and the foot leave of a page.
func pageArea(p sheet.Paper) sheet.Box {
	side, top, foot := sheet.MM(15), sheet.MM(14), sheet.MM(16)
	return sheet.Box{X: side, Y: top, W: p.W - 2*side, H: p.H - top - foot}
}

func (p *report) look() sheet.Look {
	return sheet.Look{
		Section:     section,
		SectionRule: accent,
		SpaceBefore: 9 * sheet.Pt,
		Head:        caption,
		HeadRule:    hair,
		RowRule:     hair,
		Caption:     caption,
		Continued: func(section string) string {
			return p.texts.Document.Continued.With("section", section)
		},
	}
}

// The items of which cells are made.

var (
	text      = sheet.Text
	textRight = sheet.TextRight
	says      = sheet.Says
)

func fact(caption string, value sheet.Cell) sheet.Fact {
	return sheet.Fact{Caption: caption, Value: value}
}

func wide(span int, f sheet.Fact) sheet.Fact { f.Span = span; return f }
