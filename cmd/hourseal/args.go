package main

import (
	"strings"

	"github.com/urfave/cli/v2"
)

// flagsFirst moves flags that stand after file names before them, because the
// library would take them for file names without a word. "--" ends the flags,
// "-" is standard input or output.
//
// Where help is asked for it gives the command that it is asked of instead.
func flagsFirst(app *cli.App, args []string) (ordered []string, help *documented) {
	if len(args) < 2 {
		return args, nil
	}
	if args[1] == "help" { // "help issue" is "issue --help"
		args = append(append(args[:1:1], args[2:]...), "--help")
	}
	flags, depth := app.Flags, 1
	commands := app.Commands
	found := wholeProgram(app)
	for depth < len(args) && !strings.HasPrefix(args[depth], "-") {
		command := named(commands, args[depth])
		if command == nil {
			break
		}
		flags, commands = command.Flags, command.Subcommands
		found = documented{strings.TrimSpace(found.path + " " + command.Name), command}
		depth++
	}
	var options, names []string
	helpWanted := false
	rest := args[depth:]
	for i := 0; i < len(rest); i++ {
		arg := rest[i]
		if arg == "--" {
			names = append(names, rest[i+1:]...)
			break
		}
		if arg == "-" || !strings.HasPrefix(arg, "-") {
			names = append(names, arg)
			continue
		}
		if arg == "--help" || arg == "-h" {
			helpWanted = true
			continue
		}
		options = append(options, arg)
		if takesValue(flags, arg) {
			if i++; i == len(rest) { // the library says that it needs one; names after it would pass for one
				return append(append([]string{}, args[:depth]...), options...), nil
			}
			options = append(options, rest[i])
		}
	}
	// Where a name beside --help stands for a command, that there is none of it says
	// more than help would.
	if helpWanted && (len(commands) == 0 || len(names) == 0) {
		return nil, &found
	}
	ordered = append(append([]string{}, args[:depth]...), options...)
	if len(names) > 0 && len(options) > 0 || hasDash(names) {
		ordered = append(ordered, "--")
	}
	return append(ordered, names...), nil
}

func hasDash(names []string) bool {
	for _, name := range names {
		if strings.HasPrefix(name, "-") {
			return true
		}
	}
	return false
}

func named(commands []*cli.Command, name string) *cli.Command {
	for _, c := range commands {
		if c.HasName(name) {
			return c
		}
	}
	return nil
}

// takesValue says whether the next argument belongs to the flag.
func takesValue(flags []cli.Flag, arg string) bool {
	name := strings.TrimLeft(arg, "-")
	if strings.Contains(name, "=") {
		return false
	}
	for _, flag := range flags {
		for _, known := range flag.Names() {
			if known == name {
				_, isBool := flag.(*cli.BoolFlag)
				return !isBool
			}
		}
	}
	return false
}
