package record_test

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"hourseal/record"
)

// A leaf is a field of a record that holds no other fields, with the keys and
// places that lead to it.
type leaf struct {
	name string // "Tasks.Due.Hours"
	path []uint64
	of   reflect.Type
	// in makes room for the field in a record and gives it back.
	in func(*record.Record) reflect.Value
}

// leaves finds all of them by the struct tags, so that no field can be
// forgotten here.
func leaves(t *testing.T) []leaf {
	t.Helper()
	var found []leaf
	var walk func(leaf)
	walk = func(at leaf) {
		switch at.of.Kind() {
		case reflect.Pointer:
			walk(leaf{at.name, at.path, at.of.Elem(), func(r *record.Record) reflect.Value {
				v := at.in(r)
				v.Set(reflect.New(at.of.Elem()))
				return v.Elem()
			}})
		case reflect.Slice:
			walk(leaf{at.name, append(at.path[:len(at.path):len(at.path)], 0), at.of.Elem(), func(r *record.Record) reflect.Value {
				v := at.in(r)
				v.Set(reflect.MakeSlice(at.of, 1, 1))
				return v.Index(0)
			}})
		case reflect.Struct:
			for i := range at.of.NumField() {
				f := at.of.Field(i)
				key, _, _ := strings.Cut(f.Tag.Get("cbor"), ",")
				path := append(at.path[:len(at.path):len(at.path)], uint64(whole(t, key)))
				walk(leaf{strings.TrimPrefix(at.name+"."+f.Name, "."), path, f.Type, func(r *record.Record) reflect.Value {
					return at.in(r).Field(i)
				}})
			}
		default:
			found = append(found, at)
		}
	}
	walk(leaf{of: reflect.TypeFor[record.Record](), in: func(r *record.Record) reflect.Value { return reflect.ValueOf(r).Elem() }})
	return found
}

// values are non-zero ones of a field's type, the ends of its range among them.
func (l leaf) values(t *testing.T) []any {
	t.Helper()
	switch l.of.Kind() {
	case reflect.Bool:
		return []any{true}
	case reflect.String:
		return []any{"x", "Größe 水", strings.Repeat("y", 300)}
	case reflect.Array:
		return []any{[32]byte{1, 31: 2}}
	case reflect.Int64:
		return []any{int64(1), int64(-1), int64(23), int64(24), int64(-24), int64(-25), int64(math.MaxInt64), int64(math.MinInt64)}
	case reflect.Uint8:
		return []any{uint8(1), uint8(math.MaxUint8)}
	case reflect.Uint16:
		return []any{uint16(1), uint16(math.MaxUint16)}
	case reflect.Uint32:
		return []any{uint32(1), uint32(math.MaxUint32)}
	case reflect.Uint:
		return []any{uint(1), uint(math.MaxInt)}
	default:
		t.Fatalf("%s: no values of %v", l.name, l.of)
		return nil
	}
}

// TestEveryField sets each field alone, in a record that says nothing else: the
// reader must read it, and as the second decoder does.
func TestEveryField(t *testing.T) {
	all := leaves(t)
	for _, l := range all {
		for _, value := range l.values(t) {
			want := record.Record{Tasks: []record.Task{}} // the one list that is there when it is empty
			l.in(&want).Set(reflect.ValueOf(value).Convert(l.of))
			data, err := record.EncMode.Marshal(want)
			if err != nil {
				t.Fatal(err)
			}
			got, err := record.Read(data)
			if err != nil || !reflect.DeepEqual(got, &want) {
				t.Errorf("%s = %v: %v, %+v", l.name, value, err, got)
			}
			if second, err := secondRead(data); err != nil || !reflect.DeepEqual(second, &want) {
				t.Errorf("%s = %v, by the second decoder: %v, %+v", l.name, value, err, second)
			}
		}
	}
	if len(all) < 146 { // as many as format 1 began with
		t.Errorf("%d fields were found", len(all))
	}
	t.Logf("%d fields", len(all))
}

// TestAllFields sets all of them at once, two entries to each list: none is read
// out of order, and none into another.
func TestAllFields(t *testing.T) {
	var want record.Record
	n := uint64(0)
	fill(reflect.ValueOf(&want).Elem(), &n)
	data, err := record.EncMode.Marshal(want)
	if err != nil {
		t.Fatal(err)
	}
	if got, err := record.Read(data); err != nil || !reflect.DeepEqual(got, &want) {
		t.Errorf("%v, %+v", err, got)
	}
	if second, err := secondRead(data); err != nil || !reflect.DeepEqual(second, &want) {
		t.Errorf("by the second decoder: %v, %+v", err, second)
	}
}

// fill sets a value and all within it, one after the other to the next number
// (of small types, as much of it as fits).
func fill(v reflect.Value, n *uint64) {
	*n++
	switch v.Kind() {
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		fill(v.Elem(), n)
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		fill(v.Index(0), n)
		fill(v.Index(1), n)
	case reflect.Struct:
		for i := range v.NumField() {
			fill(v.Field(i), n)
		}
	case reflect.Array:
		v.Index(0).SetUint(*n & 255)
	case reflect.String:
		v.SetString(fmt.Sprint("text ", *n))
	case reflect.Bool:
		v.SetBool(true)
	case reflect.Int64:
		v.SetInt(-int64(*n))
	case reflect.Uint8:
		v.SetUint(*n%255 + 1)
	default:
		v.SetUint(*n)
	}
}

// TestEveryFieldInRange puts numbers beyond each field's type in its place: they
// are refused and never cut down to fit.
func TestEveryFieldInRange(t *testing.T) {
	const (
		minus1     = "\x20"
		over8      = "\x19\x01\x01"
		over16     = "\x1a\x00\x01\x00\x01"
		over32     = "\x1b\x00\x00\x00\x01\x00\x00\x00\x01"
		over63     = "\x1b\x80\x00\x00\x00\x00\x00\x00\x01"
		under63    = "\x3b\x80\x00\x00\x00\x00\x00\x00\x00"
		over8Below = "\x38\xfe" // -255
	)
	beyond := map[reflect.Kind][]string{
		reflect.Int64:  {over63, under63},
		reflect.Uint:   {over63, under63, minus1, over8Below},
		reflect.Uint32: {over63, under63, minus1, over32, over8Below},
		reflect.Uint16: {over63, under63, minus1, over32, over16, over8Below},
		reflect.Uint8:  {over63, under63, minus1, over32, over16, over8, over8Below},
	}
	tried := 0
	for _, l := range leaves(t) {
		for _, number := range beyond[l.of.Kind()] {
			r := record.Record{Tasks: []record.Task{}}
			l.in(&r).Set(reflect.ValueOf(l.values(t)[0]).Convert(l.of))
			data, err := record.EncMode.Marshal(r)
			if err != nil {
				t.Fatal(err)
			}
			_, err = record.Read(replaced(t, data, l.path, []byte(number)))
			if err == nil || !strings.HasSuffix(err.Error(), "is out of range") {
				t.Errorf("%s = %x: %v", l.name, number, err)
			}
			tried++
		}
	}
	t.Logf("%d numbers", tried)
}
