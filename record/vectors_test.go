package record_test

import (
	"bytes"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"os"
	"reflect"
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

// refusedBy says why the second decoder must refuse an example, "" when it must
// not; read off the first byte and the diagnostic notation, by the package's
// rules. It takes more than the reader does: TestVectorsByReader and
// TestVectorsInRecord hold ours.
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

// TestVectors: RFC 8949, Appendix A. The second decoder takes or refuses every
// example as its mode says, and what is taken and deterministic (section 4.2.1) is encoded in
// the same bytes.
func TestVectors(t *testing.T) {
	taken := 0
	for _, v := range vectors(t) {
		data := v.bytes(t)
		var value any
		err := strict.Unmarshal(data, &value)
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

// TestVectorsRead: the second decoder's library reads the examples of our types as the values
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

// TestVectorsByReader: the reader takes an example only as the kind of item that
// it is, as the value that the appendix prints, and all else as nothing.
func TestVectorsByReader(t *testing.T) {
	taken := map[string]int{}
	for _, v := range vectors(t) {
		data := v.bytes(t)
		for kind, read := range map[string]func([]byte) (string, error){
			"number": shown(record.ReadNumber), "text": shown(record.ReadText), "true or false": shown(record.ReadTruth),
			"bytes": func(data []byte) (string, error) {
				content, err := record.ReadBytes(data)
				return fmt.Sprintf("h'%x'", content), err
			},
			"list": shown(record.ReadList), "map": shown(record.ReadMap),
		} {
			got, err := read(data)
			want := kindOf(v, data) == kind
			switch {
			case (err == nil) != want:
				t.Errorf("%s %s as %s: %v", v.Hex, v.Diagnostic, kind, err)
			case want && kind == "text":
				if got, want := unquoted(t, got), unquoted(t, v.Diagnostic); got != want {
					t.Errorf("%s: %q, want %q", v.Hex, got, want)
				}
				taken[kind]++
			case want:
				if got = strings.NewReplacer(",", ", ", ":", ": ", `"`, "").Replace(got); got != v.Diagnostic {
					t.Errorf("%s: %s, want %s", v.Hex, got, v.Diagnostic)
				}
				taken[kind]++
			}
		}
		if _, err := record.ReadDigest(data); err == nil {
			t.Errorf("%s %s read as a digest", v.Hex, v.Diagnostic)
		}
	}
	// Counted in the appendix.
	if want := map[string]int{"number": 14, "text": 7, "bytes": 2, "true or false": 2, "list": 3, "map": 2}; !reflect.DeepEqual(taken, want) {
		t.Errorf("%v were taken, want %v", taken, want)
	}
}

// shown reads an item and writes it as JSON, which for what the reader takes is
// the appendix's notation but for gaps and quotes.
func shown[T any](read func([]byte) (T, error)) func([]byte) (string, error) {
	return func(data []byte) (string, error) {
		v, err := read(data)
		text, _ := json.Marshal(v)
		return string(text), err
	}
}

// kindOf is the kind of item that the reader must take an example for, "" for
// none: numbers within 64 bits with a sign, strings, flat lists of numbers and
// maps from number to number, all of stated length; read off the first byte and
// the notation.
func kindOf(v vector, data []byte) string {
	inside := v.Diagnostic[1:]
	switch major := data[0] >> 5; {
	case strings.Contains(v.Diagnostic, "_ "):
		return ""
	case major <= negative && len(v.Diagnostic) < len("9223372036854775807"):
		return "number"
	case major == textString:
		return "text"
	case major == byteString:
		return "bytes"
	case major == array && !strings.ContainsAny(inside, `["{`):
		return "list"
	case major == mapping && !strings.ContainsAny(inside, `["{`):
		return "map"
	case v.Diagnostic == "true" || v.Diagnostic == "false":
		return "true or false"
	default:
		return ""
	}
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
		{"digest", []uint64{11, 4}, ``},
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
