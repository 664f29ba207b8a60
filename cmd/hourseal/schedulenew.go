package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/urfave/cli/v2"

	"hourseal/record/dialogue"
	"hourseal/record/enrol"
	"hourseal/record/jobsheet"
	"hourseal/record/schedule"
	pagesheet "hourseal/render/sheet"
	"hourseal/templates"
)

var (
	copiedFlag   = &cli.StringFlag{Name: "from", Usage: "the schedule `ID` that is copied, built in or the yard's own"}
	titleFlag    = &cli.StringFlag{Name: "title", Usage: "its title, `TEXT`; that of the copied one with the yard's name where left out"}
	basisFlag    = &cli.StringFlag{Name: "basis", Usage: "what it is taken from, `KIND`: maker, class, yard or common-practice; yard where left out"}
	documentFlag = &cli.StringFlag{Name: "document", Usage: "the title of the document that it is taken from, `TEXT`"}
	editionFlag  = &cli.StringFlag{Name: "edition", Usage: "the document's edition, `TEXT`"}
	pageFlag     = &cli.StringFlag{Name: "page", Usage: "the document's page, `TEXT`"}
)

func (p *program) scheduleNewCommand() *cli.Command {
	return &cli.Command{
		Name: "new", Usage: "make a schedule the yard's own, from one that there is", ArgsUsage: "ID",
		Description: "It writes schedules/ID.yaml, never over another: a copy with another title and basis,\n" +
			"to put your own intervals in. On a terminal it asks for what no option states. Basis\n" +
			"maker or class wants --document and --edition: records then say whose schedule it is,\n" +
			"so state it only where you put those intervals in.",
		Flags: []cli.Flag{yardFlag, copiedFlag, titleFlag, basisFlag, documentFlag, editionFlag, pageFlag, askFlag, noInputFlag}, Action: p.action(p.scheduleNew),
	}
}

func (p *program) scheduleNew(c *cli.Context) (exitCode, error) {
	if err := wantArgs(c, 1, 1, "id"); err != nil {
		return exitUsage, err
	}
	id := c.Args().First()
	if err := jobsheet.CheckID(id); err != nil {
		return exitUsage, usageError{err.Error(), "hourseal schedule new my-own --from diesel-inboard"}
	}
	y, err := p.openYard(c)
	if err != nil {
		return exitOK, err
	}
	self, err := y.files.Yard()
	if err != nil {
		return exitOK, err
	}
	file := y.path("schedules", id+".yaml")
	if _, err := os.Lstat(file); err == nil {
		return exitUsage, usageError{file + " is there already", "another id; or change the file by hand"}
	}
	own, err := statedOwn(c)
	if err != nil {
		return exitUsage, err
	}
	there, err := p.schedulesToName(y.files)
	if err != nil {
		return exitOK, err
	}
	if own, err = p.ownSchedule(c, enrol.OwnInput{Stated: own, Schedules: there, Yard: self.Name, Printable: pagesheet.CheckGlyphs}); errors.Is(err, errEnded) {
		p.tell("The input ended. Nothing was written.")
		return exitUsage, nil
	} else if err != nil {
		return exitUsage, err
	}
	label, data, err := y.scheduleText(own.From, there)
	if err != nil {
		return exitOK, err
	}
	text, err := jobsheet.CopySchedule(label, data, id, own.Title, own.Basis)
	var faults jobsheet.Faults
	if err != nil && !errors.As(err, &faults) {
		err = usageError{err.Error(), "hourseal schedule new --help"}
	}
	if err != nil {
		return exitUsage, err
	}
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		return exitOK, err
	}
	if err := writeWholeNew(file, text); err != nil {
		return exitOK, err
	}
	p.say("wrote   %s", file)
	p.saidOfCopy(id, own, there)
	return exitOK, nil
}

// statedOwn is what the options say.
func statedOwn(c *cli.Context) (enrol.Own, error) {
	own := enrol.Own{From: c.String(copiedFlag.Name), Title: c.String(titleFlag.Name)}
	own.Basis = schedule.Basis{Document: c.String(documentFlag.Name), Edition: c.String(editionFlag.Name), Page: c.String(pageFlag.Name)}
	word := c.String(basisFlag.Name)
	if word == "" {
		return own, nil
	}
	for i, name := range schedule.BasisKinds() {
		if name == word {
			own.Basis.Kind = schedule.BasisKind(i + 1)
			return own, nil
		}
	}
	return own, usageError{fmt.Sprintf("--basis %q is none of %s", word, strings.Join(schedule.BasisKinds(), ", ")), "--basis yard"}
}

// ownSchedule asks for what is not stated, or takes what is usual where nobody can be
// asked.
func (p *program) ownSchedule(c *cli.Context, in enrol.OwnInput) (enrol.Own, error) {
	own := in.Stated
	var from *enrol.Schedule
	var ids []string
	for i, s := range in.Schedules {
		ids = append(ids, s.ID)
		if s.ID == own.From {
			from = &in.Schedules[i]
		}
	}
	if own.From != "" && from == nil {
		return own, usageError{fmt.Sprintf("--from %q is no schedule of this yard and none built in", own.From), "one of " + strings.Join(ids, ", ")}
	}
	if p.mayAsk(c) {
		typist, asked := p.newTypist(), enrol.Own{}
		err := typist.converse(dialogue.New(enrol.OwnScript(in, &asked)), func() error { return nil })
		return asked, err
	}
	if from == nil {
		return own, usageError{"--from is missing", "--from with one of " + strings.Join(ids, ", ")}
	}
	if own.Basis.Kind == 0 {
		own.Basis.Kind = schedule.Yard
	}
	if enrol.NamesDocument(own.Basis.Kind) && (own.Basis.Document == "" || own.Basis.Edition == "") {
		return own, usageError{fmt.Sprintf("--basis %v wants --document and --edition: which of its papers the intervals are from", own.Basis.Kind),
			"--document with the title and --edition with the edition of the handbook; or --basis yard"}
	}
	if own.Title == "" {
		own.Title = enrol.OwnTitle(from.Title, in.Yard, own.Basis.Kind)
	}
	return own, nil
}

// scheduleText is the file of a schedule, and its name in messages.
func (y yard) scheduleText(id string, there []enrol.Schedule) (label string, data []byte, err error) {
	for _, s := range there {
		if s.ID == id && !s.BuiltIn {
			label = "schedules/" + id + ".yaml"
			data, err = os.ReadFile(y.path("schedules", id+".yaml"))
			return label, data, err
		}
	}
	data, err = fs.ReadFile(templates.Schedules(), id+".yaml")
	return "built-in/" + id + ".yaml", data, err
}

// saidOfCopy says what is still another's in it, and what comes next.
func (p *program) saidOfCopy(id string, own enrol.Own, there []enrol.Schedule) {
	for _, s := range there {
		if s.ID == id && s.BuiltIn {
			p.paragraph("", "It stands in the place of the built-in schedule of that id, for every machine that names it.")
		}
	}
	if enrol.NamesDocument(own.Basis.Kind) {
		p.paragraph("", fmt.Sprintf("Its intervals are still those of %s, and it says that they are of %s, edition %s: put those in before a job is checked by it.", own.From, own.Basis.Document, own.Basis.Edition))
	} else {
		p.paragraph("", fmt.Sprintf("Its intervals are still those of %s: put your own in.", own.From))
	}
	p.say("Next: hourseal schedule check %s", id)
	p.say("A machine file names it as schedule: %s", id)
}
