package calendar

import (
	"crypto/sha256"
	"encoding/binary"
	"fmt"
)

// uidPurpose keeps these names apart from every other use of the same parts.
const uidPurpose = "hourseal due item v1"

// UID names the due item of a yard: a task of a machine, by the machine's id and
// serial number. The same four parts give the same name for ever, and nothing of
// them can be read out of it.
//
// It is a UUID of version 8 (RFC 9562, 5.8), as RFC 7986, 5.3, asks of a UID:
// the first 16 bytes of the SHA-256 over a purpose and the parts, each behind
// its length in eight bytes, big-endian, so that no two lists of parts run
// together into the same bytes. Six of its 128 bits are the version and the
// variant.
func UID(yard, machine, serial, task string) string {
	var framed []byte
	for _, part := range []string{uidPurpose, yard, machine, serial, task} {
		framed = binary.BigEndian.AppendUint64(framed, uint64(len(part)))
		framed = append(framed, part...)
	}
	sum := sha256.Sum256(framed)
	u := sum[:16]
	u[6] = u[6]&0x0f | 0x80 // version 8
	u[8] = u[8]&0x3f | 0x80 // variant 10
	return fmt.Sprintf("%x-%x-%x-%x-%x", u[0:4], u[4:6], u[6:8], u[8:10], u[10:16])
}
