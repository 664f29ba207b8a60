package main

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/urfave/cli/v2"

	"hourseal/record"
	"hourseal/record/ledger"
	"hourseal/record/quantity"
	"hourseal/record/treehead"
	"hourseal/render/plain"
	"hourseal/sign"
)

const atName = "at"

func (p *program) ledgerCommand() *cli.Command {
	return &cli.Command{
		Name: "ledger", Usage: "one line that fixes all the yard's records as they are, to be sent away",
		Subcommands: []*cli.Command{
			{
				Name: "head", Usage: "print the line",
				Description: "E-mail the line once a month to your insurer, or to anybody who keeps their mail. It\n" +
					"fixes every record that the yard has issued by then: what is changed, taken away or\n" +
					"dated back afterwards no longer agrees with it. Nothing about customers, vessels or\n" +
					"machines is in it, only a time, a count and a hash.",
				Flags: []cli.Flag{
					&cli.StringFlag{Name: atName, Usage: "as it was at `TIME`, such as 2026-11-02T16:30:00Z, or at the end of a date; else now"},
					yardFlag, jsonFlag},
				Action: p.action(p.ledgerHead),
			},
			{
				Name: "path", Usage: "print what shows that a machine's records are in a line that was sent",
				ArgsUsage: "MACHINE",
				Description: "Give --at the time that stands in the line. Prints the line once more, and a second\n" +
					"line that leads from the machine's last record of that time to it. Send both with the\n" +
					"machine's reports: hourseal history --head holds the reports to them.",
				Flags: []cli.Flag{
					&cli.StringFlag{Name: atName, Usage: "the `TIME` in the line, such as 2026-11-02T16:30:00Z, or a date for its end"},
					yardFlag, jsonFlag},
				Action: p.action(p.ledgerPath),
			},
		},
	}
}

// headJSON is the JSON of "hourseal ledger head".
type headJSON struct {
	Time   string        `json:"time"`
	Chains uint32        `json:"chains"`
	Root   treehead.Hash `json:"root"`
	Line   string        `json:"line"`
}

// pathJSON is the JSON of "hourseal ledger path".
type pathJSON struct {
	Head    headJSON        `json:"head"`
	Machine string          `json:"machine"`
	Record  record.ID       `json:"record"` // the chain's last at that time
	Number  uint32          `json:"number"`
	Index   uint32          `json:"index"`
	Hashes  []treehead.Hash `json:"hashes"`
	Line    string          `json:"line"`
}

func headOf(line treehead.Line) headJSON {
	return headJSON{plain.Written(line.Time), line.Chains, line.Root, line.String()}
}

func (p *program) ledgerHead(c *cli.Context) (exitCode, error) {
	if c.NArg() > 0 {
		return exitUsage, usageError{"ledger head: the line is of the whole ledger, no name is wanted",
			"hourseal ledger head, or hourseal ledger path " + c.Args().First() + " --at TIME"}
	}
	at, err := p.at(c)
	if err != nil {
		return exitUsage, err
	}
	y, err := p.openYard(c)
	if err != nil {
		return exitOK, err
	}
	line, err := y.ledger.Head(at)
	if err != nil {
		return exitOK, err
	}
	if c.Bool(jsonFlag.Name) {
		return exitOK, p.json(headOf(line))
	}
	p.say("%s", line)
	p.tell("E-mail this line to your insurer, or to anybody who keeps their mail, once a month.")
	p.tell("Nothing about customers, vessels or machines is in it.")
	if line.Chains == 0 {
		p.tell("No record had been issued by then.")
	}
	return exitOK, nil
}

func (p *program) ledgerPath(c *cli.Context) (exitCode, error) {
	if err := wantArgs(c, 1, 1, "machine"); err != nil {
		return exitUsage, err
	}
	if c.String(atName) == "" {
		return exitUsage, usageError{"--at is missing: the time that stands in the line that was sent",
			"hourseal ledger path " + c.Args().First() + " --at 2026-11-02T16:30:00Z"}
	}
	at, err := p.at(c)
	if err != nil {
		return exitUsage, err
	}
	y, err := p.openYard(c)
	if err != nil {
		return exitOK, err
	}
	machine := c.Args().First()
	line, path, end, err := y.ledger.Path(machine, at)
	if errors.Is(err, ledger.ErrNoneYet) {
		return exitUsage, p.noneYet(y, machine, at)
	}
	if err != nil {
		return exitOK, err
	}
	if c.Bool(jsonFlag.Name) {
		return exitOK, p.json(pathJSON{headOf(line), machine, path.Last, end.Record.Number, path.Index, append([]treehead.Hash{}, path.Hashes...), path.String()})
	}
	p.say("%s", line)
	p.say("%s", path)
	p.tell("The last record of %s then was %d, %s.", machine, end.Record.Number, sign.ID(end.ID))
	p.tell("The first line is to be the one that was sent. Give both with the machine's reports.")
	return exitOK, nil
}

// noneYet says why there is no path for a machine.
func (p *program) noneYet(y yard, machine string, at int64) error {
	machines, err := y.ledger.Machines()
	if err != nil {
		return err
	}
	for _, known := range machines {
		if known == machine {
			return usageError{fmt.Sprintf("no record of %s had been issued by %s", machine, plain.Written(at)), ""}
		}
	}
	hint := ""
	if len(machines) > 0 {
		hint = "one of: " + strings.Join(machines[:min(len(machines), mostMachinesNamed)], ", ")
	}
	return usageError{"there is no record of a machine " + machine, hint}
}

// mostMachinesNamed is how many machines a hint names.
const mostMachinesNamed = 8

// at reads --at: a time, the end of a date where the yard is, or now. What is to come
// cannot be fixed yet.
func (p *program) at(c *cli.Context) (int64, error) {
	text, now := c.String(atName), p.now()
	if text == "" {
		return now.Unix(), nil
	}
	if t, err := time.Parse(time.RFC3339, strings.ToUpper(text)); err == nil {
		if t.Unix() > now.Unix() {
			return 0, usageError{"--at: " + text + " is still to come: records may be issued until then", "leave --at out for now"}
		}
		return notBefore1970(t.Unix(), text)
	}
	date, err := quantity.ParseDate(text)
	if err != nil {
		return 0, usageError{fmt.Sprintf("--at: %q is neither a time nor a date", text), "--at 2026-11-02T16:30:00Z, or --at 2026-11-02"}
	}
	switch today := p.today(); {
	case date > today:
		return 0, usageError{"--at: " + text + " is still to come: records may be issued until then", "leave --at out for now"}
	case date == today:
		return 0, usageError{"--at: " + text + " is not over yet: records may be issued until then", "leave --at out for now"}
	}
	y, m, d := date.YMD()
	return notBefore1970(time.Date(y, m, d+1, 0, 0, 0, 0, now.Location()).Unix()-1, text)
}

func notBefore1970(at int64, text string) (int64, error) {
	if at < 0 {
		return 0, usageError{"--at: " + text + " is before there were any records", "--at 2026-11-02T16:30:00Z"}
	}
	return at, nil
}
