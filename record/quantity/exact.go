package quantity

import (
	"math"
	"math/bits"
	"strconv"
	"strings"
)

// pow10 are the powers of ten that the decimals of a figure can need.
var pow10 = [...]uint64{1, 10, 100, 1000}

// mulDiv returns a*b/d rounded half up (half away from zero, as callers
// handle signs apart). The product has 128 bits. It reports false when d is
// 0 or the result does not fit an int64.
func mulDiv(a, b, d uint64) (int64, bool) {
	hi, lo := bits.Mul64(a, b)
	if hi >= d {
		return 0, false
	}
	q, r := bits.Div64(hi, lo, d)
	if q >= math.MaxInt64 {
		return 0, false
	}
	if r >= d-r {
		q++
	}
	return int64(q), true
}

// magnitude returns |n|, right for the smallest int64 too.
func magnitude(n int64) uint64 {
	if n < 0 {
		return -uint64(n)
	}
	return uint64(n)
}

// fixed prints n/10^places with exactly that many decimals.
func fixed(n int64, places int) string {
	digits := strconv.FormatUint(magnitude(n), 10)
	if short := places + 1 - len(digits); short > 0 {
		digits = strings.Repeat("0", short) + digits
	}
	if places > 0 {
		point := len(digits) - places
		digits = digits[:point] + "." + digits[point:]
	}
	if n < 0 {
		return "-" + digits
	}
	return digits
}

// shortest prints n/10^places without trailing zeros after the point.
func shortest(n int64, places int) string {
	s := fixed(n, places)
	if places == 0 {
		return s
	}
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}
