//go:build unix

package main

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
	"testing"
)

// With no room, as a limit on the size of a file (POSIX, setrlimit, RLIMIT_FSIZE), no
// half file is left, under any name.
//
// The limit is the process's, and the test's own files would meet it: a child sets it.
func TestNoRoomForNewFile(t *testing.T) {
	const child = "TEST_NO_ROOM"
	if os.Getenv(child) == "" {
		cmd := exec.Command(os.Args[0], "-test.run=^TestNoRoomForNewFile$")
		cmd.Env = append(os.Environ(), child+"=1")
		if out, err := cmd.CombinedOutput(); err != nil || !bytes.Contains(out, []byte("PASS")) {
			t.Errorf("%v\n%s", err, out)
		}
		return
	}
	dir := t.TempDir()
	file := filepath.Join(dir, "gannet-port.yaml")
	for what, write := range map[string]func() error{
		"writeWholeNew": func() error { return writeWholeNew(file, make([]byte, 4096)) },
		"writeNew":      func() error { return writeNew(file, make([]byte, 4096), 0o644) },
		"replaceFile":   func() error { return replaceFile(file, make([]byte, 4096)) },
	} {
		if err := withFilesUpTo(t, 512, write); !errors.Is(err, syscall.EFBIG) {
			t.Errorf("%s: %v", what, err)
		}
		if left, err := os.ReadDir(dir); err != nil || len(left) > 0 {
			t.Errorf("%s: left: %v, %v", what, left, err)
		}
	}
}

// withFilesUpTo calls a function while no file can grow beyond so many bytes.
func withFilesUpTo(t *testing.T, most uint64, call func() error) error {
	var before syscall.Rlimit
	if err := syscall.Getrlimit(syscall.RLIMIT_FSIZE, &before); err != nil {
		t.Fatal(err)
	}
	limit := before
	limit.Cur = most
	if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &limit); err != nil {
		t.Fatal(err)
	}
	err := call()
	if back := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &before); back != nil {
		t.Fatal(back)
	}
	return err
}
