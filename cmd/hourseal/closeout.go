package main

import (
	"errors"
	"fmt"

	"github.com/urfave/cli/v2"

	"hourseal/record/jobsheet"
)

var (
	fromFlag     = &cli.StringFlag{Name: "from", Usage: "take the job from `FILE`, a job sheet in YAML or JSON, and ask nothing; - is standard input"}
	askFlag      = &cli.BoolFlag{Name: "ask", Usage: "ask though standard input is no terminal: an answer a line"}
	tryFlag      = &cli.BoolFlag{Name: "try", Usage: "work the job out and say what is found; sign nothing"}
	jobsheetFlag = &cli.StringFlag{Name: "jobsheet", Usage: "also write the job that the options make as a job sheet, to `FILE`"}
)

func (p *program) closeoutCommand() *cli.Command {
	return &cli.Command{
		Name: "closeout", Usage: "close a job out: asks for it in the order of the work, checks it, signs it",
		ArgsUsage: "[MACHINE]",
		Description: "On a terminal it asks one question after another and checks each answer. An empty line\n" +
			"takes what stands in [ ], ? explains, < goes back, - is not measured or none. The job sheet\n" +
			"is written as you answer, to jobs/MACHINE-unfinished.yaml: after Ctrl-C or a closed lid the\n" +
			"same command goes on. Nothing is signed before you say so at the end.\n\n" +
			"With --from FILE it asks nothing, and does what issue does with a job sheet. So it does\n" +
			"with the job in options: each is a line as it would be typed at its question, with the\n" +
			"task, the system or the item before an equals sign, and may be given again.\n" +
			"  hourseal closeout gannet-port --hours 812.6 --reason scheduled --task engine-oil=done \\\n" +
			"    --drained 'engine-oil=2.4 US gal at 68 C' --filled 'engine-oil=9.3 L at 16 C' --try",
		Flags:  append([]cli.Flag{yardFlag, fromFlag, askFlag, tryFlag, jobsheetFlag, jsonFlag, passphraseFlag, noInputFlag}, closeoutValueFlags...),
		Action: p.action(p.closeout),
	}
}

func (p *program) closeout(c *cli.Context) (exitCode, error) {
	if c.NArg() > 1 {
		return exitUsage, wantArgs(c, 0, 1, "machine")
	}
	var ways []string
	if hasValueFlags(c) {
		ways = append(ways, "the job in options")
	}
	for _, flag := range []string{fromFlag.Name, askFlag.Name} {
		if c.IsSet(flag) {
			ways = append(ways, "--"+flag)
		}
	}
	switch {
	case len(ways) > 1:
		return exitUsage, usageError{ways[1] + ", and " + ways[0], "one of the two"}
	case len(ways) == 0 || c.Bool(askFlag.Name):
		return p.closeoutAsking(c)
	}
	y, err := p.openYard(c)
	if err != nil {
		return exitOK, err
	}
	s, err := p.sheetGiven(c, y)
	var faults jobsheet.Faults
	if errors.As(err, &faults) && c.Bool(jsonFlag.Name) {
		return exitUsage, p.json(malformedJSON(faults))
	}
	if err != nil {
		return exitOK, err
	}
	return p.closeSheet(c, y, s)
}

// sheetGiven is the sheet of --from, or of the job in options.
func (p *program) sheetGiven(c *cli.Context, y yard) (sheet, error) {
	named, from := c.Args().First(), c.String(fromFlag.Name)
	if from == "" {
		if named == "" {
			return sheet{}, wantArgs(c, 1, 1, "machine")
		}
		job, err := jobFromFlags(c, named, p.today())
		if err != nil {
			return sheet{}, err
		}
		return y.sheetOf(job.Source.File, job)
	}
	s, err := p.loadSheet(y, from)
	if err == nil && named != "" && named != s.machine.ID {
		err = usageError{fmt.Sprintf("%s is of %s, not of %s", from, s.machine.ID, named), "hourseal closeout " + s.machine.ID + " --from " + from}
	}
	return s, err
}

// closeSheet does with a sheet that nobody was asked about what check and issue do.
func (p *program) closeSheet(c *cli.Context, y yard, s sheet) (exitCode, error) {
	if file := c.String(jobsheetFlag.Name); file != "" {
		if err := p.writeSheet(file, s.job.YAML()); err != nil {
			return exitOK, err
		}
	}
	if c.Bool(tryFlag.Name) {
		return p.checkSheets(c, y, []sheet{s})
	}
	return p.issueSheets(c, y, []sheet{s}, nil)
}
