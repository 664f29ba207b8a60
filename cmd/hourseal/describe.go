package main

import (
	"slices"
	"strings"

	"github.com/urfave/cli/v2"
)

// What the program's commands are, for the help, the manual, the completion and the
// answers to misuse alike. The commands themselves are the source.

// documented is a command that people may type, with its name in whole.
type documented struct {
	path string // as it is typed after "hourseal", "" for the program itself
	*cli.Command
}

// typed is the command as it is typed.
func (d documented) typed() string { return strings.TrimSuffix("hourseal "+d.path, " ") }

// synopsis is the command with what follows it.
func (d documented) synopsis() string {
	words := []string{d.typed()}
	switch {
	case len(d.Subcommands) > 0:
		words = append(words, "COMMAND")
	case len(optionsOf(d.Command)) > 0:
		words = append(words, "[OPTION...]")
	}
	if d.ArgsUsage != "" {
		words = append(words, d.ArgsUsage)
	}
	return strings.Join(words, " ")
}

// example is a command line that works in the folder of the demonstration; of a group,
// that of its first command.
func (d documented) example() string {
	if d.path == "" {
		return examples["demo"]
	}
	for _, sub := range d.Subcommands {
		return examples[d.path+" "+sub.Name]
	}
	return examples[d.path]
}

// allCommands are the commands that people may type, groups before what is in them.
func allCommands(app *cli.App) []documented {
	var all []documented
	var walk func(commands []*cli.Command, before string)
	walk = func(commands []*cli.Command, before string) {
		for _, c := range commands {
			if c.Hidden {
				continue
			}
			path := strings.TrimPrefix(before+" "+c.Name, " ")
			all = append(all, documented{path, c})
			walk(c.Subcommands, path)
		}
	}
	walk(app.Commands, "")
	return all
}

// wholeProgram is the program as a group of its commands.
func wholeProgram(app *cli.App) documented {
	return documented{"", &cli.Command{Name: app.Name, Usage: app.Usage, Description: app.Description, Flags: app.Flags, Subcommands: app.Commands}}
}

// helpOption asks for help wherever it stands: see flagsFirst.
var helpOption = option{names: []string{"-h", "--help"}, text: "show help, of the program or of the command that it stands with"}

// option is one option of a command.
type option struct {
	names []string // as they are typed, the short one first
	value string   // what its value is called, "" where it takes none
	text  string
	many  bool // may be given again
}

// optionsOf are the options of a command that people may type, --help left out.
func optionsOf(c *cli.Command) []option {
	var options []option
	for _, flag := range c.Flags {
		shown, ok := flag.(cli.DocGenerationFlag)
		if visible, is := flag.(cli.VisibleFlag); !ok || is && !visible.IsVisible() || flag.Names()[0] == "help" {
			continue
		}
		o := option{}
		for _, name := range flag.Names() {
			o.names = append(o.names, dashed(name))
		}
		slices.SortStableFunc(o.names, func(a, b string) int { return min(len(a), 3) - min(len(b), 3) })
		o.value, o.text = valueAndText(shown.GetUsage())
		if !shown.TakesValue() {
			o.value = ""
		} else if o.value == "" {
			o.value = "VALUE"
		}
		if text, ok := flag.(*cli.StringFlag); ok && text.Value != "" {
			o.text += "; " + quotedIfSpaced(text.Value) + " if left out"
		}
		if list, ok := flag.(cli.DocGenerationSliceFlag); ok {
			o.many = list.IsSliceFlag()
		}
		options = append(options, o)
	}
	return options
}

// valueAndText parts the name of a value, which stands in backquotes, from the text that
// it is part of. Where it is only named beside the text, the text is whole without it.
func valueAndText(usage string) (value, text string) {
	before, rest, found := strings.Cut(usage, "`")
	if !found {
		return "", usage
	}
	value, after, _ := strings.Cut(rest, "`")
	switch {
	case strings.HasSuffix(before, ", "):
		return value, strings.TrimSuffix(before, ", ") + after
	case before == "" && strings.HasPrefix(after, ": "):
		return value, strings.TrimPrefix(after, ": ")
	}
	return value, before + value + after
}

func quotedIfSpaced(text string) string {
	if strings.Contains(text, " ") {
		return `"` + text + `"`
	}
	return text
}

// heading is an option as it stands in a list: -o, --output FILE.
func (o option) heading() string {
	text := strings.Join(o.names, ", ")
	if o.value != "" {
		text += " " + o.value
	}
	return text
}

// passages parts a description into what is to be wrapped and what stands as it is:
// lines that begin with a space are command lines.
func passages(description string) []passage {
	var all []passage
	for line := range strings.SplitSeq(description, "\n") {
		asIs := strings.HasPrefix(line, " ")
		last := len(all) - 1
		switch {
		case line == "":
			all = append(all, passage{})
		case last >= 0 && asIs && all[last].continues():
			all[last].continueWith(strings.TrimSpace(line))
		case last >= 0 && len(all[last].lines) > 0 && all[last].asIs == asIs:
			all[last].lines = append(all[last].lines, strings.TrimSpace(line))
		default:
			all = append(all, passage{lines: []string{strings.TrimSpace(line)}, asIs: asIs})
		}
	}
	return slices.DeleteFunc(all, func(p passage) bool { return len(p.lines) == 0 })
}

// passage is one paragraph, or some command lines.
type passage struct {
	lines []string
	asIs  bool
}

// continues says whether its last command line goes on in the next line.
func (p passage) continues() bool {
	return p.asIs && len(p.lines) > 0 && strings.HasSuffix(p.lines[len(p.lines)-1], ` \`)
}

func (p passage) continueWith(line string) {
	last := &p.lines[len(p.lines)-1]
	*last = strings.TrimSuffix(*last, `\`) + line
}
