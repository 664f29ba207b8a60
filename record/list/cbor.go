package list

import (
	"bytes"
	"errors"
	"fmt"
	"slices"

	"github.com/fxamacker/cbor/v2"
)

// ErrNotCanonical is returned for bytes that hold a list in another form than the one
// Encode writes.
var ErrNotCanonical = errors.New("list is not in its canonical form")

// MaxBytes is the most that an encoded list takes.
const MaxBytes = 8 << 10

var encMode = func() cbor.EncMode {
	mode, err := cbor.CoreDetEncOptions().EncMode()
	if err != nil {
		panic("list: encoder: " + err.Error()) // fixed options, tested
	}
	return mode
}()

// decMode reads in the library's strictest manner. What it lets pass (longer integers,
// another order, null for a text, a digest of another length) the comparison of bytes
// catches.
var decMode = func() cbor.DecMode {
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
		MaxNestedLevels:    4,
		MaxArrayElements:   MaxEnds,
		MaxMapPairs:        16,
	}.DecMode()
	if err != nil {
		panic("list: decoder: " + err.Error()) // fixed options, tested
	}
	return mode
}()

// Encode returns the canonical bytes of a list, after checking every value. It puts
// the ends in their order; the list itself is left as it is.
func Encode(l *List) ([]byte, error) {
	sorted := *l
	sorted.Ends = slices.SortedFunc(slices.Values(l.Ends), End.compare)
	if err := sorted.Validate(); err != nil {
		return nil, err
	}
	data, err := encMode.Marshal(&sorted)
	if err != nil {
		return nil, fmt.Errorf("encode list: %w", err)
	}
	if len(data) > MaxBytes {
		return nil, fmt.Errorf("list takes %d bytes, at most %d fit", len(data), MaxBytes)
	}
	return data, nil
}

func (e End) compare(other End) int { return bytes.Compare(e.ID[:], other.ID[:]) }

// Decode reads a list from its canonical bytes and refuses all others.
func Decode(data []byte) (*List, error) {
	if len(data) > MaxBytes {
		return nil, fmt.Errorf("list takes %d bytes, at most %d are allowed", len(data), MaxBytes)
	}
	var l List
	if err := decMode.Unmarshal(data, &l); err != nil {
		return nil, fmt.Errorf("list: %w", err)
	}
	again, err := encMode.Marshal(&l)
	if err != nil {
		return nil, fmt.Errorf("encode list: %w", err)
	}
	if !bytes.Equal(again, data) {
		return nil, ErrNotCanonical
	}
	if err := l.Validate(); err != nil {
		return nil, err
	}
	return &l, nil
}
