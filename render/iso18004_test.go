package render

import (
	"bytes"
	"encoding/hex"
	"testing"
)

// The worked example of ISO/IEC 18004, "01234567" in version 1-M: its data
// codewords and the error correction codewords behind them, read back off the
// modules that the report would draw.
func TestCodewordsOfTheStandardsExample(t *testing.T) {
	want, err := hex.DecodeString("10200C566180EC11EC11EC11EC11EC11" + "A524D4C1ED36C7872C55")
	if err != nil {
		t.Fatal(err)
	}
	s, err := symbolOf("01234567")
	if err != nil {
		t.Fatal(err)
	}
	if len(s.dark) != 21 {
		t.Fatalf("%d modules wide, version 1 has 21", len(s.dark))
	}
	if got := codewordsOfVersion1(t, s.dark); !bytes.Equal(got, want) {
		t.Errorf("codewords %X, want %X", got, want)
	}
}

// masks are the conditions of ISO/IEC 18004, table of data mask patterns.
var masks = [8]func(row, col int) bool{
	func(r, c int) bool { return (r+c)%2 == 0 },
	func(r, _ int) bool { return r%2 == 0 },
	func(_, c int) bool { return c%3 == 0 },
	func(r, c int) bool { return (r+c)%3 == 0 },
	func(r, c int) bool { return (r/2+c/3)%2 == 0 },
	func(r, c int) bool { return r*c%2+r*c%3 == 0 },
	func(r, c int) bool { return (r*c%2+r*c%3)%2 == 0 },
	func(r, c int) bool { return ((r+c)%2+r*c%3)%2 == 0 },
}

// codewordsOfVersion1 undoes the mask and reads the modules in pairs of columns
// from the right, upwards first.
func codewordsOfVersion1(t *testing.T, dark [][]bool) []byte {
	t.Helper()
	format := 0
	for _, at := range [15][2]int{{8, 0}, {8, 1}, {8, 2}, {8, 3}, {8, 4}, {8, 5}, {8, 7}, {8, 8}, {7, 8}, {5, 8}, {4, 8}, {3, 8}, {2, 8}, {1, 8}, {0, 8}} {
		format <<= 1
		if dark[at[0]][at[1]] {
			format |= 1
		}
	}
	format ^= 0b101010000010010
	if level := format >> 13; level != 0 {
		t.Fatalf("level %02b, M is 00", level)
	}
	mask := masks[format>>10&7]
	const side = 21
	function := func(r, c int) bool {
		return r < 9 && (c < 9 || c >= side-8) || r >= side-8 && c < 9 || r == 6 || c == 6
	}
	var bits []bool
	up := true
	for right := side - 1; right > 0; right -= 2 {
		if right == 6 { // the timing pattern's column is passed over
			right--
		}
		for i := range side {
			row := i
			if up {
				row = side - 1 - i
			}
			for _, col := range []int{right, right - 1} {
				if !function(row, col) {
					bits = append(bits, dark[row][col] != mask(row, col))
				}
			}
		}
		up = !up
	}
	words := make([]byte, len(bits)/8)
	for i := range words {
		for _, bit := range bits[8*i : 8*i+8] {
			words[i] <<= 1
			if bit {
				words[i] |= 1
			}
		}
	}
	return words
}
