package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"hourseal/record/closeout"
	"hourseal/record/dialogue"
	"hourseal/record/jobsheet"
)

// The job sheet of a session has a name of its own until it is signed.

func (y yard) unfinishedFile(machine string) string {
	return y.path("jobs", machine+"-unfinished.yaml")
}

// sheetFor is a sheet without a job yet.
func (y yard) sheetFor(machine string) (sheet, error) {
	m, err := y.files.Machine(machine)
	if err != nil {
		return sheet{}, err
	}
	s := sheet{machine: m}
	if s.schedule, err = y.files.ScheduleOf(m); err != nil {
		return sheet{}, err
	}
	s.driver, err = y.files.DriverOf(m)
	return s, err
}

// keep writes the sheet as far as it has come.
func (s *sitting) keep(cl *closing) error {
	if err := os.MkdirAll(filepath.Dir(cl.file), 0o755); err != nil {
		return err
	}
	if err := s.unchanged(cl); err != nil {
		return err
	}
	text := closeout.Unfinished(cl.sheet, cl.dialogue.Kept())
	if err := replaceFile(cl.file, text); err != nil {
		return err
	}
	cl.written = text
	s.p.standing(s.stands())
	return nil
}

// unchanged takes over what was attached to a sheet since it was last written here, and
// refuses to go on where something else was changed in it: by hand, or by another
// session.
func (s *sitting) unchanged(cl *closing) error {
	data, err := os.ReadFile(cl.file)
	switch {
	case errors.Is(err, fs.ErrNotExist) && cl.written == nil:
		return nil
	case errors.Is(err, fs.ErrNotExist):
		return usageError{cl.file + " was taken away meanwhile: your last answer is not kept", "hourseal closeout " + cl.id()}
	case err != nil:
		return err
	case bytes.Equal(data, cl.written):
		return nil
	case cl.written == nil || !closeout.SameButFiles(data, cl.written):
		return usageError{cl.file + " was changed meanwhile, by hand or by another session: it stays as it is, and your last answer is not kept", "hourseal closeout " + cl.id() + ", which goes on from what is there"}
	}
	return s.adopt(cl, data)
}

// adopt takes over the files that were attached to an unfinished sheet.
func (s *sitting) adopt(cl *closing, data []byte) error {
	files := closeout.FilesIn(data)
	attached, err := s.y.attachments(jobsheet.Job{Files: files, Source: jobsheet.Source{File: cl.file}})
	if err != nil {
		return err
	}
	cl.files, cl.base.files, cl.sheet.Job.Files = files, attached, files
	return nil
}

// keptOf are the answers of a session that was cut short, if it is to be gone on with.
func (s *sitting) keptOf(cl *closing) ([]dialogue.Kept, error) {
	kept, err := s.typist.keptIn(cl.file, dialogue.FromComments, "finish it by hand: hourseal check "+cl.file+"; or move it away to begin anew")
	if err != nil || len(kept) == 0 {
		return nil, err
	}
	data, err := s.p.readInput(cl.file)
	if err != nil {
		return nil, err
	}
	cl.written = data
	if closeout.ChangedByHand(data) {
		answer, err := s.typist.choose(cl.file+" was changed by hand since, which going on from the answers would lose. y goes on, n ends here", "", "y", "n")
		if err != nil {
			return nil, err
		}
		if answer == "n" {
			s.p.words("Finish it by hand, then: hourseal issue " + cl.file)
			return nil, errByHand
		}
	}
	return kept, s.adopt(cl, data)
}

// errByHand says that the sheet is to be finished by hand.
var errByHand = errors.New("to be finished by hand")

// signedAlready finds an unfinished sheet of which the record is stored, as after a crash
// between the two, and puts it in its place.
func (s *sitting) signedAlready(cl *closing) (bool, error) {
	data, err := os.ReadFile(cl.file)
	if err != nil {
		return false, nil // none; else it is told when it is read for its answers
	}
	job, err := jobsheet.ParseJob(cl.file, data)
	if err != nil || job.Machine != cl.id() {
		return false, nil
	}
	sheet, err := s.y.sheetOf(cl.file, job)
	if err != nil {
		return false, nil
	}
	result, err := s.bench.check(sheet)
	if err != nil {
		return false, err
	}
	stored, is := storedAlready(s.bench, sheet, result)
	if !is {
		return false, nil
	}
	cl.sheet.Job = job
	name, err := s.settle(cl)
	if err != nil {
		return false, err
	}
	s.p.words(fmt.Sprintf("The job of %s is signed already, as %s; its sheet is now %s. The same command again begins another.", cl.file, titleOf(stored.Record), name))
	return true, nil
}

// settle gives a signed sheet its name for good, without the answers.
func (s *sitting) settle(cl *closing) (name string, err error) {
	err = undisturbed(func() error {
		if name, err = s.writeSettled(cl); err != nil {
			return err
		}
		return os.Remove(cl.file)
	})
	return name, err
}

func (s *sitting) writeSettled(cl *closing) (string, error) {
	text := cl.sheet.Job.YAML()
	stem := s.y.path("jobs", cl.id()+"-"+cl.sheet.Job.Date.String())
	for n := 1; ; n++ {
		name := stem + ".yaml"
		if n > 1 {
			name = fmt.Sprintf("%s-%d.yaml", stem, n)
		}
		err := writeWholeNew(name, text)
		if there, _ := os.ReadFile(name); errors.Is(err, fs.ErrExist) && !bytes.Equal(there, text) {
			continue
		}
		if errors.Is(err, fs.ErrExist) { // from a run that ended just here
			err = nil
		}
		return name, err
	}
}
