package sign

import (
	"encoding/hex"
	"errors"
	"fmt"
)

// ErrWeakKey is matched by the error for a public key in another than its
// canonical encoding, or of small order. No honest key is either.
var ErrWeakKey = errors.New("weak public key")

// smallOrderHex lists the encodings of the eight points of small order of
// edwards25519, each with and without the x sign bit where both decode to such
// a point, the non-canonical encodings too. The same list is in libsodium,
// crypto_core/ed25519/ref10/ed25519_ref10.c (ge25519_has_small_order), and, by
// order and with all encodings, in filippo.io/mostly-harmless/ed25519vectors,
// whose vectors the test runs.
var smallOrderHex = [...]string{
	"0100000000000000000000000000000000000000000000000000000000000000", // order 1, the identity
	"0100000000000000000000000000000000000000000000000000000000000080", // the same, x = 0 with the sign bit
	"eeffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff7f", // the same, y = p + 1
	"eeffffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff", // the same, both
	"ecffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff7f", // order 2
	"ecffffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff", // the same, x = 0 with the sign bit
	"0000000000000000000000000000000000000000000000000000000000000000", // order 4
	"0000000000000000000000000000000000000000000000000000000000000080", // order 4
	"edffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff7f", // order 4, y = p
	"edffffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff", // order 4, y = p
	"26e8958fc2b227b045c3f489f2ef98f0d5dfac05d3c63339b13802886d53fc05", // order 8
	"26e8958fc2b227b045c3f489f2ef98f0d5dfac05d3c63339b13802886d53fc85", // order 8
	"c7176a703d4dd84fba3c0b760d10670f2a2053fa2c39ccc64ec7fd7792ac037a", // order 8
	"c7176a703d4dd84fba3c0b760d10670f2a2053fa2c39ccc64ec7fd7792ac03fa", // order 8
}

var smallOrder = func() map[PublicKey]bool {
	set := make(map[PublicKey]bool, len(smallOrderHex))
	for _, text := range smallOrderHex {
		var key PublicKey
		// A slip in the table leaves a wrong entry, which the test finds.
		hex.Decode(key[:], []byte(text))
		set[key] = true
	}
	return set
}()

// Check refuses a key that is of small order or not in canonical form; the
// error matches [ErrWeakKey]. It does not tell whether the bytes are a point of
// the curve: under a key that is none, no signature verifies.
func (k PublicKey) Check() error {
	if smallOrder[k] {
		return fmt.Errorf("%w: it is of small order, so anyone can sign with it", ErrWeakKey)
	}
	if !k.belowP() {
		return fmt.Errorf("%w: it is not in canonical form (y is not below p)", ErrWeakKey)
	}
	return nil
}

// belowP tells whether y, the little-endian number in the lower 255 bits, is
// below p = 2^255 - 19 (RFC 8032 section 5.1.3, step 1). From p on, the bytes
// are ED to FF, then 30 times FF, then 7F.
func (k PublicKey) belowP() bool {
	if k[0] < 0xED || k[31]&0x7F != 0x7F {
		return true
	}
	for _, b := range k[1:31] {
		if b != 0xFF {
			return true
		}
	}
	return false
}
