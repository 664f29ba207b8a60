package record_test

import (
	"bytes"
	"testing"

	"hourseal/record"
)

// TestDecoderItself: what the decoder refuses before the bytes are compared, so
// that a hostile record costs little. The comparison would refuse it all.
func TestDecoderItself(t *testing.T) {
	into := func() any { return &record.By{} }
	list := func() any { return &[]uint64{} }
	nested := func() any { return new(any) }
	for _, c := range []struct {
		name string
		data string
		into func() any
		read bool
	}{
		{"a map", "\xa1\x01\x61a", into, true},
		{"a key twice", "\xa2\x01\x61a\x01\x61b", into, false},
		{"an unknown key", "\xa1\x09\x61a", into, false},
		{"a text key", "\xa1\x611\x61a", into, false},
		{"indefinite map", "\xbf\x01\x61a\xff", into, false},
		{"indefinite text", "\xa1\x01\x7f\x61a\xff", into, false},
		{"a tag", "\xc1\xa1\x01\x61a", into, false},
		{"bytes for text", "\xa1\x01\x41a", into, false},
		{"broken UTF-8", "\xa1\x01\x61\xff", into, false},
		{"trailing byte", "\xa1\x01\x61a\x00", into, false},
		{"128 entries", "\x98\x80" + string(bytes.Repeat([]byte{1}, 128)), list, true},
		{"129 entries", "\x98\x81" + string(bytes.Repeat([]byte{1}, 129)), list, false},
		{"a float in a list", "\x81\xf9\x3c\x00", list, false},
		{"a big number in a list", "\x81\xc2\x41\x01", list, false},
		{"8 levels", "\x81\x81\x81\x81\x81\x81\x81\x80", nested, true},
		{"9 levels", "\x81\x81\x81\x81\x81\x81\x81\x81\x80", nested, false},
		{"33 pairs", "\xb8\x21" + string(pairs(33)), nested, false},
		{"32 pairs", "\xb8\x20" + string(pairs(32)), nested, true},
		{"not a number", "\xf9\x7e\x00", nested, false},
		{"infinity", "\xf9\x7c\x00", nested, false},
	} {
		if err := record.DecMode.Unmarshal([]byte(c.data), c.into()); (err == nil) != c.read {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

// pairs are n different keys, each with 0.
func pairs(n int) []byte {
	var out []byte
	for i := range n {
		out = append(out, 0x18, byte(100+i), 0)
	}
	return out
}
