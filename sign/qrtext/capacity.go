package qrtext

import (
	"fmt"
	"strings"
)

// MaxVersion is the largest QR code that is made. At 70 to 80 mm on paper, a
// version above 25 has modules too small for an ordinary telephone photograph.
const MaxVersion = 25

// dataCodewords is how many bytes of data a QR code at error correction level M
// holds, by version from 1 on: ISO/IEC 18004, table of data capacities.
var dataCodewords = [MaxVersion]int{
	16, 28, 44, 64, 86,
	108, 124, 154, 182, 216,
	254, 290, 334, 365, 415,
	453, 507, 563, 627, 669,
	714, 782, 860, 914, 1000,
}

// Widths in bits of what stands before the data of a segment, ISO/IEC 18004,
// "number of bits in character count indicator": the mode, then a count whose
// width grows with the version (1 to 9, 10 to 26).
const (
	modeBits         = 4
	byteBits         = 8
	lastSmallVersion = 9
)

func countBits(version int) (numeric, bytes int) {
	if version <= lastSmallVersion {
		return 10, 8
	}
	return 12, 16
}

// MaxDigits is how many digits one code of MaxVersion at level M holds after
// the prefix for pageHost, empty for none. The prefix is reckoned as a byte
// segment and the digits as a numeric one; an encoder that puts the letters of
// the prefix in an alphanumeric segment needs less.
func MaxDigits(pageHost string) (int, error) {
	prefix, err := prefixFor(pageHost)
	if err != nil {
		return 0, err
	}
	return maxDigits(len(prefix), MaxVersion), nil
}

func maxDigits(prefixBytes, version int) int {
	numericCount, byteCount := countBits(version)
	bits := dataCodewords[version-1] * byteBits
	bits -= modeBits + byteCount + prefixBytes*byteBits
	bits -= modeBits + numericCount
	if bits < 0 {
		return 0
	}
	digits := bits / 10 * 3
	switch left := bits % 10; { // two digits take seven bits, one takes four
	case left >= 7:
		digits += 2
	case left >= 4:
		digits++
	}
	return digits
}

// Version is the smallest QR version at level M that holds a text made by
// Encode, 1 to MaxVersion. An encoder may draw it larger by its own habits, yet
// not beyond MaxVersion. A code of version v is 17+4v modules wide.
func Version(text string) (int, error) {
	prefixBytes := strings.LastIndexAny(text, ":#") + 1
	digits := len(text) - prefixBytes
	for v := 1; v <= MaxVersion; v++ {
		if digits <= maxDigits(prefixBytes, v) {
			return v, nil
		}
	}
	return 0, fmt.Errorf("text of %d characters does not fit a QR code of version %d at level M", len(text), MaxVersion)
}
