package main

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/urfave/cli/v2"
)

// Help begins with an example, since most who ask for it want to see how the command is
// typed. It is made here and not by the library, whose templates neither wrap nor align.

// aboutHourseal is what the program is for.
const aboutHourseal = "Takes a boat engine's service as the yard did it, checks it against the machine's\n" +
	"schedule and its earlier records, signs it, prints a report with a QR code that\n" +
	"carries it, and verifies such reports later."

// helpOf is the help of a command, of a group or of the program: lines of at most
// textWidth characters.
func helpOf(d documented) string {
	var b strings.Builder
	write := func(indent, text string) {
		for _, line := range wrap(text, textWidth-len(indent)) {
			b.WriteString(strings.TrimRight(indent+line, " ") + "\n")
		}
	}
	if example := d.example(); example != "" {
		b.WriteString("Example:\n")
		for i, line := range commandLines(example, textWidth-4) {
			b.WriteString(map[bool]string{true: "  $ ", false: "      "}[i == 0] + line + "\n")
		}
		b.WriteString("\n")
	}
	write("", capital(d.Usage)+".")
	b.WriteString("\n")
	write("  ", d.synopsis())
	for _, p := range passages(d.Description) {
		if !p.asIs {
			b.WriteString("\n")
			write("", strings.Join(p.lines, " "))
			continue
		}
		for _, whole := range p.lines {
			for i, line := range commandLines(whole, textWidth) {
				b.WriteString(map[bool]string{true: "  ", false: "      "}[i == 0] + line + "\n")
			}
		}
	}
	if commands := visibleOf(d.Subcommands); len(commands) > 0 {
		b.WriteString("\nCommands:\n")
		var rows [][2]string
		for _, c := range commands {
			rows = append(rows, [2]string{c.Name, c.Usage})
		}
		b.WriteString(aligned(rows))
		b.WriteString("\nHelp for each: " + d.typed() + " COMMAND --help\n")
	}
	options := optionsOf(d.Command)
	if d.path == "" {
		options = append(options, helpOption)
	}
	if len(options) > 0 {
		b.WriteString("\nOptions:\n")
		var rows [][2]string
		for _, o := range options {
			rows = append(rows, [2]string{o.heading(), o.text})
		}
		b.WriteString(aligned(rows))
	}
	return b.String()
}

// dailyCommands are those that the program answers with when it is called without one: in the
// order of the work, few enough for a terminal of 24 lines.
var dailyCommands = []string{"init", "machine new", "due", "worksheet", "closeout", "issue", "history", "verify"}

// daily is what is said to whoever types nothing but the program's name.
func daily(app *cli.App) string {
	var rows [][2]string
	for _, path := range dailyCommands {
		commands := app.Commands
		var found *cli.Command
		for _, name := range strings.Fields(path) {
			for _, c := range commands {
				if c.Name == name {
					found, commands = c, c.Subcommands
				}
			}
		}
		rows = append(rows, [2]string{path, found.Usage})
	}
	about := wrap(strings.ReplaceAll(aboutHourseal, "\n", " "), textWidth)
	return strings.Join(about, "\n") + "\n\n" + aligned(rows) + "\nHelp for each: hourseal COMMAND --help\nAll commands: hourseal --help\nTo see it all at work: hourseal demo\n"
}

// widestName is how wide the first column of a list may be; what is wider stands on a
// line of its own.
const widestName = 24

// aligned sets names and what they are in two columns.
func aligned(rows [][2]string) string {
	width := 0
	for _, row := range rows {
		if n := utf8.RuneCountInString(row[0]); n <= widestName {
			width = max(width, n)
		}
	}
	var b strings.Builder
	indent := strings.Repeat(" ", 2+width+2)
	for _, row := range rows {
		lines := wrap(row[1], textWidth-len(indent))
		name := "  " + row[0]
		if utf8.RuneCountInString(row[0]) > width {
			b.WriteString(name + "\n")
			name = ""
		}
		for i, line := range lines {
			if i > 0 {
				name = ""
			}
			b.WriteString(strings.TrimRight(name+strings.Repeat(" ", len(indent)-utf8.RuneCountInString(name))+line, " ") + "\n")
		}
	}
	return b.String()
}

func visibleOf(commands []*cli.Command) []*cli.Command {
	var visible []*cli.Command
	for _, c := range commands {
		if !c.Hidden {
			visible = append(visible, c)
		}
	}
	return visible
}

// commandLines breaks a command line between words, with a backslash at each break, so
// that it can be copied into a shell. Words in quotes stay whole.
func commandLines(line string, width int) []string {
	var words []string
	quoted := false
	start := 0
	for i, r := range line + " " {
		switch {
		case r == '\'':
			quoted = !quoted
		case r == ' ' && !quoted:
			words = append(words, line[start:i])
			start = i + 1
		}
	}
	lines := []string{words[0]}
	for i, word := range words[1:] {
		last := &lines[len(lines)-1]
		room := width - utf8.RuneCountInString(*last) - 1
		together := word
		if i+2 < len(words) && strings.HasPrefix(word, "--") && !strings.HasPrefix(words[i+2], "-") {
			together += " " + words[i+2] // an option and its value stay on one line
		}
		if utf8.RuneCountInString(together)+len(` \`) > room && len(together) < width {
			*last += ` \`
			lines = append(lines, word)
			continue
		}
		*last += " " + word
	}
	return lines
}

// capital makes the first letter one.
func capital(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	if size == 0 {
		return ""
	}
	return string(unicode.ToUpper(first)) + text[size:]
}
