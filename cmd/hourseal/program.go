package main

import (
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/urfave/cli/v2"

	"hourseal/record/quantity"
)

// program is one run: what comes in from outside, and how it ends.
type program struct {
	stdin          io.Reader
	stdout, stderr io.Writer
	now            func() time.Time
	random         io.Reader
	getenv         func(string) string
	asks           bool // standard input is a terminal
	progress       bool // standard error is a terminal
	colour         bool // standard output is a terminal that wants it

	within bool // another run, which says where things stand

	code          exitCode
	progressStays bool // its line is on the terminal, and nothing behind it yet
}

// run runs the command line args, of which the first is the program's name.
func (p *program) run(args []string) exitCode {
	if len(args) > 1 && args[1] == completeCommand {
		p.complete(args[2:])
		return exitOK
	}
	app := p.app()
	ordered, help := flagsFirst(app, args)
	var err error
	if help != nil {
		err = p.sayHelp(*help)
	} else {
		err = app.Run(ordered)
	}
	if err != nil {
		p.code = worse(p.code, codeOf(err))
		p.complain(err)
	}
	return p.code
}

// today is the date where the yard is.
func (p *program) today() quantity.Date {
	y, m, d := p.now().Date()
	return quantity.FromYMD(y, m, d)
}

// command is what a command does: it returns an outcome, or an error that it
// could not be reached.
type command func(*cli.Context) (exitCode, error)

// action makes a command of the library's.
func (p *program) action(run command) cli.ActionFunc {
	return func(c *cli.Context) error {
		code, err := run(c)
		p.code = worse(p.code, code)
		return err
	}
}

// wantArgs refuses a command without what it works on, or with too much.
func wantArgs(c *cli.Context, least, most int, what string) error {
	n := c.NArg()
	if n >= least && (most < 0 || n <= most) {
		return nil
	}
	name := commandName(c)
	hint := "hourseal " + strings.TrimSpace(name+" "+c.Command.ArgsUsage) + ", or hourseal help " + name
	switch {
	case most == 0:
		return usageError{fmt.Sprintf("%s: %q is not asked for", name, strings.Join(c.Args().Slice(), " ")), hint}
	case n > least:
		return usageError{fmt.Sprintf("%s: too many names, one %s is wanted", name, what), hint}
	}
	return usageError{fmt.Sprintf("%s: %s is missing", name, what), hint}
}

// wantNoArgs refuses what stands beside the options of a command that works on nothing
// else: it was meant for one of them.
func wantNoArgs(c *cli.Context) error { return wantArgs(c, 0, 0, "") }
