package picture

// exponents and logarithms of GF(256) with the polynomial x^8+x^4+x^3+x^2+1 and
// the generator 2 (ISO/IEC 18004:2015, annex A). The exponents are there twice, so
// that the sum of two logarithms needs no reduction.
var (
	exponents  [510]byte
	logarithms [256]int
)

func init() {
	x := 1
	for i := range 255 {
		exponents[i], exponents[i+255] = byte(x), byte(x)
		logarithms[x] = i
		if x <<= 1; x > 255 {
			x ^= 0x11D
		}
	}
}

func multiply(a, b byte) byte {
	if a == 0 || b == 0 {
		return 0
	}
	return exponents[logarithms[a]+logarithms[b]]
}

// divide divides by b, which is not 0.
func divide(a, b byte) byte {
	if a == 0 {
		return 0
	}
	return exponents[logarithms[a]+255-logarithms[b]]
}

// power is the generator to the n, n from 0 on.
func power(n int) byte { return exponents[n%255] }

// evaluate is the value of a polynomial, its coefficient of x^0 first.
func evaluate(p []byte, x byte) byte {
	var y byte
	for i := len(p) - 1; i >= 0; i-- {
		y = multiply(y, x) ^ p[i]
	}
	return y
}

// product multiplies polynomials, the coefficient of x^0 first.
func product(a, b []byte) []byte {
	p := make([]byte, len(a)+len(b)-1)
	for i, x := range a {
		if x == 0 {
			continue
		}
		for j, y := range b {
			p[i+j] ^= multiply(x, y)
		}
	}
	return p
}
