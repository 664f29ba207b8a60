package statement

import "hourseal/render/sheet"

// One accent, dark enough to print as black, and greys that stay apart in a
// black-and-white print.
var (
	ink    = sheet.Color{}
	grey   = sheet.Color{R: 84, G: 84, B: 84}
	accent = sheet.Color{R: 0, G: 66, B: 84}
	hair   = sheet.Color{R: 176, G: 182, B: 184}
	panel  = sheet.Color{R: 241, G: 244, B: 245}
	white  = sheet.Color{R: 255, G: 255, B: 255}

	insideShade  = sheet.Color{R: 226, G: 231, B: 233}
	hatchShade   = sheet.Color{R: 96, G: 96, B: 96}
	overdueShade = sheet.Color{R: 152, G: 152, B: 152}
)

func style(face sheet.Face, size, leading sheet.Len, c sheet.Color) sheet.Style {
	return sheet.Style{Face: face, Size: size, Leading: leading, Color: c}
}

// The type scale, from large to small.
var (
	judgement = style(sheet.Bold, 12*sheet.Pt, 15*sheet.Pt, ink)
	longer    = style(sheet.Bold, 10*sheet.Pt, 125*sheet.Pt/10, ink) // where that takes too many lines
	masthead  = style(sheet.Bold, 13*sheet.Pt, 16*sheet.Pt, accent)
	section   = style(sheet.Bold, 10*sheet.Pt, 13*sheet.Pt, accent)
	body      = style(sheet.Regular, 86*sheet.Pt/10, 11*sheet.Pt, ink)
	strong    = body.Bold()
	small     = style(sheet.Regular, 74*sheet.Pt/10, 95*sheet.Pt/10, ink)
	faint     = small.In(grey)
	caption   = style(sheet.Regular, 68*sheet.Pt/10, 9*sheet.Pt, grey)
	fine      = style(sheet.Regular, 62*sheet.Pt/10, 8*sheet.Pt, grey)
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
