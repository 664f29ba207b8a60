package main

import (
	"hourseal/record"
	"hourseal/verify"
)

// notHere says why the page of a PDF is not compared.
//
// It was measured, in November 2026 with Go 1.26: with what makes a report again
// (its fonts, the writer of PDF, the QR encoder and what those bring along) the
// program is 9.85 MB, gzipped 2.66 MB, and the HTML file in base64 3.6 MB;
// without, 7.67 MB, 2.04 MB and 2.8 MB. The file is to stay under 3 MB. Most of the
// difference is inside the libraries, so no cut of ours brings it below. The record
// in a PDF is verified all the same, the verdict is that its page could not be
// shown to be the record's, and what was signed can be read beside it.
type notHere struct{}

func (notHere) Error() string {
	return "this web page is kept too small to make a report again and compare; the program hourseal does that"
}

func (notHere) Unwrap() error { return verify.ErrNotRendered }

// renderPage is a verify.RenderFunc.
func renderPage(*record.Record, []byte, []string, []byte) ([]byte, error) {
	return nil, notHere{}
}
