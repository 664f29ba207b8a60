package verify

import (
	"errors"
	"strings"

	"hourseal/record"
	"hourseal/record/list"
	"hourseal/record/quantity"
	"hourseal/sign"
	"hourseal/verify/source"
)

// Reader is what the person who asks has: whom they know, and what they read off
// the machine. The zero value knows nobody and asks about no machine.
type Reader struct {
	Trust sign.TrustList
	// Statements are key statements that came by another way than in the file; those
	// in the file are followed as well.
	Statements []sign.Statement
	Serial     string          // as typed off the name plate; "" when not given
	Hours      *quantity.Hours // the meter's reading now; nil when not given
	On         *quantity.Date  // their day, for what falls due next; nil: not told, and nothing is said of it
}

// RenderFunc makes the report's page again. ErrNotRendered says that this
// program does not know the record's renderer, or cannot draw its text.
type RenderFunc func(r *record.Record, envelope []byte, qrTexts []string, keyStatements []byte) ([]byte, error)

// ErrNotRendered is wrapped by a RenderFunc that cannot render a record.
var ErrNotRendered = errors.New(string(cannotRenderIt))

// Result is the answer about one input.
type Result struct {
	Verdict Verdict
	Source  source.Kind // "" when it could not be told

	// What the signature covers: a record or a list. Nil where the verdict hides content.
	Signed *record.Record
	List   *list.List // nil for records

	// What this program worked out.
	Record *record.ID // of the record or list; nil when none was read
	Signer Signer
	Keys   Keys  // the key statements and what did not count of them
	Page   *Page // nil for inputs that have no page
	Host   Host
	Files  []File // that the record names, in its order; nil where it names none
	Serial Match
	Hours  HoursMatch
	Err    error // why it is unreadable or altered

	// The reader's, for what falls due next.
	on      *quantity.Date
	reading *quantity.Hours
}

// PageNotCompared is the page result where the page could not be made again.
const PageNotCompared source.PageResult = "not-compared"

// Page is what making the page again showed.
type Page struct {
	Result source.PageResult
	Detail string
	Lines  []source.TextDiff
	Scan   bool // the code stands in a picture in the PDF: there is nothing to compare
}

// Proved says whether the page is the page of the record.
func (p *Page) Proved() bool {
	return p == nil || p.Result == source.PageOriginal || p.Result == source.PageRedeflated
}

// Host says whether the address in the code is the one that the record names.
type Host struct {
	Found   string // in the code; "" without one
	Other   bool   // and it is another than the record's
	Unknown bool   // it was not seen: only the digits behind it were given
}

// HoursMatch compares the reader's meter with the record's hours.
type HoursMatch int

// The comparisons.
const (
	HoursNotAsked HoursMatch = iota
	HoursAhead               // the meter has run on since, as it should
	HoursBehind              // the meter shows less than the record
	HoursUnlike              // the record's hours are an estimate, no reading of a meter
)

// Run verifies one input. Of a record file, the result keeps nothing of data.
func Run(data []byte, reader Reader, render RenderFunc) Result {
	found, err := source.Read(data)
	return RunFound(data, found, err, reader, render)
}

// RunFound verifies what source found, in data or in pictures and texts read
// elsewhere; err is what source had to say of it. data, which may be nil where found
// is no PDF or render makes no page, is looked at for two things: the page of a PDF, and
// whether what holds no record that was signed is key statements.
func RunFound(data []byte, found source.Found, err error, reader Reader, render RenderFunc) Result {
	if err != nil {
		if areKeyStatements(data) {
			return Result{Verdict: Unreadable, Err: errKeyStatements}
		}
		return Result{Verdict: Unreadable, Source: found.Kind, Err: err}
	}
	id := record.ID(sign.IDOf(found.Envelope))
	result := Result{Source: found.Kind, Record: &id, on: reader.On, reading: reader.Hours}
	opened, err := sign.Open(sign.RecordV1, found.Envelope)
	if sealed, is := asList(found, err); is {
		return runList(result, found, sealed, reader)
	}
	switch {
	case errors.Is(err, sign.ErrBadSignature) && areKeyStatements(data):
		return Result{Verdict: Unreadable, Err: errKeyStatements}
	case errors.Is(err, sign.ErrBadSignature), errors.Is(err, sign.ErrWeakKey):
		result.Verdict, result.Err = Altered, err
		return result
	case err != nil:
		result.Verdict, result.Err = Unreadable, err
		return result
	}
	result.Signer.Key = opened.Signer
	r, err := record.Decode(opened.Payload)
	if err != nil {
		result.Verdict, result.Err = Unreadable, err
		return result
	}
	result.Signed = r
	result.Signer, result.Keys = whoSigned(opened.Signer, r.IssuedAt, reader, found.Keys)
	result.Host = Host{Found: found.Host, Other: otherHost(found, r), Unknown: found.HostUnknown}
	result.Files = filesOf(r)
	result.Serial = CompareSerial(reader.Serial, r.Machine.Serial)
	result.Hours = compareHours(reader.Hours, r)
	if found.Kind == source.KindPDF {
		result.Page = checkPage(data, found, r, result.Keys, render)
	}
	result.Verdict = result.verdict()
	return result
}

// compareHours holds the reader's meter to the record's own reading. An estimate
// made because the meter stood still is no reading: an honest meter may show
// less.
func compareHours(now *quantity.Hours, r *record.Record) HoursMatch {
	switch then := r.Job.Meter.Reading; {
	case now == nil:
		return HoursNotAsked
	case then == nil:
		return HoursUnlike
	case *now < *then:
		return HoursBehind
	default:
		return HoursAhead
	}
}

// checkPage makes the page again and compares.
func checkPage(data []byte, found source.Found, r *record.Record, keys Keys, render RenderFunc) *Page {
	switch {
	case found.Scan:
		return &Page{Result: PageNotCompared, Scan: true}
	case found.PDF == nil:
		return &Page{Result: source.PageDiffers, Detail: found.Salvaged}
	case keys.Err != nil:
		return &Page{Result: PageNotCompared, Detail: keys.Err.Error()}
	case render == nil:
		return &Page{Result: PageNotCompared, Detail: ErrNotRendered.Error()}
	}
	// A page made with the received statements agrees with them whatever they are.
	// They are not the record's, whose signature says nothing of them: each is judged
	// by its own, and one that another person put there can only speak of keys of
	// theirs.
	fresh, err := render(r, found.Envelope, found.Texts, found.Keys)
	if err != nil {
		return &Page{Result: PageNotCompared, Detail: err.Error()}
	}
	check, err := source.Compare(data, fresh)
	if err != nil {
		return &Page{Result: PageNotCompared, Detail: err.Error()}
	}
	// The fresh page has the received code on it, so it agrees whatever the
	// address.
	if check.Result != source.PageDiffers && otherHost(found, r) {
		return &Page{Result: source.PageDiffers, Detail: otherCode.with()}
	}
	return &Page{Result: check.Result, Detail: check.Detail, Lines: check.Lines}
}

// otherHost says whether the texts lead elsewhere than the record.
func otherHost(found source.Found, r *record.Record) bool {
	return len(found.Texts) > 0 && !found.HostUnknown && !strings.EqualFold(found.Host, r.PageHost)
}

// verdict is the worst of what was found.
func (r Result) verdict() Verdict {
	switch {
	case r.Signer.Known && !r.Signer.ValidForDate():
		return KeyNotValid
	case !r.Signer.Known:
		return UnknownSigner
	case !r.Page.Proved(), r.Host.Other, r.fileDiffers():
		return NotOriginal
	case r.Serial == Different, r.Hours == HoursBehind:
		return OtherMachine
	default:
		return Genuine
	}
}
