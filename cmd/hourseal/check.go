package main

import (
	"fmt"
	"strings"

	"github.com/urfave/cli/v2"

	"hourseal/record"
	"hourseal/record/check"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
	"hourseal/render/plain"
	"hourseal/render/words"
	"hourseal/sign"
)

var jsonFlag = &cli.BoolFlag{Name: "json", Usage: "answer in JSON, one object a line"}

func (p *program) checkCommand() *cli.Command {
	return &cli.Command{
		Name: "check", Usage: "work jobs out and say what is found; write nothing",
		ArgsUsage: "JOB...",
		Description: "Holds each job sheet against its machine, the service schedule and the earlier\n" +
			"records. Ends with 0 when every job can be issued, 7 when a person has to give a\n" +
			"reason first, 3 when something cannot be true, 2 when a sheet cannot be read.",
		Flags:  []cli.Flag{yardFlag, jsonFlag},
		Action: p.action(p.check),
	}
}

func (p *program) check(c *cli.Context) (exitCode, error) {
	y, sheets, code, err := p.sheetsNamed(c)
	if err != nil {
		return code, err
	}
	checked, err := p.checkSheets(c, y, sheets)
	return worse(code, checked), err
}

// checkSheets works sheets out one after another and says what is found.
func (p *program) checkSheets(c *cli.Context, y yard, sheets []sheet) (exitCode, error) {
	code := exitOK
	b, err := p.newBench(y, sheets)
	if err != nil {
		return code, err
	}
	for _, s := range sheets {
		result, err := b.check(s)
		if err != nil {
			return code, err
		}
		stored, issued := storedAlready(b, s, result)
		if issued {
			if result, err = b.before(stored).check(s); err != nil {
				return code, err
			}
		}
		code = worse(code, outcomeCodes[result.Outcome])
		if c.Bool(jsonFlag.Name) {
			err = p.json(checkJSON(s, result))
		} else {
			p.sayCheck(b.yard.Style, s, result)
		}
		if err != nil {
			return code, err
		}
		note := func(format string, args ...any) { p.paragraph("", fmt.Sprintf(format, args...)) }
		if c.Bool(jsonFlag.Name) {
			note = p.tell
		}
		switch {
		case issued && b.waits(s, stored):
			note("%s: the same job as another sheet of this run: both give one record", s.file)
		case issued:
			note("%s: issued already, as record %d of %s: %s", s.file, stored.Record.Number, s.machine.ID, sign.ID(stored.ID))
		default:
			if other := b.otherFiles(s, result); other != nil {
				code = worse(code, codeOf(other))
				p.complain(other)
			}
			b.remember(s, result)
		}
	}
	return code, nil
}

var outcomeCodes = map[check.Outcome]exitCode{
	check.Issuable: exitOK, check.Undecided: exitDecide, check.Refused: exitNo, check.Malformed: exitUsage,
}

// sayCheck prints a result for a person, its figures in the yard's style.
func (p *program) sayCheck(style quantity.Style, s sheet, result check.Result) {
	r := result.Draft
	p.named(s.file, fmt.Sprintf("%s %s, serial %s, on %s at %s h", r.Machine.Make, r.Machine.Model, r.Machine.Serial, style.Date(r.Job.Date), style.Hours(r.Job.Hours)))
	if since := result.SinceLast; since != nil {
		p.say("  %s", sinceWords(style, *since))
	}
	p.sayFindings(style, s.job.Source, result)
	for _, b := range plain.Balances(style, r) {
		p.say("")
		p.block("  ", b)
	}
	p.say("")
	p.stateTable("  ", dueRows(style, result.Next), nil, 4)
	p.say("")
	p.say("  %s", outcomeWords[result.Outcome])
	p.say("")
}

// sinceWords say how far a job is from the last record: its hours may lie below.
func sinceWords(style quantity.Style, since check.SinceLast) string {
	days := countOf(since.Days.String(), "day")
	switch {
	case since.Hours >= 0:
		return fmt.Sprintf("%s h and %s since the last record", style.Hours(since.Hours), days)
	case since.Days == 0:
		return fmt.Sprintf("%s h below the last record, of the same day", style.Hours(-since.Hours))
	default:
		return fmt.Sprintf("%s h below the last record, of %s before", style.Hours(-since.Hours), days)
	}
}

var outcomeWords = map[check.Outcome]string{
	check.Issuable:  "Can be issued.",
	check.Undecided: "Needs a reason before it can be issued.",
	check.Refused:   "Cannot be issued: something here cannot be true, or is missing.",
	check.Malformed: "Cannot be issued as it stands: correct the places named above.",
}

var severityWords = map[record.Severity]string{record.Note: "note", record.Decide: "decide", record.Refuse: "cannot be"}

// sayFindings prints the findings, the gravest first, with what to do; what to type is
// never in a style.
func (p *program) sayFindings(style quantity.Style, source jobsheet.Source, result check.Result) {
	for _, severity := range []record.Severity{record.Refuse, record.Decide, record.Note} {
		for _, f := range result.Findings {
			if f.Severity != severity {
				continue
			}
			p.labelled("  ", severityWords[severity], severityStyles[severity], words.FindingIn(style, f.Finding))
			switch {
			case f.Accepted != "":
				p.paragraph("      ", "reason given: "+f.Accepted)
			case severity == record.Note:
			default:
				p.paragraph("      ", f.At+": "+hintIn(source, f))
			}
		}
	}
	for _, fault := range result.Faults {
		p.paragraph("  ", fault.Error())
	}
}

// hintFor says what to type about a finding, with the key that accepts it.
func hintFor(f check.Finding) string {
	code := f.Code.String()
	key := code
	if f.Subject != "" {
		key += "/" + f.Subject
	}
	hint := words.Hint(f.Code)
	if before, _, accepts := strings.Cut(hint, "accept: {"); accepts && f.Severity == record.Refuse {
		// No reason makes true what cannot be.
		hint = before[:max(0, strings.LastIndexByte(before, ';'))]
	}
	return strings.NewReplacer(code+"/TASK:", key+":", code+":", key+":").Replace(hint)
}

func dueRows(style quantity.Style, next []check.Next) [][]string {
	rows := [][]string{{"next due", "at hours", "on", "first", "state"}}
	for _, n := range next {
		hours, date := "-", "-"
		if n.Due.Hours != nil {
			hours = style.Hours(*n.Due.Hours)
		}
		if n.Due.Date != nil {
			date = style.Date(*n.Due.Date)
		}
		rows = append(rows, []string{n.Task, hours, date, n.By, n.State.String()})
	}
	return rows
}
