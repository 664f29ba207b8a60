package record_test

import (
	"bytes"
	"encoding/hex"
	"encoding/json"
	"os"
	"strings"
	"testing"

	"github.com/fxamacker/cbor/v2"

	"hourseal/record"
	"hourseal/record/recordtest"
)

type vector struct {
	Hex        string
	Diagnostic string
}

func (v vector) bytes(t testing.TB) []byte {
	t.Helper()
	data, err := hex.DecodeString(v.Hex)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// vectors are the examples of RFC 8949, Appendix A.
func vectors(t testing.TB) []vector {
	t.Helper()
	data, err := os.ReadFile("../testdata/vectors/rfc8949-appendix-a.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct{ Cases []vector }
	if err := json.Unmarshal(data, &file); err != nil {
		t.Fatal(err)
	}
	if len(file.Cases) != 82 {
		t.Fatalf("%d cases, want 82", len(file.Cases))
	}
	return file.Cases
}

// refusedBy says why the decode mode must refuse an example, "" when it must
// not; read off the first byte and the diagnostic notation, by the package's
// rules. What passes here and has no place in a record is refused by the types
// and by comparing bytes, which TestVectorsInRecord holds.
func refusedBy(v vector, data []byte) string {
	switch major := data[0] >> 5; {
	case major == 6:
		return "a tag"
	case strings.Contains(v.Diagnostic, "_ "):
		return "an indefinite length"
	case v.Diagnostic == "NaN" || strings.Contains(v.Diagnostic, "Infinity"):
		return "no number"
	case v.Diagnostic == "simple(24)":
		return "not well-formed"
	default:
		return ""
	}
}

// TestVectors: RFC 8949, Appendix A. Every example is taken or refused as the
// format says, and what is taken and deterministic (section 4.2.1) is encoded in
// the same bytes.
func TestVectors(t *testing.T) {
	taken := 0
	for _, v := range vectors(t) {
		data := v.bytes(t)
		var value any
		err := record.DecMode.Unmarshal(data, &value)
		if why := refusedBy(v, data); (err != nil) != (why != "") {
			t.Errorf("%s %s: error %v, want one for: %q", v.Hex, v.Diagnostic, err, why)
		}
		if err != nil {
			continue
		}
		taken++
		again, err := record.EncMode.Marshal(value)
		// undefined comes out as null: neither has a place in a record.
		if err != nil || !bytes.Equal(again, data) && v.Hex != "f7" {
			t.Errorf("%s %s: encoded again as %x, %v", v.Hex, v.Diagnostic, again, err)
		}
	}
	// All but 8 tags, 11 indefinite lengths, 9 of no number, 1 not well-formed.
	if want := 82 - 8 - 11 - 9 - 1; taken != want {
		t.Errorf("%d examples were taken, want %d", taken, want)
	}
}

// TestVectorsRead: the decoder reads the examples of our types as the values
// that the appendix prints.
func TestVectorsRead(t *testing.T) {
	for _, v := range vectors(t) {
		data := v.bytes(t)
		major := data[0] >> 5
		if refusedBy(v, data) != "" || major == 7 && data[0] > 0xf5 {
			continue
		}
		got, err := cbor.Diagnose(data)
		if major == textString { // the appendix prints letters that the decoder writes as escapes
			got, v.Diagnostic = unquoted(t, got), unquoted(t, v.Diagnostic)
		}
		if err != nil || got != v.Diagnostic {
			t.Errorf("%s: %s, %v; want %s", v.Hex, got, err, v.Diagnostic)
		}
	}
}

func unquoted(t testing.TB, text string) (plain string) {
	t.Helper()
	if err := json.Unmarshal([]byte(text), &plain); err != nil {
		t.Fatal(err)
	}
	return plain
}

// TestVectorsInRecord puts every example in the place of a field of each of our
// types. Only those that the field can hold pass; all other forms of the same
// numbers and texts are refused.
func TestVectorsInRecord(t *testing.T) {
	example := encoded(t, recordtest.Example())
	for _, c := range []struct {
		field string
		path  []uint64
		takes string
	}{
		{"notes", []uint64{20}, `"a" "IETF" "\"\\" "ü" "水"`},
		{"issued at", []uint64{24}, `0 1 10 23 24 25 100 1000 1000000`},
		{"rated power", []uint64{7, 9}, `1 10 23 24 25 100 1000 1000000`},
		{"date", []uint64{8, 1}, `0 1 10 23 24 25 100 1000 -1 -10 -100 -1000`},
		{"kind", []uint64{5}, `1`},
		{"digest", []uint64{11, 5}, ``},
		{"tasks", []uint64{12}, `[]`},
		{"technician", []uint64{9}, `{}`},
		{"leeway", []uint64{12, 0, 5}, `{}`},
		{"drained includes filter", []uint64{14, 0, 4}, `false true`},
	} {
		for _, v := range vectors(t) {
			data := replaced(t, example, c.path, v.bytes(t))
			_, err := record.Decode(data)
			if wanted := contains(c.takes, v.Diagnostic); (err == nil) != wanted {
				t.Errorf("%s = %s %s: %v", c.field, v.Hex, v.Diagnostic, err)
			}
		}
	}
}

// contains finds one of the values that are written with gaps between them.
func contains(list, value string) bool {
	return strings.Contains(" "+list+" ", " "+value+" ")
}

func encoded(t testing.TB, r *record.Record) []byte {
	t.Helper()
	data, err := record.Encode(r)
	if err != nil {
		t.Fatal(err)
	}
	return data
}
