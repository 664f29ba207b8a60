package statement

import "hourseal/render/sheet"

// One accent, dark enough to print as black, and greys that stay apart in a
// black-and-white print.
var (
	ink    = sheet.Ink
	grey   = sheet.Grey
	accent = sheet.Accent
	hair   = sheet.Hair
	panel  = sheet.Panel
	white  = sheet.White

	insideShade  = sheet.Color{R: 226, G: 231, B: 233}
	hatchShade   = sheet.Color{R: 96, G: 96, B: 96}
	overdueShade = sheet.Color{R: 152, G: 152, B: 152}
)

// The type scale, from large to small.
var (
	judgement = sheet.NewStyle(sheet.Bold, 12*sheet.Pt, 15*sheet.Pt, ink)
	longer    = sheet.NewStyle(sheet.Bold, 10*sheet.Pt, 125*sheet.Pt/10, ink) // where that takes too many lines
	masthead  = sheet.NewStyle(sheet.Bold, 13*sheet.Pt, 16*sheet.Pt, accent)
	section   = sheet.NewStyle(sheet.Bold, 10*sheet.Pt, 13*sheet.Pt, accent)
	body      = sheet.NewStyle(sheet.Regular, 86*sheet.Pt/10, 11*sheet.Pt, ink)
	strong    = body.Bold()
	small     = sheet.NewStyle(sheet.Regular, 74*sheet.Pt/10, 95*sheet.Pt/10, ink)
	faint     = small.In(grey)
	caption   = sheet.NewStyle(sheet.Regular, 68*sheet.Pt/10, 9*sheet.Pt, grey)
	fine      = sheet.NewStyle(sheet.Regular, 62*sheet.Pt/10, 8*sheet.Pt, grey)
)

// pageArea is what the foot leaves of a page.
func pageArea(p sheet.Paper) sheet.Box {
	side, top, foot := sheet.MM(15), sheet.MM(13), sheet.MM(16)
	return sheet.Box{X: side, Y: top, W: p.W - 2*side, H: p.H - top - foot}
}

const spaceBefore = 8 * sheet.Pt

func (p *page) look() sheet.Look {
	return sheet.Look{
		Section:     section,
		SectionRule: accent,
		SpaceBefore: spaceBefore,
		Head:        caption,
		HeadRule:    hair,
		RowRule:     hair,
		Caption:     caption,
		Continued: func(section string) string {
			return p.texts.Document.Continued.With("section", section)
		},
	}
}

// headingHeight is what a section's heading takes of a page.
const headingHeight = spaceBefore + 13*sheet.Pt + 5*sheet.Pt
