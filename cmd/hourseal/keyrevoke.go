package main

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"hourseal/sign"
)

func (p *program) keyRevokeCommand() *cli.Command {
	return &cli.Command{
		Name: "revoke", Usage: "say for good that a key no longer counts",
		Description: "This cannot be taken back. compromised: others have or may have the key; give the\n" +
			"earliest day on which that is possible, since reports under it count from then on for\n" +
			"nothing, and those before only where somebody else can show that they are older.\n" +
			"retired: you only no longer use it, from that day on. Signed by the key itself, or,\n" +
			"where that is gone, by the recovery key from the safe: --with FILE.",
		Flags: []cli.Flag{yardFlag, passphraseFlag, noInputFlag,
			&cli.StringFlag{Name: "from", Usage: "the first day on which it does not count, `DATE`"},
			&cli.StringFlag{Name: "why", Usage: "`REASON`: retired or compromised"},
			&cli.StringFlag{Name: "key", Usage: "the key, by `FILE` or its .pub file; else the one in yard.yaml"},
			&cli.StringFlag{Name: "with", Usage: "sign with the recovery key in `FILE`"}},
		Action: p.action(p.keyRevoke),
	}
}

func (p *program) keyRevoke(c *cli.Context) (exitCode, error) {
	y, err := p.openYard(c)
	if err != nil {
		return exitOK, err
	}
	content, err := p.revocation(c)
	if err != nil {
		return exitUsage, err
	}
	self, err := y.files.Yard()
	if err != nil {
		return exitOK, err
	}
	file := strings.TrimSuffix(c.String("key"), ".pub")
	if file == "" {
		file = y.path(self.SigningKey)
	}
	if content.Subject, err = p.publicHalf(file); err != nil {
		return exitUsage, err
	}
	statements, err := y.statements()
	if err != nil {
		return exitOK, err
	}
	with := c.String("with")
	if with != "" {
		recovery, err := p.publicHalf(with)
		if err != nil {
			return exitUsage, err
		}
		if !namedRecovery(statements, content.Subject, recovery) {
			return exitUsage, usageError{fmt.Sprintf("%s was never named as a recovery key of %s, so nobody would follow it", with, file),
				"the recovery key that hourseal key list shows"}
		}
		file = with
	}
	signer, done, err := p.signer(c, file)
	if err != nil {
		if usage := (usageError{}); with == "" && errors.As(err, &usage) {
			return exitUsage, usageError{usage.message, "where the key is gone, with the one from the safe: hourseal key revoke … --with RECOVERYKEY"}
		}
		return exitOK, err
	}
	defer done()
	content.Number = sign.NextNumber(statements, content.Subject)
	if err := y.state(content, signer); err != nil {
		return exitOK, err
	}
	p.say("revoked      %s", content.Subject.Fingerprint())
	p.say("from         %s, %s", content.From, content.Why)
	more, err := y.afterRevoking(content)
	if err != nil {
		return exitOK, err
	}
	p.sayStatements(y, more)
	return exitOK, nil
}

// revocation reads the flags.
func (p *program) revocation(c *cli.Context) (sign.StatementContent, error) {
	content := sign.StatementContent{Kind: sign.Revoke, StatedAt: p.now().Unix(), Why: sign.RevokedWhy(c.String("why"))}
	if c.NArg() > 0 {
		return content, usageError{"key revoke: which key is said by --key", "--key keys/yard"}
	}
	if content.Why != sign.WhyRetired && content.Why != sign.WhyCompromised {
		return content, usageError{"--why: is the key only no longer used, or may others have it?", "--why retired, or --why compromised"}
	}
	day, err := sign.ParseDay(c.String("from"))
	switch {
	case c.String("from") == "":
		return content, usageError{"--from is missing: from which day does the key not count?", "--from 2028-03-01"}
	case err != nil:
		return content, usageError{"--from: " + err.Error(), "--from 2028-03-01"}
	case content.Why == sign.WhyCompromised && day > sign.DayOf(p.now().Unix()):
		return content, usageError{"--from: " + day.String() + " is to come, and others may have the key now", "the earliest day on which they may have had it"}
	}
	content.From = day
	return content, nil
}

// publicHalf is the public key of a key file, beside it or in it.
func (p *program) publicHalf(file string) (sign.PublicKey, error) {
	key, err := readPublicKey(strings.TrimSuffix(file, ".pub") + ".pub")
	if !errors.Is(err, fs.ErrNotExist) {
		return key, err
	}
	data, err := p.readInput(file)
	if errors.Is(err, fs.ErrNotExist) {
		return key, usageError{"no key at " + file + ", and no " + file + ".pub", "--key FILE: the .pub file is enough, of which your customers have copies"}
	}
	if err != nil {
		return key, err
	}
	private, err := sign.ParsePrivateKey(data, nil)
	var needed *sign.PassphraseNeededError
	switch {
	case errors.As(err, &needed) && needed.Public != (sign.PublicKey{}):
		return needed.Public, nil
	case err != nil:
		return key, unusable(file, err)
	}
	return private.Public(), nil
}

func namedRecovery(statements []sign.Statement, subject, recovery sign.PublicKey) bool {
	for _, s := range statements {
		if s.Kind == sign.NamesRecovery && s.Subject == subject && s.Signer == subject && s.Other == recovery {
			return true
		}
	}
	return subject == recovery
}

// afterRevoking is what a revocation means for the yard, worked out as a customer's
// program will.
func (y yard) afterRevoking(c sign.StatementContent) (string, error) {
	if c.Why == sign.WhyRetired {
		return "Reports dated before that day still count.", nil
	}
	statements, err := y.statements()
	if err != nil {
		return "", err
	}
	ring, _ := sign.TrustList{{Name: "yard", Key: c.Subject}}.With(statements)
	words := "Reports under that key no longer count, unless somebody else can show that they are older than that day. "
	renewed := slices.ContainsFunc(statements, func(s sign.Statement) bool { return s.Kind == sign.Renew && s.Subject == c.Subject })
	switch s, _ := ring.Lookup(c.Subject); {
	case s.Next != nil:
		words += "The key that took over from it was named before that day, and stays good. "
	case renewed:
		words += "It was on or after that day that it named a new key, which a thief could have done as well: that new key is as good as ever, but your customers have to hear its fingerprint from you, and trust it anew. "
	default:
		words += "Then hourseal key new --name NEW, its name into yard.yaml, and tell your customers its fingerprint yourself: the old key can vouch for nothing now. "
	}
	return words + "Ring the customers whom it concerns.", nil
}
