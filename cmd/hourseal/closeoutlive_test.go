package main

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"hourseal/record/dialogue"
)

// sitter is a session that goes on while other things happen in the yard.
type sitter struct {
	t     *testing.T
	f     folder
	cmd   *exec.Cmd
	in    io.WriteCloser
	shown growing
	out   bytes.Buffer
}

// sit begins a session.
func sit(t *testing.T, f folder, machine string) *sitter {
	t.Helper()
	s := &sitter{t: t, f: f, cmd: f.command("closeout", "--ask", machine)}
	s.cmd.Stderr, s.cmd.Stdout = &s.shown, &s.out
	var err error
	if s.in, err = s.cmd.StdinPipe(); err != nil {
		t.Fatal(err)
	}
	if err := s.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	return s
}

// types types lines, and waits until what is asked then has these words in it.
func (s *sitter) types(lines []string, until string) {
	s.t.Helper()
	before := len(s.shown.String())
	if _, err := io.WriteString(s.in, strings.Join(append(lines[:len(lines):len(lines)], ""), "\n")); err != nil {
		s.t.Fatal(err)
	}
	for deadline := time.Now().Add(20 * time.Second); ; time.Sleep(2 * time.Millisecond) {
		text := s.shown.String()
		if asked := text[before:]; strings.HasSuffix(asked, ": ") && strings.Contains(oneLine(asked), until) {
			return
		}
		if time.Now().After(deadline) {
			s.t.Fatalf("%q does not come:\n%s", until, text)
		}
	}
}

// ends closes the input after the last lines, and gives how it ended.
func (s *sitter) ends(lines ...string) ran {
	s.t.Helper()
	if _, err := io.WriteString(s.in, strings.Join(append(lines, ""), "\n")); err != nil {
		s.t.Fatal(err)
	}
	if err := s.in.Close(); err != nil {
		s.t.Fatal(err)
	}
	_ = s.cmd.Wait() // its code is looked at
	return ran{s.cmd.ProcessState.ExitCode(), s.out.String(), s.shown.String()}
}

// The record that is signed is the one that was shown, whatever happened to the file,
// the ledger and the yard in between.
func TestWhatWasShownIsSigned(t *testing.T) {
	t.Parallel()
	lines := linesOf(portVisit)
	t.Run("changed by hand at the last question", func(t *testing.T) {
		f := closeoutYard(t)
		s := sit(t, f, "gannet-port")
		s.types(lines, "Sign this record")
		f.write(t, unfinished, bytes.ReplaceAll(f.read(t, unfinished), []byte("hours: 812.6"), []byte("hours: 815")))
		r := s.ends("y")
		if r.code != 2 || !strings.Contains(oneLine(r.stderr), "was changed meanwhile, by hand or by another session") {
			t.Errorf("%s", r)
		}
		if fileIsThere(f.path("records")) {
			t.Error("it was signed")
		}
	})
	t.Run("another record meanwhile", func(t *testing.T) {
		f := closeoutYard(t)
		s := sit(t, f, "gannet-port")
		s.types(lines, "Sign this record")
		f.write(t, "jobs/other.yaml", []byte("machine: gannet-port\ndate: 2026-04-01\nhours: 760\nreason: inspection\n"))
		f.must(t, 0, "issue", "jobs/other.yaml")
		s.types([]string{"y"}, "Sign this record")
		if !strings.Contains(oneLine(s.shown.String()), "The yard's files or records have changed since you began.") {
			t.Errorf("%s", s.shown.String())
		}
		r := s.ends("y")
		if r.code != 0 || !strings.Contains(r.stdout, "gannet-port, record 2: ") {
			t.Errorf("%s", r)
		}
	})
	t.Run("another schedule meanwhile", func(t *testing.T) {
		f := closeoutYard(t)
		s := sit(t, f, "gannet-port")
		s.types(lines, "Sign this record")
		const file = "schedules/diesel-inboard-ellery.yaml"
		f.write(t, file, bytes.Replace(f.read(t, file), []byte("hours: 1000"), []byte("hours: 1500"), 1))
		s.types([]string{"y"}, "Sign this record")
		if shown := oneLine(s.shown.String()); !strings.Contains(shown, "The yard's files or records have changed since you began.") || !strings.Contains(shown, "belt 1500 h") {
			t.Errorf("%s", shown)
		}
		if r := s.ends("y"); r.code != 0 {
			t.Errorf("%s", r)
		}
	})
	t.Run("a file attached meanwhile", func(t *testing.T) {
		f := closeoutYard(t)
		s := sit(t, f, "gannet-port")
		s.types(lines[:len(lines)-1], "Notes")
		f.write(t, "lab.txt", []byte("no metal found\n"))
		f.must(t, 0, "attach", unfinished, "lab.txt")
		s.types(lines[len(lines)-1:], "Sign this record")
		if !strings.Contains(s.shown.String(), "Files: lab.txt.") {
			t.Errorf("the file is not shown:\n%s", s.shown.String())
		}
		r := s.ends("y")
		if r.code != 0 || !fileIsThere(f.path("records/gannet-port/0001/lab.txt")) || !bytes.Contains(f.read(t, portJob), []byte("files: [lab.txt]")) {
			t.Errorf("%s", r)
		}
	})
}

// Two sessions of one machine do not write over each other.
func TestTwoSessions(t *testing.T) {
	t.Parallel()
	lines := linesOf(portVisit)
	f := closeoutYard(t)
	first := sit(t, f, "gannet-port")
	first.types(lines[:5], "Technician")
	second := sit(t, f, "gannet-port")
	second.types([]string{"y", lines[5]}, "engine-oil")
	r := first.ends("119, Ellery Slip card")
	if r.code != 2 || !strings.Contains(oneLine(r.stderr), "was changed meanwhile, by hand or by another session: it stays as it is, and your last answer is not kept") {
		t.Errorf("%s", r)
	}
	if r := second.ends(lines[6:]...); r.code != 2 || len(dialogue.FromComments(f.read(t, unfinished))) != len(lines) {
		t.Errorf("%s", r)
	}
	if kept := string(f.read(t, unfinished)); !strings.Contains(kept, "#: technician: 118, Ellery Slip card\n") {
		t.Errorf("kept:\n%s", kept)
	}
}

// A run that ended between storing the record and putting the sheet in its place is put
// right by the same command.
func TestSignedAlready(t *testing.T) {
	t.Parallel()
	f := closeoutYard(t)
	lines := linesOf(portVisit)
	if r := f.asked(t, append(lines[:len(lines):len(lines)], "n"), "gannet-port"); r.code != 7 {
		t.Fatalf("%s", r)
	}
	kept := f.read(t, unfinished)
	if r := f.asked(t, []string{"y", "y"}, "gannet-port"); r.code != 0 {
		t.Fatalf("%s", r)
	}
	sheet := f.read(t, portJob)
	if err := os.Remove(f.path(portJob)); err != nil {
		t.Fatal(err)
	}
	f.write(t, unfinished, kept)
	r := f.asked(t, nil, "gannet-port")
	if r.code != 0 || !strings.Contains(oneLine(r.stderr), "is signed already, as gannet-port/1; its sheet is now "+portJob) {
		t.Errorf("%s", r)
	}
	if !bytes.Equal(f.read(t, portJob), sheet) || fileIsThere(f.path(unfinished)) || fileIsThere(f.path("records/gannet-port/0002.cose")) {
		t.Error("it is not put right")
	}
}

// What a twin's answers make odd in the first is asked there, and "<" leads from the
// second machine back into the first.
func TestTwinsTogether(t *testing.T) {
	t.Parallel()
	f := closeoutYard(t)
	lines := linesOf(portVisit)
	s := sit(t, f, "gannet-port")
	s.types(lines, "Sign this record")
	s.types([]string{"t"}, "gannet-starboard: ")
	s.types([]string{"<"}, "Notes [Look at the belt again at 900 hours.]")
	s.types([]string{""}, "Date of the work")
	// Both meters are said to read the same.
	s.types([]string{"", "812.6"}, "is close to that of gannet-port")
	twin := append([]string{"read twice, it is so", "", "J-2218", "", ""}, lines[6:22]...)
	s.types(append(append(twin, "", lines[23], "", ""), lines[26:]...), "gannet-port: beside the other, this is to be answered.")
	s.types([]string{"read twice here, too"}, "Sign these 2 records")
	r := s.ends("y")
	if r.code != 0 || !strings.Contains(r.stdout, "gannet-starboard, record 1: ") {
		t.Errorf("%s", r)
	}
}

// A machine file that cannot be read is told before the first question: beside it
// nothing could be checked.
func TestBrokenYardIsToldFirst(t *testing.T) {
	t.Parallel()
	f := closeoutYard(t)
	f.write(t, "machines/tern.yaml", []byte("id: tern\nhours: unknown\n"))
	if r := f.asked(t, nil, "gannet-port"); r.code != 2 || !strings.Contains(r.stderr, "machines/tern.yaml:2:1") || strings.Contains(r.stderr, "Date of the work") {
		t.Errorf("%s", r)
	}
	f = closeoutYard(t)
	if err := os.Remove(f.path("keys/yard")); err != nil {
		t.Fatal(err)
	}
	if r := f.asked(t, nil, "gannet-port"); r.code != 2 || !strings.Contains(r.stderr, "no signing key at keys/yard") || strings.Contains(r.stderr, "Date of the work") {
		t.Errorf("%s", r)
	}
}

// On the second visit what the first record has is offered: place, technician, the oil
// without its batch, the filter's number; no reading and no amount.
func TestSecondVisit(t *testing.T) {
	t.Parallel()
	f := closeoutYard(t)
	lines := linesOf(portVisit)
	if r := f.asked(t, append(lines[:len(lines):len(lines)], "y"), "gannet-port"); r.code != 0 {
		t.Fatalf("%s", r)
	}
	f.now = "2027-04-20T17:30:00Z"
	r := f.asked(t, []string{"", "1010.4", "", "J-2301", "", "", "d", "", "", "p", "no time", "-", "-27 C", "d", "", // the tasks
		"", "0.3", "2.4 US gal at 68 C", "", "", "", "9.3 L at 16 C", "", "9.3 L", "CR-2290", "n 5", "0.85 after 15 min at 45 C", "-", "", "n"}, "gannet-port")
	shown := oneLine(r.stderr)
	for _, want := range []string{
		"Place [Port Ellery, east slip]:", "[118, Ellery Slip card]:", "batch [Harrow HD, 15W-40, API CK-4]:", "Oil filter: part number, as CR-2214 [CR-2214]:",
		"Hour meter reads: 1010.4", "put off on 2026-05-04: part on order",
	} {
		if !strings.Contains(shown, want) {
			t.Errorf("not shown: %s\n%s", want, r.stderr)
		}
	}
	if r.code != 7 {
		t.Errorf("%s", r)
	}
}

// The questions and the last screen are in the yard's own way of writing figures; what is
// typed and what is signed are not.
func TestCloseoutInTheYardsStyle(t *testing.T) {
	t.Parallel()
	f := closeoutYard(t)
	plain := f.sameYard(t)
	f.write(t, "yard.yaml", append(f.read(t, "yard.yaml"), "writes: { second_unit: US gal, dates: 4 May 2026, decimal: comma }\n"...))
	lines := append(linesOf(portVisit), "y")
	r := f.asked(t, lines, "gannet-port")
	if r.code != 0 {
		t.Fatalf("%s", r)
	}
	for _, want := range []string{
		"Last known: 501 h on 20 Jun 2025.", "About 8,7 L (2.3 US gal)", "near 0,69; you read 0,85", "4 May 2026, 812,6 h, scheduled.", "1012,6 h or 4 May 2027",
	} {
		if want = strings.ReplaceAll(want, "2.3 US", "2,3 US"); !strings.Contains(oneLine(r.stderr), want) {
			t.Errorf("not shown: %s\n%s", want, r.stderr)
		}
	}
	if r := plain.asked(t, lines, "gannet-port"); r.code != 0 || !bytes.Equal(plain.read(t, portJob), f.read(t, portJob)) {
		t.Errorf("the sheet is another: %s", r)
	}
}

// After a change of meter what is due goes by the hours in total, not by what the new
// meter reads.
func TestDueAfterChangeOfMeter(t *testing.T) {
	f := closeoutYard(t)
	if r := f.asked(t, append(linesOf(portVisit), "y"), "gannet-port"); r.code != 0 {
		t.Fatalf("%s", r)
	}
	f.now = "2026-08-04T17:30:00Z"
	asRead := oneLine(f.asked(t, []string{"", "1100", "", "", "", ""}, "gannet-port").stderr)
	changed := oneLine(f.sameYardAnew(t).asked(t, []string{"", "changed", "1095 to 820, used meter", "825", "", "", "", ""}, "gannet-port").stderr)
	stopped := oneLine(f.sameYardAnew(t).asked(t, []string{"", "stopped, 1100 by engine log", "", "", "", ""}, "gannet-port").stderr)
	for name, shown := range map[string]string{"as read": asRead, "changed": changed, "stopped": stopped} {
		if !strings.Contains(shown, "1 of 5. Change the engine oil: overdue, due at 1012.6 h") {
			t.Errorf("%s: %s", name, shown)
		}
	}
}

// sameYardAnew is the same yard without a session that was begun.
func (f folder) sameYardAnew(t *testing.T) folder {
	t.Helper()
	other := f.sameYard(t)
	if err := os.RemoveAll(other.path(unfinished)); err != nil {
		t.Fatal(err)
	}
	return other
}

// What was answered stays in the sheet when another record has made it not due
// meanwhile, and nobody is told that it was changed by hand.
func TestAnswersOutliveTheDueList(t *testing.T) {
	f := closeoutYard(t)
	lines := linesOf(portVisit)
	if r := f.asked(t, lines, "gannet-port"); r.code != 2 {
		t.Fatalf("%s", r)
	}
	f.write(t, "jobs/other.yaml", []byte("machine: gannet-port\ndate: 2026-04-01\nhours: 760\nreason: inspection\ntasks:\n  - { id: belt-look, result: ok }\n"))
	f.must(t, 0, "issue", "jobs/other.yaml")
	r := f.asked(t, []string{"y", "n"}, "gannet-port")
	if shown := oneLine(r.stderr); r.code != 7 || strings.Contains(shown, "by hand") || !strings.Contains(shown, "To be looked at again: belt-look (look again 900 h; light glaze on the back).") {
		t.Errorf("%s", r)
	}
}
