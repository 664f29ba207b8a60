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
	MaxPDFBytes    = 8 << 20
	MaxRecordBytes = 16 << 10
	MaxTextBytes   = 64 << 10
	MaxKeysBytes   = 64 << 10
)

// Found is a record as it was found. Nothing in it is verified.
type Found struct {
	Kind     Kind
	Envelope []byte   // COSE_Sign1, of sound structure
	Texts    []string // QR texts as given, nil for a record file or a salvaged PDF
	Host     string   // host in the QR texts, "" without texts or without a page
	Keys     []byte   // keys.cose as attached, nil where there is none
	PDF      *PDF     // nil unless the input is a PDF in the layout of a report
	Salvaged string   // why the PDF is not in that layout, although it holds a record
}

// Read finds the one record in data. It never panics. A record file's Envelope is
// data itself; of anything else it keeps no more than Found.PDF does. Errors are
// *InputError values.
func Read(data []byte) (Found, error) {
	switch {
	case len(data) == 0:
		return Found{}, &InputError{Kind: ErrUnreadable, Reason: "the input is empty", Hint: hintAnything}
	case bytes.HasPrefix(data, envelopePrefix[:2]):
		return readRecord(data)
	case bytes.HasPrefix(data, pdfMagic):
		return readPDFInput(data)
	}
	if name := imageName(data); name != "" {
		return Found{}, &InputError{Kind: ErrImage, Reason: "this is a picture (" + name + "), and this version does not read pictures", Hint: hintImage}
	}
	// Viewers look past bytes before the header, so a person may well be
	// looking at a report in a file that does not start with one.
	if bytes.Contains(data[:min(len(data), MaxPDFBytes)], pdfMagic) {
		return readPDFInput(data)
	}
	return readText(data)
}

var pdfMagic = []byte("%PDF-")

// imageMagic lists the first bytes of common picture files. Sources: PNG
// (ISO/IEC 15948) 5.2; JPEG (ITU-T T.81) B.1.1.3 SOI; GIF89a specification 17;
// TIFF 6.0 section 2; RIFF container of WebP (RFC 9649) 2.4.
var imageMagic = []struct{ name, magic string }{
	{"PNG", "\x89PNG\r\n\x1a\n"},
	{"JPEG", "\xff\xd8\xff"},
	{"GIF", "GIF8"},
	{"TIFF", "II*\x00"},
	{"TIFF", "MM\x00*"},
	{"WebP", "RIFF"},
}

func imageName(data []byte) string {
	for _, m := range imageMagic {
		if bytes.HasPrefix(data, []byte(m.magic)) {
			return m.name
		}
	}
	// ISO base media files (HEIC, AVIF) have their brand after a length.
	if len(data) >= 12 && string(data[4:8]) == "ftyp" {
		return "HEIC or AVIF"
	}
	return ""
}

func readRecord(data []byte) (Found, error) {
	if len(data) > MaxRecordBytes {
		return Found{}, tooLarge("record file", len(data), MaxRecordBytes)
	}
	if err := soundEnvelope(data); err != nil {
		return Found{}, &InputError{Kind: ErrUnreadable, Reason: "this record file is damaged", Hint: "ask for the file again, or give the PDF or the text of its QR code", Cause: err}
	}
	return Found{Kind: KindRecord, Envelope: data[:len(data):len(data)]}, nil
}

func readPDFInput(data []byte) (Found, error) {
	if len(data) > MaxPDFBytes {
		return Found{}, tooLarge("PDF", len(data), MaxPDFBytes)
	}
	pdf, refused := ReadPDF(data)
	if refused == nil {
		return Found{Kind: KindPDF, Envelope: pdf.envelope, Texts: pdf.texts, Host: pdf.host, Keys: pdf.keys, PDF: pdf}, nil
	}
	var envelope []byte
	if layout, ok := errors.AsType[*LayoutError](refused); ok && layout.attached != nil {
		envelope = layout.attached
	} else {
		var err error
		if envelope, err = salvage(data); err != nil {
			return Found{}, err
		}
	}
	return Found{Kind: KindPDF, Envelope: envelope, Salvaged: refused.Error()}, nil
}

func tooLarge(what string, size, limit int) error {
	return &InputError{Kind: ErrTooLarge, Reason: fmt.Sprintf("the %s is %d bytes long, the limit is %d", what, size, limit), Hint: hintSmaller}
}
