package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"hourseal/record/recordtest/outside"
)

// Each user's five minutes in README.md, one block after another in one shell,
// as a reader would type them in an empty folder. The blocks marked sh are run.
func TestReadmeCommands(t *testing.T) {
	for _, name := range []string{"sh", "pdfdetach", "openssl", "ssh-keygen"} {
		outside.Program(t, name)
	}
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	blocks := regexp.MustCompile("(?s)```sh\n(.*?)```").FindAllSubmatch(text, -1)
	if len(blocks) < 6 {
		t.Fatalf("%d blocks of commands in README.md, want 6 at least", len(blocks))
	}
	var script bytes.Buffer
	for _, block := range blocks {
		script.Write(block[1])
	}
	f := newFolder(t)
	f.now = "2026-07-20T17:30:00Z" // the day of the example job
	cmd := exec.Command("sh", "-eu")
	cmd.Stdin, cmd.Dir, cmd.Env = &script, f.dir, f.environment()
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	for _, want := range []string{
		"Can be issued.",
		"record 1: ",
		"Unaltered, and signed by Ellery Slip Boatyard. Nobody has checked that the\nwork was done.",
		"The serial number that you gave is the record's.",
		`"verdict":"genuine"`,
		"1 record, of 2026-07-20, unaltered, signed by Ellery Slip Boatyard: nothing\nrecorded as overdue. Nobody has checked that the work was done.",
		"history.pdf: statement of Corrin 4T-75, serial 0045117",
		"signed that it holds no other of this machine until 2026-07-20.",
		`"standing":{"on":"2026-07-19"`,
		"At 48 h, as you gave it.",
		"shown to exist by 2026-07-20: by the ledger line",
		"Signature Verified Successfully",
	} {
		if !strings.Contains(string(out), want) {
			t.Errorf("no %q in what the commands printed:\n%s", want, out)
		}
	}
	fingerprints := regexp.MustCompile(`(?m)^([A-Za-z0-9+/]{43})=$`).FindSubmatch(out)
	if fingerprints == nil || !bytes.Contains(out, append([]byte("256 SHA256:"), fingerprints[1]...)) {
		t.Error("the fingerprint worked out of the record is not the one that ssh-keygen prints")
	}
	if _, err := os.Stat(filepath.Join(f.dir, "my-yard", "reports", "example-engine-0001.pdf")); err != nil {
		t.Error(err)
	}
}
