// Package plain puts a record, or a signed list of records, into plain rows, for
// whatever shows text: a terminal, or a web page. Nothing of what it gives is laid
// out, and nothing is made safe to show: whoever shows it does that, by [Printable].
//
// The words are those of render/words and a few of its own. What a record does not
// mention has no row.
package plain

// Block is one part of what is shown: a heading, and rows or a text below it.
type Block struct {
	Heading string     // "" for what stands by itself
	Rows    [][]string // all of one length; nil where there is a text
	Headed  bool       // the first row holds the heads of the columns
	Text    string     // a paragraph instead of rows
}
