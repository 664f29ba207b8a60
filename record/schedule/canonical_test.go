package schedule_test

import (
	"bytes"
	"encoding/hex"
	"encoding/json"
	"flag"
	"os"
	"os/exec"
	"strings"
	"testing"

	"hourseal/record/quantity"
	"hourseal/record/recordtest/outside"
	"hourseal/record/schedule"
)

var update = flag.Bool("update", false, "write the golden files anew: read them line by line afterwards")

// ellery is the yard's own schedule of the invented scenario, and one task more
// that has everything a task can have.
func ellery() schedule.Schedule {
	year := schedule.Interval{Hours: 200 * quantity.Hour, Months: 12}
	first := schedule.Interval{Hours: 50 * quantity.Hour}
	return schedule.Schedule{
		ID: "diesel-inboard-ellery", Edition: 2, Title: "Inboard diesel, turbocharged, fresh-water cooled",
		Basis:    schedule.Basis{Kind: schedule.CommonPractice, Document: "the yard's own sheet", Edition: "2", Page: "1"},
		NextFrom: schedule.FromDone, Grace: schedule.Grace{HoursShare: 100, Days: 30},
		Tasks: []schedule.Task{
			{ID: "engine-oil", Title: "Change the engine oil", Kind: schedule.Replace, Every: year, First: first, With: []string{"oil-filter"},
				Needs:  schedule.Needs{Drained: "engine-oil", Filled: "engine-oil", Level: "engine-oil", LeakCheck: true},
				Severe: schedule.Severe{Factor: 500, When: "fuel sulphur over 0.5 %"}},
			{ID: "oil-filter", Title: "Fit a new oil filter", Kind: schedule.Replace, Every: year, First: first, Needs: schedule.Needs{Part: "oil filter"}},
			{ID: "belt-look", Title: "Look over the drive belt", Kind: schedule.Inspect, Every: year},
			{ID: "belt", Title: "Fit a new drive belt", Kind: schedule.Replace,
				Every: schedule.Interval{Hours: 1000 * quantity.Hour, Months: 48}, Covers: []string{"belt-look"}},
			{ID: "coolant-strength", Title: "Measure the coolant's freezing point", Kind: schedule.Test,
				Every: schedule.Interval{Months: 12}, Needs: schedule.Needs{Reading: "freezing_point"}},
			{ID: "impeller", Title: "Fit a new raw-water impeller", Kind: schedule.Replace,
				Every: schedule.Interval{Hours: 400 * quantity.Hour, Months: 12}, Needs: schedule.Needs{Part: "impeller"}},
			{ID: "mounts", Title: `Mounts & "feet": <tight>, 10 µm`, Kind: schedule.Adjust, Every: schedule.Interval{Hours: 12345},
				Grace: &schedule.Grace{Hours: 1000}, NextFrom: schedule.FromGrid},
			{ID: "strainer", Title: "Clean the strainer", Kind: schedule.Clean, Every: schedule.Interval{Months: 1}, Grace: &schedule.Grace{}},
		},
	}
}

// TestCanonical: one line of JSON and a newline, the same for ever, for a
// schedule's digest stands in signed records. The golden file was read.
func TestCanonical(t *testing.T) {
	const golden = "../../testdata/golden/schedule.json"
	got := ellery().Canonical()
	if *update {
		if err := os.WriteFile(golden, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s differs from:\n%s", golden, got)
	}
	if !json.Valid(got) || bytes.Count(got, []byte("\n")) != 1 || got[len(got)-1] != '\n' {
		t.Errorf("not one line of JSON: %q", got)
	}
}

// TestDigestChanges: whatever a schedule says is in its digest.
func TestDigestChanges(t *testing.T) {
	seen := map[[32]byte]string{ellery().Digest(): "the schedule itself"}
	for name, change := range map[string]func(*schedule.Schedule){
		"id":              func(s *schedule.Schedule) { s.ID = "other" },
		"edition":         func(s *schedule.Schedule) { s.Edition = 3 },
		"title":           func(s *schedule.Schedule) { s.Title += "." },
		"basis":           func(s *schedule.Schedule) { s.Basis.Kind = schedule.Maker },
		"document":        func(s *schedule.Schedule) { s.Basis.Document = "" },
		"edition of it":   func(s *schedule.Schedule) { s.Basis.Edition = "3" },
		"page":            func(s *schedule.Schedule) { s.Basis.Page = "2" },
		"next from":       func(s *schedule.Schedule) { s.NextFrom = schedule.FromGrid },
		"grace share":     func(s *schedule.Schedule) { s.Grace.HoursShare = 101 },
		"grace hours":     func(s *schedule.Schedule) { s.Grace = schedule.Grace{Hours: 100, Days: 30} },
		"grace days":      func(s *schedule.Schedule) { s.Grace.Days = 31 },
		"order":           func(s *schedule.Schedule) { s.Tasks[0], s.Tasks[1] = s.Tasks[1], s.Tasks[0] },
		"a task less":     func(s *schedule.Schedule) { s.Tasks = s.Tasks[1:] },
		"task id":         func(s *schedule.Schedule) { s.Tasks[0].ID = "oil" },
		"task title":      func(s *schedule.Schedule) { s.Tasks[0].Title = "Oil" },
		"task kind":       func(s *schedule.Schedule) { s.Tasks[0].Kind = schedule.Inspect },
		"hours":           func(s *schedule.Schedule) { s.Tasks[0].Every.Hours++ },
		"months":          func(s *schedule.Schedule) { s.Tasks[0].Every.Months++ },
		"first hours":     func(s *schedule.Schedule) { s.Tasks[0].First.Hours = 0 },
		"first months":    func(s *schedule.Schedule) { s.Tasks[0].First.Months = 1 },
		"once":            func(s *schedule.Schedule) { s.Tasks[0].Once = true },
		"with":            func(s *schedule.Schedule) { s.Tasks[0].With = nil },
		"covers":          func(s *schedule.Schedule) { s.Tasks[3].Covers = nil },
		"needs drained":   func(s *schedule.Schedule) { s.Tasks[0].Needs.Drained = "" },
		"needs filled":    func(s *schedule.Schedule) { s.Tasks[0].Needs.Filled = "" },
		"needs level":     func(s *schedule.Schedule) { s.Tasks[0].Needs.Level = "" },
		"needs leak":      func(s *schedule.Schedule) { s.Tasks[0].Needs.LeakCheck = false },
		"needs part":      func(s *schedule.Schedule) { s.Tasks[1].Needs.Part = "" },
		"needs reading":   func(s *schedule.Schedule) { s.Tasks[4].Needs.Reading = "" },
		"severe factor":   func(s *schedule.Schedule) { s.Tasks[0].Severe.Factor = 250 },
		"severe when":     func(s *schedule.Schedule) { s.Tasks[0].Severe.When = "" },
		"own grace":       func(s *schedule.Schedule) { s.Tasks[6].Grace = nil },
		"own next from":   func(s *schedule.Schedule) { s.Tasks[6].NextFrom = 0 },
		"no grace at all": func(s *schedule.Schedule) { s.Tasks[7].Grace = nil }, // which is the schedule's own
	} {
		s := ellery()
		change(&s)
		digest := s.Digest()
		if other, twice := seen[digest]; twice {
			t.Errorf("%s has the digest of: %s", name, other)
		}
		seen[digest] = name
	}
}

// TestDigestBySha256sum: anybody's sha256sum (GNU coreutils) gives the digest.
func TestDigestBySha256sum(t *testing.T) {
	program := outside.Program(t, "sha256sum")
	cmd := exec.Command(program)
	cmd.Stdin = bytes.NewReader(ellery().Canonical())
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	digest := ellery().Digest()
	if want, _, _ := strings.Cut(string(out), " "); want != hex.EncodeToString(digest[:]) {
		t.Errorf("digest %x, sha256sum says %s", digest, want)
	}
}

func TestTask(t *testing.T) {
	s := ellery()
	if task, ok := s.Task("belt"); !ok || task.Title != "Fit a new drive belt" {
		t.Errorf("belt: %+v %v", task, ok)
	}
	if task, ok := s.Task("sails"); ok || task.ID != "" {
		t.Errorf("sails: %+v %v", task, ok)
	}
}
