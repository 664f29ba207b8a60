//go:build unix

package ledger

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"
)

// A test that needs another process runs this test binary again, with the role
// and the ledger's folder in its environment.
const (
	roleVariable   = "LEDGER_TEST_ROLE"
	folderVariable = "LEDGER_TEST_FOLDER"
	nobody         = 65534
	fewBytes       = 100 // less than any record
)

var roles = map[string]func(Ledger) error{
	// append adds records of port, one a session, until it is told to stop. It says when
	// it begins: to start a process takes as long as the machine likes.
	"append": func(l Ledger) error {
		fmt.Println("begins")
		return appendMany(l, 1<<30)
	},
	"append-25": func(l Ledger) error {
		return appendMany(l, 25)
	},
	// limited may not write a file as long as a record.
	"limited": func(l Ledger) error {
		signal.Ignore(syscall.SIGXFSZ)
		limit := syscall.Rlimit{Cur: fewBytes, Max: fewBytes}
		if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &limit); err != nil {
			return err
		}
		return appendMany(l, 1)
	},
	// nobody has no right to write in the folder.
	"nobody": func(l Ledger) error {
		if os.Getuid() == 0 {
			if err := syscall.Setuid(nobody); err != nil {
				return err
			}
		}
		return appendMany(l, 1)
	},
}

func TestMain(m *testing.M) {
	role, there := roles[os.Getenv(roleVariable)]
	if !there {
		os.Exit(m.Run())
	}
	if err := role(Open(os.Getenv(folderVariable))); err != nil {
		fmt.Println(err)
		os.Exit(1)
	}
}

func appendMany(l Ledger, n int) error {
	key, err := newKey(1)
	if err != nil {
		return err
	}
	for range n {
		s, err := l.Begin([]string{port})
		if err != nil {
			return err
		}
		_, err = s.Append(jobAfter(s.Chain(port), port), key)
		if err == nil {
			err = s.Commit()
		}
		if err := errors.Join(err, s.Close()); err != nil {
			return err
		}
	}
	return nil
}

func process(t *testing.T, role, dir string) *exec.Cmd {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(self)
	cmd.Env = append(os.Environ(), roleVariable+"="+role, folderVariable+"="+dir)
	return cmd
}

// TestFourProcesses: four at once, each adding 25 records, leave numbers 1 to
// 100 and one chain.
func TestFourProcesses(t *testing.T) {
	dir := t.TempDir()
	var wait sync.WaitGroup
	for range 4 {
		cmd := process(t, "append-25", dir)
		wait.Go(func() {
			if out, err := cmd.CombinedOutput(); err != nil {
				t.Errorf("%v: %s", err, out)
			}
		})
	}
	wait.Wait()
	if n := len(chainOf(t, Open(dir), port)); n != 100 {
		t.Errorf("%d records", n)
	}
	if all := files(t, dir); len(all) != 100 {
		t.Errorf("%d files", len(all))
	}
}

// TestKilled kills a process in the midst of adding records, again and again.
func TestKilled(t *testing.T) {
	dir := t.TempDir()
	l := Open(dir)
	had := 0
	for i := range 25 {
		cmd := process(t, "append", dir)
		out, err := cmd.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		if _, err := bufio.NewReader(out).ReadString('\n'); err != nil {
			t.Fatal(err)
		}
		time.Sleep(time.Duration(3+i*3) * time.Millisecond)
		_ = cmd.Process.Kill()
		_ = cmd.Wait()
		chain := chainOf(t, l, port)
		if len(chain) < had {
			t.Fatalf("%d records, there were %d", len(chain), had)
		}
		had = len(chain)
	}
	if had == 0 {
		t.Fatal("no process lived long enough to add a record")
	}
	begin(t, l, port).Close()
	if all := files(t, dir); len(all) != had {
		t.Errorf("files %v beside %d records", names(all), had)
	}
}

// unchanged runs commit against a ledger of one record and wants an error that
// says so, and not one byte changed.
func unchanged(t *testing.T, dir string, commit func() error, want ...string) {
	t.Helper()
	before := files(t, dir)
	err := commit()
	if err == nil {
		t.Fatal("no error")
	}
	for _, text := range want {
		if !strings.Contains(err.Error(), text) {
			t.Errorf("error %q does not say %q", err, text)
		}
	}
	after := files(t, dir)
	for name, data := range before {
		if after[name] != data {
			t.Errorf("%s changed", name)
		}
	}
	if len(after) != len(before) {
		t.Errorf("files %v, were %v", names(after), names(before))
	}
}

// outcome gives what a process said as an error.
func outcome(cmd *exec.Cmd) error {
	out, err := cmd.CombinedOutput()
	if err == nil {
		return nil
	}
	return errors.New(strings.TrimSpace(string(out)))
}

// TestFileTooLarge: a write that ends half way is named, and leaves nothing.
func TestFileTooLarge(t *testing.T) {
	dir := t.TempDir()
	l := Open(dir)
	issue(t, l, port, 1)
	unchanged(t, dir, func() error { return outcome(process(t, "limited", dir)) }, "nothing was stored: ", "file too large")
	issue(t, l, port, 1)
}

// TestDiskFull fills a small file system of its own; that takes the right to
// mount one.
func TestDiskFull(t *testing.T) {
	dir := t.TempDir()
	if err := mountSmall(dir); err != nil {
		t.Skip("cannot mount a file system here: ", err)
	}
	t.Cleanup(func() {
		if err := unmount(dir); err != nil {
			t.Error(err)
		}
	})
	records := filepath.Join(dir, "records")
	l := Open(records)
	issue(t, l, port, 1)
	issue(t, l, starboard, 1)
	// Room for one more record: a page, where a record takes less.
	filler := filepath.Join(dir, "filler")
	fill(t, filler)
	must(t, os.Truncate(filler, size(t, filler)-int64(os.Getpagesize())))
	unchanged(t, records, func() error {
		s, err := l.Begin([]string{port, starboard})
		if err != nil {
			return err
		}
		defer s.Close()
		stage(t, s, port)
		stage(t, s, starboard)
		return s.Commit()
	}, "nothing was stored: ", "no space left on device")
	must(t, os.Remove(filler))
	issue(t, l, port, 1)
}

func fill(t *testing.T, file string) {
	t.Helper()
	f, err := os.Create(file)
	must(t, err)
	defer f.Close()
	for err == nil {
		_, err = f.Write(make([]byte, 1024))
	}
	if !errors.Is(err, syscall.ENOSPC) {
		t.Fatal(err)
	}
}

func size(t *testing.T, file string) int64 {
	t.Helper()
	info, err := os.Stat(file)
	must(t, err)
	return info.Size()
}

// TestReadOnly: a folder that one may not write in.
func TestReadOnly(t *testing.T) {
	dir := t.TempDir()
	must(t, os.Chmod(filepath.Dir(dir), 0o755)) // so that nobody gets as far as dir
	l := Open(dir)
	issue(t, l, port, 1)
	folder := filepath.Join(dir, port)
	for _, c := range []struct{ name, folder string }{{"the machine's folder", folder}, {"a new machine", dir}} {
		must(t, os.Chmod(folder, 0o555))
		must(t, os.Chmod(filepath.Join(folder, lockName), 0o644))
		if c.folder == dir {
			must(t, os.Chmod(folder, 0o755))
			rename(t, folder, filepath.Join(dir, starboard))
			must(t, os.Chmod(dir, 0o555))
		}
		t.Run(c.name, func(t *testing.T) {
			unchanged(t, dir, func() error { return outcome(process(t, "nobody", dir)) },
				"permission denied", "records are added to "+folder+", make it writable for this user")
		})
		must(t, os.Chmod(dir, 0o755))
	}
}

// TestPipe: a pipe where a record should be is not waited for.
func TestPipe(t *testing.T) {
	dir := t.TempDir()
	l := Open(dir)
	issue(t, l, port, 1)
	must(t, syscall.Mkfifo(filepath.Join(dir, port, fileName(2)), 0o644))
	if got := damaged(t, l); got != "0002.cose: not a plain file" {
		t.Error(got)
	}
}
