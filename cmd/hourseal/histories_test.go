package main

import (
	"fmt"
	"strings"
	"testing"

	"hourseal/sign"
	"hourseal/verify/history/historytest"
)

// TestHistories runs the program over every history of the library, from files: it ends
// as the history expects, says its sentences, and its JSON fits the schema.
func TestHistories(t *testing.T) {
	schema := historySchema(t)
	const library = "../../testdata/histories"
	exits := map[int]int{}
	for _, name := range historytest.Names(t, library) {
		t.Run(name, func(t *testing.T) {
			told := historytest.Tell(t, historytest.Read(t, library, name))
			f := newFolder(t)
			f.now = "2030-01-01T12:00:00Z" // after all of them
			args := append([]string{"history", "given"}, f.handOver(t, told)...)
			r := f.must(t, told.Expect.Exit, args...)
			exits[told.Expect.Exit]++
			flat := strings.Join(strings.Fields(r.stdout), " ")
			for _, m := range told.Expect.Machines {
				if !strings.Contains(flat, m.Sentence) {
					t.Errorf("does not say %q:\n%s", m.Sentence, r.stdout)
				}
			}
			for _, line := range strings.Split(r.stdout, "\n") {
				if len([]rune(line)) > textWidth {
					t.Errorf("%d characters wide: %s", len([]rune(line)), line)
				}
			}
			fitsSchema(t, schema, []byte(f.must(t, told.Expect.Exit, append(args, "--json")...).stdout))
		})
	}
	t.Log("exit codes and how many histories end with each:", exits)
	for _, code := range []exitCode{exitOK, exitNo, exitUnknownSigner, exitKeyNotValid, exitDecide} {
		if exits[int(code)] == 0 {
			t.Errorf("no history ends with %d", code)
		}
	}
}

// handOver writes what a history's reader has into files, and returns the flags that
// name them.
func (f folder) handOver(t *testing.T, told *historytest.Told) []string {
	t.Helper()
	for _, file := range told.Files {
		f.write(t, "given/"+file.Name+".cose", file.Data)
	}
	trust, err := told.Reader.Trust.Format()
	if err != nil {
		t.Fatal(err)
	}
	f.write(t, "trust.yaml", trust)
	args := []string{"--trust", "trust.yaml"}
	in := told.Input()
	if len(in.Statements) > 0 {
		statements, err := sign.FormatStatements(in.Statements)
		if err != nil {
			t.Fatal(err)
		}
		f.write(t, "mailed.cose", statements)
		args = append(args, "--keys", "mailed.cose")
	}
	var received, heads strings.Builder
	for id, date := range in.Received {
		fmt.Fprintf(&received, "%s %s\n", date, sign.ID(id))
	}
	for _, head := range in.Heads {
		fmt.Fprintln(&heads, head.Received, head.Line)
	}
	for _, path := range in.Paths {
		fmt.Fprintln(&heads, path)
	}
	if received.Len() > 0 {
		f.write(t, "received.txt", []byte(received.String()))
		args = append(args, "--received", "received.txt")
	}
	if heads.Len() > 0 {
		f.write(t, "heads.txt", []byte(heads.String()))
		args = append(args, "--head", "heads.txt")
	}
	if in.Serial != "" {
		args = append(args, "--serial", in.Serial)
	}
	if in.On != nil {
		args = append(args, "--on", in.On.String())
	}
	if in.Hours != nil {
		args = append(args, "--hours", in.Hours.String())
	}
	return args
}
