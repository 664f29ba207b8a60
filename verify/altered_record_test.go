package verify_test

import (
	"bytes"
	"runtime"
	"slices"
	"sync"
	"testing"

	"hourseal/sign"
	"hourseal/verify"
)

// inParallel runs check for 0 to n-1, as many at a time as there are cores.
func inParallel(n int, check func(int)) {
	var workers sync.WaitGroup
	cores := runtime.GOMAXPROCS(0)
	for first := range cores {
		workers.Go(func() {
			for i := first; i < n; i += cores {
				check(i)
			}
		})
	}
	workers.Wait()
}

// changesOf are other values for a byte: each bit flipped, all bits off, all on.
func changesOf(b byte) []byte {
	var changes []byte
	for bit := range 8 {
		changes = append(changes, b^1<<bit)
	}
	for _, c := range []byte{0x00, 0xff} {
		if c != b && !slices.Contains(changes, c) {
			changes = append(changes, c)
		}
	}
	return changes
}

// refusedWhole says whether a changed record came out as bad as it must,
// with nothing of it shown.
func refusedWhole(t *testing.T, what string, at int, got verify.Result) {
	if got.Verdict != verify.Altered && got.Verdict != verify.Unreadable || got.Signed != nil {
		t.Errorf("%s at %d: %s, record given: %t", what, at, got.Verdict, got.Signed != nil)
	}
}

// Every byte of the envelope is covered: by the fixed form, by the key's own
// form, or by the signature.
func TestNoChangeOfRecordPasses(t *testing.T) {
	sealed := example(t)
	reader := buyer(t)
	run := func(data []byte) verify.Result { return verify.Run(data, reader, noPage) }
	wants(t, run(sealed.envelope), verify.Genuine, genuineOnPaper)

	n := len(sealed.envelope)
	altered := make([]int, n)
	inParallel(n, func(at int) {
		for _, c := range changesOf(sealed.envelope[at]) {
			data := bytes.Clone(sealed.envelope)
			data[at] = c
			got := run(data)
			refusedWhole(t, "change", at, got)
			if got.Verdict == verify.Altered {
				altered[at]++
			}
		}
		refusedWhole(t, "truncation", at, run(sealed.envelope[:at]))
		refusedWhole(t, "byte left out", at, run(slices.Delete(bytes.Clone(sealed.envelope), at, at+1)))
		refusedWhole(t, "byte twice", at, run(slices.Insert(bytes.Clone(sealed.envelope), at, sealed.envelope[at])))
		refusedWhole(t, "beginning twice", at, run(slices.Concat(sealed.envelope[:at+1], sealed.envelope)))
		refusedWhole(t, "end twice", at, run(slices.Concat(sealed.envelope, sealed.envelope[at:])))
	})
	// What is said must be right too: a changed payload or signature keeps the
	// form of an envelope, so it is altered, not merely unreadable.
	start := bytes.Index(sealed.envelope, sealed.payload)
	for at := range n {
		inSignature := at >= n-64
		inPayload := at >= start && at < start+len(sealed.payload)
		if want := len(changesOf(sealed.envelope[at])); (inPayload || inSignature) && altered[at] != want {
			t.Errorf("offset %d: %d of %d changes are called altered", at, altered[at], want)
		}
	}
}

// A record is known by its own bytes: another record under the same key has
// another id, and the parts of two do not make one.
func TestPartsOfTwoRecordsDoNotMix(t *testing.T) {
	one, two := example(t), otherExample(t)
	start := bytes.Index(one.envelope, one.payload)
	if other := bytes.Index(two.envelope, two.payload); other != start {
		t.Fatalf("payloads at %d and %d", start, other)
	}
	for name, data := range map[string][]byte{
		"payload of another":   slices.Concat(one.envelope[:start-3], two.envelope[start-3:len(two.envelope)-64], one.envelope[len(one.envelope)-64:]),
		"signature of another": slices.Concat(one.envelope[:len(one.envelope)-64], two.envelope[len(two.envelope)-64:]),
		"key of another":       bytes.Replace(one.envelope, publicBytes(t, yardSeed), publicBytes(t, strangerSeed), 1),
	} {
		t.Run(name, func(t *testing.T) {
			wants(t, verify.Run(data, buyer(t), noPage), verify.Altered, alteredSentence)
		})
	}
}

func publicBytes(t testing.TB, seed byte) []byte {
	key := keyOf(t, seed).Public()
	return key[:]
}

// Other kinds of signed things are no records. What is signed as a list, and is none
// that this program reads, may be one of a newer program.
func TestOtherPurposesAreNoRecords(t *testing.T) {
	payload := example(t).payload
	for purpose, verdict := range map[sign.Purpose]verify.Verdict{sign.KeyStatementV1: verify.Altered, sign.ListV1: verify.Unreadable} {
		data := must[[]byte](t)(sign.Seal(purpose, payload, keyOf(t, yardSeed)))
		if got := verify.Run(data, buyer(t), noPage); got.Verdict != verdict || got.Signed != nil || got.List != nil {
			t.Errorf("%s: %s, %v", purpose, got.Verdict, got.Err)
		}
	}
}
