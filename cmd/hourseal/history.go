package main

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"hourseal/record/quantity"
	"hourseal/render"
	"hourseal/verify/history"
)

func (p *program) historyCommand() *cli.Command {
	return &cli.Command{
		Name: "history", Usage: "judge a machine's records together: what is missing, late, put off, and where it stood on a day",
		ArgsUsage: "FILE...",
		Description: "Takes reports, photographs of their codes, record files, texts of codes and signed lists,\n" +
			"of any yards, and folders of them; each is verified first. Ends with 0 when nothing is\n" +
			"recorded as overdue or missing, 7 when something is, 3 when a file is altered or a chain\n" +
			"is broken, 4 and 5 when a signer is not known to you or a key was not valid, 6 when a\n" +
			"page is not original or could not be compared.",
		Flags: []cli.Flag{trustFlag, keysFlag, serialFlag,
			&cli.StringFlag{Name: onFlag.Name, Usage: "where it stood on `DATE`"},
			&cli.StringFlag{Name: hoursFlag.Name, Usage: "with `N` hours in total on that day"},
			&cli.StringFlag{Name: "received", Usage: "`FILE` of your own: a line \"DATE RECORD-ID\" for each record that you got on a day"},
			&cli.StringSliceFlag{Name: "head", Usage: "`FILE` of ledger lines and paths that a yard sent you, each with the day you got it before it"},
			&cli.StringFlag{Name: "output", Aliases: []string{"o"}, Usage: "write a statement to print to `FILE.pdf`, of one machine"},
			paperFlag,
			&cli.BoolFlag{Name: "sign", Usage: "as the yard: sign a list of all records that it holds of the machine"},
			&cli.StringFlag{Name: "for", Usage: "with --sign: who asked, and their reference, `TEXT`"},
			&cli.BoolFlag{Name: "full", Usage: "give all about each of many machines"},
			yardFlag, passphraseFlag, noInputFlag, jsonFlag},
		Action: p.action(p.history),
	}
}

// All records are held until they are judged, about 8 KiB each: the collector is not
// worth its time before this much is in use.
const historyMemoryLimit = 192 << 20

var paperFlag = &cli.StringFlag{Name: "paper", Usage: "A4 or Letter, of the statement, `SIZE`", Value: "A4"}

func (p *program) history(c *cli.Context) (exitCode, error) {
	if err := wantArgs(c, 1, -1, "file or folder"); err != nil {
		return exitUsage, err
	}
	debug.SetMemoryLimit(historyMemoryLimit)
	inputs := verifiable(c.Args().Slice())
	in, code, err := p.historyInput(c, inputs)
	if err != nil {
		return code, err
	}
	if err := keepsInputs(c, inputs); err != nil {
		return exitUsage, err
	}
	h := history.Assess(in)
	code = worse(code, exitCode(h.ExitCode()))
	if c.Bool("sign") {
		if err := p.signList(c, h); err != nil {
			return codeOf(err), err
		}
	}
	if file := c.String("output"); file != "" {
		if err := p.writeStatement(c, h, file); err != nil {
			return codeOf(err), err
		}
	}
	if c.Bool(jsonFlag.Name) {
		return code, p.historyJSON(h)
	}
	p.sayHistory(h, c.Bool("full"))
	return code, nil
}

// historyInput verifies the inputs and reads what the reader keeps.
func (p *program) historyInput(c *cli.Context, inputs []string) (history.Input, exitCode, error) {
	var in history.Input
	reader, err := p.reader(c)
	if err != nil {
		return in, codeOf(err), err
	}
	in.Trust, in.Statements = reader.Trust, reader.Statements
	if c.IsSet(serialFlag.Name) && strings.TrimSpace(reader.Serial) == "" {
		return in, exitUsage, usageError{"--serial: nothing to compare with", "--serial 0045120, as on the plate"}
	}
	in.Serial = reader.Serial
	in.Hours = reader.Hours
	// The plate and the reading are compared with the machine, not with each record.
	reader.Serial, reader.Hours = "", nil
	if text := c.String(onFlag.Name); text != "" {
		on, err := quantity.ParseDate(text)
		if err != nil {
			return in, exitUsage, usageError{"--on: " + err.Error(), "--on 2026-11-02"}
		}
		if on > p.today() {
			return in, exitUsage, usageError{fmt.Sprintf("--on: %s is to come, and a history looks back", on), "hourseal due looks ahead"}
		}
		in.On = &on
	} else if in.Hours != nil {
		return in, exitUsage, usageError{"--hours is the reading on a day", "--on 2026-11-02 --hours 985.5"}
	}
	inputs, kept := p.keptStatements(c.Args().Slice(), inputs)
	in.Statements = append(in.Statements, kept...)
	if slices.ContainsFunc(inputs, func(name string) bool { return strings.EqualFold(filepath.Ext(name), ".pdf") }) {
		go render.Warm() // while the inputs are read
	}
	code := exitOK
	in.Items = make([]history.Item, 0, len(inputs))
	for i, answer := range p.verifyAll(c.Args().Slice(), inputs, reader) {
		p.showProgress(i, len(inputs))
		if answer.err != nil {
			code = worse(code, codeOf(answer.err))
			p.complain(answer.err)
		}
		in.Items = append(in.Items, history.Item{Name: shortName(answer.input), Result: answer.result})
	}
	p.showProgress(len(inputs), len(inputs))
	if in.Received, err = p.received(c.String("received"), in.Items); err != nil {
		return in, codeOf(err), err
	}
	in.Heads, in.Paths, err = p.headLines(c.StringSlice("head"))
	return in, worse(code, codeOf(err)), err
}

// keepsInputs refuses to write over what was given: a buyer may have no other copy.
func keepsInputs(c *cli.Context, inputs []string) error {
	file := c.String("output")
	if file == "" || file == "-" {
		return nil
	}
	for _, made := range []string{file, listFile(file)} {
		there, err := os.Stat(made)
		if err != nil {
			continue
		}
		for _, input := range inputs {
			if given, err := os.Stat(input); err == nil && os.SameFile(there, given) {
				return usageError{made + " is one of the files that you gave, and would be written over", "-o history.pdf"}
			}
		}
	}
	return nil
}

// oneMachine is the machine of a history that has just one.
func oneMachine(h history.History) (*history.Machine, error) {
	switch {
	case len(h.Machines) == 1:
		return &h.Machines[0], nil
	case len(h.Machines) == 0:
		return nil, usageError{"there is no record of a machine to write a statement of", ""}
	}
	var serials []string
	for _, m := range h.Machines {
		serials = append(serials, m.Serial)
	}
	return nil, usageError{fmt.Sprintf("the records are of %d machines, a statement is of one", len(h.Machines)), "--serial " + serials[0]}
}
