package main

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strconv"
	"strings"

	"github.com/urfave/cli/v2"

	"hourseal/record"
	"hourseal/record/plan"
	"hourseal/render/worksheet"
)

func (p *program) worksheetCommand() *cli.Command {
	return &cli.Command{
		Name: "worksheet", Usage: "the sheet to take to the boat: what is due, what to bring, the steps",
		ArgsUsage: "MACHINE",
		Description: "Prints what is due and soon due, the cautions, what to bring, and the steps in the order\n" +
			"of the work. With --jobsheet it also writes a job sheet with the same tasks, to fill in\n" +
			"and check afterwards.",
		Flags: []cli.Flag{yardFlag, onFlag, hoursFlag,
			&cli.StringFlag{Name: "o", Usage: "write the PDF to `FILE`; - is standard output"},
			&cli.StringFlag{Name: "jobsheet", Usage: "write a job sheet to fill in to `FILE`"},
			&cli.StringSliceFlag{Name: "task", Usage: "take `TASK` along though it is not due; may be given again"},
			&cli.StringFlag{Name: "drain", Usage: "`HOW` the oil comes out, extractor or plug; else as the machine file says"}},
		Action: p.action(p.worksheet),
	}
}

func (p *program) worksheet(c *cli.Context) (exitCode, error) {
	if err := wantArgs(c, 1, 1, "machine"); err != nil {
		return exitUsage, err
	}
	if c.String("o") == "" {
		return exitUsage, usageError{"no file to write the worksheet to", "hourseal worksheet " + c.Args().First() + " -o worksheet.pdf"}
	}
	if c.String("o") == "-" && c.String("jobsheet") == "-" {
		return exitUsage, usageError{"-o - and --jobsheet - both want standard output", "-o worksheet.pdf"}
	}
	drain := c.String("drain")
	if drain != "" && !slices.Contains(drains, drain) {
		return exitUsage, usageError{"--drain " + drain + ": write " + strings.Join(drains, " or "), ""}
	}
	y, err := p.openYard(c)
	if err != nil {
		return exitOK, err
	}
	pl, err := p.newPlanner(c, y)
	if err != nil {
		return exitUsage, err
	}
	self, err := y.files.Yard()
	if err != nil {
		return exitOK, err
	}
	made, err := pl.plan(c.Args().First())
	if err != nil {
		return exitOK, err
	}
	besides := c.StringSlice("task")
	for _, task := range besides {
		if _, ok := made.schedule.Task(task); !ok {
			return exitUsage, usageError{fmt.Sprintf("--task %s: schedule %s has no such task", task, made.schedule.ID), "hourseal schedule show " + made.schedule.ID}
		}
	}
	work := made.Work(besides...)
	pdf, err := worksheet.PDF(worksheet.Sheet{
		Yard: self, Plan: made.Plan, Work: work, Kit: plan.KitFor(self, made.Machine, work, made.chain), Drain: drain,
	})
	if err != nil {
		return exitOK, err
	}
	// The job sheet first: it may be refused, and then nothing is to be written.
	if file := c.String("jobsheet"); file != "" {
		blank := plan.BlankFor(made.Machine, made.On, record.Scheduled, work, made.chain)
		if err := p.writeSheet(file, blank.YAML()); err != nil {
			return exitOK, err
		}
	}
	if err := p.writeOutput(c.String("o"), pdf); err != nil {
		return exitOK, err
	}
	tell := p.say
	if c.String("o") == "-" {
		tell = p.tell
	}
	if len(work) == 0 {
		tell("%s: nothing is recorded as due for %s on %s", c.String("o"), made.Machine.ID, self.Style.Date(made.On))
	} else {
		tell("%s: %s for %s", c.String("o"), countOf(strconv.Itoa(len(work)), "item"), made.Machine.ID)
	}
	return exitOK, nil
}

// drains are the ways in which oil comes out of a machine.
var drains = []string{"extractor", "plug"}

// writeSheet writes a job sheet, never over one that somebody may have filled in.
func (p *program) writeSheet(file string, data []byte) error {
	if file == "-" {
		return p.writeOutput(file, data)
	}
	err := writeNew(file, data, 0o644)
	if errors.Is(err, fs.ErrExist) {
		return usageError{file + " is there already", "name another file: somebody may have filled that one in"}
	}
	return err
}
