package picture

// syndromes are the values of a block at the powers 0 to n-1 of the generator,
// all 0 where it is without error. The block's first byte is its highest term.
func syndromes(block []byte, n int) (s []byte, clean bool) {
	s = make([]byte, n)
	clean = true
	for i := range s {
		log := i
		var y byte
		for _, b := range block {
			if y != 0 {
				y = exponents[logarithms[y]+log]
			}
			y ^= b
		}
		s[i] = y
		clean = clean && y == 0
	}
	return s, clean
}

// correct puts a Reed-Solomon block with so many check codewords right, in place,
// and says whether it could. Erased are places that may be wrong; at most spare
// check codewords are used up, by two for an error and one for an erasure. A block
// that cannot be corrected is left as it was.
func correct(block []byte, check, spare int, erased []int) bool {
	s, clean := syndromes(block, check)
	if clean {
		return true
	}
	if len(erased) > spare {
		return false
	}
	n := len(block)
	locator := []byte{1}
	for _, at := range erased {
		locator = product(locator, []byte{1, power(n - 1 - at)})
	}
	locator = berlekampMassey(s, locator, len(erased))
	wrong := len(locator) - 1
	if 2*wrong-len(erased) > spare || wrong > check || wrong == 0 {
		return false
	}
	places := make([]int, 0, wrong)
	for at := range n {
		if evaluate(locator, power(255-(n-1-at)%255)) == 0 {
			places = append(places, at)
		}
	}
	if len(places) != wrong {
		return false
	}
	return forney(block, s, locator, places)
}

// berlekampMassey finds the locator of errors and erasures, from that of the
// erasures: R. E. Blahut, Algebraic Codes for Data Transmission, 2003, 7.4.
func berlekampMassey(s, erasures []byte, erased int) []byte {
	current, before := erasures, erasures
	length := erased
	for k := erased; k < len(s); k++ {
		var discrepancy byte
		for i := 0; i < len(current) && i <= k; i++ {
			discrepancy ^= multiply(current[i], s[k-i])
		}
		before = append([]byte{0}, before...)
		if discrepancy == 0 {
			continue
		}
		next := make([]byte, max(len(current), len(before)))
		copy(next, current)
		for i, b := range before {
			next[i] ^= multiply(discrepancy, b)
		}
		if 2*length <= k+erased {
			length = k + 1 + erased - length
			scaled := make([]byte, len(current))
			for i, c := range current {
				scaled[i] = divide(c, discrepancy)
			}
			before = scaled
		}
		current = next
	}
	for len(current) > 1 && current[len(current)-1] == 0 {
		current = current[:len(current)-1]
	}
	return current
}

// forney works out the values of the errors at their places and takes them off.
// It proves the result, since a locator can be wrong.
func forney(block, s, locator []byte, places []int) bool {
	n := len(block)
	evaluator := product(s, locator)[:len(s)]
	derivative := make([]byte, len(locator)) // of the locator: its odd terms
	for i := 1; i < len(locator); i += 2 {
		derivative[i-1] = locator[i]
	}
	was := append([]byte(nil), block...)
	for _, at := range places {
		x := power(n - 1 - at)
		inverse := divide(1, x)
		below := evaluate(derivative, inverse)
		if below == 0 {
			copy(block, was)
			return false
		}
		block[at] ^= multiply(x, divide(evaluate(evaluator, inverse), below))
	}
	if _, clean := syndromes(block, len(s)); !clean {
		copy(block, was)
		return false
	}
	return true
}
