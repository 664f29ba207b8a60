package main

import (
	"errors"

	"github.com/urfave/cli/v2"

	"hourseal/record/jobsheet"
)

// closeoutSaid closes out the job that the options say, and asks nothing.
func (p *program) closeoutSaid(c *cli.Context) (exitCode, error) {
	for _, flag := range []string{fromFlag.Name, askFlag.Name} {
		if c.IsSet(flag) {
			return exitUsage, usageError{"--" + flag + ", and the job in options", "one of the two"}
		}
	}
	if c.NArg() != 1 {
		return exitUsage, wantArgs(c, 1, 1, "machine")
	}
	y, err := p.openYard(c)
	if err != nil {
		return exitOK, err
	}
	s, err := p.sheetSaid(c, y)
	var faults jobsheet.Faults
	if errors.As(err, &faults) && c.Bool(jsonFlag.Name) {
		return exitUsage, p.json(malformedJSON(faults))
	}
	if err != nil {
		return exitOK, err
	}
	return p.closeSheet(c, y, s)
}

func (p *program) sheetSaid(c *cli.Context, y yard) (sheet, error) {
	job, err := jobFromFlags(c, c.Args().First(), p.today())
	if err != nil {
		return sheet{}, err
	}
	return y.sheetOf(job.Source.File, job)
}
