package ledger

import (
	"os"
	"os/signal"
	"path/filepath"
	"syscall"
	"testing"
)

// TestLeasedFileIsWaitedFor: a file on which somebody has a write lease, as a file
// server may, is opened once they have given it up.
func TestLeasedFileIsWaitedFor(t *testing.T) {
	const setLease = 1024 // F_SETLEASE of fcntl(2)
	name := filepath.Join(t.TempDir(), "0001.cose")
	if err := os.WriteFile(name, []byte("leased"), 0o600); err != nil {
		t.Fatal(err)
	}
	holder, err := os.OpenFile(name, os.O_RDWR, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer holder.Close()
	lease := func(kind uintptr) syscall.Errno {
		_, _, err := syscall.Syscall(syscall.SYS_FCNTL, holder.Fd(), setLease, kind)
		return err
	}
	wanted := make(chan os.Signal, 1)
	signal.Notify(wanted, syscall.SIGIO)
	defer signal.Stop(wanted)
	if err := lease(syscall.F_WRLCK); err != 0 {
		t.Skipf("no leases on this file system: %v", err)
	}
	if f, err := os.OpenFile(name, os.O_RDONLY|syscall.O_NONBLOCK, 0); err == nil {
		f.Close()
		t.Skip("leases do nothing here")
	}
	given := make(chan syscall.Errno, 1)
	go func() {
		<-wanted
		given <- lease(syscall.F_UNLCK)
	}()
	data, err := readEnvelope(name, true, make([]byte, 100))
	if err != nil || string(data) != "leased" {
		t.Errorf("%q, %v", data, err)
	}
	if err := <-given; err != 0 {
		t.Error(err)
	}
}
