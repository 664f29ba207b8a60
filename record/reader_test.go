package record_test

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/recordtest"
)

// TestReaderItself: what the reader refuses before the bytes are compared, so
// that a hostile record costs little. The comparison would refuse it all.
func TestReaderItself(t *testing.T) {
	otherForm := record.ErrNotCanonical.Error()
	for _, c := range []struct {
		name    string
		data    string
		message string // "" for none
	}{
		{"a map", "\xa1\x01\x61a", ""},
		{"an empty map", "\xa0", ""},
		{"all fields", "\xa3\x01\x61a\x02\x61b\x03\x61c", ""},
		{"nothing", "", "technician: the bytes end before it does"},
		{"a list", "\x80", "technician: is no map"},
		{"null", "\xf6", otherForm},
		{"undefined", "\xf7", otherForm},
		{"a key twice", "\xa2\x01\x61a\x01\x61b", "technician: key 1 stands twice"},
		{"keys out of order", "\xa2\x02\x61a\x01\x61b", otherForm},
		{"key 0", "\xa1\x00\x61a", "technician: unknown key 0"},
		{"an unknown key", "\xa1\x09\x61a", "technician: unknown key 9"},
		{"the largest key", "\xa1\x1b\xff\xff\xff\xff\xff\xff\xff\xff\x61a", "technician: unknown key 18446744073709551615"},
		{"a text key", "\xa1\x611\x61a", "technician, key: is no number from 0"},
		{"a negative key", "\xa1\x20\x61a", "technician, key: is no number from 0"},
		{"a longer key", "\xa1\x18\x01\x61a", otherForm},
		{"a longer head", "\xb8\x01\x01\x61a", otherForm},
		{"a longer length", "\xa1\x01\x78\x01a", otherForm},
		{"indefinite map", "\xbf\x01\x61a\xff", "technician: has no stated length"},
		{"indefinite text", "\xa1\x01\x7f\x61a\xff", "technician, number: has no stated length"},
		{"reserved length", "\xa1\x01\x7c", "technician, number: is not well-formed CBOR"},
		{"a tag", "\xc1\xa1\x01\x61a", "technician: is no map"},
		{"bytes for text", "\xa1\x01\x41a", "technician, number: is no text"},
		{"null for text", "\xa1\x01\xf6", otherForm},
		{"broken UTF-8", "\xa1\x01\x61\xff", "technician, number: is not valid UTF-8"},
		{"trailing byte", "\xa1\x01\x61a\x00", "record: more bytes stand behind it"},
		{"text cut short", "\xa1\x01\x62a", "technician, number: the bytes end before it does"},
		{"head cut short", "\xa1\x01\x79\x01", "technician, number: the bytes end before it does"},
		{"value missing", "\xa1\x01", "technician, number: the bytes end before it does"},
		{"more pairs than bytes", "\xa2\x01\x61a", "technician, key: the bytes end before it does"},
		{"a text beyond all", "\xa1\x01\x7b\xff\xff\xff\xff\xff\xff\xff\xff", "technician, number: the bytes end before it does"},
		{"a map beyond all", "\xbb\xff\xff\xff\xff\xff\xff\xff\xff", "technician, key: the bytes end before it does"},
	} {
		_, err := record.ReadTechnician([]byte(c.data))
		if message(err) != c.message {
			t.Errorf("%s: %q, want %q", c.name, message(err), c.message)
		}
		if errors.Is(err, record.ErrNotCanonical) != (c.message == otherForm) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

// TestReaderSaysWhere: a fault has the place it is in, from outside to inside.
func TestReaderSaysWhere(t *testing.T) {
	example := encoded(t, recordtest.Example())
	for _, c := range []struct {
		path    []uint64
		value   string
		message string
	}{
		{nil, "\x80", "record: is no map"},
		{nil, "\xa1\x18\x19\x00", "record: unknown key 25"},
		{[]uint64{3}, "\x19\x01\x01", "paper: 257 is out of range"},
		{[]uint64{7}, "\x00", "machine: is no map"},
		{[]uint64{7, 11, 2}, "\x61a", "machine, in service, hours: is no whole number"},
		{[]uint64{8, 3, 2}, "\x80", "job, meter, reading: is no whole number"},
		{[]uint64{11, 4}, "\x41a", "schedule, digest: 1 bytes, a digest has 32"},
		{[]uint64{11, 4}, "\x58\x21" + strings.Repeat("a", 33), "schedule, digest: 33 bytes, a digest has 32"},
		{[]uint64{12}, "\xa0", "tasks: is no list"},
		{[]uint64{12, 2}, "\x00", "task 3: is no map"},
		{[]uint64{12, 2, 7}, "\xa1\x03\x00", "task 3, due: unknown key 3"},
		{[]uint64{12, 2, 7, 1}, "\xf5", "task 3, due, hours: is no whole number"},
		{[]uint64{12, 4, 11, 0, 2, 3}, "\x00", "task 5, reading 1, value, unit: is no text"},
		{[]uint64{14, 0, 4}, "\x01", "fluid 1, with filter: is no true or false"},
		{[]uint64{14, 0, 5, 1, 1, 2}, "\x20", "fluid 1, filled, amount 2, unit: -1 is out of range"},
		{[]uint64{14, 0, 5, 1}, "\x00", "fluid 1, filled: is no list"},
		{[]uint64{14, 0, 10, 0}, "\x00", "fluid 1, meets 1: is no text"},
		{[]uint64{20}, "\x61\xff", "notes: is not valid UTF-8"},
	} {
		data := []byte(c.value)
		if len(c.path) > 0 {
			data = replaced(t, example, c.path, data)
		}
		if _, err := record.Decode(data); message(err) != c.message {
			t.Errorf("%v = %x: %q, want %q", c.path, c.value, message(err), c.message)
		}
	}
	if _, err := record.Decode(append(bytes.Clone(example), 0)); message(err) != "record: more bytes stand behind it" {
		t.Errorf("a byte more: %v", err)
	}
}

// TestListLimits: each list takes as many entries as the format allows and not
// one more, and none that the bytes left cannot hold.
func TestListLimits(t *testing.T) {
	longest := encoded(t, recordtest.Longest())
	for _, c := range []struct {
		path  []uint64
		name  string
		limit int
		entry string
	}{
		{[]uint64{12}, "tasks", record.MaxTasks, "\xa0"},
		{[]uint64{13}, "other work", record.MaxOtherWork, "\xa0"},
		{[]uint64{14}, "fluids", record.MaxFluids, "\xa0"},
		{[]uint64{15}, "topped up", record.MaxTopUps, "\xa0"},
		{[]uint64{16}, "waste", record.MaxWaste, "\xa0"},
		{[]uint64{17}, "parts", record.MaxParts, "\xa0"},
		{[]uint64{19}, "findings", record.MaxFindings, "\xa0"},
		{[]uint64{21}, "files", record.MaxFiles, "\xa0"},
		{[]uint64{12, record.MaxTasks - 1, 11}, "task 64, readings", record.MaxReadings, "\xa0"},
		{[]uint64{14, 0, 10}, "fluid 1, meets", record.MaxMeets, "\x60"},
		{[]uint64{14, 0, 5, 1}, "fluid 1, filled", quantity.MaxPortions, "\xa0"},
	} {
		list := func(n int) error {
			it := item{major: array}
			for range n {
				it.children = append(it.children, &item{raw: []byte(c.entry)})
			}
			_, err := record.Read(replaced(t, longest, c.path, it.bytes()))
			return err
		}
		if err := list(c.limit); err != nil {
			t.Errorf("%s, %d: %v", c.name, c.limit, err)
		}
		want := fmt.Sprintf("%s: %d entries, at most %d fit", c.name, c.limit+1, c.limit)
		if err := list(c.limit + 1); message(err) != want {
			t.Errorf("%q, want %q", message(err), want)
		}
		// Cut off behind the head: refused at the list, not at its first entry.
		root, _ := parse(t, longest)
		cut := root.at(t, c.path)
		head := (&item{major: array, children: make([]*item, c.limit)}).head()
		cut.raw = append(head, "\xffcut"...)
		data := root.bytes()
		data = data[:bytes.Index(data, cut.raw)+len(head)]
		if _, err := record.Read(data); message(err) != c.name+": the bytes end before it does" {
			t.Errorf("%s, cut off: %q", c.name, message(err))
		}
	}
}
