package render

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"hourseal/record"
	"hourseal/render/sheet"
	"hourseal/render/words"
	"hourseal/sign"
	"hourseal/sign/qrtext"
)

// LabelSize is the size of a sticker; zero is none.
type LabelSize uint8

// The sizes, width by height in mm.
const (
	Label62x29 LabelSize = iota + 1
	Label40x40
)

var labelSizes = []string{"62x29", "40x40"}

// ParseLabelSize reads a size as people write it: "62x29" or "40x40".
func ParseLabelSize(text string) (LabelSize, error) {
	if i := slices.Index(labelSizes, text); i >= 0 {
		return LabelSize(i + 1), nil
	}
	return 0, fmt.Errorf("no label of size %q: write %s", text, strings.Join(labelSizes, " or "))
}

func (s LabelSize) String() string {
	if s < 1 || int(s) > len(labelSizes) {
		return fmt.Sprintf("LabelSize(%d)", uint8(s))
	}
	return labelSizes[s-1]
}

// label is one sticker while it is being set.
type label struct {
	r     *record.Record
	id    sign.ID
	task  labelTask
	texts words.LabelTexts
	code  symbol
	doc   *sheet.Document
}

// Label prints the sticker for the filter or engine as a PDF file of one page.
// It is a pure function: the same arguments give the same bytes. id is the
// record's; that it is, the caller has to know. task names the task that the
// label is for, by its id. Empty takes the first of these that was done on the
// job: the engine oil (with the oil filter where that was done too; the earlier
// of the two is due next), the oil filter, gear oil, drive oil, the first in the
// order of the schedule.
//
// The label has what was done; the date with the hours, as the meter reads them
// and in total where the two differ, and that they are an estimate where they
// are; when it falls due next, in the same way; vessel, position, serial number,
// make and model; product and viscosity of what was filled; who signs the
// record; and a code at level M that names the record (see [qrtext.Reference])
// over the part of the record's id that people see. A code that has an address
// in it stands over the warning not to trust the page.
//
// # What does not fit
//
// A text has one line of a size of its own. One too long for it is set smaller,
// down to 6 pt; then, where there is room, in several lines, as large as fits;
// then smaller still, down to 5 pt; then in as many lines of 5 pt as there is
// room for; and the last of those ends in an ellipsis. That last happens to
// names alone (the task's title, vessel and position, serial number with make
// and model, product, the signer's name), and room goes to the serial number
// first. Date, hours, what is due next, the id and the warning are always whole.
//
// The error says what is wrong with the record, the size or the task, or matches
// [sheet.ErrNoGlyph] for a character that cannot be printed, also where an
// ellipsis would have hidden it.
func Label(r *record.Record, id sign.ID, size LabelSize, task string) ([]byte, error) {
	l, err := setLabel(r, id, size, task)
	if err != nil {
		return nil, err
	}
	return l.doc.PDF(sheet.Begin(l.doc.Paper(), sheet.Meta{
		Producer: "hourseal",
		Title:    sentences(", ", l.texts.Record, l.task.what, r.Job.Date.String()),
		Author:   r.Issuer.Name,
		Lang:     "en-GB",
		Date:     time.Unix(r.IssuedAt, 0),
	}))
}

// setLabel lays a label out.
func setLabel(r *record.Record, id sign.ID, size LabelSize, task string) (*label, error) {
	if r == nil {
		return nil, errors.New("no record to print")
	}
	place, ok := labelPlaces[size]
	if !ok {
		return nil, fmt.Errorf("no label of size %v: take %s", size, strings.Join(labelSizes, " or "))
	}
	if err := r.Validate(); err != nil {
		return nil, err
	}
	if r.Kind == record.Void {
		return nil, errors.New("this record says that another does not count: there is nothing to put on a label")
	}
	l := &label{r: r, id: id, texts: words.Label(), doc: sheet.NewDocument(place.paper)}
	var err error
	if l.task, err = labelTaskOf(r, task, l.texts); err != nil {
		return nil, err
	}
	text, err := qrtext.Reference(r.PageHost, [qrtext.ShortBytes]byte(id[:qrtext.ShortBytes]))
	if err != nil {
		return nil, err
	}
	if l.code, err = symbolOf(text); err != nil {
		return nil, err
	}
	if err := place.set(l); err != nil {
		return nil, err
	}
	return l, l.doc.Err()
}
