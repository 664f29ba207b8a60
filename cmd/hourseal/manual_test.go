package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"hourseal/record/recordtest/outside"
)

// The page has all commands and options, each where it belongs, and two readers of such
// pages have nothing against it.
func TestManual(t *testing.T) {
	f := newFolder(t)
	page := f.must(t, 0, "manual").stdout
	app := (&program{}).app()
	sections := strings.Split(page, "\n.SS ")
	commands := allCommands(app)
	if len(sections) != len(commands)+1 {
		t.Fatalf("%d sections for %d commands", len(sections)-1, len(commands))
	}
	for i, d := range commands {
		own := sections[i+1]
		if !strings.HasPrefix(own, escaped(d.synopsis())+"\n") {
			t.Errorf("%q does not begin with %q", own[:80], d.synopsis())
		}
		for _, o := range optionsOf(d.Command) {
			heading := `\fB` + escaped(strings.Join(o.names, ", ")) + `\fR`
			if o.value != "" {
				heading += ` \fI` + escaped(o.value) + `\fR`
			}
			if !strings.Contains(own, "\n.TP\n"+heading+"\n") {
				t.Errorf("%s has no %s", d.path, o.heading())
			}
		}
	}
	for _, e := range exitMeanings {
		if !strings.Contains(page, escaped(e.meaning[:12])) {
			t.Errorf("no exit code %d", e.code)
		}
	}

	file := filepath.Join(t.TempDir(), "hourseal.1")
	if err := os.WriteFile(file, []byte(page), 0o644); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command(outside.Program(t, "mandoc"), "-T", "lint", "-W", "warning", file).CombinedOutput(); err != nil || len(out) > 0 {
		t.Errorf("mandoc: %v\n%s", err, out)
	}
	overstruck := regexp.MustCompile(`.\x08`)
	printed := overstruck.ReplaceAllString(outside.Run(t, "mandoc", "-T", "utf8", file), "")
	for _, want := range []string{"hourseal due gannet-port --on 2026-10-26 --hours 1131.5", "--passphrase-file FILE", "HOURSEAL_YARD", "'2.4 US gal'", "130 "} {
		if !strings.Contains(printed, want) {
			t.Errorf("printed, it has no %q", want)
		}
	}
	for line := range strings.Lines(printed) {
		if n := utf8.RuneCountInString(strings.TrimSuffix(line, "\n")); n > terminalColumns {
			t.Errorf("%d columns: %q", n, line)
		}
	}
	groff := exec.Command(outside.Program(t, "groff"), "-man", "-Tutf8", "-ww", file)
	if out, err := groff.CombinedOutput(); err != nil || strings.Contains(string(out), "warning") || !strings.Contains(string(out), "2.4 US gal") {
		t.Errorf("groff: %v\n%.400s", err, out)
	}
}

// What README says of a yard folder the manual says, too, and nothing else.
func TestManualFiles(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, section, _ := strings.Cut(string(readme), "\n## What is in a yard folder\n\n")
	section, _, _ = strings.Cut(section, "\n\n")
	typed := strings.NewReplacer("<machine>", "MACHINE", "<number>", "NUMBER", "<id>", "ID")
	var want []string
	for line := range strings.Lines(section) {
		want = append(want, typed.Replace(strings.Fields(line)[0]))
		if strings.Contains(line, "MACHINE-unfinished.yaml") {
			want = append(want, "jobs/MACHINE-unfinished.yaml")
		}
	}
	var got []string
	for _, f := range filesOfYard {
		got = append(got, strings.Split(f[0], ", ")...)
	}
	if !slices.Equal(got, want) {
		t.Errorf("%q\nREADME has\n%q", got, want)
	}
}
