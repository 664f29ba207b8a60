package qrtext

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
)

// The parts that there are name the record, and the error about the others does too.
func TestMissingPartsNameTheRecord(t *testing.T) {
	envelope := recordLike(2600)
	texts, err := Encode(envelope, testHost)
	if err != nil || len(texts) != 3 {
		t.Fatal(len(texts), err)
	}
	_, err = Decode(texts[1:2])
	missing, ok := errors.AsType[*MissingPartsError](err)
	if !ok {
		t.Fatal(err)
	}
	if !slices.Equal(missing.Missing, []int{1, 3}) || missing.Count != 3 || missing.Record != PartsName(envelope) || missing.Dictionary != 1 {
		t.Errorf("%+v, want record %d", missing, PartsName(envelope))
	}
}

func TestSameRecord(t *testing.T) {
	part := Part{Host: testHost, Number: 1, Count: 3, Record: 4711, Dictionary: 1, digits: "123"}
	for what, c := range map[string]struct {
		change func(p *Part)
		same   bool
	}{
		"itself":         {func(*Part) {}, true},
		"another part":   {func(p *Part) { p.Number, p.digits = 2, "456" }, true},
		"another host":   {func(p *Part) { p.Host = "" }, true},
		"another record": {func(p *Part) { p.Record++ }, false},
		"another count":  {func(p *Part) { p.Count++ }, false},
		"older":          {func(p *Part) { p.Dictionary = 0 }, false},
	} {
		other := part
		c.change(&other)
		if part.SameRecord(other) != c.same || other.SameRecord(part) != c.same {
			t.Errorf("%s: want %t", what, c.same)
		}
	}
	whole := Part{Dictionary: 1, digits: "123"}
	if whole.SameRecord(whole) {
		t.Error("a whole record is a part")
	}
}

// TestParseFragment: it is Parse without the host, and counts from the "#".
func TestParseFragment(t *testing.T) {
	texts, err := Encode([]byte("Gannet, port engine"), testHost)
	if err != nil {
		t.Fatal(err)
	}
	whole, err := Parse(texts[0])
	if err != nil {
		t.Fatal(err)
	}
	fragment := texts[0][strings.Index(texts[0], "#"):]
	whole.Host = ""
	for _, given := range []string{fragment, " " + fragment + "\r\n"} {
		if part, err := ParseFragment(given); err != nil || part != whole {
			t.Errorf("%q: %+v, %v", given, part, err)
		}
	}
	for given, want := range map[string]string{
		"#41234x": "damaged QR text: character 7 is not a digit",
		"# 1":     "damaged QR text: character 2 is not a digit",
		"#":       "damaged QR text: no digits",
		"#9123":   "damaged QR text: format 9 is not known; a newer program may read it",
		"41234":   ErrNotOurs.Error(),
		texts[0]:  ErrNotOurs.Error(),
		"":        ErrNotOurs.Error(),
	} {
		if _, err := ParseFragment(given); fmt.Sprint(err) != want {
			t.Errorf("%q: %v, want %s", given, err, want)
		}
	}
	if _, err := ParseFragment("#304551610629242096404"); !isReference(err) {
		t.Errorf("a label: %v", err)
	}
}

func isReference(err error) bool {
	_, is := errors.AsType[*ReferenceError](err)
	return is
}
