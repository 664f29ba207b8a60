package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"

	"github.com/urfave/cli/v2"

	"hourseal/record/jobsheet"
	"hourseal/sign"
)

// The yard's key statements stand in keys/statements, one a file, numbered as they
// were made and never changed. keys.cose in the yard folder is all of them, to be
// sent; it is made again whenever one is added.
const (
	statementsFolder = "keys/statements"
	statementsFile   = "keys.cose"
)

// statements reads the yard's key statements, by number; none where there are none,
// and outside a yard folder.
func (y yard) statements() ([]sign.Statement, error) {
	if y.dir == "" {
		return nil, nil
	}
	files, err := filepath.Glob(filepath.Join(escapeGlob(y.path(statementsFolder)), "[0-9]*.cose"))
	if err != nil {
		return nil, err
	}
	var statements []sign.Statement
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			return nil, err
		}
		s, err := sign.ReadStatement(data)
		if err != nil {
			return nil, usageError{fmt.Sprintf("%s: not a key statement as it was made: %v", file, err), "put the file back from your backup"}
		}
		statements = append(statements, s)
	}
	return statements, nil
}

// escapeGlob makes a folder's name mean itself in a pattern.
func escapeGlob(folder string) string {
	return regexp.MustCompile(`[*?\[\\]`).ReplaceAllStringFunc(folder, func(c string) string {
		if filepath.Separator == '\\' {
			return c // no escapes there
		}
		return `\` + c
	})
}

// statementsFor is the keys.cose of a report signed by that key: all that the yard
// states of its keys, where that key is one of those. nil for nothing.
func (y yard) statementsFor(signer sign.PublicKey) ([]byte, error) {
	statements, err := y.statements()
	if err != nil {
		return nil, err
	}
	for _, s := range statements {
		if s.Subject == signer || s.Kind == sign.Renew && s.Other == signer {
			return sign.FormatStatements(statements)
		}
	}
	return nil, nil
}

// signingKey opens the key that yard.yaml names, and refuses one that the yard has
// revoked: what it signs counts for nothing.
func (p *program) signingKey(c *cli.Context, y yard, file string) (sign.Signer, func(), error) {
	signer, done, err := p.signer(c, y.path(file))
	if err != nil {
		return nil, done, err
	}
	statements, err := y.statements()
	if err == nil {
		ring, _ := sign.TrustList{{Name: "yard", Key: signer.Public()}}.With(statements)
		s, _ := ring.Lookup(signer.Public())
		if revoked := s.Trusted.Revoked; revoked != nil && sign.DayOf(p.now().Unix()) >= revoked.From {
			err = usageError{fmt.Sprintf("%s is revoked from %s, %s: what it signs counts for nothing", file, revoked.From, revoked.Why),
				"hourseal key new --name NEW, then signing_key: keys/NEW in yard.yaml"}
		}
	}
	if err != nil {
		done()
		return nil, func() {}, err
	}
	return signer, done, nil
}

// state seals a statement, keeps it and writes keys.cose anew.
func (y yard) state(content sign.StatementContent, signer sign.Signer) error {
	made, err := sealed(content, signer)
	if err != nil {
		return err
	}
	return y.keep(made)
}

// sealed makes a statement of what it says. An agent may ask a person first.
func sealed(content sign.StatementContent, signer sign.Signer) (sign.Statement, error) {
	payload, err := content.Encode()
	if err != nil {
		return sign.Statement{}, err
	}
	envelope, err := sign.Seal(sign.KeyStatementV1, payload, signer)
	if err != nil {
		return sign.Statement{}, err
	}
	return sign.ReadStatement(envelope)
}

// keep keeps further statements, and writes keys.cose anew.
func (y yard) keep(made ...sign.Statement) error {
	statements, err := y.statements()
	if err != nil {
		return err
	}
	all, err := sign.FormatStatements(append(statements, made...))
	if err != nil {
		return err
	}
	if err := os.MkdirAll(y.path(statementsFolder), 0o700); err != nil {
		return err
	}
	return undisturbed(func() error {
		for n := len(statements) + 1; len(made) > 0; n++ {
			err := writeNew(y.path(statementsFolder, fmt.Sprintf("%04d.cose", n)), made[0].Envelope, 0o644)
			if errors.Is(err, fs.ErrExist) {
				continue
			}
			if err != nil {
				return err
			}
			made = made[1:]
		}
		return replaceFile(y.path(statementsFile), all)
	})
}

var signingKeyLine = regexp.MustCompile(`(?m)^signing_key:[ ]*([^ #\r\n]+)`)

// signWith puts another key into the one line of yard.yaml that names it; false
// where that line is not as init wrote it, and nothing is changed.
func (y yard) signWith(key string) (bool, error) {
	file := y.path(yardFile)
	before, err := os.ReadFile(file)
	if err != nil {
		return false, err
	}
	places := signingKeyLine.FindAllSubmatchIndex(before, -1)
	if len(places) != 1 {
		return false, nil
	}
	from, to := places[0][2], places[0][3]
	after := string(before[:from]) + key + string(before[to:])
	if read, err := jobsheet.ParseYard(file, []byte(after)); err != nil || read.SigningKey != key {
		return false, nil
	}
	return true, replaceFile(file, []byte(after))
}

// keyStatements reads the files of --keys.
func (p *program) keyStatements(c *cli.Context) ([]sign.Statement, error) {
	var all []sign.Statement
	for _, file := range c.StringSlice(keysFlag.Name) {
		data, err := p.readInput(file)
		if err != nil {
			return nil, missing(file, err)
		}
		statements, err := sign.ParseStatements(data)
		if err != nil {
			return nil, usageError{file + ": " + err.Error(), "the file keys.cose as the yard sent it"}
		}
		all = append(all, statements...)
	}
	return all, nil
}

// keptStatements takes key statements that lie in a folder beside reports out of what
// is to be verified, to be followed instead; a file that was named itself is answered
// for as it is, and so is one that cannot be read.
func (p *program) keptStatements(named, inputs []string) (rest []string, statements []sign.Statement) {
	for _, input := range inputs {
		if (filepath.Base(input) == statementsFile || filepath.Base(filepath.Dir(input)) == filepath.Base(statementsFolder)) && !slices.Contains(named, input) {
			if data, err := p.readInput(input); err == nil {
				if found, err := sign.ParseStatements(data); err == nil {
					p.tell("The key statements in %s are followed.", input)
					statements = append(statements, found...)
					continue
				}
			}
		}
		rest = append(rest, input)
	}
	return rest, statements
}

// keptForRevocations are the places in keys.cose that renewals and recovery keys
// leave free: a full file must never keep a yard from revoking a key.
const keptForRevocations = 4

// room refuses to add so many statements that are no revocations where there is no
// room for them.
func room(statements []sign.Statement, more int) error {
	if len(statements)+more <= sign.MaxStatements-keptForRevocations {
		return nil
	}
	return usageError{fmt.Sprintf("there are %d key statements, a file holds %d, and the last %d are kept for revocations", len(statements), sign.MaxStatements, keptForRevocations),
		"hourseal key new --name NEW, name it in yard.yaml, and tell your customers its fingerprint yourself"}
}
