package main

import (
	"encoding/json"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/recordtest"
	"hourseal/sign"
	"hourseal/verify/history/historytest"
)

// sealedRecord is one envelope of the invented world, and where it is from.
type sealedRecord struct {
	group, name string
	host        string // of the yard's page
	envelope    []byte
}

// randomRecords is how many records are drawn that nobody wrote.
const randomRecords = 200

// everyRecord seals every record that the repository can make: by hand, out of
// the job sheets of the scenario, the demonstration and the stories, and of the
// library of histories.
func everyRecord(t *testing.T) []sealedRecord {
	var all []sealedRecord
	for _, group := range []func(*testing.T) []sealedRecord{writtenRecords, scenarioRecords, newYardRecords, demoRecords, storyRecords, historyRecords, drawnRecords} {
		all = append(all, group(t)...)
	}
	return all
}

// sealOne seals a record with a key that everybody knows.
func sealOne(t *testing.T, group, name string, r *record.Record) sealedRecord {
	t.Helper()
	return sealedRecord{group, name, r.PageHost, sealedBy(t, r, pageKey(t, 7))}
}

func writtenRecords(t *testing.T) []sealedRecord {
	return []sealedRecord{
		sealOne(t, "written", "typical", recordtest.Typical()),
		sealOne(t, "written", "example", recordtest.Example()),
		sealOne(t, "written", "accounted", recordtest.Accounted()),
		sealOne(t, "written", "shortest", recordtest.Shortest()),
		sealOne(t, "written", "longest", recordtest.Longest()),
	}
}

func drawnRecords(t *testing.T) []sealedRecord {
	var all []sealedRecord
	random := rapid.Custom(recordtest.Random)
	for seed := range randomRecords {
		all = append(all, sealOne(t, "drawn", fmt.Sprint(seed), random.Example(seed)))
	}
	return all
}

// storedRecords are all records in the ledger of a yard folder.
func (f folder) storedRecords(t *testing.T, group string) []sealedRecord {
	t.Helper()
	files, err := filepath.Glob(f.path("records/*/*.cose"))
	if err != nil || len(files) == 0 {
		t.Fatalf("%s: %d records, %v", group, len(files), err)
	}
	var all []sealedRecord
	for _, file := range files {
		name, err := filepath.Rel(f.path("records"), file)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, openedRecord(t, group, filepath.ToSlash(name), f.read(t, "records/"+filepath.ToSlash(name))))
	}
	return all
}

// openedRecord looks into an envelope for the host of its page.
func openedRecord(t *testing.T, group, name string, envelope []byte) sealedRecord {
	t.Helper()
	opened, err := sign.Open(sign.RecordV1, envelope)
	if err != nil {
		t.Fatalf("%s %s: %v", group, name, err)
	}
	r, err := record.Decode(opened.Payload)
	if err != nil {
		t.Fatalf("%s %s: %v", group, name, err)
	}
	return sealedRecord{group, name, r.PageHost, envelope}
}

func scenarioRecords(t *testing.T) []sealedRecord {
	f := newYard(t)
	f.must(t, 0, "issue", portJob, starboardJob)
	return f.storedRecords(t, "scenario")
}

// newYardRecords is the job that a new yard's folder has for an example.
func newYardRecords(t *testing.T) []sealedRecord {
	f := newFolder(t)
	f.now = "2027-07-20T17:00:00Z"
	f.must(t, 0, "init", "yard", "--no-input")
	f.dir = f.path("yard")
	jobs, err := filepath.Glob(f.path("jobs/*.yaml"))
	if err != nil || len(jobs) == 0 {
		t.Fatalf("%d jobs, %v", len(jobs), err)
	}
	for _, job := range jobs {
		f.must(t, 0, "issue", job, "--no-input")
	}
	return f.storedRecords(t, "new yard")
}

func demoRecords(t *testing.T) []sealedRecord {
	f := newFolder(t)
	f.must(t, 0, "demo", "demo")
	f.dir = f.path("demo")
	return f.storedRecords(t, "demo")
}

// storyRecords issues every story in a yard of its own, with a reason for each
// finding that asks for one.
func storyRecords(t *testing.T) []sealedRecord {
	f := newFolder(t)
	f.now = "2026-05-12T16:00:00Z"
	if err := copyFiles(filepath.Join(storiesFolder, "yard"), f.dir); err != nil {
		t.Fatal(err)
	}
	f.must(t, 0, "key", "new", "--no-input")
	f.must(t, 0, "issue", "jobs/before-port.yaml", "jobs/before-generator.yaml", "--no-input")
	all := f.storedRecords(t, "stories")
	jobs, err := filepath.Glob(f.path("jobs/[0-9]*.yaml"))
	if err != nil || len(jobs) == 0 {
		t.Fatalf("%d stories, %v", len(jobs), err)
	}
	for _, job := range jobs {
		story := newFolder(t)
		story.now = f.now
		if err := copyFiles(f.dir, story.dir); err != nil {
			t.Fatal(err)
		}
		sheet := "jobs/" + filepath.Base(job)
		story.write(t, sheet, append(story.read(t, sheet), acceptAll(t, story, sheet)...))
		story.must(t, 0, "issue", sheet, "--no-input")
		for _, r := range story.storedRecords(t, "stories") {
			if !slices.ContainsFunc(all, func(known sealedRecord) bool { return known.name == r.name }) {
				r.name = strings.TrimSuffix(filepath.Base(job), ".yaml")
				all = append(all, r)
			}
		}
	}
	return all
}

// acceptAll is the end of a job sheet that accepts what asks for a reason.
func acceptAll(t *testing.T, f folder, sheet string) string {
	t.Helper()
	var answer struct {
		Findings []struct{ Code, Subject, Severity string }
	}
	if err := json.Unmarshal([]byte(f.run(t, "check", sheet, "--json").stdout), &answer); err != nil {
		t.Fatal(err)
	}
	var accept strings.Builder
	for _, finding := range answer.Findings {
		if finding.Severity == "decide" {
			if accept.Len() == 0 {
				accept.WriteString("accept:\n")
			}
			fmt.Fprintf(&accept, "  %s/%s: seen and left as it is, the owner was told\n", finding.Code, finding.Subject)
		}
	}
	return accept.String()
}

func historyRecords(t *testing.T) []sealedRecord {
	const library = "../../testdata/histories"
	var all []sealedRecord
	for _, name := range historytest.Names(t, library) {
		for _, e := range historytest.Tell(t, historytest.Read(t, library, name)).All {
			all = append(all, sealedRecord{"histories", name + " " + e.Label, e.Record.PageHost, e.Envelope})
		}
	}
	return all
}
