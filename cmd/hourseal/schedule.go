package main

import (
	"encoding/hex"
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
					"hourseal schedule show ID --json | sha256sum",
				Flags: []cli.Flag{yardFlag, jsonFlag}, Action: p.action(p.scheduleShow),
			},
			{
				Name: "check", Usage: "look for mistakes in schedules", ArgsUsage: "ID|FILE...",
				Flags: []cli.Flag{yardFlag, jsonFlag}, Action: p.action(p.scheduleCheck),
			},
		},
	}
}

// schedules opens the yard's schedules, or only the built-in ones outside a yard
// folder.
func (p *program) schedules(c *cli.Context) (jobsheet.Folder, error) {
	y, err := p.openYard(c)
	if err == nil {
		return y.files, nil
	}
	if c.String(yardFlag.Name) != "" {
		return jobsheet.Folder{}, err
	}
	return jobsheet.Open(os.DirFS("."), templates.Schedules()), nil
}

func (p *program) scheduleList(c *cli.Context) (exitCode, error) {
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
	rows := [][]string{{"task", "kind", "every", "first", "grace", "what"}}
	for _, t := range s.Tasks {
		leeway := s.Leeway(t)
		rows = append(rows, []string{t.ID, t.Kind.String(), intervalText(t.Every), intervalText(t.First),
			fmt.Sprintf("%s h, %s d", leeway.Hours, leeway.Days), t.Title})
	}
	p.table("", rows)
	return exitOK, nil
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

func intervalText(i schedule.Interval) string {
	switch {
	case i.Hours != 0 && i.Months != 0:
		return fmt.Sprintf("%s h / %s mo", i.Hours, i.Months)
	case i.Hours != 0:
		return i.Hours.String() + " h"
	case i.Months != 0:
		return i.Months.String() + " mo"
	default:
		return "-"
	}
}

// scheduleFaults is the JSON of "hourseal schedule check", one object a schedule.
type scheduleFaults struct {
	Schedule string        `json:"schedule"`
	Outcome  string        `json:"outcome"` // sound or malformed
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
	code := exitOK
	for _, name := range c.Args().Slice() {
		tasks, err := p.loadSchedule(folder, name)
		answer := scheduleFaults{Schedule: name, Outcome: "sound", Findings: []findingJSON{}}
		faults, malformed := err.(jobsheet.Faults)
		switch {
		case malformed:
			code, answer.Outcome = worse(code, exitUsage), "malformed"
			for _, f := range faults {
				answer.Findings = append(answer.Findings, malformedFinding(f))
			}
		case err != nil:
			code = worse(code, codeOf(err))
			p.complain(err)
			answer.Outcome = "malformed"
			answer.Findings = append(answer.Findings, malformedFinding(jsonFault(name, err)))
		}
		switch {
		case c.Bool(jsonFlag.Name):
			if err := p.json(answer); err != nil {
				return code, err
			}
		case malformed:
			p.complain(err)
		case err == nil:
			p.say("%s: %d tasks, no mistakes found", name, tasks)
		}
	}
	return code, nil
}

// loadSchedule loads a schedule by its id, or a file of one, and counts its
// tasks.
func (p *program) loadSchedule(folder jobsheet.Folder, name string) (int, error) {
	if jobsheet.CheckID(name) == nil {
		s, _, err := folder.Schedule(name)
		return len(s.Tasks), err
	}
	data, err := p.readInput(name)
	if err != nil {
		return 0, missing(name, err)
	}
	s, _, err := jobsheet.ParseSchedule(name, data)
	return len(s.Tasks), err
}
