package sheet

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

var testLook = Look{
	Section: Style{Face: Bold, Size: 10 * Pt, Leading: 13 * Pt}, SpaceBefore: 9 * Pt,
	Head: plain, Caption: plain,
	Continued: func(s string) string { return s + " (continued)" },
}

func newTestFlow(p Paper) *Flow {
	return NewFlow(NewDocument(p), Box{X: 40 * Pt, Y: 40 * Pt, W: p.W - 80*Pt, H: p.H - 80*Pt}, testLook)
}

// noTextOverText fails where two lines of text on one page share an area.
func noTextOverText(t interface{ Fatalf(string, ...any) }, placed []Placed) {
	for i, a := range placed {
		for _, b := range placed[:i] {
			if a.Page == b.Page && a.Text != "" && b.Text != "" && a.Box.Overlaps(b.Box) {
				t.Fatalf("page %d: %q at %v runs into %q at %v", a.Page, a.Text, a.Box, b.Text, b.Box)
			}
		}
	}
}

func someCell() *rapid.Generator[Cell] {
	return rapid.Custom(func(t *rapid.T) Cell {
		var c Cell
		for range rapid.IntRange(0, 3).Draw(t, "items") {
			c = append(c, Item{Text: strings.TrimSpace(someText().Draw(t, "text")), Style: plain,
				Before: Len(rapid.IntRange(0, 300).Draw(t, "before")), Align: rapid.SampledFrom([]Align{Left, Right, Center}).Draw(t, "align")})
		}
		return c
	})
}

// Whatever is set stays inside the flow's area, never runs into other text, and
// is all there.
func TestFlowKeepsToItsArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := newTestFlow(rapid.SampledFrom([]Paper{A4, Letter}).Draw(t, "paper"))
		var want strings.Builder
		for i := range rapid.IntRange(1, 6).Draw(t, "blocks") {
			f.Section(fmt.Sprintf("Section%d", i))
			switch rapid.IntRange(0, 3).Draw(t, "kind") {
			case 0:
				text := strings.Repeat(someText().Draw(t, "text")+" ", rapid.IntRange(1, 40).Draw(t, "times"))
				f.Text(plain, text)
				want.WriteString(text)
			case 1:
				columns := rapid.IntRange(1, 5).Draw(t, "columns")
				table := Table{Columns: make([]Column, columns)}
				for c := range table.Columns {
					table.Columns[c].Share = rapid.IntRange(1, 9).Draw(t, "share")
				}
				for range rapid.IntRange(0, 20).Draw(t, "rows") {
					row := Row{Cells: rapid.SliceOfN(someCell(), columns, columns).Draw(t, "cells"), Under: someCell().Draw(t, "under")}
					table.Rows = append(table.Rows, row)
					for _, c := range append(row.Cells, row.Under) {
						want.WriteString(words(c))
					}
				}
				f.Table(table)
			case 2:
				var facts []Fact
				for range rapid.IntRange(0, 9).Draw(t, "facts") {
					c := someCell().Draw(t, "fact")
					facts = append(facts, Fact{Value: c, Span: rapid.IntRange(0, 4).Draw(t, "span")})
					want.WriteString(words(c))
				}
				f.Facts(3, facts)
			case 3:
				c := someCell().Draw(t, "cell")
				f.Columns(3, c)
				want.WriteString(words(c))
			}
			f.End()
		}
		if err := f.doc.Err(); err != nil {
			t.Fatal(err)
		}
		var got strings.Builder
		for _, m := range f.doc.Placed() {
			if m.Text == "" {
				continue
			}
			if m.Box.X < f.area.X || m.Box.Right() > f.area.Right() || m.Box.Bottom() > f.area.Bottom()+Pt {
				t.Fatalf("page %d: %q at %v is outside the area %v", m.Page, m.Text, m.Box, f.area)
			}
			if !strings.HasPrefix(m.Text, "Section") {
				got.WriteString(m.Text)
			}
		}
		noTextOverText(t, f.doc.Placed())
		if g, w := counted(got.String()), counted(want.String()); g != w {
			t.Fatalf("set %s\nwant %s", g, w)
		}
	})
}

func words(c Cell) string {
	var all strings.Builder
	for _, item := range c {
		all.WriteString(item.Text)
	}
	return all.String()
}

// counted is how often each rune but the space occurs: rows are set cell by cell,
// so the order of lines is not that of the text.
func counted(text string) string {
	counts := map[rune]int{}
	for _, r := range text {
		if r != ' ' && r != '\n' {
			counts[r]++
		}
	}
	return fmt.Sprint(counts) // sorted by key
}

// A heading stands over the first row of its table, and column titles stand on
// every page of it.
func TestHeadingsStayWithWhatTheyHead(t *testing.T) {
	for used := range 60 {
		f := newTestFlow(A4)
		f.Block(Len(600+2*used)*Pt, func(int, Box) {})
		f.Section("Tasks")
		table := Table{Columns: []Column{{Title: "Item", Share: 1}, {Title: "Result", Share: 1}}}
		for i := range 80 {
			table.Rows = append(table.Rows, Row{Cells: []Cell{{{Text: fmt.Sprintf("row%d\nmore", i), Style: plain}}, {{Text: "done", Style: plain}}}})
		}
		f.Table(table)
		heads, rows := map[int]string{}, map[int]int{}
		var order []string
		for _, m := range f.doc.Placed() {
			switch {
			case m.Text == "Tasks" || m.Text == "Tasks (continued)" || m.Text == "Item":
				heads[m.Page] += m.Text + ";"
			case strings.HasPrefix(m.Text, "row"):
				rows[m.Page]++
				order = append(order, m.Text)
			}
		}
		for page := range f.doc.Pages() {
			page++
			want := "Tasks (continued);Item;"
			if _, first := heads[page-1]; !first {
				want = "Tasks;Item;"
			}
			if rows[page] > 0 != (heads[page] == want) {
				t.Errorf("%d used: page %d has %d rows under %q", used, page, rows[page], heads[page])
			}
		}
		if len(order) != 80 || order[79] != "row79" {
			t.Errorf("%d used: %d rows", used, len(order))
		}
	}
}

// A row taller than a page is carried on, not cut.
func TestTallRowsGoOn(t *testing.T) {
	f := newTestFlow(A4)
	f.Section("Fluids")
	var long Cell
	for i := range 200 {
		long = append(long, Item{Text: fmt.Sprintf("line%d", i), Style: plain})
	}
	f.Table(Table{Columns: []Column{{Title: "A", Share: 1}, {Title: "B", Share: 1}},
		Rows: []Row{{Cells: []Cell{long, {{Text: "beside", Style: plain}}}, Under: Cell{{Text: "under", Style: plain}}}}})
	if err := f.doc.Err(); err != nil {
		t.Fatal(err)
	}
	lines, under := 0, 0
	for _, m := range f.doc.Placed() {
		if strings.HasPrefix(m.Text, "line") {
			lines++
		}
		if m.Text == "under" {
			under = m.Page
		}
	}
	if lines != 200 || f.doc.Pages() < 3 || under != f.doc.Pages() {
		t.Errorf("%d lines on %d pages, the line under the row on page %d", lines, f.doc.Pages(), under)
	}
	noTextOverText(t, f.doc.Placed())
}

// What can never fit is an error, not an endless loop or a cut.
func TestWhatNeverFitsFails(t *testing.T) {
	f := newTestFlow(A4)
	f.Table(Table{Columns: []Column{{Share: 1}}, Rows: []Row{{Cells: []Cell{{{Height: 2000 * Pt, Draw: func(d *Document, page int, b Box) {
		d.Fill(page, Color{}, b)
	}}}}}}})
	if f.doc.Err() == nil {
		t.Error("a drawing taller than the page passed")
	}
}

func TestEmptySectionLeavesNoTrace(t *testing.T) {
	f := newTestFlow(A4)
	f.Section("Parts")
	f.Table(Table{Columns: []Column{{Title: "Part", Share: 1}}})
	f.Facts(2, []Fact{{Caption: "Place"}})
	f.Columns(3, nil)
	f.End()
	if n := len(f.doc.Placed()); n != 0 {
		t.Errorf("%d marks", n)
	}
}
