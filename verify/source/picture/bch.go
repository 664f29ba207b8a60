package picture

// leastWithInfo is the first version that carries version information.
const leastWithInfo = 7

// formatWords are the 32 words of format information, masked as they are printed,
// and versionWords the 34 of version information, from version 7 on: five bits
// with ten of BCH(15,5), six with twelve of Golay's code (ISO/IEC 18004:2015,
// annexes C and D).
var (
	formatWords  = makeFormatWords()
	versionWords = makeVersionWords()
)

func makeFormatWords() (words [32]uint32) {
	for i := range words {
		words[i] = withRemainder(uint32(i), 10, 0b10100110111) ^ 0b101010000010010
	}
	return words
}

func makeVersionWords() (words [41]uint32) {
	for v := leastWithInfo; v <= 40; v++ {
		words[v] = withRemainder(uint32(v), 12, 0b1111100100101)
	}
	return words
}

// withRemainder is a value followed by the remainder, of so many bits, of its
// division by a polynomial over GF(2).
func withRemainder(value uint32, bits int, polynomial uint32) uint32 {
	rest := value << bits
	for i := 31; i >= bits; i-- {
		if rest>>i&1 != 0 {
			rest ^= polynomial << (i - bits)
		}
	}
	return value<<bits | rest
}

// likeness is how well a word of so many bits agrees with soft values of its
// modules (below 0 is dark, which is 1), from -1 to 1. The values may hold
// several copies of the word, one after the other.
func likeness(word uint32, bits int, soft []float32) float32 {
	var agreed, all float32
	for i, v := range soft {
		bit := word >> (bits - 1 - i%bits) & 1
		if bit == 1 {
			agreed -= v
		} else {
			agreed += v
		}
		all += max(v, -v)
	}
	if all == 0 {
		return 0
	}
	return agreed / all
}
