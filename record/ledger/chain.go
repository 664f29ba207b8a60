package ledger

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"

	"hourseal/record"
	"hourseal/sign"
)

// Ledger is the folder of a yard's records.
type Ledger struct {
	dir  string
	link func(oldname, newname string) error // os.Link, or as a file system without links has it
}

// Open names the folder; it need not exist yet.
func Open(dir string) Ledger { return Ledger{dir: dir, link: os.Link} }

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

// numberOf is the number of a record's file, from 1; 0 for any other file, such
// as a copy that somebody made beside it.
func numberOf(name string) uint32 {
	match := numbered.FindStringSubmatch(name)
	if match == nil {
		return 0
	}
	n, err := strconv.ParseUint(match[1], 10, 32) // at most seven digits
	if err != nil || fileName(uint32(n)) != name {
		return 0
	}
	return uint32(n)
}

// folder is where a machine's records are. The machine's id is a name in the
// ledger's folder and cannot lead out of it.
func (l Ledger) folder(machine string) (string, error) {
	if machine == "" || machine[0] == '.' || !filepath.IsLocal(machine) || filepath.Base(machine) != machine {
		return "", fmt.Errorf("machine id %q is no name of a folder", machine)
	}
	return filepath.Join(l.dir, machine), nil
}

// last is the highest number among a folder's records; 0 without any.
func last(folder string) (uint32, error) {
	entries, err := os.ReadDir(folder)
	if errors.Is(err, fs.ErrNotExist) {
		return 0, nil
	}
	var highest uint32
	for _, e := range entries {
		highest = max(highest, numberOf(e.Name()))
	}
	return highest, err
}

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
		if !e.IsDir() {
			continue
		}
		// A session that stored nothing leaves an empty folder.
		highest, err := last(filepath.Join(l.dir, e.Name()))
		if err != nil {
			return nil, err
		}
		if highest > 0 {
			machines = append(machines, e.Name())
		}
	}
	return machines, nil
}

// Chain reads a machine's records, oldest first, and proves the chain. A machine
// without records has an empty chain. That the last record is missing cannot be
// seen here. A chain that is not as it was written gives a DamagedError.
func (l Ledger) Chain(machine string) ([]Stored, error) {
	folder, err := l.folder(machine)
	if err != nil {
		return nil, err
	}
	highest, err := last(folder)
	if err != nil {
		return nil, err
	}
	var chain []Stored
	// By number, not by the list: one that was made while others are being
	// stored may show a record and not the one before it.
	for n := uint32(1); n <= highest; n++ {
		file := filepath.Join(folder, fileName(n))
		envelope, err := readEnvelope(file)
		if errors.Is(err, fs.ErrNotExist) {
			return nil, &DamagedError{File: file, What: fmt.Sprintf("missing, while %s is there: bring it back from a copy", fileName(highest))}
		}
		if err != nil {
			return nil, err
		}
		stored, err := prove(file, machine, n, envelope, chain)
		if err != nil {
			return nil, err
		}
		chain = append(chain, stored)
	}
	return chain, nil
}

func fileName(number uint32) string { return fmt.Sprintf("%04d.cose", number) }

// readEnvelope reads one file, and no more of it than shows that it is too long.
func readEnvelope(file string) ([]byte, error) {
	info, err := os.Lstat(file)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() { // a pipe would be waited for
		return nil, &DamagedError{File: file, What: "not a plain file"}
	}
	f, err := os.Open(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, sign.MaxEnvelopeBytes+1))
}

// prove opens an envelope and proves that it is the next of the chain.
func prove(file, machine string, number uint32, envelope []byte, chain []Stored) (Stored, error) {
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
	case len(chain) > 0 && !follows(r, chain): // that a first record cites none, record.Decode sees to
		return Stored{}, &DamagedError{File: file, What: fmt.Sprintf("does not follow %s: one of the two was replaced", filepath.Base(chain[len(chain)-1].File))}
	}
	return Stored{File: file, ID: record.ID(sign.IDOf(envelope)), Envelope: envelope, Signer: opened.Signer, Record: r}, nil
}

// follows says whether a record is the next of a chain, by its number and by
// the record that it cites.
func follows(r *record.Record, chain []Stored) bool {
	if r.Number != uint32(len(chain)+1) {
		return false
	}
	if len(chain) == 0 {
		return r.Previous == nil
	}
	return r.Previous != nil && r.Previous.Record == chain[len(chain)-1].ID
}

// Earlier is a chain as the check takes it.
func Earlier(chain []Stored) []record.Earlier {
	list := make([]record.Earlier, len(chain))
	for i, s := range chain {
		list[i] = record.Earlier{ID: s.ID, Record: s.Record}
	}
	return list
}
