package sign

import (
	"bytes"
	"crypto/ed25519"
	"encoding/hex"
	"errors"
	"io"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// testPayload stands for a record of typical size.
func testPayload(n int) []byte {
	return bytes.Repeat([]byte("Corrin 4T-75, port, 1482.50 h; "), n/31+1)[:n]
}

func seal(t testing.TB, payload []byte) []byte {
	t.Helper()
	envelope, err := Seal(RecordV1, payload, testKey(t, 7))
	if err != nil {
		t.Fatal(err)
	}
	return envelope
}

func TestSealIsTheFormat(t *testing.T) {
	k := testKey(t, 7)
	key := hex.EncodeToString(k.pub[:])
	for n, head := range map[int]string{
		1: "41", 23: "57", 24: "5818", 255: "58ff", 256: "590100", MaxPayloadBytes: "592000",
	} {
		payload := testPayload(n)
		envelope, err := Seal(RecordV1, payload, k)
		if err != nil {
			t.Fatal(err)
		}
		// The Sig_structure of RFC 9052 section 4.4, by hand.
		toBeSigned := "84" + "6a5369676e617475726531" + "5826a20132045820" + key +
			"52" + hex.EncodeToString([]byte("hourseal record v1")) + head + hex.EncodeToString(payload)
		signature, err := k.Sign(unhex(t, toBeSigned))
		if err != nil {
			t.Fatal(err)
		}
		want := "d2845826a20132045820" + key + "a0" + head + hex.EncodeToString(payload) + "5840" + hex.EncodeToString(signature)
		if got := hex.EncodeToString(envelope); got != want {
			t.Errorf("payload of %d bytes:\n got %s\nwant %s", n, got, want)
		}
		opened, err := Open(RecordV1, envelope)
		if err != nil || !bytes.Equal(opened.Payload, payload) || opened.Signer != k.Public() {
			t.Errorf("payload of %d bytes: %v", n, err)
		}
	}
	if got := len(seal(t, testPayload(MaxPayloadBytes))); got != MaxEnvelopeBytes {
		t.Errorf("longest envelope has %d bytes, not %d", got, MaxEnvelopeBytes)
	}
}

func TestSealRoundTrip(t *testing.T) {
	k := testKey(t, 9)
	rapid.Check(t, func(t *rapid.T) {
		payload := rapid.SliceOfN(rapid.Byte(), 1, 600).Draw(t, "payload")
		purpose := rapid.SampledFrom([]Purpose{RecordV1, KeyStatementV1, ListV1}).Draw(t, "purpose")
		envelope, err := Seal(purpose, payload, k)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range []Purpose{RecordV1, KeyStatementV1, ListV1} {
			opened, err := Open(p, envelope)
			switch {
			case p != purpose && !errors.Is(err, ErrBadSignature):
				t.Fatalf("sealed as %q, opened as %q: %v", purpose, p, err)
			case p == purpose && (err != nil || !bytes.Equal(opened.Payload, payload)):
				t.Fatalf("%q: %v", purpose, err)
			}
		}
	})
}

func TestPayloadCannotGrowIntoTheSignature(t *testing.T) {
	envelope := seal(t, []byte("abc"))
	before := bytes.Clone(envelope)
	opened, err := Open(RecordV1, envelope)
	if err != nil {
		t.Fatal(err)
	}
	_ = append(opened.Payload, 1, 2, 3)
	if !bytes.Equal(envelope, before) {
		t.Error("appending to the payload wrote over the envelope")
	}
}

// oneOfOurs tells whether err is exactly one of the three kinds of refusal.
func oneOfOurs(err error) bool {
	n := 0
	for _, kind := range []error{ErrMalformed, ErrBadSignature, ErrWeakKey} {
		if errors.Is(err, kind) {
			n++
		}
	}
	return n == 1
}

func TestNothingAlteredOpens(t *testing.T) {
	envelope := seal(t, testPayload(900))
	refused := func(what string, at int, b []byte) {
		t.Helper()
		if opened, err := Open(RecordV1, b); !oneOfOurs(err) || opened.Payload != nil {
			t.Errorf("%s at %d: %v", what, at, err)
		}
	}
	for i := range len(envelope) {
		for bit := range 8 {
			b := bytes.Clone(envelope)
			b[i] ^= 1 << bit
			refused("bit flipped", i, b)
		}
		refused("cut short", i, envelope[:i])
		refused("cut at the front", i+1, envelope[i+1:])
		refused("byte left out", i, slices.Delete(bytes.Clone(envelope), i, i+1))
		refused("byte twice", i, slices.Insert(bytes.Clone(envelope), i, envelope[i]))
	}
	refused("byte after", len(envelope), append(bytes.Clone(envelope), 0))
	refused("twice", len(envelope), append(bytes.Clone(envelope), envelope...))
	refused("nothing", 0, nil)
	refused("zeros", 0, make([]byte, MaxEnvelopeBytes))
	refused("too long", 0, make([]byte, MaxEnvelopeBytes+1))
	refused("far too long", 0, make([]byte, 1<<20))
}

// TestOtherEncodings has envelopes that a lenient COSE reader takes, each with
// a good signature over its own protected header: only the encoding is wrong.
func TestOtherEncodings(t *testing.T) {
	k := testKey(t, 7)
	key := hex.EncodeToString(k.pub[:])
	const payload = "436162" + "63" // "abc"
	for _, c := range []struct{ name, before, protected, unprotected, payload, signatureHead, after string }{
		{name: "as it should be"},
		{name: "untagged", before: "84"},
		{name: "tag in two bytes", before: "d81284"},
		{name: "another tag", before: "d184"},
		{name: "self-described CBOR before it", before: "d9d9f7d284"},
		{name: "array length in two bytes", before: "d29804"},
		{name: "array of indefinite length", before: "d29f", after: "ff"},
		{name: "alg -8", protected: "a20127045820" + key},
		{name: "alg in two bytes", protected: "a2013812045820" + key},
		{name: "alg after kid", protected: "a2045820" + key + "0132"},
		{name: "no kid", protected: "a10132"},
		{name: "no alg", protected: "a1045820" + key},
		{name: "a third header", protected: "a30132030004" + "5820" + key},
		{name: "kid length in three bytes", protected: "a201320459" + "0020" + key},
		{name: "kid twice", protected: "a30132045820" + key + "045820" + key},
		{name: "kid of 31 bytes", protected: "a2013204581f" + key[2:]},
		{name: "kid of 33 bytes", protected: "a20132045821" + key + "00"},
		{name: "empty protected header", protected: "-"},
		{name: "unprotected header null", unprotected: "f6"},
		{name: "unprotected header undefined", unprotected: "f7"},
		{name: "unprotected header with a kid", unprotected: "a104423131"},
		{name: "unprotected header an array", unprotected: "80"},
		{name: "unprotected header of indefinite length", unprotected: "bfff"},
		{name: "unprotected header length in two bytes", unprotected: "b800"},
		{name: "payload length in two bytes", payload: "5803616263"},
		{name: "payload length in three bytes", payload: "590003616263"},
		{name: "payload length in five bytes", payload: "5a00000003616263"},
		{name: "payload length in nine bytes", payload: "5b0000000000000003616263"},
		{name: "payload a text", payload: "63616263"},
		{name: "payload in chunks", payload: "5f43616263ff"},
		{name: "payload null, detached", payload: "f6"},
		{name: "payload empty", payload: "40"},
		{name: "payload length far too large", payload: "5bffffffffffffffff616263"},
		{name: "signature length in three bytes", signatureHead: "590040"},
		{name: "signature a text", signatureHead: "7840"},
		{name: "a fifth element", after: "f6"},
		{name: "another item after it", after: "a0"},
	} {
		t.Run(c.name, func(t *testing.T) {
			or := func(got, otherwise string) string {
				if got == "" {
					return otherwise
				}
				return strings.TrimPrefix(got, "-")
			}
			protected := unhex(t, or(c.protected, "a20132045820"+key))
			body := unhex(t, or(c.payload, payload))
			signature, err := k.Sign(appendSigStructure(nil, protected, string(RecordV1), body))
			if err != nil {
				t.Fatal(err)
			}
			b := appendBytesHead(unhex(t, or(c.before, "d284")), len(protected))
			b = append(b, protected...)
			b = append(b, unhex(t, or(c.unprotected, "a0"))...)
			b = append(b, body...)
			b = append(b, unhex(t, or(c.signatureHead, "5840"))...)
			b = append(b, signature...)
			b = append(b, unhex(t, c.after)...)
			_, err = Open(RecordV1, b)
			if c.name == "as it should be" {
				if err != nil {
					t.Errorf("the table makes no good envelope: %v", err)
				}
			} else if !errors.Is(err, ErrMalformed) {
				t.Errorf("got %v", err)
			}
		})
	}
}

func TestOpenUnknownPurpose(t *testing.T) {
	for _, p := range []Purpose{"", "hourseal record v2"} {
		if _, err := Open(p, seal(t, []byte("abc"))); !errors.Is(err, ErrMalformed) {
			t.Errorf("%q: %v", p, err)
		}
		if _, err := Seal(p, []byte("abc"), testKey(t, 7)); err == nil {
			t.Errorf("%q: sealed", p)
		}
	}
}

// fakeSigner gives whatever it is told to.
type fakeSigner struct {
	public PublicKey
	sign   func(message []byte) ([]byte, error)
}

func (s fakeSigner) Public() PublicKey                   { return s.public }
func (s fakeSigner) Sign(message []byte) ([]byte, error) { return s.sign(message) }

func TestSealRefuses(t *testing.T) {
	k, other := testKey(t, 7), testKey(t, 8)
	payload := []byte("abc")
	for _, c := range []struct {
		name    string
		payload []byte
		signer  Signer
		want    string
	}{
		{"no signer", payload, nil, "no signer"},
		{"no key", payload, (*PrivateKey)(nil), "weak public key"},
		{"zero key", payload, &PrivateKey{}, "weak public key"},
		{"empty payload", nil, k, "empty payload"},
		{"long payload", testPayload(MaxPayloadBytes + 1), k, "payload of 8193 bytes, the limit is 8192"},
		{"signature of another key", payload, fakeSigner{k.Public(), other.Sign}, "does not verify"},
		{"signature of another message", payload, fakeSigner{k.Public(), func(m []byte) ([]byte, error) { return k.Sign(m[1:]) }}, "does not verify"},
		{"short signature", payload, fakeSigner{k.Public(), func(m []byte) ([]byte, error) { return make([]byte, 63), nil }}, "does not verify"},
		{"long signature", payload, fakeSigner{k.Public(), func(m []byte) ([]byte, error) {
			s, err := k.Sign(m)
			return append(s, 0), err
		}}, "does not verify"},
		{"no signature", payload, fakeSigner{k.Public(), func(m []byte) ([]byte, error) { return nil, nil }}, "does not verify"},
		{"signer fails", payload, fakeSigner{k.Public(), func(m []byte) ([]byte, error) { return nil, io.ErrClosedPipe }}, io.ErrClosedPipe.Error()},
		{"weak key", payload, fakeSigner{PublicKey{1}, func(m []byte) ([]byte, error) { return append([]byte{1}, make([]byte, 63)...), nil }}, "weak public key"},
	} {
		t.Run(c.name, func(t *testing.T) {
			envelope, err := Seal(RecordV1, c.payload, c.signer)
			if err == nil || envelope != nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want %q", err, c.want)
			}
		})
	}
}

func TestID(t *testing.T) {
	// SHA-256 of "abc": FIPS 180-4, example in the NIST publication of test values.
	id := IDOf([]byte("abc"))
	const whole = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
	if got := id.Hex(); got != whole {
		t.Errorf("Hex %s", got)
	}
	if got := id.String(); got != "ba78 16bf 8f01 cfea" {
		t.Errorf("String %s", got)
	}
	for text, want := range map[string]bool{
		whole: true, strings.ToUpper(whole): true, id.String(): true, "BA7816BF-8F01CFEA": true, whole[:40]: true,
		whole[:15]: false, "": false, whole + "0": false, "ba78 16bf 8f01 cfeb": false, "ba7816bf8f01cfeg": false, whole[16:]: false,
	} {
		if got := id.Matches(text); got != want {
			t.Errorf("Matches(%q) = %v", text, got)
		}
	}
	if got, err := ParseID(" BA7816BF 8f01cfea-414140de5dae2223b00361a396177a9cb410ff61f20015ad"); err != nil || got != id {
		t.Errorf("ParseID: %v, %v", got, err)
	}
	for text, want := range map[string]string{
		id.String(): "record id of 16 hex digits: all 64 are needed here",
		"gannet":    "not a record id: want 64 hex digits, or the first 16 in groups of four",
	} {
		if _, err := ParseID(text); err == nil || err.Error() != want {
			t.Errorf("ParseID(%q): %v", text, err)
		}
	}
	if !LooksLikeID(id.String()) || LooksLikeID("report.pdf") {
		t.Error("LooksLikeID")
	}
}

func FuzzOpen(f *testing.F) {
	envelope := seal(f, []byte("abc"))
	f.Add(envelope)
	f.Add(seal(f, testPayload(300)))
	f.Add(envelope[:len(envelope)-1])
	f.Add(append(bytes.Clone(envelope), 0))
	f.Add(unhex(f, "d28445a201270300a10442313154546869732069732074686520636f6e74656e742e5840"))
	f.Fuzz(func(t *testing.T, b []byte) {
		// What is taken apart must go together again to the same bytes, whether
		// or not the signature is good.
		if p, err := split(b); err == nil {
			again := slices.Concat(envelopeStart, p.key[:], []byte{0xA0}, appendBytesHead(nil, len(p.payload)), p.payload, signatureHead, p.signature)
			if !bytes.Equal(again, b) {
				t.Errorf("%x is read as %x", b, again)
			}
		}
		opened, err := Open(RecordV1, b)
		if err != nil {
			if !oneOfOurs(err) {
				t.Errorf("error of no kind: %v", err)
			}
			return
		}
		toBeSigned := appendSigStructure(nil, b[4:4+protectedBytes], string(RecordV1), b[envelopeHeadBytes:len(b)-envelopeTailBytes])
		if !ed25519.Verify(opened.Signer[:], toBeSigned, b[len(b)-ed25519.SignatureSize:]) {
			t.Error("opened without a good signature")
		}
	})
}
