package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/urfave/cli/v2"

	"hourseal/sign"
)

func (p *program) keyRenewCommand() *cli.Command {
	return &cli.Command{
		Name: "renew", Usage: "make a new signing key, which the old one says takes over from today",
		Description: "Your customers' programs then know the new key by the old one. The yard signs with the\n" +
			"new key from now on. --passphrase-file opens the old key and locks the new one.",
		Flags: []cli.Flag{yardFlag, passphraseFlag, noInputFlag,
			&cli.StringFlag{Name: "name", Usage: "file name of the new key, `NAME`; else yard- and the month"}},
		Action: p.action(p.keyRenew),
	}
}

func (p *program) keyRenew(c *cli.Context) (exitCode, error) {
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
	if name == "" {
		name = "yard-" + p.now().UTC().Format("2006-01")
	}
	if err := nameOfKey(name); err != nil {
		return exitUsage, err
	}
	file := y.path("keys", name)
	if _, err := os.Stat(file); !errors.Is(err, fs.ErrNotExist) {
		return exitUsage, usageError{file + " is there already", "hourseal key renew --name ANOTHER"}
	}
	statements, err := y.statements()
	if err != nil {
		return exitOK, err
	}
	if err := room(statements, 1+recoveries(statements)); err != nil {
		return exitUsage, err
	}
	if public, err := p.publicHalf(y.path(self.SigningKey)); err == nil {
		if err := mayRenew(y, public, statements); err != nil {
			return exitUsage, err
		}
	}
	old, done, err := p.signer(c, y.path(self.SigningKey))
	if err != nil {
		return exitOK, err
	}
	defer done()
	passphrase, err := p.newPassphrase(c, newKeyPrompt)
	if err != nil {
		return exitOK, err
	}
	today := sign.DayOf(p.now().Unix())
	key, err := sign.NewKey(p.random)
	if err != nil {
		return exitOK, err
	}
	renewal, err := sealed(sign.StatementContent{
		Kind: sign.Renew, Subject: old.Public(), Other: key.Public(), From: today,
		StatedAt: p.now().Unix(), Number: sign.NextNumber(statements, old.Public()),
	}, old)
	if err != nil {
		return exitOK, err
	}
	recovery, err := p.recoveryKept(old.Public(), key, statements)
	if err != nil {
		return exitOK, err
	}
	line := "keys/" + name
	var edited bool
	var editing error
	if err := undisturbed(func() error {
		if err := storeKey(key, file, self.Name, passphrase); err != nil {
			return err
		}
		if err := y.keep(append([]sign.Statement{renewal}, recovery...)...); err != nil {
			return err
		}
		edited, editing = y.signWith(line)
		return nil
	}); err != nil {
		return exitOK, err
	}
	p.warnOfOpenKey(file, passphrase)
	for _, s := range recovery {
		p.say("The recovery key %s may revoke the new key as well.", s.Other.Fingerprint())
	}
	p.say("new key      %s", file)
	p.say("fingerprint  %s: print it where your customers find it", key.Public().Fingerprint())
	p.say("from         %s; the old key %s signs no more after that day", today, self.SigningKey)
	if edited {
		p.say("%s now has: signing_key: %s", y.path(yardFile), line)
	} else {
		p.say("Now put this line into %s in place of the one there: signing_key: %s", y.path(yardFile), line)
	}
	if editing != nil {
		return exitOK, editing
	}
	p.sayStatements(y, "Keep the old key file: with it you can still revoke that key.")
	return exitOK, nil
}

// nameOfKey refuses what is no name for a key file.
func nameOfKey(name string) error {
	if name == "" || name != filepath.Base(name) || strings.HasPrefix(name, ".") || strings.ContainsAny(name, " #:'\"\\") || name == filepath.Base(statementsFolder) {
		return usageError{fmt.Sprintf("--name: %q is no name for a file in keys/", name), "--name second"}
	}
	return nil
}

// mayRenew refuses a second renewal while the first new key is at hand, and one of a
// key that is revoked.
func mayRenew(y yard, old sign.PublicKey, statements []sign.Statement) error {
	ours := map[sign.PublicKey]string{}
	for file, key := range y.publicKeys() {
		ours[key] = strings.TrimSuffix(file, ".pub")
	}
	for _, s := range statements {
		if s.Subject != old {
			continue
		}
		switch file, have := ours[s.Other]; {
		case s.Kind == sign.Revoke:
			return usageError{fmt.Sprintf("this key is revoked from %s, %s: nobody would follow a renewal by it", s.From, s.Why),
				"hourseal key new --name NEW, name it in yard.yaml, and tell your customers its fingerprint yourself"}
		case s.Kind == sign.Renew && have:
			return usageError{"this key is renewed already, to " + file, "in yard.yaml: signing_key: keys/" + filepath.Base(file)}
		}
	}
	return nil
}

// recoveryKept are the statements that let the recovery keys of the old key recover the
// new one, too.
func (p *program) recoveryKept(old sign.PublicKey, key *sign.PrivateKey, statements []sign.Statement) ([]sign.Statement, error) {
	var kept []sign.Statement
	for _, s := range statements {
		if s.Kind != sign.NamesRecovery || s.Subject != old || s.Signer != old {
			continue
		}
		named, err := sealed(sign.StatementContent{
			Kind: sign.NamesRecovery, Subject: key.Public(), Other: s.Other,
			StatedAt: p.now().Unix(), Number: uint32(len(kept) + 1),
		}, key)
		if err != nil {
			return nil, err
		}
		kept = append(kept, named)
	}
	return kept, nil
}

// recoveries is how many recovery keys a new key may have to name, at most.
func recoveries(statements []sign.Statement) int {
	keys := map[sign.PublicKey]bool{}
	for _, s := range statements {
		if s.Kind == sign.NamesRecovery {
			keys[s.Other] = true
		}
	}
	return len(keys)
}

// publicKeys are the .pub files in keys/, by file; what is no key is passed over.
func (y yard) publicKeys() map[string]sign.PublicKey {
	keys := map[string]sign.PublicKey{}
	entries, err := os.ReadDir(y.path("keys"))
	if err != nil {
		return keys
	}
	for _, e := range entries {
		if filepath.Ext(e.Name()) != ".pub" {
			continue
		}
		if key, err := readPublicKey(y.path("keys", e.Name())); err == nil {
			keys[y.path("keys", e.Name())] = key
		}
	}
	return keys
}

// sayStatements names the file to send.
func (p *program) sayStatements(y yard, more string) {
	p.say("")
	p.paragraph("", fmt.Sprintf("Send %s to your customers and put it on your web page; it is in each report that you issue from now on. %s", y.path(statementsFile), more))
}
