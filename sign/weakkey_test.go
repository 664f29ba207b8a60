package sign

import (
	"crypto/ed25519"
	"crypto/sha512"
	"errors"
	"math/big"
	"testing"
)

// The field prime p = 2^255 - 19 and the group order L, RFC 8032 section 5.1.
var (
	fieldPrime, _ = new(big.Int).SetString("57896044618658097711785492504343953926634992332820282019728792003956564819949", 10)
	groupOrder, _ = new(big.Int).SetString("7237005577332262213973186563042994240857116359379907606001950938285454250989", 10)
)

// littleEndian is n as 32 bytes.
func littleEndian(n *big.Int) [32]byte {
	var b [32]byte
	n.FillBytes(b[:])
	for i := range 16 {
		b[i], b[31-i] = b[31-i], b[i]
	}
	return b
}

func fromLittleEndian(b []byte) *big.Int {
	reversed := make([]byte, len(b))
	for i, c := range b {
		reversed[len(b)-1-i] = c
	}
	return new(big.Int).SetBytes(reversed)
}

func TestSmallOrderTable(t *testing.T) {
	if len(smallOrder) != len(smallOrderHex) {
		t.Errorf("%d different entries of %d", len(smallOrder), len(smallOrderHex))
	}
	// Each is of small order: times its order it is the identity. Shown by what
	// it lets through: with A of small order, a signature R = [S]B (S = 0, R the
	// identity) verifies for the messages whose k is a multiple of the order, so
	// for at least one in eight.
	signature := append([]byte{1}, make([]byte, 63)...)
	for _, text := range smallOrderHex {
		key := publicOf(t, text)
		if err := key.Check(); !errors.Is(err, ErrWeakKey) {
			t.Errorf("%s: %v", text, err)
		}
		forged := 0
		for m := range 200 {
			if ed25519.Verify(key[:], []byte{byte(m)}, signature) {
				forged++
			}
		}
		if forged < 8 {
			t.Errorf("%s: fits %d messages of 200; is it of small order?", text, forged)
		}
	}
}

func TestCanonicalKeys(t *testing.T) {
	for i := int64(-3); i <= 18; i++ { // p-3 to 2^255-1
		for _, sign := range []byte{0, 0x80} {
			key := PublicKey(littleEndian(new(big.Int).Add(fieldPrime, big.NewInt(i))))
			key[31] |= sign
			weak := i >= 0 || smallOrder[key]
			if err := key.Check(); errors.Is(err, ErrWeakKey) != weak {
				t.Errorf("p%+d, sign %#x: %v", i, sign, err)
			}
		}
	}
	for b := range byte(20) {
		if err := testKey(t, b).Public().Check(); err != nil {
			t.Error(err)
		}
	}
}

// envelopeOf puts an envelope together without asking whether it is any good.
func envelopeOf(key PublicKey, payload, signature []byte) []byte {
	b := append([]byte(nil), envelopeStart...)
	b = append(b, key[:]...)
	b = append(b, 0xA0)
	b = appendBytesHead(b, len(payload))
	b = append(b, payload...)
	b = append(b, signatureHead...)
	return append(b, signature...)
}

func TestWeakKeysDoNotOpen(t *testing.T) {
	signature := append([]byte{1}, make([]byte, 63)...)
	for _, text := range smallOrderHex {
		key := publicOf(t, text)
		for m := range byte(16) {
			if _, err := Open(RecordV1, envelopeOf(key, []byte{m}, signature)); !errors.Is(err, ErrWeakKey) {
				t.Errorf("%s: %v", text, err)
			}
		}
	}
	// Under the identity the one signature fits everything; were it not for
	// Check, this would open.
	identity := PublicKey{1}
	b := envelopeOf(identity, []byte("abc"), signature)
	p, err := split(b)
	if err != nil {
		t.Fatal(err)
	}
	if !ed25519.Verify(identity[:], appendSigStructure(nil, p.protected, string(RecordV1), p.sealed), p.signature) {
		t.Error("the forgery is no forgery: the test shows nothing")
	}
}

// TestSignatureHasOneForm: S+L, and R written with y above p, are the two ways
// to change a signature without the key.
func TestSignatureHasOneForm(t *testing.T) {
	payload := []byte("abc")
	k := testKey(t, 7)
	good := seal(t, payload)
	signature := good[len(good)-ed25519.SignatureSize:]

	s := fromLittleEndian(signature[32:])
	for i := int64(1); ; i++ {
		more := new(big.Int).Add(s, new(big.Int).Mul(big.NewInt(i), groupOrder))
		if more.BitLen() > 256 {
			break
		}
		b := littleEndian(more)
		changed := append(append([]byte(nil), signature[:32]...), b[:]...)
		if _, err := Open(RecordV1, envelopeOf(k.Public(), payload, changed)); !errors.Is(err, ErrBadSignature) {
			t.Errorf("S + %dL: %v", i, err)
		}
	}

	// With the private key one can make R the identity (r = 0, S = k a mod L).
	// Written canonically that is a valid signature; with y = p + 1 or with the
	// sign bit it stands for the same point and must not be.
	h := sha512.Sum512(k.key.Seed())
	h[0] &= 248
	h[31] = h[31]&127 | 64
	secret := fromLittleEndian(h[:32])
	for text, want := range map[string]error{
		"0100000000000000000000000000000000000000000000000000000000000000": nil,
		"0100000000000000000000000000000000000000000000000000000000000080": ErrBadSignature,
		"eeffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff7f": ErrBadSignature,
		"eeffffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff": ErrBadSignature,
	} {
		r := unhex(t, text)
		p, err := split(envelopeOf(k.Public(), payload, make([]byte, 64)))
		if err != nil {
			t.Fatal(err)
		}
		hash := sha512.New()
		hash.Write(r)
		hash.Write(k.pub[:])
		hash.Write(appendSigStructure(nil, p.protected, string(RecordV1), p.sealed))
		challenge := fromLittleEndian(hash.Sum(nil))
		s := littleEndian(challenge.Mul(challenge, secret).Mod(challenge, groupOrder))
		_, err = Open(RecordV1, envelopeOf(k.Public(), payload, append(r, s[:]...)))
		if !errors.Is(err, want) {
			t.Errorf("R = %s: %v, want %v", text, err, want)
		}
	}
}
