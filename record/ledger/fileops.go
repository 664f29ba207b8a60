package ledger

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
)

// Temporary files carry the record's name, so that a session, which is alone in
// its folder, needs no random one.
const temporaryPrefix = ".new-"

func temporaryName(file string) string {
	return filepath.Join(filepath.Dir(file), temporaryPrefix+filepath.Base(file))
}

// writeTemporary writes data beside file and syncs it. The name is free: the
// session swept the folder.
func writeTemporary(file string, data []byte) (err error) {
	f, err := os.OpenFile(temporaryName(file), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	if _, err := f.Write(data); err != nil {
		return err
	}
	return f.Sync()
}

// errNoName is matched by the error of giveName where the file has no name yet.
var errNoName = errors.New("the file has no name yet")

// giveName gives a synced temporary file its final name, which must be free,
// and syncs the folder.
func (l Ledger) giveName(file string) error {
	temporary := temporaryName(file)
	linkErr := l.link(temporary, file)
	if linkErr != nil {
		if err := renameFree(temporary, file); err != nil {
			return noName{err}
		}
	}
	if err := syncFolder(filepath.Dir(file)); err != nil {
		return err
	}
	if linkErr == nil {
		_ = os.Remove(temporary) // the record is stored; the next session sweeps what stays
	}
	return nil
}

// renameFree does with a rename what a link could not: the name is taken, or the
// file system has no links. The lock makes this session alone in the folder, so
// that a name which is free stays free.
func renameFree(temporary, file string) error {
	if _, err := os.Lstat(file); err == nil {
		return &fs.PathError{Op: "name", Path: file, Err: fs.ErrExist}
	}
	return os.Rename(temporary, file)
}

type noName struct{ error }

func (e noName) Unwrap() []error { return []error{e.error, errNoName} }

// sweep removes the temporary files of a session that did not end.
func sweep(folder string) error {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return err
	}
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), temporaryPrefix) {
			if err := os.Remove(filepath.Join(folder, e.Name())); err != nil {
				return err
			}
		}
	}
	return nil
}

// makeFolder makes a machine's folder, and those that it is in, and syncs the
// folder above each.
func makeFolder(folder string) error {
	if _, err := os.Stat(folder); err == nil {
		return nil
	}
	above := filepath.Dir(folder)
	if above != folder {
		if err := makeFolder(above); err != nil {
			return err
		}
	}
	if err := os.Mkdir(folder, 0o755); err != nil && !errors.Is(err, fs.ErrExist) {
		return err
	}
	return syncFolder(above)
}

// syncFolder makes the names in a folder durable. Systems that cannot sync a
// folder say so with an error that means nothing is lost; Windows has no call
// for it and refuses access instead (from memory).
func syncFolder(folder string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	f, err := os.Open(folder)
	if err != nil {
		return err
	}
	defer f.Close()
	if err := f.Sync(); err != nil && !errors.Is(err, fs.ErrInvalid) && !errors.Is(err, errors.ErrUnsupported) {
		return err
	}
	return nil
}
