package main

import (
	"errors"
	"path/filepath"

	"github.com/urfave/cli/v2"

	"hourseal/record"
	"hourseal/record/jobsheet"
	"hourseal/record/schedule"
)

// sheet is one job sheet with the machine and schedule that it names.
type sheet struct {
	file     string
	job      jobsheet.Job
	machine  jobsheet.Machine
	driver   *jobsheet.Machine
	schedule schedule.Schedule
	files    []attachment // that go with the record

	// What a later record is, and of which; a service has neither.
	kind    record.Kind
	subject *record.Subject
	bare    bool // it has no job sheet
}

// loadSheet reads a job sheet and all that it refers to.
func (p *program) loadSheet(y yard, file string) (sheet, error) {
	data, err := p.readInput(file)
	if err != nil {
		return sheet{}, missing(file, err)
	}
	job, err := jobsheet.ParseJob(filepath.ToSlash(file), data)
	if err != nil {
		if other := noJobSheet(file, data); other != nil {
			err = other
		}
		return sheet{}, err
	}
	return y.sheetOf(file, job)
}

// sheetOf puts a job together with all that it refers to.
func (y yard) sheetOf(file string, job jobsheet.Job) (sheet, error) {
	s := sheet{file: file, job: job}
	var err error
	if s.machine, s.schedule, err = y.files.For(s.job); err != nil {
		return sheet{}, err
	}
	if s.files, err = y.attachments(s.job); err != nil {
		return sheet{}, err
	}
	s.driver, err = y.files.DriverOf(s.machine)
	return s, err
}

// machines lists the machines that the sheets are about.
func machines(sheets []sheet) []string {
	var ids []string
	for _, s := range sheets {
		ids = append(ids, s.machine.ID)
	}
	return ids
}

// sheetsNamed opens the yard and loads the job sheets that a command names.
func (p *program) sheetsNamed(c *cli.Context) (yard, []sheet, exitCode, error) {
	if err := wantArgs(c, 1, -1, "job sheet"); err != nil {
		return yard{}, nil, exitUsage, err
	}
	y, err := p.openYard(c)
	if err != nil {
		return yard{}, nil, exitOK, err
	}
	sheets, code, err := p.loadSheets(y, c.Args().Slice(), c.Bool(jsonFlag.Name))
	return y, sheets, code, err
}

// loadSheets loads all job sheets; those that are malformed or cannot be read
// are answered at once and left out.
func (p *program) loadSheets(y yard, files []string, asJSON bool) ([]sheet, exitCode, error) {
	var sheets []sheet
	code := exitOK
	for _, file := range files {
		s, err := p.loadSheet(y, file)
		var faults jobsheet.Faults
		switch {
		case err == nil:
			sheets = append(sheets, s)
		case errors.As(err, &faults):
			code = worse(code, exitUsage)
			if asJSON {
				if err := p.json(malformedJSON(faults)); err != nil {
					return nil, code, err
				}
			} else {
				p.complain(err)
			}
		default:
			code = worse(code, codeOf(err))
			p.complain(err)
			if asJSON {
				if err := p.json(malformedJSON(jobsheet.Faults{jsonFault(file, err)})); err != nil {
					return nil, code, err
				}
			}
		}
	}
	return sheets, code, nil
}
