package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"hourseal/verify/source"
)

// maxInputBytes bounds what is read of any one input.
const maxInputBytes = source.MaxImageBytes + 1

// readInput reads a file, or standard input for "-". What is over the limit of
// any reader is cut one byte beyond, so that the reader says so.
func (p *program) readInput(name string) ([]byte, error) { return p.readInputInto(nil, name) }

// readInputInto is readInput into the room of data that is no longer needed, where it
// is large enough.
func (p *program) readInputInto(room []byte, name string) ([]byte, error) {
	if name == "-" {
		return io.ReadAll(io.LimitReader(p.stdin, maxInputBytes))
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return nil, err
	}
	if info.IsDir() {
		return nil, folderForFile(name)
	}
	// Room for a byte more than the file had, so that its end is seen at once.
	size := int(min(info.Size(), maxInputBytes-1)) + 1
	data := slices.Grow(room[:0], size)[:size]
	n, err := f.Read(data)
	if err == nil && int64(n) == info.Size() && info.Mode().IsRegular() {
		return data[:n], nil // all that it has
	}
	more, err := io.ReadFull(f, data[n:])
	n += more
	switch {
	case err == nil: // a pipe, or it has grown
		rest, err := io.ReadAll(io.LimitReader(f, int64(maxInputBytes-n)))
		return append(data, rest...), err
	case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
		return data[:n], nil
	default:
		return nil, err
	}
}

// ownFolders are what a yard folder holds that cannot be made again.
var ownFolders = []string{"keys", "records", "machines", "schedules", "jobs", yardFile}

// keptByYard says whether a path leads to one of the yard's own files, over which
// no output is written.
func keptByYard(name string) bool {
	path, err := filepath.Abs(name)
	if err != nil {
		return false
	}
	for dir := filepath.Dir(path); ; dir = filepath.Dir(dir) {
		if _, err := os.Stat(filepath.Join(dir, yardFile)); err == nil {
			inside, _ := filepath.Rel(dir, path)
			first, _, _ := strings.Cut(filepath.ToSlash(inside), "/")
			return slices.Contains(ownFolders, first)
		}
		if dir == filepath.Dir(dir) {
			return false
		}
	}
}

// mayWrite refuses the yard's own files.
func mayWrite(name string) error {
	if keptByYard(name) {
		return usageError{name + " is where the yard keeps its own files", "write it to another folder"}
	}
	return nil
}

// writeOutput writes what a command was asked for. "-" is standard output; into a
// device or a pipe it is written as it is; never over the yard's own files.
func (p *program) writeOutput(name string, data []byte) error {
	if name == "-" {
		_, err := p.stdout.Write(data)
		return err
	}
	if err := mayWrite(name); err != nil {
		return err
	}
	if info, err := os.Stat(name); err == nil && !info.IsDir() && !info.Mode().IsRegular() {
		return os.WriteFile(name, data, 0o644)
	}
	return replaceFile(name, data)
}

// replaceFile writes a whole file or none: under a temporary name first, which
// the same command run again takes over, then renamed over what was there.
func replaceFile(name string, data []byte) error {
	return undisturbed(func() error {
		err := replace(name, data)
		if err == nil {
			hasWritten(name)
		}
		return err
	})
}

func replace(name string, data []byte) error {
	whole, err := writeAside(name, data)
	if err != nil {
		return err
	}
	if err := os.Rename(whole, name); err != nil {
		return fmt.Errorf("write %s: %w", name, errors.Join(err, os.Remove(whole)))
	}
	return nil
}

// writeAside writes a file under a temporary name beside its own, and gives that. What
// could not be written in whole is taken away.
func writeAside(name string, data []byte) (whole string, err error) {
	folder := filepath.Dir(name)
	if _, err := os.Stat(folder); errors.Is(err, fs.ErrNotExist) {
		return "", withHint{fmt.Errorf("write %s: there is no folder %s", name, folder), "make it first, or name another"}
	}
	whole = filepath.Join(folder, ".new-"+filepath.Base(name))
	f, err := os.OpenFile(whole, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o644)
	if err != nil {
		return "", fmt.Errorf("write %s: %w", name, err)
	}
	_, err = f.Write(data)
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err != nil {
		return "", fmt.Errorf("write %s: %w", name, errors.Join(err, os.Remove(whole)))
	}
	return whole, nil
}

// writeWholeNew writes a whole file or none, under a name that must not exist yet:
// fs.ErrExist where it does.
func writeWholeNew(name string, data []byte) error {
	return undisturbed(func() error {
		whole, err := writeAside(name, data)
		if err != nil {
			return err
		}
		switch err = os.Link(whole, name); {
		case err == nil:
			hasWritten(name)
		case !errors.Is(err, fs.ErrExist): // a file system without links
			err = writeNew(name, data, 0o644)
		}
		return errors.Join(err, os.Remove(whole))
	})
}

// writeNew writes a file that must not exist yet. What could not be written in whole is
// taken away.
func writeNew(name string, data []byte, mode os.FileMode) error {
	return undisturbed(func() error {
		f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
		if err != nil {
			return err
		}
		_, err = f.Write(data)
		if err = errors.Join(err, f.Close()); err != nil {
			return errors.Join(err, os.Remove(name))
		}
		hasWritten(name)
		return nil
	})
}
