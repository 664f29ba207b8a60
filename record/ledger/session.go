package ledger

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"

	"github.com/gofrs/flock"

	"hourseal/record"
	"hourseal/sign"
)

// ErrStale is returned for a checked job that does not follow the last record of
// its chain.
var ErrStale = errors.New("the job was checked against another record than the last")

const lockName = ".lock"

// Session is the sole right to add to the chains of some machines.
type Session struct {
	ledger Ledger
	locks  []*flock.Flock
	chains map[string][]Stored
	staged []Stored
}

// Begin locks the machines, waiting for other sessions, sweeps what a crash left
// behind, and reads the chains. Close gives the locks back.
func (l Ledger) Begin(machines []string) (*Session, error) {
	s := &Session{ledger: l, chains: map[string][]Stored{}}
	for _, machine := range slices.Compact(slices.Sorted(slices.Values(machines))) {
		if err := s.take(machine); err != nil {
			return nil, errors.Join(err, s.Close())
		}
	}
	return s, nil
}

func (s *Session) take(machine string) error {
	folder := filepath.Join(s.ledger.dir, machine)
	if err := makeFolder(folder); err != nil {
		return err
	}
	lock := flock.New(filepath.Join(folder, lockName))
	if err := lock.Lock(); err != nil {
		return fmt.Errorf("lock %s: %w", folder, err)
	}
	s.locks = append(s.locks, lock)
	if err := sweep(folder); err != nil {
		return err
	}
	chain, err := s.ledger.Chain(machine)
	s.chains[machine] = chain
	return err
}

// Chain is a machine's records, oldest first, with those staged in this session.
func (s *Session) Chain(machine string) []Stored { return s.chains[machine] }

// Append seals a checked job as the next record of its machine and stages it.
// Nothing is stored before Commit.
func (s *Session) Append(job record.Checked, signer sign.Signer) (Stored, error) {
	r := job.CheckedRecord()
	machine := r.Machine.ID
	chain, ours := s.chains[machine]
	if !ours {
		return Stored{}, fmt.Errorf("machine %s is not part of this session", machine)
	}
	if !follows(r, chain) {
		return Stored{}, ErrStale
	}
	payload, err := record.Encode(r)
	if err != nil {
		return Stored{}, err
	}
	envelope, err := sign.Seal(sign.RecordV1, payload, signer)
	if err != nil {
		return Stored{}, err
	}
	stored := Stored{
		File: filepath.Join(s.ledger.dir, machine, fileName(r.Number)),
		ID:   record.ID(sign.IDOf(envelope)), Envelope: envelope, Signer: signer.Public(), Record: r,
	}
	s.chains[machine] = append(slices.Clip(chain), stored)
	s.staged = append(s.staged, stored)
	return stored, nil
}

func follows(r *record.Record, chain []Stored) bool {
	if r.Number != uint32(len(chain)+1) {
		return false
	}
	if len(chain) == 0 {
		return true
	}
	return r.Previous != nil && r.Previous.Record == chain[len(chain)-1].ID
}

// Commit stores what was staged, all of it or, on an error before the first
// record has its name, nothing.
func (s *Session) Commit() error {
	staged := s.staged
	s.staged = nil
	for i, record := range staged {
		if err := writeTemporary(record.File, record.Envelope); err != nil {
			for _, written := range staged[:i+1] {
				_ = os.Remove(temporaryName(written.File)) // the next session sweeps what stays
			}
			return fmt.Errorf("nothing was stored: %w", err)
		}
	}
	for _, record := range staged {
		if err := giveName(record.File); err != nil {
			return fmt.Errorf("run the same command again to store the rest: %w", err)
		}
	}
	return nil
}

// Close gives the locks back. What was staged and not committed is dropped.
func (s *Session) Close() error {
	var errs []error
	for _, lock := range slices.Backward(s.locks) {
		errs = append(errs, lock.Close())
	}
	s.locks = nil
	return errors.Join(errs...)
}
