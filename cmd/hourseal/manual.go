package main

import (
	"io"
	"strconv"
	"strings"

	"github.com/urfave/cli/v2"
)

func (p *program) manualCommand() *cli.Command {
	return &cli.Command{
		Name: "manual", Usage: "print the manual page, all commands and options in one",
		Description: "A page for man, hourseal(1), made from what --help says. To read it, or to keep it\nwhere man finds it:\n\n" +
			"  hourseal manual | man -l -\n" +
			"  hourseal manual > ~/.local/share/man/man1/hourseal.1",
		Action: p.action(p.manual),
	}
}

func (p *program) manual(c *cli.Context) (exitCode, error) {
	if c.NArg() > 0 {
		return exitUsage, usageError{"manual: there is one page for all commands", "hourseal help " + strings.Join(c.Args().Slice(), " ")}
	}
	_, err := io.WriteString(p.stdout, manualPage(c.App, madeOn(p.today())))
	return exitOK, err
}

// manualPage is hourseal(1) in the language of man(7), with its date.
func manualPage(app *cli.App, date string) string {
	m := &roff{}
	whole := wholeProgram(app)
	m.line(`.TH HOURSEAL 1 "` + date + `" "hourseal" "User commands"`)
	m.section("NAME")
	m.text("hourseal - " + app.Usage)
	m.section("SYNOPSIS")
	m.bold(whole.typed())
	m.text("COMMAND [OPTION...] [ARGUMENT...]")
	m.section("DESCRIPTION")
	m.described(app.Description)
	m.section("EXAMPLES")
	m.paragraph("In an empty folder:")
	m.examples(whole.example())
	m.section("COMMANDS")
	m.paragraph("Options may stand before and behind other arguments; -- ends them, and - as a file's name is standard input or output.")
	for _, d := range allCommands(app) {
		m.command(d)
	}
	m.section("OPTIONS")
	m.options(append(optionsOf(whole.Command), helpOption))
	m.section("EXIT STATUS")
	m.paragraph("Of several inputs the worst counts.")
	for _, e := range exitMeanings {
		m.item(strconv.Itoa(int(e.code)), e.meaning+".")
	}
	m.section("ENVIRONMENT")
	for _, e := range environment {
		m.item(e[0], e[1])
	}
	m.section("FILES")
	m.paragraph("In a yard folder:")
	for _, f := range filesOfYard {
		m.item(f[0], f[1])
	}
	m.paragraph("Of a reader:")
	m.item("~/.config/hourseal/trust.yaml", "whom the reader trusts, where --trust names no other file; on other systems in the folder for a user's configuration")
	m.section("SEE ALSO")
	m.bold("ssh-keygen(1), ssh-agent(1)")
	return m.String()
}

// environment is what the program looks at.
var environment = [][2]string{
	{"HOURSEAL_YARD", "the yard folder, where --yard does not name it"},
	{"SSH_AUTH_SOCK", "the ssh-agent that may hold the signing key"},
	{"NO_COLOR", "set to anything: no colours on the terminal"},
	{"TERM", "dumb: no colours on the terminal"},
	{"XDG_CONFIG_HOME", "the folder for a user's configuration, else ~/.config"},
}

// filesOfYard is what lies in a yard folder, in the order of README.
var filesOfYard = [][2]string{
	{"yard.yaml", "the yard: name, address, paper, signing key"},
	{"keys/", "the signing key and its .pub file"},
	{"keys/statements/NUMBER.cose", "what the keys say of each other, which cannot be made again: keep copies"},
	{"keys.cose", "all of those in one file, to be sent to customers"},
	{"machines/ID.yaml", "one machine each"},
	{"schedules/ID.yaml", "the yard's own service schedules"},
	{"jobs/*.yaml", "job sheets"},
	{"jobs/MACHINE-unfinished.yaml", "a job sheet that closeout is still asking about"},
	{"jobs/files/", "the files that were attached to job sheets"},
	{"records/MACHINE/NUMBER.cose", "the signed records, which cannot be made again: keep copies"},
	{"records/MACHINE/NUMBER/", "the files that go with a record: keep copies of these, too"},
	{"records/MACHINE/before/", "another yard's records, which this one's go on from"},
	{"labels/, reports/", "what was printed, and can be printed again"},
}
