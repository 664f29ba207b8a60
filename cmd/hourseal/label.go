package main

import (
	"fmt"
	"os"
	"path/filepath"

	"github.com/urfave/cli/v2"

	"hourseal/render"
	"hourseal/sign"
)

func (p *program) labelCommand() *cli.Command {
	return &cli.Command{
		Name: "label", Usage: "the sticker for the filter or engine: date, hours, oil, next due",
		ArgsUsage: "RECORD",
		Description: "RECORD is a record file, or in a yard folder machine/number or the record's id. The code on\n" +
			"the label names the record; it does not hold it.",
		Flags: []cli.Flag{yardFlag,
			&cli.StringFlag{Name: "o", Usage: "write to `FILE`; else into the yard folder's labels/"},
			&cli.StringFlag{Name: "size", Value: "62x29", Usage: "`SIZE` in mm, 62x29 or 40x40"},
			&cli.StringFlag{Name: "task", Usage: "`TASK` that the label is for; else the oil, or the first that was done"}},
		Action: p.action(p.label),
	}
}

func (p *program) label(c *cli.Context) (exitCode, error) {
	if err := wantArgs(c, 1, 1, "record"); err != nil {
		return exitUsage, err
	}
	size, err := render.ParseLabelSize(c.String("size"))
	if err != nil {
		return exitUsage, usageError{"--size: " + err.Error(), ""}
	}
	out := c.String("o")
	r, err := p.findRecord(c, c.Args().First(), out == "")
	if err != nil {
		return exitOK, err
	}
	pdf, err := render.Label(r.Record, sign.ID(r.ID), size, c.String("task"))
	if err != nil {
		return exitUsage, usageError{err.Error(), ""}
	}
	if out == "" {
		// Not beside the reports: "hourseal verify reports" takes all that is there.
		y, err := p.openYard(c)
		if err != nil {
			return exitOK, err
		}
		out = y.path("labels", fmt.Sprintf("%s-%04d.pdf", r.Record.Machine.ID, r.Record.Number))
		if err := os.MkdirAll(filepath.Dir(out), 0o755); err != nil {
			return exitOK, err
		}
	}
	if err := p.writeOutput(out, pdf); err != nil {
		return exitOK, err
	}
	if out != "-" {
		p.say("%s", out)
	}
	return exitOK, nil
}
