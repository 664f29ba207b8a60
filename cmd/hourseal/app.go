package main

import (
	"fmt"
	"runtime/debug"
	"strings"

	"github.com/urfave/cli/v2"
)

// commandHelp is the help of one command: what it does, an example that a test
// runs, and its options.
const commandHelp = `{{.HelpName}}{{if .ArgsUsage}} {{.ArgsUsage}}{{end}}

{{.Usage}}
{{if .Description}}
{{.Description}}
{{end}}{{if .UsageText}}
Example:
  $ {{.UsageText}}
{{end}}{{if .VisibleFlags}}
Options:
{{range .VisibleFlags}}  {{.}}
{{end}}{{end}}`

const groupHelp = `{{.HelpName}} COMMAND

{{.Usage}}

Commands:
{{range .VisibleCommands}}  {{.Name}}{{"\t"}}{{.Usage}}
{{end}}
Help for each: {{.HelpName}} COMMAND --help
`

const appHelp = `hourseal: service records under seal

Takes a boat engine's service as the yard did it, checks it against the
machine's schedule and its earlier records, signs it, prints a report with a QR
code that carries it, and verifies such reports later.

Example:
  $ hourseal demo

Commands:
{{range .VisibleCommands}}  {{.Name}}{{"\t"}}{{.Usage}}
{{end}}
Help for each: hourseal COMMAND --help
`

// examples are what each command's help shows; a test runs every one of them in
// the folder of the demonstration.
var examples = map[string]string{
	"init":           "hourseal init my-yard --no-input",
	"demo":           "hourseal demo",
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
		Name: "hourseal", HelpName: "hourseal", Usage: "service records under seal",
		Version: version(),
		Reader:  p.stdin, Writer: p.stdout, ErrWriter: p.stderr,
		CustomAppHelpTemplate: appHelp,
		HideHelpCommand:       true,
		// A file's name may have a comma in it.
		DisableSliceFlagSeparator: true,
		Commands: []*cli.Command{
			p.initCommand(), p.demoCommand(), p.dueCommand(), p.worksheetCommand(), p.closeoutCommand(), p.checkCommand(), p.attachCommand(), p.issueCommand(), p.reportCommand(), p.labelCommand(), p.wasteCommand(), p.ledgerCommand(),
			p.showCommand(), p.verifyCommand(), p.historyCommand(), p.pageCommand(), p.keyCommand(), p.trustCommand(), p.machineCommand(), p.scheduleCommand(), p.fluidCommand(),
		},
		Action:         p.action(unknownCommand),
		OnUsageError:   misused,
		ExitErrHandler: func(*cli.Context, error) {}, // run prints errors and sets the exit code
	}
	for _, command := range app.Commands {
		finish(command, command.Name)
	}
	return app
}

// finish gives a command and those below it their help and their manner of
// answering misuse.
func finish(command *cli.Command, path string) {
	command.HideHelpCommand = true
	command.OnUsageError = misused
	command.CustomHelpTemplate = commandHelp
	command.UsageText = examples[path]
	for _, flag := range command.Flags {
		if b, ok := flag.(*cli.BoolFlag); ok {
			b.DisableDefaultText = true
		}
	}
	if len(command.Subcommands) > 0 {
		command.CustomHelpTemplate = groupHelp
		command.Action = func(c *cli.Context) error {
			if c.NArg() == 0 {
				return cli.ShowSubcommandHelp(c)
			}
			return noSuch(commandName(c)+" "+c.Args().First(), c.Command.Subcommands, c.Args().First(), commandName(c))
		}
	}
	for _, sub := range command.Subcommands {
		finish(sub, path+" "+sub.Name)
	}
}

// commandName is a command as it is typed after the program's name.
func commandName(c *cli.Context) string { return strings.TrimPrefix(c.Command.HelpName, "hourseal ") }

func misused(c *cli.Context, err error, _ bool) error {
	hint, flags := "hourseal --help", c.App.Flags
	if c.Command != nil && c.Command.Name != "" && c.Command.Name != "hourseal" {
		hint, flags = "hourseal "+commandName(c)+" --help", c.Command.Flags
	}
	message := err.Error()
	if typed, unknown := strings.CutPrefix(message, "flag provided but not defined: -"); unknown {
		if first := strings.TrimLeft(typed, "-"); first != "" && '0' <= first[0] && first[0] <= '9' {
			return usageError{"-" + first + " is below 0, and is taken for an option", hint}
		}
		message = "there is no option " + dashed(strings.TrimLeft(typed, "-"))
		hint += meant(strings.TrimLeft(typed, "-"), strings.TrimLeft(cli.SuggestFlag(flags, typed, false), "-"), "--")
	}
	if flag, bare := strings.CutPrefix(message, "flag needs an argument: -"); bare {
		message = dashed(strings.TrimLeft(flag, "-")) + " needs a value after it"
	}
	return usageError{message, hint}
}

// dashed is an option as it is typed: -o, --output.
func dashed(name string) string {
	if len(name) == 1 {
		return "-" + name
	}
	return "--" + name
}

// unknownCommand answers the bare program, and a command that there is none of.
func unknownCommand(c *cli.Context) (exitCode, error) {
	if c.NArg() == 0 {
		return exitOK, cli.ShowAppHelp(c)
	}
	return exitUsage, noSuch(c.Args().First(), c.App.Commands, c.Args().First(), "hourseal")
}

func noSuch(what string, commands []*cli.Command, typed, help string) error {
	hint := "hourseal --help"
	if help != "hourseal" {
		hint = "hourseal " + help + " --help"
	}
	var names []cli.Flag // the library likens names of flags, and words around those of commands
	for _, command := range commands {
		names = append(names, &cli.BoolFlag{Name: command.Name})
	}
	hint += meant(typed, strings.TrimLeft(cli.SuggestFlag(names, typed, true), "-"), "")
	return usageError{fmt.Sprintf("there is no command %q", what), hint}
}

// meant asks about the name that is nearest to what was typed. A slip seldom
// hits the first letter.
func meant(typed, near, dashes string) string {
	if typed == "" || near == "" || typed[0] != near[0] {
		return ""
	}
	return fmt.Sprintf(" (did you mean %s%s?)", dashes, near)
}

// version is the revision that the program was built from, where Go knows it.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	revision := info.Main.Version
	for _, setting := range info.Settings {
		if setting.Key == "vcs.revision" {
			revision = setting.Value
		}
	}
	return revision
}
