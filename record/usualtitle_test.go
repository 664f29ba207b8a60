package record_test

import (
	"bytes"
	"errors"
	"testing"

	"hourseal/record"
	"hourseal/record/recordtest"
)

// TestTitleInBytes: a usual title is left out, any other stands there, and each
// is refused in the other form.
func TestTitleInBytes(t *testing.T) {
	usual, own := recordtest.Example(), recordtest.Example()
	own.Tasks[0].Title = "Change the oil, warm"
	withUsual, withOwn := encoded(t, usual), encoded(t, own)
	if usual.Tasks[0].Title != "Change the engine oil" {
		t.Error("encoding changed the record")
	}
	if bytes.Contains(withUsual, []byte("Change the")) || !bytes.Contains(withOwn, []byte("Change the oil, warm")) {
		t.Error("the wrong title stands in the bytes")
	}
	for _, data := range [][]byte{withUsual, withOwn} {
		r, err := record.Decode(data)
		if err != nil || bytes.Equal(data, withUsual) != (r.Tasks[0].Title == "Change the engine oil") {
			t.Errorf("%v: %+v", err, r)
		}
	}
	written := item{major: textString, content: []byte("Change the engine oil")}
	if _, err := record.Decode(replaced(t, withOwn, []uint64{12, 0, 2}, written.bytes())); !errors.Is(err, record.ErrNotCanonical) {
		t.Errorf("usual title written out: %v", err)
	}
	// An id without a usual title must have one of its own.
	other := item{major: textString, content: []byte("other")}
	if _, err := record.Decode(replaced(t, withUsual, []uint64{12, 0, 1}, other.bytes())); err == nil || err.Error() != "task 1: title: is empty" {
		t.Errorf("no title: %v", err)
	}
}
