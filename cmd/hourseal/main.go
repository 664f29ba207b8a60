// Command hourseal checks, signs, prints and verifies service records of boat
// engines. This package holds what the other packages must not have: the clock,
// randomness, the terminal, the file system and every word that is printed.
package main

import (
	"crypto/rand"
	"os"
	"time"

	"golang.org/x/term"
)

func main() {
	p := &program{
		stdin: os.Stdin, stdout: os.Stdout, stderr: os.Stderr,
		now: time.Now, random: rand.Reader, getenv: os.Getenv,
		asks:     term.IsTerminal(int(os.Stdin.Fd())),
		progress: term.IsTerminal(int(os.Stderr.Fd())),
	}
	os.Exit(int(p.run(os.Args)))
}
