package main

import "hourseal/render/plain"

// blocks prints a record's or a list's blocks, a blank line between them.
func (p *program) blocks(indent string, blocks []plain.Block) {
	for i, b := range blocks {
		if i > 0 {
			p.say("")
		}
		p.block(indent, b)
	}
}

// block prints a heading, and rows or a text below it.
func (p *program) block(indent string, b plain.Block) {
	if b.Heading != "" {
		p.say("%s%s", indent, b.Heading)
		indent += "  "
	}
	if b.Rows != nil {
		p.table(indent, b.Rows)
		return
	}
	p.paragraph(indent, b.Text)
}
