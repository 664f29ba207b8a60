package jobsheet

import (
	"hourseal/record"
	"hourseal/record/fluid"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// Yard is what yard.yaml says.
type Yard struct {
	Name       string
	Kind       record.IssuerKind
	Address    string
	Contact    string
	PageHost   string // host of page; "" when the yard has none
	Paper      record.Paper
	SigningKey string            // path of the OpenSSH private key, relative to the yard folder
	Containers []quantity.Volume // sizes that the yard stocks, as written
	Extractor  quantity.Volume   // what the vacuum extractor holds; 0: the yard states none
	Margin     quantity.Ratio    // brought beyond what a job takes
	Doubt      fluid.Doubt       // what is not written is fluid.TradeDoubt's
	Style      quantity.Style    // of figures in text for people; the zero value where none is written
}

// DefaultMargin is brought beyond what a job takes, where yard.yaml does not say:
// common practice, no source.
const DefaultMargin quantity.Ratio = 50

// Machine is what a machine file says.
type Machine struct {
	ID           string
	Vessel       Vessel
	Kind         string
	Position     string
	DrivenBy     string // id of the machine whose hours count; "" when it has a meter of its own
	Make         string
	Model        string
	Serial       string
	RatedPower   quantity.Power // 0: not stated
	Schedule     string         // id
	InService    schedule.Point
	HoursPerYear quantity.Hours // expected; 0: not stated
	SevereDuty   []string       // severe duties of its schedule that it runs under
	Earlier      []Statement
	Systems      []System
	Source       Source
}

// Vessel is where the machine is.
type Vessel struct{ Name, Hull, Home string }

// Statement is what is said to have been done before the first sealed record.
type Statement struct {
	Task   string
	At     schedule.Point
	Source string // invoice, owner or none
}

// System is one fluid system of a machine.
type System struct {
	Name         string
	AtUpper      quantity.Volume // 0: unknown
	BetweenMarks quantity.Volume
	FilterHolds  quantity.Volume
	Holds        quantity.Volume
	Density      quantity.Density // at 15 degC; 0: not stated
	Viscosity    []string         // any of these
	Meets        []string         // any of these
	Glycol       string           // ethylene or propylene
	ProtectTo    *quantity.Temperature
	Drain        string // extractor or plug; "" not stated
}

// IsCoolant says whether a system holds coolant: its glycol is named, or what it has
// to protect to.
func (s System) IsCoolant() bool { return s.Glycol != "" || s.ProtectTo != nil }

// System returns the machine's system of that name.
func (m Machine) System(name string) (System, bool) {
	for _, s := range m.Systems {
		if s.Name == name {
			return s, true
		}
	}
	return System{}, false
}

// Job is one job sheet. Its parts are those of a record, as the sheet states
// them; Tasks hold only the fields that a sheet may state (ID, Result, Answer,
// LookAgain, Readings, DoneBy), and Fluids none of the machine's figures.
type Job struct {
	Machine    string
	Date       quantity.Date
	Meter      record.Meter    // Offset is left for the check
	Estimate   *quantity.Hours // where the meter is stopped or missing
	Reason     record.Reason
	Place      string
	Number     string
	SevereDuty []string           // that it runs under from this job until the next, besides those of the machine file
	FuelUsed   *quantity.Measured // since the last service, as logged; nil: not stated
	By         record.By
	Tasks      []record.Task
	OtherWork  []record.OtherWork
	Fluids     []record.Fluid
	ToppedUp   []record.TopUp
	Waste      []record.Waste
	Parts      []record.Part
	LeakCheck  *record.LeakCheck
	Files      []string // names of the files that go with the record, as [CheckFileName] has them
	Accept     []Accept
	Notes      string
	Source     Source
}

// Accept is one reason given for a finding: its code, the subject where the
// code alone would not say which finding is meant, and the reason.
type Accept struct {
	Code, Subject string
	Reason        string
	At            string // file:line:col
}

// Source remembers where each value stood in its file, so that a finding can
// point at it. Paths are keys joined by "/", list entries by their number from
// 0: "hours", "tasks/2/why", "fluids/0/level".
//
// A job that stands in no file, but was said in options, has the option for a
// path in Said, as "--filled engine-oil"; File then says what is asked about as a
// whole.
type Source struct {
	File  string
	Lines map[string]Pos
	Said  map[string]string
}

// Pos is a place in a file, both from 1; columns count runes.
type Pos struct{ Line, Col int }
