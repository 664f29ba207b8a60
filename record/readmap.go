package record

import "fmt"

// fields walks the pairs of a map, whose keys are small whole numbers in
// ascending order. Each field is asked for once, by ascending keys, and read
// where it is there; end then finds what was not asked for:
//
//	f := r.fields("due")
//	if f.has(1) {
//		v.Hours = new(number[quantity.Hours](r, "hours"))
//	}
//	f.end()
//
// Asking costs less than a loop with a switch over the keys, which was measured
// to take a quarter longer on the example record.
type fields struct {
	r     *reader
	place string
	left  uint64 // pairs
	last  byte   // key that was there; 0 before the first
}

// fields begins a map. An entry of a list has no place of its own: the list
// says it.
func (r *reader) fields(place string) fields {
	return fields{r: r, place: place, left: r.head("", mapping)}
}

// has says whether the next key is this one, and goes on to its value.
func (f *fields) has(key byte) bool {
	r := f.r
	switch {
	case f.left == 0:
		return false
	case key >= 24: // it takes a second byte
		if len(r.data)-r.at < 2 || r.data[r.at] != positive|24 || r.data[r.at+1] != key {
			return false
		}
		r.at += 2
	case r.at >= len(r.data) || r.data[r.at] != key:
		return false
	default:
		r.at++
	}
	f.left--
	f.last = key
	return true
}

// end refuses pairs that are left over, and puts the map's place before a fault.
func (f *fields) end() {
	if f.left > 0 || f.r.fault != nil {
		f.badEnd()
	}
}

func (f *fields) badEnd() {
	if f.r.fault == nil {
		key := f.r.head("key", positive)
		f.r.fail("", f.leftOver(key))
	}
	f.r.inside(f.place)
}

// leftOver is the fault of a key that was not asked for. Any above the last that
// was there has been asked for, if there is such a field.
func (f *fields) leftOver(key uint64) error {
	switch last := uint64(f.last); {
	case key > last || key == 0:
		return fmt.Errorf("unknown key %d", key)
	case key == last:
		return fmt.Errorf("key %d stands twice", key)
	default:
		return ErrNotCanonical // out of order
	}
}

// list reads a list of at most limit entries. Faults have the place of the list
// ("tasks"), or of one entry ("task 3"). More entries than the bytes left can
// hold, of which each takes one at least, are refused before any memory is taken
// for them.
func list[T any](r *reader, place string, limit uint64, entry string, read func(*reader, *T)) []T {
	n := r.head(place, array)
	switch {
	case n > limit:
		r.fail(place, fmt.Errorf("%d entries, at most %d fit", n, limit))
	case n > uint64(len(r.data)-r.at):
		r.fail(place, errEndsEarly)
	}
	if r.fault != nil {
		return nil
	}
	entries := make([]T, n)
	for i := range entries {
		if read(r, &entries[i]); r.fault != nil {
			r.inside(fmt.Sprintf("%s %d", entry, i+1))
			return nil
		}
	}
	return entries
}
