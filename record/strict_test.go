package record_test

import (
	"bytes"

	"github.com/fxamacker/cbor/v2"

	"hourseal/record"
)

// strict is the second opinion on what the reader reads: a decoder that goes by
// the struct tags, in its strictest mode. What it still lets pass (longer
// integers, order, null for a container) the comparison of bytes catches.
var strict = func() cbor.DecMode {
	mode, err := cbor.DecOptions{
		DupMapKey:          cbor.DupMapKeyEnforcedAPF,
		IndefLength:        cbor.IndefLengthForbidden,
		TagsMd:             cbor.TagsForbidden,
		ExtraReturnErrors:  cbor.ExtraDecErrorUnknownField,
		UTF8:               cbor.UTF8RejectInvalid,
		FieldNameMatching:  cbor.FieldNameMatchingCaseSensitive,
		ByteStringToString: cbor.ByteStringToStringForbidden,
		BignumTag:          cbor.BignumTagForbidden,
		NaN:                cbor.NaNDecodeForbidden,
		Inf:                cbor.InfDecodeForbidden,
		MaxNestedLevels:    8,
		MaxArrayElements:   128,
		MaxMapPairs:        32,
	}.DecMode()
	if err != nil {
		panic("strict decoder: " + err.Error())
	}
	return mode
}()

// secondRead is record.Read by the second decoder.
func secondRead(data []byte) (*record.Record, error) {
	var r record.Record
	if err := strict.Unmarshal(data, &r); err != nil {
		return nil, err
	}
	return &r, nil
}

// secondDecode is record.Decode with the second decoder in the reader's place.
func secondDecode(data []byte) (*record.Record, error) {
	r, err := secondRead(data)
	if err != nil {
		return nil, err
	}
	again, err := record.EncMode.Marshal(r)
	if err != nil || len(data) > record.MaxBytes || !bytes.Equal(again, data) || !record.FillUsualTitles(r) {
		return nil, record.ErrNotCanonical
	}
	if err := r.Validate(); err != nil {
		return nil, err
	}
	return r, nil
}
