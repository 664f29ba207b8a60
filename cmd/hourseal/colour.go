package main

import (
	"os"
	"strings"
	"unicode/utf8"

	"golang.org/x/term"

	"hourseal/record"
	"hourseal/record/schedule"
	"hourseal/verify"
)

// Colour marks words on a terminal that say the same without it. It is the terminal's own
// palette, which its owner chose to be readable, and bold.

// style is how a word stands out: the parameters of SGR (ECMA-48, 8.3.117), "" for not
// at all.
type style string

const (
	asUsual style = ""
	strong  style = "1"
	caution style = "33"
	alarm   style = "1;31"
)

var (
	severityStyles = map[record.Severity]style{record.Decide: caution, record.Refuse: alarm}
	// stateStyles are those of the words in a table's column of states.
	stateStyles = map[string]style{schedule.Now.String(): caution, schedule.Overdue.String(): alarm}
)

func verdictStyle(v verify.Verdict) style {
	switch exitCode(v.ExitCode()) {
	case exitOK:
		return strong
	case exitNo:
		return alarm
	}
	return caution
}

// mayColour says whether standard output is a terminal that wants colour: not with
// NO_COLOR set to anything (no-color.org), and not on one that is, or is not said to be
// better than, dumb.
func mayColour(out *os.File, getenv func(string) string) bool {
	named := getenv("TERM")
	return getenv("NO_COLOR") == "" && named != "" && named != "dumb" && term.IsTerminal(int(out.Fd()))
}

// tint marks a text that is clean already.
func (p *program) tint(s style, text string) string {
	if !p.colour || s == asUsual || text == "" {
		return text
	}
	return "\x1b[" + string(s) + "m" + text + "\x1b[0m"
}

// tintedParagraph is a paragraph whose every line is marked.
func (p *program) tintedParagraph(indent string, s style, text string) {
	p.clearProgress()
	for _, line := range wrap(clean(text), textWidth-utf8.RuneCountInString(indent)) {
		writeLine(p.stdout, indent+p.tint(s, line))
	}
}

// labelled is a paragraph that begins with a word and a colon, of which the word is
// marked.
func (p *program) labelled(indent, word string, s style, text string) {
	p.clearProgress()
	for i, line := range wrap(clean(word+": "+text), textWidth-utf8.RuneCountInString(indent)) {
		if rest, begins := strings.CutPrefix(line, word); i == 0 && begins {
			line = p.tint(s, word) + rest
		}
		writeLine(p.stdout, indent+line)
	}
}
