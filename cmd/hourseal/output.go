package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
)

// maxInputBytes bounds what is read of any one input.
const maxInputBytes = 8<<20 + 1

// readInput reads a file, or standard input for "-". What is over the limit of
// any reader is cut one byte beyond, so that the reader says so.
func (p *program) readInput(name string) ([]byte, error) {
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
		return nil, usageError{name + " is a folder", "name a file in it"}
	}
	return io.ReadAll(io.LimitReader(f, maxInputBytes))
}

// writeOutput writes a whole file or none: under a temporary name first, which
// the same command run again takes over, then renamed over what was there. "-"
// is standard output.
func (p *program) writeOutput(name string, data []byte) (err error) {
	if name == "-" {
		_, err := p.stdout.Write(data)
		return err
	}
	f, err := os.OpenFile(filepath.Join(filepath.Dir(name), ".new-"+filepath.Base(name)), os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o644)
	if err != nil {
		return fmt.Errorf("write %s: %w", name, err)
	}
	defer func() {
		if err != nil {
			err = fmt.Errorf("write %s: %w", name, errors.Join(err, os.Remove(f.Name())))
		}
	}()
	_, err = f.Write(data)
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err != nil {
		return err
	}
	return os.Rename(f.Name(), name)
}

// writeNew writes a file that must not exist yet.
func writeNew(name string, data []byte, mode os.FileMode) error {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	return errors.Join(err, f.Close())
}
