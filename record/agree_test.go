package record_test

import (
	"errors"
	"fmt"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/recordtest"
)

// agree holds the reader to the second decoder. Decode's answer must be the same
// with either. Before the comparison ours may be the stricter, never the laxer.
func agree(data []byte) error {
	ours, errOurs := record.Decode(data)
	theirs, errTheirs := secondDecode(data)
	if (errOurs == nil) != (errTheirs == nil) || !reflect.DeepEqual(ours, theirs) {
		return fmt.Errorf("%x\ndecoded: %v, %+v\nby the second decoder: %v, %+v", data, errOurs, ours, errTheirs, theirs)
	}
	ours, errOurs = record.Read(data)
	if errOurs != nil {
		return nil
	}
	if theirs, errTheirs = secondRead(data); errTheirs != nil || !reflect.DeepEqual(ours, theirs) {
		return fmt.Errorf("%x\nread: %+v\nby the second decoder: %v, %+v", data, ours, errTheirs, theirs)
	}
	return nil
}

// TestReadersAgree: on any record the two decoders read the same.
func TestReadersAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		data, err := record.Encode(recordtest.Random(t))
		if err != nil {
			t.Fatal(err)
		}
		if _, err := record.Decode(data); err != nil {
			t.Fatal(err)
		}
		if err := agree(data); err != nil {
			t.Fatal(err)
		}
	})
}

// TestReadersAgreeOnChanged: and on what has become of its bytes, where most is
// refused and some is another record.
func TestReadersAgreeOnChanged(t *testing.T) {
	read, refused := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		data, err := record.Encode(recordtest.Random(t))
		if err != nil {
			t.Fatal(err)
		}
		for range 20 {
			changed := mutated(t, data)
			if err := agree(changed); err != nil {
				t.Fatal(err)
			}
			if _, err := record.Decode(changed); err == nil {
				read++
			} else {
				refused++
			}
		}
	})
	if t.Logf("%d read, %d refused", read, refused); read == 0 || refused == 0 {
		t.Error("the changes try only one of the answers")
	}
}

// heads are the first bytes that mean something else: the ends of each kind of
// item's range of lengths, and what has no place in a record.
var heads = []byte{0x00, 0x17, 0x18, 0x19, 0x1a, 0x1b, 0x1c, 0x1f, 0x20, 0x37, 0x38, 0x3b, 0x40, 0x58, 0x5f, 0x60, 0x78, 0x7f,
	0x80, 0x98, 0x9f, 0xa0, 0xb8, 0xbf, 0xc0, 0xd9, 0xf4, 0xf5, 0xf6, 0xf7, 0xf9, 0xfa, 0xfb, 0xff}

// mutated changes bytes in one place: one bit, one to be a head, one more, some
// twice, some less.
func mutated(t *rapid.T, data []byte) []byte {
	data = slices.Clone(data)
	i := rapid.IntRange(0, len(data)-1).Draw(t, "at")
	j := min(len(data), i+rapid.IntRange(1, 8).Draw(t, "bytes"))
	switch rapid.IntRange(0, 4).Draw(t, "change") {
	case 0:
		data[i] ^= 1 << rapid.IntRange(0, 7).Draw(t, "bit")
		return data
	case 1:
		data[i] = rapid.SampledFrom(heads).Draw(t, "head")
		return data
	case 2:
		return slices.Insert(data, i, rapid.SampledFrom(heads).Draw(t, "head"))
	case 3:
		return slices.Insert(data, i, slices.Clone(data[i:j])...)
	default:
		return slices.Delete(data, i, j)
	}
}

// TestReadersAgreeOnWrongForms: and on every item of the examples in every wrong
// form.
func TestReadersAgreeOnWrongForms(t *testing.T) {
	for _, e := range examples {
		data := encoded(t, e.make())
		root, _ := parse(t, data)
		for place, it := range root.all() {
			if len(data) > 4096 && place%oneOf(16, 61) != 0 {
				continue // much of the longest is the same over and over
			}
			for form, wrong := range wrongForms(it) {
				before := *it
				*it = wrong
				if err := agree(root.bytes()); err != nil {
					t.Errorf("%s, item %d, %s: %v", e.name, place, form, err)
				}
				*it = before
			}
		}
	}
}

// FuzzAgree: and on any bytes at all.
func FuzzAgree(f *testing.F) {
	for _, e := range examples {
		f.Add(encoded(f, e.make()))
	}
	for _, v := range vectors(f) {
		f.Add(v.bytes(f))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		if err := agree(data); err != nil {
			t.Fatal(err)
		}
	})
}

// TestDecodeAgain: what Decode takes, DecodeAgain reads as the same; what it
// refuses for its form only, as a number in more bytes than it needs, it still
// refuses, but for an empty value where Encode writes nothing.
func TestDecodeAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		data, err := record.Encode(recordtest.Random(t))
		if err != nil {
			t.Fatal(err)
		}
		first, err := record.Decode(data)
		if err != nil {
			t.Fatal(err)
		}
		again, err := record.DecodeAgain(data)
		if err != nil || !reflect.DeepEqual(first, again) {
			t.Fatalf("%v: %+v\nat first %+v", err, again, first)
		}
		changed := mutated(t, data)
		first, err = record.Decode(changed)
		again, errAgain := record.DecodeAgain(changed)
		switch {
		case err == nil && (errAgain != nil || !reflect.DeepEqual(first, again)):
			t.Fatalf("%x: %v: %+v\nat first %+v", changed, errAgain, again, first)
		case err != nil && errAgain == nil && !errors.Is(err, record.ErrNotCanonical):
			t.Fatalf("%x: refused by Decode alone: %v", changed, err)
		}
	})
}
