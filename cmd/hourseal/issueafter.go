package main

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"hourseal/record"
	"hourseal/record/jobsheet"
	"hourseal/record/ledger"
	"hourseal/verify"
	"hourseal/verify/source"
)

var afterFlag = &cli.StringSliceFlag{Name: "after", Usage: "go on with another yard's chain after the record in `FILE`, its report or record file; may be given again"}

// afterFits says what --after does not go with.
func afterFits(c *cli.Context, wanted *later) error {
	if !c.IsSet(afterFlag.Name) {
		if c.IsSet(trustFlag.Name) || c.IsSet(keysFlag.Name) {
			return usageError{"--trust and --keys go with --after", ""}
		}
		return nil
	}
	if wanted != nil || c.NArg() != 1 {
		return usageError{"--after takes one job sheet, a job of your own", "hourseal issue JOB --after FILE"}
	}
	return nil
}

// sheetsToIssue opens the yard and gives what records are to be made of.
func (p *program) sheetsToIssue(c *cli.Context, wanted *later) (yard, []sheet, exitCode, error) {
	if wanted == nil {
		if c.IsSet(attachFlag.Name) {
			return yard{}, nil, exitUsage, attachGiven(c, wanted, nil)
		}
		return p.sheetsNamed(c)
	}
	y, err := p.openYard(c)
	if err != nil {
		return yard{}, nil, exitOK, err
	}
	sheets, code, err := p.loadSheets(y, c.Args().Slice(), c.Bool(jsonFlag.Name))
	if err != nil || code != exitOK {
		return y, nil, code, err
	}
	if sheets, err = p.laterSheets(y, wanted, sheets); err == nil {
		err = attachGiven(c, wanted, sheets)
	}
	return y, sheets, exitOK, err
}

// foreign is another yard's record that was verified.
type foreign struct {
	file     string
	envelope []byte
	record   *record.Record
}

// takeOver verifies the records that --after names and stages them for the chain of
// the sheet's machine. The code is the worst verdict where one will not do.
func (p *program) takeOver(c *cli.Context, session *ledger.Session, s sheet) (exitCode, error) {
	files := c.StringSlice(afterFlag.Name)
	if len(files) == 0 {
		return exitOK, nil
	}
	reader, err := p.reader(c)
	if err != nil {
		return exitOK, err
	}
	reader.Serial = s.machine.Serial
	var others []foreign
	code := exitOK
	for _, file := range files {
		other, found, err := p.verifyForeign(c, file, reader, s.machine)
		if err != nil {
			return code, err
		}
		code = worse(code, found)
		others = append(others, other)
	}
	if code != exitOK {
		p.tell("nothing was issued")
		return code, nil
	}
	slices.SortStableFunc(others, func(a, b foreign) int { return cmp.Compare(a.record.Number, b.record.Number) })
	for _, other := range others {
		err := session.TakeOver(s.machine.ID, other.envelope)
		if not := new(ledger.NotNextError); errors.As(err, &not) {
			return exitUsage, usageError{fmt.Sprintf("%s: %s", other.file, not.What), "leave --after out: the chain of this yard goes on by itself, and hourseal history puts the two side by side"}
		}
		if err != nil {
			return exitOK, atFile(other.file, err)
		}
	}
	return exitOK, nil
}

// verifyForeign verifies one file for --after. What will not do is said with all the
// answers that verify gives.
func (p *program) verifyForeign(c *cli.Context, file string, reader verify.Reader, m jobsheet.Machine) (foreign, exitCode, error) {
	data, err := p.readInput(file)
	if err != nil {
		return foreign{}, exitOK, missing(file, err)
	}
	a := answer{input: file, result: verify.Run(data, reader, renderPage)}
	if code := exitCode(a.result.Verdict.ExitCode()); code != exitOK {
		if c.Bool(jsonFlag.Name) {
			return foreign{}, code, p.json(verifyJSON(a))
		}
		p.sayVerdict(a, false)
		return foreign{}, code, nil
	}
	r := a.result.Signed
	if r == nil {
		return foreign{}, exitOK, usageError{file + ": a signed list of records, and no record", "give the last report that the other yard issued for the machine"}
	}
	if other := otherMachine(r.Machine, m, a.result.Serial); other != "" {
		p.tell("%s: %s. Correct the machine file, or ask for the report of this machine", file, other)
		return foreign{}, exitNotAsked, nil
	}
	found, err := source.Read(data)
	return foreign{file: file, envelope: found.Envelope, record: r}, exitOK, err
}

// otherMachine says in what a record's machine is another than that of a machine
// file; "" where they are one.
func otherMachine(r record.Machine, m jobsheet.Machine, serial verify.Match) string {
	for _, f := range []struct {
		name, theirs, ours string
		same               bool
	}{
		{"make", r.Make, m.Make, strings.EqualFold(r.Make, m.Make)},
		{"model", r.Model, m.Model, strings.EqualFold(r.Model, m.Model)},
		{"serial number", r.Serial, m.Serial, serial == verify.Same},
	} {
		if !f.same {
			return fmt.Sprintf("the record has %s %q, the machine file of %s has %q", f.name, f.theirs, m.ID, f.ours)
		}
	}
	return ""
}
