package verify_test

import (
	"bytes"
	"slices"
	"sync/atomic"
	"testing"

	"hourseal/sign"
	"hourseal/verify"
	"hourseal/verify/source"
)

// streamStep is how many bytes of a stream lie between two that are changed in
// the short run: a prime, so that the sample does not keep step with anything.
const streamStep = 97

// sampleOf lists the offsets that are changed: every third outside streams, every
// streamStep-th within.
func sampleOf(pdf []byte) []int {
	var sample []int
	inStream := false
	for at := range pdf {
		switch {
		case bytes.HasPrefix(pdf[at:], []byte("\nstream\n")):
			inStream = true
		case bytes.HasPrefix(pdf[at:], []byte("\nendstream\nendobj\n")):
			inStream = false
		}
		if !inStream && at%3 == 0 || at%streamStep == 0 || long() {
			sample = append(sample, at)
		}
	}
	return sample
}

// A changed PDF is genuine only where every decoded byte is still the same, and
// then it is called re-deflated.
func TestNoChangeOfPDFPasses(t *testing.T) {
	sealed := shortest(t)
	pdf, reader, page := sealed.pdf(t), buyer(t), makePageOnce()
	wants(t, verify.Run(pdf, reader, page), verify.Genuine, "Unaltered, and signed by Ellery Slip Boatyard, the owner. Nobody has checked that the work was done.")

	sample := sampleOf(pdf)
	var passed, looked atomic.Int64
	look := func(what string, at int, data []byte) {
		looked.Add(1)
		got := verify.Run(data, reader, page)
		switch got.Verdict {
		case verify.NotOriginal, verify.Altered, verify.Unreadable:
			return
		case verify.Genuine:
			passed.Add(1)
		default:
			t.Errorf("%s at %d: %s", what, at, got.Verdict)
			return
		}
		if check, err := source.Compare(data, pdf); err != nil || check.Result != source.PageRedeflated || got.Page.Result != source.PageRedeflated {
			t.Errorf("%s at %d passes, though its content differs: %+v, %v", what, at, check, err)
		}
	}
	inParallel(len(sample), func(i int) {
		at := sample[i]
		for n, c := range changesOf(pdf[at]) {
			// One of the changes in turn, or every fourth in the long run.
			if n == i%8 || long() && n%4 == i%4 {
				data := bytes.Clone(pdf)
				data[at] = c
				look("change", at, data)
			}
		}
		if i%7 == 0 {
			look("truncation", at, pdf[:at])
			look("byte left out", at, slices.Delete(bytes.Clone(pdf), at, at+1))
			look("byte twice", at, slices.Insert(bytes.Clone(pdf), at, pdf[at]))
		}
		if i%29 == 0 {
			look("beginning twice", at, slices.Concat(pdf[:at+1], pdf))
			look("end twice", at, slices.Concat(pdf, pdf[at:]))
		}
	})
	t.Logf("%d changed copies of %d bytes at %d offsets; %d of them inflate to the very same content", looked.Load(), len(pdf), len(sample), passed.Load())
	if passed.Load() > looked.Load()/100 {
		t.Error("more than one in a hundred passes: the check looks away somewhere")
	}
}

// Nobody who lacks the yard's key can make a PDF that passes for the yard's:
// their own key is unknown, and the yard's name on the page does not help.
func TestStrangersReport(t *testing.T) {
	sealed := seal(t, example(t).record, strangerSeed)
	wants(t, verify.Run(sealed.pdf(t), buyer(t), makePage), verify.UnknownSigner, unknownSigner)
	pdf := editedPage(t, sealed)
	wants(t, verify.Run(pdf, buyer(t), makePage), verify.UnknownSigner,
		"We do not know who signed this, and this PDF is not the original of the record in it.")
	wants(t, verify.Run(pdf, verify.Reader{Trust: sign.TrustList{{Name: "Harbour Electrics", Key: keyOf(t, strangerSeed).Public(), Until: day(t, "2025-12-31")}}}, makePage), verify.KeyNotValid,
		"Signed with a key of Harbour Electrics that was not valid for its date (you trust it until 2025-12-31), and this PDF is not the original of the record in it.")
}

func day(t testing.TB, text string) *sign.Day { return new(must[sign.Day](t)(sign.ParseDay(text))) }
