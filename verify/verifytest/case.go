package verifytest

import (
	"hourseal/record/quantity"
	"hourseal/sign"
	"hourseal/verify"
	"hourseal/verify/source"
)

// Case is one input, what the reader of it has, and what has to come out.
type Case struct {
	Name string // of the file, without its ending: "genuine-text-format-1"
	What string // the one thing that it is about

	// What the reader has.
	On         quantity.Date // the reader's day
	Trust      sign.TrustList
	Statements []byte          // key statements in the form of keys.cose; nil without any
	Serial     string          // "" where it is not asked about
	Hours      *quantity.Hours // nil where it is not asked about

	// What has to come out.
	Verdict  verify.Verdict
	Exit     int
	Source   source.Kind       // "" where no record was found: not judged then
	Page     source.PageResult // "" where there is none
	Record   string            // the record's id, 64 hex digits; "" where nothing is told of one
	List     string            // the id of a signed list of records instead
	Signer   string            // fingerprint of the key, "SHA256:…"; "" where nothing is told of it
	Sentence string            // in this program's words

	// The same from a program that does not make pages again.
	VerdictWithoutPage  verify.Verdict
	PageWithoutPage     source.PageResult
	SentenceWithoutPage string

	Input []byte
	// Deflated says that Input holds what a Go release's package compress/flate made,
	// or a picture's encoder: the generator of another release makes other bytes.
	Deflated bool
}

// Reader is the reader of the case as package verify wants it.
func (c Case) Reader() (verify.Reader, error) {
	reader := verify.Reader{Trust: c.Trust, Serial: c.Serial, Hours: c.Hours, On: &c.On}
	if c.Statements != nil {
		var err error
		if reader.Statements, err = sign.ParseStatements(c.Statements); err != nil {
			return verify.Reader{}, err
		}
	}
	return reader, nil
}
