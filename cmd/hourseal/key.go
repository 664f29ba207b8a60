package main

import (
	"errors"
	"io/fs"
	"os"

	"github.com/urfave/cli/v2"
)

func (p *program) keyCommand() *cli.Command {
	return &cli.Command{
		Name: "key", Usage: "the yard's signing key: make it, renew it, revoke it",
		Subcommands: []*cli.Command{
			{
				Name: "new", Usage: "make a signing key, in keys/ of the yard folder",
				Description: "An OpenSSH ed25519 key, with its .pub file to give to whoever asks. Name it in\n" +
					"yard.yaml (signing_key) to sign with it. ssh-keygen -t ed25519 makes as good a one.",
				Flags: []cli.Flag{yardFlag, passphraseFlag, noInputFlag,
					&cli.StringFlag{Name: "name", Usage: "file name of the key, `NAME`", Value: "yard"}},
				Action: p.action(p.keyNew),
			},
			{
				Name: "show", Usage: "show the yard's public key and its fingerprint",
				Flags:  []cli.Flag{yardFlag},
				Action: p.action(p.keyShow),
			},
			p.keyListCommand(), p.keyRenewCommand(), p.keyRecoveryCommand(), p.keyRevokeCommand(),
		},
	}
}

func (p *program) keyNew(c *cli.Context) (exitCode, error) {
	if err := wantNoArgs(c); err != nil {
		return exitUsage, err
	}
	y, err := p.openYard(c)
	if err != nil {
		return exitOK, err
	}
	self, err := y.files.Yard()
	if err != nil {
		return exitOK, err
	}
	name := c.String("name")
	if err := nameOfKey(name); err != nil {
		return exitUsage, err
	}
	file := y.path("keys", name)
	key, err := p.makeKey(c, file, self.Name, newKeyPrompt)
	if err != nil {
		return exitOK, err
	}
	p.say("key          %s", file)
	p.say("public key   %s.pub", file)
	p.say("fingerprint  %s", key.Public().Fingerprint())
	return exitOK, nil
}

func (p *program) keyShow(c *cli.Context) (exitCode, error) {
	if err := wantNoArgs(c); err != nil {
		return exitUsage, err
	}
	y, err := p.openYard(c)
	if err != nil {
		return exitOK, err
	}
	self, err := y.files.Yard()
	if err != nil {
		return exitOK, err
	}
	file := y.path(self.SigningKey) + ".pub"
	key, err := readPublicKey(file)
	if err != nil {
		if errors.Is(err, fs.ErrNotExist) {
			err = usageError{"no public key at " + file, "hourseal key new, or where there is a key: ssh-keygen -y -f KEY > KEY.pub"}
		}
		return exitOK, err
	}
	private, err := os.ReadFile(y.path(self.SigningKey))
	if err == nil {
		err = sameKey(private, y.path(self.SigningKey))
	}
	if err != nil && !errors.Is(err, fs.ErrNotExist) { // ssh-agent may hold it
		return exitOK, err
	}
	p.say("%s", key.OpenSSHLine(self.Name))
	p.say("fingerprint  %s", key.Fingerprint())
	p.paragraph("", "Read the fingerprint out to whoever rings you, and print it where your customers find it.")
	return exitOK, nil
}
