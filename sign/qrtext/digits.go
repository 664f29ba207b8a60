package qrtext

import (
	"encoding/binary"
	"fmt"
)

// groupDigits is how many digits a group of that many bytes has:
// ceil(n*8*log10(2)).
var groupDigits = [...]int{0, 3, 5, 8, 10, 13, 15, 17}

const (
	groupBytes   = 7
	digitsAGroup = 17 // of groupBytes
)

// digitsFor is how many digits n bytes have.
func digitsFor(n int) int {
	return n/groupBytes*digitsAGroup + groupDigits[n%groupBytes]
}

// appendDigits appends b in digits.
func appendDigits(dst, b []byte) []byte {
	for len(b) > 0 {
		n := min(groupBytes, len(b))
		var v uint64
		for _, c := range b[:n] {
			v = v<<8 | uint64(c)
		}
		b = b[n:]
		dst = appendPadded(dst, v, groupDigits[n])
	}
	return dst
}

// appendPadded appends v in exactly width digits.
func appendPadded(dst []byte, v uint64, width int) []byte {
	start := len(dst)
	for range width {
		dst = append(dst, '0')
	}
	for i := len(dst) - 1; i >= start; i-- {
		dst[i] = byte('0' + v%10)
		v /= 10
	}
	return dst
}

// appendBytes appends the bytes that digits stand for. No two digit strings
// stand for the same bytes: each group must fit its bytes, and no digit may be
// over.
func appendBytes(dst []byte, digits string) ([]byte, error) {
	for group := 1; len(digits) > 0; group++ {
		n := groupBytes
		if len(digits) < digitsAGroup {
			if n = bytesIn(len(digits)); n == 0 {
				return nil, fmt.Errorf("%w: %d digits at the end stand for no number of bytes", ErrMalformed, len(digits))
			}
		}
		width := groupDigits[n]
		v, ok := value(digits[:width])
		if !ok {
			return nil, fmt.Errorf("%w: group %d holds something else than digits", ErrMalformed, group)
		}
		if v>>(8*n) != 0 {
			return nil, fmt.Errorf("%w: group %d of the digits is too large a number for %d bytes", ErrMalformed, group, n)
		}
		var b [8]byte
		binary.BigEndian.PutUint64(b[:], v)
		dst = append(dst, b[8-n:]...)
		digits = digits[width:]
	}
	return dst, nil
}

// value is the number that at most digitsAGroup digits stand for; false where
// one of them is no digit.
func value(digits string) (uint64, bool) {
	var v uint64
	for ; len(digits) >= 8; digits = digits[8:] {
		eight, ok := eightDigits(digits[:8])
		if !ok {
			return 0, false
		}
		v = v*100_000_000 + eight
	}
	for i := range len(digits) {
		d := digits[i] - '0'
		if d > 9 {
			return 0, false
		}
		v = v*10 + uint64(d)
	}
	return v, true
}

// eightDigits is value for exactly eight digits, all at once in the bytes of a
// word: neighbours are added up to numbers of two digits, of four, of eight.
// This is the inner loop of reading a code.
func eightDigits(digits string) (uint64, bool) {
	w := binary.LittleEndian.Uint64([]byte(digits))
	// A digit has 3 in its upper half, and still has when 6 is added to it.
	if w&0xf0f0f0f0f0f0f0f0 != 0x3030303030303030 || (w+0x0606060606060606)&0xf0f0f0f0f0f0f0f0 != 0x3030303030303030 {
		return 0, false
	}
	w -= 0x3030303030303030
	w = w*10 + w>>8
	w = (w&0x000000ff000000ff)*(100+1_000_000<<32) + (w>>16&0x000000ff000000ff)*(1+10_000<<32)
	return w >> 32, true
}

// bytesIn is how many bytes a last group of so many digits has; 0: none has.
func bytesIn(digits int) int {
	for n, d := range groupDigits {
		if d == digits {
			return n
		}
	}
	return 0
}
