package ledger

import (
	"crypto/sha256"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hourseal/record"
)

// TestKeep: what a record names is kept beside it, once, and nothing else is.
func TestKeep(t *testing.T) {
	dir := t.TempDir()
	l := Open(dir)
	issue(t, l, port, 1)
	s := begin(t, l, port)
	job := jobAfter(s.Chain(port), port)
	plate := []byte("plate")
	job.r.Files = []record.File{{Name: "plate.jpg", SHA256: sha256.Sum256(plate)}}
	stored, err := s.Append(job, testKey(t, 1))
	if err != nil {
		t.Fatal(err)
	}
	reads := 0
	give := func(data []byte) func() ([]byte, error) {
		return func() ([]byte, error) { reads++; return data, nil }
	}
	folder := filepath.Join(dir, port, "0002")
	file := filepath.Join(folder, "plate.jpg")
	if FilesFolder(stored.File) != folder || HoldsFilesOf(folder) {
		t.Errorf("%s, or it is that of a record which is not stored", FilesFolder(stored.File))
	}
	for name, read := range map[string]func() ([]byte, error){
		"meter.jpg": give(plate), "../plate.jpg": give(plate), "": give(plate), "..": give(plate), "plate.jpg": give([]byte("another")),
	} {
		if err := s.Keep(stored, name, read); !errors.Is(err, ErrOtherFile) {
			t.Errorf("%q: %v", name, err)
		}
	}
	failed := errors.New("no such card")
	if err := s.Keep(stored, "plate.jpg", func() ([]byte, error) { return nil, failed }); !errors.Is(err, failed) {
		t.Error(err)
	}
	if _, err := os.Lstat(folder); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a folder for nothing: %v", err)
	}

	// What a session left behind that stored no such record, whole or torn, is written over.
	if err := os.MkdirAll(folder, 0o755); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"plate.jpg", temporaryPrefix + "plate.jpg"} {
		if err := os.WriteFile(filepath.Join(folder, name), []byte("left behind"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	reads = 0
	for range 2 {
		if err := s.Keep(stored, "plate.jpg", give(plate)); err != nil {
			t.Fatal(err)
		}
	}
	if data, err := os.ReadFile(file); err != nil || string(data) != "plate" || reads != 1 {
		t.Errorf("%q, %v, read %d times", data, err, reads)
	}
	if err := s.Commit(); err != nil {
		t.Fatal(err)
	}
	if !HoldsFilesOf(folder) || HoldsFilesOf(filepath.Join(dir, port)) || HoldsFilesOf(filepath.Join(dir, port, "2")) {
		t.Error("whose files a folder holds")
	}
	entries, err := os.ReadDir(folder)
	if err != nil || len(entries) != 1 {
		t.Errorf("%v, %v", entries, err)
	}

	// Of a record that is stored, what was changed is said and left as it is.
	if err := os.WriteFile(file, []byte("changed"), 0o644); err != nil {
		t.Fatal(err)
	}
	damaged := new(DamagedError)
	if err := s.Keep(stored, "plate.jpg", give(plate)); !errors.As(err, &damaged) || damaged.File != file || !strings.Contains(err.Error(), "move it away") {
		t.Error(err)
	}
	if err := os.Remove(file); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(stored.File, file); err != nil {
		t.Fatal(err)
	}
	if err := s.Keep(stored, "plate.jpg", give(plate)); !errors.As(err, &damaged) {
		t.Errorf("a link: %v", err)
	}
	if err := os.Remove(file); err != nil {
		t.Fatal(err)
	}
	if err := s.Keep(stored, "plate.jpg", give(plate)); err != nil {
		t.Error(err)
	}

	// The chain is what it was, and so is the list of machines.
	if chain := chainOf(t, l, port); len(chain) != 2 || chain[1].ID != stored.ID {
		t.Errorf("%d records", len(chain))
	}
	if machines, err := l.Machines(); err != nil || len(machines) != 1 || machines[0] != port {
		t.Errorf("%q, %v", machines, err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if err := s.Keep(stored, "plate.jpg", give(plate)); !errors.Is(err, ErrEnded) {
		t.Errorf("after the end: %v", err)
	}
}
