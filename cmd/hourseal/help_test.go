package main

import (
	"fmt"
	"os"
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
