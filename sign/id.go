package sign

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"strings"
)

// ID names a sealed record: the SHA-256 of its envelope, all bytes of it.
type ID [sha256.Size]byte

// shortIDDigits is how many hex digits people see; 64 bits are enough to tell
// records apart by eye, and programs compare all of them.
const shortIDDigits = 16

// IDOf is the id of an envelope.
func IDOf(envelope []byte) ID { return sha256.Sum256(envelope) }

// String is the form people see: the first 16 hex digits in groups of four,
// "3f2a 91c0 77de 0b14".
func (id ID) String() string {
	h := id.Hex()
	return h[0:4] + " " + h[4:8] + " " + h[8:12] + " " + h[12:16]
}

// Hex is the whole id, 64 lower-case hex digits.
func (id ID) Hex() string { return hex.EncodeToString(id[:]) }

// ParseID reads a whole id: 64 hex digits in either case, spaces and hyphens
// between them allowed. The short form does not say which record is meant among
// all there could be: compare it with [ID.Matches].
func ParseID(text string) (ID, error) {
	digits, ok := idDigits(text)
	switch {
	case !ok:
		return ID{}, errors.New("not a record id: want 64 hex digits, or the first 16 in groups of four")
	case len(digits) != 2*len(ID{}):
		return ID{}, fmt.Errorf("record id of %d hex digits: all 64 are needed here", len(digits))
	}
	var id ID
	if _, err := hex.Decode(id[:], []byte(digits)); err != nil {
		return ID{}, fmt.Errorf("not a record id: %w", err)
	}
	return id, nil
}

// Matches tells whether text is this id, written whole or cut to its first 16
// digits or more; case, spaces and hyphens do not matter.
func (id ID) Matches(text string) bool {
	digits, ok := idDigits(text)
	return ok && strings.HasPrefix(id.Hex(), digits)
}

// LooksLikeID tells whether text has the form of an id that [ID.Matches] could
// match: 16 to 64 hex digits, with spaces or hyphens between them.
func LooksLikeID(text string) bool {
	_, ok := idDigits(text)
	return ok
}

// idDigits gives the hex digits of text in lower case.
func idDigits(text string) (string, bool) {
	if len(text) > 200 {
		return "", false
	}
	digits := strings.ToLower(strings.NewReplacer(" ", "", "-", "").Replace(text))
	if len(digits) < shortIDDigits || len(digits) > 2*len(ID{}) || strings.Trim(digits, "0123456789abcdef") != "" {
		return "", false
	}
	return digits, true
}
