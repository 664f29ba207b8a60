package main

import (
	"fmt"
	"os"

	"github.com/urfave/cli/v2"

	"hourseal/render"
	"hourseal/sign"
)

func (p *program) labelCommand() *cli.Command {
	return &cli.Command{
		Name: "label", Usage: "the sticker for the filter or engine: date, hours, oil, next due",
		ArgsUsage: "RECORD...",
		Description: "RECORD is a record file, or in a yard folder machine/number or the record's id. The code on\n" +
			"the label names the record; it does not hold it. Several records, as of twin engines, make a\n" +
			"file each in labels/.",
		Flags: []cli.Flag{yardFlag,
			&cli.StringFlag{Name: "o", Usage: "write to `FILE`; else into the yard folder's labels/"},
			&cli.StringFlag{Name: "size", Value: "62x29", Usage: "`SIZE` in mm, 62x29 or 40x40"},
			&cli.StringFlag{Name: "task", Usage: "`TASK` that the label is for; else the oil, or the first that was done"}},
		Action: p.action(p.label),
	}
}

func (p *program) label(c *cli.Context) (exitCode, error) {
	if err := wantArgs(c, 1, -1, "record"); err != nil {
		return exitUsage, err
	}
	out := c.String("o")
	if out != "" && c.NArg() > 1 {
		return exitUsage, usageError{fmt.Sprintf("-o is one file, and there are %d records", c.NArg()), "leave -o out: each label gets a file in labels/"}
	}
	size, err := render.ParseLabelSize(c.String("size"))
	if err != nil {
		return exitUsage, usageError{"--size: " + err.Error(), ""}
	}
	// All are made before the first is written: one that cannot be leaves none behind.
	labels := make([]madeLabel, c.NArg())
	for i, name := range c.Args().Slice() {
		r, err := p.findRecord(c, name, out == "")
		if err != nil {
			return exitOK, err
		}
		pdf, err := render.Label(r.Record, sign.ID(r.ID), size, c.String("task"))
		if err != nil {
			return exitUsage, usageError{titleOf(r.Record) + ": " + err.Error(), ""}
		}
		labels[i] = madeLabel{out, pdf}
		if out == "" {
			labels[i].file = fmt.Sprintf("%s-%04d.pdf", r.Record.Machine.ID, r.Record.Number)
		}
	}
	if out == "" {
		// Not beside the reports: "hourseal verify reports" takes all that is there.
		y, err := p.openYard(c)
		if err != nil {
			return exitOK, err
		}
		if err := os.MkdirAll(y.path("labels"), 0o755); err != nil {
			return exitOK, err
		}
		for i := range labels {
			labels[i].file = y.path("labels", labels[i].file)
		}
	}
	for _, l := range labels {
		if err := p.writeOutput(l.file, l.pdf); err != nil {
			return exitOK, err
		}
		if out != "-" {
			p.say("%s", l.file)
		}
	}
	return exitOK, nil
}

// madeLabel is one label and where it goes.
type madeLabel struct {
	file string
	pdf  []byte
}
