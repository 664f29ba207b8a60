package main

import (
	"bytes"
	"fmt"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"

	"github.com/urfave/cli/v2"

	"hourseal/record"
	"hourseal/record/ledger"
	"hourseal/record/quantity"
	"hourseal/record/waste"
)

func (p *program) wasteCommand() *cli.Command {
	return &cli.Command{
		Name: "waste", Usage: "the year's waste fluids, for the receiver's or regulator's form",
		ArgsUsage: "[MACHINE...]",
		Description: "Adds up what the records of a calendar year say came out and where it went, and what was\n" +
			"drained with no record of where it went; of the whole yard, or of the machines named.\n" +
			"--csv writes a row an entry (RFC 4180, UTF-8), every text as it stands on record: open it\n" +
			"in a spreadsheet with its columns as text, or 0045120 becomes 45120 and a text that\n" +
			"begins with = + - or @ a formula.",
		Flags: []cli.Flag{yardFlag,
			&cli.StringFlag{Name: "year", Usage: "the calendar `YEAR` of the jobs; this year if left out"},
			&cli.BoolFlag{Name: "csv", Usage: "answer in CSV, one row an entry"},
			&cli.BoolFlag{Name: jsonFlag.Name, Usage: "answer in JSON, one object"},
			&cli.StringFlag{Name: "o", Usage: "write the answer to `FILE`; - is standard output"}},
		Action: p.action(p.waste),
	}
}

// yardWaste is a year's waste of a yard, and which machines it is of.
type yardWaste struct {
	yard  string
	style quantity.Style // of the text; not of CSV and JSON
	waste.Account
	named    []string // nil: the whole yard
	machines int      // that were read
	leftOut  []string // machines whose records could not be read
	soFar    string   // today, where the year is not over
}

func (p *program) waste(c *cli.Context) (exitCode, error) {
	asCSV, asJSON, out := c.Bool("csv"), c.Bool(jsonFlag.Name), c.String("o")
	if asCSV && asJSON {
		return exitUsage, usageError{"--csv and --json are two answers", "one of them at a time"}
	}
	year, err := p.yearFlag(c)
	if err != nil {
		return exitUsage, err
	}
	y, err := p.openYard(c)
	if err != nil {
		return exitOK, err
	}
	self, err := y.files.Yard()
	if err != nil {
		return exitOK, err
	}
	ids, code, err := p.wasteMachines(y, c.Args().Slice())
	if err != nil || len(ids) == 0 {
		return code, err
	}
	made := yardWaste{yard: self.Name, style: self.Style}
	if c.NArg() > 0 {
		made.named = ids
	}
	if p.today().Year() == year {
		made.soFar = self.Style.Date(p.today())
	}
	step, done := p.counting(len(ids))
	accounts, faults := wasteOf(y, year, ids, step)
	done()
	var read []waste.Account
	for i, fault := range faults {
		if fault != nil {
			code = worse(code, codeOf(fault))
			p.complain(fault)
			made.leftOut = append(made.leftOut, ids[i])
			continue
		}
		made.machines++
		read = append(read, accounts[i])
	}
	if made.machines == 0 {
		return code, nil
	}
	made.Account = waste.Together(year, read)
	if asCSV && code != exitOK {
		// A form is filled in from it, and nothing in it could say that it is not whole.
		return code, usageError{"no CSV: it would not be whole, for what is said above", "hourseal waste, with the names of the machines that can be read"}
	}
	data, err := p.wasteAnswer(made, asCSV, asJSON)
	if err != nil {
		return code, err
	}
	if out == "" {
		out = "-"
	}
	if err := p.writeOutput(out, data); err != nil {
		return code, err
	}
	if out != "-" {
		p.tell("%s: %s of %d", out, entriesText(len(made.Entries)), year)
	}
	if asCSV {
		p.tellBesideCSV(made)
	}
	return code, nil
}

// wasteAnswer is the answer as it was asked for.
func (p *program) wasteAnswer(made yardWaste, asCSV, asJSON bool) ([]byte, error) {
	if asCSV {
		return wasteCSV(made.Account)
	}
	var answer bytes.Buffer
	to := *p
	to.stdout, to.colour = &answer, false
	if asJSON {
		err := to.json(wasteJSON(made))
		return answer.Bytes(), err
	}
	to.wasteText(made)
	return answer.Bytes(), nil
}

var yearText = regexp.MustCompile(`^[0-9]{4}$`)

// yearFlag is the year of --year, or this year.
func (p *program) yearFlag(c *cli.Context) (int, error) {
	this := p.today().Year()
	text := c.String("year")
	if text == "" && !c.IsSet("year") {
		return this, nil
	}
	year, err := strconv.Atoi(text)
	first, last := quantity.MinDate.Year(), quantity.MaxDate.Year()
	if err != nil || !yearText.MatchString(text) || year < first || year > last {
		return 0, usageError{fmt.Sprintf("--year %s: write a year from %d to %d, in four digits", text, first, last), fmt.Sprintf("--year %d", this)}
	}
	return year, nil
}

// wasteMachines are the machines that were named, or all of the yard: those with a
// machine file, and those that have none any more and are on record.
func (p *program) wasteMachines(y yard, named []string) ([]string, exitCode, error) {
	filed, err := y.files.MachineIDs()
	if err != nil {
		return nil, exitOK, err
	}
	recorded, err := y.ledger.Machines()
	if err != nil {
		return nil, exitOK, err
	}
	known := slices.Compact(slices.Sorted(slices.Values(append(filed, recorded...))))
	if len(named) == 0 {
		if len(known) == 0 {
			return nil, exitOK, usageError{"this yard folder has no machines", "write machines/ID.yaml, one a machine"}
		}
		return known, exitOK, nil
	}
	var ids []string
	code := exitOK
	for _, id := range slices.Compact(slices.Sorted(slices.Values(named))) {
		if !slices.Contains(known, id) {
			if _, err := y.files.Machine(id); err != nil { // it says which there are
				code = worse(code, codeOf(err))
				p.complain(err)
				continue
			}
		}
		ids = append(ids, id)
	}
	return ids, code, nil
}

// wasteOf reads and proves the records of many machines, several at a time; each
// answer stands at its machine's place. step is called after each.
func wasteOf(y yard, year int, ids []string, step func()) ([]waste.Account, []error) {
	accounts, faults := make([]waste.Account, len(ids)), make([]error, len(ids))
	chain := func(machine string) ([]record.Earlier, error) {
		stored, err := y.ledger.Chain(machine)
		own := slices.DeleteFunc(stored, func(s ledger.Stored) bool { return s.Before }) // another yard's waste is its own
		return ledger.Earlier(own), err
	}
	var next atomic.Int64
	var all sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(ids)) {
		all.Go(func() {
			for i := int(next.Add(1)) - 1; i < len(ids); i = int(next.Add(1)) - 1 {
				records, err := chain(ids[i])
				accounts[i], faults[i] = waste.Of(year, records), err
				step()
			}
		})
	}
	all.Wait()
	return accounts, faults
}

// tellBesideCSV says what a file of entries cannot.
func (p *program) tellBesideCSV(made yardWaste) {
	if n := len(made.Unaccounted); n > 0 {
		p.tell("not in it: %s drained, with no record of where it went; hourseal waste --year %d lists them", countOf(strconv.Itoa(n), "fluid"), made.Year)
	}
	if texts := formulaTexts(made.Account); len(texts) > 0 {
		p.tell("a spreadsheet may take these for formulas, so open their columns as text: %s", strings.Join(texts, "; "))
	}
}

func entriesText(n int) string {
	if n == 1 {
		return "1 entry"
	}
	return strconv.Itoa(n) + " entries"
}
