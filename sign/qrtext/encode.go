package qrtext

import (
	"bytes"
	"compress/flate"
	"crypto/sha256"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
)

const (
	// MaxInflatedBytes is the longest envelope that is encoded or decoded.
	MaxInflatedBytes = 16 << 10
	// MaxDeflatedBytes is the most that an envelope may come to when deflated.
	MaxDeflatedBytes = 16 << 10
)

const (
	formatPlainWhole = '1' // 1 and 2 are read and no longer written
	formatPlainPart  = '2'
	formatReference  = '3'
	formatWhole      = '4'
	formatPart       = '5'
	partHeadDigits   = 1 + 2 + 2 + 8 // format, part, count, record
	maxParts         = 99
	recordModulus    = 100_000_000
	deflateLevel     = flate.BestCompression
	firstPieceDigit  = 1 // after the format digit of a whole record
)

// Encode gives the texts for an envelope: one where that fits a code of
// MaxVersion at level M, else one for each part, in order. pageHost is the host
// of the yard's page, empty where it has none. The same Go release gives the
// same texts; another release may deflate differently.
func Encode(envelope []byte, pageHost string) ([]string, error) {
	return EncodeAt(deflateLevel, envelope, pageHost)
}

// EncodeAt is Encode at another level of package flate, -2 to 9. Its texts
// decode to the same envelope.
func EncodeAt(level int, envelope []byte, pageHost string) ([]string, error) {
	if len(envelope) == 0 {
		return nil, errors.New("cannot make a QR text of nothing")
	}
	if len(envelope) > MaxInflatedBytes {
		return nil, fmt.Errorf("cannot make a QR text of %d bytes, the limit is %d", len(envelope), MaxInflatedBytes)
	}
	prefix, err := prefixFor(pageHost)
	if err != nil {
		return nil, err
	}
	deflated, err := deflate(level, envelope)
	if err != nil {
		return nil, err
	}
	if len(deflated) > MaxDeflatedBytes {
		return nil, fmt.Errorf("cannot make a QR text: deflated to %d bytes, the limit is %d", len(deflated), MaxDeflatedBytes)
	}
	whole := appendDigits([]byte{formatWhole}, deflated)
	limit := maxDigits(len(prefix), MaxVersion)
	if len(whole) <= limit {
		return []string{prefix + string(whole)}, nil
	}
	return cut(prefix, whole[firstPieceDigit:], limit-partHeadDigits, PartsName(envelope))
}

// deflate is with the dictionary of the formats that are written.
func deflate(level int, b []byte) ([]byte, error) {
	var buf bytes.Buffer
	w, err := flate.NewWriterDict(&buf, level, dictionaries[writtenDictionary])
	if err != nil {
		return nil, fmt.Errorf("cannot make a QR text: %w", err)
	}
	if _, err := w.Write(b); err != nil {
		return nil, fmt.Errorf("cannot make a QR text: %w", err)
	}
	if err := w.Close(); err != nil {
		return nil, fmt.Errorf("cannot make a QR text: %w", err)
	}
	return withoutEmptyEnd(buf.Bytes(), b), nil
}

// withoutEmptyEnd leaves out the empty block with which package flate ends a
// stream, four or five bytes. That can be done where all of b is in one block:
// the first bit of a stream says whether its first block is the last (RFC 1951
// section 3.2.3).
func withoutEmptyEnd(deflated, b []byte) []byte {
	shorter := bytes.Clone(deflated)
	shorter[0] |= 1
	source := bytes.NewReader(shorter)
	got, err := io.ReadAll(flate.NewReaderDict(source, dictionaries[writtenDictionary]))
	if err != nil || !bytes.Equal(got, b) {
		return deflated
	}
	return shorter[:len(shorter)-source.Len()]
}

// cut makes parts with pieces of at most limit digits, as few and as even as
// can be. digits are more than one piece.
func cut(prefix string, digits []byte, limit int, record uint32) ([]string, error) {
	count := (len(digits) + limit - 1) / limit
	if count < 2 {
		count = 2 // a whole record has a shorter head than a part
	}
	if count > maxParts {
		return nil, fmt.Errorf("cannot make a QR text: %d codes would be needed, the limit is %d", count, maxParts)
	}
	size := pieceDigits(len(digits), count)
	texts := make([]string, 0, count)
	for number := 1; number <= count; number++ {
		text := append([]byte(prefix), formatPart)
		text = appendPadded(text, uint64(number), 2)
		text = appendPadded(text, uint64(count), 2)
		text = appendPadded(text, uint64(record), 8)
		n := min(size, len(digits))
		texts = append(texts, string(append(text, digits[:n]...)))
		digits = digits[n:]
	}
	return texts, nil
}

// pieceDigits is how long the pieces are but the last.
func pieceDigits(total, count int) int { return (total + count - 1) / count }

// PartsName is what the parts of a record name it by, so that parts of two are not
// mixed; it is below 10^8.
func PartsName(envelope []byte) uint32 { return PartsNameOf(sha256.Sum256(envelope)) }

// PartsNameOf is PartsName of an envelope of which the SHA-256 is known.
func PartsNameOf(id [sha256.Size]byte) uint32 {
	return binary.BigEndian.Uint32(id[:4]) % recordModulus
}
