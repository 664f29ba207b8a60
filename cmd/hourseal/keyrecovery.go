package main

import (
	"errors"
	"io/fs"
	"os"

	"github.com/urfave/cli/v2"

	"hourseal/sign"
)

func (p *program) keyRecoveryCommand() *cli.Command {
	return &cli.Command{
		Name: "recovery", Usage: "make a recovery key for the safe, which can revoke the signing key and nothing else",
		Description: "For the day on which the signing key is lost or stolen. The signing key signs that it may.\n" +
			"--passphrase-file opens the signing key and locks the recovery key.",
		Flags:  []cli.Flag{yardFlag, passphraseFlag, noInputFlag},
		Action: p.action(p.keyRecovery),
	}
}

func (p *program) keyRecovery(c *cli.Context) (exitCode, error) {
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
	file := y.path("keys", "recovery")
	for _, there := range []string{file, file + ".pub"} {
		if _, err := os.Stat(there); !errors.Is(err, fs.ErrNotExist) {
			return exitUsage, usageError{there + " is there already: one recovery key is enough, and a renewed key keeps it", "hourseal key list"}
		}
	}
	statements, err := y.statements()
	if err != nil {
		return exitOK, err
	}
	if err := room(statements, 1); err != nil {
		return exitUsage, err
	}
	signer, done, err := p.signer(c, y.path(self.SigningKey))
	if err != nil {
		return exitOK, err
	}
	defer done()
	passphrase, err := p.newPassphrase(c, "Passphrase for the recovery key: ")
	if err != nil {
		return exitOK, err
	}
	if len(passphrase) == 0 && p.asks && !c.Bool(noInputFlag.Name) && c.String(passphraseFlag.Name) == "" {
		return exitUsage, usageError{"a recovery key needs a passphrase: whoever finds it could revoke your key", "run the command again"}
	}
	if len(passphrase) == 0 {
		p.tell("The recovery key %s has no passphrase: whoever can read the file can revoke your signing key.", file)
	}
	return exitOK, p.makeRecovery(y, self.Name, signer, passphrase)
}

// makeRecovery makes the key, has the signing key name it, and says where it goes.
func (p *program) makeRecovery(y yard, yardName string, signer sign.Signer, passphrase []byte) error {
	file := y.path("keys", "recovery")
	key, err := sign.NewKey(p.random)
	if err != nil {
		return err
	}
	statements, err := y.statements()
	if err != nil {
		return err
	}
	names, err := sealed(sign.StatementContent{
		Kind: sign.NamesRecovery, Subject: signer.Public(), Other: key.Public(),
		StatedAt: p.now().Unix(), Number: sign.NextNumber(statements, signer.Public()),
	}, signer)
	if err != nil {
		return err
	}
	if err := undisturbed(func() error {
		if err := storeKey(key, file, yardName+", recovery", passphrase); err != nil {
			return err
		}
		return y.keep(names)
	}); err != nil {
		return err
	}
	p.say("recovery key %s", file)
	p.paragraph("", "Move "+file+" to a stick in the safe, with its passphrase on paper beside it, and leave no copy here. It can revoke your signing key, and sign nothing. On the bad day: hourseal key revoke --from DATE --why compromised --with THE FILE")
	p.sayStatements(y, "A customer who has it can tell your revocation from anybody else's.")
	return nil
}
