package picture

import (
	"bytes"
	"encoding/hex"
	"math/rand/v2"
	"testing"

	"github.com/makiuchi-d/gozxing/common/reedsolomon"
)

// TestStandardsExample corrects the worked example of ISO/IEC 18004, annex I:
// "01234567" in version 1-M, whose ten check codewords correct four errors.
func TestStandardsExample(t *testing.T) {
	want, err := hex.DecodeString("10200C566180EC11EC11EC11EC11EC11" + "A524D4C1ED36C7872C55")
	if err != nil {
		t.Fatal(err)
	}
	block := bytes.Clone(want)
	for _, at := range []int{0, 7, 15, 25} {
		block[at] ^= 0x5A
	}
	if !correct(block, 10, 10-misread(1, levelM), nil) || !bytes.Equal(block, want) {
		t.Fatalf("%X", block)
	}
	if text, ok := textOf(block[:16], 1); !ok || text != "01234567" {
		t.Errorf("%q, %v", text, ok)
	}
	for _, at := range []int{0, 7, 15, 20, 25} {
		block[at] ^= 0x5A
	}
	broken := bytes.Clone(block)
	if correct(block, 10, 10-misread(1, levelM), nil) || !bytes.Equal(block, broken) {
		t.Error("five errors were corrected, or the block was changed")
	}
}

// TestCorrectAgainstAnotherEncoder corrects blocks of gozxing's encoder with as many
// errors and erasures as the code can take, and refuses one error more, or gives
// another block of the code.
func TestCorrectAgainstAnotherEncoder(t *testing.T) {
	draws := rand.New(rand.NewPCG(1, 2))
	encoder := reedsolomon.NewReedSolomonEncoder(reedsolomon.GenericGF_QR_CODE_FIELD_256)
	misread := 0
	for range 3000 {
		check := 7 + draws.IntN(24)
		n := check + 1 + draws.IntN(120)
		ints := make([]int, n)
		for i := range n - check {
			ints[i] = draws.IntN(256)
		}
		if err := encoder.Encode(ints, check); err != nil {
			t.Fatal(err)
		}
		want := make([]byte, n)
		for i, v := range ints {
			want[i] = byte(v)
		}
		places := draws.Perm(n)
		erased := draws.IntN(min(check, n) + 1)
		errors := min((check-erased)/2, n-erased)
		block := bytes.Clone(want)
		for _, at := range places[:erased] {
			block[at] = byte(draws.Uint32()) // by chance right
		}
		for _, at := range places[erased : erased+errors] {
			block[at] ^= byte(1 + draws.IntN(255))
		}
		if !correct(block, check, check, places[:erased]) || !bytes.Equal(block, want) {
			t.Fatalf("%d of %d check codewords, %d erased and %d wrong: not corrected", check, n, erased, errors)
		}
		if len(places) <= check/2 {
			continue
		}
		for _, at := range places[:check/2+1] {
			block[at] ^= byte(1 + draws.IntN(255))
		}
		broken := bytes.Clone(block)
		if correct(block, check, check, nil) {
			if _, clean := syndromes(block, check); !clean || bytes.Equal(block, want) {
				t.Fatal("too many errors gave what is no block of the code, or the right one")
			}
			misread++
		} else if !bytes.Equal(block, broken) {
			t.Fatal("a block that could not be corrected was changed")
		}
	}
	if misread > 100 { // one in 3! for three errors, rarer beyond
		t.Errorf("%d of 3000 blocks with too many errors passed", misread)
	}
}
