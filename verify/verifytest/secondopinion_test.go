package verifytest_test

import (
	"crypto/ed25519"
	"testing"

	"github.com/veraison/go-cose"

	"hourseal/verify"
	"hourseal/verify/source"
	"hourseal/verify/verifytest"
)

// plainVerifier lets go-cose verify alg -19 (RFC 9864), which it does not know by itself.
type plainVerifier struct{ key ed25519.PublicKey }

func (plainVerifier) Algorithm() cose.Algorithm { return -19 }

func (v plainVerifier) Verify(content, signature []byte) error {
	if !ed25519.Verify(v.key, content, signature) {
		return cose.ErrVerification
	}
	return nil
}

// fits says whether go-cose finds that an envelope's signature fits, with the words for
// records or for lists.
func fits(t *testing.T, envelope []byte) bool {
	var m cose.Sign1Message
	if err := m.UnmarshalCBOR(envelope); err != nil {
		t.Errorf("go-cose does not read it: %v", err)
		return false
	}
	key, ok := m.Headers.Protected[cose.HeaderLabelKeyID].([]byte)
	if !ok || len(key) != ed25519.PublicKeySize {
		t.Errorf("kid %x", key)
		return false
	}
	for _, words := range []string{asRecord, asList} {
		if m.Verify([]byte(words), plainVerifier{key}) == nil {
			return true
		}
	}
	return false
}

// TestGoCOSE holds the cases with a record file to github.com/veraison/go-cose: the
// signature fits where the kit does not say altered, and does not where it does. Under a
// key that no honest signer has it fits; that is what has to be asked beyond it.
func TestGoCOSE(t *testing.T) {
	cases, err := verifytest.Load(folder)
	if err != nil {
		t.Fatal(err)
	}
	tried := map[bool]int{}
	for _, c := range cases {
		if c.Source != source.KindRecord {
			continue
		}
		want := c.Verdict != verify.Altered || c.Sentence == forgedWords
		if got := fits(t, c.Input); got != want {
			t.Errorf("%s: signature fits: %t", c.Name, got)
		}
		tried[want]++
	}
	if tried[true] < 50 || tried[false] < 15 {
		t.Errorf("tried: %v", tried)
	}
}
