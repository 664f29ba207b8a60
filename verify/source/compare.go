package source

import (
	"bytes"
	"fmt"
)

// PageResult is how a file compares with a fresh rendering of its record.
type PageResult string

// The results of a comparison, as they stand in the JSON of a verdict.
const (
	// PageOriginal: the same file, byte for byte.
	PageOriginal PageResult = "original"
	// PageRedeflated: the same content in differently deflated streams.
	PageRedeflated PageResult = "re-deflated"
	// PageDiffers: not the page of this record.
	PageDiffers PageResult = "differs"
)

// PageCheck is the outcome of a comparison.
type PageCheck struct {
	Result PageResult
	Detail string     // what differs first, in words; "" unless Result is differs
	Object int        // number, in the received file, of the object that differs first; 0 for none
	Lines  []TextDiff // lines of text that differ, at most maxTextDiffs
}

// TextDiff is a line of text that one file shows and the other does not. Either
// side may be "". Both are safe to print.
type TextDiff struct {
	Page            int // from 1
	Received, Fresh string
}

// FreshError says that the rendering made for comparison is not in the layout
// of a report: a fault of this program, not of the received file.
type FreshError struct{ Err error }

func (e *FreshError) Error() string {
	return "the page rendered for comparison is not in the layout of a report: " + e.Err.Error()
}

func (e *FreshError) Unwrap() error { return e.Err }

// Compare holds a received PDF against a fresh rendering of its record.
//
// The two are the same if they are equal, or if they have the same objects in
// the same order, each equal byte for byte. A stream that the fresh rendering
// deflates is compared after inflating, and the digits of its /Length are left
// out (the strict reader has seen to it that they are right).
//
// A received file that is not in the layout of a report is a *LayoutError.
func Compare(received, fresh []byte) (PageCheck, error) {
	if bytes.Equal(received, fresh) {
		return PageCheck{Result: PageOriginal}, nil
	}
	want, err := ReadPDF(fresh)
	if err != nil {
		return PageCheck{}, &FreshError{err}
	}
	got, err := ReadPDF(received)
	if err != nil {
		return PageCheck{}, err
	}
	check := compareObjects(got, want)
	if check.Result == PageDiffers {
		check.Lines = compareText(got, want)
	}
	return check, nil
}

func compareObjects(got, want *PDF) PageCheck {
	differs := func(object int, detail string) PageCheck {
		return PageCheck{Result: PageDiffers, Object: object, Detail: detail}
	}
	if header := want.objects[0].from; !bytes.Equal(got.data[:got.objects[0].from], want.data[:header]) {
		return differs(0, "the header is another")
	}
	for i := range min(len(got.objects), len(want.objects)) {
		g, w := &got.objects[i], &want.objects[i]
		if g.number != w.number {
			return differs(g.number, "the objects are in another order")
		}
		if detail := compareObject(got, want, g, w); detail != "" {
			return differs(g.number, fmt.Sprintf("%s: %s", got.describe(g), detail))
		}
	}
	if len(got.objects) != len(want.objects) {
		return differs(0, fmt.Sprintf("%d objects instead of %d", len(got.objects), len(want.objects)))
	}
	return PageCheck{Result: PageRedeflated}
}

// compareObject returns what differs, in words, or "".
func compareObject(got, want *PDF, g, w *object) string {
	if !w.deflated {
		if !bytes.Equal(got.data[g.from:g.to], want.data[w.from:w.to]) {
			return "not the same"
		}
		return ""
	}
	if !g.deflated ||
		!bytes.Equal(got.data[g.from:g.lengthFrom], want.data[w.from:w.lengthFrom]) ||
		!bytes.Equal(got.data[g.lengthTo:g.contentFrom], want.data[w.lengthTo:w.contentFrom]) {
		return "the stream is described in another way"
	}
	// What follows the content is the same in every object with a stream.
	if bytes.Equal(got.content(g), want.content(w)) {
		return ""
	}
	a, b := getBuffer(), getBuffer()
	defer putBuffer(a)
	defer putBuffer(b)
	if got.inflateInto(a, g) != nil || want.inflateInto(b, w) != nil || !bytes.Equal(a.Bytes(), b.Bytes()) {
		return "the content is not the same"
	}
	return ""
}

// inflateInto writes a stream's content to b.
func (p *PDF) inflateInto(b *bytes.Buffer, o *object) error {
	if !o.deflated {
		b.Write(p.content(o))
		return nil
	}
	_, err := inflate(p.content(o), maxStreamBytes, func(piece []byte) { b.Write(piece) })
	return err
}

// describe says what an object is, in words for a person.
func (p *PDF) describe(o *object) string {
	for i, content := range p.pages {
		if content == o.number {
			return fmt.Sprintf("what page %d shows (object %d)", i+1, o.number)
		}
	}
	for _, n := range p.names {
		if n.object == o.number {
			return fmt.Sprintf("the attachment %s (object %d)", n.name, o.number)
		}
	}
	what := "part of the file"
	switch {
	case o.number == len(p.objects):
		what = "the catalog"
	case o.number == len(p.objects)-1:
		what = "the document's title and dates"
	case o.dict.is("Type", "/Page"), o.dict.is("Type", "/Pages"):
		what = "the description of a page"
	case o.dict.get("Length1") != nil:
		what = "a font"
	case o.dict.is("Type", "/Font"), o.dict.is("Type", "/FontDescriptor"):
		what = "the description of a font"
	case o.dict.is("Type", "/Filespec"):
		what = "the description of an attachment"
	case o.hasStream():
		what = "a font's table"
	}
	return fmt.Sprintf("%s (object %d)", what, o.number)
}
