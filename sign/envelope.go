package sign

import (
	"bytes"
	"crypto/ed25519"
	"errors"
	"fmt"
	"slices"
	"sync"
)

// Purpose says what kind of thing an envelope seals. It is signed with the
// payload (external_aad), so that one kind can never pass for another.
type Purpose string

// The purposes there are. Each has its own words for ever; a format that
// changes gets a new one.
const (
	RecordV1       Purpose = "hourseal record v1"
	KeyStatementV1 Purpose = "hourseal key statement v1"
	ListV1         Purpose = "hourseal record list v1"
)

func (p Purpose) known() bool {
	return p == RecordV1 || p == KeyStatementV1 || p == ListV1
}

const (
	// MaxPayloadBytes is the longest payload that is sealed or opened.
	MaxPayloadBytes = 8 << 10
	// MaxEnvelopeBytes is the length of the longest envelope.
	MaxEnvelopeBytes = envelopeHeadBytes + maxHeadBytes + MaxPayloadBytes + envelopeTailBytes
)

const (
	protectedBytes    = 38                     // A2 01 32 04 58 20 and the key
	keyOffset         = 4 + 6                  // of the key in the envelope
	envelopeHeadBytes = 4 + protectedBytes + 1 // to the end of the unprotected header
	envelopeTailBytes = 2 + ed25519.SignatureSize
	minHeadBytes      = 1 // of the payload's length
	maxHeadBytes      = 3
)

var (
	envelopeStart   = []byte{0xD2, 0x84, 0x58, protectedBytes, 0xA2, 0x01, 0x32, 0x04, 0x58, 0x20}
	signatureHead   = []byte{0x58, ed25519.SignatureSize}
	sigStructureTop = []byte("\x84\x6aSignature1")
)

var (
	// ErrMalformed is matched by the error for bytes that are no envelope; the
	// error says what is wrong and where.
	ErrMalformed = errors.New("malformed envelope")
	// ErrBadSignature is the error for an envelope whose signature does not
	// fit: it was altered, or the key that it names did not sign it.
	ErrBadSignature = errors.New("signature does not fit: altered, or not signed by the key it names")
)

// Opened is what a good signature covers.
type Opened struct {
	// Payload is a part of the envelope that was opened, not a copy of it.
	Payload []byte
	// Signer is the key that signed. Whose it is, is for the reader's
	// [TrustList] to say.
	Signer PublicKey
}

// Seal signs payload, 1 to MaxPayloadBytes long, and gives the envelope. Before
// giving it out, Seal opens it again: a faulty agent must not make a bad record.
func Seal(purpose Purpose, payload []byte, s Signer) ([]byte, error) {
	if s == nil {
		return nil, errors.New("cannot seal: no signer")
	}
	if !purpose.known() {
		return nil, fmt.Errorf("cannot seal: unknown purpose %q", string(purpose))
	}
	if len(payload) == 0 {
		return nil, errors.New("cannot seal: empty payload")
	}
	if len(payload) > MaxPayloadBytes {
		return nil, fmt.Errorf("cannot seal: payload of %d bytes, the limit is %d", len(payload), MaxPayloadBytes)
	}
	key := s.Public()
	if err := key.Check(); err != nil {
		return nil, fmt.Errorf("cannot seal: %w", err)
	}
	envelope := make([]byte, 0, envelopeHeadBytes+maxHeadBytes+len(payload)+envelopeTailBytes)
	envelope = append(envelope, envelopeStart...)
	envelope = append(envelope, key[:]...)
	envelope = append(envelope, 0xA0)
	envelope = appendBytesHead(envelope, len(payload))
	envelope = append(envelope, payload...)
	protected := envelope[4 : 4+protectedBytes]

	signature, err := s.Sign(appendSigStructure(nil, protected, string(purpose), envelope[envelopeHeadBytes:]))
	if err != nil {
		return nil, fmt.Errorf("cannot seal: %w", err)
	}
	envelope = append(envelope, signatureHead...)
	envelope = append(envelope, signature...)
	if _, err := Open(purpose, envelope); err != nil {
		return nil, errors.New("cannot seal: the signer gave a signature that does not verify under its own key")
	}
	return envelope, nil
}

// Open checks the envelope, every byte of it, and its signature for purpose.
// The error matches [ErrMalformed], [ErrWeakKey] or [ErrBadSignature]. The
// payload is not looked into.
func Open(purpose Purpose, envelope []byte) (Opened, error) {
	if !purpose.known() {
		return Opened{}, fmt.Errorf("%w: unknown purpose %q", ErrMalformed, string(purpose))
	}
	p, err := split(envelope)
	if err != nil {
		return Opened{}, err
	}
	message := messages.Get().(*[]byte)
	defer messages.Put(message)
	*message = appendSigStructure((*message)[:0], p.protected, string(purpose), p.sealed)
	if err := verify(p.key, *message, p.signature); err != nil {
		return Opened{}, err
	}
	return Opened{Payload: p.payload, Signer: p.key}, nil
}

// messages holds what signatures are worked out over: of a stack of records each has
// the room of the one before, since fresh memory costs more than filling it.
var messages = sync.Pool{New: func() any { return new([]byte) }}

// Unproven is what an envelope says that it holds, and the key that it names. Its
// form is checked, its signature is not: this is only for an envelope that
// something else proves, such as one whose id a signed record cites.
func Unproven(envelope []byte) (Opened, error) {
	p, err := split(envelope)
	return Opened{Payload: p.payload, Signer: p.key}, err
}

// verify is the one place where a signature is judged: the key first, then
// crypto/ed25519, without cofactor, over message as it was received. signature
// is 64 bytes long.
func verify(key PublicKey, message, signature []byte) error {
	if err := key.Check(); err != nil {
		return err
	}
	if !ed25519.Verify(key[:], message, signature) {
		return ErrBadSignature
	}
	return nil
}

// parts are the pieces of an envelope, all of them slices of it but the key.
type parts struct {
	protected []byte // 38 bytes, the content of the byte string
	key       PublicKey
	sealed    []byte // the payload with its length head
	payload   []byte
	signature []byte // 64 bytes
}

// split takes an envelope apart and checks its fixed bytes and its lengths.
func split(envelope []byte) (parts, error) {
	malformed := func(format string, args ...any) (parts, error) {
		return parts{}, fmt.Errorf("%w: %s", ErrMalformed, fmt.Sprintf(format, args...))
	}
	if len(envelope) < envelopeHeadBytes+minHeadBytes+1+envelopeTailBytes {
		return malformed("%d bytes is too short", len(envelope))
	}
	if len(envelope) > MaxEnvelopeBytes {
		return malformed("%d bytes is too long", len(envelope))
	}
	for i, want := range envelopeStart {
		if envelope[i] != want {
			return malformed("byte %d is %#02x, not %#02x", i, envelope[i], want)
		}
	}
	if b := envelope[envelopeHeadBytes-1]; b != 0xA0 {
		return malformed("unprotected header at byte %d is not empty", envelopeHeadBytes-1)
	}
	n, head, ok := bytesHead(envelope[envelopeHeadBytes:])
	if !ok {
		return malformed("payload at byte %d is not a byte string with the shortest length", envelopeHeadBytes)
	}
	if n == 0 {
		return malformed("empty payload")
	}
	if n > MaxPayloadBytes {
		return malformed("payload of %d bytes, the limit is %d", n, MaxPayloadBytes)
	}
	start := envelopeHeadBytes + head
	if have := len(envelope) - start - envelopeTailBytes; n != have {
		return malformed("payload says %d bytes, there are %d", n, have)
	}
	end := start + n
	if !bytes.Equal(envelope[end:end+2], signatureHead) {
		return malformed("signature at byte %d is not a byte string of 64 bytes", end)
	}
	p := parts{
		protected: envelope[4 : 4+protectedBytes],
		sealed:    envelope[envelopeHeadBytes:end],
		payload:   envelope[start:end:end],
		signature: envelope[end+2:],
	}
	copy(p.key[:], envelope[keyOffset:])
	return p, nil
}

// appendSigStructure appends the bytes that are signed: the Sig_structure of RFC 9052
// section 4.4 for COSE_Sign1. payload comes with its length head.
func appendSigStructure(b, protected []byte, externalAAD string, payload []byte) []byte {
	b = slices.Grow(b, len(sigStructureTop)+2*maxHeadBytes+len(protected)+len(externalAAD)+len(payload))
	b = append(b, sigStructureTop...)
	b = appendBytesHead(b, len(protected))
	b = append(b, protected...)
	b = appendBytesHead(b, len(externalAAD))
	b = append(b, externalAAD...)
	return append(b, payload...)
}

// appendBytesHead appends the shortest head of a CBOR byte string of n bytes,
// n below 65,536 (RFC 8949 section 3).
func appendBytesHead(b []byte, n int) []byte {
	switch {
	case n < 24:
		return append(b, 0x40|byte(n))
	case n < 1<<8:
		return append(b, 0x58, byte(n))
	default:
		return append(b, 0x59, byte(n>>8), byte(n))
	}
}

// bytesHead reads the head of a CBOR byte string of at most 65,535 bytes: its
// length n and the size of the head. Only the shortest form is ok.
func bytesHead(b []byte) (n, head int, ok bool) {
	switch {
	case len(b) >= 1 && b[0] >= 0x40 && b[0] < 0x58:
		return int(b[0] & 0x1F), 1, true
	case len(b) >= 2 && b[0] == 0x58 && b[1] >= 24:
		return int(b[1]), 2, true
	case len(b) >= 3 && b[0] == 0x59 && b[1] != 0:
		return int(b[1])<<8 | int(b[2]), 3, true
	}
	return 0, 0, false
}
