package render

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"hourseal/record"
	"hourseal/render/sheet"
	"hourseal/render/words"
	"hourseal/sign"
)

// RendererID is the layout and wording that this package prints.
const RendererID = 1

// ErrUnknownRenderer is matched by the error for a record that was issued with
// a layout which this program does not know.
var ErrUnknownRenderer = errors.New("unknown page layout")

// report is one report while it is being set.
type report struct {
	r     *record.Record
	id    sign.ID
	key   sign.PublicKey
	texts words.Texts
	doc   *sheet.Document
	flow  *sheet.Flow
}

// Report prints the report of a record as a PDF file. The envelope has to be
// that record's, signed for [sign.RecordV1]; qrTexts are its texts, at least
// one; keyStatements may be empty.
//
// The error matches [ErrUnknownRenderer] for another layout,
// [sheet.ErrNoGlyph] for a character that cannot be printed, or says what does
// not fit together.
func Report(r *record.Record, envelope []byte, qrTexts []string, keyStatements []byte) ([]byte, error) {
	if r == nil {
		return nil, errors.New("no record to print")
	}
	if r.Renderer != RendererID {
		return nil, fmt.Errorf("%w: %d, this program prints %d", ErrUnknownRenderer, r.Renderer, RendererID)
	}
	opened, err := sign.Open(sign.RecordV1, envelope)
	if err != nil {
		return nil, fmt.Errorf("open the envelope: %w", err)
	}
	// The page must never show another record than the one attached to it.
	payload, err := record.Encode(r)
	if err != nil {
		return nil, err
	}
	if !bytes.Equal(payload, opened.Payload) {
		return nil, errors.New("the envelope holds another record than the one to print")
	}
	codes := whileSetting(qrTexts)
	p := &report{r: r, id: sign.IDOf(envelope), key: opened.Signer, texts: words.Report()}
	press := sheet.Begin(p.paper(), sheet.Meta{
		Producer: "hourseal",
		Title:    p.title(),
		Author:   r.Issuer.Name,
		Lang:     "en-GB",
		Date:     time.Unix(r.IssuedAt, 0),
	})
	if err := p.set(codes); err != nil {
		return nil, err
	}
	attachments := []sheet.Attachment{
		{Name: "record.cose", Content: envelope},
		{Name: "record.txt", Content: []byte(strings.Join(qrTexts, "\n") + "\n")},
	}
	if len(keyStatements) > 0 {
		attachments = append(attachments, sheet.Attachment{Name: "keys.cose", Content: keyStatements})
	}
	return p.doc.PDF(press, attachments...)
}

// Warm loads what every report needs, the words and the faces, which may be done
// while there is nothing to print yet.
func Warm() {
	words.Warm()
	sheet.Warm()
}

// visit is what was found and done on a job.
func (p *report) visit() {
	p.job()
	p.tasks()
	p.left()
	p.otherWork()
	p.fluids()
	p.parts()
	if p.r.LeakCheck != nil || p.r.Kind != record.Addendum {
		p.leakCheck()
	}
	p.findings()
}

// statesNothing says whether a record only speaks of another: it states no visit, and
// its hours are those of the other.
func (p *report) statesNothing() bool {
	r := p.r
	if r.Kind != record.Void && r.Kind != record.Addendum {
		return false
	}
	lists := len(r.OtherWork) + len(r.Fluids) + len(r.ToppedUp) + len(r.Waste) + len(r.Parts) + len(r.Findings)
	meter := r.Job.Meter
	return lists == 0 && r.LeakCheck == nil && r.By == (record.By{}) && r.Job.FuelUsed == nil && r.Job.Place == "" &&
		meter.State == record.NoMeter && meter.Change == nil &&
		!slices.ContainsFunc(r.Tasks, func(t record.Task) bool { return t.Result != 0 })
}

// title is what the file is called: "Service report J-2217", or by its date
// where the job has no number.
func (p *report) title() string {
	name := p.texts.Document.Titles.Of(p.r.Kind.String())
	if p.r.Job.Number != "" {
		return string(name) + " " + p.r.Job.Number
	}
	return string(name) + " " + p.r.Job.Date.String()
}

func (p *report) paper() sheet.Paper {
	if p.r.Paper == record.Letter {
		return sheet.Letter
	}
	return sheet.A4
}

// set lays the whole report out; the codes come last.
func (p *report) set(codes func() ([]symbol, error)) error {
	paper := p.paper()
	p.doc = sheet.NewDocument(paper)
	p.flow = sheet.NewFlow(p.doc, pageArea(paper), p.look())
	p.head()
	p.firstThings()
	p.machine()
	if !p.statesNothing() {
		p.visit()
	}
	p.next()
	p.notes()
	p.files()
	p.cautions()
	symbols, err := codes()
	if err != nil {
		return err
	}
	p.signed(symbols)
	p.proof()
	p.furniture()
	return nil
}
