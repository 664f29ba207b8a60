package main

import (
	"errors"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"

	"github.com/urfave/cli/v2"

	"hourseal/record/jobsheet"
	"hourseal/sign"
	"hourseal/templates"
)

func (p *program) initCommand() *cli.Command {
	return &cli.Command{
		Name: "init", Usage: "make a new yard folder: yard.yaml to fill in, a signing key, examples",
		ArgsUsage:   "DIR",
		Description: "Files that are there already stay as they are.",
		Flags:       []cli.Flag{passphraseFlag, noInputFlag},
		Action:      p.action(p.init),
	}
}

// demoFolder holds the demonstration's yard among the job sheet templates.
const demoFolder = "demo"

func (p *program) init(c *cli.Context) (exitCode, error) {
	if err := wantArgs(c, 1, 1, "folder"); err != nil {
		return exitUsage, err
	}
	dir := c.Args().First()
	if err := p.copyFolder(templates.Jobsheets(), dir, func(name string) bool {
		return name == demoFolder || strings.HasPrefix(name, demoFolder+"/")
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
	p.say("Next: fill in %s and a machine file, then", y.path(yardFile))
	p.say("  cd %s", dir)
	p.say("  hourseal check %s", filepath.FromSlash("jobs/example-oil-change.yaml"))
	return exitOK, nil
}

// initKey makes the signing key that yard.yaml names, unless it is there.
func (p *program) initKey(c *cli.Context, y yard, self jobsheet.Yard) error {
	file := y.path(self.SigningKey)
	if _, err := os.Stat(file); err == nil {
		p.say("kept         %s", file)
		return nil
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
			return err
		}
	}
	if len(passphrase) == 0 {
		p.say("recovery key none yet: hourseal key recovery makes one for the safe")
		return nil
	}
	return p.makeRecovery(y, self.Name, signer, passphrase)
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
