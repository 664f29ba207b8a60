package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"unicode/utf8"

	"github.com/urfave/cli/v2"

	"hourseal/record/dialogue"
	"hourseal/record/enrol"
	"hourseal/record/jobsheet"
	pagesheet "hourseal/render/sheet"
	"hourseal/verify"
)

func (p *program) machineCommand() *cli.Command {
	return &cli.Command{
		Name: "machine", Usage: "the machines that the yard keeps records of",
		Subcommands: []*cli.Command{{
			Name: "new", Usage: "make a machine file: asks for it from the name plate on", ArgsUsage: "[ID]",
			Description: "On a terminal it asks one question after another and checks each answer. An empty line\n" +
				"takes what stands in [ ], ? explains, < goes back, - and unknown are for what nobody\n" +
				"knows. The answers are kept as you go: after Ctrl-C or a closed lid the same command\n" +
				"goes on. machines/ID.yaml is written when you say so at the end, and never over\n" +
				"another. For scripts: write the file itself, as machines/example-engine.yaml of\n" +
				"hourseal init shows it.",
			Flags: []cli.Flag{yardFlag, askFlag, noInputFlag}, Action: p.action(p.machineNew),
		}},
	}
}

// enrolling is one session that makes a machine file.
type enrolling struct {
	p        *program
	y        yard
	typist   *typist
	id       string // as it was given; "" for none
	in       enrol.Input
	dialogue *dialogue.Dialogue
	machine  jobsheet.Machine
}

func (p *program) machineNew(c *cli.Context) (exitCode, error) {
	if err := wantArgs(c, 0, 1, "id"); err != nil {
		return exitUsage, err
	}
	if !p.mayAsk(c) {
		return exitUsage, usageError{"machine new asks questions, and standard input is no terminal that could answer",
			"write machines/ID.yaml by hand, as machines/example-engine.yaml of hourseal init shows it; with --ask the answers are read from standard input, one a line"}
	}
	y, err := p.openYard(c)
	if err != nil {
		return exitOK, err
	}
	e := &enrolling{p: p, y: y, typist: p.newTypist(), id: c.Args().First()}
	if e.id != "" {
		if err := jobsheet.CheckID(e.id); err != nil {
			return exitUsage, usageError{err.Error(), "hourseal machine new"}
		}
		if _, err := os.Lstat(e.target(e.id)); err == nil {
			return exitUsage, usageError{e.target(e.id) + " is there already", "another id; or change the file by hand"}
		}
	}
	if err := e.open(c); err != nil {
		return exitOK, err
	}
	code, err := e.run()
	if errors.Is(err, errEnded) {
		p.words("The input ended. " + e.stands())
		return exitUsage, nil
	}
	return code, err
}

func (e *enrolling) target(id string) string { return e.y.path("machines", id+".yaml") }

// unfinished is the file of the answers so far. Its name ends so that it is not taken
// for a machine, and that it opens when somebody clicks on it.
func (e *enrolling) unfinished() string {
	if e.id == "" {
		return e.y.path("machines", "unfinished.txt")
	}
	return e.y.path("machines", e.id+"-unfinished.txt")
}

// again is the command that goes on.
func (e *enrolling) again() string { return strings.TrimSpace("hourseal machine new " + e.id) }

// open reads what the yard has, and the answers from before.
func (e *enrolling) open(c *cli.Context) error {
	self, err := e.y.files.Yard()
	if err != nil {
		return err
	}
	machines, err := e.p.machinesFor(c)
	if err != nil { // the others can be asked about all the same
		e.p.complain(err)
	}
	schedules, err := e.p.schedulesToName(e.y.files)
	if err != nil {
		return err
	}
	e.in = enrol.Input{
		ID: e.id, Machines: machines, Schedules: schedules, Today: e.p.today(), Style: self.Style, Printable: pagesheet.CheckGlyphs,
		Taken: func(id string) bool {
			_, err := os.Lstat(e.target(id))
			return err == nil
		},
		SameSerial: func(a, b string) (same, probably bool) {
			match := verify.CompareSerial(a, b)
			return match == verify.Same, match == verify.Probably
		},
	}
	kept, err := e.typist.keptIn(e.unfinished(), dialogue.FromComments, "look into it and move it away: "+e.again()+" then begins anew")
	if err != nil {
		return err
	}
	e.p.words("An empty line takes what stands in [ ]; ? explains, < goes back, - is unknown or none. Ctrl-C stops, and what was answered is kept.")
	if len(kept) > 0 {
		e.p.words(fmt.Sprintf("Going on after %s.", countOf(fmt.Sprint(len(kept)), "answer")))
	}
	e.p.words("")
	e.dialogue = dialogue.New(enrol.Script(e.in, &e.machine), kept...)
	e.p.standing(e.stands())
	return nil
}

// schedulesToName are the schedules that a machine may name. One that cannot be read is
// told of and left out.
func (p *program) schedulesToName(files jobsheet.Folder) ([]enrol.Schedule, error) {
	origins, err := files.ScheduleIDs()
	var faults jobsheet.Faults
	if err != nil && !errors.As(err, &faults) {
		return nil, err
	}
	if err != nil {
		p.complain(err)
	}
	var list []enrol.Schedule
	for _, origin := range origins {
		s, _, err := files.Schedule(origin.ID)
		if err != nil {
			p.complain(err)
			continue
		}
		list = append(list, enrol.Schedule{Schedule: s, BuiltIn: origin.BuiltIn})
	}
	return list, nil
}

// run asks until the file is written or left.
func (e *enrolling) run() (exitCode, error) {
	for {
		if err := e.typist.converse(e.dialogue, e.keep); err != nil {
			return exitOK, err
		}
		text := e.machine.YAML()
		sound := e.sound(text)
		e.p.words("")
		e.p.words(e.target(e.machine.ID) + " is to say:")
		for line := range strings.Lines(string(text)) {
			fmt.Fprintln(e.p.stderr, clean("  "+withoutRemark(strings.TrimRight(line, "\n"))))
		}
		e.p.words("")
		question, answers := "Write it? y writes it, n keeps the answers for later, < goes back", []string{"y", "n", back}
		if !sound {
			question, answers = "It cannot be written as it stands. < goes back to the last question, n keeps the answers for later", []string{back, "n"}
		}
		answer, err := e.typist.choose(question, "", answers...)
		switch {
		case err != nil:
			return exitOK, err
		case answer == back:
			e.dialogue.Back()
		case answer == "n":
			e.p.words(e.stands())
			return exitDecide, nil
		default:
			return e.write(text)
		}
	}
}

// withoutRemark is a line of a file without the remark that would make it too long for
// the terminal.
func withoutRemark(line string) string {
	if i := strings.LastIndex(line, " # "); i > 0 && utf8.RuneCountInString(line) > textWidth-2 {
		return strings.TrimRight(line[:i], " ")
	}
	return line
}

// sound says whether the text is read back as the machine that was asked for, and fits
// its schedule.
func (e *enrolling) sound(text []byte) bool {
	file := "machines/" + e.machine.ID + ".yaml"
	read, err := jobsheet.ParseMachine(file, text)
	if err == nil {
		for _, of := range e.in.Schedules {
			if of.ID == read.Schedule {
				err = jobsheet.ResolveMachine(read, of.Schedule)
			}
		}
	}
	if err != nil {
		e.p.complain(err)
		return false
	}
	read.Source = jobsheet.Source{}
	if !reflect.DeepEqual(read, e.machine) {
		e.p.tell("%s would be read as another machine than was answered", file)
		return false
	}
	return true
}

// keep writes the answers as far as they have come.
func (e *enrolling) keep() error {
	if err := os.MkdirAll(filepath.Dir(e.unfinished()), 0o755); err != nil {
		return err
	}
	var out bytes.Buffer
	fmt.Fprintf(&out, "# No machine file yet. To go on: %s\n", e.again())
	out.Write(e.machine.YAML())
	out.WriteString("\n# The answers so far. They are read when it is gone on with; what stands above is not.\n")
	out.Write(dialogue.Comments(e.dialogue.Kept()))
	if err := replaceFile(e.unfinished(), out.Bytes()); err != nil {
		return err
	}
	e.p.standing(e.stands())
	return nil
}

// stands says what there is so far.
func (e *enrolling) stands() string {
	if e.dialogue == nil || len(e.dialogue.Kept()) == 0 {
		return "Nothing was written."
	}
	return fmt.Sprintf("Nothing was written. The answers so far are kept in %s: %s goes on with them.", e.unfinished(), e.again())
}

func (e *enrolling) write(text []byte) (exitCode, error) {
	file := e.target(e.machine.ID)
	var left error // answers that could not be taken away
	err := undisturbed(func() error {
		if err := writeWholeNew(file, text); err != nil {
			return err
		}
		if left = os.Remove(e.unfinished()); errors.Is(left, fs.ErrNotExist) {
			left = nil
		}
		return nil
	})
	switch {
	case errors.Is(err, fs.ErrExist):
		return exitUsage, usageError{file + " was made meanwhile, and is left as it is; the answers are kept", e.again() + " and < to the id"}
	case err != nil:
		return exitOK, err
	case left != nil:
		e.p.complain(fmt.Errorf("%s is written; the answers are still in %s: %w", file, e.unfinished(), left))
	}
	e.p.standing("")
	e.p.say("wrote   %s", file)
	e.p.say("Next: hourseal due %s says what it needs, hourseal closeout %s closes a job out", e.machine.ID, e.machine.ID)
	return exitOK, nil
}
