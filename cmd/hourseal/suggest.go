package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"hourseal/record/jobsheet"
)

// What is answered when a command or an option is mistyped.

// misused answers an option that the library does not understand.
func misused(c *cli.Context, err error, _ bool) error {
	of, flags := "", c.App.Flags
	if c.Command != nil && c.Command.Name != "" && c.Command.Name != "hourseal" {
		of, flags = commandName(c), c.Command.Flags
	}
	message := err.Error()
	if typed, unknown := strings.CutPrefix(message, "flag provided but not defined: -"); unknown {
		return noSuchOption(c.App, of, flags, strings.TrimLeft(typed, "-"))
	}
	if flag, bare := strings.CutPrefix(message, "flag needs an argument: -"); bare {
		message = dashed(strings.TrimLeft(flag, "-")) + " needs a value after it"
	}
	return usageError{message, helpCommand(of)}
}

func noSuchOption(app *cli.App, of string, flags []cli.Flag, typed string) error {
	if typed != "" && '0' <= typed[0] && typed[0] <= '9' {
		return usageError{"-" + typed + " is below 0, and is taken for an option", helpCommand(of)}
	}
	message := "there is no option " + dashed(typed)
	if strings.EqualFold(typed, "v") || typed == versionFlag.Name {
		return usageError{message, "hourseal --version"}
	}
	if others := havingOption(app, typed); len(others) > 0 {
		return usageError{fmt.Sprintf("%s here: it is one of %s", message, inWords(others, mostCommandsNamed)), helpCommand(of)}
	}
	var names []string
	for _, flag := range flags {
		for _, name := range flag.Names() {
			if len(name) > 1 {
				names = append(names, name)
			}
		}
	}
	return usageError{message, helpCommand(of) + meant(near(typed, names), "--")}
}

// mostCommandsNamed is how many commands an answer names.
const mostCommandsNamed = 4

// havingOption are the commands that have an option of that name.
func havingOption(app *cli.App, name string) []string {
	var having []string
	for _, d := range allCommands(app) {
		if slices.ContainsFunc(optionsOf(d.Command), func(o option) bool { return slices.Contains(o.names, dashed(name)) }) {
			having = append(having, d.path)
		}
	}
	return having
}

// inWords lists some names as one says them.
func inWords(names []string, most int) string {
	if len(names) > most {
		return strings.Join(names[:most], ", ") + " and other commands"
	}
	if len(names) == 1 {
		return names[0]
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

// dashed is an option as it is typed: -o, --output.
func dashed(name string) string {
	if len(name) == 1 {
		return "-" + name
	}
	return "--" + name
}

// helpCommand is how the help of a command is asked for; "" is the program.
func helpCommand(of string) string {
	return strings.TrimSpace("hourseal "+of) + " --help"
}

// noSuch answers a command that there is none of, in the group or the program "of".
func noSuch(commands []*cli.Command, typed, of string) error {
	var names []string
	for _, command := range visibleOf(commands) {
		names = append(names, command.Name)
	}
	what := strings.TrimSpace(of + " " + typed)
	if of == "" && near(typed, []string{versionFlag.Name}) != "" {
		return usageError{fmt.Sprintf("there is no command %q", what), "hourseal --version"}
	}
	return usageError{fmt.Sprintf("there is no command %q", what), helpCommand(of) + meant(near(typed, names), "")}
}

// near is the name that was probably meant: the only one that begins so, or the one
// that is a slip or two away. "" for none.
func near(typed string, names []string) string {
	const leastBeginning = 3 // letters
	if len(typed) >= leastBeginning {
		var begin []string
		for _, name := range names {
			if strings.HasPrefix(name, strings.ToLower(typed)) {
				begin = append(begin, name)
			}
		}
		if len(begin) == 1 {
			return begin[0]
		}
	}
	return jobsheet.Nearest(typed, names)
}

// meant asks about the name that is nearest to what was typed.
func meant(near, dashes string) string {
	if near == "" {
		return ""
	}
	return fmt.Sprintf(" (did you mean %s%s?)", dashes, near)
}
