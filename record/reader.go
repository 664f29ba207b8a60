package record

import (
	"errors"
	"fmt"
	"math"
	"unicode/utf8"
)

// The kinds of item that a record is made of, as the top three bits of an
// item's first byte (RFC 8949, section 3.1). Of the others, tags and floats,
// nothing is read.
const (
	positive   byte = 0 << 5 // the argument n is the number n
	negative   byte = 1 << 5 // the argument n is the number -1-n
	byteString byte = 2 << 5
	textString byte = 3 << 5
	array      byte = 4 << 5
	mapping    byte = 5 << 5

	isFalse     byte = 7<<5 | 20
	isTrue      byte = 7<<5 | 21
	isNull      byte = 7<<5 | 22
	isUndefined byte = 7<<5 | 23
)

// kindWords name the kinds in faults; of numbers, those that a key is one of.
var kindWords = map[byte]string{
	positive: "number from 0", byteString: "byte string", textString: "text", array: "list", mapping: "map",
}

var (
	errEndsEarly = errors.New("the bytes end before it does")
	errBehind    = errors.New("more bytes stand behind it")
)

// reader is a cursor over the bytes of one record. Every method reads one item
// of the kind that must come next. The first fault stays and ends the bytes, so
// that nothing more is read after it.
//
// Texts are cut out of data, so that they need no memory of their own; a record
// keeps its bytes, MaxBytes at most, for as long as one of its texts is kept.
type reader struct {
	data  string
	at    int
	place string // of the fault, from outside to inside: "task 3, due"
	fault error
}

// fail takes down a fault and the place it is in, "" where the place is known
// only further out. Later faults come of the first and are dropped.
func (r *reader) fail(place string, fault error) {
	if r.fault == nil {
		r.place, r.fault, r.data = place, fault, r.data[:r.at]
	}
}

// inside puts an outer place before that of the fault.
func (r *reader) inside(place string) {
	switch {
	case place == "":
	case r.place == "":
		r.place = place
	default:
		r.place = place + ", " + r.place
	}
}

// failure is the fault with its place. A record in another form than Encode's is
// plainly ErrNotCanonical, wherever it is so.
func (r *reader) failure() error {
	switch {
	case r.fault == nil || r.fault == ErrNotCanonical:
		return r.fault
	case r.place == "":
		return fmt.Errorf("record: %w", r.fault)
	default:
		return fmt.Errorf("%s: %w", r.place, r.fault)
	}
}

// head reads the first byte of an item, which must be of the kind wanted, and
// the argument that is in it or behind it.
func (r *reader) head(place string, kind byte) uint64 {
	if r.at < len(r.data) {
		if argument := r.data[r.at] ^ kind; argument < 24 {
			r.at++
			return uint64(argument)
		}
	}
	return r.longHead(place, kind)
}

// shortest holds, for arguments of 1, 2, 4 and 8 bytes, the least that needs so
// many.
var shortest = [...]uint64{24, 1 << 8, 1 << 16, 1 << 32}

// longHead reads an item's head where the argument stands behind the first byte,
// in as few bytes as hold it.
func (r *reader) longHead(place string, kind byte) uint64 {
	if r.at >= len(r.data) {
		r.fail(place, errEndsEarly)
		return 0
	}
	first := r.data[r.at]
	form := int(first&31) - 24
	switch {
	case first&^31 != kind:
		r.wrong(place, kindWords[kind])
		return 0
	case form == 7 && kind >= byteString:
		r.fail(place, errors.New("has no stated length"))
		return 0
	case form >= len(shortest):
		r.fail(place, errors.New("is not well-formed CBOR"))
		return 0
	}
	r.at++
	size := 1 << form
	if len(r.data)-r.at < size {
		r.fail(place, errEndsEarly)
		return 0
	}
	var argument uint64
	for i := range size {
		argument = argument<<8 | uint64(r.data[r.at+i])
	}
	r.at += size
	if argument < shortest[form] {
		r.fail(place, ErrNotCanonical)
	}
	return argument
}

// wrong says that the next item is not what it must be. Null and undefined stand
// for nothing, and Encode writes nothing for nothing.
func (r *reader) wrong(place, wanted string) {
	switch {
	case r.at >= len(r.data):
		r.fail(place, errEndsEarly)
	case r.data[r.at] == isNull || r.data[r.at] == isUndefined:
		r.fail(place, ErrNotCanonical)
	default:
		r.fail(place, fmt.Errorf("is no %s", wanted))
	}
}

// integer is what the whole numbers of a record are.
type integer interface {
	~int64 | ~uint | ~uint8 | ~uint16 | ~uint32
}

// number reads a whole number, which must fit both the type and 64 bits with a
// sign: one beyond is refused, never cut down.
func number[T integer](r *reader, place string) T {
	n := r.wide(place)
	if v := T(n); int64(v) == n && (v < 0) == (n < 0) {
		return v
	}
	r.fail(place, fmt.Errorf("%d is out of range", n))
	return 0
}

func (r *reader) wide(place string) int64 {
	if r.at < len(r.data) && r.data[r.at] < 24 { // as most are
		r.at++
		return int64(r.data[r.at-1])
	}
	kind := positive
	if r.at < len(r.data) {
		kind = r.data[r.at] &^ 31
	}
	if kind != positive && kind != negative {
		r.wrong(place, "whole number")
		return 0
	}
	argument := r.head(place, kind)
	if argument > math.MaxInt64 {
		r.fail(place, errors.New("is out of range"))
		return 0
	}
	if kind == negative {
		return -1 - int64(argument)
	}
	return int64(argument)
}

// text reads a text of valid UTF-8.
func (r *reader) text(place string) string {
	text := r.content(place, textString)
	if !utf8.ValidString(text) {
		r.fail(place, errors.New("is not valid UTF-8"))
	}
	return text
}

// digest reads a byte string that has the length of a SHA-256 digest.
func (r *reader) digest(place string) (digest [32]byte) {
	content := r.content(place, byteString)
	if len(content) != len(digest) {
		r.fail(place, fmt.Errorf("%d bytes, a digest has %d", len(content), len(digest)))
	}
	copy(digest[:], content)
	return digest
}

// content reads a string of either kind.
func (r *reader) content(place string, kind byte) string {
	length := r.head(place, kind)
	if length > uint64(len(r.data)-r.at) {
		r.fail(place, errEndsEarly)
		return ""
	}
	from := r.at
	r.at += int(length)
	return r.data[from:r.at]
}

// truth reads true or false.
func (r *reader) truth(place string) bool {
	if r.at < len(r.data) && r.data[r.at]&^1 == isFalse&^1 {
		r.at++
		return r.data[r.at-1] == isTrue
	}
	r.wrong(place, "true or false")
	return false
}
