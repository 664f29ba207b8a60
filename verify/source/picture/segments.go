package picture

import (
	"strings"
	"unicode/utf8"
)

// bitReader reads bits, the most significant first.
type bitReader struct {
	bytes []byte
	at    int // bits read
}

func (b *bitReader) left() int { return 8*len(b.bytes) - b.at }

// take reads n bits, up to 16; ok is false where there are not so many.
func (b *bitReader) take(n int) (value int, ok bool) {
	if n > b.left() {
		return 0, false
	}
	for range n {
		value = value<<1 | int(b.bytes[b.at/8]>>(7-b.at%8)&1)
		b.at++
	}
	return value, true
}

// mode indicators (ISO/IEC 18004:2015, table 2).
const (
	modeEnd        = 0b0000
	modeNumeric    = 0b0001
	modeAlphabetic = 0b0010
	modeAppend     = 0b0011
	modeByte       = 0b0100
	modeFNC1First  = 0b0101
	modeECI        = 0b0111
	modeKanji      = 0b1000
	modeFNC1Second = 0b1001
)

// countBits is the length of a segment's character count: for versions to 9, to
// 26, to 40 (ISO/IEC 18004:2015, table 3).
var countBits = map[int][3]int{
	modeNumeric:    {10, 12, 14},
	modeAlphabetic: {9, 11, 13},
	modeByte:       {8, 16, 16},
	modeKanji:      {8, 10, 12},
}

const alphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"

// textOf reads the segments of a symbol's data codewords. Bytes are text in UTF-8
// where they are valid as such and ISO 8859-1 otherwise, which is common practice;
// a character set that is announced changes nothing. Kanji are given as U+FFFD:
// texts of ours have none, and all that is to be known of another's code is that
// there was one. ok is false where the data do not hold together.
func textOf(words []byte, version int) (text string, ok bool) {
	in := &bitReader{bytes: words}
	size := 0
	if version > 9 {
		size = 1
	}
	if version > 26 {
		size = 2
	}
	var out strings.Builder
	for {
		mode, more := in.take(4)
		if !more || mode == modeEnd {
			return out.String(), true
		}
		switch mode {
		case modeFNC1First:
			continue
		case modeFNC1Second:
			_, ok = in.take(8)
		case modeAppend:
			_, ok = in.take(16)
		case modeECI:
			ok = passECI(in)
		default:
			bits, known := countBits[mode]
			if !known {
				return "", false
			}
			var count int
			if count, ok = in.take(bits[size]); ok {
				ok = readSegment(in, mode, count, &out)
			}
		}
		if !ok {
			return "", false
		}
	}
}

// passECI passes over a designator of one to three bytes.
func passECI(in *bitReader) bool {
	first, ok := in.take(8)
	switch {
	case !ok:
		return false
	case first&0x80 == 0:
		return true
	case first&0xC0 == 0x80:
		_, ok = in.take(8)
	default:
		_, ok = in.take(16)
	}
	return ok
}

func readSegment(in *bitReader, mode, count int, out *strings.Builder) bool {
	switch mode {
	case modeNumeric:
		return readNumeric(in, count, out)
	case modeAlphabetic:
		return readAlphabetic(in, count, out)
	case modeKanji:
		for range count {
			if _, ok := in.take(13); !ok {
				return false
			}
			out.WriteRune(utf8.RuneError)
		}
		return true
	}
	if 8*count > in.left() {
		return false
	}
	bytes := make([]byte, count)
	for i := range bytes {
		b, _ := in.take(8)
		bytes[i] = byte(b)
	}
	if utf8.Valid(bytes) {
		out.Write(bytes)
		return true
	}
	for _, b := range bytes {
		out.WriteRune(rune(b))
	}
	return true
}

// readNumeric reads three digits in ten bits, two in seven, one in four.
func readNumeric(in *bitReader, count int, out *strings.Builder) bool {
	for count > 0 {
		digits := min(count, 3)
		value, ok := in.take(1 + 3*digits)
		if !ok || value >= [4]int{1, 10, 100, 1000}[digits] {
			return false
		}
		for unit := [4]int{1, 1, 10, 100}[digits]; unit > 0; unit /= 10 {
			out.WriteByte(byte('0' + value/unit%10))
		}
		count -= digits
	}
	return true
}

// readAlphabetic reads two characters in eleven bits, one in six.
func readAlphabetic(in *bitReader, count int, out *strings.Builder) bool {
	for ; count > 1; count -= 2 {
		pair, ok := in.take(11)
		if !ok || pair >= 45*45 {
			return false
		}
		out.WriteByte(alphabet[pair/45])
		out.WriteByte(alphabet[pair%45])
	}
	if count == 1 {
		one, ok := in.take(6)
		if !ok || one >= 45 {
			return false
		}
		out.WriteByte(alphabet[one])
	}
	return true
}
