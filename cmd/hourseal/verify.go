package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"

	"github.com/urfave/cli/v2"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/render"
	"hourseal/sign"
	"hourseal/sign/qrtext"
	"hourseal/verify"
)

var (
	trustFlag  = &cli.StringFlag{Name: "trust", Usage: "take whom you trust from `FILE` instead of your own list"}
	serialFlag = &cli.StringFlag{Name: "serial", Usage: "the serial number as on the engine's plate, `TEXT`"}
	hoursFlag  = &cli.StringFlag{Name: "hours", Usage: "what the hour meter reads now, `N`"}
)

func (p *program) verifyCommand() *cli.Command {
	return &cli.Command{
		Name: "verify", Usage: "say who signed a report, whether it is unaltered, and what it does not prove",
		ArgsUsage: "FILE...",
		Description: "Takes the PDF, the record file or the text of the QR code (in a file, as it is, or - for\n" +
			"standard input), and folders of them. Ends with 0 when a report is unaltered and you\n" +
			"know the signer, 4 when you do not, 3 when it is altered, 5 when the signer's key was\n" +
			"not valid for its date, 6 when it is not what you asked about, 2 when it cannot be read.",
		Flags: []cli.Flag{trustFlag, serialFlag, hoursFlag, jsonFlag,
			&cli.BoolFlag{Name: "content", Usage: "show what the record says even when the verdict is bad"},
			&cli.BoolFlag{Name: "full", Usage: "give all answers for each of many inputs"}},
		Action: p.action(p.verify),
	}
}

// fewInputs is how many inputs get all answers without being asked for.
const fewInputs = 2

func (p *program) verify(c *cli.Context) (exitCode, error) {
	if err := wantArgs(c, 1, -1, "file"); err != nil {
		return exitUsage, err
	}
	reader, err := p.reader(c)
	if err != nil {
		return exitOK, err
	}
	inputs := verifiable(c.Args().Slice())
	brief := len(inputs) > fewInputs && !c.Bool("full")
	code, tally := exitOK, map[verify.Verdict]int{}
	for i, answer := range p.verifyAll(inputs, reader) {
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
			p.paragraph("", fmt.Sprintf("%s: %s", shortName(answer.input), answer.result.Sentence()))
		default:
			p.sayVerdict(answer, c.Bool("content"))
		}
	}
	p.showProgress(len(inputs), len(inputs))
	if brief && !c.Bool(jsonFlag.Name) {
		p.sayTally(tally, len(inputs))
	}
	return code, nil
}

func (p *program) reader(c *cli.Context) (verify.Reader, error) {
	trust, _, err := p.trustList(c)
	if err != nil {
		return verify.Reader{}, err
	}
	reader := verify.Reader{Trust: trust, Serial: c.String(serialFlag.Name)}
	if text := c.String(hoursFlag.Name); text != "" {
		hours, err := quantity.ParseHours(text)
		if err != nil {
			return verify.Reader{}, usageError{"--hours: " + err.Error(), "--hours 812.6"}
		}
		reader.Hours = &hours
	}
	return reader, nil
}

// answer is the result for one input.
type answer struct {
	input  string
	result verify.Result
	err    error // the input could not be had at all
}

// verifyAll answers for the inputs in their order, several at a time.
func (p *program) verifyAll(inputs []string, reader verify.Reader) func(yield func(int, answer) bool) {
	return func(yield func(int, answer) bool) {
		workers := min(runtime.GOMAXPROCS(0), len(inputs))
		slots := make([]chan answer, len(inputs))
		todo, stop := make(chan int), make(chan struct{})
		defer close(stop)
		for i := range slots {
			slots[i] = make(chan answer, 1)
		}
		for range workers {
			go func() {
				for i := range todo {
					slots[i] <- p.verifyOne(inputs[i], reader)
				}
			}()
		}
		go func() {
			defer close(todo)
			for i := range inputs {
				select {
				case todo <- i:
				case <-stop:
					return
				}
			}
		}()
		for i := range inputs {
			if !yield(i, <-slots[i]) {
				return
			}
		}
	}
}

func (p *program) verifyOne(input string, reader verify.Reader) answer {
	var data []byte
	var err error
	if isQRText(input) {
		data = []byte(input)
	} else if data, err = p.readInput(input); err != nil {
		err = missing(input, err)
		if _, folder := os.ReadDir(input); folder == nil {
			err = usageError{"no reports (.pdf) or records (.cose) in " + input, "name a file, or a folder that holds some"}
		}
		return answer{input: input, result: verify.Result{Verdict: verify.Unreadable, Err: err}, err: err}
	}
	return answer{input: input, result: verify.Run(data, reader, renderPage)}
}

// isQRText says whether an argument is the text of a code itself.
func isQRText(input string) bool {
	lower := strings.ToLower(input[:min(len(input), 9)])
	return strings.HasPrefix(lower, "https://") || strings.HasPrefix(lower, "hourseal:")
}

// shortName is an input's name in a list: a code's text is a thousand digits.
func shortName(input string) string {
	const kept = 60 // characters: the address and what tells two texts apart
	if isQRText(input) && len(input) > kept {
		return input[:kept] + "..."
	}
	return input
}

// renderPage makes a report again, for the comparison.
func renderPage(r *record.Record, envelope []byte, texts []string, keys []byte) ([]byte, error) {
	page, err := render.Report(r, envelope, texts, keys)
	if err != nil {
		return nil, fmt.Errorf("%w: %w", verify.ErrNotRendered, err)
	}
	return page, nil
}

// verifiable lists the inputs; folders stand for the reports and records in
// them, whatever their depth, and the parts of one record's text for one input.
// What cannot be read stays in the list, to be answered in its turn.
func verifiable(names []string) []string {
	var inputs []string
	parts := map[string]int{} // the place of a record's first part in inputs
	for _, name := range names {
		if part, err := qrtext.Parse(name); err == nil && part.Count > 1 {
			key := fmt.Sprintln(part.Record, part.Count)
			if first, known := parts[key]; known {
				inputs[first] += "\n" + name
				continue
			}
			parts[key] = len(inputs)
		} else if info, err := os.Stat(name); err == nil && info.IsDir() {
			if found := filesIn(name); len(found) > 0 {
				inputs = append(inputs, found...)
				continue
			}
		}
		inputs = append(inputs, name)
	}
	return inputs
}

// filesIn lists the reports and records in a folder; a folder in it that cannot
// be read is listed too.
func filesIn(folder string) []string {
	var found []string
	_ = filepath.WalkDir(folder, func(path string, e fs.DirEntry, err error) error { // its errors are all in the list
		if err != nil {
			found = append(found, path)
			return nil
		}
		switch strings.ToLower(filepath.Ext(path)) {
		case ".pdf", ".cose":
			if !e.IsDir() {
				found = append(found, path)
			}
		}
		return nil
	})
	return found
}

// missing says plainly that a file is not there.
func missing(name string, err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return usageError{"no file or folder named " + name, ""}
	}
	return err
}

// sayVerdict prints all answers about one input, the sentence first.
func (p *program) sayVerdict(a answer, content bool) {
	p.paragraph("", a.result.Sentence())
	if !isQRText(a.input) {
		p.say("(%s)", a.input)
	}
	for _, section := range a.result.Sections() {
		p.say("")
		p.say("%s", section.Heading)
		for _, line := range section.Lines {
			p.paragraph("  ", line)
		}
	}
	verdict := a.result.Verdict
	if verdict.ShowsContent() || content && !verdict.HidesContent() {
		p.say("")
		p.say("What the record says")
		p.sayRecord("  ", a.result.Signed)
	}
	p.say("")
}

func (p *program) sayTally(tally map[verify.Verdict]int, inputs int) {
	p.say("")
	p.say("%d inputs:", inputs)
	for _, verdict := range []verify.Verdict{verify.Altered, verify.Unreadable, verify.KeyNotValid, verify.UnknownSigner, verify.NotOriginal, verify.OtherMachine, verify.Genuine} {
		if n := tally[verdict]; n > 0 {
			p.say("  %6d  %s", n, verdict)
		}
	}
	p.say("All answers about one: hourseal verify FILE")
}

// progressEvery is how many inputs pass between two progress lines.
const progressEvery = 50

// showProgress keeps a line on the terminal while there are many inputs.
func (p *program) showProgress(done, all int) {
	if !p.progress || all < 2*progressEvery {
		return
	}
	switch {
	case done == all:
		fmt.Fprint(p.stderr, "\r\x1b[K")
	case done%progressEvery == 0:
		fmt.Fprintf(p.stderr, "\r%d of %d", done, all)
	}
}

// The JSON of "hourseal verify".
type verifyAnswer struct {
	Input       string          `json:"input"`
	Verdict     verify.Verdict  `json:"verdict"`
	Sentence    string          `json:"sentence"`
	Record      *string         `json:"record"`
	Source      *string         `json:"source"`
	Signer      *signerJSON     `json:"signer"`
	Page        *string         `json:"page"`
	Machine     *machineJSON    `json:"machine"`
	Date        *quantity.Date  `json:"date"`
	Hours       *quantity.Hours `json:"hours"`
	Written     *string         `json:"written"`
	NoLaterThan *quantity.Date  `json:"no_later_than"`
	Findings    []findingJSON   `json:"findings"`
}

type signerJSON struct {
	Name         *string `json:"name"`
	Fingerprint  string  `json:"fingerprint"`
	Known        bool    `json:"known"`
	ValidForDate bool    `json:"valid_for_date"`
	Kind         *string `json:"kind"`
}

type machineJSON struct {
	Make   string  `json:"make"`
	Model  string  `json:"model"`
	Serial string  `json:"serial"`
	Vessel *string `json:"vessel"`
	Hull   *string `json:"hull"`
}

// verifyJSON gives nothing of the record where the verdict hides its content.
func verifyJSON(a answer) verifyAnswer {
	result := a.result
	out := verifyAnswer{
		Input: a.input, Verdict: result.Verdict, Sentence: result.Sentence(),
		Source: orNull(string(result.Source)), Findings: []findingJSON{},
	}
	if result.Verdict.HidesContent() {
		return out
	}
	id := sign.ID(*result.Record).Hex()
	out.Record = &id
	if result.Page != nil {
		out.Page = orNull(string(result.Page.Result))
	}
	r, s := result.Signed, result.Signer
	out.Signer = &signerJSON{orNull(s.Trusted.Name), s.Key.Fingerprint(), s.Known, s.ValidForDate(), orNull(r.Issuer.Kind.String())}
	m := r.Machine
	out.Machine = &machineJSON{m.Make, m.Model, m.Serial, orNull(m.Vessel), orNull(m.Hull)}
	out.Date, out.Hours, out.Written = &r.Job.Date, &r.Job.Hours, orNull(written(r))
	for _, f := range r.Findings {
		out.Findings = append(out.Findings, findingOf(f))
	}
	return out
}
