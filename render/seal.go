package render

import (
	"strconv"

	"hourseal/render/sheet"
	"hourseal/render/words"
	"hourseal/sign"
)

// signed is who signed, with the code beside it. A record in several codes has
// them after the words, two in a row.
func (p *report) signed(symbols []symbol) {
	p.flow.Section(p.texts.Issuer.Heading)
	if len(symbols) == 1 {
		p.besideCode(symbols[0])
	} else {
		p.besideCodes(symbols)
	}
	p.flow.End()
}

// besideCode sets the code on the left and the words on its right.
func (p *report) besideCode(s symbol) {
	area, look := p.flow.Area(), p.look()
	taken := s.side() + 2*s.quiet()
	gap := 6 * sheet.Pt
	w := area.W - taken - gap
	facts := p.signer()
	cell := p.codeWords()
	hf := sheet.FactsHeight(look, w, 1, facts) + gap
	h := max(taken, s.quiet()+hf+cell.Height(w))
	p.flow.Block(h, func(page int, b sheet.Box) {
		p.doc.Modules(page, b.X+s.quiet(), b.Y+s.quiet(), s.module(), s.dark)
		right := sheet.Box{X: b.Right() - w, Y: b.Y + s.quiet(), W: w, H: h}
		sheet.PlaceFacts(p.doc, look, page, right, 1, facts)
		right.Y += hf
		cell.Place(p.doc, page, right)
	})
}

// besideCodes sets the words in two columns over the codes, on one page with the
// first row of them.
func (p *report) besideCodes(symbols []symbol) {
	facts := p.signer()
	cell := append(p.codeWords(), sheet.Item{Style: strong, Text: p.texts.Seal.Several, Before: 3 * sheet.Pt})
	look, gap := p.look(), 14*sheet.Pt
	w := (p.flow.Area().W - gap) / 2
	h := max(sheet.FactsHeight(look, w, 1, facts), cell.Height(w)) + gap/2
	p.flow.Require(h + symbolSide + 60*sheet.Pt)
	p.flow.Block(h, func(page int, b sheet.Box) {
		sheet.PlaceFacts(p.doc, look, page, sheet.Box{X: b.X, Y: b.Y, W: w, H: h}, 1, facts)
		cell.Place(p.doc, page, sheet.Box{X: b.Right() - w, Y: b.Y, W: w, H: h})
	})
	p.codes(symbols)
}

// signer is who signed, when, and after which record.
func (p *report) signer() []sheet.Fact {
	r, t := p.r, p.texts.Issuer
	previous := says(small, t.First)
	if r.Previous != nil {
		id := sign.ID(r.Previous.Record)
		line := t.PreviousLine.With("id", id.String(), "date", r.Previous.Date.String(), "hours", r.Previous.Hours.String())
		previous = sheet.Cell{text(small, line), text(fine, id.Hex())}
	}
	// The issuer's words on paper are a claim; the key is what a reader can check.
	return []sheet.Fact{
		fact(string(t.By.Of(r.Issuer.Kind.String())), says(plate, r.Issuer.Name)),
		fact(t.Key, says(small.Bold(), p.key.Fingerprint())),
		fact(t.Issued, says(small, words.Issued(r.IssuedAt))),
		fact(p.texts.Document.ID, sheet.Cell{text(small, sentences(dot, p.id.String(), p.number())), text(fine, p.id.Hex()), text(fine, p.layout())}),
		fact(t.Previous, previous),
	}
}

func (p *report) layout() string {
	return p.texts.Seal.Layout.With("format", strconv.FormatUint(uint64(p.r.Format), 10),
		"renderer", strconv.FormatUint(uint64(p.r.Renderer), 10))
}

// codeWords stand beside every code: whose page, the warning, how to check.
func (p *report) codeWords() sheet.Cell {
	t := p.texts.Seal
	host := t.NoPage
	if p.r.PageHost != "" {
		host = t.Page.With("host", p.r.PageHost)
	}
	return sheet.Cell{
		text(strong, host),
		text(strong, t.Warning),
		{Style: small, Text: t.Holds, Before: 3 * sheet.Pt},
		text(small, t.How),
	}
}

// codes sets several codes, two in a row, each under its number and over the
// host and the warning.
func (p *report) codes(symbols []symbol) {
	area, t := p.flow.Area(), p.texts
	for first := 0; first < len(symbols); first += 2 {
		row := symbols[first:min(first+2, len(symbols))]
		cells := make([]sheet.Cell, len(row))
		var h, side sheet.Len
		for i, s := range row {
			side = max(side, s.side()+2*s.quiet())
			cells[i] = sheet.Cell{
				text(strong, t.Document.Part.With("part", strconv.Itoa(first+i+1), "parts", strconv.Itoa(len(symbols)))),
				text(fine, sentences(" ", p.hostLine(), t.Seal.Warning)),
			}
			h = max(h, cells[i].Height(s.side()))
		}
		p.flow.Block(side+h, func(page int, b sheet.Box) {
			for i, s := range row {
				x := b.X
				if i > 0 {
					x = b.X + area.W - side
				}
				p.doc.Modules(page, x+s.quiet(), b.Y+s.quiet(), s.module(), s.dark)
				cells[i].Place(p.doc, page, sheet.Box{X: x + s.quiet(), Y: b.Y + side, W: s.side(), H: h})
			}
		})
	}
}

func (p *report) hostLine() string {
	if p.r.PageHost == "" {
		return p.texts.Seal.NoPage
	}
	return p.texts.Seal.Page.With("host", p.r.PageHost) + "."
}

// proof says what the signature shows and what the report does not prove.
func (p *report) proof() {
	t := p.texts.Proof
	var does, not sheet.Cell
	does = sheet.Cell{text(strong, t.DoesHeading), text(small, t.Does)}
	not = sheet.Cell{text(strong, t.DoesNotHeading)}
	for _, line := range t.DoesNot {
		not = append(not, sheet.Item{Style: small, Text: line, Mark: "–", Indent: 7 * sheet.Pt})
	}
	p.flow.Space(6 * sheet.Pt)
	p.flow.Facts(2, []sheet.Fact{fact("", does), fact("", not)})
}
