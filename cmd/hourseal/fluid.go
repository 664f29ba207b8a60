package main

import (
	"encoding/json"
	"errors"
	"strconv"
	"strings"

	"github.com/urfave/cli/v2"

	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
)

func (p *program) fluidCommand() *cli.Command {
	density := &cli.StringFlag{Name: "density", Usage: "`DENSITY` at 15 °C, as \"880 kg/m3\""}
	machine := []cli.Flag{yardFlag,
		&cli.StringFlag{Name: "machine", Usage: "`MACHINE` of the yard whose figures count"},
		&cli.StringFlag{Name: "system", Value: "engine-oil", Usage: "`SYSTEM` of that machine"}}
	return &cli.Command{
		Name: "fluid", Usage: "one sum at the bench, without a job",
		Subcommands: []*cli.Command{
			{
				Name: "convert", Usage: "a volume or a mass in the other units", ArgsUsage: "AMOUNT",
				Flags: []cli.Flag{&cli.StringFlag{Name: "to", Usage: "`UNIT` to convert to, as L or \"US qt\"; all of them if it is left out"},
					density, jsonFlag},
				Action: p.action(p.fluidConvert),
			},
			{
				Name: "correct", Usage: "the volume of an oil at another temperature", ArgsUsage: "AMOUNT...",
				Description: "An oil takes up more room when it is warm. Several amounts are added up.\n" +
					"The formula is for oil, not for coolant or water.",
				Flags: []cli.Flag{density, &cli.StringFlag{Name: "to", Value: "15 C", Usage: "`TEMPERATURE` to correct to"},
					jsonFlag},
				Action: p.action(p.fluidCorrect),
			},
			{
				Name: "level", Usage: "the level to expect after a fill", ArgsUsage: "AMOUNT...",
				Description: "By a machine of the yard, or by --at-upper and --between-marks.",
				Flags: append(machine[:3:3], density,
					&cli.StringFlag{Name: "at-upper", Usage: "`VOLUME` at the upper mark, new filter included"},
					&cli.StringFlag{Name: "between-marks", Usage: "`VOLUME` between the marks"},
					&cli.StringFlag{Name: "left", Value: "0 L", Usage: "`VOLUME` of old oil left in"},
					&cli.StringFlag{Name: "at", Value: "40 C", Usage: "`TEMPERATURE` of the oil when the level is read"},
					jsonFlag),
				Action: p.action(p.fluidLevel),
			},
			{
				Name: "coolant", Usage: "what to drain and what to add for a coolant's strength",
				Description: "What is added is neat glycol unless --add says otherwise.",
				Flags: []cli.Flag{
					&cli.StringFlag{Name: "glycol", Value: "ethylene", Usage: "`GLYCOL` that is in, ethylene or propylene"},
					&cli.StringFlag{Name: "holds", Usage: "`VOLUME` of the cooling system"},
					&cli.StringFlag{Name: "reads", Usage: "`READING` of it now, a freezing point or a strength by volume, as \"-18 C\" or \"30 %\""},
					&cli.StringFlag{Name: "want", Usage: "`READING` that is wanted, in the same manner"},
					&cli.StringFlag{Name: "add", Value: "100 %", Usage: "`STRENGTH` by volume of what is added, or neat, or water"},
					jsonFlag},
				Action: p.action(p.fluidCoolant),
			},
			{
				Name: "suits", Usage: "whether an oil suits what is asked for",
				Description: "Marks and grades with commas between them; any one mark and any one grade\nof those asked for will do.\n" +
					"Ends with 0 when it suits, with 7 when a person has to decide.",
				Flags: append(machine[:3:3],
					&cli.StringFlag{Name: "oil", Usage: "`MARKS` on the container, as \"API CK-4, 15W-40\""},
					&cli.StringFlag{Name: "asked", Usage: "`MARKS` asked for, in place of a machine's"},
					jsonFlag),
				Action: p.action(p.fluidSuits),
			},
		},
	}
}

// benchSum is one sum: what went into it, what came of it, and where it comes from.
type benchSum struct {
	Input    map[string]any `json:"input"`
	Result   map[string]any `json:"result"`
	Formula  string         `json:"formula"`
	Source   string         `json:"source"`
	Assumed  []string       `json:"assumed"`
	style    quantity.Style // of the answer, the figures and what is assumed; not of the JSON
	answer   string
	rows     [][]string // figures, each with its name
	cautions []string
}

// saySum prints a sum: the answer first.
func (p *program) saySum(c *cli.Context, s benchSum) (exitCode, error) {
	if s.Assumed == nil {
		s.Assumed = []string{}
	}
	if c.Bool(jsonFlag.Name) {
		return exitOK, p.json(s)
	}
	p.paragraph("", s.answer)
	rows := s.rows
	for _, row := range [][]string{{"formula", s.Formula}, {"source", s.Source}, {"assumed", s.style.Marked(strings.Join(s.Assumed, "; "))}} {
		if row[1] != "" {
			rows = append(rows, row)
		}
	}
	p.table("  ", rows)
	for _, caution := range s.cautions {
		p.paragraph("  ", caution)
	}
	return exitOK, nil
}

// governs stands under sums that somebody may act on.
const governs = "The maker's handbook governs."

// wanted reads a flag's value; a flag that is not there is misuse where it is needed.
func wanted[T any](c *cli.Context, flag, example string, read func(string) (T, error)) (T, error) {
	text := c.String(flag)
	if text == "" {
		var none T
		return none, usageError{"--" + flag + " is needed", "--" + flag + ` "` + example + `"`}
	}
	value, err := read(text)
	if err != nil {
		return value, usageError{"--" + flag + ": " + err.Error(), "--" + flag + ` "` + example + `"`}
	}
	return value, nil
}

// noNames refuses what stands beside the flags; it was likely meant for one of them.
func noNames(c *cli.Context, flag string) error {
	if c.NArg() == 0 {
		return nil
	}
	text := strings.Join(c.Args().Slice(), " ")
	return usageError{`"` + text + `" belongs to no option`, "--" + flag + ` "` + text + `"`}
}

// densityFlag is --density, 0 where it is left out.
func densityFlag(c *cli.Context) (quantity.Density, error) {
	if c.String("density") == "" {
		return 0, nil
	}
	return wanted(c, "density", "880 kg/m3", quantity.ParseDensity)
}

// amounts reads the arguments as one sum; an amount may stand without quotes.
func amounts(c *cli.Context, example string) (quantity.Measured, error) {
	example = "hourseal " + commandName(c) + ` "` + example + `"`
	if c.NArg() == 0 {
		return quantity.Measured{}, usageError{"no amount", example}
	}
	args := c.Args().Slice()
	whole, err := quantity.ParsePortion(strings.Join(args, " "))
	if err == nil {
		return quantity.SumOf(whole)
	}
	if _, first := quantity.ParsePortion(args[0]); first != nil {
		return quantity.Measured{}, usageError{err.Error(), example}
	}
	var portions []quantity.Portion
	for _, arg := range args {
		portion, err := quantity.ParsePortion(arg)
		if err != nil {
			return quantity.Measured{}, usageError{err.Error(), example}
		}
		portions = append(portions, portion)
	}
	sum, err := quantity.SumOf(portions...)
	if err != nil {
		return sum, usageError{err.Error(), ""}
	}
	return sum, nil
}

// ofMachine is --machine's system, and its yard; false without the flag.
func (p *program) ofMachine(c *cli.Context) (jobsheet.System, jobsheet.Yard, bool, error) {
	id := c.String("machine")
	if id == "" {
		return jobsheet.System{}, jobsheet.Yard{}, false, nil
	}
	y, err := p.openYard(c)
	if err != nil {
		return jobsheet.System{}, jobsheet.Yard{}, false, err
	}
	self, err := y.files.Yard()
	if err != nil {
		return jobsheet.System{}, jobsheet.Yard{}, false, err
	}
	m, err := y.files.Machine(id)
	if err != nil {
		return jobsheet.System{}, jobsheet.Yard{}, false, err
	}
	name := c.String("system")
	s, ok := m.System(name)
	if !ok {
		var names []string
		for _, s := range m.Systems {
			names = append(names, s.Name)
		}
		return s, self, false, usageError{m.ID + " has no system " + name, "--system " + strings.Join(names, " or --system ")}
	}
	return s, self, true, nil
}

func badSum(err error) error {
	if errors.As(err, new(usageError)) {
		return err
	}
	return usageError{err.Error(), ""}
}

// jsonNumber is a figure that is printed as it will be in JSON.
func jsonNumber(text string) json.RawMessage { return json.RawMessage(text) }

// wholePercent and wholeDegrees are figures that are known no better than that.
func wholePercent(r quantity.Ratio) json.RawMessage {
	return jsonNumber(strconv.Itoa(int(r.Whole() / (quantity.One / 100))))
}

func wholeDegrees(t quantity.Temperature) json.RawMessage {
	return jsonNumber(strconv.Itoa(int(t / quantity.Degree)))
}

// degreesSign prints the temperatures of an amount with their degree sign.
func degreesSign(amount string) string {
	return strings.TrimSuffix(strings.ReplaceAll(amount+" ", " C ", " °C "), " ")
}
