package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"github.com/urfave/cli/v2"

	"hourseal/record"
	"hourseal/record/check"
	"hourseal/record/ledger"
	"hourseal/render"
	"hourseal/render/plain"
	"hourseal/sign"
	"hourseal/sign/qrtext"
)

func (p *program) issueCommand() *cli.Command {
	return &cli.Command{
		Name: "issue", Usage: "check jobs, sign their records, store them and print the reports",
		ArgsUsage: "[JOB...]",
		Description: "All jobs are checked, signed and laid out before the first is stored. A job that is\n" +
			"stored already yields its record; running the command again after a crash stores\n" +
			"the rest. Notes travel in the QR code and cannot be taken back.\n\n" +
			"A record that was wrong stays, and a later one says so: --corrects with the whole job\n" +
			"sheet as it should have been, also where the job was another machine's; --voids, where\n" +
			"there was no such job; --adds-to for what came later. RECORD is machine/number, the\n" +
			"record file, its report or its id.\n" +
			"  hourseal issue JOB --corrects gannet-port/2 --why 'booked on the port engine'\n" +
			"  hourseal issue --voids gannet-port/2 --why 'no such job'\n" +
			"  hourseal issue --adds-to gannet-port/2 --why 'laboratory: no metal in the oil'\n\n" +
			"Files that the sheet names, and those of --attach, are kept beside the record, in\n" +
			"records/MACHINE/NUMBER: whoever is to compare them gets them with the report.\n\n" +
			"--after goes on with the chain of another yard, whose report is verified first, by\n" +
			"whom you trust: 3 altered, 4 signer not known, 5 key not valid, 6 another machine.\n" +
			"  hourseal issue JOB --after THEIR-LAST-REPORT.pdf",
		Flags: []cli.Flag{yardFlag, jsonFlag, passphraseFlag, noInputFlag,
			laterFlags[0].flag, laterFlags[1].flag, laterFlags[2].flag, whyFlag, attachFlag, afterFlag, trustFlag, keysFlag},
		Action: p.action(p.issue),
	}
}

// issued is a record with its report, new or stored before.
type issued struct {
	ledger.Stored
	report string // file
	pdf    []byte
	texts  []string
}

func (p *program) issue(c *cli.Context) (exitCode, error) {
	wanted, err := laterWanted(c)
	if err != nil {
		return exitUsage, err
	}
	if err := afterFits(c, wanted); err != nil {
		return exitUsage, err
	}
	y, sheets, code, err := p.sheetsToIssue(c, wanted)
	if err != nil || code != exitOK {
		return code, err
	}
	return p.issueSheets(c, y, sheets, wanted)
}

// issueSheets makes the records of sheets, all or none, and says which.
func (p *program) issueSheets(c *cli.Context, y yard, sheets []sheet, wanted *later) (exitCode, error) {
	p.standing("Nothing is signed or stored.")
	session, err := y.ledger.Begin(machines(sheets))
	if err != nil {
		return exitOK, err
	}
	code, records, err := p.issueIn(c, y, session, sheets, wanted)
	if err = errors.Join(err, session.Close()); err != nil {
		return code, err
	}
	for _, r := range records {
		if err := p.sayIssued(c, y, r); err != nil {
			return code, err
		}
	}
	return code, nil
}

// issueIn does the work under the session's locks: check all, seal and lay out
// all, store all, then write the reports, which can be made again at any time.
func (p *program) issueIn(c *cli.Context, y yard, session *ledger.Session, sheets []sheet, wanted *later) (exitCode, []issued, error) {
	b, err := p.newBench(y, sheets)
	if err != nil {
		return exitOK, nil, err
	}
	b.later = wanted
	if code, err := p.takeOver(c, session, sheets[0]); err != nil || code != exitOK {
		return code, nil, err
	}
	stored := chainOf(y.ledger)
	b.chain = func(machine string) ([]record.Earlier, error) {
		chain := ledger.Earlier(session.Chain(machine))
		if len(chain) == 0 { // of a twin that has no job in this run
			var err error
			if chain, err = stored(machine); err != nil {
				return nil, err
			}
		}
		return append(chain, b.pending[machine]...), nil
	}
	code, err := p.checkAll(b, c.Bool(jsonFlag.Name))
	if err != nil || code != exitOK {
		return code, nil, err
	}
	signer, done, err := p.signingKey(c, y, b.yard.SigningKey)
	if err != nil {
		return exitOK, nil, err
	}
	defer done()
	clear(b.pending) // checked once more, now that each sealed record can be cited by the next
	var records []issued
	for i, s := range sheets {
		p.showProgress(i, len(sheets))
		r, err := b.seal(s, session, signer)
		if err != nil {
			return exitOK, nil, fmt.Errorf("%s: %w", s.file, err)
		}
		if err := keepFiles(session, s, r.Stored); err != nil {
			return exitOK, nil, fmt.Errorf("%s: nothing was stored: %w", s.file, err)
		}
		records = append(records, r)
	}
	p.showProgress(len(sheets), len(sheets))
	if err := undisturbed(func() error {
		err := session.Commit()
		if err == nil {
			p.standing("The records are stored; their reports are not all printed: hourseal report " + recordNames(records) + " prints them.")
		}
		return err
	}); err != nil {
		return exitOK, nil, err
	}
	err = writeReports(p, records)
	if err == nil {
		p.standing("The records are stored, and their reports printed.")
	}
	return exitOK, records, err
}

// checkAll checks every sheet before anything is sealed, and says what stands in
// the way, as "hourseal check" says it.
func (p *program) checkAll(b *bench, asJSON bool) (exitCode, error) {
	code := exitOK
	for _, s := range b.sheets {
		result, err := b.check(s)
		if err != nil {
			return code, err
		}
		if stored, is := storedAlready(b, s, result); is {
			b.made = append(b.made, stored.ID)
			if err := b.sayTaken(s, stored); err != nil {
				return code, err
			}
			continue
		}
		if err := b.stillCounts(s); err != nil {
			return code, err
		}
		if err := b.otherFiles(s, result); err != nil {
			return exitUsage, err
		}
		switch {
		case result.Outcome == check.Issuable:
		case asJSON:
			err = p.json(checkJSON(s, result))
		default:
			p.sayCheck(b.yard.Style, s, result)
		}
		if err != nil {
			return code, err
		}
		code = worse(code, outcomeCodes[result.Outcome])
		b.remember(s, result)
	}
	return code, nil
}

// seal makes the record and its report, or takes those that are stored.
func (b *bench) seal(s sheet, session *ledger.Session, signer sign.Signer) (issued, error) {
	result, err := b.check(s)
	if err != nil {
		return issued{}, err
	}
	for _, stored := range session.Chain(s.machine.ID) {
		if s.same(stored.Record, result.Draft) {
			return b.y.printed(stored)
		}
	}
	if result.Passed == nil {
		return issued{}, errors.New("the job changed while it was being issued: run the command again")
	}
	stored, err := session.Append(result.Passed, signer)
	if err != nil {
		return issued{}, err
	}
	return b.y.printed(stored)
}

// printed lays the report of a record out.
func (y yard) printed(stored ledger.Stored) (issued, error) {
	texts, err := qrtext.Encode(stored.Envelope, stored.Record.PageHost)
	if err != nil {
		return issued{}, err
	}
	keys, err := y.statementsFor(stored.Signer)
	if err != nil {
		return issued{}, err
	}
	pdf, err := render.Report(stored.Record, stored.Envelope, texts, keys)
	if err != nil {
		return issued{}, err
	}
	name := fmt.Sprintf("%s-%04d.pdf", stored.Record.Machine.ID, stored.Record.Number)
	return issued{Stored: stored, report: y.path("reports", name), pdf: pdf, texts: texts}, nil
}

func writeReports(p *program, records []issued) error {
	for _, r := range records {
		if err := os.MkdirAll(filepath.Dir(r.report), 0o755); err != nil {
			return fmt.Errorf("the records are stored, their reports are not printed: %w", err)
		}
		if err := p.writeOutput(r.report, r.pdf); err != nil {
			return fmt.Errorf("the records are stored, their reports are not all printed: %w: make room, then hourseal report %s", err, r.File)
		}
	}
	return nil
}

// issuedAnswer is the JSON of "hourseal issue".
type issuedAnswer struct {
	Record  string   `json:"record"`
	Machine string   `json:"machine"`
	Number  uint32   `json:"number"`
	File    string   `json:"file"`
	Report  string   `json:"report"`
	Kind    string   `json:"kind"`
	Subject string   `json:"subject,omitempty"` // id of the record that it is about
	QR      []string `json:"qr"`
	Files   []string `json:"files,omitempty"` // kept beside the record
}

func (p *program) sayIssued(c *cli.Context, y yard, r issued) error {
	if c.Bool(jsonFlag.Name) {
		answer := issuedAnswer{Record: sign.ID(r.ID).Hex(), Machine: r.Record.Machine.ID, Number: r.Record.Number,
			File: r.File, Report: r.report, Kind: r.Record.Kind.String(), QR: r.texts, Files: keptFiles(r.Stored)}
		if r.Record.Subject != nil {
			answer.Subject = sign.ID(r.Record.Subject.Record).Hex()
		}
		return p.json(answer)
	}
	p.say("%s, record %d: %s", r.Record.Machine.ID, r.Record.Number, sign.ID(r.ID))
	if s := r.Record.Subject; s != nil {
		p.say("  %s", plain.About(r.Record.Kind, sign.ID(s.Record)))
	}
	p.say("  record  %s", r.File)
	p.say("  report  %s", r.report)
	for _, file := range keptFiles(r.Stored) {
		p.say("  file    %s", file)
	}
	return nil
}
