package ledger

import (
	"fmt"
	"path/filepath"
	"slices"

	"hourseal/record"
	"hourseal/sign"
)

// proveEach opens every envelope and proves that each record follows the one
// before it. readErr is what kept the next file from being read; a fault in the
// files before it comes first.
func proveEach(machine string, files []sealedFile, readErr error) ([]Stored, error) {
	var chain []Stored
	for i, f := range files {
		opened, err := sign.Open(sign.RecordV1, f.envelope)
		if err != nil {
			return nil, &DamagedError{f.path, "changed since it was signed", err}
		}
		stored, err := f.stored(opened, record.Decode, machine)
		if err != nil {
			return nil, err
		}
		if i > 0 && !follows(stored.Record, chain) { // what a first record cites none of, or is not at hand
			return nil, &DamagedError{File: f.path, What: fmt.Sprintf("does not follow %s: one of the two was replaced", filepath.Base(files[i-1].path))}
		}
		chain = append(chain, stored)
	}
	if readErr != nil {
		return nil, readErr
	}
	return chain, nil
}

// proveByLast proves the same from the last record backwards, as the package
// comment says under Proof: only the last of a key's records needs its signature
// worked out. It is not ok as soon as anything is wrong; what, it does not say.
func proveByLast(machine string, files []sealedFile) ([]Stored, bool) {
	if len(files) == 0 {
		return nil, true
	}
	chain := make([]Stored, len(files))
	var next *Stored
	for i, f := range slices.Backward(files) {
		if next != nil && !cites(next.Record, f.id) {
			return nil, false
		}
		opened, err := sign.Unproven(f.envelope)
		decode := record.DecodeAgain // its signer's session took it
		if err == nil && (next == nil || opened.Signer != next.Signer) {
			opened, err = sign.Open(sign.RecordV1, f.envelope)
			decode = record.Decode
		}
		if err != nil {
			return nil, false
		}
		stored, err := f.stored(opened, decode, machine)
		if err != nil {
			return nil, false
		}
		chain[i] = stored
		next = &chain[i]
	}
	return chain, true
}

// stored decodes what an envelope holds, and proves that it is the machine's
// record of that number. Another yard calls the machine as it likes.
func (f sealedFile) stored(opened sign.Opened, decode func([]byte) (*record.Record, error), machine string) (Stored, error) {
	r, err := decode(opened.Payload)
	switch {
	case err != nil:
		return Stored{}, &DamagedError{f.path, "signed, but not a record of this program", err}
	case r.Machine.ID != machine && !f.before:
		return Stored{}, &DamagedError{File: f.path, What: fmt.Sprintf("a record of machine %s", r.Machine.ID)}
	case r.Number != f.number:
		return Stored{}, &DamagedError{File: f.path, What: fmt.Sprintf("holds record number %d", r.Number)}
	}
	return Stored{File: f.path, ID: f.id, Envelope: f.envelope, Signer: opened.Signer, Record: r, Before: f.before}, nil
}

// follows says whether a record is the next of a chain, by its number and by
// the record that it cites.
func follows(r *record.Record, chain []Stored) bool {
	if len(chain) == 0 {
		return r.Number == 1 && r.Previous == nil
	}
	last := chain[len(chain)-1]
	return r.Number == last.Record.Number+1 && cites(r, last.ID)
}

// cites says whether a record names another as the one before it.
func cites(r *record.Record, id record.ID) bool { return r.Previous != nil && r.Previous.Record == id }
