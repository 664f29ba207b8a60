package picture

import "testing"

// bitsOf packs a string of 0 and 1, blanks left out, into bytes.
func bitsOf(s string) (b []byte) {
	n := 0
	for _, c := range s {
		if c == ' ' {
			continue
		}
		if n%8 == 0 {
			b = append(b, 0)
		}
		if c == '1' {
			b[n/8] |= 1 << (7 - n%8)
		}
		n++
	}
	return b
}

func TestSegments(t *testing.T) {
	for _, c := range []struct {
		name, bits, want string
		bad              bool
	}{
		// ISO/IEC 18004:2015, 7.4.3 and 7.4.4 have these two.
		{"numeric", "0001 0000001000 0000001100 0101011001 1000011 0000", "01234567", false},
		{"alphanumeric", "0010 000000101 00111001110 11100111001 000010 0000", "AC-42", false},
		{"bytes in UTF-8", "0100 00000010 11000011 10101001 0000", "é", false},
		{"bytes in ISO 8859-1", "0100 00000001 11101001 0000", "é", false},
		{"a character set announced", "0111 00011010 0100 00000001 01000001 0000", "A", false},
		{"two bytes of designator", "0111 10000000 00011010 0100 00000001 01000001 0000", "A", false},
		{"three bytes of designator", "0111 11000000 00000000 00011010 0100 00000001 01000001 0000", "A", false},
		{"kanji", "1000 00000010 0110110011111 1101010101010 0000", "��", false},
		{"one of several symbols", "0011 0001 0010 10101010 0001 0000000001 0111 0000", "7", false},
		{"FNC1 first", "0101 0001 0000000001 0111 0000", "7", false},
		{"FNC1 second", "1001 00110111 0001 0000000001 0111 0000", "7", false},
		{"two segments", "0001 0000000001 0111 0010 000000001 001010 0000", "7A", false},
		{"no terminator", "0001 0000000001 0111", "7", false},
		{"nothing", "0000", "", false},
		{"a digit of ten", "0001 0000000001 1010 0000", "", true},
		{"a group of 1000", "0001 0000000011 1111101000 0000", "", true},
		{"a pair beyond the alphabet", "0010 000000010 11111101001 0000", "", true},
		{"one beyond the alphabet", "0010 000000001 101101 0000", "", true},
		{"more bytes than there are", "0100 11111111 01000001", "", true},
		{"more digits than there are", "0001 1111111111 0000001100", "", true},
		{"more kanji than there are", "1000 11111111 0110110011111", "", true},
		{"an unknown mode", "0110 0000", "", true},
		{"a cut count", "0100 0000", "", true},
		{"a cut designator", "0111 1100 0000 0000", "", true},
	} {
		got, ok := textOf(bitsOf(c.bits), 1)
		if ok == c.bad || got != c.want {
			t.Errorf("%s: %q, %v", c.name, got, ok)
		}
	}
}
