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
	// ErrImage: a picture; see the package comment.
	ErrImage = errors.New("a picture")
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
	hintAnything = "give the PDF of the report, the text of its QR code, or the .cose record file"
	hintImage    = "read the code with a phone and give its text, or give the PDF or the .cose record file"
	hintNoRecord = "ask for the PDF of the report as the yard sent it; a label or worksheet holds no record, and a locked or printed copy has lost it"
	hintTwo      = "give one record at a time, and ask for the PDF as the yard sent it"
	hintSmaller  = "give the report on its own, as the yard sent it"
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
