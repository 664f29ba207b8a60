package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"

	"github.com/urfave/cli/v2"

	"hourseal/record/dialogue"
	"hourseal/record/jobsheet"
	pagesheet "hourseal/render/sheet"
	"hourseal/sign"
	"hourseal/templates"
)

func (p *program) initCommand() *cli.Command {
	return &cli.Command{
		Name: "init", Usage: "make a new yard folder: yard.yaml to fill in, a signing key, examples",
		ArgsUsage: "DIR",
		Description: "On a terminal it asks for the yard's name, for the passphrase of the signing key, and for\n" +
			"that of a recovery key. Files that are there already stay as they are.",
		Flags:  []cli.Flag{passphraseFlag, noInputFlag},
		Action: p.action(p.init),
	}
}

// demoFolder holds the demonstration's yard among the job sheet templates.
const demoFolder = "demo"

func (p *program) init(c *cli.Context) (exitCode, error) {
	if err := wantArgs(c, 1, 1, "folder"); err != nil {
		return exitUsage, err
	}
	dir := c.Args().First()
	named, err := p.initNamed(c, dir)
	if errors.Is(err, errEnded) {
		p.tell("The input ended. Nothing was written.")
		return exitUsage, nil
	}
	if err != nil {
		return exitOK, err
	}
	if err := p.copyFolder(templates.Jobsheets(), dir, func(name string) bool {
		return name == demoFolder || strings.HasPrefix(name, demoFolder+"/") || named && name == yardFile
	}); err != nil {
		return exitOK, err
	}
	y := openYardAt(dir)
	self, err := y.files.Yard()
	if err != nil {
		return exitOK, err
	}
	for _, folder := range []string{"schedules", "records", "reports"} {
		if err := os.MkdirAll(y.path(folder), 0o755); err != nil {
			return exitOK, err
		}
	}
	if err := p.initKey(c, y, self); err != nil {
		return exitOK, err
	}
	p.say("")
	p.say("Next: your address and the rest in %s, then", y.path(yardFile))
	p.say("  cd %s", dir)
	p.say("  hourseal check %s   tries the example job", filepath.FromSlash("jobs/example-oil-change.yaml"))
	p.say("  hourseal machine new                          makes the file of your first machine")
	p.paragraph("", "Once you have your own, delete the examples: machines/example-engine.yaml and jobs/example-*. Until then they stand in every list.")
	return exitOK, nil
}

// initNamed asks on a terminal for the yard's name and writes yard.yaml with it: the key
// has it as its comment, and .pub, which customers get, shows it. Where there is a yard.yaml
// nothing is asked, and false.
func (p *program) initNamed(c *cli.Context, dir string) (named bool, err error) {
	file := openYardAt(dir).path(yardFile)
	if _, err := os.Lstat(file); err == nil || !p.asks || c.Bool(noInputFlag.Name) {
		return false, nil
	}
	text, err := fs.ReadFile(templates.Jobsheets(), yardFile)
	if err != nil {
		return false, err
	}
	example, err := jobsheet.ParseYard(yardFile, text)
	if err != nil {
		return false, err
	}
	name := ""
	if err := p.newTypist().converse(dialogue.New(func(a *dialogue.Asker) {
		name = a.Ask(dialogue.Question{
			Key: "name", Text: "Name of your yard, as on an invoice", Offer: example.Name,
			Help: []string{"It stands on every report, in the code, and in the public key that you give to customers. What is offered is the invented yard of the examples."},
			Read: func(typed string) (string, error) {
				if err := pagesheet.CheckGlyphs(typed); err != nil {
					return "", fmt.Errorf("%w: leave it out", err)
				}
				_, err := jobsheet.RenameYard(yardFile, text, typed)
				return typed, err
			},
		})
	}), func() error { return nil }); err != nil {
		return false, err
	}
	if text, err = jobsheet.RenameYard(yardFile, text, name); err != nil {
		return false, err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return false, err
	}
	if err := writeNew(file, text, 0o644); err != nil {
		return false, err
	}
	p.say("wrote        %s", file)
	return true, nil
}

// initKey makes the signing key that yard.yaml names, unless it is there.
func (p *program) initKey(c *cli.Context, y yard, self jobsheet.Yard) error {
	file := y.path(self.SigningKey)
	if _, err := os.Stat(file); err == nil {
		p.say("kept         %s", file)
		return p.sayRecovery(y)
	}
	key, err := p.makeKey(c, file, self.Name, newKeyPrompt)
	if err != nil {
		return err
	}
	p.say("new key      %s", file)
	p.say("public key   %s.pub: give it to your customers", file)
	p.say("fingerprint  %s: print it where they find it", key.Public().Fingerprint())
	return p.offerRecovery(c, y, self, key)
}

// offerRecovery asks on a terminal for the passphrase of a recovery key, and makes
// none without one.
func (p *program) offerRecovery(c *cli.Context, y yard, self jobsheet.Yard, signer sign.Signer) error {
	var passphrase []byte
	if p.asks && !c.Bool(noInputFlag.Name) && c.String(passphraseFlag.Name) == "" {
		p.tell("A recovery key lies in the safe, and can revoke the signing key once that is lost or stolen.")
		var err error
		if passphrase, err = p.newPassphrase(c, "Passphrase for a recovery key (empty: make none now): "); err != nil {
			var differ usageError
			if errors.As(err, &differ) {
				differ.hint = "hourseal key recovery, in the yard folder: all else is made"
				err = differ
			}
			return err
		}
	}
	if len(passphrase) == 0 {
		p.say("%s", noRecovery)
		return nil
	}
	return p.makeRecovery(y, self.Name, signer, passphrase)
}

const noRecovery = "recovery key none yet: hourseal key recovery, in the yard folder, makes one for the safe"

// sayRecovery says whether the yard's keys name a recovery key.
func (p *program) sayRecovery(y yard) error {
	statements, err := y.statements()
	if err != nil {
		return err
	}
	if recoveries(statements) == 0 {
		p.say("%s", noRecovery)
	}
	return nil
}

// copyFolder writes the files of a folder that are not there yet, and says which.
func (p *program) copyFolder(from fs.FS, dir string, skip func(name string) bool) error {
	return fs.WalkDir(from, ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || skip(name) {
			return err
		}
		target := filepath.Join(dir, filepath.FromSlash(name))
		if e.IsDir() {
			return os.MkdirAll(target, 0o755)
		}
		data, err := fs.ReadFile(from, path.Clean(name))
		if err != nil {
			return err
		}
		err = writeNew(target, data, 0o644)
		if errors.Is(err, fs.ErrExist) {
			p.say("kept         %s", target)
			return nil
		}
		if err == nil {
			p.say("wrote        %s", target)
		}
		return err
	})
}
