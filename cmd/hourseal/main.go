// Command hourseal checks, signs, prints and verifies service records of boat
// engines. This package holds what the other packages must not have: the clock,
// randomness, the terminal and, but for the ledger's own folder (record/ledger), the file
// system. Its words are those of commands, options and their answers. What is asked about
// a job is worded in record/closeout, about a machine in record/enrol, what is wrong with
// a file or a job where it is found, and what a report says in render.
package main

import (
	"crypto/rand"
	"os"
	"runtime/debug"

	"golang.org/x/term"
)

// A run is short, or a batch of many small things: the collector is not worth
// its time before this much memory is in use.
const memoryLimit = 80 << 20

func main() {
	debug.SetGCPercent(-1)
	debug.SetMemoryLimit(memoryLimit)
	p := newProgram()
	catchInterrupts(p.stderr, p.progress)
	os.Exit(int(p.run(os.Args)))
}

// newProgram takes everything from the system.
func newProgram() *program {
	return &program{
		stdin: os.Stdin, stdout: os.Stdout, stderr: os.Stderr,
		now: clock, random: rand.Reader, getenv: os.Getenv,
		asks:     term.IsTerminal(int(os.Stdin.Fd())),
		progress: term.IsTerminal(int(os.Stderr.Fd())),
		colour:   mayColour(os.Stdout, os.Getenv),
	}
}
