package list

import (
	"hourseal/record"
	"hourseal/record/quantity"
)

// Format is the version of the list format that this package writes and reads.
const Format = 1

// List is a yard's word that these are all records that it holds of a machine.
type List struct {
	Format   uint          `cbor:"1,keyasint" json:"format"`
	Machine  Machine       `cbor:"2,keyasint" json:"machine"`
	Issuer   record.Issuer `cbor:"3,keyasint" json:"issuer"`
	Ends     []End         `cbor:"4,keyasint,omitempty" json:"ends"`  // the last record of each chain; none: it holds no record
	Count    uint32        `cbor:"5,keyasint,omitempty" json:"count"` // records held, in all
	Until    quantity.Date `cbor:"6,keyasint" json:"until"`           // the day that it is complete to
	For      string        `cbor:"7,keyasint" json:"for"`             // who asked, and their reference
	IssuedAt int64         `cbor:"8,keyasint" json:"issued_at"`       // seconds since 1970, as the issuer's clock had it
}

// Machine is the machine that was asked about, as its name plate has it.
type Machine struct {
	Make   string `cbor:"1,keyasint" json:"make"`
	Model  string `cbor:"2,keyasint" json:"model"`
	Serial string `cbor:"3,keyasint" json:"serial"`
	Vessel string `cbor:"4,keyasint,omitempty" json:"vessel"`
	Hull   string `cbor:"5,keyasint,omitempty" json:"hull"` // hull identification number, as written
}

// End is the last record of a chain. Its id fixes all records before it.
type End struct {
	Number uint32    `cbor:"1,keyasint" json:"number"`
	ID     record.ID `cbor:"2,keyasint" json:"record"`
}
