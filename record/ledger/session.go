package ledger

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"syscall"

	"github.com/gofrs/flock"

	"hourseal/record"
	"hourseal/sign"
)

// ErrStale is returned for a checked job that does not follow the last record of
// its chain.
var ErrStale = errors.New("the job was checked against another record than the last: run the command again")

// ErrEnded is returned by a session that was closed, or whose Commit failed:
// what it knows of the chains may not be so any more.
var ErrEnded = errors.New("this session has ended: begin another")

const lockName = ".lock"

// Session is the sole right to add to the chains of some machines.
type Session struct {
	ledger Ledger
	locks  []*flock.Flock
	chains map[string][]Stored
	staged []Stored
	ended  bool
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
	folder, err := s.ledger.folder(machine)
	if err != nil {
		return err
	}
	if err := makeFolder(folder); err != nil {
		return writable(folder, err)
	}
	lock := flock.New(filepath.Join(folder, lockName))
	if err := lock.Lock(); err != nil {
		return writable(folder, fmt.Errorf("lock: %w", err))
	}
	s.locks = append(s.locks, lock)
	for _, f := range []string{folder, filepath.Join(folder, beforeName)} {
		if err := sweep(f); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return writable(folder, err)
		}
	}
	chain, err := s.ledger.chainInFull(machine)
	s.chains[machine] = chain
	return err
}

// writable says what to do where records cannot be added.
func writable(folder string, err error) error {
	if errors.Is(err, fs.ErrPermission) || errors.Is(err, syscall.EROFS) {
		return fmt.Errorf("%w: records are added to %s, make it writable for this user", err, folder)
	}
	return err
}

// Chain is a machine's records, oldest first, with those staged in this session.
func (s *Session) Chain(machine string) []Stored { return s.chains[machine] }

// Append seals a checked job as the next record of its machine and stages it.
// Nothing is stored before Commit.
func (s *Session) Append(job record.Checked, signer sign.Signer) (Stored, error) {
	if s.ended {
		return Stored{}, ErrEnded
	}
	var r *record.Record
	if job != nil {
		r = job.CheckedRecord()
	}
	if r == nil {
		return Stored{}, errors.New("no checked job to seal")
	}
	if signer == nil {
		return Stored{}, errors.New("no key to sign with")
	}
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

// Commit stores what was staged: all of it or, on an error before the first
// record has its name, nothing. After an error the session has ended.
func (s *Session) Commit() error {
	if s.ended {
		return ErrEnded
	}
	staged, err := withoutKept(s.staged)
	s.staged = nil
	s.ended = true // until all is stored
	if err != nil {
		return fmt.Errorf("nothing was stored: %w", err)
	}
	for i, next := range staged {
		if err := writeTemporary(next.File, next.Envelope); err != nil {
			discard(staged[:i+1])
			return fmt.Errorf("nothing was stored: %w", writable(filepath.Dir(next.File), err))
		}
	}
	for i, next := range staged {
		if err := s.ledger.giveName(next.File); err != nil {
			discard(staged[i:])
			if i == 0 && errors.Is(err, errNoName) {
				return fmt.Errorf("nothing was stored: %w", err)
			}
			return fmt.Errorf("not all was stored, run the same command again for the rest: %w", err)
		}
	}
	s.ended = false
	return nil
}

// withoutKept makes the folders of other yards' records, and leaves out those that are
// there already.
func withoutKept(staged []Stored) ([]Stored, error) {
	var left []Stored
	for _, next := range staged {
		if next.Before {
			there, err := makeBefore(next)
			if err != nil {
				return nil, writable(filepath.Dir(filepath.Dir(next.File)), err)
			}
			if there {
				continue
			}
		}
		left = append(left, next)
	}
	return left, nil
}

// discard removes temporary files; the next session sweeps what stays.
func discard(staged []Stored) {
	for _, s := range staged {
		_ = os.Remove(temporaryName(s.File))
	}
}

// Close gives the locks back. What was staged and not committed is dropped.
func (s *Session) Close() error {
	s.ended, s.staged = true, nil
	var errs []error
	for _, lock := range slices.Backward(s.locks) {
		errs = append(errs, lock.Close())
	}
	s.locks = nil
	return errors.Join(errs...)
}
