package main

import (
	"os"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"
)

// Names as long as the formats allow: 40 letters an id, and a yard's name that takes a
// line by itself.
const (
	longMachine  = "gannet-port-engine-of-forty-letters-long"
	longSchedule = "diesel-inboard-ellery-with-a-long-long-i"
	longTask     = "belt-look-whose-id-has-all-forty-letters"
	longYard     = "Ellery Slip Boatyard and Marine Engine Works of Port Ellery, Successors to Slip"
)

// longNames is the demonstration's yard with such names.
func longNames(t *testing.T) folder {
	t.Helper()
	f := newFolder(t)
	if err := copyFiles("../../templates/jobsheets/demo", f.dir); err != nil {
		t.Fatal(err)
	}
	for _, rename := range [][2]string{{"machines/gannet-port.yaml", "machines/" + longMachine + ".yaml"},
		{"schedules/diesel-inboard-ellery.yaml", "schedules/" + longSchedule + ".yaml"}} {
		if err := os.Rename(f.path(rename[0]), f.path(rename[1])); err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range []struct{ pattern, name string }{
		{`\bgannet-port([\s,}]|$)`, longMachine + "$1"}, {`\bdiesel-inboard-ellery\b`, longSchedule}, {`\bbelt-look\b`, longTask},
		{`(?m)^name: Ellery Slip Boatyard`, "name: " + longYard},
	} {
		pattern, changed := regexp.MustCompile(c.pattern), 0
		for _, name := range filesUnder(t, f.dir) {
			data, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			if after := pattern.ReplaceAll(data, []byte(c.name)); string(after) != string(data) {
				changed++
				if err := os.WriteFile(name, after, 0o644); err != nil {
					t.Fatal(err)
				}
			}
		}
		if changed == 0 {
			t.Fatalf("no file has %s", c.pattern)
		}
	}
	return f
}

func filesUnder(t *testing.T, dir string) []string {
	t.Helper()
	var names []string
	for _, folder := range []string{"", "machines", "jobs", "schedules"} {
		entries, err := os.ReadDir(dir + "/" + folder)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range entries {
			if e.Type().IsRegular() {
				names = append(names, dir+"/"+folder+"/"+e.Name())
			}
		}
	}
	return names
}

// machineLine is a line that is to be copied as it is.
var machineLine = regexp.MustCompile(`^(ssh-ed25519|hourseal-head|hourseal-path) `)

// Every answer fits a terminal of 80 columns, however long the names are, and no name is
// cut. Only a word that is longer stands out, and lines that other programs read.
func TestAnswersFit(t *testing.T) {
	t.Parallel()
	f := longNames(t)
	f.must(t, 0, "key", "new", "--no-input")
	f.must(t, 0, "trust", "add", "keys/yard.pub", "--name", longYard, "--trust", "trust.yaml")
	report, signed := "reports/"+longMachine+"-0003.pdf", "records/"+longMachine+"/0003.cose"
	for i, day := range []string{"2025-11-24", "2026-05-28", "2026-10-22"} {
		f.now = day + "T17:30:00Z"
		f.must(t, 0, "issue", []string{"jobs/1-gannet-port-2025-11-24.yaml", "jobs/2-gannet-port-2026-05-28.yaml", "jobs/3-gannet-port-2026-10-22.yaml"}[i])
	}
	f.now = "2026-11-26T09:00:00Z"
	for _, c := range []struct {
		code int
		line string
		has  string // in one line
	}{
		{0, "check jobs/1-gannet-port-2025-11-24.yaml", longTask},
		{7, "due", longMachine},
		{7, "due " + longMachine + " --hours 1300", longTask},
		{0, "waste --year 2026", "engine-oil"},
		{0, "verify " + report + " --trust trust.yaml", ""},
		{0, "verify reports --trust trust.yaml", ""},
		{0, "verify " + report + " --trust trust.yaml --full --content", "Look over the drive belt"},
		{7, "history reports --trust trust.yaml --on 2026-09-01", longTask},
		{0, "show " + signed, "Look over the drive belt"},
		{0, "schedule list", longSchedule},
		{0, "schedule show " + longSchedule, longTask},
		{0, "schedule check " + longSchedule, longSchedule},
		{0, "ledger head", ""},
		{0, "ledger path " + longMachine + " --at 2026-11-02", ""},
		{0, "key list", ""},
		{0, "key show", ""},
		{0, "trust list --trust trust.yaml", ""},
		{0, "label " + longMachine + "/3", longMachine},
		{0, "report " + longMachine + "/3", longMachine},
		{0, "fluid level 9.3L --machine " + longMachine, ""},
		{0, "issue jobs/3-gannet-port-2026-10-22.yaml", longMachine},
	} {
		out := f.must(t, c.code, strings.Fields(c.line)...).stdout
		if !strings.Contains(out, c.has) {
			t.Errorf("%s: no %q in\n%s", c.line, c.has, out)
		}
		for line := range strings.Lines(out) {
			line = strings.TrimSuffix(line, "\n")
			oneWord := !strings.Contains(strings.TrimSpace(line), " ")
			if n := utf8.RuneCountInString(line); n > terminalColumns && !oneWord && !machineLine.MatchString(line) {
				t.Errorf("%s: %d columns: %s", c.line, n, line)
			}
		}
	}
}

// Columns that do not fit go to a second line of their row, under their headings.
func TestFoldedTable(t *testing.T) {
	t.Parallel()
	var out strings.Builder
	p := &program{stdout: &out, stderr: &out}
	a, b := strings.Repeat("a", 40), strings.Repeat("b", 40)
	p.stateTable("", [][]string{{"state", "machine", "task", "due at", "left"}, {"due", a, b, "1095 h", strings.Repeat("word ", 8)}, {"soon", "x", "y", "-", "z"}}, []string{"", "a note", ""}, 0)
	want := "state  machine\n    task                                      due at  left\n" +
		"due    " + a + "\n    " + b + "  1095 h  word word word word word\n" + strings.Repeat(" ", 54) + "word word word\n    a note\n" +
		"soon   x\n    y                                         -       z\n"
	if out.String() != want {
		t.Errorf("\n%s\nwant\n%s", out.String(), want)
	}
	// One that fits is as it was, and no column is lost, however many there are.
	for columns := 1; columns < 12; columns++ {
		for _, width := range []int{1, 9, 30, 90} {
			out.Reset()
			row := make([]string, columns)
			for i := range row {
				row[i] = strings.Repeat(string(rune('a'+i)), width)
			}
			p.table("  ", [][]string{row})
			for _, cell := range row {
				if !strings.Contains(out.String(), cell) {
					t.Errorf("%d columns of %d: %q is lost", columns, width, cell)
				}
			}
			if lines := strings.Count(out.String(), "\n"); columns*(width+2) <= textWidth-2 && lines != 1 {
				t.Errorf("%d columns of %d on %d lines", columns, width, lines)
			}
		}
	}
}
