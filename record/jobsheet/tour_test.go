package jobsheet_test

import (
	"errors"
	"flag"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"hourseal/record/jobsheet"
)

var update = flag.Bool("update", false, "write the golden files anew: read them line by line afterwards")

const (
	badJobs  = "../../testdata/badjobs"
	golden   = "../../testdata/golden/badjobs.txt"
	scenario = "../../testdata/scenario"
)

// faultsOf reads a file of the tour as what its name says it is, and holds a
// job that reads well to the scenario.
func faultsOf(t *testing.T, name string, data []byte) error {
	t.Helper()
	_, what, _ := strings.Cut(name, "-")
	var err error
	switch {
	case strings.HasPrefix(what, "yard-"):
		_, err = jobsheet.ParseYard(name, data)
	case strings.HasPrefix(what, "machine-"):
		_, err = jobsheet.ParseMachine(name, data)
	case strings.HasPrefix(what, "schedule-"):
		_, _, err = jobsheet.ParseSchedule(name, data)
	default:
		var job jobsheet.Job
		job, err = jobsheet.ParseJob(name, data)
		if strings.HasPrefix(what, "resolve-") {
			if err != nil {
				t.Errorf("%s: is to be refused only against machine and schedule: %v", name, err)
			}
			_, _, err = jobsheet.Open(os.DirFS(scenario), nil).For(job)
		}
	}
	return err
}

// instruction finds the words that tell a person what to do: a verb, or the
// limit that the figure has to stay within. A message without any leaves a
// reader alone with what is wrong.
var instruction = regexp.MustCompile(`\b(write|take|keep|put|save|line the keys?|close|begin|name the|leave|at most \d+|has \d+ days)\b`)

func TestBadInputTour(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(badJobs, "*.yaml"))
	if err != nil || len(files) < 45 {
		t.Fatalf("%d files in %s: %v", len(files), badJobs, err)
	}
	var told strings.Builder
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		name := filepath.Base(file)
		err = faultsOf(t, name, data)
		var faults jobsheet.Faults
		if !errors.As(err, &faults) || len(faults) == 0 {
			t.Errorf("%s: not refused with faults: %v", name, err)
			continue
		}
		for _, f := range faults {
			if !strings.HasPrefix(f.Error(), f.At()+": ") || f.File != name {
				t.Errorf("%s: a message without its place: %v", name, f)
			}
			if !instruction.MatchString(f.Message) {
				t.Errorf("%s: does not say what to type instead: %v", name, f)
			}
		}
		told.WriteString(err.Error() + "\n\n")
	}
	if *update {
		if err := os.WriteFile(golden, []byte(told.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		t.Fatal(err)
	}
	compareLines(t, told.String(), string(want))
}

func compareLines(t *testing.T, got, want string) {
	t.Helper()
	g, w := strings.Split(got, "\n"), strings.Split(want, "\n")
	for i := range max(len(g), len(w)) {
		var a, b string
		if i < len(g) {
			a = g[i]
		}
		if i < len(w) {
			b = w[i]
		}
		if a != b {
			t.Fatalf("%s, line %d\n got %s\nwant %s", golden, i+1, a, b)
		}
	}
}
