package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"github.com/urfave/cli/v2"

	"hourseal/record"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
	"hourseal/templates"
)

func (p *program) demoCommand() *cli.Command {
	return &cli.Command{
		Name: "demo", Usage: "the whole job on an invented yard, start to verdict",
		ArgsUsage: "[DIR]",
		Description: "Makes a yard folder in DIR (a new folder of the system's, if left out), issues three\n" +
			"jobs of one engine, says what is due next, verifies all, alters a copy and shows that\n" +
			"it is refused.",
		Action: p.action(p.demo),
	}
}

// demo runs the program's own commands, as a person would, in a yard folder of
// invented files. Its clock is set to the evening of each job's day.
func (p *program) demo(c *cli.Context) (exitCode, error) {
	if err := wantArgs(c, 0, 1, "folder"); err != nil {
		return exitUsage, err
	}
	dir := c.Args().First()
	if dir == "" {
		made, err := os.MkdirTemp("", "hourseal-demo-")
		if err != nil {
			return exitOK, err
		}
		dir = made
		p.standing("What the demonstration had made until then is in " + dir + ".")
	} else if entries, err := os.ReadDir(dir); err == nil && len(entries) > 0 {
		return exitUsage, usageError{dir + " is not empty", "name a new folder"}
	}
	quiet := &program{within: true, stdin: p.stdin, stdout: &bytes.Buffer{}, stderr: p.stderr, now: p.now, random: p.random, getenv: func(string) string { return "" }}
	sub, err := fs.Sub(templates.Jobsheets(), demoFolder)
	if err != nil {
		return exitOK, err
	}
	if err := quiet.copyFolder(sub, dir, func(string) bool { return false }); err != nil {
		return exitOK, err
	}
	return inFolder(dir, demonstration{p: p, quiet: quiet, dir: dir}.run)
}

// inFolder runs something with dir as the working folder.
func inFolder(dir string, run func() (exitCode, error)) (exitCode, error) {
	before, err := os.Getwd()
	if err != nil {
		return exitOK, err
	}
	if err := os.Chdir(dir); err != nil {
		return exitOK, err
	}
	code, err := run()
	return code, errors.Join(err, os.Chdir(before))
}

// demonstration is the demo in its folder, which is the working folder.
type demonstration struct {
	p, quiet *program
	dir      string
}

func (d demonstration) run() (exitCode, error) {
	p := d.p
	p.say("Ellery Slip Boatyard, the launch Gannet and her engines are invented.")
	p.say("")
	p.say("1. A signing key for the yard, and a buyer who trusts it")
	if err := d.step(exitOK, "key", "new", "--no-input"); err != nil {
		return exitFailed, err
	}
	const trust = "trust.yaml"
	if err := d.step(exitOK, "trust", "add", "keys/yard.pub", "--name", "Ellery Slip Boatyard", "--trust", trust); err != nil {
		return exitFailed, err
	}
	jobs, err := filepath.Glob("jobs/*.yaml")
	if err != nil {
		return exitFailed, err
	}
	p.say("2. Three jobs on the port engine, checked, signed and printed")
	for i, job := range jobs {
		if i == len(jobs)-1 {
			if err := d.step(exitOK, "attach", job, "lab-sheet.txt"); err != nil {
				return exitFailed, err
			}
		}
		if err := d.issue(job); err != nil {
			return exitFailed, err
		}
	}
	p.say("3. The label for the filter; what is due next, the sheet to take to the boat, and the year's waste")
	for _, step := range []struct {
		want exitCode
		args []string
	}{
		{exitOK, []string{"label", "gannet-port/3"}},
		{exitDecide, []string{"due", "gannet-port", "--on", "2026-10-26", "--hours", "1131.5"}},
		{exitOK, []string{"worksheet", "gannet-port", "--on", "2026-10-26", "--hours", "1131.5", "-o", "gannet-port-worksheet.pdf"}},
		{exitOK, []string{"waste", "--year", "2026"}},
	} {
		if err := d.step(step.want, step.args...); err != nil {
			return exitFailed, err
		}
	}
	p.say("4. The buyer verifies the reports, with the serial number off the engine's plate")
	if err := d.step(exitOK, "verify", "reports", "--trust", trust, "--serial", "0045120"); err != nil {
		return exitFailed, err
	}
	p.say("5. One of them in full, with the laboratory sheet that the yard sent along")
	if err := d.step(exitOK, "verify", "reports/gannet-port-0003.pdf", "--trust", trust, "--serial", "0045120", "--files", "records/gannet-port/0003"); err != nil {
		return exitFailed, err
	}
	p.say("6. All reports together: how the engine was looked after, and a statement to print")
	if err := d.step(exitDecide, "history", "reports", "--trust", trust, "--serial", "0045120", "-o", "gannet-port-history.pdf"); err != nil {
		return exitFailed, err
	}
	altered, err := d.alter()
	if err != nil {
		return exitFailed, err
	}
	p.say("7. Somebody takes 100 hours off a copy of the signed record")
	if err := d.step(exitNo, "verify", altered, "--trust", trust); err != nil {
		return exitFailed, err
	}
	p.say("The files are in %s", d.dir)
	p.say("  reports/   the PDFs: open one")
	p.say("  labels/    the sticker; gannet-port-worksheet.pdf is the sheet to take along")
	p.say("  gannet-port-history.pdf is the statement of the engine's history")
	p.say("  records/   the signed records")
	p.say("  jobs/      the job sheets that they were made from")
	p.say("In that folder, hourseal page -o verify.html writes the web page on which anybody checks them.")
	return exitOK, nil
}

// step runs one command of the program and wants it to end so.
func (d demonstration) step(want exitCode, args ...string) error {
	d.p.say("   $ hourseal %s", commandLine(args))
	var out bytes.Buffer
	run := *d.quiet
	run.stdout, run.code = &out, exitOK
	if code := run.run(append([]string{"hourseal"}, args...)); code != want {
		return fmt.Errorf("hourseal %s ended with %d, not %d: %s", commandLine(args), code, want, out.String())
	}
	for line := range bytes.Lines(out.Bytes()) {
		d.p.say("   | %s", bytes.TrimRight(line, "\n"))
	}
	if want != exitOK {
		d.p.say("   (ended with %d)", want)
	}
	d.p.say("")
	return nil
}

func commandLine(args []string) string {
	var b bytes.Buffer
	for i, arg := range args {
		if i > 0 {
			b.WriteByte(' ')
		}
		if bytes.ContainsAny([]byte(arg), " '") {
			arg = "'" + arg + "'"
		}
		b.WriteString(arg)
	}
	return b.String()
}

// issue issues a job on the evening of its day.
func (d demonstration) issue(job string) error {
	data, err := os.ReadFile(job)
	if err != nil {
		return err
	}
	parsed, err := jobsheet.ParseJob(job, data)
	if err != nil {
		return err
	}
	y, m, day := parsed.Date.YMD()
	d.quiet.now = func() time.Time { return time.Date(y, m, day, 17, 30, 0, 0, time.UTC) }
	if err := d.step(exitOK, "check", job); err != nil {
		return err
	}
	return d.step(exitOK, "issue", job, "--no-input")
}

// alter writes a copy of the last record that says 100 hours less, under the old
// signature.
func (d demonstration) alter() (string, error) {
	chain, err := openYardAt(".").ledger.Chain("gannet-port")
	if err != nil {
		return "", err
	}
	last := chain[len(chain)-1]
	signed, err := record.Encode(last.Record)
	if err != nil {
		return "", err
	}
	forged := *last.Record
	forged.Job.Hours -= 100 * quantity.Hour
	lower := *forged.Job.Meter.Reading - 100*quantity.Hour
	forged.Job.Meter.Reading = &lower
	payload, err := record.Encode(&forged)
	if err != nil {
		return "", err
	}
	altered := bytes.Replace(last.Envelope, signed, payload, 1)
	if bytes.Equal(altered, last.Envelope) {
		return "", fmt.Errorf("%s does not hold its record's bytes", last.File)
	}
	const file = "altered-copy.cose"
	return file, writeNew(file, altered, 0o644)
}
