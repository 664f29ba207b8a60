package main

import (
	"strings"
	"testing"
)

// TestProgressMakesRoom: whatever is printed while a progress line is on the terminal
// begins on a line of its own.
func TestProgressMakesRoom(t *testing.T) {
	const line, cleared = "\r50 of 200", "\r\x1b[K"
	for name, print := range map[string]func(p *program){
		"say":       func(p *program) { p.say("words") },
		"tell":      func(p *program) { p.tell("words") },
		"paragraph": func(p *program) { p.paragraph("", "words") },
	} {
		var terminal strings.Builder
		p := &program{stdout: &terminal, stderr: &terminal, progress: true}
		p.showProgress(50, 200)
		print(p)
		print(p)
		p.showProgress(200, 200)
		if want := line + cleared + "words\nwords\n"; terminal.String() != want {
			t.Errorf("%s: %q, want %q", name, terminal.String(), want)
		}
	}
	var pipe strings.Builder
	p := &program{stdout: &pipe, stderr: &pipe}
	p.showProgress(50, 200)
	p.tell("words")
	if pipe.String() != "words\n" {
		t.Errorf("into a pipe: %q", pipe.String())
	}
}
