package main

import (
	"errors"
	"fmt"
	"os"
	"strings"

	"github.com/urfave/cli/v2"

	"hourseal/record"
	"hourseal/record/check"
	"hourseal/record/closeout"
	"hourseal/record/dialogue"
	"hourseal/record/jobsheet"
	"hourseal/record/plan"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
	pagesheet "hourseal/render/sheet"
	"hourseal/render/words"
)

// sitting is one session at the questions: the machines of a visit, one after
// another, and the signing of all.
type sitting struct {
	p       *program
	c       *cli.Context
	y       yard
	typist  *typist
	bench   *bench
	planner *planner
	closing []*closing
	at      int // the one that is asked about
}

// closing is the job of one machine.
type closing struct {
	base     sheet // its machine, schedule and driver
	file     string
	written  []byte // what this session last wrote there; nil before
	visit    closeout.Visit
	dialogue *dialogue.Dialogue
	sheet    closeout.Sheet
	files    []string // that were attached
	resumed  bool
}

func (cl *closing) id() string { return cl.base.machine.ID }

// current is the job that the sheet is of, with what was attached to it.
func (cl *closing) current() sheet {
	s := cl.base
	s.file, s.job = cl.file, cl.sheet.Job
	return s
}

func (p *program) closeoutAsking(c *cli.Context) (exitCode, error) {
	if !p.mayAsk(c) {
		return exitUsage, usageError{"closeout asks questions, and standard input is no terminal that could answer",
			"hourseal closeout --from FILE, or the values as options; with --ask the answers are read from standard input, one a line"}
	}
	for _, flag := range []string{tryFlag.Name, jobsheetFlag.Name, jsonFlag.Name} {
		if c.IsSet(flag) {
			return exitUsage, usageError{"--" + flag + " is for values in options and --from", "leave it out to be asked"}
		}
	}
	y, err := p.openYard(c)
	if err != nil {
		return exitOK, err
	}
	s := &sitting{p: p, c: c, y: y, typist: p.newTypist(), planner: &planner{y: y, schedules: map[string]schedule.Schedule{}}}
	if err := s.freshBench(); err != nil {
		return exitOK, err
	}
	if key := y.path(s.bench.yard.SigningKey); !fileIsThere(key) { // rather now than after thirty questions
		return exitUsage, usageError{"no signing key at " + key, "hourseal key new, or correct signing_key in " + yardFile}
	}
	code, err := s.run(c.Args().First())
	switch {
	case errors.Is(err, errByHand):
		return exitDecide, nil
	case errors.Is(err, errEnded):
		p.words("The input ended. " + s.stands())
		return exitUsage, nil
	case err != nil:
		p.complain(err)
		p.words(s.stands())
		return codeOf(err), nil
	}
	return code, nil
}

func fileIsThere(name string) bool {
	_, err := os.Stat(name)
	return err == nil
}

// freshBench reads the yard's files and records as they are now. A machine file that
// cannot be read is told here: nothing could be checked beside it.
func (s *sitting) freshBench() error {
	b, err := s.p.newBench(s.y, nil)
	if err != nil {
		return err
	}
	if _, err := b.fleet(); err != nil {
		return err
	}
	b.chain = remembering(b.chain)
	s.bench = b
	return nil
}

// remembering reads each chain once.
func remembering(chain func(string) ([]record.Earlier, error)) func(string) ([]record.Earlier, error) {
	known := map[string][]record.Earlier{}
	return func(machine string) ([]record.Earlier, error) {
		if list, is := known[machine]; is {
			return list, nil
		}
		list, err := chain(machine)
		if err == nil {
			known[machine] = list
		}
		return list, err
	}
}

// stands says what there is so far.
func (s *sitting) stands() string {
	var files []string
	for _, cl := range s.closing {
		if fileIsThere(cl.file) {
			files = append(files, cl.file)
		}
	}
	if len(files) == 0 {
		return "Nothing was signed."
	}
	again := "hourseal closeout " + s.closing[0].id()
	if dir := s.c.String(yardFlag.Name); dir != "" {
		again += " --yard " + dir
	}
	return fmt.Sprintf("Nothing was signed. The answers so far are kept in %s: %s goes on with them.", strings.Join(files, " and "), again)
}

// run asks for the machine's job, for those of its like on the vessel, and for the
// word to sign.
func (s *sitting) run(id string) (exitCode, error) {
	if id == "" {
		var err error
		if id, err = s.chooseMachine(); err != nil {
			return exitOK, err
		}
	}
	if done, err := s.open(id, closeout.Visit{}); err != nil || done {
		return exitOK, err
	}
	for {
		cl := s.closing[s.at]
		switch err := s.typist.converseOn(cl.dialogue, func() error { return s.keep(cl) }); {
		case errors.Is(err, errFirst) && s.at > 0: // back into the machine before
			s.at--
			s.closing[s.at].dialogue.Back()
			continue
		case errors.Is(err, errFirst):
			s.p.words("  This is the first question.")
			continue
		case err != nil:
			return exitOK, err
		}
		if s.at+1 < len(s.closing) {
			s.at++
			continue
		}
		if s.askAgain() {
			continue
		}
		code, done, err := s.end()
		if err != nil || done {
			return code, err
		}
	}
}

// askAgain works all jobs out anew, each beside the others, and goes back to the first
// of which something is asked now.
func (s *sitting) askAgain() bool {
	for i, cl := range s.closing {
		cl.dialogue.Refresh()
		if _, waits := cl.dialogue.Next(); waits {
			s.at = i
			s.p.words("")
			said := ": this is asked now."
			if len(s.closing) > 1 {
				said = ": beside the other, this is to be answered."
			}
			s.p.words(cl.id() + said)
			return true
		}
	}
	return false
}

// end offers to sign; false where it goes on.
func (s *sitting) end() (exitCode, bool, error) {
	twin, err := s.twin()
	if err != nil {
		return exitOK, true, err
	}
	answer, err := s.offerToSign(twin)
	switch {
	case err != nil:
		return exitOK, true, err
	case answer == back:
		s.closing[s.at].dialogue.Back()
		return exitOK, false, nil
	case answer == takeTwin:
		signed, err := s.open(twin, s.closing[s.at].sheet.Visit())
		if err == nil && !signed {
			s.at = len(s.closing) - 1
		}
		return exitOK, err != nil, err
	case answer != "y":
		s.p.words(s.stands())
		return exitDecide, true, nil
	}
	same, err := s.stillSo()
	if err != nil || !same {
		return exitOK, err != nil, err
	}
	code, err := s.finish()
	return code, true, err
}

// open begins a machine's job or goes on with it; true where it is signed already.
func (s *sitting) open(id string, visit closeout.Visit) (bool, error) {
	base, err := s.y.sheetFor(id)
	if err != nil {
		return false, err
	}
	if err := jobsheet.ResolveMachine(base.machine, base.schedule); err != nil {
		return false, err
	}
	cl := &closing{base: base, file: s.y.unfinishedFile(id), visit: visit}
	if signed, err := s.signedAlready(cl); err != nil || signed {
		return signed, err
	}
	kept, err := s.keptOf(cl)
	if err != nil {
		return false, err
	}
	cl.resumed = len(kept) > 0
	s.closing = append(s.closing, cl)
	s.greet(cl, len(kept))
	if err := s.begin(cl, kept); err != nil {
		return false, err
	}
	s.p.standing(s.stands())
	return false, nil
}

// begin starts the questions of a machine's job over its records as they are now.
func (s *sitting) begin(cl *closing, kept []dialogue.Kept) error {
	base := cl.base
	chain, err := s.bench.chain(cl.id())
	if err != nil {
		return err
	}
	var engine []record.Earlier
	if base.driver != nil {
		if engine, err = s.bench.chain(base.driver.ID); err != nil {
			return err
		}
	}
	style := s.bench.yard.Style
	in := closeout.Input{
		Machine: base.machine, Schedule: base.schedule, Log: base.machine.Log(chain, engine),
		Today: s.p.today(), Visit: cl.visit, Doubt: s.bench.yard.Doubt, Printable: pagesheet.CheckGlyphs,
		Files: func() []string { return cl.files },
		Check: func(job jobsheet.Job) check.Result { return s.check(cl, job) },
		Plan: func(on quantity.Date, reading *quantity.Hours) (plan.Plan, error) {
			return plan.Make(plan.Input{Machine: base.machine, Driver: base.driver, Schedule: base.schedule, Chain: chain, Engine: engine, On: on, Reading: reading})
		},
		Words: closeout.Words{
			Finding: func(f check.Finding) (string, string) { return words.FindingIn(style, f.Finding), hintFor(f) },
			Item:    dueWords{style}.itemSaid, Style: style, Cautions: cautionsSaid(base.machine.Kind),
		},
	}
	cl.dialogue = dialogue.New(closeout.Script(in, &cl.sheet), kept...)
	return nil
}

// cautionsSaid are the cautions before the look for leaks, and who governs.
func cautionsSaid(kind string) []string {
	var said []string
	for _, c := range words.WhileRunning(kind) {
		said = append(said, c.Text)
	}
	return append(said, "The maker's handbook, local codes and licensed practice govern.")
}

// stillSo reads the yard's records once more before anything is signed, since another
// may have issued meanwhile. Where something else follows now it is shown again.
func (s *sitting) stillSo() (bool, error) {
	before := s.found()
	if err := s.freshBench(); err != nil {
		return false, err
	}
	for _, cl := range s.closing {
		if err := s.unchanged(cl); err != nil {
			return false, err
		}
		base, err := s.y.sheetFor(cl.id())
		if err != nil {
			return false, err
		}
		base.files = cl.base.files
		cl.base = base
		if err := s.begin(cl, cl.dialogue.Kept()); err != nil {
			return false, err
		}
	}
	if s.askAgain() {
		return false, nil
	}
	if s.found() == before {
		return true, nil
	}
	s.p.words("The yard's files or records have changed since you began. This is what follows now.")
	return false, nil
}

// found is what the checks went by, and all that they say.
func (s *sitting) found() string {
	var all strings.Builder
	for _, cl := range s.closing {
		r := cl.sheet.Result.Draft
		fmt.Fprintln(&all, r.Machine, r.Schedule, cl.sheet.Result.Outcome)
		for _, f := range cl.sheet.Result.Findings {
			fmt.Fprintln(&all, f.Severity, words.Finding(f.Finding), f.Accepted)
		}
	}
	return all.String()
}

// check works one of the sitting's jobs out beside the others.
func (s *sitting) check(cl *closing, job jobsheet.Job) check.Result {
	s.bench.sheets = nil
	for _, other := range s.closing {
		if other != cl {
			s.bench.sheets = append(s.bench.sheets, other.current())
		}
	}
	of := cl.current()
	of.job = job
	result, err := s.bench.check(of)
	if err != nil { // the chains are read, and stay as they are
		return check.Result{Outcome: check.Malformed, Faults: jobsheet.Faults{{File: cl.file, Message: err.Error()}}}
	}
	return result
}

// itemSaid is when a task falls due and what was left open of it.
func (w dueWords) itemSaid(made plan.Plan, item plan.Item) string {
	due := w.itemDue(made, item)
	due = strings.Replace(strings.TrimPrefix(due, "due: "), ": due", ", due", 1)
	return strings.Join(append([]string{due}, w.openNotes(made, item)...), "; ")
}
