package sheet

import (
	"errors"
	"fmt"
)

// ErrOutside is matched by the error for a mark outside the safe area.
var ErrOutside = errors.New("outside the page")

// Document collects the marks of all pages. Its first fault is kept and
// returned by PDF; until then its methods may be called without asking.
type Document struct {
	paper Paper
	pages [][]mark
	err   error
}

// mark is one thing on a page.
type mark struct {
	kind  markKind
	box   Box // what it covers; of a line of text, bounded by ascent and descent
	x, y  Len // of text: where the baseline begins
	text  string
	style Style
	color Color
	width Len   // of a stroke
	boxes []Box // of a fill
	step  Len   // of a fill: the side of the modules that all its boxes are made of; 0: no such
	lines [][]Spot
	dash  Len // of lines: how long its dashes and gaps are; 0: none
}

type markKind uint8

const (
	textMark markKind = iota + 1
	fillMark
	strokeMark
	lineMark
)

// NewDocument returns a document without a page.
func NewDocument(p Paper) *Document { return &Document{paper: p} }

// Paper is the size of every page.
func (d *Document) Paper() Paper { return d.paper }

// Pages is the number of pages so far.
func (d *Document) Pages() int { return len(d.pages) }

// Err is the first fault of the document.
func (d *Document) Err() error { return d.err }

// AddPage starts a page.
func (d *Document) AddPage() { d.pages = append(d.pages, nil) }

func (d *Document) fail(format string, args ...any) {
	if d.err == nil {
		d.err = fmt.Errorf(format, args...)
	}
}

// add puts a mark on a page, counted from 1.
func (d *Document) add(page int, m mark) {
	if page < 1 || page > len(d.pages) {
		d.fail("page %d: there is no such page", page)
		return
	}
	if safe := d.paper.Safe(); !safe.Contains(m.box) {
		d.fail("page %d: %q at %d,%d, %d by %d: %w", page, m.text, m.box.X, m.box.Y, m.box.W, m.box.H, ErrOutside)
		return
	}
	d.pages[page-1] = append(d.pages[page-1], m)
}

// Text sets one line with its top left corner at x, top. It neither wraps nor
// cuts.
func (d *Document) Text(page int, x, top Len, s Style, text string) {
	if text == "" {
		return
	}
	if err := CheckGlyphs(text); err != nil {
		d.fail("page %d: %q: %w", page, text, err)
		return
	}
	y := top + s.baseline()
	d.add(page, mark{kind: textMark, x: x, y: y, text: text, style: s,
		box: Box{x, y - s.ascent(), s.Width(text), s.ascent() + s.descent()}})
}

// TextIn sets one line in a width, aligned.
func (d *Document) TextIn(page int, x, width, top Len, a Align, s Style, text string) {
	d.Text(page, a.x(x, width, s.Width(text)), top, s, text)
}

// Fill fills boxes in one colour, as one shape: edges that touch leave no seam.
func (d *Document) Fill(page int, c Color, boxes ...Box) { d.fill(page, c, 0, boxes) }

func (d *Document) fill(page int, c Color, step Len, boxes []Box) {
	if len(boxes) == 0 {
		return
	}
	around := boxes[0]
	for _, b := range boxes[1:] {
		right, bottom := max(around.Right(), b.Right()), max(around.Bottom(), b.Bottom())
		around.X, around.Y = min(around.X, b.X), min(around.Y, b.Y)
		around.W, around.H = right-around.X, bottom-around.Y
	}
	d.add(page, mark{kind: fillMark, box: around, color: c, boxes: boxes, step: step})
}

// Rule draws a horizontal rule of that thickness, its upper edge at top.
func (d *Document) Rule(page int, x, top, width, thick Len, c Color) {
	d.Fill(page, c, Box{x, top, width, thick})
}

// Stroke draws the outline of a box, the line inside its edges.
func (d *Document) Stroke(page int, b Box, thick Len, c Color) {
	d.add(page, mark{kind: strokeMark, box: b, color: c, width: thick})
}

// Placed is a mark as a test sees it.
type Placed struct {
	Page int
	Box  Box
	Text string // "" for what is not text
	Runs int    // of a filled shape: the boxes that it is made of
}

// Placed lists all marks in the order in which they were made, page by page.
func (d *Document) Placed() []Placed {
	var all []Placed
	for i, marks := range d.pages {
		for _, m := range marks {
			all = append(all, Placed{Page: i + 1, Box: m.box, Text: m.text, Runs: len(m.boxes)})
		}
	}
	return all
}
