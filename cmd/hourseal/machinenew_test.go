package main

import (
	"bytes"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"
)

// generatorAnswers are what is typed to make the file of the invented Corrin G6 in a
// yard that has other machines of its vessel, offers taken.
var generatorAnswers = []string{
	"", "", "", "g", "", "", "Corrin", "G6", "0007731", "6 kW", "", "2024-03-18", "0", "180", "",
	"3.2 L", "0.8 L", "0.3 L", "15W-40, API CI-4, ACEA E7", "", "", "3.4 L", "e", "-25 C", "", "",
	"y",
}

// typed runs machine new with answers over a pipe.
func (f folder) typed(t testing.TB, answers []string, args ...string) ran {
	t.Helper()
	cmd := f.command(append([]string{"machine", "new", "--ask"}, args...)...)
	cmd.Stdin = strings.NewReader(strings.Join(slices.Concat(answers, []string{""}), "\n"))
	return ended(t, cmd)
}

func scenarioCopy(t testing.TB) folder {
	t.Helper()
	f := newFolder(t)
	if err := copyFiles(scenarioFolder, f.dir); err != nil {
		t.Fatal(err)
	}
	return f
}

// Wherever the input ends nothing is written, the exit code is 2, and the same command
// goes on to the same file.
func TestMachineNewEndsAtEveryQuestion(t *testing.T) {
	t.Parallel()
	const made = "machines/gannet-generator.yaml"
	whole := scenarioCopy(t)
	r := whole.typed(t, generatorAnswers)
	if r.code != 0 {
		t.Fatalf("%s", r)
	}
	want := whole.read(t, made)
	for n := range generatorAnswers {
		f := scenarioCopy(t)
		before, first := generatorAnswers[:n], len(whole.machines(t))
		if r := f.typed(t, before); r.code != 2 || r.stdout != "" || !strings.Contains(r.stderr, "The input ended. Nothing was written.") {
			t.Fatalf("after %d answers: %s", n, r)
		}
		// What came last without an end of line may have been cut short.
		if _, err := os.Stat(f.path(made)); err == nil || len(f.machines(t)) != first-1 {
			t.Fatalf("after %d answers the yard has %q", n, f.machines(t))
		}
		rest := generatorAnswers[n:]
		if n > 0 {
			rest = append([]string{"y"}, rest...)
		}
		if r := f.typed(t, rest); r.code != 0 {
			t.Fatalf("gone on after %d answers: %s", n, r)
		}
		if got := f.read(t, made); !bytes.Equal(got, want) {
			t.Errorf("gone on after %d answers:\n%s\nwant\n%s", n, got, want)
		}
		if _, err := os.Stat(f.path("machines/unfinished.txt")); err == nil {
			t.Errorf("after %d answers the kept ones stay", n)
		}
	}
}

// machines are the ids that the program knows.
func (f folder) machines(t testing.TB) []string {
	t.Helper()
	ids, err := openYardAt(f.dir).files.MachineIDs()
	if err != nil {
		t.Fatal(err)
	}
	return ids
}

// What is typed beside the figures and words of the plate and the handbook: ends of line,
// and letters that choose.
func TestMachineNewKeystrokes(t *testing.T) {
	t.Parallel()
	own := map[string]bool{"Corrin": true, "G6": true, "0007731": true, "6 kW": true, "2024-03-18": true, "0": true, "180": true, "3.2 L": true,
		"0.8 L": true, "0.3 L": true, "15W-40, API CI-4, ACEA E7": true, "3.4 L": true, "-25 C": true}
	figures, rest := 0, 0
	for _, answer := range generatorAnswers {
		rest++ // its end of line
		if own[answer] {
			figures += len(answer)
		} else {
			rest += len(answer)
		}
	}
	t.Logf("%d questions, %d keystrokes beside the %d of the figures", len(generatorAnswers), rest, figures)
	if rest > 40 {
		t.Errorf("%d keystrokes beside the figures", rest)
	}
	if r := scenarioCopy(t).typed(t, generatorAnswers); r.code != 0 {
		t.Fatalf("%s", r)
	}
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	if said := fmt.Sprintf("%d questions and %d keystrokes beside the figures", len(generatorAnswers), rest); !strings.Contains(oneLine(string(readme)), said) {
		t.Errorf("README does not say: %s", said)
	}
}

// No question, explanation or list is wider than the terminal.
func TestMachineNewFitsTheTerminal(t *testing.T) {
	t.Parallel()
	f := scenarioCopy(t)
	var asked []string
	for _, answer := range generatorAnswers {
		asked = append(asked, "?", answer)
	}
	r := f.typed(t, asked)
	if r.code != 0 {
		t.Fatalf("%s", r)
	}
	for line := range strings.Lines(r.stderr) {
		line = strings.TrimRight(line, "\n")
		for _, answer := range generatorAnswers { // which is echoed only over a pipe
			if answer != "" {
				line = strings.TrimSuffix(line, answer)
			}
		}
		if n := utf8.RuneCountInString(line); n > 80 {
			t.Errorf("%d columns: %s", n, line)
		}
	}
}
