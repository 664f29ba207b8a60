package main

import (
	"encoding/hex"
	"errors"
	"fmt"
	"os"
	"strings"

	"github.com/urfave/cli/v2"

	"hourseal/record/jobsheet"
	"hourseal/record/schedule"
	"hourseal/templates"
)

func (p *program) scheduleCommand() *cli.Command {
	return &cli.Command{
		Name: "schedule", Usage: "service schedules, built in and the yard's own",
		Subcommands: []*cli.Command{
			{
				Name: "list", Usage: "list the schedules that a machine file may name",
				Flags: []cli.Flag{yardFlag, jsonFlag}, Action: p.action(p.scheduleList),
			},
			{
				Name: "show", Usage: "show one schedule", ArgsUsage: "ID",
				Description: "With --json the canonical form, whose SHA-256 stands in the records checked by it:\n" +
					"  hourseal schedule show ID --json | sha256sum",
				Flags: []cli.Flag{yardFlag, jsonFlag}, Action: p.action(p.scheduleShow),
			},
			{
				Name: "check", Usage: "look for mistakes in schedules", ArgsUsage: "ID|FILE...",
				Description: "Besides what cannot be read it names what cannot be meant: a task that covers\n" +
					"itself or never falls due by itself, intervals and graces beyond reason, and what\n" +
					"is needed of a system that a machine of the yard has not. No job is refused for\n" +
					"these. Ends with 0 when it finds nothing, with 2 otherwise.",
				Flags: []cli.Flag{yardFlag, jsonFlag}, Action: p.action(p.scheduleCheck),
			},
			p.scheduleNewCommand(),
		},
	}
}

// schedules opens the yard's schedules, or only the built-in ones outside a yard
// folder.
func (p *program) schedules(c *cli.Context) (jobsheet.Folder, error) {
	return p.schedulesAt(c.String(yardFlag.Name))
}

func (p *program) schedulesAt(dir string) (jobsheet.Folder, error) {
	y, err := p.yardAt(dir)
	if err == nil {
		return y.files, nil
	}
	if dir != "" {
		return jobsheet.Folder{}, err
	}
	return jobsheet.Open(os.DirFS("."), templates.Schedules()), nil
}

func (p *program) scheduleList(c *cli.Context) (exitCode, error) {
	if err := wantNoArgs(c); err != nil {
		return exitUsage, err
	}
	folder, err := p.schedules(c)
	if err != nil {
		return exitOK, err
	}
	ids, err := folder.ScheduleIDs()
	if err != nil {
		return exitOK, err
	}
	rows := [][]string{{"schedule", "from", "whose", "title"}}
	for _, id := range ids {
		s, _, err := folder.Schedule(id.ID)
		if err != nil {
			return exitUsage, err
		}
		from := "yard"
		if id.BuiltIn {
			from = "built in"
		}
		if c.Bool(jsonFlag.Name) {
			if err := p.json(scheduleJSON{s.ID, s.Edition, s.Title, s.Basis.Kind.String(), id.BuiltIn}); err != nil {
				return exitOK, err
			}
			continue
		}
		rows = append(rows, []string{s.ID, from, s.Basis.Kind.String(), s.Title})
	}
	if len(rows) > 1 {
		p.table("", rows)
	}
	return exitOK, nil
}

// The JSON of "hourseal schedule list", one object a schedule.
type scheduleJSON struct {
	Schedule string `json:"schedule"`
	Edition  int    `json:"edition"`
	Title    string `json:"title"`
	Basis    string `json:"basis"`
	BuiltIn  bool   `json:"built_in"`
}

func (p *program) scheduleShow(c *cli.Context) (exitCode, error) {
	if err := wantArgs(c, 1, 1, "schedule"); err != nil {
		return exitUsage, err
	}
	folder, err := p.schedules(c)
	if err != nil {
		return exitOK, err
	}
	s, _, err := folder.Schedule(c.Args().First())
	if err != nil {
		return exitUsage, err
	}
	if c.Bool(jsonFlag.Name) {
		_, err := p.stdout.Write(s.Canonical())
		return exitOK, err
	}
	digest := s.Digest()
	p.paragraph("", fmt.Sprintf("%s, edition %d: %s", s.ID, s.Edition, s.Title))
	p.paragraph("", "Basis: "+strings.Join(basisWords(s.Basis), ", ")+". The maker's handbook governs.")
	p.say("SHA-256 %s", hex.EncodeToString(digest[:]))
	p.say("")
	for _, t := range s.Tasks {
		p.sayTask(s, t)
	}
	return exitOK, nil
}

// sayTask prints a task of a schedule, as its file says it.
func (p *program) sayTask(s schedule.Schedule, t schedule.Task) {
	p.paragraph("", t.ID+": "+t.Title)
	runs := "every " + intervalWords(t.Every)
	if t.Once {
		runs = "once " + intervalWords(t.Every)
	}
	if t.First != (schedule.Interval{}) {
		runs += ", first " + intervalWords(t.First)
	}
	lines := []string{t.Kind.String() + ", " + runs + "; " + leewayWords(t, s.Leeway(t, t.Every))}
	if t.Severe.Factor != 0 {
		short := t.Usual(schedule.Duty{t.Severe.When})
		lines = append(lines, fmt.Sprintf("%s under severe duty: %s", intervalWords(short), t.Severe.When))
	}
	if len(t.With) > 0 {
		lines = append(lines, "together with "+strings.Join(t.With, ", "))
	}
	if len(t.Covers) > 0 {
		lines = append(lines, "covers "+strings.Join(t.Covers, ", "))
	}
	if t.NextFrom != 0 {
		lines = append(lines, "next from "+t.NextFrom.String())
	}
	for _, line := range lines {
		p.paragraph("    ", line)
	}
}

func basisWords(b schedule.Basis) []string {
	words := []string{b.Kind.String()}
	for _, part := range []struct{ name, text string }{{"", b.Document}, {"edition ", b.Edition}, {"page ", b.Page}} {
		if part.text != "" {
			words = append(words, part.name+part.text)
		}
	}
	return words
}

// intervalWords is an interval as it is spoken: "200 h or 12 months".
func intervalWords(i schedule.Interval) string {
	var words []string
	if i.Hours != 0 {
		words = append(words, i.Hours.String()+" h")
	}
	if i.Months != 0 {
		words = append(words, countOf(i.Months.String(), "month"))
	}
	return strings.Join(words, " or ")
}

// leewayWords is the grace of a task, only of what it falls due by.
func leewayWords(t schedule.Task, l schedule.Leeway) string {
	var words []string
	if t.Every.Hours != 0 && l.Hours != 0 {
		words = append(words, l.Hours.String()+" h")
	}
	if t.Every.Months != 0 && l.Days != 0 {
		words = append(words, countOf(l.Days.String(), "day"))
	}
	if len(words) == 0 {
		return "no grace"
	}
	return "grace " + strings.Join(words, " or ")
}

func countOf(n, what string) string {
	if n == "1" {
		return n + " " + what
	}
	return n + " " + what + "s"
}

// scheduleFaults is the JSON of "hourseal schedule check", one object a schedule.
type scheduleFaults struct {
	Schedule string        `json:"schedule"`
	Outcome  string        `json:"outcome"` // sound, contradictory or malformed
	Findings []findingJSON `json:"findings"`
}

func (p *program) scheduleCheck(c *cli.Context) (exitCode, error) {
	if err := wantArgs(c, 1, -1, "schedule"); err != nil {
		return exitUsage, err
	}
	folder, err := p.schedules(c)
	if err != nil {
		return exitOK, err
	}
	machines, err := p.machinesFor(c)
	code := exitOK
	if err != nil { // the schedules can be looked at all the same
		p.complain(err)
		code = codeOf(err)
	}
	for _, name := range c.Args().Slice() {
		s, source, err := p.loadSchedule(folder, name)
		answer := scheduleFaults{Schedule: name, Outcome: "sound", Findings: []findingJSON{}}
		var faults jobsheet.Faults
		switch {
		case errors.As(err, &faults):
			answer.fill("malformed", faults)
		case err != nil:
			code = worse(code, codeOf(err))
			p.complain(err)
			answer.fill("malformed", jobsheet.Faults{jsonFault(name, err)})
		default:
			if faults = jobsheet.Contradictions(s, source, machines); len(faults) > 0 {
				answer.fill("contradictory", faults)
			}
		}
		if len(faults) > 0 {
			code = worse(code, exitUsage)
		}
		switch {
		case c.Bool(jsonFlag.Name):
			if err := p.json(answer); err != nil {
				return code, err
			}
		case len(faults) > 0:
			p.complain(faults)
		case err == nil:
			p.say("%s: %d tasks, no mistakes found", name, len(s.Tasks))
		}
	}
	return code, nil
}

// fill puts faults into the answer, as findings whose code is the outcome.
func (a *scheduleFaults) fill(outcome string, faults jobsheet.Faults) {
	a.Outcome = outcome
	for _, fault := range faults {
		finding := malformedFinding(fault)
		finding.Code = outcome
		a.Findings = append(a.Findings, finding)
	}
}

// loadSchedule loads a schedule by its id, or a file of one.
func (p *program) loadSchedule(folder jobsheet.Folder, name string) (schedule.Schedule, jobsheet.Source, error) {
	if jobsheet.CheckID(name) == nil {
		return folder.Schedule(name)
	}
	data, err := p.readInput(name)
	if err != nil {
		return schedule.Schedule{}, jobsheet.Source{}, missing(name, err)
	}
	return jobsheet.ParseSchedule(name, data)
}

// machinesFor reads the machines of the yard, none outside a yard folder. With an
// error come those that can be read.
func (p *program) machinesFor(c *cli.Context) ([]jobsheet.Machine, error) {
	y, err := p.openYard(c)
	if err != nil {
		return nil, nil // the built-in schedules are there without a yard
	}
	var machines []jobsheet.Machine
	var faults jobsheet.Faults
	ids, err := y.files.MachineIDs()
	if err != nil && !errors.As(err, &faults) {
		return nil, err
	}
	for _, id := range ids {
		m, err := y.files.Machine(id)
		var wrong jobsheet.Faults
		switch {
		case err == nil:
			machines = append(machines, m)
		case errors.As(err, &wrong):
			faults = append(faults, wrong...)
		default:
			return machines, err
		}
	}
	if len(faults) > 0 {
		return machines, faults
	}
	return machines, nil
}
