package sign

import (
	"bytes"
	"crypto/ed25519"
	"crypto/x509"
	"encoding/hex"
	"encoding/pem"
	"errors"
	"path/filepath"
	"strings"
	"testing"

	"hourseal/record/recordtest/outside"

	"github.com/veraison/go-cose"
)

// ed25519Verifier lets go-cose verify alg -19 (RFC 9864), which it does not
// know by itself.
type ed25519Verifier struct{ key ed25519.PublicKey }

func (ed25519Verifier) Algorithm() cose.Algorithm { return -19 }
func (v ed25519Verifier) Verify(content, signature []byte) error {
	if !ed25519.Verify(v.key, content, signature) {
		return cose.ErrVerification
	}
	return nil
}

// TestGoCOSEReadsIt: github.com/veraison/go-cose parses the envelope, builds
// the Sig_structure in its own way, and the signature fits.
func TestGoCOSEReadsIt(t *testing.T) {
	k := testKey(t, 7)
	payload := testPayload(900)
	var m cose.Sign1Message
	if err := m.UnmarshalCBOR(seal(t, payload)); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(m.Payload, payload) {
		t.Error("payload differs")
	}
	if kid, ok := m.Headers.Protected[cose.HeaderLabelKeyID].([]byte); !ok || !bytes.Equal(kid, k.pub[:]) {
		t.Errorf("kid %x", m.Headers.Protected[cose.HeaderLabelKeyID])
	}
	if alg, err := m.Headers.Protected.Algorithm(); err != nil || alg != -19 {
		t.Errorf("alg %d, %v", alg, err)
	}
	if len(m.Headers.Unprotected) != 0 {
		t.Errorf("unprotected %v", m.Headers.Unprotected)
	}
	verifier := ed25519Verifier{k.pub[:]}
	if err := m.Verify([]byte("hourseal record v1"), verifier); err != nil {
		t.Error(err)
	}
	if err := m.Verify([]byte("hourseal record v2"), verifier); !errors.Is(err, cose.ErrVerification) {
		t.Errorf("other external_aad: %v", err)
	}
}

// TestOpenSSLVerifies: openssl checks the signature over a Sig_structure put
// together here, by hand.
func TestOpenSSLVerifies(t *testing.T) {
	openssl := outside.Program(t, "openssl")
	k := testKey(t, 7)
	payload := testPayload(300)
	envelope := seal(t, payload)

	toBeSigned := unhex(t, "84"+"6a"+hex.EncodeToString([]byte("Signature1"))+
		"5826"+"a20132"+"045820"+hex.EncodeToString(k.pub[:])+
		"52"+hex.EncodeToString([]byte("hourseal record v1"))+
		"59012c"+hex.EncodeToString(payload))
	spki, err := x509.MarshalPKIXPublicKey(ed25519.PublicKey(k.pub[:]))
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	key, in, sig := filepath.Join(dir, "pub.pem"), filepath.Join(dir, "in"), filepath.Join(dir, "sig")
	writeFile(t, key, pem.EncodeToMemory(&pem.Block{Type: "PUBLIC KEY", Bytes: spki}))
	writeFile(t, in, toBeSigned)
	writeFile(t, sig, envelope[len(envelope)-64:])
	args := []string{"pkeyutl", "-verify", "-rawin", "-pubin", "-inkey", key, "-in", in, "-sigfile", sig}
	if out := run(t, openssl, args...); !strings.Contains(out, "Verified Successfully") {
		t.Errorf("openssl says %q", out)
	}
	toBeSigned[len(toBeSigned)-1] ^= 1
	writeFile(t, in, toBeSigned)
	if out, _, err := tryRun(openssl, args...); err == nil {
		t.Errorf("openssl says %q of another payload", out)
	}
}
