package qrtext

import (
	"encoding/binary"
	"encoding/hex"
	"fmt"
	"strconv"
)

// ShortBytes is how much of a record's id a reference has: the first eight
// bytes, which is what people see of it.
const ShortBytes = 8

// referenceDigits is how many digits eight bytes take: 2^64-1 has twenty.
const referenceDigits = 20

// ReferenceError is the error for a text that names a record and does not hold
// it: the code of a label. Nothing can be verified by it.
type ReferenceError struct {
	Host  string           // of the page in the prefix, as in Decoded
	Short [ShortBytes]byte // the first bytes of the record's id
}

func (e *ReferenceError) Error() string {
	h := hex.EncodeToString(e.Short[:])
	return fmt.Sprintf("this is the code of a label, which only names record %s %s %s %s and does not hold it", h[0:4], h[4:8], h[8:12], h[12:16])
}

// Reference gives the text that names a record by the first bytes of its id. It
// is for a code too small to hold the record. pageHost is as for [Encode].
func Reference(pageHost string, short [ShortBytes]byte) (string, error) {
	prefix, err := prefixFor(pageHost)
	if err != nil {
		return "", err
	}
	text := append([]byte(prefix), formatReference)
	return string(appendPadded(text, binary.BigEndian.Uint64(short[:]), referenceDigits)), nil
}

// readReference reads the digits after the format digit. The error is a
// [ReferenceError] or matches [ErrMalformed]; it is never nil, because there is
// no record in the text.
func readReference(host, digits string) error {
	if len(digits) != referenceDigits {
		return fmt.Errorf("%w: it names a record in %d digits, not %d", ErrMalformed, len(digits), referenceDigits)
	}
	v, err := strconv.ParseUint(digits, 10, 64)
	if err != nil {
		return fmt.Errorf("%w: the digits that name a record are too large a number for %d bytes", ErrMalformed, ShortBytes)
	}
	named := &ReferenceError{Host: host}
	binary.BigEndian.PutUint64(named.Short[:], v)
	return named
}
