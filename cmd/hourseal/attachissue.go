package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"hourseal/record"
	"hourseal/record/check"
	"hourseal/record/jobsheet"
	"hourseal/record/ledger"
)

var attachFlag = &cli.StringSliceFlag{Name: "attach", Usage: "with --adds-to and no job sheet: `FILE` that goes with it, such as a laboratory sheet; may be given again"}

// attachments reads the files that a job sheet names. One that will not do is a fault of
// the sheet.
func (y yard) attachments(job jobsheet.Job) ([]attachment, error) {
	var list []attachment
	var faults jobsheet.Faults
	for i, name := range job.Files {
		path := y.attached(name)
		data, err := readKept(path, name)
		if err == nil {
			list = append(list, attachmentOf(path, name, data))
			continue
		}
		what := err.Error()
		if errors.Is(err, fs.ErrNotExist) {
			what = fmt.Sprintf("not in %s: hourseal attach JOB FILE puts it there, or take it out", filepath.ToSlash(filepath.Dir(path)))
		}
		faults = append(faults, job.Source.Fault(fmt.Sprintf("files/%d", i), "files", "%s: %s", name, what))
	}
	if len(faults) > 0 {
		return nil, faults
	}
	return list, nil
}

// readKept reads a file in the yard's folder; a link that somebody put there may lead to
// anything, and is not followed.
func readKept(path, name string) ([]byte, error) {
	if info, err := os.Lstat(path); err == nil && !info.Mode().IsRegular() {
		return nil, errors.New("not a plain file: attach the file itself")
	}
	return readAttachment(path, name)
}

// attachGiven gives the files of --attach to what has no job sheet.
func attachGiven(c *cli.Context, wanted *later, sheets []sheet) error {
	files := c.StringSlice(attachFlag.Name)
	if len(files) == 0 {
		return nil
	}
	if wanted == nil || wanted.kind != record.Addendum || len(sheets) != 1 || !sheets[0].bare {
		return usageError{"--attach goes with --adds-to, without a job sheet", "hourseal attach JOB FILE"}
	}
	if len(files) > record.MaxFiles {
		return usageError{fmt.Sprintf("--attach: %d files, and a record has at most %d", len(files), record.MaxFiles), ""}
	}
	for _, file := range files {
		a, err := namedAttachment(file, "")
		if err != nil {
			return err
		}
		if i := slices.IndexFunc(sheets[0].files, func(b attachment) bool { return strings.EqualFold(a.Name, b.Name) }); i >= 0 {
			return usageError{fmt.Sprintf("%s and %s would both be kept as %s", sheets[0].files[i].path, file, a.Name), "give one of them another name"}
		}
		sheets[0].files = append(sheets[0].files, a)
	}
	return nil
}

// recordFiles are the files of a sheet as its record has them.
func (s sheet) recordFiles() []record.File {
	var files []record.File
	for _, a := range s.files {
		files = append(files, a.File)
	}
	return files
}

// keepFiles keeps what goes with a sheet's record beside it, before the record is stored.
func keepFiles(session *ledger.Session, s sheet, stored ledger.Stored) error {
	for _, a := range s.files {
		err := session.Keep(stored, a.Name, func() ([]byte, error) { return readAttachment(a.path, a.Name) })
		switch {
		case errors.Is(err, ledger.ErrOtherFile):
			return fmt.Errorf("%s was changed while the job was being issued: run the command again", a.path)
		case err != nil:
			return fmt.Errorf("%s was not kept beside the record: %w", a.Name, err)
		}
	}
	return nil
}

// otherFiles says what to do about a sheet whose record was made with other files: a
// second record of the same work would stand beside it.
func (b *bench) otherFiles(s sheet, result check.Result) error {
	if s.bare || s.subject != nil {
		return nil
	}
	chain, err := b.chain(s.machine.ID)
	if err != nil {
		return err
	}
	for _, e := range chain {
		as := *result.Draft
		as.Files = e.Record.Files
		if !s.same(e.Record, &as) || b.waits(s, e) {
			continue
		}
		if by, err := b.takenBack(e.ID, s.machine.ID); err != nil || by != nil {
			return err
		}
		return s.issuedWithout(e.Record)
	}
	return nil
}

// issuedWithout names the first file in which a sheet and its record differ.
func (s sheet) issuedWithout(r *record.Record) error {
	issued := fmt.Sprintf("%s: issued already, as %s, ", s.file, titleOf(r))
	for _, a := range s.files {
		i := slices.IndexFunc(r.Files, func(f record.File) bool { return f.Name == a.Name })
		switch {
		case i < 0:
			return usageError{issued + "without " + a.Name, "to add it: " + addsTo(r, a.path)}
		case r.Files[i] != a.File:
			return usageError{fmt.Sprintf("%swith another %s than the one in %s now", issued, a.Name, a.path), "put the file back that was signed; to add this one, under another name: " + addsTo(r, "FILE")}
		}
	}
	for _, f := range r.Files {
		if !slices.ContainsFunc(s.files, func(a attachment) bool { return a.Name == f.Name }) {
			return usageError{issued + "with " + f.Name + ", which the sheet does not name any more", "name it again under files"}
		}
	}
	return usageError{issued + "with its files in another order", "name them in the order of the record"}
}

// keptFiles are the paths of the files that are kept beside a record.
func keptFiles(stored ledger.Stored) []string {
	var paths []string
	for _, f := range stored.Record.Files {
		paths = append(paths, filepath.Join(ledger.FilesFolder(stored.File), f.Name))
	}
	return paths
}
