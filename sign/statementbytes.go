package sign

import (
	"bytes"
	"errors"
	"fmt"

	"github.com/fxamacker/cbor/v2"
)

const statementFormat = 1

// maxStatementBytes bounds the payload: the longest takes some 110 bytes.
const maxStatementBytes = 256

// wireStatement is the payload's map.
type wireStatement struct {
	Format   uint32 `cbor:"1,keyasint"`
	Kind     uint8  `cbor:"2,keyasint"`
	Subject  []byte `cbor:"3,keyasint"`
	Other    []byte `cbor:"4,keyasint,omitempty"`
	From     *int32 `cbor:"5,keyasint,omitempty"`
	Why      uint8  `cbor:"6,keyasint,omitempty"`
	StatedAt int64  `cbor:"7,keyasint"`
	Number   uint32 `cbor:"8,keyasint"`
}

var whyNumbers = map[RevokedWhy]uint8{WhyRetired: 1, WhyCompromised: 2}

var statementEncMode = func() cbor.EncMode {
	mode, err := cbor.CoreDetEncOptions().EncMode()
	if err != nil {
		panic("sign: encoder: " + err.Error()) // fixed options, tested
	}
	return mode
}()

// statementDecMode refuses what the comparison with the bytes encoded again would
// refuse too, and bounds the work before it.
var statementDecMode = func() cbor.DecMode {
	mode, err := cbor.DecOptions{
		DupMapKey:         cbor.DupMapKeyEnforcedAPF,
		IndefLength:       cbor.IndefLengthForbidden,
		TagsMd:            cbor.TagsForbidden,
		ExtraReturnErrors: cbor.ExtraDecErrorUnknownField,
		MaxNestedLevels:   4,
		MaxMapPairs:       16,
		MaxArrayElements:  16,
	}.DecMode()
	if err != nil {
		panic("sign: decoder: " + err.Error()) // fixed options, tested
	}
	return mode
}()

// Encode gives the payload to seal for [KeyStatementV1], after checking every
// value.
func (c StatementContent) Encode() ([]byte, error) {
	if err := c.check(); err != nil {
		return nil, fmt.Errorf("key statement: %w", err)
	}
	w := wireStatement{
		Format: statementFormat, Kind: uint8(c.Kind), Subject: c.Subject[:], Why: whyNumbers[c.Why],
		StatedAt: c.StatedAt, Number: c.Number,
	}
	if c.Kind != Revoke {
		w.Other = c.Other[:]
	}
	if c.Kind != NamesRecovery {
		w.From = new(int32(c.From))
	}
	payload, err := statementEncMode.Marshal(w)
	if err != nil {
		return nil, fmt.Errorf("key statement: %w", err)
	}
	return payload, nil
}

// decodeStatement reads a payload in its one form.
func decodeStatement(payload []byte) (StatementContent, error) {
	if len(payload) > maxStatementBytes {
		return StatementContent{}, fmt.Errorf("%d bytes, the limit is %d", len(payload), maxStatementBytes)
	}
	var w wireStatement
	if err := statementDecMode.Unmarshal(payload, &w); err != nil {
		return StatementContent{}, errors.New("not in the form of a key statement")
	}
	if w.Format != statementFormat {
		return StatementContent{}, fmt.Errorf("format %d, this program reads format %d", w.Format, statementFormat)
	}
	c := StatementContent{Kind: StatementKind(w.Kind), StatedAt: w.StatedAt, Number: w.Number}
	if copy(c.Subject[:], w.Subject) != len(w.Subject) || copy(c.Other[:], w.Other) != len(w.Other) {
		return StatementContent{}, errors.New("a key of more than 32 bytes")
	}
	if w.From != nil {
		c.From = Day(*w.From)
	}
	for why, number := range whyNumbers {
		if number == w.Why {
			c.Why = why
		}
	}
	again, err := c.Encode()
	if err != nil {
		return StatementContent{}, errors.Unwrap(err)
	}
	if !bytes.Equal(again, payload) {
		return StatementContent{}, errors.New("not in its canonical form")
	}
	return c, nil
}
