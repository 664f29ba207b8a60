package main

import (
	"os"
	"path/filepath"
	"strings"

	"github.com/urfave/cli/v2"

	"hourseal/render/webpage"
	"hourseal/sign"
)

func (p *program) pageCommand() *cli.Command {
	return &cli.Command{
		Name: "page", Usage: "write the web page on which anyone can check the yard's reports",
		Description: "One file that needs nothing else: put it on the yard's web host, at the address that\n" +
			"yard.yaml names as page, so that a telephone's camera on a report's code opens it with\n" +
			"the answer; or hand it out. The yard's public keys are built in. Make it again after a\n" +
			"key was renewed or revoked. From a checkout the program inside it is built with Go.",
		Flags: []cli.Flag{yardFlag,
			&cli.StringFlag{Name: "o", Usage: "write the page to `FILE`; - is standard output"},
			&cli.StringFlag{Name: "source", Usage: "build the program inside the page from hourseal's source in `DIR`"},
			&cli.StringFlag{Name: "program", Usage: "write the program inside the page to `DIR` for a release, and no page"}},
		Action: p.action(p.page),
	}
}

func (p *program) page(c *cli.Context) (exitCode, error) {
	file, dir := c.String("o"), c.String("program")
	switch {
	case c.NArg() > 0:
		return exitUsage, usageError{"page: " + c.Args().First() + " is not asked for; where the page goes stands after -o", "hourseal page -o verify.html"}
	case dir != "" && file != "":
		return exitUsage, usageError{"page: --program writes no page, so there is nothing for -o", "one of them"}
	case dir != "":
		return exitOK, p.writePageProgram(c.String("source"), dir)
	case file == "":
		return exitUsage, usageError{"page: where the page goes is missing", "hourseal page -o verify.html"}
	}
	if err := canHold(file); err != nil { // before a minute's work
		return exitUsage, err
	}
	y, err := p.openYard(c)
	if err != nil {
		return exitOK, err
	}
	maker, err := y.pageMaker()
	if err != nil {
		return exitOK, err
	}
	inside, err := p.pageProgram(c.String("source"))
	if err != nil {
		return exitOK, err
	}
	data, err := webpage.Page(maker, inside)
	if err != nil {
		return exitOK, err
	}
	if err := p.writeOutput(file, data); err != nil {
		return exitOK, err
	}
	return exitOK, p.sayPage(file, maker, len(data))
}

// canHold refuses a name that no page can be written to.
func canHold(file string) error {
	if info, err := os.Stat(file); err == nil && info.IsDir() {
		return usageError{file + " is a folder", "name a file in it: " + filepath.Join(file, "verify.html")}
	}
	if _, err := os.Stat(filepath.Dir(file)); err != nil {
		return usageError{"there is no folder " + filepath.Dir(file), "make it first, or name another"}
	}
	return mayWrite(file)
}

// pageMaker is the yard as its page knows it: each of its first keys by the yard's
// name, and its key statements, from which the later ones follow.
func (y yard) pageMaker() (webpage.Maker, error) {
	self, err := y.files.Yard()
	if err != nil {
		return webpage.Maker{}, err
	}
	statements, err := y.statements()
	if err != nil {
		return webpage.Maker{}, err
	}
	files := map[sign.PublicKey]string{}
	for file, key := range y.publicKeys() {
		files[key] = strings.TrimSuffix(filepath.Base(file), ".pub")
	}
	maker := webpage.Maker{Name: self.Name, Host: self.PageHost}
	own, _ := ownKeys(files, statements)
	for _, entry := range own {
		entry.Name = self.Name
		if maker.Trust, err = maker.Trust.Add(entry); err != nil {
			return webpage.Maker{}, err
		}
	}
	if len(maker.Trust) == 0 {
		return webpage.Maker{}, usageError{"there is no public key in the yard's keys/ to build in", "hourseal key new; for a key without its .pub file: ssh-keygen -y -f keys/yard > keys/yard.pub"}
	}
	maker.Statements, err = sign.FormatStatements(statements)
	return maker, err
}

// sayPage says what was written, and what the yard has to know of it.
func (p *program) sayPage(file string, maker webpage.Maker, size int) error {
	keys, err := webpage.KeysOf(maker)
	if err != nil {
		return err
	}
	if file != "-" {
		p.say("%s: %s's page, %.2f MB. It knows these keys:", file, maker.Name, float64(size)/1e6)
		for _, key := range keys {
			p.say("  %s  %s", key.Fingerprint, key.Counts)
		}
	}
	if maker.Host == "" {
		p.tell("yard.yaml names no page: the codes begin with hourseal:, and no telephone opens them. The page reads them all the same.")
		return nil
	}
	p.tell("Put it at https://%s/ as the page that is shown there.", maker.Host)
	return nil
}
