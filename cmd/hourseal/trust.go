package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/urfave/cli/v2"

	"hourseal/sign"
)

func (p *program) trustCommand() *cli.Command {
	return &cli.Command{
		Name: "trust", Usage: "whom you trust: the names that you give to keys",
		Subcommands: []*cli.Command{
			{
				Name: "add", Usage: "name a key", ArgsUsage: "PUBFILE",
				Description: "Ring the yard on a number that you found yourself and compare the fingerprint first.",
				Flags: []cli.Flag{trustFlag,
					&cli.StringFlag{Name: "name", Usage: "what you call the signer, `TEXT`"},
					&cli.StringFlag{Name: "from", Usage: "trust records issued from `DATE` on"},
					&cli.StringFlag{Name: "until", Usage: "trust records issued until `DATE`"},
					&cli.StringFlag{Name: "note", Usage: "how you came by the key, `TEXT`"}},
				Action: p.action(p.trustAdd),
			},
			{
				Name: "list", Usage: "show the list", Flags: []cli.Flag{trustFlag, jsonFlag},
				Action: p.action(p.trustShow),
			},
			{
				Name: "remove", Usage: "take a key off the list", ArgsUsage: "NAME",
				Description: "NAME is the name that you gave, or the fingerprint.",
				Flags:       []cli.Flag{trustFlag},
				Action:      p.action(p.trustRemove),
			},
		},
	}
}

// trustList reads the reader's list; none yet is an empty one.
func (p *program) trustList(c *cli.Context) (sign.TrustList, string, error) {
	file, err := trustFile(c.String(trustFlag.Name))
	if err != nil {
		return nil, "", err
	}
	data, err := p.readInput(file)
	if errors.Is(err, fs.ErrNotExist) && (c.String(trustFlag.Name) == "" || c.Command.Name == "add") {
		return nil, file, nil
	}
	if err != nil {
		return nil, file, missing(file, err)
	}
	list, err := sign.ParseTrust(data, file)
	return list, file, err
}

// trustFile is the reader's list: the file named, or the one in their configuration
// folder.
func trustFile(named string) (string, error) {
	if named != "" {
		return named, nil
	}
	folder, err := os.UserConfigDir()
	if err != nil {
		return "", usageError{"no folder for your trust list: " + err.Error(), "--trust FILE"}
	}
	return filepath.Join(folder, "hourseal", "trust.yaml"), nil
}

func (p *program) writeTrust(file string, list sign.TrustList) error {
	text, err := list.Format()
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		return err
	}
	return replaceFile(file, text)
}

func (p *program) trustAdd(c *cli.Context) (exitCode, error) {
	if err := wantArgs(c, 1, 1, "public key file"); err != nil {
		return exitUsage, err
	}
	if c.String("name") == "" {
		return exitUsage, usageError{"trust add: --name is missing: what do you call the signer?", "hourseal trust add " + c.Args().First() + " --name 'Ellery Slip Boatyard'"}
	}
	list, file, err := p.trustList(c)
	if err != nil {
		return exitOK, err
	}
	data, err := p.readInput(c.Args().First())
	if err != nil {
		return exitOK, missing(c.Args().First(), err)
	}
	key, _, err := sign.ParsePublicKey(data)
	if err != nil {
		return exitUsage, usageError{c.Args().First() + ": " + err.Error(), "give the .pub file that the yard sent"}
	}
	entry := sign.Trusted{Name: c.String("name"), Key: key, Note: c.String("note")}
	for _, bound := range []struct {
		flag string
		day  **sign.Day
	}{{"from", &entry.From}, {"until", &entry.Until}} {
		if text := c.String(bound.flag); text != "" {
			day, err := sign.ParseDay(text)
			if err != nil {
				return exitUsage, usageError{fmt.Sprintf("--%s: %v", bound.flag, err), "--" + bound.flag + " 2026-05-04"}
			}
			*bound.day = &day
		}
	}
	if list, err = list.Add(entry); err != nil {
		return exitUsage, usageError{err.Error(), "hourseal trust list"}
	}
	if err := p.writeTrust(file, list); err != nil {
		return exitOK, err
	}
	p.say("%s is now in %s as", key.Fingerprint(), file)
	p.say("  %s", entry.Name)
	p.say("Read the fingerprint to the yard over the telephone before you rely on it.")
	return exitOK, nil
}

// The JSON of "hourseal trust list", one object a key.
type trustedJSON struct {
	Name        string       `json:"name"`
	Fingerprint string       `json:"fingerprint"`
	Key         string       `json:"key"`
	From        *string      `json:"from"`
	Until       *string      `json:"until"`
	Note        *string      `json:"note"`
	Revoked     *revokedJSON `json:"revoked"`
}

type revokedJSON struct {
	From string `json:"from"`
	Why  string `json:"why"`
}

func (p *program) trustShow(c *cli.Context) (exitCode, error) {
	if err := wantNoArgs(c); err != nil {
		return exitUsage, err
	}
	list, file, err := p.trustList(c)
	if err != nil {
		return exitOK, err
	}
	if len(list) == 0 && !c.Bool(jsonFlag.Name) {
		p.say("Nobody yet. To name a yard's key: hourseal trust add PUBFILE --name TEXT")
		p.say("(%s)", file)
	}
	rows, keys := [][]string{{"from", "until", "name"}}, []string{""}
	for _, t := range list {
		if c.Bool(jsonFlag.Name) {
			if err := p.json(trustedOf(t)); err != nil {
				return exitOK, err
			}
			continue
		}
		name := t.Name
		if t.Revoked != nil {
			name += fmt.Sprintf(" (revoked from %s, %s)", t.Revoked.From, t.Revoked.Why)
		}
		rows = append(rows, []string{orDash(dayText(t.From)), orDash(dayText(t.Until)), name})
		keys = append(keys, t.Key.Fingerprint())
	}
	if len(rows) > 1 {
		p.tableWithNotes("", rows, keys)
	}
	return exitOK, nil
}

func trustedOf(t sign.Trusted) trustedJSON {
	out := trustedJSON{
		Name: t.Name, Fingerprint: t.Key.Fingerprint(), Key: t.Key.OpenSSHLine(""),
		From: dayText(t.From), Until: dayText(t.Until), Note: orNull(t.Note),
	}
	if t.Revoked != nil {
		out.Revoked = &revokedJSON{t.Revoked.From.String(), string(t.Revoked.Why)}
	}
	return out
}

func dayText(d *sign.Day) *string {
	if d == nil {
		return nil
	}
	return orNull(d.String())
}

func orDash(text *string) string {
	if text == nil {
		return "-"
	}
	return *text
}

func (p *program) trustRemove(c *cli.Context) (exitCode, error) {
	if err := wantArgs(c, 1, 1, "name or fingerprint"); err != nil {
		return exitUsage, err
	}
	list, file, err := p.trustList(c)
	if err != nil {
		return exitOK, err
	}
	list, gone, err := list.Remove(c.Args().First())
	if err != nil {
		return exitUsage, usageError{err.Error(), "hourseal trust list"}
	}
	if err := p.writeTrust(file, list); err != nil {
		return exitOK, err
	}
	p.say("%s is no longer trusted as %s.", gone.Key.Fingerprint(), gone.Name)
	return exitOK, nil
}
