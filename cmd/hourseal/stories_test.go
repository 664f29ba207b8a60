package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

const storiesFolder = "../../testdata/stories"

var mustRaise = regexp.MustCompile(`(?m)^# must raise: ([a-z-]+)$`)

// TestStories: jobs as yards have them, each told in the comment at its head, with
// the finding that it must raise and no other of any severity. What the technician
// reads is the golden file.
func TestStories(t *testing.T) {
	f := newFolder(t)
	f.now = "2026-05-12T16:00:00Z"
	if err := copyFiles(filepath.Join(storiesFolder, "yard"), f.dir); err != nil {
		t.Fatal(err)
	}
	f.must(t, 0, "key", "new", "--no-input")
	f.must(t, 0, "issue", "jobs/before-port.yaml", "jobs/before-generator.yaml", "--no-input")
	jobs, err := filepath.Glob(f.path("jobs/[0-9]*.yaml"))
	if err != nil || len(jobs) < 14 {
		t.Fatalf("%d stories, %v", len(jobs), err)
	}
	for _, job := range jobs {
		name := filepath.Base(job)
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			sheet := "jobs/" + name
			told := mustRaise.FindStringSubmatch(string(f.read(t, sheet)))
			if told == nil {
				t.Fatal("the sheet does not say what it must raise")
			}
			shown := f.run(t, "check", sheet)
			var answer struct {
				Findings []struct{ Code string }
			}
			if err := json.Unmarshal([]byte(f.run(t, "check", sheet, "--json").stdout), &answer); err != nil {
				t.Fatal(err)
			}
			var raised []string
			for _, finding := range answer.Findings {
				raised = append(raised, finding.Code)
			}
			want := []string{told[1]}
			if told[1] == "nothing" {
				want = nil
			}
			if !slices.Equal(raised, want) {
				t.Errorf("raises %q, must raise %q\n%s", raised, want, shown.stdout)
			}
			golden := filepath.Join(storiesFolder, strings.TrimSuffix(name, ".yaml")+".txt")
			if *update {
				if err := os.WriteFile(golden, []byte(shown.stdout), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			kept, err := os.ReadFile(golden)
			if err != nil || string(kept) != shown.stdout {
				t.Errorf("%s: %v\ngot:\n%s", golden, err, shown.stdout)
			}
		})
	}
}
