package ledger

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// Temporary files carry the record's name, so that a session, which is alone in
// its folder, needs no random one.
const temporaryPrefix = ".new-"

func temporaryName(file string) string {
	return filepath.Join(filepath.Dir(file), temporaryPrefix+filepath.Base(file))
}

// writeTemporary writes data beside file and syncs it.
func writeTemporary(file string, data []byte) (err error) {
	f, err := os.OpenFile(temporaryName(file), os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o644)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	if _, err := f.Write(data); err != nil {
		return err
	}
	return f.Sync()
}

// giveName gives a synced temporary file its final name, which must be free,
// and syncs the folder.
func giveName(file string) error {
	temporary := temporaryName(file)
	if err := os.Link(temporary, file); err != nil {
		if errors.Is(err, fs.ErrExist) {
			return err
		}
		// No links on this file system. The lock makes this session alone here.
		if _, statErr := os.Lstat(file); statErr == nil {
			return fs.ErrExist
		}
		if err := os.Rename(temporary, file); err != nil {
			return err
		}
		return syncFolder(filepath.Dir(file))
	}
	if err := syncFolder(filepath.Dir(file)); err != nil {
		return err
	}
	return os.Remove(temporary)
}

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

// makeFolder makes a machine's folder and syncs the one that it is in.
func makeFolder(folder string) error {
	if _, err := os.Stat(folder); err == nil {
		return nil
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	return syncFolder(filepath.Dir(folder))
}

// syncFolder makes the names in a folder durable. Systems that cannot sync a
// folder say so with an error that means nothing is lost.
func syncFolder(folder string) error {
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
