package source

import (
	"bytes"
	"errors"
	"fmt"
)

// Kind is what sort of input a record was read from.
type Kind string

// The kinds, as they stand in the JSON of a verdict.
const (
	KindPDF    Kind = "pdf"
	KindImage  Kind = "image"
	KindText   Kind = "text"
	KindRecord Kind = "record"
)

// Limits on the input, in bytes.
const (
	MaxPDFBytes    = 8 << 20 // of a report; a scan may have as many as a picture
	MaxRecordBytes = 16 << 10
	MaxTextBytes   = 64 << 10
	MaxKeysBytes   = 64 << 10
)

// Found is a record as it was found. Nothing in it is verified.
type Found struct {
	Kind     Kind
	Envelope []byte   // COSE_Sign1, of sound structure
	Texts    []string // QR texts of the record as given, nil for a record file or a salvaged PDF
	Host     string   // host in the QR texts, "" without texts or without a page
	Keys     []byte   // keys.cose as attached, nil where there is none
	PDF      *PDF     // nil unless the input is a PDF in the layout of a report
	Salvaged string   // why the PDF is not in that layout, although it holds a record
	Scan     bool     // a PDF of pictures: the code was read off a picture of the page
	// HostUnknown: of every code only the digits were given, so no host can be compared.
	// Where one of a record's codes came whole, its host is compared and speaks for all.
	HostUnknown bool
}

// Read finds the one record in data. It never panics. A record file's Envelope is
// data itself; of anything else it keeps no more than Found.PDF does. Errors are
// *InputError values; beside one, Found has the kind as far as that could be told,
// and nothing else.
func Read(data []byte) (Found, error) {
	switch {
	case len(data) == 0:
		return Found{}, &InputError{Kind: ErrUnreadable, Reason: "the input is empty", Hint: hintAnything}
	case bytes.HasPrefix(data, envelopePrefix[:2]):
		return ofKind(KindRecord)(readRecord(data))
	case bytes.HasPrefix(data, pdfMagic):
		return ofKind(KindPDF)(readPDFInput(data))
	}
	if name := imageName(data); name != "" {
		return ofKind(KindImage)(readImage(data, name))
	}
	// Viewers look past bytes before the header, so a person may well be
	// looking at a report in a file that does not start with one.
	if bytes.Contains(data[:min(len(data), MaxPDFBytes)], pdfMagic) {
		return ofKind(KindPDF)(readPDFInput(data))
	}
	return readText(data)
}

// ofKind says what kind of input an error is about.
func ofKind(kind Kind) func(Found, error) (Found, error) {
	return func(found Found, err error) (Found, error) {
		if err != nil {
			return Found{Kind: kind}, err
		}
		return found, nil
	}
}

var pdfMagic = []byte("%PDF-")

func readRecord(data []byte) (Found, error) {
	if len(data) > MaxRecordBytes {
		return Found{}, tooLarge("record file", len(data), MaxRecordBytes)
	}
	if err := soundEnvelope(data); err != nil {
		return Found{}, &InputError{Kind: ErrUnreadable, Reason: "this record file is damaged", Hint: hintDamagedFile, Cause: err}
	}
	return Found{Kind: KindRecord, Envelope: data[:len(data):len(data)]}, nil
}

func readPDFInput(data []byte) (Found, error) {
	switch {
	case len(data) > MaxImageBytes:
		return Found{}, tooLarge("PDF", len(data), MaxImageBytes)
	case len(data) > MaxPDFBytes:
		return readScan(data, errNoReport, tooLarge("PDF", len(data), MaxPDFBytes), false)
	}
	pdf, refused := ReadPDF(data)
	if refused == nil {
		return Found{Kind: KindPDF, Envelope: pdf.envelope, Texts: pdf.texts, Host: pdf.host, Keys: pdf.keys, PDF: pdf}, nil
	}
	if layout, ok := errors.AsType[*LayoutError](refused); ok && layout.attached != nil {
		return Found{Kind: KindPDF, Envelope: layout.attached, Salvaged: refused.Error()}, nil
	}
	s := searchPDF(data)
	envelope, err := s.result()
	switch {
	case err == nil:
		return Found{Kind: KindPDF, Envelope: envelope, Salvaged: refused.Error()}, nil
	case len(s.found) > 0:
		return Found{}, err
	}
	return readScan(data, refused, err, s.over)
}

var errNoReport = errors.New("it is longer than a report can be")

func tooLarge(what string, size, limit int) error {
	return &InputError{Kind: ErrTooLarge, Reason: fmt.Sprintf("the %s is %d bytes long, the limit is %d", what, size, limit), Hint: hintSmaller}
}
