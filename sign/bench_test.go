package sign

import (
	"crypto/ed25519"
	"testing"
)

// typicalPayload is as long as the payload of a typical record.
const typicalPayload = 865

func BenchmarkSeal(b *testing.B) {
	k, payload := testKey(b, 7), testPayload(typicalPayload)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Seal(RecordV1, payload, k); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkOpen(b *testing.B) {
	envelope := seal(b, testPayload(typicalPayload))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Open(RecordV1, envelope); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkBareVerify is crypto/ed25519 alone on the same bytes: what Open
// cannot go below.
func BenchmarkBareVerify(b *testing.B) {
	p, err := split(seal(b, testPayload(typicalPayload)))
	if err != nil {
		b.Fatal(err)
	}
	message := appendSigStructure(nil, p.protected, string(RecordV1), p.sealed)
	for b.Loop() {
		if !ed25519.Verify(p.key[:], message, p.signature) {
			b.Fatal("bad signature")
		}
	}
}
