package qrtext

import "fmt"

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
		var v uint64
		for i := range width {
			d := digits[i] - '0'
			if d > 9 {
				return nil, fmt.Errorf("%w: group %d holds something else than digits", ErrMalformed, group)
			}
			v = v*10 + uint64(d)
		}
		if v>>(8*n) != 0 {
			return nil, fmt.Errorf("%w: group %d of the digits is too large a number for %d bytes", ErrMalformed, group, n)
		}
		for i := n - 1; i >= 0; i-- {
			dst = append(dst, byte(v>>(8*i)))
		}
		digits = digits[width:]
	}
	return dst, nil
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
