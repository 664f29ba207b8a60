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

// with is the sheet with a job on it.
func (s sheet) with(job jobsheet.Job) sheet {
	s.job = job
	return s
}

// keep writes the sheet as far as it has come.
func (s *sitting) keep(cl *closing) error {
	if err := os.MkdirAll(filepath.Dir(cl.file), 0o755); err != nil {
		return err
	}
	if err := replaceFile(cl.file, closeout.Unfinished(cl.sheet, cl.dialogue.Kept())); err != nil {
		return err
	}
	s.p.standing(s.stands())
	return nil
}

// keptOf are the answers of a session that was cut short, if it is to be gone on with.
func (s *sitting) keptOf(cl *closing) ([]dialogue.Kept, error) {
	return s.typist.keptIn(cl.file, dialogue.FromComments, "finish it by hand: hourseal check "+cl.file+"; or move it away to begin anew")
}

// errByHand says that the sheet is to be finished by hand.
var errByHand = errors.New("to be finished by hand")

// attached are the files that were attached to an unfinished sheet. What else was
// changed in it by hand would be lost by going on from the answers, and is asked about.
func (s *sitting) attached(cl *closing, made func() []byte) ([]string, error) {
	data, err := s.p.readInput(cl.file)
	if err != nil {
		return nil, err
	}
	there, faults := jobsheet.ParseJob(cl.file, data)
	answered, none := jobsheet.ParseJob(cl.file, made())
	files := there.Files
	if cl.base.files, err = s.y.attachments(there); err != nil {
		return nil, err
	}
	there.Files = nil
	if faults == nil && none == nil && bytes.Equal(there.YAML(), answered.YAML()) || bytes.Equal(plainEnds(data), made()) {
		return files, nil
	}
	answer, err := s.typist.choose(cl.file+" was changed by hand since, which going on from the answers would lose. y goes on, n ends here", "", "y", "n")
	if err != nil || answer == "y" {
		return files, err
	}
	s.p.tell("Finish it by hand, then: hourseal issue %s", cl.file)
	return nil, errByHand
}

// plainEnds is a text with plain line ends.
func plainEnds(text []byte) []byte { return bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n")) }

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
		err := writeNew(name, text, 0o644)
		if there, _ := os.ReadFile(name); errors.Is(err, fs.ErrExist) && !bytes.Equal(there, text) {
			continue
		}
		if errors.Is(err, fs.ErrExist) { // from a run that ended just here
			err = nil
		}
		return name, err
	}
}
