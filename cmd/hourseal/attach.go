package main

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"hourseal/record"
	"hourseal/record/jobsheet"
	"hourseal/record/ledger"
)

func (p *program) attachCommand() *cli.Command {
	return &cli.Command{
		Name: "attach", Usage: "put photographs or a laboratory sheet to a job: kept, named and hashed in its record",
		ArgsUsage: "JOB FILE...",
		Description: "Copies each file to jobs/files in the yard folder and names it in the job sheet, under\n" +
			"files. The record then has its name and its SHA-256, and issue keeps it beside the\n" +
			"record; the file itself is in neither report nor code, its name is in both. Verify\n" +
			"compares it, where it is at hand. JPEG, PNG, PDF and plain text (.txt, .csv), up to 16\n" +
			"MiB each, 16 to a job.\n\n" +
			"A photograph carries place, time and camera with it: whoever gets the file gets those.\n\n" +
			"What comes after the record was issued goes into an addendum:\n" +
			"  hourseal issue --adds-to gannet-port/2 --why 'laboratory: no metal' --attach FILE",
		Flags: []cli.Flag{yardFlag,
			&cli.StringFlag{Name: "as", Usage: "keep it under `NAME`; one file"}},
		Action: p.action(p.attach),
	}
}

func (p *program) attach(c *cli.Context) (exitCode, error) {
	if c.NArg() == 1 {
		return exitUsage, usageError{"attach: no file to attach to " + c.Args().First(), "hourseal attach " + c.Args().First() + " plate.jpg"}
	}
	if err := wantArgs(c, 2, -1, "job sheet"); err != nil {
		return exitUsage, err
	}
	sheet, files := c.Args().First(), c.Args().Tail()
	if c.IsSet("as") && len(files) > 1 {
		return exitUsage, usageError{"--as names one file", "attach the others by themselves"}
	}
	y, err := p.openYard(c)
	if err != nil {
		return exitOK, err
	}
	if err := noRecord(sheet, files); err != nil {
		return exitUsage, err
	}
	if err := y.machineForSheet(sheet, files); err != nil {
		return exitUsage, err
	}
	text, err := p.readInput(sheet)
	if err != nil {
		return exitOK, missing(sheet, err)
	}
	job, err := jobsheet.ParseJob(filepath.ToSlash(sheet), text)
	if err != nil {
		return exitUsage, err
	}
	attachments, err := y.toAttach(sheet, job, files, c.String("as"))
	if err != nil {
		return codeOf(err), err
	}
	changed, err := p.namedIn(y, sheet, text, job, attachments)
	if err != nil {
		return codeOf(err), err
	}
	for _, a := range attachments {
		if err := y.store(a); err != nil {
			return exitOK, err
		}
		p.say("attached  %s  SHA-256 %x...  %s", a.Name, a.SHA256[:8], y.attached(a.Name))
	}
	if changed == nil {
		return exitOK, nil
	}
	if now, err := p.readInput(sheet); err != nil || !bytes.Equal(now, text) {
		return exitOK, errors.Join(err, fmt.Errorf("%s was changed meanwhile: run the command again", sheet))
	}
	if err := replaceSheet(sheet, changed); err != nil {
		return exitOK, err
	}
	p.say("named in %s, under files", sheet)
	return exitOK, nil
}

// noRecord says what to do where a record is named instead of a job sheet.
func noRecord(sheet string, files []string) error {
	if sheet == "-" {
		return usageError{"attach writes into the job sheet: standard input is none", "hourseal attach JOB FILE"}
	}
	ending := strings.ToLower(filepath.Ext(sheet))
	if _, err := os.Stat(sheet); err == nil && ending != ".cose" && ending != ".pdf" || err != nil && !machineNumber.MatchString(sheet) {
		return nil
	}
	return usageError{sheet + " is issued, and a signed record stays as it is",
		"hourseal " + commandLine([]string{"issue", "--adds-to", sheet, "--why", "TEXT", "--attach", files[0]})}
}

// machineForSheet says which sheet is meant where a machine of the yard is named in its
// place.
func (y yard) machineForSheet(name string, files []string) error {
	if _, err := os.Lstat(name); err == nil || jobsheet.CheckID(name) != nil {
		return nil
	}
	if _, err := os.Stat(y.path("machines", name+".yaml")); err != nil {
		return nil
	}
	what := name + " is a machine, and files go to a job sheet"
	if sheet := y.unfinishedFile(name); isFile(sheet) {
		return usageError{what + ": its unfinished one is " + sheet, "hourseal " + commandLine(append([]string{"attach", sheet}, files...))}
	}
	sheet := y.path("jobs", name+".yaml")
	if isFile(sheet) {
		return usageError{what, "hourseal " + commandLine(append([]string{"attach", sheet}, files...))}
	}
	return usageError{what, "hourseal " + commandLine(append([]string{"attach", "JOB"}, files...)) + ", with its sheet for JOB; a new one: hourseal " + commandLine([]string{"worksheet", name, "--jobsheet", sheet})}
}

func isFile(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.Mode().IsRegular()
}

// attached is where the files lie that a yard's job sheets name.
func (y yard) attached(name string) string { return y.path("jobs", "files", name) }

// toAttach looks at all files before any is copied.
func (y yard) toAttach(sheet string, job jobsheet.Job, files []string, as string) ([]attachment, error) {
	var list []attachment
	for _, file := range files {
		a, err := namedAttachment(file, as)
		if err != nil {
			return nil, err
		}
		if i := slices.IndexFunc(list, func(b attachment) bool { return strings.EqualFold(a.Name, b.Name) }); i >= 0 {
			if list[i].File == a.File {
				continue
			}
			return nil, usageError{fmt.Sprintf("%s and %s would both be kept as %s", list[i].path, file, a.Name), "attach one of them by itself, with --as NAME"}
		}
		if i := slices.IndexFunc(job.Files, func(name string) bool { return strings.EqualFold(a.Name, name) }); i >= 0 && job.Files[i] != a.Name {
			return nil, y.taken(sheet, file, a.Name, job.Files[i]+" is named in the sheet")
		}
		if err := y.free(sheet, file, a); err != nil {
			return nil, err
		}
		list = append(list, a)
	}
	return list, nil
}

// namedAttachment reads a file that somebody names, under its own name made safe, or
// under another.
func namedAttachment(file, as string) (attachment, error) {
	name := as
	if name == "" {
		name = safeName(file)
	}
	if err := jobsheet.CheckFileName(name); err != nil {
		return attachment{}, usageError{file + ": no name to keep it under: " + err.Error(), "--as plate.jpg"}
	}
	data, err := readAttachment(file, name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return attachment{}, missing(file, err)
	case errors.As(err, new(*fs.PathError)):
		return attachment{}, err
	case err != nil:
		return attachment{}, usageError{file + ": " + err.Error(), ""}
	}
	return attachmentOf(file, name, data), nil
}

// free says whether a name is free among the files of the yard's jobs, or taken by the
// same file.
func (y yard) free(sheet, file string, a attachment) error {
	entries, err := os.ReadDir(filepath.Dir(y.attached(a.Name)))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	for _, e := range entries {
		if !strings.EqualFold(e.Name(), a.Name) {
			continue
		}
		if digest, same := plainDigest(y.attached(e.Name())); e.Name() == a.Name && same && digest == a.SHA256 {
			return nil
		}
		return y.taken(sheet, file, a.Name, "another file is kept as "+y.attached(e.Name()))
	}
	return nil
}

// taken offers a name with that of the job sheet in it.
func (y yard) taken(sheet, file, name, why string) error {
	stem := strings.TrimSuffix(filepath.Base(sheet), filepath.Ext(sheet))
	return usageError{why, "hourseal " + commandLine([]string{"attach", sheet, file, "--as", safeName(stem + "-" + name)})}
}

// namedIn is the text of the sheet with the names that it has not yet; nil where it has
// all of them.
func (p *program) namedIn(y yard, sheet string, text []byte, job jobsheet.Job, attachments []attachment) ([]byte, error) {
	var names []string
	for _, a := range attachments {
		if !slices.Contains(job.Files, a.Name) {
			names = append(names, a.Name)
		}
	}
	if len(names) == 0 {
		return nil, nil
	}
	if n := len(job.Files) + len(names); n > record.MaxFiles {
		return nil, usageError{fmt.Sprintf("%s would name %d files, and a record has at most %d", sheet, n, record.MaxFiles), "attach fewer"}
	}
	if err := p.notIssued(y, sheet, attachments); err != nil {
		return nil, err
	}
	changed, err := jobsheet.WithFiles(filepath.ToSlash(sheet), text, names)
	if unclear := new(jobsheet.UnclearError); errors.As(err, &unclear) {
		return nil, usageError{err.Error(), "write " + unclear.Write + " into it, and run the same command again: it copies the files"}
	}
	return changed, err
}

// notIssued refuses to change a sheet that a record was made of.
func (p *program) notIssued(y yard, file string, attachments []attachment) error {
	s, err := p.loadSheet(y, file)
	if err != nil {
		return nil // it says so when it is issued
	}
	b, err := p.newBench(y, []sheet{s})
	if err != nil {
		return err
	}
	result, err := b.check(s)
	if err != nil {
		return err
	}
	if stored, is := storedAlready(b, s, result); is {
		return usageError{fmt.Sprintf("%s is issued, as %s, and a signed record stays as it is", file, titleOf(stored.Record)), addsTo(stored.Record, attachments[0].path)}
	}
	return nil
}

// addsTo is what to type to add a file to a record.
func addsTo(r *record.Record, file string) string {
	return "hourseal " + commandLine([]string{"issue", "--adds-to", titleOf(r), "--why", "TEXT", "--attach", file})
}

// store copies a file into the yard folder, whole or not at all, and never over another.
func (y yard) store(a attachment) error {
	target := y.attached(a.Name)
	if digest, there := plainDigest(target); there && digest == a.SHA256 {
		return nil
	}
	data, err := readAttachment(a.path, a.Name)
	if err != nil {
		return fmt.Errorf("%s: %w", a.path, err)
	}
	if record.Digest(sha256.Sum256(data)) != a.SHA256 {
		return fmt.Errorf("%s was changed meanwhile: run the command again", a.path)
	}
	return undisturbed(func() error { return storeNew(target, data) })
}

// storeNew writes a file that must not be there yet under a temporary name, and links it
// to its own.
func storeNew(target string, data []byte) error {
	folder := filepath.Dir(target)
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	f, err := os.CreateTemp(folder, ".new-*")
	if err != nil {
		return err
	}
	defer os.Remove(f.Name())
	_, err = f.Write(data)
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err != nil {
		return fmt.Errorf("write %s: %w", target, err)
	}
	if err := os.Chmod(f.Name(), 0o644); err != nil {
		return err
	}
	if err := os.Link(f.Name(), target); err != nil {
		// The name is taken since, or the file system has no links.
		if _, there := os.Lstat(target); there == nil {
			return fmt.Errorf("%s is there since: run the command again", target)
		}
		if err := os.Rename(f.Name(), target); err != nil {
			return err
		}
	}
	return ledger.SyncFolder(folder)
}

// replaceSheet writes a job sheet anew, through a link to it, under its own permissions.
func replaceSheet(sheet string, text []byte) error {
	path, err := filepath.EvalSymlinks(sheet)
	if err != nil {
		return err
	}
	info, err := os.Stat(path)
	if err != nil {
		return err
	}
	if err := replaceFile(path, text); err != nil {
		return err
	}
	return errors.Join(os.Chmod(path, info.Mode().Perm()), ledger.SyncFolder(filepath.Dir(path)))
}
