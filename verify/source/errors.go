package source

import (
	"errors"
	"fmt"
)

// What can be wrong with an input. Errors returned by Read wrap exactly one of
// these; Hint gives the words that say what to do instead.
var (
	// ErrUnreadable: not a report, a QR text or a record, or a damaged one.
	ErrUnreadable = errors.New("unreadable")
	// ErrTooLarge: over one of the limits in the package comment.
	ErrTooLarge = errors.New("too large")
	// ErrImage: a picture of a kind that is not read; see the package comment.
	ErrImage = errors.New("a picture that is not read")
	// ErrNoCode: a picture in which no QR code was seen.
	ErrNoCode = errors.New("no code in the picture")
	// ErrUnread: a picture in which a QR code was seen, and none could be decoded.
	ErrUnread = errors.New("the code cannot be read off the picture")
	// ErrOtherCode: a picture whose QR codes are all somebody else's.
	ErrOtherCode = errors.New("another's code")
	// ErrNoRecord: a PDF in which no record was found.
	ErrNoRecord = errors.New("no service record")
	// ErrTwoRecords: two different envelopes in one input.
	ErrTwoRecords = errors.New("two different service records")
)

// InputError says what was wrong with an input and what to give instead.
type InputError struct {
	Kind   error  // one of the Err values above
	Reason string // what was wrong, and where
	Hint   string // what to do instead
	Cause  error  // the error of a deeper reader, or nil
	// Texts are the texts of one record of which parts are missing, and no others; the
	// error then also matches *qrtext.MissingPartsError. With those of the other
	// codes they go to FromTexts.
	Texts []string
}

func (e *InputError) Error() string {
	if e.Cause != nil {
		return e.Reason + ": " + e.Cause.Error()
	}
	return e.Reason
}

// Unwrap lets errors.Is find both the kind and the deeper reader's error.
func (e *InputError) Unwrap() []error {
	if e.Cause == nil {
		return []error{e.Kind}
	}
	return []error{e.Kind, e.Cause}
}

// Hint returns what to do instead, or "" if err has nothing to say about it.
func Hint(err error) string {
	if e, ok := errors.AsType[*InputError](err); ok {
		return e.Hint
	}
	return ""
}

const (
	hintAnything     = "give the PDF of the report, a photograph or scan of its QR code, the text of the code, or the .cose record file"
	hintTextAgain    = "scan the code again, or give a photograph of it, the PDF or the .cose record file"
	hintFormat       = "save it as JPEG or PNG, or read the code with the phone's own camera and give its text"
	hintNoRecord     = "ask for the PDF of the report as the yard sent it, or take a picture of the code on its last page; a label or worksheet holds no record, and a locked or printed copy has lost it"
	hintTwo          = "give one record at a time: each report as a file of its own, as the yard sent it, or scanned or photographed by itself"
	hintSmaller      = "give the report on its own, as the yard sent it"
	hintOtherCodes   = "give the text of each code on the report, all of them together, or give photographs of them, the PDF or the .cose record file"
	hintDamagedFile  = "ask for the file again, or give the PDF of the report, a photograph or scan of its QR code, or the text of the code"
	hintLastPage     = "the code is on the report's last page: "
	hintAgain        = "take the picture again: the whole code with its white border, nearer, flat and in good light, each small square at least 5 pixels wide"
	hintSteady       = "take the picture again: flatter, in more light, sharp, without glare or folds, and the whole code with its white border"
	hintScanAgain    = "scan the page again at 300 dpi, or take a picture of the whole code with its white border, near, flat and in good light"
	hintFewerPixels  = "save it smaller, as an ordinary JPEG or a grey PNG, or give a picture of the code alone"
	hintFewerPages   = "give the pages with the codes on them alone, or a picture of each code"
	hintScanFormat   = "scan the page again as JPEG or PNG, or take a picture of the code with a phone"
	hintLocked       = "ask for the PDF as the yard sent it, or take a picture of the code"
	hintCutPDF       = "ask for the file again, or take a picture of the code on the report's last page"
	hintNoCodeInScan = "ask for the PDF of the report as the yard sent it; if this is a scan of the paper, scan its last page, where the code is, at 300 dpi, or take a picture of the code"
)

// LayoutError says why a PDF is not in the layout of a report.
type LayoutError struct {
	Object int // number of the object, or 0 for the file as a whole
	At     int // offset in the file, in bytes
	Reason string
	// attached is record.cose, where all is in order but record.txt, which holds
	// another record.
	attached []byte
}

func (e *LayoutError) Error() string {
	if e.Object == 0 {
		return fmt.Sprintf("byte %d: %s", e.At, e.Reason)
	}
	return fmt.Sprintf("byte %d, object %d: %s", e.At, e.Object, e.Reason)
}
