package qrtext

import (
	"crypto/sha512"
	"testing"
)

// recordLike is n bytes that deflate about as well as a typical record does: a
// third of it words that come again, the rest without pattern (key, signature,
// hashes, numbers).
func recordLike(n int) []byte {
	words := []string{"oil filter replaced", "raw-water impeller", "Ellery Slip Boatyard", "Corrin 4T-75", "inspected, nothing to do", "done", "gearbox RG-20"}
	var b []byte
	for i := 0; len(b) < n; i++ {
		sum := sha512.Sum512([]byte{byte(i), byte(i >> 8)})
		b = append(b, sum[:52]...)
		b = append(b, words[int(sum[63])%len(words)]...)
	}
	return b[:n]
}

// BenchmarkDecodeText decodes the text of a typical record: 982 bytes of
// envelope, some 880 deflated.
func BenchmarkDecodeText(b *testing.B) {
	envelope := recordLike(982)
	texts, err := Encode(envelope, "verify.ellery-slip.example")
	if err != nil || len(texts) != 1 {
		b.Fatal(len(texts), err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Decode(texts); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkEncodeText(b *testing.B) {
	envelope := recordLike(982)
	for b.Loop() {
		if _, err := Encode(envelope, "verify.ellery-slip.example"); err != nil {
			b.Fatal(err)
		}
	}
}
