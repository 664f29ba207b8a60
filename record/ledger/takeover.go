package ledger

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"hourseal/record"
	"hourseal/sign"
)

// NotNextError says why another yard's record is not the next of a chain.
type NotNextError struct{ What string }

func (e *NotNextError) Error() string { return e.What }

// TakeOver stages another yard's record as the next of a machine's chain: its first,
// whatever the number, or one that cites the last. One that is part of the chain
// already stays as it is. Whose record it is, and that it is of this machine, is for
// the caller to have verified; its signature is worked out here once more.
func (s *Session) TakeOver(machine string, envelope []byte) error {
	if s.ended {
		return ErrEnded
	}
	chain, ours := s.chains[machine]
	if !ours {
		return fmt.Errorf("machine %s is not part of this session", machine)
	}
	f := sealedFile{envelope: bytes.Clone(envelope), id: record.ID(sign.IDOf(envelope)), before: true}
	for _, known := range chain {
		if known.ID == f.id {
			return nil
		}
	}
	opened, err := sign.Open(sign.RecordV1, f.envelope)
	if err != nil {
		return err
	}
	r, err := record.Decode(opened.Payload)
	if err != nil {
		return err
	}
	if what := notNext(r, chain); what != "" {
		return &NotNextError{what}
	}
	f.number = r.Number
	f.path = filepath.Join(s.ledger.dir, machine, beforeName, fileName(r.Number))
	stored := Stored{File: f.path, ID: f.id, Envelope: f.envelope, Signer: opened.Signer, Record: r, Before: true}
	s.chains[machine] = append(chain[:len(chain):len(chain)], stored)
	s.staged = append(s.staged, stored)
	return nil
}

// notNext says why a record of another yard does not follow a chain; "" where it does.
func notNext(r *record.Record, chain []Stored) string {
	if len(chain) == 0 || follows(r, chain) {
		return ""
	}
	last := chain[len(chain)-1]
	const one = "a chain is one line"
	switch {
	case r.Previous == nil:
		return fmt.Sprintf("it begins a chain of its own, and this yard has records 1 to %d of the machine: %s, and two that know nothing of each other stay two", last.Record.Number, one)
	case r.Number > last.Record.Number+1:
		return fmt.Sprintf("it is record %d and cites %s, which is not here: give that one too, and all from record %d on: %s", r.Number, sign.ID(r.Previous.Record), last.Record.Number+1, one)
	default:
		return fmt.Sprintf("it is record %d and cites %s; the last here is record %d, %s: %s, and two that know nothing of each other stay two", r.Number, sign.ID(r.Previous.Record), last.Record.Number, sign.ID(last.ID), one)
	}
}

// makeBefore makes the folder for a record of another yard, and says whether the
// record is there already: a session that did not end left it, or it was kept there.
func makeBefore(next Stored) (there bool, err error) {
	kept, err := os.ReadFile(next.File)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return false, makeFolder(filepath.Dir(next.File))
	case err != nil:
		return false, err
	case !bytes.Equal(kept, next.Envelope):
		return false, fmt.Errorf("%s is another record than the one to be kept there: move it away", next.File)
	default:
		return true, nil
	}
}
