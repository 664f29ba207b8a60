package qrtext

import (
	"errors"
	"slices"
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
