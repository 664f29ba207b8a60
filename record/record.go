package record

import (
	"encoding/hex"

	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// Format is the version of the record format that this package writes and reads.
const Format = 1

// ID is the id of a record: SHA-256 of its signed envelope.
type ID [32]byte

// Digest is a SHA-256 digest.
type Digest [32]byte

// MarshalText gives the hexadecimal digits for JSON.
func (d ID) MarshalText() ([]byte, error) { return hex.AppendEncode(nil, d[:]), nil }

// MarshalText gives the hexadecimal digits for JSON.
func (d Digest) MarshalText() ([]byte, error) { return hex.AppendEncode(nil, d[:]), nil }

// Record is one signed service record.
type Record struct {
	Format    uint        `cbor:"1,keyasint" json:"format"`
	Renderer  uint        `cbor:"2,keyasint" json:"renderer"` // id of the page layout and wording it was issued with
	Paper     Paper       `cbor:"3,keyasint" json:"paper"`
	PageHost  string      `cbor:"4,keyasint,omitempty" json:"page_host"` // host of the yard's page; "" when it has none
	Kind      Kind        `cbor:"5,keyasint" json:"kind"`
	Subject   *Subject    `cbor:"6,keyasint,omitempty" json:"subject"` // the record that this one adds to, corrects or voids
	Machine   Machine     `cbor:"7,keyasint" json:"machine"`
	Job       Job         `cbor:"8,keyasint" json:"job"`
	By        By          `cbor:"9,keyasint" json:"by"`
	Previous  *Previous   `cbor:"10,keyasint,omitempty" json:"previous"` // nil for the first of a chain
	Schedule  ScheduleRef `cbor:"11,keyasint" json:"schedule"`
	Tasks     []Task      `cbor:"12,keyasint" json:"tasks"` // every task of the schedule, in its order
	OtherWork []OtherWork `cbor:"13,keyasint,omitempty" json:"other_work"`
	Fluids    []Fluid     `cbor:"14,keyasint,omitempty" json:"fluids"`
	ToppedUp  []TopUp     `cbor:"15,keyasint,omitempty" json:"topped_up"` // since the last service, as stated
	Waste     []Waste     `cbor:"16,keyasint,omitempty" json:"waste"`
	Parts     []Part      `cbor:"17,keyasint,omitempty" json:"parts"`
	LeakCheck *LeakCheck  `cbor:"18,keyasint,omitempty" json:"leak_check"`
	Findings  []Finding   `cbor:"19,keyasint,omitempty" json:"findings"`
	Notes     string      `cbor:"20,keyasint,omitempty" json:"notes"`
	Files     []File      `cbor:"21,keyasint,omitempty" json:"files"` // kept beside the record
	Issuer    Issuer      `cbor:"22,keyasint" json:"issuer"`
	Number    uint32      `cbor:"23,keyasint" json:"number"`    // in the machine's chain, from 1
	IssuedAt  int64       `cbor:"24,keyasint" json:"issued_at"` // seconds since 1970, as the issuer's clock had it
}

// Subject is the record that an addendum, correction or void is about.
type Subject struct {
	Record ID     `cbor:"1,keyasint" json:"record"`
	Why    string `cbor:"2,keyasint" json:"why"`
}

// Machine is what the name plate and the yard's machine file say.
type Machine struct {
	ID         string         `cbor:"1,keyasint" json:"id"`
	Vessel     string         `cbor:"2,keyasint,omitempty" json:"vessel"`
	Hull       string         `cbor:"3,keyasint,omitempty" json:"hull"` // hull identification number, as written
	Kind       string         `cbor:"4,keyasint" json:"kind"`
	Position   string         `cbor:"5,keyasint,omitempty" json:"position"`
	Make       string         `cbor:"6,keyasint" json:"make"`
	Model      string         `cbor:"7,keyasint" json:"model"`
	Serial     string         `cbor:"8,keyasint" json:"serial"`
	RatedPower quantity.Power `cbor:"9,keyasint,omitempty" json:"rated_power"` // W
	DrivenBy   string         `cbor:"10,keyasint,omitempty" json:"driven_by"`  // make, model and serial of the engine whose hours count
	InService  schedule.Point `cbor:"11,keyasint" json:"in_service"`
}

// Job is the visit.
type Job struct {
	Date   quantity.Date  `cbor:"1,keyasint" json:"date"`
	Hours  quantity.Hours `cbor:"2,keyasint" json:"hours"` // in total, over all meters
	Meter  Meter          `cbor:"3,keyasint" json:"meter"`
	Reason Reason         `cbor:"4,keyasint" json:"reason"`
	Place  string         `cbor:"5,keyasint,omitempty" json:"place"`
	Number string         `cbor:"6,keyasint,omitempty" json:"number"` // the yard's job number
	// SevereDuty is the severe duties of the schedule that the machine runs under
	// from here until the next record; the intervals of the tasks are shortened for them.
	SevereDuty []string `cbor:"7,keyasint,omitempty" json:"severe_duty"`
	// FuelUsed is the fuel burnt since the last service, as logged; nil: not stated.
	FuelUsed *quantity.Measured `cbor:"8,keyasint,omitempty" json:"fuel_used"`
}

// Meter is the hour meter as found: Reading where it ran, an estimate with its
// basis where it was stopped or there is none. Total hours are the reading plus
// Offset, or the estimate.
type Meter struct {
	State   MeterState      `cbor:"1,keyasint" json:"state"`
	Reading *quantity.Hours `cbor:"2,keyasint,omitempty" json:"reading"`
	Basis   string          `cbor:"3,keyasint,omitempty" json:"basis"`
	Offset  quantity.Hours  `cbor:"4,keyasint,omitempty" json:"offset"`
	Change  *MeterChange    `cbor:"5,keyasint,omitempty" json:"change"`
}

// MeterChange is a meter taken off and another fitted since the last record.
type MeterChange struct {
	RemovedAt *quantity.Hours `cbor:"1,keyasint,omitempty" json:"removed_at"` // nil: unknown
	FittedAt  quantity.Hours  `cbor:"2,keyasint" json:"fitted_at"`
	Why       string          `cbor:"3,keyasint" json:"why"`
}

// By is who did the work.
type By struct {
	Number     string `cbor:"1,keyasint,omitempty" json:"number"`
	Name       string `cbor:"2,keyasint,omitempty" json:"name"`
	Credential string `cbor:"3,keyasint,omitempty" json:"credential"`
}

// Previous cites the record before this one in the machine's chain.
type Previous struct {
	Record ID             `cbor:"1,keyasint" json:"record"`
	Date   quantity.Date  `cbor:"2,keyasint" json:"date"`
	Hours  quantity.Hours `cbor:"3,keyasint" json:"hours"` // in total
}

// ScheduleRef names the schedule that the job was checked by.
type ScheduleRef struct {
	ID      string         `cbor:"1,keyasint" json:"id"`
	Edition uint           `cbor:"2,keyasint" json:"edition"`
	Basis   schedule.Basis `cbor:"3,keyasint" json:"basis"`
	Digest  Digest         `cbor:"4,keyasint" json:"digest"` // schedule.Schedule.Digest
}

// Issuer is who signs.
type Issuer struct {
	Name    string     `cbor:"1,keyasint" json:"name"`
	Kind    IssuerKind `cbor:"2,keyasint" json:"kind"`
	Contact string     `cbor:"3,keyasint,omitempty" json:"contact"`
	Address string     `cbor:"4,keyasint,omitempty" json:"address"`
}

// File is a file kept beside the record: a photograph, a laboratory sheet.
type File struct {
	Name   string `cbor:"1,keyasint" json:"name"`
	SHA256 Digest `cbor:"2,keyasint" json:"sha256"`
}
