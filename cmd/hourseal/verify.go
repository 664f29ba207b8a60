package main

import (
	"fmt"
	"iter"
	"slices"

	"github.com/urfave/cli/v2"

	"hourseal/record/quantity"
	"hourseal/render"
	"hourseal/render/plain"
	"hourseal/verify"
)

var (
	trustFlag  = &cli.StringFlag{Name: "trust", Usage: "take whom you trust from `FILE` instead of your own list"}
	serialFlag = &cli.StringFlag{Name: "serial", Usage: "the serial number as on the engine's plate, `TEXT`"}
	keysFlag   = &cli.StringSliceFlag{Name: "keys", Usage: "follow the key statements in `FILE`, too, as a yard sends them (keys.cose); may be given again"}
	hoursFlag  = &cli.StringFlag{Name: "hours", Usage: "what the hour meter reads now, `N`"}
)

func (p *program) verifyCommand() *cli.Command {
	return &cli.Command{
		Name: "verify", Usage: "say who signed a report, whether it is unaltered, and what it does not prove",
		ArgsUsage: "FILE...",
		Description: "Takes the PDF, a photograph of the code or the page (JPEG or PNG), a scan in a PDF, the\n" +
			"record file, a signed list or the text of the QR code (in a file, as it is, or - for\n" +
			"standard input), and folders of them. A report in two codes may be in two pictures. Files\n" +
			"that the record names are compared where they are at hand: beside it, in a folder of its\n" +
			"name, or with --files. Ends\n" +
			"with 0 when it is unaltered and you know the signer, 4 when you do not, 3 when it is\n" +
			"altered, 5 when the signer's key was not valid for its date, 6 when it is not what you\n" +
			"asked about or its page could not be compared, 2 when it cannot be read.",
		Flags: []cli.Flag{trustFlag, keysFlag, serialFlag, hoursFlag, filesFlag, jsonFlag,
			&cli.BoolFlag{Name: "content", Usage: "show what the record says even when the verdict is bad"},
			&cli.BoolFlag{Name: "full", Usage: "give all answers for each of many inputs"}},
		Action: p.action(p.verify),
	}
}

// fewAnswers is how many are given in full without being asked for.
const fewAnswers = 2

// fewInputs is up to how many are all looked at before anything is said: several may be
// pictures of one report.
const fewInputs = 12

func (p *program) verify(c *cli.Context) (exitCode, error) {
	if err := wantArgs(c, 1, -1, "file"); err != nil {
		return exitUsage, err
	}
	go render.Warm() // while the inputs are looked for and read
	reader, err := p.reader(c)
	if err != nil {
		return exitOK, err
	}
	files, err := p.filesGiven(c)
	if err != nil {
		return exitUsage, err
	}
	inputs, kept := p.keptStatements(c.Args().Slice(), verifiable(c.Args().Slice()))
	reader.Statements = append(reader.Statements, kept...)
	answers, many := p.verifyAll(c.Args().Slice(), inputs, reader), len(inputs) > fewAnswers
	if many && len(inputs) <= fewInputs {
		all := inTurn(answers)
		answers, many = slices.All(all), len(all) > fewAnswers
	}
	brief := many && !c.Bool("full") && !c.Bool(jsonFlag.Name)
	code, given, tally := exitOK, 0, map[verify.Verdict]int{}
	for i, answer := range answers {
		given++
		answer = files.withFiles(answer)
		p.showProgress(i, len(inputs))
		code = worse(code, exitCode(answer.result.Verdict.ExitCode()))
		tally[answer.result.Verdict]++
		if answer.err != nil {
			code = worse(code, codeOf(answer.err))
			p.complain(answer.err)
			if !c.Bool(jsonFlag.Name) {
				continue
			}
		}
		switch {
		case c.Bool(jsonFlag.Name):
			if err := p.json(verifyJSON(answer)); err != nil {
				return code, err
			}
		case brief:
			words := answer.result.Sentence()
			if answer.result.Verdict == verify.Unreadable {
				words += " " + answer.result.Reason()
			}
			p.paragraph("", fmt.Sprintf("%s: %s", shortName(answer.input), words))
		default:
			p.sayVerdict(answer, c.Bool("content"))
		}
	}
	p.showProgress(len(inputs), len(inputs))
	p.tellUnused(files)
	if brief {
		p.sayTally(tally, given)
	}
	return code, nil
}

// inTurn waits for all answers.
func inTurn(answers iter.Seq2[int, answer]) []answer {
	var all []answer
	for _, a := range answers {
		all = append(all, a)
	}
	return all
}

func (p *program) reader(c *cli.Context) (verify.Reader, error) {
	trust, _, err := p.trustList(c)
	if err != nil {
		return verify.Reader{}, err
	}
	reader := verify.Reader{Trust: trust, Serial: c.String(serialFlag.Name), On: new(p.today())}
	if reader.Hours, err = readingFlag(c); err != nil {
		return verify.Reader{}, err
	}
	if reader.Statements, err = p.keyStatements(c); err != nil {
		return verify.Reader{}, err
	}
	return reader, nil
}

// readingFlag reads --hours; nil where it is left out.
func readingFlag(c *cli.Context) (*quantity.Hours, error) {
	text := c.String(hoursFlag.Name)
	if text == "" {
		return nil, nil
	}
	hours, err := quantity.ParseHours(text)
	if err != nil {
		return nil, usageError{"--hours: " + err.Error(), "--hours 812.6"}
	}
	return &hours, nil
}

// sayVerdict prints all answers about one input, the sentence first.
func (p *program) sayVerdict(a answer, content bool) {
	p.tintedParagraph("", verdictStyle(a.result.Verdict), a.result.Sentence())
	if !isQRText(a.input) {
		p.say("(%s)", a.input)
	}
	for _, section := range a.result.Sections(verify.Terminal) {
		p.say("")
		p.say("%s", section.Heading)
		for _, line := range section.Lines {
			p.paragraph("  ", line)
		}
	}
	verdict := a.result.Verdict
	if verdict.ShowsContent() || content && !verdict.HidesContent() {
		p.say("")
		p.say("%s", a.result.ContentHeading())
		if a.result.List != nil {
			p.blocks("  ", plain.List(a.result.List))
		} else {
			p.blocks("  ", plain.Record(a.result.Signed))
		}
	}
	p.say("")
}

func (p *program) sayTally(tally map[verify.Verdict]int, inputs int) {
	p.say("")
	p.say("%d inputs:", inputs)
	for _, verdict := range verify.Verdicts() {
		if n := tally[verdict]; n > 0 {
			p.say("  %6d  %s", n, verdict)
		}
	}
	p.say("All answers about one: hourseal verify FILE")
}
