package main

import (
	"regexp"
	"strings"
	"testing"
)

var sgr = regexp.MustCompile("\x1b\\[[0-9;]*m")

// On a terminal some words are marked; without the marks the text is the same as in a
// pipe, where there are none, nor with NO_COLOR or on a dumb terminal.
func TestColour(t *testing.T) {
	t.Parallel()
	f, _ := demonstrated(t)
	due := []string{"due", "gannet-port", "--on", "2026-11-26", "--hours", "1300"}
	verify := []string{"verify", "altered-copy.cose", "--trust", "trust.yaml"}
	sheet := regexp.MustCompile(`(?m)^accept:.*\n( .*\n)*`).ReplaceAll(f.read(t, "jobs/3-gannet-port-2026-10-22.yaml"), nil)
	f.write(t, "undecided.yaml", []byte(strings.Replace(string(sheet), "1128.0", "1127.5", 1)))
	check := []string{"check", "undecided.yaml"}
	for _, c := range []struct {
		args []string
		env  string
		text string // marked, "" where nothing is to be
	}{
		{due, "TERM=xterm", "\n\x1b[1;31moverdue\x1b[0m  "},
		{due, "TERM=xterm NO_COLOR=", "\n\x1b[33mdue\x1b[0m  "},
		{due, "TERM=xterm NO_COLOR=0", ""},
		{due, "TERM=dumb", ""},
		{due, "TERM=", ""},
		{verify, "TERM=xterm", "\x1b[1;31mAltered or forged"},
		{check, "TERM=xterm", "  \x1b[33mdecide\x1b[0m: "},
	} {
		plain := f.run(t, c.args...).stdout
		if strings.Contains(plain, "\x1b") {
			t.Errorf("%q: marks in a pipe: %q", c.args, plain)
		}
		g := f
		g.env = append(append([]string{}, f.env...), strings.Fields(c.env)...)
		shown := strings.ReplaceAll(terminal(t, g, "all", nil, c.args...).stdout, "\r\n", "\n")
		if got := sgr.ReplaceAllString(shown, ""); got != plain {
			t.Errorf("%q, %s: the terminal shows other text:\n%s", c.args, c.env, got)
		}
		if marked := strings.Contains(shown, "\x1b"); marked != (c.text != "") || !strings.Contains(shown, c.text) {
			t.Errorf("%q, %s: marked is %v, want %q:\n%q", c.args, c.env, marked, c.text, shown)
		}
	}
}
