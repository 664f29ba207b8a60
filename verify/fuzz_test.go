package verify_test

import (
	"bytes"
	"testing"

	"hourseal/record"
	"hourseal/record/list"
	"hourseal/record/recordtest"
	"hourseal/sign"
	"hourseal/verify"
	"hourseal/verify/source"
	"hourseal/verify/source/sourcetest"
)

// FuzzRun holds what has to be true of any input whatever: no panic, the input
// left alone, nothing shown raw, and nobody's name on what they did not sign.
func FuzzRun(f *testing.F) {
	sealed, brief := example(f), shortest(f)
	pdf := brief.pdf(f)
	edit := must[[]byte](f)
	for _, seed := range [][]byte{
		nil, sealed.envelope, sealed.payload, sealed.text(), brief.text(), []byte(inTwoCodes(f, recordtest.Example()).texts[0]), printedBefore(f).text(), pdf, pdf[:len(pdf)-1],
		seal(f, recordtest.Longest(), yardSeed).envelope,
		append([]byte("\n"), pdf...),
		edit(sourcetest.Redeflate(pdf, 1)),
		edit(sourcetest.AddAttachment(pdf, "keys.cose", []byte("key"))),
		edit(sourcetest.AppendUpdate(pdf, 1, func([]byte) []byte { return []byte("(x) Tj") })),
		sealBytes(f, append(bytes.Clone(sealed.payload), 0), yardSeed),
		sealBytes(f, []byte{0xF6}, yardSeed),
		seal(f, recordtest.Example(), strangerSeed).envelope,
		envelopeOf(append([]byte{1}, make([]byte, 31)...), sealed.payload, forgedUnderIdentity),
		edit(sign.Seal(sign.KeyStatementV1, []byte("key"), keyOf(f, yardSeed))),
		sealList(f, exampleList(), yardSeed), edit(sign.Seal(sign.ListV1, sealed.payload, keyOf(f, yardSeed))),
		[]byte("\x89PNG\r\n\x1a\n"), []byte("%PDF-1.4"), []byte("hourseal:1000"), []byte("Dear buyer"),
	} {
		f.Add(seed)
	}
	reader := buyer(f)
	reader.Serial, reader.Hours = "0045120", hours(f, "900")
	page := makePageOnce()
	f.Fuzz(func(t *testing.T, data []byte) {
		before := bytes.Clone(data)
		got := verify.Run(data, reader, page)
		if !bytes.Equal(before, data) {
			t.Error("the input was written to")
		}
		onlyPrints(t, "fuzzed", got)
		if got.List != nil {
			listHolds(t, data, got)
			return
		}
		if got.Verdict.HidesContent() != (got.Signed == nil) || got.Verdict.HidesContent() != (got.Err != nil) {
			t.Errorf("%s: record %t, error %v", got.Verdict, got.Signed != nil, got.Err)
		}
		if got.Signed == nil {
			return
		}
		if got.Record == nil || len(got.Questions()) > 5 {
			t.Error("no id, or too many questions")
		}
		// Whatever is called signed opens under the very key, byte for byte.
		found, err := source.Read(data)
		if err != nil {
			t.Fatal(err)
		}
		opened, err := sign.Open(sign.RecordV1, found.Envelope)
		if err != nil || opened.Signer != got.Signer.Key {
			t.Errorf("signed, but %v", err)
		}
		if again, err := record.Encode(got.Signed); err != nil || !bytes.Equal(again, opened.Payload) {
			t.Errorf("the record shown is not the one signed: %v", err)
		}
		if got.Verdict == verify.Genuine && (!got.Signer.Known || got.Source == source.KindPDF && !got.Page.Proved()) {
			t.Errorf("genuine without %+v, page %+v", got.Signer, got.Page)
		}
	})
}

// listHolds is what has to be true of a list that is shown: it was signed as a list,
// byte for byte, by the very key.
func listHolds(t *testing.T, data []byte, got verify.Result) {
	t.Helper()
	found, err := source.Read(data)
	if err != nil {
		t.Fatal(err)
	}
	opened, err := sign.Open(sign.ListV1, found.Envelope)
	if err != nil || opened.Signer != got.Signer.Key || got.Signed != nil || got.Record == nil || got.Verdict.HidesContent() {
		t.Errorf("%s: signed as a list: %v", got.Verdict, err)
	}
	if again, err := list.Encode(got.List); err != nil || !bytes.Equal(again, opened.Payload) {
		t.Errorf("the list shown is not the one signed: %v", err)
	}
	if got.Verdict == verify.Genuine && !got.Signer.Known {
		t.Error("genuine without a known signer")
	}
}
