package verify_test

import (
	"bytes"
	"strings"
	"testing"

	"hourseal/verify"
)

// TestReason: why it is altered or cannot be read, on one line in the words of the
// answer; nothing where the record is shown, or could be.
func TestReason(t *testing.T) {
	sealed := example(t)
	flipped := bytes.Clone(sealed.envelope)
	flipped[200] ^= 1
	for _, c := range []struct {
		name    string
		data    []byte
		reader  verify.Reader
		verdict verify.Verdict
		want    string
	}{
		{"altered", flipped, buyer(t), verify.Altered, "The record's bytes are not the ones that were signed, or the key that it names did not sign them."},
		{"no record", []byte("%PDF-1.4\n"), buyer(t), verify.Unreadable, "No service record was found in this PDF. Ask for the PDF of the report as the yard sent it, or take a picture of the code on its last page; a label or worksheet holds no record, and a locked or printed copy has lost it."},
		{"signed, in another form", sealBytes(t, append(bytes.Clone(sealed.payload), 0), yardSeed), buyer(t), verify.Unreadable,
			"It is signed, but not in the form of a record that this program reads. Record: more bytes stand behind it. A newer program may read it; if none does, ask the yard for the report as it was issued."},
		{"unknown signer", sealed.envelope, verify.Reader{}, verify.UnknownSigner, ""},
		{"genuine", sealed.envelope, buyer(t), verify.Genuine, ""},
		{"list", sealList(t, exampleList(), yardSeed), buyer(t), verify.Genuine, ""},
	} {
		got := verify.Run(c.data, c.reader, noPage)
		if got.Verdict != c.verdict || got.Reason() != c.want || strings.Contains(got.Reason(), "\n") {
			t.Errorf("%s: %s: %s\nwant %s", c.name, got.Verdict, got.Reason(), c.want)
		}
	}
}
