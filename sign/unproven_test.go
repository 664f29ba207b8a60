package sign

import (
	"bytes"
	"testing"
)

// TestUnproven: an envelope is taken apart as Open does it; with an altered
// signature it still is, and what is no envelope is refused.
func TestUnproven(t *testing.T) {
	for _, size := range []int{1, 23, 24, 255, 256, 1200, MaxPayloadBytes} {
		envelope, err := Seal(RecordV1, bytes.Repeat([]byte{0x59}, size), testKey(t, 1))
		if err != nil {
			t.Fatal(err)
		}
		opened, err := Open(RecordV1, envelope)
		if err != nil {
			t.Fatal(err)
		}
		envelope[len(envelope)-1] ^= 1
		got, err := Unproven(envelope)
		if err != nil || !bytes.Equal(got.Payload, opened.Payload) || got.Signer != opened.Signer {
			t.Errorf("payload of %d bytes: %x by %x, %v", size, got.Payload, got.Signer, err)
		}
		for n := range min(len(envelope), 400) {
			if _, err := Unproven(envelope[:n]); err == nil {
				t.Fatalf("the first %d of %d bytes pass for an envelope", n, len(envelope))
			}
		}
	}
}
