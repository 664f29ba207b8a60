package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"
)

// terminalColumns is how wide a terminal is at least.
const terminalColumns = 80

// Each help begins with an example, names every option, and fits a terminal.
func TestHelp(t *testing.T) {
	app := (&program{}).app()
	all := append(allCommands(app), wholeProgram(app))
	for _, d := range all {
		help := helpOf(d)
		if !strings.HasPrefix(help, "Example:\n  $ hourseal ") {
			t.Errorf("%q does not begin with an example:\n%s", d.path, help)
		}
		if !strings.Contains(help, "\n  "+d.synopsis()+"\n") {
			t.Errorf("%q does not say %q", d.path, d.synopsis())
		}
		for line := range strings.Lines(help) {
			if n := utf8.RuneCountInString(strings.TrimSuffix(line, "\n")); n > terminalColumns || strings.HasSuffix(line, " \n") {
				t.Errorf("%q, %d columns: %q", d.path, n, line)
			}
		}
		for _, o := range optionsOf(d.Command) {
			if !strings.Contains(help, "\n  "+o.heading()) {
				t.Errorf("%q does not name %s", d.path, o.heading())
			}
		}
		for _, c := range visibleOf(d.Subcommands) {
			if !strings.Contains(help, "\n  "+c.Name+" ") {
				t.Errorf("%q does not name %s", d.path, c.Name)
			}
		}
		if strings.Contains(help, "`") {
			t.Errorf("%q has a backquote: two values named in one text?", d.path)
		}
	}
	if len(all) < 35 {
		t.Errorf("%d commands", len(all))
	}
}

// The name alone lists the daily commands and where all are, on one screen; --help
// lists all.
func TestNameAlone(t *testing.T) {
	f := newFolder(t)
	r := f.must(t, 0)
	if n := strings.Count(r.stdout, "\n"); n > 23 {
		t.Errorf("%d lines, and the prompt under them:\n%s", n, r)
	}
	for line := range strings.Lines(r.stdout) {
		if n := utf8.RuneCountInString(strings.TrimSuffix(line, "\n")); n > terminalColumns {
			t.Errorf("%d columns: %s", n, line)
		}
	}
	app := (&program{}).app()
	paths := map[string]bool{}
	for _, d := range allCommands(app) {
		paths[d.path] = true
	}
	for _, path := range dailyCommands {
		if !paths[path] || !strings.Contains(r.stdout, "\n  "+path+" ") {
			t.Errorf("%s is not listed, or is no command", path)
		}
	}
	if !strings.Contains(r.stdout, "hourseal --help\n") {
		t.Errorf("it does not say where all are:\n%s", r)
	}
	all := f.must(t, 0, "--help").stdout
	for _, c := range app.Commands {
		if !c.Hidden && !strings.Contains(all, "\n  "+c.Name+" ") {
			t.Errorf("--help does not list %s", c.Name)
		}
	}
}

func TestCommandLines(t *testing.T) {
	for line, want := range map[string]string{
		"hourseal demo":                        "hourseal demo",
		"hourseal verify a.pdf --trust t.yaml": "hourseal verify a.pdf \\\n--trust t.yaml",
		"hourseal fluid convert '2.4 US gal'":  "hourseal fluid convert \\\n'2.4 US gal'",
	} {
		if got := strings.Join(commandLines(line, 25), "\n"); got != want {
			t.Errorf("%q: %q, want %q", line, got, want)
		}
	}
}

// The README has a row for each exit code that the manual names.
func TestExitCodesAreInTheREADME(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range exitMeanings {
		if row := fmt.Sprintf("| %d | %s |\n", e.code, e.meaning); !strings.Contains(string(readme), row) {
			t.Errorf("not there: %s", row)
		}
	}
}

// Twins get a label each, one command for both; with one file named there is one label.
func TestLabelsOfTwins(t *testing.T) {
	f := newYard(t)
	f.must(t, 0, "issue", portJob, starboardJob)
	r := f.must(t, 0, "label", "gannet-port/1", "gannet-starboard/1")
	if want := "labels/gannet-port-0001.pdf\nlabels/gannet-starboard-0001.pdf\n"; r.stdout != want {
		t.Errorf("%s", r)
	}
	for _, machine := range []string{"gannet-port", "gannet-starboard"} {
		both := f.read(t, "labels/"+machine+"-0001.pdf")
		f.must(t, 0, "label", machine+"/1", "-o", "one.pdf")
		if !bytes.Equal(both, f.read(t, "one.pdf")) {
			t.Errorf("the label of %s is another when it is made alone", machine)
		}
		if err := os.Remove(f.path("labels/" + machine + "-0001.pdf")); err != nil {
			t.Fatal(err)
		}
	}
	for _, args := range [][]string{{"gannet-port/1", "gannet-starboard/1", "-o", "two.pdf"}, {"gannet-port/1", "gannet-starboard/9"}} {
		r := f.must(t, 2, append([]string{"label"}, args...)...)
		if left, _ := filepath.Glob(f.path("labels/*")); len(left) > 0 || r.stdout != "" {
			t.Errorf("%v: wrote %q, %s", args, left, r)
		}
	}
}
