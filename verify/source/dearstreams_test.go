package source_test

import (
	"bytes"
	"strings"

	"hourseal/verify/source/sourcetest"
)

// shortCopies is a deflated stream (RFC 1950, RFC 1951 section 3.2.7) of so many bytes of
// 4 at least, in copies of six bytes that take two bits each: nothing takes an inflater
// longer for the bytes that come out. As a picture every row begins with a 4, which is the
// dearest of PNG's filters. The stream is cut before its end.
func shortCopies(size int) []byte {
	const (
		// One block, the last, with codes of its own: 261 literals and lengths, 1 distance,
		// 18 code lengths.
		head = "1" + "01" + "00100" + "00000" + "0111"
		none = "000"
		two  = "010"
		// Code lengths 0, 1, 2 and the run of zeros (18) take two bits each: 00, 01, 10, 11.
		// The lengths are in the order 16 17 18 0, 8 7 9 6 10 5 11 4 12 3 13, 2 14 1.
		lengths = none + none + two + two + none + none + none + none + none + none + none + none + none + none + none + two + none + two
		// Codes of two bits for the literal 4 and the end of the block, of one for the length
		// of 6 (260): 4 zeros, a two, 138 + 113 zeros, a two, 3 zeros, a one.
		literals = "00000000" + "10" + "11" + "1111111" + "11" + "0110011" + "10" + "000000" + "01"
		distance = "01"                                        // of one byte back
		begin    = head + lengths + literals + distance + "10" // and the first 4
	)
	stream := append([]byte{0x78, 0x01}, bytesOf(begin+strings.Repeat("0", 7-(len(begin)+7)%8))...)
	return append(stream, make([]byte, size/24+1)...)
}

// bytesOf packs bits, the first the lowest of the first byte, as deflate has them.
func bytesOf(bits string) []byte {
	packed := make([]byte, (len(bits)+7)/8)
	for i := range len(bits) {
		packed[i/8] |= (bits[i] - '0') << (i % 8)
	}
	return packed
}

// emptyBlocks is a deflated stream of so many bytes that holds the first row of a picture,
// and then nothing: blocks of 12 bytes with codes of their own, for each of which an
// inflater builds its tables.
func emptyBlocks(row []byte, size int) []byte {
	const (
		none, four = "000", "100"
		// One block: 257 literals and lengths, 1 distance, 18 code lengths; of those only
		// the run of zeros (18) and 1 have a code, of one bit in two and four bits.
		head    = "0" + "01" + "00000" + "00000" + "0111"
		lengths = none + none + four + none + none + none + none + none + none + none + none + none + none + none + none + none + none + four
		codes   = "1" + "1111111" + "1" + "1101011" + "0" + "0" + "0"
	)
	n := len(row)
	stream := append([]byte{0x78, 0x01, 0, byte(n), byte(n >> 8), ^byte(n), ^byte(n >> 8)}, row...)
	eight := bytesOf(strings.Repeat(head+lengths+codes, 8)) // which end at a byte
	return append(stream, bytes.Repeat(eight, size/len(eight))...)
}

// blackInk makes the deflated pixels of a square picture of four inks of 16 bits, each row
// with PNG's fourth filter before it, of what fill makes in 1 bit.
func blackInk(side int, fill func(y int, row []byte)) []byte {
	const pixel = 8 // bytes, the last two of black ink
	rows := make([]byte, 0, (1+pixel*side)*side)
	white, row, above := make([]byte, (side+7)/8), make([]byte, pixel*side), make([]byte, pixel*side)
	for y := range side {
		fill(y, white)
		for x := range side {
			ink := byte(255)
			if white[x/8]>>(7-x%8)&1 == 1 {
				ink = 0
			}
			row[pixel*x+6], row[pixel*x+7] = ink, ink
		}
		rows = append(rows, 4)
		for i := range row {
			var left, corner int
			if i >= pixel {
				left, corner = int(row[i-pixel]), int(above[i-pixel])
			}
			rows = append(rows, row[i]-nearest(left, int(above[i]), corner))
		}
		copy(above, row)
	}
	return sourcetest.Deflate(rows)
}

// nearest is the predictor of ISO/IEC 15948 section 9.4.
func nearest(left, above, corner int) byte {
	byLeft, byAbove, byCorner := above-corner, left-corner, left+above-2*corner
	for _, d := range []*int{&byLeft, &byAbove, &byCorner} {
		*d = max(*d, -*d)
	}
	switch {
	case byLeft <= byAbove && byLeft <= byCorner:
		return byte(left)
	case byAbove <= byCorner:
		return byte(above)
	}
	return byte(corner)
}
