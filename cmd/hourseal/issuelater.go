package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"hourseal/record"
	"hourseal/record/ledger"
	"hourseal/sign"
)

// Later records say something of an earlier one. laterFlags are what they are asked
// for by; each names the earlier record.
var laterFlags = []struct {
	flag  *cli.StringFlag
	kind  record.Kind
	least int // job sheets
	most  int
}{
	{&cli.StringFlag{Name: "corrects", Usage: "the job sheet is the job of `RECORD` as it should have been"}, record.Correction, 1, 1},
	{&cli.StringFlag{Name: "voids", Usage: "`RECORD` does not count; no job sheet"}, record.Void, 0, 0},
	{&cli.StringFlag{Name: "adds-to", Usage: "what came after `RECORD`: a laboratory's result, another look, an answer; with or without a job sheet"}, record.Addendum, 0, 1},
}

var whyFlag = &cli.StringFlag{Name: "why", Usage: "`TEXT`: why the record is corrected, voided or added to"}

// later is what makes a record one that speaks of an earlier.
type later struct {
	kind    record.Kind
	name    string // of the earlier record, as typed
	subject record.Subject
	of      ledger.Stored
}

// laterWanted reads the flags of later records; nil for a service.
func laterWanted(c *cli.Context) (*later, error) {
	var wanted *later
	why, sheets := c.String(whyFlag.Name), c.NArg()
	for _, l := range laterFlags {
		name := c.String(l.flag.Name)
		switch {
		case !c.IsSet(l.flag.Name):
			continue
		case name == "":
			return nil, usageError{"--" + l.flag.Name + " names no record", "--" + l.flag.Name + " gannet-port/1"}
		case wanted != nil:
			return nil, usageError{"one record is corrected, voided or added to at a time", "give one of --corrects, --voids and --adds-to"}
		case sheets < l.least:
			return nil, usageError{"--" + l.flag.Name + " needs the job sheet as it should have been", "hourseal issue JOB --" + l.flag.Name + " " + name + " --why TEXT"}
		case sheets > l.most && l.most == 0:
			return nil, usageError{"--" + l.flag.Name + " takes no job sheet", "to say how the job should have been: hourseal issue JOB --corrects " + name + " --why TEXT"}
		case sheets > l.most:
			return nil, usageError{"--" + l.flag.Name + " takes one job sheet", "issue the others by themselves"}
		}
		wanted = &later{kind: l.kind, name: name, subject: record.Subject{Why: why}}
	}
	switch {
	case wanted == nil && c.IsSet(whyFlag.Name):
		return nil, usageError{"--why goes with --corrects, --voids or --adds-to", "reasons for what a check asks stand in the sheet, under accept:"}
	case wanted != nil && strings.TrimSpace(why) == "":
		return nil, usageError{"--why is missing: the reason is signed, and every reader sees it", "--why 'hours misread'"}
	case wanted != nil:
		if err := record.CheckText(why, record.MaxReason); err != nil {
			return nil, usageError{"--why: " + err.Error(), ""}
		}
	}
	return wanted, nil
}

// laterSheets are the records to make: of the job sheet, if there is one, and for a
// correction that moves a job to another machine, the void in the wrong one's chain.
// The correction comes first: whoever finds it alone, after a crash, sees that it
// stands in the other's place.
func (p *program) laterSheets(y yard, l *later, sheets []sheet) ([]sheet, error) {
	var err error
	if l.of, err = p.storedNamed(y, l.name); err != nil {
		return nil, err
	}
	if err := l.canBeSpokenOf(); err != nil {
		return nil, err
	}
	l.subject.Record = l.of.ID
	for i := range sheets {
		sheets[i].kind, sheets[i].subject = l.kind, &l.subject
	}
	switch {
	case len(sheets) == 0:
		bare, err := p.bareSheet(y, l, l.kind)
		return []sheet{bare}, err
	case l.kind == record.Correction && sheets[0].machine.ID != l.of.Record.Machine.ID:
		void, err := p.bareSheet(y, l, record.Void)
		return append(sheets, void), err
	}
	return sheets, nil
}

// bareSheet stands for a record that has no job sheet.
func (p *program) bareSheet(y yard, l *later, kind record.Kind) (sheet, error) {
	s := sheet{file: fmt.Sprintf("%s of %s", kind, l.title()), kind: kind, subject: &l.subject, bare: true}
	var err error
	if s.machine, err = y.files.Machine(l.of.Record.Machine.ID); err != nil {
		return sheet{}, err
	}
	if s.schedule, err = y.files.ScheduleOf(s.machine); err != nil {
		return sheet{}, err
	}
	s.driver, err = y.files.DriverOf(s.machine)
	return s, err
}

// title is the earlier record as it is named in the yard.
func (l *later) title() string { return titleOf(l.of.Record) }

func titleOf(r *record.Record) string { return fmt.Sprintf("%s/%d", r.Machine.ID, r.Number) }

// canBeSpokenOf says why nothing can be said of a record in a later one.
func (l *later) canBeSpokenOf() error {
	r := l.of.Record
	switch {
	case l.of.Before:
		return usageError{l.title() + " is another yard's record: who signed it can correct it", "issue what you found as a job of your own"}
	case r.Kind == record.Void:
		return usageError{fmt.Sprintf("%s is a void: it stays", l.title()), "issue the job that should count, as a job sheet"}
	case r.Kind == record.Addendum && l.kind != record.Void:
		return usageError{fmt.Sprintf("%s is an addendum to record %s: it has no job of its own", l.title(), sign.ID(r.Subject.Record)), "add another to that record, or take it back: hourseal issue --voids " + l.title() + " --why TEXT"}
	}
	return nil
}

// stillCounts says why the earlier record of a sheet does not count any more: by
// which record, and what can be done.
func (b *bench) stillCounts(s sheet) error {
	if s.subject == nil {
		return nil
	}
	machines, err := b.y.ledger.Machines() // a crash may have left it in another's chain alone
	if err != nil {
		return err
	}
	by, err := b.takenBack(s.subject.Record, machines...)
	switch {
	case err != nil || by == nil:
		return err
	case by.Kind == record.Void:
		return usageError{fmt.Sprintf("%s was %s", b.later.title(), takenText(by)), "if the job should count, issue it as a job of its own"}
	default:
		return usageError{fmt.Sprintf("%s was %s", b.later.title(), takenText(by)), "that one is the record to correct, void or add to now: " + titleOf(by)}
	}
}

// takenBack is the record in the chains of some machines that corrects or voids
// another; nil without one. Those that this run makes are left out: they are all of
// one correction.
func (b *bench) takenBack(id record.ID, machines ...string) (*record.Record, error) {
	var void *record.Record // of a correction in another's chain there are both
	for _, machine := range machines {
		chain, err := b.chain(machine)
		if err != nil {
			return nil, err
		}
		for _, e := range chain {
			r := e.Record
			switch {
			case r.Subject == nil || r.Subject.Record != id || slices.Contains(b.made, e.ID):
			case r.Kind == record.Correction:
				return r, nil
			case r.Kind == record.Void:
				void = r
			}
		}
	}
	return void, nil
}

func takenText(by *record.Record) string {
	verb := "corrected"
	if by.Kind == record.Void {
		verb = "voided"
	}
	return fmt.Sprintf("%s by %s: %s", verb, titleOf(by), by.Subject.Why)
}

// sayTaken says of a record that was stored before that it does not count any more.
func (b *bench) sayTaken(s sheet, stored record.Earlier) error {
	by, err := b.takenBack(stored.ID, s.machine.ID)
	if err == nil && by != nil {
		b.p.tell("%s: its record %s does not count: %s. To issue the job anew, say in notes what is different now", s.file, titleOf(stored.Record), takenText(by))
	}
	return err
}
