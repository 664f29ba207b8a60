package main

import (
	"strings"
	"unicode/utf8"
)

const (
	// tableWidth is as wide as a table may be, in characters: a whole terminal.
	tableWidth = 80
	// leastLast is how narrow the last column may be wrapped, where its words are no
	// longer; up to mostLast what stands between commas stays together.
	leastLast, mostLast = 10, 12
)

// noStates is a table without a column of states.
const noStates = -1

// table prints rows in columns that are as wide as they need, the last one wrapped; the
// first row is the heading.
func (p *program) table(indent string, rows [][]string) { p.stateTable(indent, rows, nil, noStates) }

// tableWithNotes prints a table with a note under each row that has one.
func (p *program) tableWithNotes(indent string, rows [][]string, notes []string) {
	p.stateTable(indent, rows, notes, noStates)
}

// stateTable is a table whose column of that number holds states, which are marked.
// Where the columns do not fit the terminal beside each other, each row takes several
// lines, the second and further ones indented. Nothing is cut.
func (p *program) stateTable(indent string, rows [][]string, notes []string, states int) {
	if len(rows) == 0 {
		return
	}
	p.clearProgress()
	clear := make([][]string, len(rows))
	widths := make([]int, len(rows[0]))
	for n, row := range rows {
		for i, cell := range row {
			clear[n] = append(clear[n], clean(cell))
			widths[i] = max(widths[i], utf8.RuneCountInString(clear[n][i]))
		}
	}
	last := len(widths) - 1
	least := leastLast
	for _, row := range clear {
		for word := range strings.FieldsSeq(row[last]) {
			least = max(least, utf8.RuneCountInString(word))
		}
		for phrase := range strings.SplitAfterSeq(row[last], ", ") {
			least = max(least, min(utf8.RuneCountInString(strings.TrimSpace(phrase)), mostLast))
		}
	}
	columns := folded(append(widths[:last:last], min(widths[last], least)), utf8.RuneCountInString(indent))
	for n, row := range clear {
		first := 0
		for part, count := range columns {
			margin := indent
			if part > 0 {
				margin += rowIndent
			}
			p.tableLine(margin, row[first:first+count], widths[first:first+count], states-first, least, n > 0)
			first += count
		}
		if n < len(notes) && notes[n] != "" {
			p.paragraph(indent+rowIndent, notes[n])
		}
	}
}

// rowIndent is how far what belongs to a row stands in from it.
const rowIndent = "    "

// folded is how many columns stand on each line of a row, by how wide each is at least.
func folded(widths []int, indent int) []int {
	var columns []int
	margin, left, count := indent, indent, 0
	for _, width := range widths {
		if count > 0 && left+width > tableWidth {
			columns = append(columns, count)
			margin = indent + len(rowIndent)
			left, count = margin, 0
		}
		left += width + len("  ")
		count++
	}
	return append(columns, count)
}

// tableLine prints one line of a row, the last cell wrapped.
func (p *program) tableLine(margin string, cells []string, widths []int, states, least int, mark bool) {
	tinted := func(column int, text string) string {
		if mark && column == states {
			return p.tint(stateStyles[text], text)
		}
		return text
	}
	last := len(cells) - 1
	var b strings.Builder
	b.WriteString(margin)
	left := utf8.RuneCountInString(margin)
	for column, cell := range cells[:last] {
		b.WriteString(tinted(column, cell) + strings.Repeat(" ", widths[column]+2-utf8.RuneCountInString(cell)))
		left += widths[column] + 2
	}
	for n, line := range wrap(cells[last], max(textWidth-left, min(widths[last], least))) {
		if n > 0 {
			b.WriteString(strings.Repeat(" ", left))
		}
		writeLine(p.stdout, b.String()+tinted(last, line))
		b.Reset()
	}
}
