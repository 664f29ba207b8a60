package ledger

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"hourseal/record"
)

// ErrOtherFile is returned for a file whose bytes are not those that a record names.
var ErrOtherFile = errors.New("not the file that the record names")

// FilesFolder is the folder of the files that a record names, beside the record's own
// file: records/<machine>/0001 beside 0001.cose.
func FilesFolder(recordFile string) string { return strings.TrimSuffix(recordFile, extension) }

// HoldsFilesOf says whether a folder is that of the files of a record, which stands
// beside it.
func HoldsFilesOf(folder string) bool {
	if numberOf(filepath.Base(folder)+extension) == 0 {
		return false
	}
	info, err := os.Lstat(folder + extension)
	return err == nil && info.Mode().IsRegular()
}

// Keep keeps a file that a record of this session names in the record's folder. It is
// called before Commit, so that no record is stored whose files were never there. What is
// there already stays; read gives the bytes where they are wanted, and ErrOtherFile
// is returned where they are not those that the record names.
func (s *Session) Keep(stored Stored, name string, read func() ([]byte, error)) error {
	if s.ended {
		return ErrEnded
	}
	i := slices.IndexFunc(stored.Record.Files, func(f record.File) bool { return f.Name == name })
	if i < 0 || !filepath.IsLocal(name) || filepath.Base(name) != name {
		return fmt.Errorf("%q: %w", name, ErrOtherFile)
	}
	want := stored.Record.Files[i].SHA256
	folder := FilesFolder(stored.File)
	file := filepath.Join(folder, name)
	switch there, err := digestOf(file); {
	case err == nil && there == want:
		return nil
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return err
	default:
		// Left behind by a session that stored no record of this number, or changed since.
		if _, err := os.Lstat(stored.File); err == nil {
			return &DamagedError{File: file, What: "not the file that was signed: move it away, and run the same command again"}
		}
	}
	data, err := read()
	if err != nil {
		return err
	}
	if record.Digest(sha256.Sum256(data)) != want {
		return ErrOtherFile
	}
	if err := makeFolder(folder); err != nil {
		return writable(filepath.Dir(folder), err)
	}
	return writable(folder, putFile(file, data))
}

// putFile writes a whole file or none. The session is alone in the folder; what one that
// was killed left under the temporary name is written over.
func putFile(file string, data []byte) error {
	temporary := temporaryName(file)
	if err := removeIfThere(temporary); err != nil {
		return err
	}
	err := writeTemporary(file, data)
	if err == nil {
		err = os.Rename(temporary, file)
	}
	if err != nil {
		return errors.Join(err, removeIfThere(temporary))
	}
	return syncFolder(filepath.Dir(file))
}

func removeIfThere(file string) error {
	if err := os.Remove(file); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}

// digestOf is the SHA-256 of a plain file.
func digestOf(file string) (record.Digest, error) {
	info, err := os.Lstat(file)
	if err != nil {
		return record.Digest{}, err
	}
	if !info.Mode().IsRegular() {
		return record.Digest{}, &DamagedError{File: file, What: "not a plain file"}
	}
	f, err := openPlain(file)
	if err != nil {
		return record.Digest{}, err
	}
	defer f.Close()
	hash := sha256.New()
	if _, err := io.Copy(hash, f); err != nil {
		return record.Digest{}, err
	}
	return record.Digest(hash.Sum(nil)), nil
}

// SyncFolder makes the names in a folder durable, as those of the records are.
func SyncFolder(folder string) error { return syncFolder(folder) }
