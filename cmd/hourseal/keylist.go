package main

import (
	"bytes"
	"maps"
	"path/filepath"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"hourseal/sign"
)

func (p *program) keyListCommand() *cli.Command {
	return &cli.Command{
		Name: "list", Usage: "show the yard's keys and how each stands today",
		Flags:  []cli.Flag{yardFlag},
		Action: p.action(p.keyList),
	}
}

func (p *program) keyList(c *cli.Context) (exitCode, error) {
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
	statements, err := y.statements()
	if err != nil {
		return exitOK, err
	}
	files := map[sign.PublicKey]string{}
	for file, key := range y.publicKeys() {
		files[key] = strings.TrimSuffix(filepath.Base(file), ".pub")
	}
	trust, recovery := ownKeys(files, statements)
	ring, ignored := trust.With(statements)
	signing := filepath.Base(self.SigningKey)
	rows, prints := [][]string{{"state", "from", "until", "file in keys/"}}, []string{""}
	for _, key := range inFileOrder(files, statements) {
		name := files[key]
		if recovery[key] {
			rows = append(rows, []string{"recovery", "-", "-", name})
			prints = append(prints, key.Fingerprint())
			continue
		}
		s, _ := ring.Lookup(key)
		state := s.StateOn(sign.DayOf(p.now().Unix())).String()
		switch {
		case !s.Known():
			state = "no key vouches for it"
		case s.Trusted.Revoked != nil:
			state = string(s.Trusted.Revoked.Why) + " from " + s.Trusted.Revoked.From.String()
		}
		if name == signing {
			name += " (signs)"
		}
		rows = append(rows, []string{state, orDash(dayText(s.Trusted.From)), orDash(dayText(s.Trusted.Until)), name})
		prints = append(prints, key.Fingerprint())
	}
	if len(rows) == 1 {
		p.say("No keys yet: hourseal key new")
		return exitOK, nil
	}
	p.tableWithNotes("", rows, prints)
	for _, i := range ignored {
		p.paragraph("", "Not counted: "+i.String()+".")
	}
	return exitOK, nil
}

// ownKeys is a list that trusts each of the yard's first keys, and which keys are
// for recovery.
func ownKeys(files map[sign.PublicKey]string, statements []sign.Statement) (sign.TrustList, map[sign.PublicKey]bool) {
	later, recovery := map[sign.PublicKey]bool{}, map[sign.PublicKey]bool{}
	for _, s := range statements {
		later[s.Other] = later[s.Other] || s.Kind == sign.Renew
		recovery[s.Other] = recovery[s.Other] || s.Kind == sign.NamesRecovery
	}
	var trust sign.TrustList
	for _, key := range inFileOrder(files, statements) {
		if !later[key] && !recovery[key] {
			trust = append(trust, sign.Trusted{Name: "yard", Key: key})
		}
	}
	return trust, recovery
}

// inFileOrder are the yard's keys by file name; those without a file come last.
func inFileOrder(files map[sign.PublicKey]string, statements []sign.Statement) []sign.PublicKey {
	keys := map[sign.PublicKey]bool{}
	for key := range files {
		keys[key] = true
	}
	for _, s := range statements {
		keys[s.Subject] = true
		if s.Kind != sign.Revoke {
			keys[s.Other] = true
		}
	}
	return slices.SortedFunc(maps.Keys(keys), func(a, b sign.PublicKey) int {
		switch first, second := files[a], files[b]; {
		case first == second:
			return bytes.Compare(a[:], b[:])
		case first == "" || second != "" && second < first:
			return 1
		default:
			return -1
		}
	})
}
