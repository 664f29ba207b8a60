package picture

import (
	"cmp"
	"slices"
)

// decodeModules reads the text out of a symbol's soft modules: one value a module,
// row by row, below 0 for dark, the further from 0 the surer. ok is false where the
// modules are no symbol of this layout, or have too many errors.
func decodeModules(l *layout, soft []float32) (text string, ok bool) {
	words := likelyFormats(l, soft)
	for _, word := range words {
		level, mask := levelOfBits[word>>3], word&7
		if text, ok = decodeMasked(l, soft, level, mask); ok {
			return text, true
		}
	}
	return "", false
}

// likelyFormats gives the two likeliest words of format information.
func likelyFormats(l *layout, soft []float32) [2]int {
	format := formatModules(l.side)
	values := pick(l, soft, format[:])
	var best [2]int
	var score [2]float32
	score[0], score[1] = -2, -2
	for i, word := range formatWords {
		s := likeness(word, 15, values)
		if s > score[0] {
			best[1], score[1] = best[0], score[0]
			best[0], score[0] = i, s
		} else if s > score[1] {
			best[1], score[1] = i, s
		}
	}
	return best
}

// pick gives the modules at some places, each a row and a column.
func pick(l *layout, soft []float32, at [][2]int) []float32 {
	values := make([]float32, len(at))
	for i, rc := range at {
		values[i] = soft[rc[0]*l.side+rc[1]]
	}
	return values
}

// Where doubtful codewords are tried as erasures, leastCheck check codewords are
// left for errors, and leastUnused of them stay unused: a block of 150 chance bytes
// then passes less than once in a million times, C(150,3)·255³/256⁸.
const (
	leastCheck  = 8
	leastUnused = 2
)

func decodeMasked(l *layout, soft []float32, level, mask int) (string, bool) {
	words, doubt := codewords(l, soft, mask)
	shared := standards[l.version].blocks[level]
	var out []byte
	for _, block := range deinterleave(len(words), shared) {
		bytes, doubts := make([]byte, len(block)), make([]float32, len(block))
		for i, at := range block {
			bytes[i], doubts[i] = words[at], doubt[at]
		}
		if !correctDoubtful(bytes, doubts, shared.check, shared.check-misread(l.version, level)) {
			return "", false
		}
		out = append(out, bytes[:len(bytes)-shared.check]...)
	}
	return textOf(out, l.version)
}

// codewords gives the codewords of a symbol in their order, and how sure each is:
// the value of its least sure module.
func codewords(l *layout, soft []float32, mask int) (words []byte, sure []float32) {
	bits := 0
	var word byte
	least := float32(0)
	l.eachData(func(r, c int) {
		v := soft[r*l.side+c]
		if masked(mask, r, c) {
			v = -v
		}
		word <<= 1
		if v < 0 {
			word |= 1
			v = -v
		}
		if bits%8 == 0 || v < least {
			least = v
		}
		if bits++; bits%8 == 0 {
			words, sure = append(words, word), append(sure, least)
		}
	})
	return words, sure
}

// deinterleave says for each block which of n codewords it is made of, in order:
// the first of each block's data, the second of each, and so on, then the check
// codewords likewise (ISO/IEC 18004:2015, 7.6).
func deinterleave(n int, shared blocks) [][]int {
	total := n - shared.count*shared.check
	short := total / shared.count
	longer := total % shared.count // the last blocks, with one more
	of := make([][]int, shared.count)
	at := 0
	for i := range short + 1 {
		for b := range of {
			if i < short || b >= shared.count-longer {
				of[b] = append(of[b], at)
				at++
			}
		}
	}
	for range shared.check {
		for b := range of {
			of[b] = append(of[b], at)
			at++
		}
	}
	return of
}

// correctDoubtful corrects a block; where that fails it takes its least sure
// codewords for erasures, two more at a time: generalised minimum distance
// decoding, after G. D. Forney, IEEE Transactions on Information Theory 12, 1966.
func correctDoubtful(block []byte, sure []float32, check, spare int) bool {
	if correct(block, check, spare, nil) {
		return true
	}
	order := make([]int, len(block))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(sure[a], sure[b]) })
	for erased := 2; erased <= check-leastCheck; erased += 2 {
		if correct(block, check, min(spare, check-leastUnused), order[:erased]) {
			return true
		}
	}
	return false
}
