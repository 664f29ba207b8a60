package main

import (
	"errors"
	"fmt"
	"slices"
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
}

// closing is the job of one machine.
type closing struct {
	base     sheet // its machine, schedule and driver
	file     string
	dialogue *dialogue.Dialogue
	sheet    closeout.Sheet
}

func (cl *closing) id() string { return cl.base.machine.ID }

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
	if s.bench, err = p.newBench(y, nil); err != nil {
		return exitOK, err
	}
	s.bench.chain = remembering(s.bench.chain)
	id := c.Args().First()
	if id == "" {
		if id, err = s.chooseMachine(); err != nil {
			return s.ended(err)
		}
	}
	code, err := s.run(id)
	switch {
	case errors.Is(err, errByHand):
		return exitDecide, nil
	case err != nil:
		return s.ended(err)
	}
	return code, nil
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

// ended says where things stand when the input ended before the job was signed.
func (s *sitting) ended(err error) (exitCode, error) {
	if !errors.Is(err, errEnded) {
		return exitOK, err
	}
	s.p.tell("The input ended. %s", s.stands())
	return exitUsage, nil
}

// stands says what there is so far.
func (s *sitting) stands() string {
	const unsigned = "Nothing was signed."
	if len(s.closing) == 0 || !slices.ContainsFunc(s.closing, func(cl *closing) bool { return len(cl.dialogue.Kept()) > 0 }) {
		return unsigned
	}
	var files []string
	for _, cl := range s.closing {
		files = append(files, cl.file)
	}
	return fmt.Sprintf("%s The answers so far are kept in %s: hourseal closeout %s goes on with them.", unsigned, strings.Join(files, " and "), s.closing[0].id())
}

// run asks for the machine's job, for those of its like on the vessel, and for the
// word to sign.
func (s *sitting) run(id string) (exitCode, error) {
	if err := s.open(id, closeout.Visit{}); err != nil {
		return exitOK, err
	}
	for {
		current := s.closing[len(s.closing)-1]
		if err := s.typist.converse(current.dialogue, func() error { return s.keep(current) }); err != nil {
			return exitOK, err
		}
		twin, err := s.twin()
		if err != nil {
			return exitOK, err
		}
		answer, err := s.offerToSign(twin)
		switch {
		case err != nil:
			return exitOK, err
		case answer == back:
			current.dialogue.Back()
		case answer == takeTwin:
			if err := s.open(twin, current.sheet.Visit()); err != nil {
				return exitOK, err
			}
		default:
			return s.finish(answer == "y")
		}
	}
}

// open begins a machine's job or goes on with it.
func (s *sitting) open(id string, visit closeout.Visit) error {
	base, err := s.y.sheetFor(id)
	if err != nil {
		return err
	}
	if err := jobsheet.ResolveMachine(base.machine, base.schedule); err != nil {
		return err
	}
	chain, err := s.bench.chain(id)
	if err != nil {
		return err
	}
	var engine []record.Earlier
	if base.driver != nil {
		if engine, err = s.bench.chain(base.driver.ID); err != nil {
			return err
		}
	}
	cl := &closing{base: base, file: s.y.unfinishedFile(id)}
	in := closeout.Input{
		Machine: base.machine, Schedule: base.schedule, Chain: chain, Log: base.machine.Log(chain, engine),
		Today: s.p.today(), Visit: visit, Doubt: s.bench.yard.Doubt, Printable: pagesheet.CheckGlyphs,
		Check: func(job jobsheet.Job) check.Result { return s.check(cl, job) },
		Plan: func(on quantity.Date, reading *quantity.Hours) (plan.Plan, error) {
			return plan.Make(plan.Input{Machine: base.machine, Driver: base.driver, Schedule: base.schedule, Chain: chain, Engine: engine, On: on, Reading: reading})
		},
		Words: closeout.Words{
			Finding: func(f check.Finding) (string, string) {
				return words.FindingIn(s.bench.yard.Style, f.Finding), hintFor(f)
			},
			Item: itemSaid(s.bench.yard.Style), Style: s.bench.yard.Style,
		},
	}
	kept, err := s.keptOf(cl)
	if err != nil {
		return err
	}
	if len(kept) > 0 {
		if in.Files, err = s.attached(cl, func() []byte { return textOf(in, kept) }); err != nil {
			return err
		}
	}
	s.greet(cl, len(kept))
	s.closing = append(s.closing, cl)
	cl.dialogue = dialogue.New(closeout.Script(in, &cl.sheet), kept...)
	s.p.standing(s.stands())
	return nil
}

// textOf is the unfinished sheet that answers make.
func textOf(in closeout.Input, kept []dialogue.Kept) []byte {
	var sheet closeout.Sheet
	d := dialogue.New(closeout.Script(in, &sheet), kept...)
	return closeout.Unfinished(sheet, d.Kept())
}

// check works one of the sitting's jobs out beside the others.
func (s *sitting) check(cl *closing, job jobsheet.Job) check.Result {
	s.bench.sheets = nil
	for _, other := range s.closing {
		if other != cl {
			s.bench.sheets = append(s.bench.sheets, other.base.with(other.sheet.Job))
		}
	}
	result, err := s.bench.check(cl.base.with(job))
	if err != nil { // the chains are read, and stay as they are
		return check.Result{Outcome: check.Malformed, Faults: jobsheet.Faults{{File: cl.file, Message: err.Error()}}}
	}
	return result
}

// itemSaid is when a task falls due and what was left open of it.
func itemSaid(style quantity.Style) func(plan.Plan, plan.Item) string {
	words := dueWords{style}
	return func(made plan.Plan, item plan.Item) string {
		due := words.itemDue(made, item)
		due = strings.Replace(strings.TrimPrefix(due, "due: "), ": due", ", due", 1)
		return strings.Join(append([]string{due}, words.openNotes(made, item)...), "; ")
	}
}
