package main

import (
	"fmt"

	"github.com/urfave/cli/v2"

	"hourseal/record"
	"hourseal/record/list"
	"hourseal/render/plain"
	"hourseal/sign"
	"hourseal/verify"
)

func (p *program) showCommand() *cli.Command {
	return &cli.Command{
		Name: "show", Usage: "print the record in a file, whoever signed it",
		ArgsUsage: "FILE...",
		Description: "Prints nothing of a record that was altered. It does not say whether you know the\n" +
			"signer, nor whether a PDF's page is the record's: that is what verify is for.\n" +
			"Several files are the photographs or texts of one record's codes.",
		Flags:  []cli.Flag{jsonFlag},
		Action: p.action(p.show),
	}
}

// showAnswer is the JSON of "hourseal show": the record as signed, with its id
// and its signer. The findings carry their words.
type showAnswer struct {
	ID     string `json:"id"`
	Signer string `json:"signer"`
	*record.Record
	Findings []findingJSON `json:"findings"`
}

func (p *program) show(c *cli.Context) (exitCode, error) {
	if err := wantArgs(c, 1, -1, "file"); err != nil {
		return exitUsage, err
	}
	files := c.Args().Slice()
	answers := inTurn(p.verifyAll(files, verifiable(files), verify.Reader{}))
	if len(answers) != 1 {
		return exitUsage, usageError{fmt.Sprintf("show: these are %d records, and one is shown at a time", len(answers)),
			"hourseal show " + answers[0].input}
	}
	a := answers[0]
	if a.err != nil {
		return exitOK, a.err
	}
	result := a.result
	if result.List != nil {
		return exitOK, p.showList(c, a)
	}
	if result.Signed == nil || result.Verdict.HidesContent() {
		if c.Bool(jsonFlag.Name) {
			return exitCode(result.Verdict.ExitCode()), p.json(verifyJSON(a))
		}
		p.sayVerdict(a, false)
		return exitCode(result.Verdict.ExitCode()), nil
	}
	if c.Bool(jsonFlag.Name) {
		out := showAnswer{ID: sign.ID(*result.Record).Hex(), Signer: result.Signer.Key.Fingerprint(), Record: result.Signed, Findings: []findingJSON{}}
		for _, f := range result.Signed.Findings {
			out.Findings = append(out.Findings, findingOf(f))
		}
		return exitOK, p.json(out)
	}
	p.say("Record %s", sign.ID(*result.Record))
	p.say("Signed with key %s", result.Signer.Key.Fingerprint())
	p.paragraph("", "Whether you know that key: hourseal verify "+a.input)
	p.say("")
	p.blocks("", plain.Record(result.Signed))
	return exitOK, nil
}

// showAnswerOfList is the JSON of "hourseal show" for a signed list: as signed, with
// its id and its signer.
type showAnswerOfList struct {
	ID     string `json:"id"`
	Signer string `json:"signer"`
	*list.List
}

func (p *program) showList(c *cli.Context, a answer) error {
	id, signer := sign.ID(*a.result.Record), a.result.Signer.Key.Fingerprint()
	if c.Bool(jsonFlag.Name) {
		l := *a.result.List
		l.Ends = append([]list.End{}, l.Ends...) // never null
		return p.json(showAnswerOfList{id.Hex(), signer, &l})
	}
	p.say("List %s", id)
	p.say("Signed with key %s", signer)
	p.paragraph("", "Whether you know that key: hourseal verify "+a.input)
	p.say("")
	p.blocks("", plain.List(a.result.List))
	return nil
}

// written is when the record was issued, as the issuer's clock had it.
func written(r *record.Record) string { return plain.Written(r.IssuedAt) }
