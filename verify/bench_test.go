package verify_test

import (
	"crypto/ed25519"
	"runtime"
	"sync"
	"testing"
	"time"

	"hourseal/record/recordtest"
	"hourseal/verify"
)

// What verifying costs beside the signature itself. On a busy machine only
// figures of one run can be held against each other, and of those best the ones
// that were taken in turns: BenchmarkVerifyTextOverBare and
// BenchmarkVerifyTextOnTwoCores. Targets: at most 1.7 times a bare signature,
// and over 1.7 times as many on two cores as on one.
//
//	go test ./verify -run '^$' -bench Verify

// texts are an oil change and the example, which fit one code each, and the
// example in the two codes that it took before they had a dictionary.
func texts(t testing.TB) map[string]issued {
	r := recordtest.Example()
	r.Tasks, r.Findings, r.OtherWork = r.Tasks[:3], r.Findings[:1], nil
	oilChange := seal(t, r, yardSeed)
	if len(oilChange.texts) != 1 {
		t.Fatalf("%d codes", len(oilChange.texts))
	}
	return map[string]issued{"one code": oilChange, "example": example(t), "two codes": printedBefore(t)}
}

// bare checks a record's signature with crypto/ed25519 alone.
func bare(t testing.TB, sealed issued) func() bool {
	key := publicBytes(t, yardSeed)
	signature := sealed.envelope[len(sealed.envelope)-64:]
	message := signedBytes(key, sealed.payload)
	return func() bool { return ed25519.Verify(key, message, signature) }
}

// whole verifies a record from the text of its codes.
func whole(t testing.TB, sealed issued) func() bool {
	text, reader := sealed.text(), buyer(t)
	return func() bool { return verify.Run(text, reader, noPage).Verdict == verify.Genuine }
}

func BenchmarkBareVerify(b *testing.B) {
	for name, sealed := range texts(b) {
		b.Run(name, func(b *testing.B) { repeat(b, bare(b, sealed)) })
	}
}

func BenchmarkVerifyText(b *testing.B) {
	for name, sealed := range texts(b) {
		b.Run(name, func(b *testing.B) { repeat(b, whole(b, sealed)) })
	}
}

func repeat(b *testing.B, good func() bool) {
	b.ReportAllocs()
	for b.Loop() {
		if !good() {
			b.Fatal("not genuine")
		}
	}
}

func BenchmarkVerifyTextParallel(b *testing.B) {
	good := whole(b, example(b))
	b.RunParallel(func(pb *testing.PB) {
		for pb.Next() {
			if !good() {
				b.Error("not genuine")
			}
		}
	})
}

// inTurns is how many verifications are timed together before it is the
// other's turn.
const inTurns = 100

// quickest is the least time of several turns that each of the two took: what
// other processes took away is in the other turns.
func quickest(b *testing.B, one, other func()) (a, c time.Duration) {
	a, c = time.Hour, time.Hour
	for b.Loop() {
		start := time.Now()
		one()
		middle := time.Now()
		other()
		a, c = min(a, middle.Sub(start)), min(c, time.Since(middle))
	}
	return a, c
}

func BenchmarkVerifyTextOverBare(b *testing.B) {
	times := func(good func() bool) func() {
		return func() {
			for range inTurns {
				if !good() {
					panic("not genuine")
				}
			}
		}
	}
	for name, sealed := range texts(b) {
		b.Run(name, func(b *testing.B) {
			signature, all := quickest(b, times(bare(b, sealed)), times(whole(b, sealed)))
			b.ReportMetric(float64(all)/float64(signature), "x-bare")
		})
	}
}

func BenchmarkVerifyTextOnTwoCores(b *testing.B) {
	if runtime.GOMAXPROCS(0) < 2 {
		b.Skip("one core")
	}
	good := whole(b, example(b))
	on := func(cores int) func() {
		return func() {
			var workers sync.WaitGroup
			for range cores {
				workers.Go(func() {
					for range 2 * inTurns / cores {
						good()
					}
				})
			}
			workers.Wait()
		}
	}
	one, two := quickest(b, on(1), on(2))
	b.ReportMetric(float64(one)/float64(two), "x-one-core")
}

// BenchmarkVerifyPDF verifies the example's report; most of it is making the
// page again.
func BenchmarkVerifyPDF(b *testing.B) {
	pdf, reader := example(b).pdf(b), buyer(b)
	repeat(b, func() bool { return verify.Run(pdf, reader, makePage).Verdict == verify.Genuine })
}
