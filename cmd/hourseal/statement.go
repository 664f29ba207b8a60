package main

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"hourseal/record"
	"hourseal/record/ledger"
	"hourseal/record/list"
	"hourseal/render/statement"
	"hourseal/sign"
	"hourseal/verify/history"
)

// writeStatement writes the history of one machine as a PDF.
func (p *program) writeStatement(c *cli.Context, h history.History, file string) error {
	m, err := oneMachine(h)
	if err != nil {
		return err
	}
	paper, err := paperNamed(c.String(paperFlag.Name))
	if err != nil {
		return err
	}
	settings := statement.Settings{Paper: paper, MadeOn: p.today(), AsTheyStand: h.AsTheyStand, Aside: h.Aside}
	if c.Bool("sign") {
		settings.SignedList = new(filepath.Base(listFile(file)))
	}
	data, err := statement.Statement(m, settings)
	if err != nil {
		return err
	}
	if err := p.writeOutput(file, data); err != nil {
		return err
	}
	if file != "-" {
		p.tell("%s: statement of %s", file, m.Title())
	}
	return nil
}

func paperNamed(text string) (record.Paper, error) {
	for i, word := range record.PaperWords {
		if strings.EqualFold(word, text) {
			return record.Paper(i + 1), nil
		}
	}
	return 0, usageError{fmt.Sprintf("--paper: %s is none that we print on", text), "--paper A4, or --paper Letter"}
}

// listFile is where the signed list goes, beside the statement.
func listFile(statement string) string {
	return strings.TrimSuffix(statement, filepath.Ext(statement)) + "-list.cose"
}

// signList signs, as the yard, that the ledger's records of a machine are all that it
// holds. It is made from the ledger, not from the files that were given: those say
// only which machine is asked about.
func (p *program) signList(c *cli.Context, h history.History) error {
	asked := strings.TrimSpace(c.String("for"))
	switch {
	case asked == "":
		return usageError{"--sign needs --for: who asked for the list, and their reference", `--for "Fairlead Mutual, claim 4471"`}
	case c.String("output") == "" || c.String("output") == "-":
		return usageError{"--sign needs a file to write the list beside", "-o gannet-port.pdf"}
	}
	m, err := oneMachine(h)
	if err != nil {
		return err
	}
	y, err := p.openYard(c)
	if err != nil {
		return err
	}
	made, err := p.listOf(y, m, asked)
	if err != nil {
		return err
	}
	payload, err := list.Encode(made)
	if err != nil {
		return usageError{err.Error(), ""}
	}
	self, err := y.files.Yard()
	if err != nil {
		return err
	}
	signer, done, err := p.signingKey(c, y, self.SigningKey)
	if err != nil {
		return err
	}
	defer done()
	envelope, err := sign.Seal(sign.ListV1, payload, signer)
	if err != nil {
		return err
	}
	file := listFile(c.String("output"))
	if err := p.writeOutput(file, envelope); err != nil {
		return err
	}
	p.tell("%s: signed list of all %d records that %s holds of %s until %s; send it with the reports", file, made.Count, self.Name, m.Title(), made.Until)
	return nil
}

// listOf is the list of all records of a machine in the yard's ledger, under whatever
// machine id they are kept.
func (p *program) listOf(y yard, m *history.Machine, asked string) (*list.List, error) {
	self, err := y.files.Yard()
	if err != nil {
		return nil, err
	}
	ids, err := y.ledger.Machines()
	if err != nil {
		return nil, err
	}
	made := &list.List{
		Format: list.Format, Machine: list.Machine{Make: m.Make, Model: m.Model, Serial: m.Serial, Vessel: m.Vessel, Hull: m.Hull},
		Issuer: record.Issuer{Name: self.Name, Kind: self.Kind, Contact: self.Contact, Address: self.Address},
		Until:  p.today(), For: asked, IssuedAt: p.now().Unix(),
	}
	for _, id := range ids {
		chain, err := y.ledger.Chain(id)
		if err != nil {
			return nil, err
		}
		own := slices.DeleteFunc(chain, func(s ledger.Stored) bool { return !m.Is(s.Record.Machine) })
		if len(own) == 0 {
			continue
		}
		last := own[len(own)-1]
		if date := last.Record.Job.Date; date > made.Until {
			return nil, usageError{fmt.Sprintf("record %d is of %s, and today is %s: a list to this date would not be true", last.Record.Number, date, made.Until), "set the clock"}
		}
		plate := last.Record.Machine // as the yard has it, whoever wrote what was given
		made.Machine = list.Machine{Make: plate.Make, Model: plate.Model, Serial: plate.Serial, Vessel: plate.Vessel, Hull: plate.Hull}
		made.Count += uint32(len(own))
		made.Ends = append(made.Ends, list.End{Number: last.Record.Number, ID: last.ID})
	}
	return made, nil
}
