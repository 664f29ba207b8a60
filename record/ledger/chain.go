package ledger

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"

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
	Before   bool // another yard's, whose chain this yard went on with
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

// numberOf is the number of a record's file, from 1; 0 for any other file, such
// as a copy that somebody made beside it.
func numberOf(name string) uint32 {
	digits, is := strings.CutSuffix(name, extension)
	n, err := strconv.ParseUint(digits, 10, 32)
	if !is || err != nil || n > maxNumber || fileName(uint32(n)) != name {
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

// listing is what a folder's list says of its records.
type listing struct {
	lowest, highest uint32          // numbers; 0 without any
	plain           map[uint32]bool // the files there are, and which are plain
	before          bool            // there may be records of other yards
}

func list(folder string) (listing, error) {
	entries, err := os.ReadDir(folder)
	if errors.Is(err, fs.ErrNotExist) {
		return listing{}, nil
	}
	found := listing{plain: make(map[uint32]bool, len(entries))}
	for _, e := range entries {
		if n := numberOf(e.Name()); n > 0 {
			if found.lowest == 0 || n < found.lowest {
				found.lowest = n
			}
			found.highest = max(found.highest, n)
			found.plain[n] = e.Type().IsRegular()
		}
		found.before = found.before || e.Name() == beforeName
	}
	return found, err
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
		found, err := list(filepath.Join(l.dir, e.Name()))
		if err != nil {
			return nil, err
		}
		if found.highest > 0 {
			machines = append(machines, e.Name())
		}
	}
	return machines, nil
}

// Chain reads a machine's records, oldest first, and proves the chain, as the
// package comment says under Proof. A machine without records has an empty
// chain. That the last record is missing cannot be seen here. A chain that is
// not as it was written gives a DamagedError.
func (l Ledger) Chain(machine string) ([]Stored, error) {
	files, err := l.read(machine)
	if err == nil {
		if chain, ok := proveByLast(machine, files); ok {
			return chain, nil
		}
	}
	return proveEach(machine, files, err) // and so name the file that is wrong
}

// chainInFull is Chain with every signature worked out: what a session adds to.
func (l Ledger) chainInFull(machine string) ([]Stored, error) {
	files, err := l.read(machine)
	return proveEach(machine, files, err)
}

// sealedFile is a file that was read, and not yet looked into.
type sealedFile struct {
	path     string
	number   uint32
	before   bool
	envelope []byte
	id       record.ID
}

// read reads a machine's files, oldest first. With an error it gives those that
// were read before.
func (l Ledger) read(machine string) ([]sealedFile, error) {
	folder, err := l.folder(machine)
	if err != nil {
		return nil, err
	}
	found, err := list(folder)
	if err != nil {
		return nil, err
	}
	var others listing // those of other yards that the chain went on with
	first := uint32(1)
	if found.before && found.highest > 0 {
		if others, err = list(filepath.Join(folder, beforeName)); err != nil {
			return nil, err
		}
		if others.lowest > 0 && others.lowest < found.highest {
			first = min(others.lowest, found.lowest)
		}
	}
	var files []sealedFile
	// By number, not by the list: one that was made while others are being
	// stored may show a record and not the one before it.
	room := make([]byte, sign.MaxEnvelopeBytes+1) // one byte more, so that one behind it is seen
	for n := first; n <= found.highest; n++ {
		path, plain, before := filepath.Join(folder, fileName(n)), found.plain[n], false
		if _, own := found.plain[n]; !own {
			if _, other := others.plain[n]; other {
				path, plain, before = filepath.Join(folder, beforeName, fileName(n)), others.plain[n], true
			}
		}
		envelope, err := readEnvelope(path, plain, room)
		if errors.Is(err, fs.ErrNotExist) {
			return files, &DamagedError{File: path, What: fmt.Sprintf("missing, while %s is there: bring it back from a copy", fileName(found.highest))}
		}
		if err != nil {
			return files, err
		}
		files = append(files, sealedFile{path, n, before, envelope, record.ID(sign.IDOf(envelope))})
	}
	return files, nil
}

// A record's file is named for its number, of four digits or more.
const (
	extension = ".cose"
	maxNumber = 9_999_999
)

// beforeName is the folder, in that of a machine, of other yards' records that its
// chain went on with.
const beforeName = "before"

func fileName(number uint32) string { return fmt.Sprintf("%04d", number) + extension }

// readEnvelope reads one file, and no more of it than there is room for. One that
// is not known to be a plain file is looked at first: a pipe would be waited for.
func readEnvelope(file string, plain bool, room []byte) ([]byte, error) {
	if !plain {
		info, err := os.Lstat(file)
		if err != nil {
			return nil, err
		}
		if !info.Mode().IsRegular() {
			return nil, &DamagedError{File: file, What: "not a plain file"}
		}
	}
	f, err := openPlain(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	n, err := io.ReadFull(f, room)
	if err != nil && !errors.Is(err, io.EOF) && !errors.Is(err, io.ErrUnexpectedEOF) {
		return nil, err
	}
	return bytes.Clone(room[:n]), nil
}

// Earlier is a chain as the check takes it.
func Earlier(chain []Stored) []record.Earlier {
	list := make([]record.Earlier, len(chain))
	for i, s := range chain {
		list[i] = record.Earlier{ID: s.ID, Record: s.Record}
	}
	return list
}
