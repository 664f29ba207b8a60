package main

import (
	"bytes"
	"fmt"
	"io"
	"iter"
	"os"
	"strings"
	"sync"
	"testing"
	"time"

	"hourseal/record/dialogue"
	"hourseal/record/jobsheet"
)

// typed is a line that is typed at the questions. What is the technician's own is a
// figure or words that nobody else could know; the rest is what the program costs.
type typed struct {
	line string
	own  bool
}

// portVisit is the example job, typed into an empty yard.
var portVisit = []typed{
	{"", false}, {"812.6", true}, {"", false}, {"J-2217", true}, {"Port Ellery, east slip", true}, {"118, Ellery Slip card", true},
	{"", false}, {"", false}, // oil and filter
	{"w", false}, {"900 h, light glaze on the back", true},
	{"-27 C", true},
	{"p", false}, {"part on order", true}, {"na", false},
	{"Tightened the exhaust clamp at the elbow", true}, {"", false}, {"", false},
	{"0.5 L", true}, {"0.3 after 20 min at 18 C", true}, {"2.4 US gal at 68 C", true}, {"", false}, {"", false},
	{"Harrow HD, 15W-40, API CK-4, batch H-0612", true}, {"5 L at 16 C, 4.3 L at 16 C", true}, {"CR-2214", true}, {"", false},
	{"n 10", true}, {"0.85 after 15 min at 45 C", true}, {"8.8 L to harbour oil bank, receipt 5521", true},
	{"Look at the belt again at 900 hours.", true},
}

func linesOf(typed []typed) []string {
	lines := make([]string, len(typed))
	for i, t := range typed {
		lines[i] = t.line
	}
	return lines
}

// closeoutYard is the yard without its job sheets.
func closeoutYard(t testing.TB) folder {
	t.Helper()
	f := newYard(t)
	if err := os.RemoveAll(f.path("jobs")); err != nil {
		t.Fatal(err)
	}
	return f
}

// sameYard is another folder with the same files.
func (f folder) sameYard(t testing.TB) folder {
	t.Helper()
	other := f
	other.dir = t.TempDir()
	if err := copyFiles(f.dir, other.dir); err != nil {
		t.Fatal(err)
	}
	return other
}

// sameYardWithout is the same yard with neither job sheets nor records.
func (f folder) sameYardWithout(t testing.TB) folder {
	t.Helper()
	other := f.sameYard(t)
	for _, made := range []string{"jobs", "records", "reports"} {
		if err := os.RemoveAll(other.path(made)); err != nil {
			t.Fatal(err)
		}
	}
	return other
}

// asked runs the questions over a pipe.
func (f folder) asked(t testing.TB, lines []string, args ...string) ran {
	t.Helper()
	cmd := f.command(append([]string{"closeout", "--ask"}, args...)...)
	cmd.Stdin = strings.NewReader(strings.Join(append(lines, ""), "\n"))
	return ended(t, cmd)
}

const unfinished = "jobs/gannet-port-unfinished.yaml"

// The example job, answered question by question, gives the record that its sheet
// gives, byte for byte; so does it in flags and in JSON.
func TestCloseoutGivesTheRecordOfTheSheet(t *testing.T) {
	t.Parallel()
	f := closeoutYard(t)
	bySheet := f.sameYard(t)
	if err := copyFiles(scenarioFolder, bySheet.dir); err != nil {
		t.Fatal(err)
	}
	bySheet.must(t, 0, "issue", portJob)
	want := bySheet.read(t, "records/gannet-port/0001.cose")

	r := f.asked(t, append(linesOf(portVisit), "y"), "gannet-port")
	if r.code != 0 {
		t.Fatalf("%s", r)
	}
	if !bytes.Equal(f.read(t, "records/gannet-port/0001.cose"), want) {
		t.Errorf("the session gives another record than the sheet:\n%s", f.read(t, portJob))
	}
	if bytes.Contains(f.read(t, portJob), []byte("#:")) {
		t.Error("the answers are still in the sheet")
	}
	if _, err := os.Stat(f.path(unfinished)); err == nil {
		t.Error("the unfinished sheet is still there")
	}
	byOptions := f.sameYardWithout(t)
	byOptions.must(t, 0, append([]string{"closeout", "gannet-port"}, exampleOptions...)...)
	if !bytes.Equal(byOptions.read(t, "records/gannet-port/0001.cose"), want) {
		t.Error("the same job in options gives another record")
	}
	job, err := jobsheet.ParseJob(portJob, f.read(t, portJob))
	if err != nil {
		t.Fatal(err)
	}
	for _, from := range []string{"job.json", "-"} {
		byJSON := f.sameYardWithout(t)
		byJSON.write(t, "job.json", job.JSON())
		cmd := byJSON.command("closeout", "--from", from)
		cmd.Stdin = bytes.NewReader(job.JSON())
		if r := ended(t, cmd); r.code != 0 {
			t.Fatalf("--from %s: %s", from, r)
		}
		if !bytes.Equal(byJSON.read(t, "records/gannet-port/0001.cose"), want) {
			t.Errorf("the same job as JSON, --from %s, gives another record", from)
		}
	}
	if again := f.must(t, 0, "issue", portJob); !strings.Contains(again.stdout, "record 1") {
		t.Errorf("the sheet of the session gives another record: %s", again)
	}
}

// keystrokes counts what is typed beside the technician's own words: the letters, and
// an end of line for every answer.
func keystrokes(lines []typed) int {
	n := 0
	for _, t := range lines {
		if n++; !t.own {
			n += len(t.line)
		}
		if strings.HasPrefix(t.line, "n ") { // the letter before a figure
			n += len("n ")
		}
	}
	return n
}

// What README says of the keystrokes is so.
func TestStopwatch(t *testing.T) {
	t.Parallel()
	lines := append(portVisit[:len(portVisit):len(portVisit)], typed{"y", false})
	f := closeoutYard(t)
	r := f.asked(t, linesOf(lines), "gannet-port")
	if r.code != 0 {
		t.Fatalf("%s", r)
	}
	own := 0
	for _, l := range lines {
		if l.own {
			own += len(strings.TrimPrefix(l.line, "n "))
		}
	}
	count := keystrokes(lines)
	if count >= 40 {
		t.Errorf("%d keystrokes beside the figures, want fewer than 40", count)
	}
	said := fmt.Sprintf("%d questions and %d keystrokes beside the %d characters", len(lines), count, own)
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(strings.Join(strings.Fields(string(readme)), " "), said) {
		t.Errorf("README does not say: %s", said)
	}
}

// The input may end at any question, also within a line: nothing is signed, what was
// answered is kept, and the run ends with 2.
func TestInputEndsAtEveryQuestion(t *testing.T) {
	t.Parallel()
	lines := linesOf(portVisit)
	f := closeoutYard(t)
	for n := range everyQuestion(len(lines)) {
		g := f.sameYard(t)
		cmd := g.command("closeout", "--ask", "gannet-port")
		text := strings.Join(append(lines[:n:n], ""), "\n")
		if n < len(lines) {
			text += lines[n][:len(lines[n])/2] // the rest of the line never came
		} else {
			text += "y" // nor its end
		}
		cmd.Stdin = strings.NewReader(text)
		r := ended(t, cmd)
		if r.code != 2 || !strings.Contains(oneLine(r.stderr), "The input ended. Nothing was signed.") {
			t.Errorf("after %d answers: %s", n, r)
		}
		if _, err := os.Stat(g.path("records")); err == nil {
			t.Errorf("after %d answers there are records", n)
		}
		kept, _ := os.ReadFile(g.path(unfinished))
		if got := len(dialogue.FromComments(kept)); got != n {
			t.Errorf("after %d answers %d are kept", n, got)
		}
	}
}

// stoppedAfter runs the questions, sends a signal at the one after n answers, and waits
// for the end.
func stoppedAfter(t *testing.T, f folder, lines []string, n int, signal os.Signal) ran {
	t.Helper()
	cmd := f.command("closeout", "--ask", "gannet-port")
	in, err := cmd.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	var shown growing
	cmd.Stderr = &shown
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	if _, err := io.WriteString(in, strings.Join(append(lines[:n:n], ""), "\n")); err != nil {
		t.Fatal(err)
	}
	// The answers are kept before the next question comes, which has no end of line.
	for deadline := time.Now().Add(20 * time.Second); ; time.Sleep(2 * time.Millisecond) {
		kept, _ := os.ReadFile(f.path(unfinished))
		if text := shown.String(); len(dialogue.FromComments(kept)) == n && strings.HasSuffix(text, ": ") {
			break
		}
		if time.Now().After(deadline) {
			t.Fatalf("the question after %d answers does not come:\n%s", n, shown.String())
		}
	}
	if err := cmd.Process.Signal(signal); err != nil {
		t.Fatal(err)
	}
	_ = cmd.Wait() // it was stopped
	return ran{code: cmd.ProcessState.ExitCode(), stderr: shown.String()}
}

// growing is what a running program has printed so far.
type growing struct {
	mu   sync.Mutex
	text []byte
}

func (g *growing) Write(b []byte) (int, error) {
	g.mu.Lock()
	defer g.mu.Unlock()
	g.text = append(g.text, b...)
	return len(b), nil
}

func (g *growing) String() string {
	g.mu.Lock()
	defer g.mu.Unlock()
	return string(g.text)
}

// Killed or interrupted at every question in turn and gone on with, a session ends in
// the same sheet and the same record. An interrupted one says where things stand.
func TestKilledAtEveryQuestion(t *testing.T) {
	t.Parallel()
	lines := linesOf(portVisit)
	f := closeoutYard(t)
	whole := f.sameYard(t)
	if r := whole.asked(t, append(lines[:len(lines):len(lines)], "y"), "gannet-port"); r.code != 0 {
		t.Fatalf("%s", r)
	}
	for n := range everyQuestion(len(lines)) {
		g := f.sameYard(t)
		if n%8 == 4 {
			r := stoppedAfter(t, g, lines, n, os.Interrupt)
			if said := oneLine(r.stderr); r.code != 130 || !strings.Contains(said, "Stopped. Nothing was signed. The answers so far are kept in "+unfinished+": hourseal closeout gannet-port goes on with them.") {
				t.Errorf("interrupted after %d answers: %s", n, r)
			}
		} else {
			stoppedAfter(t, g, lines, n, os.Kill)
		}
		var rest []string
		if n > 0 {
			rest = append(rest, "y") // to go on
		}
		r := g.asked(t, append(append(rest, lines[n:]...), "y"), "gannet-port")
		if r.code != 0 {
			t.Errorf("killed after %d answers: %s", n, r)
			continue
		}
		for _, file := range []string{portJob, "records/gannet-port/0001.cose"} {
			if !bytes.Equal(g.read(t, file), whole.read(t, file)) {
				t.Errorf("killed after %d answers: %s is another", n, file)
			}
		}
	}
}

// everyQuestion is 0 to n, or every fourth of them in a short run.
func everyQuestion(n int) iter.Seq[int] {
	step := 4
	if longRun() {
		step = 1
	}
	return func(yield func(int) bool) {
		for i := 0; i <= n; i += step {
			if !yield(i) {
				return
			}
		}
	}
}

// On a terminal it is the same, passphrase and all; what is typed there is not said a
// second time.
func TestCloseoutOnTerminal(t *testing.T) {
	t.Parallel()
	f := closeoutYard(t)
	r := typing(t, f, append(linesOf(portVisit), "y"), "closeout", "gannet-port")
	if r.code != 0 || !strings.Contains(r.stdout, "gannet-port, record 1: ") {
		t.Fatalf("%s", r)
	}
	if n := strings.Count(r.stdout, "812.6"); n != 2 { // as typed, and on the last screen
		t.Errorf("812.6 is shown %d times:\n%s", n, r.stdout)
	}
	if strings.Contains(r.stdout, "\x1b") {
		t.Errorf("something is drawn:\n%q", r.stdout)
	}
	for line := range strings.Lines(r.stdout) {
		asked, _, _ := strings.Cut(line, ": ")
		if n := len([]rune(strings.TrimRight(asked, "\n"))); n > 80 {
			t.Errorf("%d columns: %s", n, line)
		}
	}
}
