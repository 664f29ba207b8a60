package statement

import (
	"strconv"
	"unicode"
	"unicode/utf8"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/render/sheet"
	"hourseal/render/words"
	"hourseal/sign"
	"hourseal/verify/history"
)

// shortID is a record's id as people see it: 16 hex digits in groups of four.
func shortID(id record.ID) string {
	return sign.ID(id).String()
}

func capital(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	if size == 0 {
		return text
	}
	return string(unicode.ToUpper(first)) + text[size:]
}

func (p *page) hoursRead(e *history.Entry) string {
	if read := e.ReadHours(); read != nil {
		return p.hoursOf(*read)
	}
	return ""
}

func (p *page) hoursOf(h quantity.Hours) string {
	return p.texts.Chart.Hours.With("hours", h.String())
}

// records is the table of all records, by chain.
func (p *page) records() {
	t := p.texts.Records
	table := sheet.Table{Columns: []sheet.Column{
		{Title: t.Number, Share: 7}, {Title: t.Date, Share: 17}, {Title: t.Hours, Share: 18}, {Title: t.ID, Share: 32}, {Title: t.Signer, Share: 54}, {Title: t.Exists, Share: 58},
	}}
	for i := range p.m.Entries {
		e := &p.m.Entries[i]
		table.Rows = append(table.Rows, sheet.Row{Cells: []sheet.Cell{
			p.says(small, strconv.FormatUint(uint64(e.Record.Number), 10)),
			p.says(small, e.Record.Job.Date.String()),
			p.says(small, p.hoursRead(e)),
			p.says(small, shortID(e.ID)),
			p.counts(e),
			p.exists(e),
		}})
	}
	p.flow.Section(t.Heading)
	p.flow.Table(table)
	p.flow.Space(2 * sheet.Pt)
	p.flow.Text(fine, t.IDNote)
	p.flow.End()
}

// counts is who signed a record, and what it counts for.
func (p *page) counts(e *history.Entry) sheet.Cell {
	t := p.texts.Records
	said := p.m.CountsWords(e)
	switch e.Counts {
	case history.Counts:
		said = words.Joined("; ", t.Counts, said)
	case history.SpeaksOfAnother:
		said = words.Joined("; ", said, t.Void)
	}
	how := small
	if e.Counts != history.Counts {
		how = small.Bold()
	}
	return append(p.says(small, p.m.SignerName(e.Root)), p.text(how, said))
}

// exists is between which days a record is known to have come about.
func (p *page) exists(e *history.Entry) sheet.Cell {
	t := p.texts.Records
	var cell sheet.Cell
	bound := func(phrase words.Phrase, b *history.Bound) {
		number := ""
		if b.Entry >= 0 && b.Entry < len(p.m.Entries) {
			number = strconv.FormatUint(uint64(p.m.Entries[b.Entry].Record.Number), 10)
		}
		why := t.Because.Of(string(b.Because)).With("number", number)
		cell = append(cell, p.text(small, phrase.With("date", b.Date.String(), "because", why)))
	}
	if b := e.Exists.NotBefore; b != nil {
		bound(t.NotBefore, b)
	}
	if b := e.Exists.NotAfter; b != nil {
		bound(t.NotAfter, b)
	} else {
		cell = append(cell, p.text(small, t.OwnWord))
	}
	return cell
}

// ends is where each chain ends.
func (p *page) ends() {
	if len(p.m.Tails()) == 0 {
		return
	}
	p.begin(endsPart, p.texts.Ends.Heading, 2*body.Leading)
	for _, c := range p.m.Tails() {
		p.flowing(p.list(body, p.m.TailWords(c)))
	}
	p.flow.End()
}

// lists are the signed lists and ledger lines that the records were held to.
func (p *page) lists() {
	t := p.texts.Lists
	var said []string
	for _, l := range p.m.Lists {
		if !l.Counts {
			said = append(said, t.ListVoid.With("name", l.Name, "until", l.List.Until.String()))
			continue
		}
		said = append(said, t.List.With("name", l.Name, "signer", p.m.SignerName(l.Signer.Root()), "until", l.List.Until.String(),
			"count", strconv.FormatUint(uint64(l.List.Count), 10), "asked", l.List.For))
	}
	for _, h := range p.m.Heads {
		shown := t.NotShown
		if h.Shown {
			shown = t.Shown
		}
		said = append(said, t.Head.With("date", quantity.FromUnix(h.Time).String(), "received", h.Received.String(), "shown", shown))
	}
	if len(said) == 0 {
		return
	}
	p.flow.Section(t.Heading)
	p.flowing(p.list(body, said...))
	p.flow.End()
}

// aside are the inputs that are not judged.
func (p *page) aside() {
	if len(p.in.Aside) == 0 {
		return
	}
	t := p.texts.Aside
	p.flow.Section(t.Heading)
	for _, a := range p.in.Aside {
		p.flowing(p.list(body, t.Line.With("name", a.Name, "sentence", a.Sentence)))
	}
	p.flow.End()
}
