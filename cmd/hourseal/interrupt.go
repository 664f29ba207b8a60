package main

import (
	"fmt"
	"io"
	"os"
	"os/signal"
	"slices"
	"strings"
	"sync"
	"syscall"

	"golang.org/x/term"
)

// A run that is interrupted ends between two of its writes, never within one. It
// leaves the terminal as it was, says where things stand, and ends with 128 and the
// signal's number, as shells report it (POSIX.1-2024, Shell Command Language, 2.8.2:
// more than 128).

// interruption is what the end of a run by a signal needs to know. Signals are the
// process's, and so is this.
type interruption struct {
	mu       sync.Mutex
	writing  int           // writes under way
	settled  chan struct{} // closed when there is none any more, where somebody waits
	written  []string      // files, in their order
	text     string        // where things stand, in the command's own words
	terminal *term.State   // of standard input, while it is silenced
	before   []func()      // what is to be taken away
}

var process interruption

// standing sets what is said if the run is interrupted from here on: one sentence, of
// what is done and what is not, and what to type. "" for the files that were written.
func (p *program) standing(text string) {
	if p.within {
		return
	}
	process.mu.Lock()
	process.text = text
	process.mu.Unlock()
}

// undisturbed runs a write, or several that belong together, to its end before an
// interruption takes effect. Calls may stand within each other. Nothing in it may wait
// for a person.
func undisturbed(write func() error) error {
	process.mu.Lock()
	process.writing++
	process.mu.Unlock()
	defer func() {
		process.mu.Lock()
		defer process.mu.Unlock()
		if process.writing--; process.writing == 0 && process.settled != nil {
			close(process.settled)
			process.settled = nil
		}
	}()
	return write()
}

// hasWritten notes a file for the sentence of where things stand.
func hasWritten(name string) {
	process.mu.Lock()
	if !slices.Contains(process.written, name) {
		process.written = append(process.written, name)
	}
	process.mu.Unlock()
}

// ifInterrupted has something taken away at an interruption, until the function that it
// returns is called.
func ifInterrupted(takeAway func()) (done func()) {
	process.mu.Lock()
	defer process.mu.Unlock()
	process.before = append(process.before, takeAway)
	n := len(process.before)
	return func() {
		process.mu.Lock()
		process.before[n-1] = func() {}
		process.mu.Unlock()
	}
}

// readSilently reads a line from the terminal and does not show it. Interrupted, the
// terminal shows again what is typed.
func readSilently(fd int) ([]byte, error) {
	state, err := term.GetState(fd)
	if err != nil {
		return nil, err
	}
	process.mu.Lock()
	process.terminal = state
	process.mu.Unlock()
	line, err := term.ReadPassword(fd)
	process.mu.Lock()
	process.terminal = nil
	process.mu.Unlock()
	return line, err
}

// exitOf are the signals that end a run, and with what. README and the manual list them.
var exitOf = map[os.Signal]exitCode{
	syscall.SIGINT:  exitInterrupted,
	syscall.SIGTERM: exitTerminated,
	syscall.SIGHUP:  exitHungUp,
}

// catchInterrupts ends the program in order when a signal comes. What is set to be
// ignored, as by nohup, stays so.
func catchInterrupts(words io.Writer, onTerminal bool) {
	signals := make(chan os.Signal, 2)
	for s := range exitOf {
		if !signal.Ignored(s) {
			signal.Notify(signals, s)
		}
	}
	go func() {
		code := exitOf[<-signals]
		process.settle(signals) // holds mu from here on: nothing begins to write
		for _, takeAway := range process.before {
			takeAway()
		}
		if process.terminal != nil {
			_ = term.Restore(int(os.Stdin.Fd()), process.terminal) // there is nobody to tell
		}
		said := []string{clean(process.words())}
		if onTerminal { // after ^C, or a line of progress
			fmt.Fprintln(words)
			said = wrap(said[0], textWidth)
		}
		fmt.Fprintln(words, strings.Join(said, "\n"))
		os.Exit(int(code))
	}()
}

// settle takes mu when no write is under way. A second signal does not wait.
func (i *interruption) settle(signals <-chan os.Signal) {
	i.mu.Lock()
	for i.writing > 0 {
		if i.settled == nil {
			i.settled = make(chan struct{})
		}
		settled := i.settled
		i.mu.Unlock()
		select {
		case <-settled:
			i.mu.Lock()
		case <-signals:
			i.mu.Lock()
			return
		}
	}
}

// words is the sentence of where things stand.
func (i *interruption) words() string {
	switch {
	case i.text != "":
		return "Stopped. " + i.text
	case len(i.written) > 0:
		return "Stopped. Written before that, and whole: " + firstOf(i.written) + "."
	default:
		return "Stopped. Nothing was written."
	}
}

// recordNames are records as they are typed: gannet-port/3 gannet-starboard/2.
func recordNames(records []issued) string {
	var names []string
	for _, r := range records {
		names = append(names, titleOf(r.Record))
	}
	return strings.Join(names, " ")
}
