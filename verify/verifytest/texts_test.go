package verifytest_test

import (
	"bytes"
	"compress/flate"
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"math/big"
	"strings"
)

// The texts of QR codes in formats 1 and 2, made by hand, and what of
// formats 4 and 5 needs no dictionary. Source: package comment of sign/qrtext.

const (
	host        = "verify.ellery-slip.example"
	anotherHost = "verify.port-ellery-slip.example"
)

// prefixOf is what stands before the digits.
func prefixOf(host string) string {
	if host == "" {
		return "hourseal:"
	}
	return "HTTPS://" + strings.ToUpper(host) + "/#"
}

// digitsOf writes bytes in groups of seven as 17 digits, big-endian, and a last group
// of n in ceil(n*8*log10(2)).
func digitsOf(b []byte) string {
	width := []int{0, 3, 5, 8, 10, 13, 15, 17}
	var out strings.Builder
	for len(b) > 0 {
		n := min(7, len(b))
		fmt.Fprintf(&out, "%0*d", width[n], new(big.Int).SetBytes(b[:n]))
		b = b[n:]
	}
	return out.String()
}

// deflate is raw DEFLATE (RFC 1951) as this Go release makes it.
func deflate(b []byte) []byte {
	var out bytes.Buffer
	w, err := flate.NewWriter(&out, flate.BestCompression)
	if err == nil {
		_, err = w.Write(b)
	}
	if err == nil {
		err = w.Close()
	}
	if err != nil {
		panic(err) // the level is one of flate's, and a buffer takes all
	}
	return out.Bytes()
}

// store is raw DEFLATE in one block without compression, RFC 1951 section 3.2.4: the
// same bytes whoever makes them, as long as b is shorter than 64 KiB.
func store(b []byte) []byte {
	out := binary.LittleEndian.AppendUint16([]byte{0x01}, uint16(len(b)))
	out = binary.LittleEndian.AppendUint16(out, ^uint16(len(b)))
	return append(out, b...)
}

// format1 is a whole record in one text, stored and not deflated.
func format1(host string, envelope []byte) string {
	return prefixOf(host) + "1" + digitsOf(store(envelope))
}

// format2 cuts a record into parts of equal length, the last shorter.
func format2(host string, envelope []byte, count int) []string {
	return cut(host, '2', envelope, digitsOf(store(envelope)), count)
}

// format5 is the same of a text of format 4.
func format5(host string, envelope []byte, count int) []string {
	return cut(host, '5', envelope, digitsOf(store(envelope)), count)
}

func cut(host string, format rune, envelope []byte, digits string, count int) []string {
	size := (len(digits) + count - 1) / count
	var texts []string
	for number := 1; number <= count; number++ {
		n := min(size, len(digits))
		texts = append(texts, fmt.Sprintf("%s%c%02d%02d%08d%s", prefixOf(host), format, number, count, nameOf(envelope), digits[:n]))
		digits = digits[n:]
	}
	return texts
}

// nameOf names a record in its parts: the first four bytes of its id, mod 10^8.
func nameOf(envelope []byte) uint32 {
	sum := sha256.Sum256(envelope)
	return binary.BigEndian.Uint32(sum[:]) % 100_000_000
}

// reference is the text of a label's code, which names a record and does not hold it.
func reference(host string, envelope []byte) string {
	sum := sha256.Sum256(envelope)
	return fmt.Sprintf("%s3%020d", prefixOf(host), binary.BigEndian.Uint64(sum[:]))
}

func lines(texts ...string) []byte { return []byte(strings.Join(texts, "\n") + "\n") }
