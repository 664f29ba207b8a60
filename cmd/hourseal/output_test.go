package main

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// A new file is written in whole or not at all, never over another, under its own name
// in the sentence of where things stand, and leaves nothing beside it.
func TestWriteWholeNew(t *testing.T) {
	file := filepath.Join(t.TempDir(), "gannet-port.yaml")
	aside := filepath.Join(filepath.Dir(file), ".new-gannet-port.yaml")
	if err := os.WriteFile(aside, []byte("left by a run that was killed, and longer"), 0o644); err != nil {
		t.Fatal(err)
	}
	noted := process.written
	defer func() { process.written = noted }()
	process.written = nil
	if err := writeWholeNew(file, []byte("one\n")); err != nil {
		t.Fatal(err)
	}
	if err := writeWholeNew(file, []byte("two\n")); !errors.Is(err, fs.ErrExist) {
		t.Errorf("over another: %v", err)
	}
	if data, err := os.ReadFile(file); err != nil || string(data) != "one\n" {
		t.Errorf("%q, %v", data, err)
	}
	if _, err := os.Lstat(aside); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("left beside it: %v", err)
	}
	if !slices.Equal(process.written, []string{file}) {
		t.Errorf("noted as written: %q", process.written)
	}
	if err := writeWholeNew(filepath.Join(file+"-none", "a.yaml"), nil); err == nil || !strings.Contains(err.Error(), "there is no folder") {
		t.Errorf("%v", err)
	}
}
