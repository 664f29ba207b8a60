package historytest

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"go.yaml.in/yaml/v3"

	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// Tale is one file of the library.
type Tale struct {
	Machines  map[string]*Plate `yaml:"machines"`
	Schedules []*Schedule       `yaml:"schedules"`
	Stated    map[string]Point  `yaml:"stated"`
	Yards     map[string]*Yard  `yaml:"yards"`
	Records   []*Record         `yaml:"records"`
	Lists     []*List           `yaml:"lists"`
	Heads     []*Head           `yaml:"heads"`
	Keys      []*KeyStatement   `yaml:"statements"`
	LeaveOut  []string          `yaml:"leave_out"`
	Received  map[string]Date   `yaml:"received"`
	Serial    string            `yaml:"serial"`
	On        *Date             `yaml:"on"`
	Hours     *Hours            `yaml:"hours"`
	Expect    Judgement         `yaml:"expect"`
}

// Plate is a machine; make and model are those of the Corrin 4T-75 where none is given.
type Plate struct {
	Make      string `yaml:"make"`
	Model     string `yaml:"model"`
	Serial    string `yaml:"serial"`
	InService Point  `yaml:"in_service"`
}

// Schedule is one edition of a schedule.
type Schedule struct {
	ID      string  `yaml:"id"`
	Edition uint    `yaml:"edition"`
	Basis   string  `yaml:"basis"`
	Tasks   []*Task `yaml:"tasks"`
}

// Task is one of its tasks; the next interval counts from when it was done.
type Task struct {
	ID    string   `yaml:"id"`
	Title string   `yaml:"title"`
	Kind  string   `yaml:"kind"`
	Every Interval `yaml:"every"`
	Grace Grace    `yaml:"grace"`
	Once  bool     `yaml:"once"`
}

// Yard is a signer: its key is made from the seed.
type Yard struct {
	Name    string      `yaml:"name"`
	Seed    string      `yaml:"seed"`
	Trusted bool        `yaml:"trusted"`
	From    *Date       `yaml:"from"`
	Until   *Date       `yaml:"until"`
	Revoked *Revocation `yaml:"revoked"`
}

// Revocation is what the reader's trust list says of a key.
type Revocation struct {
	From Date   `yaml:"from"`
	Why  string `yaml:"why"`
}

// Record is one record, or many by a rule. It goes on from the last of its yard (by name) and
// machine, unless After names another or says "none".
type Record struct {
	As       string          `yaml:"as"`
	Yard     string          `yaml:"yard"`
	Machine  string          `yaml:"machine"`
	Edition  uint            `yaml:"edition"`
	On       Date            `yaml:"on"`
	Hours    Hours           `yaml:"hours"`
	Issued   *Date           `yaml:"issued"`
	After    string          `yaml:"after"`
	Number   uint32          `yaml:"number"`
	Cites    *Point          `yaml:"cites"`
	Did      map[string]Did  `yaml:"did"`
	Says     map[string]Says `yaml:"says"`
	Meter    *Meter          `yaml:"meter"`
	Estimate string          `yaml:"estimate"`
	Corrects string          `yaml:"corrects"`
	Voids    string          `yaml:"voids"`
	AddsTo   string          `yaml:"adds_to"`
	Why      string          `yaml:"why"`
	Fluids   []Fluid         `yaml:"fluids"`
	Parts    []Part          `yaml:"parts"`
	Waste    []Waste         `yaml:"waste"`
	Repeat   *Repeat         `yaml:"repeat"`
}

// Repeat makes one entry many: so many in all, so far apart.
type Repeat struct {
	Times int           `yaml:"times"`
	Days  quantity.Days `yaml:"days"`
	Hours Hours         `yaml:"hours"`
}

// Did is the result of a task: one word, or with an answer. Each says that only
// every so many of a repeated record has it.
type Did struct {
	Is     string `yaml:"is"`
	Why    string `yaml:"why"`
	Advice string `yaml:"advice"`
	Owner  string `yaml:"owner"`
	Each   int    `yaml:"each"`
}

// Says is what a record says of a task where that is not what its own chain says.
type Says struct {
	Last *Point `yaml:"last"`
	Due  *struct {
		Hours *Hours `yaml:"hours"`
		Date  *Date  `yaml:"date"`
	} `yaml:"due"`
}

// Meter is what the meter reads where that does not go on from the last record's, and a change of meter.
type Meter struct {
	Reading *Hours `yaml:"reading"`
	Removed string `yaml:"removed"`
	Fitted  *Hours `yaml:"fitted"`
	Why     string `yaml:"why"`
}

// Fluid is what was drained and filled, and the oil used by the balance.
type Fluid struct {
	System  string   `yaml:"system"`
	Drained string   `yaml:"drained"`
	Filled  []string `yaml:"filled"`
	Product string   `yaml:"product"`
	Used    string   `yaml:"used"`
	Within  string   `yaml:"within"`
	Over    Hours    `yaml:"over"`
}

// Part is a part fitted.
type Part struct {
	Item   string `yaml:"item"`
	Number string `yaml:"number"`
	Serial string `yaml:"serial"`
}

// Waste is where what came out went.
type Waste struct {
	System  string `yaml:"system"`
	Amount  string `yaml:"amount"`
	To      string `yaml:"to"`
	Receipt string `yaml:"receipt"`
}

// List is a signed list of all records, which names the ends of chains.
type List struct {
	As      string   `yaml:"as"`
	Yard    string   `yaml:"yard"`
	Machine string   `yaml:"machine"`
	Ends    []string `yaml:"ends"`
	Until   Date     `yaml:"until"`
	For     string   `yaml:"for"`
}

// Head is a ledger line of a yard at the end of a day: the last records of its
// chains, and how many of other machines it has besides. Paths are those that the
// reader was given.
type Head struct {
	At       Date     `yaml:"at"`
	Ends     []string `yaml:"ends"`
	Others   int      `yaml:"others"`
	Paths    []string `yaml:"paths"`
	Received Date     `yaml:"received"`
}

// KeyStatement is a key statement, signed by the key that it is about: that another takes
// over, or that it is revoked.
type KeyStatement struct {
	About  string `yaml:"about"` // yard
	To     string `yaml:"to"`
	Why    string `yaml:"why"`
	From   Date   `yaml:"from"`
	On     Date   `yaml:"on"`
	Number uint32 `yaml:"number"`
}

// The figures of a file.
type (
	Date  quantity.Date
	Hours quantity.Hours
	// Point is "2024-03-18, 812.6 h".
	Point    schedule.Point
	Interval schedule.Interval // "200 h, 12 months"
	Grace    schedule.Leeway   // "20 h, 30 days"
)

// UnmarshalYAML reads it as people write it.
func (d *Date) UnmarshalYAML(n *yaml.Node) error {
	date, err := quantity.ParseDate(n.Value)
	*d = Date(date)
	return err
}

// UnmarshalYAML reads it as people write it.
func (h *Hours) UnmarshalYAML(n *yaml.Node) error {
	hours, err := quantity.ParseHours(strings.TrimSuffix(n.Value, " h"))
	*h = Hours(hours)
	return err
}

// UnmarshalYAML reads it as people write it.
func (p *Point) UnmarshalYAML(n *yaml.Node) error {
	date, hours, _ := strings.Cut(n.Value, ", ")
	d, err := quantity.ParseDate(date)
	if err != nil {
		return err
	}
	h, err := quantity.ParseHours(strings.TrimSuffix(hours, " h"))
	*p = Point{Date: d, Hours: h}
	return err
}

// UnmarshalYAML reads it as people write it.
func (i *Interval) UnmarshalYAML(n *yaml.Node) error {
	return eachPart(n.Value, map[string]func(string) error{
		" h":      func(s string) (err error) { i.Hours, err = quantity.ParseHours(s); return err },
		" months": func(s string) (err error) { i.Months, err = quantity.ParseMonths(s); return err },
	})
}

// UnmarshalYAML reads it as people write it.
func (l *Grace) UnmarshalYAML(n *yaml.Node) error {
	return eachPart(n.Value, map[string]func(string) error{
		" h":    func(s string) (err error) { l.Hours, err = quantity.ParseHours(s); return err },
		" days": func(s string) (err error) { l.Days, err = quantity.ParseDays(s); return err },
	})
}

func eachPart(text string, units map[string]func(string) error) error {
next:
	for _, part := range strings.Split(text, ", ") {
		for unit, set := range units {
			if figure, has := strings.CutSuffix(part, unit); has {
				if err := set(figure); err != nil {
					return err
				}
				continue next
			}
		}
		return fmt.Errorf("%q has none of the units", part)
	}
	return nil
}

// UnmarshalYAML reads it as people write it.
func (d *Did) UnmarshalYAML(n *yaml.Node) error {
	if n.Kind == yaml.ScalarNode {
		d.Is = n.Value
		return nil
	}
	type plain Did
	return n.Decode((*plain)(d))
}

// Names are the tales in a folder, without their ending.
func Names(t Reporter, folder string) []string {
	t.Helper()
	paths, err := filepath.Glob(filepath.Join(folder, "*.yaml"))
	if err != nil || len(paths) == 0 {
		t.Fatalf("no histories in %s: %v", folder, err)
	}
	var names []string
	for _, path := range paths {
		names = append(names, strings.TrimSuffix(filepath.Base(path), ".yaml"))
	}
	return names
}

// Read reads one tale of a folder.
func Read(t Reporter, folder, name string) *Tale {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(folder, name+".yaml"))
	if err != nil {
		t.Fatal(err)
	}
	var s Tale
	decoder := yaml.NewDecoder(bytes.NewReader(data))
	decoder.KnownFields(true) // a key that nobody reads is an expectation that nobody holds
	if err := decoder.Decode(&s); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return &s
}
