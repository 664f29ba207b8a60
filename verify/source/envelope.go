package source

import (
	"bytes"
	"errors"
	"fmt"

	"hourseal/sign"
)

// envelopePrefix starts every envelope: tag 18, array of four, protected header
// of 38 bytes with alg -19 and a 32-byte kid (formats, "Envelope").
var envelopePrefix = []byte{0xD2, 0x84, 0x58, 0x26, 0xA2, 0x01, 0x32, 0x04, 0x58, 0x20}

const (
	publicKeyBytes = 32
	signatureBytes = 64
)

// soundEnvelope returns nil for bytes with the structure of an envelope, else
// why they have not. It leaves key and signature alone: an envelope whose
// signature fails has to be reported as altered, not as unreadable, and checking
// it here as well would double the time that a record takes.
func soundEnvelope(envelope []byte) error {
	if e := envelopeAt(envelope); e != nil && len(e) == len(envelope) {
		return nil
	}
	if _, err := sign.Open(sign.RecordV1, envelope); err != nil {
		return err
	}
	return fmt.Errorf("%w: not in one piece", sign.ErrMalformed)
}

// envelopeAt cuts the envelope that starts at b[0] out of b, or returns nil. It
// follows the fixed bytes and the length of the payload only.
func envelopeAt(b []byte) []byte {
	if !bytes.HasPrefix(b, envelopePrefix) {
		return nil
	}
	at := len(envelopePrefix) + publicKeyBytes
	if len(b) < at+4 || b[at] != 0xA0 {
		return nil
	}
	at++
	// RFC 8949 section 3: the length of a byte string, in its shortest form.
	var payload, head int
	switch b0 := b[at]; {
	case b0 > 0x40 && b0 <= 0x57:
		payload, head = int(b0-0x40), 1
	case b0 == 0x58 && b[at+1] >= 24:
		payload, head = int(b[at+1]), 2
	case b0 == 0x59 && b[at+1] != 0:
		payload, head = int(b[at+1])<<8|int(b[at+2]), 3
	default:
		return nil
	}
	at += head + payload
	if payload > sign.MaxPayloadBytes || len(b) < at+2+signatureBytes || b[at] != 0x58 || b[at+1] != signatureBytes {
		return nil
	}
	return b[:at+2+signatureBytes]
}

// isRecord reports whether a sound envelope counts as a record. Key statements
// and lists travel in the same form; one of those whose own signature holds is
// certainly no record, anything else may be an altered one.
func isRecord(envelope []byte) bool {
	_, err := sign.Open(sign.RecordV1, envelope)
	if err == nil {
		return true
	}
	if isMalformed(err) {
		return false
	}
	for _, other := range []sign.Purpose{sign.KeyStatementV1, sign.ListV1} {
		if _, err := sign.Open(other, envelope); err == nil {
			return false
		}
	}
	return true
}

func isMalformed(err error) bool { return errors.Is(err, sign.ErrMalformed) }
