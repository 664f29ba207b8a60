package verify_test

import (
	"bytes"
	"crypto/ed25519"
	"crypto/sha512"
	"encoding/hex"
	"math/big"
	"slices"
	"testing"

	"hourseal/sign"
	"hourseal/verify"
)

// envelopeOf puts an envelope together by hand, in the bytes of RFC 9052 that
// package sign describes, without asking whether it is any good.
func envelopeOf(key, payload, signature []byte) []byte {
	head := []byte{0x59, byte(len(payload) >> 8), byte(len(payload))}
	return slices.Concat([]byte{0xD2, 0x84, 0x58, 0x26, 0xA2, 0x01, 0x32, 0x04, 0x58, 0x20}, key, []byte{0xA0}, head, payload, []byte{0x58, 0x40}, signature)
}

// signedBytes is the Sig_structure of RFC 9052 section 4.4, by hand.
func signedBytes(key, payload []byte) []byte {
	const purpose = "hourseal record v1"
	return slices.Concat([]byte("\x84\x6aSignature1\x58\x26\xA2\x01\x32\x04\x58\x20"), key,
		[]byte{0x40 | byte(len(purpose))}, []byte(purpose), []byte{0x59, byte(len(payload) >> 8), byte(len(payload))}, payload)
}

// forgedUnderIdentity fits any message under the identity point: R is the
// identity, S is 0, and S B = R + k A holds whatever k.
var forgedUnderIdentity = append([]byte{1}, make([]byte, 63)...)

// trustAll is a reader who was talked into trusting a key, by name.
func trustAll(key []byte) verify.Reader {
	return verify.Reader{Trust: sign.TrustList{{Name: yardName, Key: sign.PublicKey(key)}}}
}

// smallOrder are the canonical encodings of the points of small order but the
// identity, and encodings with the sign bit set where x is 0. Source: libsodium,
// ed25519_ref10.c, ge25519_has_small_order (from memory, and checked below).
var smallOrder = []string{
	"0100000000000000000000000000000000000000000000000000000000000080",
	"ecffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff7f",
	"ecffffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff",
	"0000000000000000000000000000000000000000000000000000000000000000",
	"0000000000000000000000000000000000000000000000000000000000000080",
	"26e8958fc2b227b045c3f489f2ef98f0d5dfac05d3c63339b13802886d53fc05",
	"26e8958fc2b227b045c3f489f2ef98f0d5dfac05d3c63339b13802886d53fc85",
	"c7176a703d4dd84fba3c0b760d10670f2a2053fa2c39ccc64ec7fd7792ac037a",
	"c7176a703d4dd84fba3c0b760d10670f2a2053fa2c39ccc64ec7fd7792ac03fa",
}

// A whole record forged under a key that anybody can sign with is forged, even
// for a reader who trusts that key.
func TestWeakKeysAreForgeries(t *testing.T) {
	sealed := example(t)
	var keys [][]byte
	for _, text := range smallOrder {
		keys = append(keys, must[[]byte](t)(hex.DecodeString(text)))
	}
	identity := append([]byte{1}, make([]byte, 31)...)
	keys = append(keys, identity)
	for y := 0xED; y <= 0xFF; y++ { // p to 2^255-1, RFC 8032 section 5.1.3
		for _, top := range []byte{0x7F, 0xFF} {
			key := bytes.Repeat([]byte{0xFF}, 32)
			key[0], key[31] = byte(y), top
			keys = append(keys, key)
		}
	}
	if !ed25519.Verify(identity, signedBytes(identity, sealed.payload), forgedUnderIdentity) {
		t.Error("the forgery is none: the test shows nothing")
	}
	forged := 0
	for _, key := range keys {
		// Under a key of order n, one payload in n fits: the job's number is as
		// good a place to try as any.
		payload := bytes.Clone(sealed.payload)
		at := bytes.Index(payload, []byte("J-2217")) + 2
		for n := range 40 {
			payload[at] = '0' + byte(n%10)
			payload[at+1] = '0' + byte(n/10)
			if ed25519.Verify(key, signedBytes(key, payload), forgedUnderIdentity) {
				forged++
				break
			}
		}
		data := envelopeOf(key, payload, forgedUnderIdentity)
		wants(t, verify.Run(data, trustAll(key), noPage), verify.Altered, forgedSentence)
	}
	if forged < len(smallOrder) {
		t.Errorf("only %d of %d keys let a forgery through crypto/ed25519: is the table right?", forged, len(keys))
	}
}

// littleEndian is n as 32 bytes.
func littleEndian(n *big.Int) []byte {
	b := n.FillBytes(make([]byte, 32))
	slices.Reverse(b)
	return b
}

func fromLittleEndian(b []byte) *big.Int {
	b = bytes.Clone(b)
	slices.Reverse(b)
	return new(big.Int).SetBytes(b)
}

// groupOrder is L, RFC 8032 section 5.1.
var groupOrder, _ = new(big.Int).SetString("7237005577332262213973186563042994240857116359379907606001950938285454250989", 10)

// A signature has one form: nobody can make a second record id without the key.
func TestSignatureHasOneForm(t *testing.T) {
	sealed := example(t)
	key := publicBytes(t, yardSeed)
	signature := sealed.envelope[len(sealed.envelope)-64:]
	if !bytes.Equal(envelopeOf(key, sealed.payload, signature), sealed.envelope) {
		t.Fatal("the envelope made by hand is another")
	}
	s := fromLittleEndian(signature[32:])
	for range 14 { // S + L to S + 14 L stay below 2^256
		s.Add(s, groupOrder)
		data := envelopeOf(key, sealed.payload, slices.Concat(signature[:32], littleEndian(s)))
		wants(t, verify.Run(data, buyer(t), noPage), verify.Altered, alteredSentence)
	}
	// The key's owner can make R the identity, in canonical form and in three
	// others that name the same point; only the first is a signature.
	h := sha512.Sum512(bytes.Repeat([]byte{yardSeed}, 32))
	h[0] &= 248
	h[31] = h[31]&127 | 64
	secret := fromLittleEndian(h[:32])
	for _, c := range []struct {
		r       string
		verdict verify.Verdict
		says    string
	}{
		{"0100000000000000000000000000000000000000000000000000000000000000", verify.Genuine, genuineOnPaper},
		{"0100000000000000000000000000000000000000000000000000000000000080", verify.Altered, alteredSentence},
		{"eeffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff7f", verify.Altered, alteredSentence},
		{"eeffffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff", verify.Altered, alteredSentence},
	} {
		r := must[[]byte](t)(hex.DecodeString(c.r))
		hash := sha512.Sum512(slices.Concat(r, key, signedBytes(key, sealed.payload)))
		k := fromLittleEndian(hash[:])
		s := littleEndian(k.Mul(k, secret).Mod(k, groupOrder))
		data := envelopeOf(key, sealed.payload, slices.Concat(r, s))
		wants(t, verify.Run(data, buyer(t), noPage), c.verdict, c.says)
	}
}
