// Package sheet sets printed pages: measured text and tables, facts, rules,
// bars, symbols, page breaks and footers. It knows paper and nothing of what is
// printed on it.
//
// # Lengths
//
// Every length is a whole number of 1/100 pt ([Len]), and so is every width of
// text: the advance of each glyph in 1/1000 em (as the PDF file states it)
// times the size, rounded up once. Two decimals of a point are also what the
// file keeps. So no page depends on how a processor rounds floats.
//
// # How a page is made
//
// Marks (a line of text, a filled or stroked box, a rule, a symbol) are first
// collected in a [Document]. A [Flow] goes down the pages: it measures each
// block, starts a new page where the block does not fit, and repeats headings.
// Only then does [Document.PDF] write the file, so that every page can say how
// many there are. A mark in the paper's margin ([Paper]), or a character without
// a glyph, is an error of the whole document: nothing is cut off or replaced by
// a box in silence.
//
// # The same bytes every time
//
// The file depends on the marks and [Meta] alone. fpdf v0.9.0 is used so that
// this holds: sorted catalogue, both dates set, a fixed producer, its own copy
// of every font (it writes into the slice it is given), no images, no spot
// colours, no page boxes, no aliases.
package sheet
