package enrol_test

import (
	"slices"
	"strings"
	"testing"

	"hourseal/record/dialogue"
	"hourseal/record/enrol"
	"hourseal/record/schedule"
)

func TestOwnScript(t *testing.T) {
	in := enrol.OwnInput{Schedules: yardInput(t).Schedules, Yard: "Ellery Slip Boatyard", Printable: func(string) error { return nil }}
	for _, c := range []struct {
		name    string
		stated  enrol.Own
		answers map[string]string
		keys    []string
		want    enrol.Own
	}{
		{"all offers", enrol.Own{}, map[string]string{"from": "1"}, []string{"from", "basis", "document", "title"},
			enrol.Own{"diesel-generator", "Diesel generator on board, Ellery Slip Boatyard", schedule.Basis{Kind: schedule.Yard}}},
		{"a maker's", enrol.Own{From: "diesel-inboard"}, map[string]string{"basis": "m", "document": "Corrin 4T-75 handbook", "edition": "3"}, []string{"basis", "document", "edition", "page", "title"},
			enrol.Own{"diesel-inboard", "Inboard diesel", schedule.Basis{Kind: schedule.Maker, Document: "Corrin 4T-75 handbook", Edition: "3"}}},
		{"the yard's sheet", enrol.Own{From: "diesel-inboard", Title: "Ours"}, map[string]string{"document": "own sheet", "edition": "2", "page": "1"}, []string{"basis", "document", "edition", "page"},
			enrol.Own{"diesel-inboard", "Ours", schedule.Basis{Kind: schedule.Yard, Document: "own sheet", Edition: "2", Page: "1"}}},
		{"as it was", enrol.Own{From: "sail-drive"}, map[string]string{"basis": "common practice"}, []string{"basis", "document", "title"},
			enrol.Own{"sail-drive", "Sail drive, common practice (the maker's handbook governs)", schedule.Basis{Kind: schedule.CommonPractice}}},
		{"all stated", enrol.Own{"sail-drive", "Ours", schedule.Basis{Kind: schedule.Yard, Document: "own sheet", Edition: "2", Page: "1"}}, nil, nil,
			enrol.Own{"sail-drive", "Ours", schedule.Basis{Kind: schedule.Yard, Document: "own sheet", Edition: "2", Page: "1"}}},
	} {
		in.Stated = c.stated
		var own enrol.Own
		if keys := through(t, dialogue.New(enrol.OwnScript(in, &own)), c.answers); !slices.Equal(keys, c.keys) {
			t.Errorf("%s: asked %q, want %q", c.name, keys, c.keys)
		}
		if own != c.want {
			t.Errorf("%s: %+v, want %+v", c.name, own, c.want)
		}
	}
	// The maker's document has to be named, and maker is never what an empty line means.
	in.Stated = enrol.Own{From: "diesel-inboard", Basis: schedule.Basis{Kind: schedule.Maker}}
	var own enrol.Own
	d := dialogue.New(enrol.OwnScript(in, &own))
	if q, _ := d.Next(); q.Key != "document" || d.Answer("") == nil || d.Answer("-") == nil {
		t.Errorf("%s is left out", q.Key)
	}
}

func TestOwnTitle(t *testing.T) {
	long := strings.Repeat("n", 118)
	for _, c := range []struct {
		from string
		kind schedule.BasisKind
		want string
	}{
		{"Reduction gear, common practice (the maker's handbook governs)", schedule.Yard, "Reduction gear, Ellery Slip Boatyard"},
		{"Reduction gear, common practice (the maker's handbook governs)", schedule.Maker, "Reduction gear"},
		{long, schedule.Yard, long},
	} {
		if got := enrol.OwnTitle(c.from, "Ellery Slip Boatyard", c.kind); got != c.want {
			t.Errorf("%s: %s, want %s", c.from, got, c.want)
		}
	}
}
