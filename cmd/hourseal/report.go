package main

import (
	"errors"
	"os"
	"regexp"

	"github.com/urfave/cli/v2"

	"hourseal/record"
	"hourseal/record/ledger"
	"hourseal/sign"
)

func (p *program) reportCommand() *cli.Command {
	return &cli.Command{
		Name: "report", Usage: "print reports again from their records",
		ArgsUsage: "RECORD...",
		Description: "RECORD is a record file, or in a yard folder machine/number or the record's id. The\n" +
			"report goes where issue puts it, or to -o FILE (one record; - is standard output).",
		Flags: []cli.Flag{yardFlag,
			&cli.StringFlag{Name: "o", Usage: "write to `FILE`"}},
		Action: p.action(p.report),
	}
}

func (p *program) report(c *cli.Context) (exitCode, error) {
	if err := wantArgs(c, 1, -1, "record"); err != nil {
		return exitUsage, err
	}
	out := c.String("o")
	if out != "" && c.NArg() > 1 {
		return exitUsage, usageError{"-o takes one record", "name one record, or leave -o out"}
	}
	code := exitOK
	all := c.Args().Slice()
	defer p.showProgress(len(all), len(all))
	for i, name := range all {
		p.showProgress(i, len(all))
		if err := p.reportOne(c, name, out); err != nil {
			code = worse(code, codeOf(err))
			p.complain(err)
		}
	}
	return code, nil
}

func (p *program) reportOne(c *cli.Context, name, out string) error {
	r, err := p.findRecord(c, name, out == "")
	if err != nil {
		return err
	}
	if out != "" {
		r.report = out
		err = p.writeOutput(out, r.pdf)
	} else {
		err = writeReports(p, []issued{r})
	}
	if err != nil {
		return err
	}
	if r.report != "-" {
		p.say("%s", r.report)
	}
	return nil
}

var machineNumber = regexp.MustCompile(`^([a-z0-9][a-z0-9-]{0,39})/0*([0-9]{1,7})$`)

// findRecord finds a record by its file, or in the yard by machine/number or id.
func (p *program) findRecord(c *cli.Context, name string, needYard bool) (issued, error) {
	info, err := os.Stat(name)
	isFile := err == nil && !info.IsDir()
	y, err := p.openYard(c)
	if err != nil && (needYard || !isFile) {
		return issued{}, err
	}
	if isFile {
		return p.recordFile(y, name)
	}
	if m := machineNumber.FindStringSubmatch(name); m != nil {
		stored, err := y.storedByNumber(m[1], m[2])
		if err != nil {
			return issued{}, err
		}
		return y.printed(stored)
	}
	if sign.LooksLikeID(name) {
		stored, err := y.storedByID("the id "+name, func(id record.ID) bool { return sign.ID(id).Matches(name) })
		if err != nil {
			return issued{}, err
		}
		return y.printed(stored)
	}
	return issued{}, usageError{"no record " + name, y.recordHint(name)}
}

// recordFile opens a record file that need not be in the ledger.
func (p *program) recordFile(y yard, file string) (issued, error) {
	data, err := p.readInput(file)
	if err != nil {
		return issued{}, err
	}
	opened, err := sign.Open(sign.RecordV1, data)
	switch {
	case errors.Is(err, sign.ErrBadSignature) && isList(data):
		return issued{}, usageError{file + ": a signed list of records, and no record", "hourseal show " + file}
	case errors.Is(err, sign.ErrBadSignature), errors.Is(err, sign.ErrWeakKey):
		return issued{}, atFile(file, err)
	case err != nil:
		return issued{}, usageError{file + ": not a record file: " + err.Error(), "give a .cose record file"}
	}
	r, err := record.Decode(opened.Payload)
	if err != nil {
		return issued{}, usageError{file + ": " + err.Error(), "give a .cose record file of this program"}
	}
	return y.printed(ledger.Stored{File: file, ID: record.ID(sign.IDOf(data)), Envelope: data, Signer: opened.Signer, Record: r})
}
