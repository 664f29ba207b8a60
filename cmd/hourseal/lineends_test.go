package main

import (
	"bytes"
	"strings"
	"testing"
)

// asWindows is a text as Windows editors may save it: with a byte-order mark and their
// line ends.
func asWindows(text []byte) []byte {
	return append([]byte("\uFEFF"), bytes.ReplaceAll(text, []byte("\n"), []byte("\r\n"))...)
}

// Every file that people write may come with a byte-order mark and the line ends of
// Windows.
func TestWindowsLineEnds(t *testing.T) {
	f := newYard(t)
	plain := f.must(t, 0, "check", portJob).stdout
	for _, name := range []string{"yard.yaml", "machines/gannet-port.yaml", "machines/gannet-starboard.yaml", portJob, "trust.yaml", "keys/yard.pub"} {
		f.write(t, name, asWindows(f.read(t, name)))
	}
	if got := f.must(t, 0, "check", portJob).stdout; got != plain {
		t.Errorf("another answer:\n%s\nwant\n%s", got, plain)
	}
	f.must(t, 0, "issue", portJob)
	f.must(t, 0, "trust", "add", "keys/yard.pub", "--name", "By its file", "--trust", "other.yaml")
	f.must(t, 0, "verify", "reports", "--trust", "trust.yaml")

	// The passphrase is the line, without what ends it or stands before it.
	f.write(t, "plain.txt", []byte("correct horse"))
	f.write(t, "windows.txt", asWindows([]byte("correct horse\nsecond line\n")))
	f.must(t, 0, "key", "new", "--name", "locked", "--passphrase-file", "plain.txt")
	f.write(t, "yard.yaml", bytes.Replace(f.read(t, "yard.yaml"), []byte("keys/yard"), []byte("keys/locked"), 1))
	f.must(t, 0, "issue", starboardJob, "--passphrase-file", "windows.txt")

	// What a reader keeps: the log of receipt, and ledger lines.
	id := strings.Fields(f.must(t, 0, "show", "records/gannet-port/0001.cose").stdout)
	received := []byte("# mine\n2026-05-04 " + strings.Join(id[1:5], " ") + "\n")
	head := f.must(t, 0, "ledger", "path", "gannet-port", "--at", "2026-05-04T17:30:00Z").stdout
	lines := strings.SplitAfter(head, "\n")
	heads := []byte("2026-05-04 " + lines[0] + lines[1])
	var answers []ran
	for _, kept := range [][2][]byte{{received, heads}, {asWindows(received), asWindows(heads)}} {
		f.write(t, "received.txt", kept[0])
		f.write(t, "head.txt", kept[1])
		answers = append(answers, f.run(t, "history", "records/gannet-port", "--trust", "trust.yaml", "--received", "received.txt", "--head", "head.txt"))
	}
	if answers[0] != answers[1] || answers[1].stderr != "" || !strings.Contains(oneLine(answers[1].stdout), "shown to exist by 2026-05-04") {
		t.Errorf("%s\nwant\n%s", answers[1], answers[0])
	}

	// A schedule of the yard's own.
	schedule := f.must(t, 0, "schedule", "check", "schedules/diesel-inboard-ellery.yaml").stdout
	f.write(t, "schedules/diesel-inboard-ellery.yaml", asWindows(f.read(t, "schedules/diesel-inboard-ellery.yaml")))
	if got := f.must(t, 0, "schedule", "check", "schedules/diesel-inboard-ellery.yaml").stdout; got != schedule {
		t.Errorf("%q, want %q", got, schedule)
	}
}
