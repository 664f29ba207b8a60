package main

import (
	"fmt"
	"regexp"
	"strings"
	"testing"
)

// A passphrase is asked for on a terminal, twice for a new key and once for a
// known one, and what is typed is not shown.
func TestPassphraseIsNotShown(t *testing.T) {
	f := newFolder(t)
	const typed = "typed sesame"
	r := terminal(t, f, "all", []string{"", typed, typed, ""}, "init", ".")
	if r.code != 0 || strings.Count(r.stdout, "Passphrase for the new signing key (empty for none): ") != 1 || strings.Count(r.stdout, "The same again: ") != 1 ||
		!strings.Contains(r.stdout, "recovery key none yet") {
		t.Fatalf("%s", r)
	}
	if strings.Contains(r.stdout, "sesame") {
		t.Errorf("the terminal shows what was typed:\n%s", r.stdout)
	}
	if err := copyFiles(scenarioFolder, f.dir); err != nil {
		t.Fatal(err)
	}
	f.must(t, 2, "issue", portJob) // without a terminal it cannot ask
	wrong := terminal(t, f, "all", []string{"another sesame", typed + " ", "third sesame"}, "issue", portJob)
	if wrong.code != 2 || !strings.Contains(wrong.stdout, "wrong passphrase") || strings.Contains(wrong.stdout, "sesame") ||
		strings.Count(wrong.stdout, "That was not it.") != 2 || !strings.Contains(wrong.stdout, "try: --passphrase-file FILE, or: ssh-add keys/yard") {
		t.Errorf("%s", wrong)
	}
	f.write(t, "wrong.txt", []byte("another sesame\n"))
	if r := terminal(t, f, "all", nil, "issue", portJob, "--passphrase-file", "wrong.txt"); r.code != 2 || strings.Contains(r.stdout, "That was not it.") {
		t.Errorf("from a file: %s", r)
	}
	if r := terminal(t, f, "all", []string{"another sesame", ""}, "issue", portJob); r.code != 2 || !strings.Contains(r.stdout, "needs its passphrase") {
		t.Errorf("an empty line ends it: %s", r)
	}
	r = terminal(t, f, "all", []string{"another sesame", "third sesame", typed}, "issue", portJob)
	if r.code != 0 || strings.Count(r.stdout, "That was not it.") != 2 || !strings.Contains(r.stdout, "Passphrase for keys/yard: ") || strings.Contains(r.stdout, "sesame") {
		t.Errorf("%s", r)
	}
}

// The first run asks for the yard's name, which then stands in yard.yaml and in the public
// key, and for two passphrases until each was typed the same twice. A second run asks nothing and says
// that there is no recovery key; with one it says nothing of it.
func TestInitAsks(t *testing.T) {
	f := newFolder(t)
	const key, safe = "typed sesame", "kept sesame"
	r := terminal(t, f, "all", []string{"Slip Lane: Yard #2", key, "other sesame", key, key, safe, "x", safe, "y", safe, "z"}, "init", "yard")
	if r.code != 2 || strings.Count(r.stdout, "The two differ.") != 3 || !strings.Contains(r.stdout, "the two passphrases differ") ||
		!strings.Contains(r.stdout, "hourseal key recovery, in the yard folder") || strings.Contains(r.stdout, "sesame") {
		t.Errorf("%s", r)
	}
	public := string(f.read(t, "yard/keys/yard.pub"))
	self, err := openYardAt(f.path("yard")).files.Yard()
	if err != nil || self.Name != "Slip Lane: Yard #2" || !strings.HasSuffix(public, " Slip Lane: Yard #2\n") {
		t.Errorf("%v: yard.yaml has %q, the key %q", err, self.Name, public)
	}
	if !strings.Contains(string(f.read(t, "yard/yard.yaml")), "# Who signs the records") {
		t.Error("the comments of yard.yaml are gone")
	}
	r = terminal(t, f, "all", nil, "init", "yard")
	if r.code != 0 || strings.Contains(r.stdout, "Name of your yard") || !strings.Contains(r.stdout, noRecovery) || !strings.Contains(r.stdout, "hourseal machine new") {
		t.Errorf("%s", r)
	}
	made := terminal(t, f, "all", []string{key, safe, "x", safe, safe}, "key", "recovery", "--yard", "yard")
	if made.code != 0 || strings.Count(made.stdout, "The two differ.") != 1 {
		t.Fatalf("%s", made)
	}
	if r := f.must(t, 0, "init", "yard"); strings.Contains(r.stdout, noRecovery) || string(f.read(t, "yard/keys/yard.pub")) != public {
		t.Errorf("%s", r)
	}
	// Without questions the example's name stands.
	f.must(t, 0, "init", "other", "--no-input")
	if other, err := openYardAt(f.path("other")).files.Yard(); err != nil || other.Name != "Ellery Slip Boatyard" {
		t.Errorf("%v %q", err, other.Name)
	}
}

// A folder of many reports: a line for each, in order, and their tally; a line
// of progress on a terminal and nowhere else.
func TestManyInputs(t *testing.T) {
	f := newYard(t)
	f.must(t, 0, "issue", portJob, starboardJob)
	report, other := f.read(t, "reports/gannet-port-0001.pdf"), f.read(t, "reports/gannet-starboard-0001.pdf")
	const many, others = 120, 20
	for i := range many {
		data := report
		if i%(many/others) == 0 {
			data = other
		}
		name := fmt.Sprintf("stack/%d/report-%03d.pdf", i/40, i)
		f.write(t, name, data)
	}
	f.write(t, "stack/1/report-057.cose", flipped(f.read(t, "records/gannet-port/0001.cose"), 300))
	f.write(t, "stack/letter.txt", []byte("no report"))

	args := []string{"verify", "stack", "--trust", "trust.yaml", "--serial", "0045120"}
	r := f.must(t, 3, args...)
	if r.stderr != "" {
		t.Errorf("standard error, which is no terminal: %q", r.stderr)
	}
	lines := regexp.MustCompile(`(?m)^stack/\d/report-(\d+)\.(pdf|cose): `).FindAllStringSubmatch(r.stdout, -1)
	if len(lines) != many+1 {
		t.Fatalf("%d lines of %d inputs", len(lines), many+1)
	}
	for i := 1; i < len(lines); i++ {
		if lines[i][1] < lines[i-1][1] {
			t.Errorf("%s comes after %s", lines[i][1], lines[i-1][1])
		}
	}
	for _, want := range []string{"\n121 inputs:\n", "\n       1  altered\n", "\n      20  other-machine\n", "\n     100  genuine\n"} {
		if !strings.Contains(r.stdout, want) {
			t.Errorf("the tally has no %q:\n%s", want, r.stdout[len(r.stdout)-300:])
		}
	}

	// Records are quicker than reports, and no less many.
	signed := f.read(t, "records/gannet-port/0001.cose")
	for i := range many {
		f.write(t, fmt.Sprintf("records/copies/%03d.cose", i), signed)
	}
	args[1] = "records/copies"
	if n := strings.Count(f.must(t, 0, append(args, "--json")...).stdout, "{\"input\":"); n != many {
		t.Errorf("%d objects of %d inputs", n, many)
	}
	if n := strings.Count(f.must(t, 0, append(args, "--full")...).stdout, "\nWhat this does not prove\n"); n != many {
		t.Errorf("%d full answers of %d inputs", n, many)
	}
	shown := terminal(t, f, "errors", nil, args...)
	if shown.code != 0 || !strings.Contains(shown.stdout, "\r50 of 120") || !strings.HasSuffix(shown.stdout, "\r\x1b[K") {
		t.Errorf("on a terminal: %d, %q", shown.code, shown.stdout)
	}
	// Few inputs are answered before a line of progress could be read.
	if few := terminal(t, f, "errors", nil, "verify", "reports", "--trust", "trust.yaml"); few.code != 0 || few.stdout != "" {
		t.Errorf("few inputs on a terminal: %d, %q", few.code, few.stdout)
	}
}

func flipped(data []byte, at int) []byte {
	data[at] ^= 1
	return data
}

// Many machines and many records show their progress on a terminal as well.
func TestProgressOfLongWork(t *testing.T) {
	f := newYard(t)
	f.must(t, 0, "issue", portJob)
	machine := string(f.read(t, "machines/gannet-starboard.yaml"))
	for i := range 120 {
		id := fmt.Sprintf("generator-%03d", i)
		f.write(t, "machines/"+id+".yaml", []byte(strings.Replace(machine, "gannet-starboard", id, 1)))
	}
	many := []string{"report"}
	for range 101 {
		many = append(many, "gannet-port/1")
	}
	for _, args := range [][]string{{"due", "--json"}, {"waste", "--json"}, many} {
		shown := terminal(t, f, "errors", nil, args...)
		if !regexp.MustCompile(`\r50 of 1\d\d`).MatchString(shown.stdout) || !strings.HasSuffix(shown.stdout, "\r\x1b[K") {
			t.Errorf("%s on a terminal: %d, %q", args[0], shown.code, shown.stdout)
		}
	}
}
