package main

import (
	"io"
	"strings"

	"github.com/urfave/cli/v2"
)

// examples are what each command's help shows; a test runs every one of them in
// the folder of the demonstration.
var examples = map[string]string{
	"init":           "hourseal init my-yard --no-input",
	"demo":           "hourseal demo",
	"completion":     "hourseal completion bash",
	"manual":         "hourseal manual",
	"fluid convert":  "hourseal fluid convert '2.4 US gal'",
	"fluid correct":  "hourseal fluid correct '10 L at 80 C'",
	"fluid level":    "hourseal fluid level '9.3 L at 16 C' --machine gannet-port --left '0.3 L' --at '45 C'",
	"fluid coolant":  "hourseal fluid coolant --glycol ethylene --holds '11.5 L' --reads '-18 C' --want '-25 C'",
	"fluid suits":    "hourseal fluid suits --oil 'API CK-4, 15W-40' --asked 'API CI-4, ACEA E7, 15W-40'",
	"due":            "hourseal due gannet-port --on 2026-10-26 --hours 1131.5",
	"worksheet":      "hourseal worksheet gannet-port --hours 1131.5 -o worksheet.pdf",
	"label":          "hourseal label gannet-port/3 -o label.pdf",
	"waste":          "hourseal waste --year 2026",
	"closeout":       "hourseal closeout gannet-port --from jobs/3-gannet-port-2026-10-22.yaml --no-input",
	"check":          "hourseal check jobs/3-gannet-port-2026-10-22.yaml",
	"attach":         "hourseal attach jobs/3-gannet-port-2026-10-22.yaml lab-sheet.txt",
	"issue":          "hourseal issue jobs/3-gannet-port-2026-10-22.yaml --no-input",
	"report":         "hourseal report gannet-port/3 -o report.pdf",
	"show":           "hourseal show reports/gannet-port-0003.pdf",
	"verify":         "hourseal verify reports/gannet-port-0003.pdf --trust trust.yaml --serial 0045120",
	"page":           "hourseal page -o verify.html",
	"history":        "hourseal history reports --trust trust.yaml --serial 0045120 --on 2026-09-01",
	"ledger head":    "hourseal ledger head",
	"ledger path":    "hourseal ledger path gannet-port --at 2026-10-22T18:00:00Z",
	"key new":        "hourseal key new --name second --no-input",
	"key show":       "hourseal key show",
	"key list":       "hourseal key list",
	"key renew":      "hourseal key renew --name yard-second --no-input",
	"key recovery":   "hourseal key recovery --no-input",
	"key revoke":     "hourseal key revoke --from 2029-01-01 --why retired --key keys/second",
	"trust add":      "hourseal trust add keys/yard.pub --name 'Ellery Slip Boatyard' --trust mine.yaml",
	"trust list":     "hourseal trust list --trust trust.yaml",
	"trust remove":   "hourseal trust remove 'Ellery Slip Boatyard' --trust mine.yaml",
	"machine new":    "hourseal machine new gannet-starboard-gearbox",
	"schedule new":   "hourseal schedule new generator-ellery --from diesel-generator --no-input",
	"schedule list":  "hourseal schedule list",
	"schedule show":  "hourseal schedule show diesel-inboard",
	"schedule check": "hourseal schedule check diesel-inboard-ellery",
}

func (p *program) app() *cli.App {
	app := &cli.App{
		Name: "hourseal", HelpName: "hourseal", Usage: "service records under seal", Description: aboutHourseal,
		Reader: p.stdin, Writer: p.stdout, ErrWriter: p.stderr,
		HideHelp: true, HideHelpCommand: true, HideVersion: true, // see help.go and version.go
		// A file's name may have a comma in it.
		DisableSliceFlagSeparator: true,
		Flags:                     []cli.Flag{versionFlag},
		Commands: []*cli.Command{
			p.initCommand(), p.demoCommand(), p.dueCommand(), p.worksheetCommand(), p.closeoutCommand(), p.checkCommand(), p.attachCommand(), p.issueCommand(), p.reportCommand(), p.labelCommand(), p.wasteCommand(), p.ledgerCommand(),
			p.showCommand(), p.verifyCommand(), p.historyCommand(), p.pageCommand(), p.keyCommand(), p.trustCommand(), p.machineCommand(), p.scheduleCommand(), p.fluidCommand(),
			p.completionCommand(), p.manualCommand(),
		},
		Action:         p.action(p.bare),
		OnUsageError:   misused,
		ExitErrHandler: func(*cli.Context, error) {}, // run prints errors and sets the exit code
	}
	for _, command := range app.Commands {
		p.finish(command, command.Name)
	}
	return app
}

// finish gives a command and those below it their manner of answering misuse.
func (p *program) finish(command *cli.Command, path string) {
	command.HideHelp, command.HideHelpCommand = true, true
	command.OnUsageError = misused
	if len(command.Subcommands) > 0 {
		command.Action = p.action(func(c *cli.Context) (exitCode, error) {
			if c.NArg() == 0 {
				return exitOK, p.sayHelp(documented{path, command})
			}
			return exitUsage, noSuch(command.Subcommands, c.Args().First(), path)
		})
	}
	for _, sub := range command.Subcommands {
		p.finish(sub, path+" "+sub.Name)
	}
}

// commandName is a command as it is typed after the program's name.
func commandName(c *cli.Context) string { return strings.TrimPrefix(c.Command.HelpName, "hourseal ") }

// bare answers the program without a command, and a command that there is none of.
func (p *program) bare(c *cli.Context) (exitCode, error) {
	switch {
	case c.Bool(versionFlag.Name):
		p.say("%s", versionLine())
		return exitOK, nil
	case c.NArg() == 0:
		_, err := io.WriteString(p.stdout, daily(c.App))
		return exitOK, err
	}
	return exitUsage, noSuch(c.App.Commands, c.Args().First(), "")
}

// sayHelp prints the help of a command.
func (p *program) sayHelp(d documented) error {
	_, err := io.WriteString(p.stdout, helpOf(d))
	return err
}
