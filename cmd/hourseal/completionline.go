package main

import (
	"slices"
	"strings"

	"github.com/urfave/cli/v2"
)

// asked is a command line that is being typed.
type asked struct {
	p         *program
	of        documented
	commands  []*cli.Command      // that may come next
	names     []string            // arguments that are no options, before the current word
	options   map[string][]string // values of options, by the option's first name; "" where it takes none
	pending   *option             // whose value the current word is
	onlyNames bool                // behind "--"
	forHelp   bool                // behind "help"
	current   string
}

// asked reads the words behind "hourseal", the last of which is being typed.
func (p *program) asked(words []string) *asked {
	app := p.app()
	a := &asked{p: p, of: wholeProgram(app), commands: visibleOf(app.Commands), options: map[string][]string{}}
	last := len(words) - 1
	a.current = words[last]
	words = words[:last]
	if len(words) > 0 && words[0] == "help" {
		a.forHelp = true
		words = words[1:]
	}
	for i := 0; i < len(words); i++ {
		word := words[i]
		switch command := named(a.commands, word); {
		case a.onlyNames || word == "-" || !strings.HasPrefix(word, "-"):
			if command != nil && len(a.names) == 0 && !a.onlyNames {
				a.of = documented{strings.TrimSpace(a.of.path + " " + command.Name), command}
				a.commands = visibleOf(command.Subcommands)
				continue
			}
			a.names = append(a.names, word)
		case word == "--":
			a.onlyNames = true
		default:
			name, value, joined := strings.Cut(word, "=")
			o := a.option(name)
			switch {
			case o == nil:
			case joined || o.value == "":
				a.options[o.names[0]] = append(a.options[o.names[0]], value)
			case i+1 < len(words):
				i++
				a.options[o.names[0]] = append(a.options[o.names[0]], words[i])
			default:
				a.pending = o
			}
		}
	}
	return a
}

// option finds an option of the command by its name as typed, with one hyphen or two.
func (a *asked) option(typed string) *option {
	name := dashed(strings.TrimLeft(typed, "-"))
	for _, o := range optionsOf(a.of.Command) {
		if slices.Contains(o.names, name) {
			return &o
		}
	}
	return nil
}

// value is what was given for an option, "" for nothing.
func (a *asked) value(name string) string {
	if o := a.option(name); o != nil {
		if given := a.options[o.names[0]]; len(given) > 0 {
			return given[len(given)-1]
		}
	}
	return ""
}

// answer is what may come next, and whether files may.
func (a *asked) answer() ([]candidate, paths) {
	switch {
	case a.pending != nil:
		return a.of.kindOf(*a.pending).answer(a, "", a.current)
	case strings.HasPrefix(a.current, "-") && !a.onlyNames:
		if name, value, joined := strings.Cut(a.current, "="); joined {
			if o := a.option(name); o != nil && o.value != "" {
				return a.of.kindOf(*o).answer(a, name+"=", value)
			}
			return nil, noPaths
		}
		return a.optionNames(), noPaths
	case len(a.commands) > 0:
		if len(a.names) > 0 { // of a command that there is none of
			return nil, noPaths
		}
		var found []candidate
		for _, c := range a.commands {
			if strings.HasPrefix(c.Name, a.current) {
				found = append(found, candidate{c.Name, c.Usage})
			}
		}
		return found, noPaths
	case a.forHelp:
		return nil, noPaths
	}
	kind, more := a.of.argument(len(a.names))
	if !more {
		return a.optionNames(), noPaths
	}
	return kind.answer(a, "", a.current)
}

// optionNames are the options that can still be given.
func (a *asked) optionNames() []candidate {
	var found []candidate
	options := optionsOf(a.of.Command)
	if a.current != "" {
		options = append(options, helpOption)
	}
	for _, o := range options {
		if len(a.options[o.names[0]]) > 0 && !o.many {
			continue
		}
		name := o.names[len(o.names)-1] // the long one
		for _, short := range o.names {
			if short == a.current {
				name = short
			}
		}
		if strings.HasPrefix(name, a.current) {
			found = append(found, candidate{name, o.text})
		}
	}
	return found
}
