package record_test

import (
	"bytes"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/recordtest"
)

// examples are the records that every form of bytes is tried on.
var examples = []struct {
	name string
	make func() *record.Record
}{
	{"example", recordtest.Example},
	{"shortest", recordtest.Shortest},
	{"accounted", recordtest.Accounted},
	{"longest", recordtest.Longest},
}

func TestRoundTrip(t *testing.T) {
	for _, e := range examples {
		data := encoded(t, e.make())
		r, err := record.Decode(data)
		if err != nil {
			t.Errorf("%s: %v", e.name, err)
			continue
		}
		if again := encoded(t, r); !bytes.Equal(again, data) {
			t.Errorf("%s: %x, then %x", e.name, data, again)
		}
		t.Logf("%s: %d bytes", e.name, len(data))
	}
}

func TestRoundTripOfAnyRecord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := recordtest.Random(t)
		data, err := record.Encode(r)
		if err != nil {
			t.Fatal(err)
		}
		back, err := record.Decode(data)
		if err != nil {
			t.Fatal(err)
		}
		// Empty lists and absent ones are the same: compare what is said, and the bytes.
		again, err := record.Encode(back)
		if err != nil || !bytes.Equal(again, data) || jsonOf(t, normal(r)) != jsonOf(t, normal(back)) {
			t.Fatalf("%v\n%s\n%s", err, jsonOf(t, r), jsonOf(t, back))
		}
		if !record.SameJob(r, back) {
			t.Fatal("not the same job as itself")
		}
	})
}

// normal makes absent lists of empty ones.
func normal(r *record.Record) *record.Record {
	n := *r
	n.Job.SevereDuty = orNil(n.Job.SevereDuty)
	n.Tasks = slices.Clone(n.Tasks)
	n.Fluids = slices.Clone(n.Fluids)
	for i := range n.Tasks {
		n.Tasks[i].Readings = orNil(n.Tasks[i].Readings)
	}
	for i := range n.Fluids {
		n.Fluids[i].Meets, n.Fluids[i].Saw = orNil(n.Fluids[i].Meets), orNil(n.Fluids[i].Saw)
		if b := n.Fluids[i].Balance; b != nil {
			b := *b
			b.Trend = orNil(b.Trend)
			n.Fluids[i].Balance = &b
		}
	}
	n.Tasks, n.OtherWork, n.Fluids, n.ToppedUp = orNil(n.Tasks), orNil(n.OtherWork), orNil(n.Fluids), orNil(n.ToppedUp)
	n.Waste, n.Parts, n.Findings, n.Files = orNil(n.Waste), orNil(n.Parts), orNil(n.Findings), orNil(n.Files)
	return &n
}

func orNil[T any](list []T) []T {
	if len(list) == 0 {
		return nil
	}
	return list
}

// oneOf is which of the items of a large record are tried: one of so many, fewer in
// the short run.
func oneOf(long, short int) int {
	if os.Getenv("HOURSEAL_LONG") == "1" {
		return long
	}
	return short
}

// TestWrongForms writes every item of the examples in every wrong form there
// is; none may be read. The reader of items by hand is proved first: it must
// give back the bytes.
func TestWrongForms(t *testing.T) {
	for _, e := range examples {
		data := encoded(t, e.make())
		root, rest := parse(t, data)
		if len(rest) != 0 || !bytes.Equal(root.bytes(), data) {
			t.Fatalf("%s: items by hand give other bytes", e.name)
		}
		tried := 0
		for place, it := range root.all() {
			if len(data) > 4096 && place%oneOf(8, 31) != 0 {
				continue // much of the longest is the same over and over
			}
			for form, wrong := range wrongForms(it) {
				before := *it
				*it = wrong
				if _, err := record.Decode(root.bytes()); err == nil {
					t.Errorf("%s, item %d: read with %s", e.name, place, form)
				}
				*it = before
				tried++
			}
		}
		t.Logf("%s: %d wrong forms", e.name, tried)
	}
}

// wrongForms are all forms of one item that are not canonical or have no place
// in a record.
func wrongForms(it *item) map[string]item {
	forms := map[string]item{
		"null (f6)":      {raw: []byte{0xf6}},
		"undefined (f7)": {raw: []byte{0xf7}},
		"simple(16)":     {raw: []byte{0xf0}},
		"simple(24)":     {raw: []byte{0xf8, 0x18}},
		"half float":     {raw: []byte{0xf9, 0x3c, 0x00}},
		"single float":   {raw: []byte{0xfa, 0x3f, 0x80, 0, 0}},
		"double float":   {raw: []byte{0xfb, 0x3f, 0xf0, 0, 0, 0, 0, 0, 0}},
		"not a number":   {raw: []byte{0xf9, 0x7e, 0x00}},
		"big number":     {raw: []byte{0xc2, 0x41, 0x01}},
		"a tag":          {raw: append([]byte{0xc1}, it.bytes()...)},
		"self-described": {raw: append([]byte{0xd9, 0xd9, 0xf7}, it.bytes()...)},
		"break":          {raw: []byte{0xff}},
		"reserved 28":    {raw: []byte{it.major<<5 | 28}},
		"deeper":         {raw: append([]byte{0x81}, it.bytes()...)},
		"nothing":        {raw: []byte{}},
	}
	for longer := 1; it.major != simple && longer+shortestForm(it.length()) <= 4; longer++ {
		wrong := *it
		wrong.longer = longer
		forms[fmt.Sprint("head longer by ", longer)] = wrong
	}
	if it.major != positive && it.major != negative && it.major != simple {
		wrong := *it
		wrong.indefinite = true
		forms["indefinite length"] = wrong
	}
	switch it.major {
	case positive:
		forms["a text"] = item{raw: []byte{0x61, 'a'}}
		forms["an integer past 64 bits"] = item{raw: []byte{0x3b, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff}}
	case textString:
		forms["bytes instead of text"] = item{major: byteString, content: it.content}
		forms["broken UTF-8"] = item{major: textString, content: append(slices.Clone(it.content), 0xc3)}
		forms["a surrogate in UTF-8"] = item{major: textString, content: append(slices.Clone(it.content), 0xed, 0xa0, 0x80)}
		forms["overlong UTF-8"] = item{major: textString, content: append(slices.Clone(it.content), 0xc0, 0xaf)}
	case byteString:
		forms["text instead of bytes"] = item{major: textString, content: bytes.Repeat([]byte{'a'}, len(it.content))}
		forms["a byte more"] = item{major: byteString, content: append(slices.Clone(it.content), 0)}
		forms["a byte less"] = item{major: byteString, content: it.content[:len(it.content)-1]}
	case array:
		forms["null at the end"] = item{major: array, children: append(slices.Clone(it.children), &item{raw: []byte{0xf6}})}
		forms["a map"] = item{raw: []byte{0xa0}}
	case mapping:
		maps(it, forms)
	}
	return forms
}

func maps(it *item, forms map[string]item) {
	with := func(children ...*item) item { return item{major: mapping, children: children} }
	forms["an array"] = item{raw: []byte{0x80}}
	one := &item{argument: 1}
	forms["an unknown key"] = with(append(slices.Clone(it.children), &item{argument: 25}, one)...)
	forms["a negative key"] = with(append(slices.Clone(it.children), &item{major: negative}, one)...)
	forms["a text key"] = with(append(slices.Clone(it.children), &item{major: textString, content: []byte("1")}, one)...)
	forms["an escape sequence for a key"] = with(append(slices.Clone(it.children), &item{major: textString, content: []byte("\x1b[31m")}, one)...)
	if len(it.children) >= 2 {
		forms["a key twice"] = with(slices.Concat(it.children[:2], it.children)...)
		forms["the last key twice"] = with(slices.Concat(it.children, it.children[len(it.children)-2:])...)
	}
	if len(it.children) >= 4 {
		forms["keys out of order"] = with(slices.Concat(it.children[2:4], it.children[:2], it.children[4:])...)
	}
}

// length is what the head holds.
func (it *item) length() uint64 {
	switch it.major {
	case byteString, textString:
		return uint64(len(it.content))
	case array:
		return uint64(len(it.children))
	case mapping:
		return uint64(len(it.children) / 2)
	default:
		return it.argument
	}
}

// TestAbsentAsEmpty writes what a record leaves out as null, undefined, zero or
// empty: refused, or a record could be written in two ways.
func TestAbsentAsEmpty(t *testing.T) {
	absentAsEmpty(t, recordtest.Shortest(), []optional{
		{nil, []uint64{4, 6, 10, 13, 14, 15, 16, 17, 18, 19, 20, 21}},
		{[]uint64{7}, []uint64{2, 3, 5, 9, 10}},
		{[]uint64{8}, []uint64{5, 6, 7, 8}},
		{[]uint64{8, 3}, []uint64{2, 4, 5}},
		{[]uint64{9}, []uint64{1, 2, 3}},
		{[]uint64{11, 4}, []uint64{2, 3, 4}},
		{[]uint64{22}, []uint64{3, 4}},
	})
	// The second fluid, of which little is said, and its balance.
	absentAsEmpty(t, recordtest.Accounted(), []optional{
		{[]uint64{14, 1}, []uint64{7, 8, 9, 10, 11, 12, 13, 15, 16, 19}},
		{[]uint64{14, 1, 20}, []uint64{3, 4, 5, 6, 7, 8, 9, 10}},
		{[]uint64{16, 1}, []uint64{3, 4}},
		{[]uint64{16, 0}, []uint64{5}},
	})
}

// optional is keys that a record leaves out, in the map at the path.
type optional struct{ path, keys []uint64 }

func absentAsEmpty(t *testing.T, r *record.Record, left []optional) {
	t.Helper()
	data := encoded(t, r)
	for _, optional := range left {
		for _, key := range optional.keys {
			for _, empty := range []string{"\xf6", "\xf7", "\x00", "\x60", "\x40", "\x80", "\xa0", "\xf4"} {
				root, _ := parse(t, data)
				root.at(t, optional.path).insert(key, []byte(empty))
				if _, err := record.Decode(root.bytes()); err == nil {
					t.Errorf("%v: key %d read as %x", optional.path, key, empty)
				}
			}
		}
	}
}

// insert adds a pair in its place.
func (it *item) insert(key uint64, value []byte) {
	i := 0
	for i < len(it.children) && it.children[i].argument < key {
		i += 2
	}
	it.children = slices.Insert(it.children, i, &item{argument: key}, &item{raw: value})
}

func TestTrailingAndTruncated(t *testing.T) {
	data := encoded(t, recordtest.Example())
	for n := range len(data) {
		if _, err := record.Decode(data[:n]); err == nil {
			t.Errorf("read %d of %d bytes", n, len(data))
		}
	}
	for _, tail := range []string{"\x00", "\xf6", "\xa0", "\xff", string(data)} {
		if _, err := record.Decode(append(slices.Clone(data), tail...)); err == nil {
			t.Errorf("read with %x behind it", tail)
		}
	}
}

func TestBounds(t *testing.T) {
	deep := bytes.Repeat([]byte{0x81}, 2000)
	wide := append([]byte{0x9a, 0x7f, 0xff, 0xff, 0xff}, make([]byte, 100)...)
	example := encoded(t, recordtest.Example())
	for name, data := range map[string][]byte{
		"nothing": {}, "nested arrays": deep, "a promise of two thousand million entries": wide,
		"nested in a field":  replaced(t, example, []uint64{12}, deep),
		"promised in a list": replaced(t, example, []uint64{12}, wide),
		"129 findings":       replaced(t, example, []uint64{19}, append([]byte{0x98, 129}, bytes.Repeat([]byte{0xa0}, 129)...)),
		"33 pairs":           replaced(t, example, []uint64{7}, append([]byte{0xb8, 33}, bytes.Repeat([]byte{1, 1}, 33)...)),
	} {
		if _, err := record.Decode(data); err == nil {
			t.Errorf("%s: read", name)
		}
	}
}

func TestOversize(t *testing.T) {
	r := recordtest.Longest()
	for i := range r.Parts {
		r.Parts[i].Number = strings.Repeat("9", record.MaxText)
	}
	want := "record takes 9419 bytes, at most 8192 fit: shorten notes and reasons"
	if _, err := record.Encode(r); err == nil || err.Error() != want {
		t.Errorf("encode: %v, want %s", err, want)
	}
	notes := item{major: textString, content: bytes.Repeat([]byte{'x'}, record.MaxBytes)}
	big := replaced(t, encoded(t, recordtest.Example()), []uint64{20}, notes.bytes())
	want = fmt.Sprintf("record takes %d bytes, at most 8192 are allowed", len(big))
	if _, err := record.Decode(big); err == nil || err.Error() != want {
		t.Errorf("decode: %v, want %s", err, want)
	}
}

// TestErrorsAreClean: what refuses a hostile record never repeats its text.
func TestErrorsAreClean(t *testing.T) {
	example := encoded(t, recordtest.Example())
	hostile := "\x1b]0;owned\x07\u202e\u200b"
	for _, path := range [][]uint64{{4}, {7, 1}, {7, 8}, {9, 1}, {12, 0, 1}, {12, 4, 11, 0, 1}, {12, 4, 11, 0, 2, 3}, {14, 0, 1}, {19, 1, 7}, {20}, {22, 1}} {
		it := item{major: textString, content: []byte(hostile)}
		_, err := record.Decode(replaced(t, example, path, it.bytes()))
		if err == nil || strings.ContainsAny(err.Error(), hostile[:1]+"\x07\u202e\u200b") {
			t.Errorf("%v: %q", path, fmt.Sprint(err))
		}
	}
}
