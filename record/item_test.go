package record_test

import (
	"encoding/binary"
	"slices"
	"testing"
)

// item is one CBOR data item, read and written by hand (RFC 8949, section 3) so
// that every wrong form can be written too. It knows what a record can hold:
// integers, strings, arrays, maps, true and false.
type item struct {
	major    byte
	argument uint64
	content  []byte  // of a string
	children []*item // of an array; of a map keys and values in turn

	raw        []byte // stands instead of all the above
	longer     int    // sizes of head above the shortest
	indefinite bool
}

const (
	positive = iota
	negative
	byteString
	textString
	array
	mapping
	_
	simple
)

// parse reads one item of canonical bytes.
func parse(t testing.TB, data []byte) (*item, []byte) {
	t.Helper()
	it := &item{major: data[0] >> 5, argument: uint64(data[0] & 31)}
	data = data[1:]
	if size := int(it.argument) - 24; size >= 0 {
		var wide [8]byte
		n := 1 << size
		copy(wide[8-n:], data[:n])
		it.argument, data = binary.BigEndian.Uint64(wide[:]), data[n:]
	}
	count := 0
	switch it.major {
	case byteString, textString:
		it.content, data = data[:it.argument], data[it.argument:]
	case array:
		count = int(it.argument)
	case mapping:
		count = 2 * int(it.argument)
	}
	for range count {
		var child *item
		child, data = parse(t, data)
		it.children = append(it.children, child)
	}
	return it, data
}

func (it *item) bytes() []byte {
	if it.raw != nil {
		return it.raw
	}
	var out []byte
	switch {
	case it.indefinite && (it.major == byteString || it.major == textString):
		whole := *it
		whole.indefinite = false
		return slices.Concat([]byte{it.major<<5 | 31}, whole.bytes(), []byte{0xff})
	case it.indefinite:
		out = []byte{it.major<<5 | 31}
	default:
		out = it.head()
	}
	out = append(out, it.content...)
	for _, child := range it.children {
		out = append(out, child.bytes()...)
	}
	if it.indefinite {
		out = append(out, 0xff)
	}
	return out
}

// head is the first byte and its argument, in the shortest form or a longer one.
func (it *item) head() []byte {
	argument := it.argument
	switch it.major {
	case byteString, textString:
		argument = uint64(len(it.content))
	case array:
		argument = uint64(len(it.children))
	case mapping:
		argument = uint64(len(it.children) / 2)
	}
	form := shortestForm(argument) + it.longer
	if form == 0 {
		return []byte{it.major<<5 | byte(argument)}
	}
	var wide [8]byte
	binary.BigEndian.PutUint64(wide[:], argument)
	return append([]byte{it.major<<5 | byte(23+form)}, wide[8-1<<(form-1):]...)
}

// shortestForm is 0 for an argument in the first byte, then 1 to 4 for one of 1,
// 2, 4 or 8 bytes.
func shortestForm(n uint64) int {
	switch {
	case n < 24:
		return 0
	case n < 1<<8:
		return 1
	case n < 1<<16:
		return 2
	case n < 1<<32:
		return 3
	default:
		return 4
	}
}

// all lists an item and everything in it.
func (it *item) all() []*item {
	list := []*item{it}
	for _, child := range it.children {
		list = append(list, child.all()...)
	}
	return list
}

// at follows keys of maps and places in arrays.
func (it *item) at(t testing.TB, path []uint64) *item {
	t.Helper()
	for _, step := range path {
		var next *item
		switch it.major {
		case array:
			next = it.children[step]
		case mapping:
			for i := 0; i < len(it.children); i += 2 {
				if it.children[i].argument == step {
					next = it.children[i+1]
				}
			}
		}
		if next == nil {
			t.Fatalf("nothing at %d of %v", step, path)
		}
		it = next
	}
	return it
}

// replaced puts other bytes in the place of an item.
func replaced(t testing.TB, data []byte, path []uint64, value []byte) []byte {
	t.Helper()
	root, _ := parse(t, data)
	root.at(t, path).raw = value
	return root.bytes()
}
