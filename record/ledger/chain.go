package ledger

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"

	"hourseal/record"
	"hourseal/sign"
)

// Ledger is the folder of a yard's records.
type Ledger struct{ dir string }

// Open names the folder; it need not exist yet.
func Open(dir string) Ledger { return Ledger{dir} }

// Stored is one record of a chain, as it stands in its file.
type Stored struct {
	File     string // path of the file
	ID       record.ID
	Envelope []byte
	Signer   sign.PublicKey
	Record   *record.Record
}

// DamagedError says that a chain is not as it was written.
type DamagedError struct {
	File string // the file that is wrong or missing
	What string
	Err  error // may be nil
}

func (e *DamagedError) Error() string {
	text := e.File + ": " + e.What
	if e.Err != nil {
		text += ": " + e.Err.Error()
	}
	return text
}

func (e *DamagedError) Unwrap() error { return e.Err }

var numbered = regexp.MustCompile(`^([0-9]{4,7})\.cose$`)

// Machines lists the machines that have records, sorted.
func (l Ledger) Machines() ([]string, error) {
	entries, err := os.ReadDir(l.dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	var machines []string
	for _, e := range entries {
		if e.IsDir() {
			machines = append(machines, e.Name())
		}
	}
	return machines, nil
}

// Chain reads a machine's records, oldest first, and proves the chain. A machine
// without records has an empty chain.
func (l Ledger) Chain(machine string) ([]Stored, error) {
	folder := filepath.Join(l.dir, machine)
	entries, err := os.ReadDir(folder)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	var numbers []int
	for _, e := range entries {
		if m := numbered.FindStringSubmatch(e.Name()); m != nil {
			n, _ := strconv.Atoi(m[1]) // at most seven digits
			numbers = append(numbers, n)
		}
	}
	slices.Sort(numbers)
	var chain []Stored
	for i, n := range numbers {
		want := uint32(i + 1)
		file := filepath.Join(folder, fileName(want))
		if uint32(n) != want {
			return nil, &DamagedError{File: file, What: fmt.Sprintf("missing, while %s is there: bring it back from a copy, or make none up", fileName(uint32(n)))}
		}
		stored, err := read(file, machine, want, chain)
		if err != nil {
			return nil, err
		}
		chain = append(chain, stored)
	}
	return chain, nil
}

func fileName(number uint32) string { return fmt.Sprintf("%04d.cose", number) }

// read opens one file and proves that it is the next of the chain.
func read(file, machine string, number uint32, chain []Stored) (Stored, error) {
	envelope, err := os.ReadFile(file)
	if err != nil {
		return Stored{}, err
	}
	opened, err := sign.Open(sign.RecordV1, envelope)
	if err != nil {
		return Stored{}, &DamagedError{file, "changed since it was signed", err}
	}
	r, err := record.Decode(opened.Payload)
	if err != nil {
		return Stored{}, &DamagedError{file, "signed, but not a record of this program", err}
	}
	switch {
	case r.Machine.ID != machine:
		return Stored{}, &DamagedError{File: file, What: fmt.Sprintf("a record of machine %s", r.Machine.ID)}
	case r.Number != number:
		return Stored{}, &DamagedError{File: file, What: fmt.Sprintf("holds record number %d", r.Number)}
	case len(chain) > 0 && (r.Previous == nil || r.Previous.Record != chain[len(chain)-1].ID):
		return Stored{}, &DamagedError{File: file, What: fmt.Sprintf("does not follow %s: one of the two was replaced", filepath.Base(chain[len(chain)-1].File))}
	}
	return Stored{File: file, ID: record.ID(sign.IDOf(envelope)), Envelope: envelope, Signer: opened.Signer, Record: r}, nil
}

// Earlier is a chain as the check takes it.
func Earlier(chain []Stored) []record.Earlier {
	list := make([]record.Earlier, len(chain))
	for i, s := range chain {
		list[i] = record.Earlier{ID: s.ID, Record: s.Record}
	}
	return list
}
