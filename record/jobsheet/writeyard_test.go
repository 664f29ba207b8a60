package jobsheet_test

import (
	"os"
	"reflect"
	"strings"
	"testing"

	"hourseal/record/jobsheet"
)

// The name is another, whatever YAML makes of it, and all else is as it was, to the byte but for
// that line.
func TestRenameYard(t *testing.T) {
	text, err := os.ReadFile("../../templates/jobsheets/yard.yaml")
	if err != nil {
		t.Fatal(err)
	}
	want, err := jobsheet.ParseYard("yard.yaml", text)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"Slip Lane Yard", "North: Quay #2", "yes", "12", `Pat's "best" yard`, "- yard", "~"} {
		renamed, err := jobsheet.RenameYard("yard.yaml", text, name)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		want.Name = name
		read, err := jobsheet.ParseYard("yard.yaml", renamed)
		if err != nil || !reflect.DeepEqual(read, want) {
			t.Errorf("%s: read %+v, %v", name, read, err)
		}
		before, after := strings.Split(string(text), "\n"), strings.Split(string(renamed), "\n")
		differ := 0
		for i := range min(len(before), len(after)) {
			if before[i] != after[i] {
				differ++
			}
		}
		if len(before) != len(after) || differ != 1 {
			t.Errorf("%s: %d lines of %d, %d are others", name, len(after), len(before), differ)
		}
	}
	for _, name := range []string{"", " ", strings.Repeat("x", 1000), "a\x1bb"} {
		if renamed, err := jobsheet.RenameYard("yard.yaml", text, name); err == nil {
			t.Errorf("%q: %s", name, renamed)
		}
	}
	if _, err := jobsheet.RenameYard("yard.yaml", []byte("nmae: x\n"), "Slip Lane Yard"); err == nil {
		t.Error("a text that is no yard.yaml is renamed")
	}
}
