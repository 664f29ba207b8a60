package main

import "strings"

// roff writes a page in the language of man(7), as mandoc and groff read it.
type roff struct {
	strings.Builder
	begun bool // a section, and nothing in it yet
}

func (m *roff) line(text string) {
	if m.begun && text == ".PP" {
		return // the section's beginning is one
	}
	m.begun = strings.HasPrefix(text, ".SH ")
	m.WriteString(text + "\n")
}

// escaped is text that means itself: see "Escaping" in mandoc's man(7) and groff_char(7).
func escaped(text string) string {
	text = strings.NewReplacer(`\`, `\e`, "-", `\-`, "'", `\(aq`, "`", `\(ga`, "^", `\(ha`, "~", `\(ti`, "°", `\(de`, "…", `...`).Replace(text)
	if strings.HasPrefix(text, ".") {
		text = `\&` + text
	}
	return text
}

func (m *roff) section(name string) { m.line(".SH " + name) }

// text is filled with what is beside it.
func (m *roff) text(text string) {
	for _, line := range wrap(text, textWidth) {
		m.line(escaped(line))
	}
}

func (m *roff) bold(text string) { m.line(`\fB` + escaped(text) + `\fR`) }

func (m *roff) paragraph(text string) {
	m.line(".PP")
	m.text(text)
}

// item is a name and what it is.
func (m *roff) item(name, text string) {
	m.line(".TP")
	m.bold(name)
	m.text(text)
}

func (m *roff) options(options []option) {
	for _, o := range options {
		m.line(".TP")
		heading := `\fB` + escaped(strings.Join(o.names, ", ")) + `\fR`
		if o.value != "" {
			heading += ` \fI` + escaped(o.value) + `\fR`
		}
		m.line(heading)
		m.text(o.text)
	}
}

func (m *roff) lines(lines []string) {
	m.line(".PP")
	m.line(".RS 4")
	m.line(".EX")
	for _, line := range lines {
		m.line(escaped(line))
	}
	m.line(".EE")
	m.line(".RE")
}

// examples are command lines, broken so that with both margins they fit a terminal of 80
// columns.
func (m *roff) examples(all ...string) {
	const width = 64 // characters
	var broken []string
	for _, line := range all {
		for i, part := range commandLines(line, width) {
			if i > 0 {
				part = "    " + part
			}
			broken = append(broken, part)
		}
	}
	m.lines(broken)
}

// documented is a description: wrapped passages and command lines.
func (m *roff) described(description string) {
	for _, p := range passages(description) {
		if p.asIs {
			m.examples(p.lines...)
		} else {
			m.paragraph(strings.Join(p.lines, " "))
		}
	}
}

// command is one command, as its help has it.
func (m *roff) command(d documented) {
	m.line(".SS " + escaped(d.synopsis()))
	m.text(capital(d.Usage) + ".")
	if len(d.Subcommands) == 0 {
		m.examples(d.example())
	}
	m.described(d.Description)
	m.options(optionsOf(d.Command))
}
