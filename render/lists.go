package render

import (
	"encoding/hex"
	"strconv"

	"hourseal/record"
	"hourseal/render/sheet"
	"hourseal/render/words"
)

// parts are the parts that were fitted.
func (p *report) parts() {
	t := p.texts.Parts
	table := sheet.Table{Columns: []sheet.Column{
		{Title: t.Item, Share: 40}, {Title: t.Number, Share: 30}, {Title: t.Quantity, Share: 14}, {Title: t.SuppliedBy, Share: 30},
	}}
	for _, part := range p.r.Parts {
		table.Rows = append(table.Rows, sheet.Row{Cells: []sheet.Cell{
			says(strong, part.Item),
			partNumber(t, &part),
			says(body, strconv.FormatUint(uint64(part.Quantity), 10)),
			says(body, string(t.Suppliers.Of(part.SuppliedBy.String()))),
		}})
	}
	p.flow.Section(t.Heading)
	p.flow.Table(table)
	p.flow.End()
}

// partNumber is the number that a part is ordered by, and under it the one that it
// bears itself: on a line of its own, so that neither is taken for the other's end.
func partNumber(t words.PartTexts, part *record.Part) sheet.Cell {
	cell := says(body, part.Number)
	if part.Serial != "" {
		cell = append(cell, text(body, t.Serial.With("number", part.Serial)))
	}
	return cell
}

// leakCheck is a fact: what was seen, and after how long.
func (p *report) leakCheck() {
	t, l := p.texts.LeakCheck, p.r.LeakCheck
	said := t.NoRecord
	switch {
	case l == nil:
	case l.Result == record.NoneSeen && l.After != nil:
		said = t.NoneSeenAfter.With("minutes", l.After.String())
	case l.Result == record.NoneSeen:
		said = t.NoneSeen
	default:
		said = t.Seen
		if l.Where != "" {
			said = t.SeenWhere.With("where", l.Where)
		}
		if l.After != nil {
			said = sentences(", ", said, t.SeenAfter.With("minutes", l.After.String()))
		}
	}
	if l != nil && l.Result == record.NoneSeen && l.Where != "" {
		said = sentences(", ", said, l.Where)
	}
	p.flow.Space(6 * sheet.Pt)
	p.flow.Text(strong, t.Heading+": "+said)
}

// findings are what the check said, with the reasons that were given.
func (p *report) findings() {
	t := p.texts.Findings
	p.flow.Section(t.Heading)
	if len(p.r.Findings) == 0 {
		p.flow.Text(body, t.Empty)
		p.flow.End()
		return
	}
	table := sheet.Table{Columns: []sheet.Column{{Share: 70}, {Share: 30}}}
	for _, f := range p.r.Findings {
		said := sheet.Cell{text(body, words.Finding(f))}
		if f.Accepted != "" {
			said = append(said, text(strong, t.Reason.With("reason", f.Accepted)))
		}
		rule := sheet.Cell{textRight(fine, f.Code.String()+", "+string(t.Severities.Of(f.Severity.String())))}
		table.Rows = append(table.Rows, sheet.Row{Cells: []sheet.Cell{said, rule}})
	}
	p.flow.Table(table)
	p.flow.Space(2 * sheet.Pt)
	p.flow.Text(fine, t.Intro)
	p.flow.End()
}

// notes are the signer's own words.
func (p *report) notes() {
	if p.r.Notes == "" {
		return
	}
	p.flow.Section(p.texts.Notes.Heading)
	p.flow.Text(body, p.r.Notes)
	p.flow.End()
}

// files are kept by the signer beside the record; their digests are signed.
func (p *report) files() {
	t := p.texts.Files
	table := sheet.Table{Columns: []sheet.Column{{Title: t.Name, Share: 40}, {Title: t.Digest, Share: 62}}}
	for _, f := range p.r.Files {
		table.Rows = append(table.Rows, sheet.Row{Cells: []sheet.Cell{says(body, f.Name), says(faint, hex.EncodeToString(f.SHA256[:]))}})
	}
	p.flow.Section(t.Heading)
	p.flow.Table(table)
	p.flow.End()
}

// cautions stand in three columns, small: a reminder, not the job's news.
func (p *report) cautions() {
	t := p.texts.Cautions
	var cell sheet.Cell
	for _, c := range words.Cautions(words.WorkOf(p.r)) {
		cell = append(cell, sheet.Item{Style: small, Text: c.Text, Mark: "–", Indent: 7 * sheet.Pt, Before: sheet.Pt})
	}
	p.flow.Section(t.Heading)
	p.flow.Columns(3, cell)
	p.flow.Text(small.Bold(), t.Governs)
	p.flow.End()
}
