package statement

import (
	"strings"

	"hourseal/render/sheet"
)

// clean makes text printable: each letter that the faces do not have becomes a
// question mark, which is kept in mind to be said.
func (p *page) clean(text string) string {
	text = strings.ReplaceAll(text, "\n", " ")
	if sheet.CheckGlyphs(text) == nil {
		return text
	}
	p.unprintable = true
	return strings.Map(func(r rune) rune {
		if sheet.CheckGlyphs(string(r)) != nil {
			return '?'
		}
		return r
	}, text)
}

func (p *page) text(s sheet.Style, text string) sheet.Item { return sheet.Text(s, p.clean(text)) }

// says is a cell of the texts that are not empty.
func (p *page) says(s sheet.Style, texts ...string) sheet.Cell {
	for i := range texts {
		texts[i] = p.clean(texts[i])
	}
	return sheet.Says(s, texts...)
}

// list is a cell of texts, each with a dash.
func (p *page) list(s sheet.Style, texts ...string) sheet.Cell {
	var cell sheet.Cell
	for _, text := range texts {
		cell = append(cell, sheet.Item{Style: s, Text: p.clean(text), Mark: "–", Indent: 8 * sheet.Pt, Before: sheet.Pt})
	}
	return cell
}

// block places a cell over the whole width, whole, with a gap below.
func (p *page) block(cell sheet.Cell, below sheet.Len) {
	h := cell.Height(p.flow.Area().W)
	p.flow.Block(h+below, func(page int, b sheet.Box) { cell.Place(p.doc, page, b) })
}

// flowing places a cell item by item, over as many pages as it takes.
func (p *page) flowing(cell sheet.Cell) {
	for _, item := range cell {
		p.block(sheet.Cell{item}, sheet.Pt)
	}
}
