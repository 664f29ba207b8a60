package main

import (
	"maps"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"hourseal/verify"
)

// demonstrated is a folder in which the demonstration has been run, at a time
// when the reader may well try the examples.
func demonstrated(t *testing.T) (folder, ran) {
	t.Helper()
	f := newFolder(t)
	f.now = "2026-10-23T09:00:00Z"
	r := f.must(t, 0, "demo", "yard")
	f.dir = f.path("yard")
	return f, r
}

// examplesInOrder is every command of the help's examples, so that each finds
// what it works on.
var examplesInOrder = []string{
	"demo", "init", "completion", "manual", "schedule list", "schedule show", "schedule check", "schedule new",
	"check", "attach", "issue", "closeout", "report", "show", "key show", "key new",
	"trust list", "trust add", "trust remove", "verify", "history", "page", "due", "worksheet", "label", "waste", "ledger head", "ledger path", "machine new",
	"fluid convert", "fluid correct", "fluid level", "fluid coolant", "fluid suits",
	"key recovery", "key renew", "key revoke", "key list",
}

// typedTo is what is typed on a terminal to the examples that ask.
var typedTo = map[string][]string{
	"machine new": {"", "", "", "r", "", "", "", "", "G20-00872", "", "2024-03-18", "0", "", "", "", "", "", "", "", "y"},
}

// Every example that a help shows runs as it is written, in the folder that the
// demonstration makes, and ends well.
func TestEveryExampleRuns(t *testing.T) {
	if got, want := slices.Sorted(slices.Values(examplesInOrder)), slices.Sorted(maps.Keys(examples)); !slices.Equal(got, want) {
		t.Fatalf("in order: %q\nexamples: %q", got, want)
	}
	f, _ := demonstrated(t)
	f.env = append(f.env, "TMPDIR="+t.TempDir()) // demo without a folder makes one there
	for _, name := range examplesInOrder {
		args := shellWords(t, examples[name])
		if args[0] != "hourseal" || !strings.HasPrefix(strings.Join(args[1:], " "), name) {
			t.Errorf("the example of %q is %q", name, examples[name])
		}
		want := 0
		if name == "due" || name == "history" { // and something is, or was
			want = 7
		}
		if lines, asks := typedTo[name]; asks {
			t.Run(name, func(t *testing.T) {
				if r := typing(t, f, lines, args[1:]...); r.code != want || !strings.Contains(r.stdout, "\nwrote ") {
					t.Errorf("%q on a terminal: %s", examples[name], r)
				}
			})
		} else if r := f.must(t, want, args[1:]...); r.stdout == "" {
			t.Errorf("%q answers nothing", examples[name])
		}
		help := f.must(t, 0, append(strings.Fields(name), "--help")...).stdout
		if !strings.HasPrefix(strings.ReplaceAll(help, " \\\n     ", ""), "Example:\n  $ "+examples[name]+"\n") {
			t.Errorf("the help of %q does not begin with its example:\n%s", name, help)
		}
	}
	if data := f.read(t, "report.pdf"); !strings.HasPrefix(string(data), "%PDF-") {
		t.Error("report.pdf is no PDF")
	}
	for _, made := range []string{"my-yard/yard.yaml", "my-yard/keys/yard", "keys/second", "mine.yaml", "schedules/generator-ellery.yaml"} {
		if _, err := os.Stat(f.path(made)); err != nil {
			t.Error(err)
		}
	}
	if _, err := os.Stat(f.path("records/gannet-port/0004.cose")); err == nil {
		t.Error("the example of issue made a second record of the same job")
	}
}

// shellWords splits a command line as a shell does, but for escapes.
func shellWords(t *testing.T, line string) []string {
	t.Helper()
	var list []string
	for i, part := range strings.Split(line, "'") {
		if i%2 == 1 {
			list = append(list, part)
			continue
		}
		if strings.ContainsAny(part, `\"$`+"`") {
			t.Fatalf("%q needs a real shell", line)
		}
		list = append(list, strings.Fields(part)...)
	}
	return list
}

// The demonstration needs nothing, ends soon and well, says where its files are,
// and ends by refusing an altered copy.
func TestDemonstration(t *testing.T) {
	began := time.Now()
	f, r := demonstrated(t)
	if took := time.Since(began); took > 10*time.Second {
		t.Errorf("it took %v", took)
	}
	for _, want := range []string{
		"The files are in ", "reports/", "Ended with 3", // said
		"36.4 h past due", "the launch was called out", "part on order", // late, accepted, deferred
		"Unaltered, and signed by Ellery Slip Boatyard.",
	} {
		if !strings.Contains(strings.ToLower(oneLine(r.stdout)), strings.ToLower(want)) {
			t.Errorf("it does not say %q", want)
		}
	}
	steps := strings.Split(r.stdout, "$ hourseal ")
	if last := steps[len(steps)-1]; !strings.HasPrefix(last, "verify ") || !strings.Contains(last, "Altered or forged") {
		t.Errorf("the last step is\n%s", last)
	}
	var genuine []string
	for _, name := range []string{"0001", "0002", "0003"} {
		genuine = append(genuine, "reports/gannet-port-"+name+".pdf", "records/gannet-port/"+name+".cose")
	}
	f.must(t, 0, append([]string{"verify", "--trust", "trust.yaml", "--serial", "0045120"}, genuine...)...)
	f.must(t, 3, "verify", "--trust", "trust.yaml", "altered-copy.cose")
	var answer verifyAnswer
	mustDecode(t, f.must(t, 3, "verify", "--json", "--trust", "trust.yaml", "altered-copy.cose").stdout, &answer)
	if answer.Verdict != verify.Altered {
		t.Errorf("the altered copy is %s", answer.Verdict)
	}
	// A folder that holds something is left alone.
	f.must(t, 2, "demo", ".")
}

// Without a name the demonstration makes a folder of the system's and says which.
func TestDemonstrationWithoutAFolder(t *testing.T) {
	f := newFolder(t)
	f.env = append(f.env, "TMPDIR="+f.dir)
	r := f.must(t, 0, "demo")
	entries, err := os.ReadDir(f.dir)
	if err != nil || len(entries) != 1 {
		t.Fatalf("%d folders, %v", len(entries), err)
	}
	if !strings.Contains(r.stdout, "The files are in "+f.path(entries[0].Name())) {
		t.Errorf("it does not say where its files are:\n%s", r.stdout[max(0, len(r.stdout)-300):])
	}
}
