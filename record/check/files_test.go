package check_test

import (
	"crypto/sha256"
	"reflect"
	"testing"

	"hourseal/record"
	"hourseal/record/check"
)

func fileOf(name string) record.File {
	return record.File{Name: name, SHA256: sha256.Sum256([]byte(name))}
}

// TestFiles: the record has the files that the sheet names, in its order, with the
// hashes that were given; one without the other is a fault at its place.
func TestFiles(t *testing.T) {
	s := newScene(t, nil, nil)
	named := firstSheet + "files: [plate.jpg, meter.jpg]\n"
	for _, c := range []struct {
		name, sheet string
		files       []record.File
		fault       string
	}{
		{"both", named, []record.File{fileOf("plate.jpg"), fileOf("meter.jpg")}, ""},
		{"none", firstSheet, nil, ""},
		{"none given", named, nil, "sheet.yaml:25:9: files: plate.jpg is not at hand: put it there with hourseal attach, or take it out"},
		{"one given", named, []record.File{fileOf("plate.jpg")}, "sheet.yaml:25:20: files: meter.jpg is not at hand: put it there with hourseal attach, or take it out"},
		{"in another order", named, []record.File{fileOf("meter.jpg"), fileOf("plate.jpg")}, "sheet.yaml:25:9: files: plate.jpg is not at hand: put it there with hourseal attach, or take it out"},
		{"one too many", firstSheet, []record.File{fileOf("plate.jpg")}, "sheet.yaml: files: plate.jpg is not named in the sheet: name it, or leave the file out"},
	} {
		in := s.input(t, c.sheet)
		in.Files = c.files
		got := check.Run(in)
		if c.fault == "" {
			if got.Passed == nil || !reflect.DeepEqual(got.Passed.CheckedRecord().Files, c.files) {
				t.Errorf("%s: %v %v, %v", c.name, got.Outcome, got.Faults, got.Draft.Files)
			}
			continue
		}
		if got.Outcome != check.Malformed || got.Passed != nil || len(got.Faults) != 1 || got.Faults[0].Error() != c.fault {
			t.Errorf("%s: %v %v", c.name, got.Outcome, got.Faults)
		}
	}
}

// TestFilesWithoutSheet: what has no sheet has the files that it is given.
func TestFilesWithoutSheet(t *testing.T) {
	s := newScene(t, nil, nil)
	s.issue(t, firstSheet)
	in := s.input(t, lookSheet)
	in.Kind, in.Subject = record.Addendum, &record.Subject{Record: s.earlier[0].ID, Why: "laboratory: no metal in the oil"}
	in.Files = []record.File{fileOf("lab.pdf")}
	got := check.WithoutSheet(in)
	if got.Passed == nil || !reflect.DeepEqual(got.Passed.CheckedRecord().Files, in.Files) {
		t.Errorf("%v %v, %v", got.Outcome, got.Faults, got.Draft.Files)
	}
}
