package sign

import (
	"bytes"
	"crypto/ed25519"
	"encoding/hex"
	"testing"
)

// testKey is a key for tests, made from a seed of 32 times b.
func testKey(t testing.TB, b byte) *PrivateKey {
	t.Helper()
	k, err := NewKey(bytes.NewReader(bytes.Repeat([]byte{b}, ed25519.SeedSize)))
	if err != nil {
		t.Fatal(err)
	}
	return k
}

func unhex(t testing.TB, s string) []byte {
	t.Helper()
	b, err := hex.DecodeString(s)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func publicOf(t testing.TB, s string) PublicKey {
	t.Helper()
	var k PublicKey
	if copy(k[:], unhex(t, s)) != len(k) {
		t.Fatalf("key %q is too short", s)
	}
	return k
}
