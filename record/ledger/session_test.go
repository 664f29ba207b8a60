package ledger

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"

	"hourseal/record"
	"hourseal/record/recordtest"
)

func TestStagedIsNotStored(t *testing.T) {
	dir := t.TempDir()
	l := Open(dir)
	s := begin(t, l, port)
	stage(t, s, port)
	second := stage(t, s, port)
	if second.Record.Number != 2 || len(s.Chain(port)) != 2 {
		t.Errorf("number %d, chain of %d", second.Record.Number, len(s.Chain(port)))
	}
	wantFiles(t, dir)
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	wantFiles(t, dir)
	if chain := chainOf(t, l, port); len(chain) != 0 {
		t.Errorf("%d records", len(chain))
	}
}

func TestAppendRefuses(t *testing.T) {
	l := Open(t.TempDir())
	issue(t, l, port, 2)
	s := begin(t, l, port)
	chain := s.Chain(port)
	good := func() *record.Record { return jobAfter(chain, port).r }
	other := good()
	other.Previous = &record.Previous{Record: chain[0].ID, Date: other.Job.Date}
	wrong := good()
	wrong.Machine.Make = ""
	unchecked := good()
	unchecked.Findings = []record.Finding{{Code: record.LeakSeen, Severity: record.Decide}}
	for _, c := range []struct {
		name string
		job  record.Checked
		want string
	}{
		{"the record before the last", jobAfter(chain[:1], port), ErrStale.Error()},
		{"the first again", jobAfter(nil, port), ErrStale.Error()},
		{"one too far", checked{func() *record.Record { r := good(); r.Number++; return r }()}, ErrStale.Error()},
		{"citing another than the last", checked{other}, ErrStale.Error()},
		{"another machine", jobAfter(nil, starboard), "machine gannet-starboard is not part of this session"},
		{"no valid record", checked{wrong}, "make: is empty"},
		{"a decision without its reason", checked{unchecked}, "finding 1: leak-seen: has no reason"},
		{"nothing checked", checked{nil}, "no checked job to seal"},
		{"no job", nil, "no checked job to seal"},
	} {
		if _, err := s.Append(c.job, testKey(t, 1)); err == nil || err.Error() != c.want {
			t.Errorf("%s: %v, want %s", c.name, err, c.want)
		}
	}
	if _, err := s.Append(jobAfter(chain, port), nil); err == nil || err.Error() != "no key to sign with" {
		t.Errorf("no key: %v", err)
	}
	if len(s.Chain(port)) != 2 || len(s.staged) != 0 {
		t.Error("something was staged")
	}
	stage(t, s, port)
	if _, err := s.Append(jobAfter(chain, port), testKey(t, 1)); !errors.Is(err, ErrStale) {
		t.Errorf("the same job twice: %v", err)
	}
}

// TestStaleAfterAnotherSession: a job checked before another session stored its
// record is not added.
func TestStaleAfterAnotherSession(t *testing.T) {
	l := Open(t.TempDir())
	job := jobAfter(nil, port)
	issue(t, l, port, 1)
	s := begin(t, l, port)
	if _, err := s.Append(job, testKey(t, 1)); !errors.Is(err, ErrStale) {
		t.Errorf("error %v", err)
	}
}

// TestSessionEnds: without its locks a session adds nothing.
func TestSessionEnds(t *testing.T) {
	dir := t.TempDir()
	s := begin(t, Open(dir), port)
	stage(t, s, port)
	if err := errors.Join(s.Close(), s.Close()); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Append(jobAfter(nil, port), testKey(t, 1)); !errors.Is(err, ErrEnded) {
		t.Errorf("append: %v", err)
	}
	if err := s.Commit(); !errors.Is(err, ErrEnded) {
		t.Errorf("commit: %v", err)
	}
	wantFiles(t, dir)
}

// TestCommitTwice: a session goes on after a commit, and stores nothing twice.
func TestCommitTwice(t *testing.T) {
	dir := t.TempDir()
	s := begin(t, Open(dir), port)
	for range 2 {
		stage(t, s, port)
		if err := errors.Join(s.Commit(), s.Commit()); err != nil {
			t.Fatal(err)
		}
	}
	wantFiles(t, dir, "gannet-port/0001.cose", "gannet-port/0002.cose")
}

func TestSweep(t *testing.T) {
	dir := t.TempDir()
	l := Open(dir)
	issue(t, l, port, 1)
	for _, name := range []string{".new-0002.cose", ".new-0001.cose", "other.txt"} {
		if err := os.WriteFile(filepath.Join(dir, port, name), []byte("half a rec"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	chainOf(t, l, port) // a reader does not mind them
	begin(t, l, port)
	wantFiles(t, dir, "gannet-port/0001.cose", "gannet-port/other.txt")
}

// TestCrash stops a session that stores a record of each engine at every step,
// as the machine's power would, and does the rest in another.
func TestCrash(t *testing.T) {
	for _, c := range []struct {
		name   string
		steps  func(t *testing.T, l Ledger, port, starboard Stored)
		stored []string
	}{
		{"nothing written", func(*testing.T, Ledger, Stored, Stored) {}, nil},
		{"half a temporary file", func(t *testing.T, _ Ledger, port, _ Stored) {
			must(t, os.WriteFile(temporaryName(port.File), port.Envelope[:40], 0o644))
		}, nil},
		{"one temporary file", func(t *testing.T, _ Ledger, port, _ Stored) { must(t, writeTemporary(port.File, port.Envelope)) }, nil},
		{"both, before the names", func(t *testing.T, _ Ledger, port, starboard Stored) {
			must(t, writeTemporary(port.File, port.Envelope))
			must(t, writeTemporary(starboard.File, starboard.Envelope))
		}, nil},
		{"between name and sweeping of the first", func(t *testing.T, _ Ledger, port, starboard Stored) {
			must(t, writeTemporary(port.File, port.Envelope))
			must(t, writeTemporary(starboard.File, starboard.Envelope))
			must(t, os.Link(temporaryName(port.File), port.File))
		}, []string{"gannet-port/0001.cose"}},
		{"between the two names", func(t *testing.T, l Ledger, port, starboard Stored) {
			must(t, writeTemporary(port.File, port.Envelope))
			must(t, writeTemporary(starboard.File, starboard.Envelope))
			must(t, l.giveName(port.File))
		}, []string{"gannet-port/0001.cose"}},
		{"between the two names, without links", func(t *testing.T, l Ledger, port, starboard Stored) {
			must(t, writeTemporary(port.File, port.Envelope))
			must(t, writeTemporary(starboard.File, starboard.Envelope))
			must(t, Ledger{dir: l.dir, link: noLinks}.giveName(port.File))
		}, []string{"gannet-port/0001.cose"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			l := Open(dir)
			s := begin(t, l, port, starboard)
			c.steps(t, l, stage(t, s, port), stage(t, s, starboard))
			s.Close() // the system takes the locks of a process that died

			again := begin(t, l, port, starboard)
			wantFiles(t, dir, c.stored...)
			for _, machine := range []string{port, starboard} {
				if len(again.Chain(machine)) == 0 {
					stage(t, again, machine)
				}
			}
			must(t, again.Commit())
			wantFiles(t, dir, "gannet-port/0001.cose", "gannet-starboard/0001.cose")
			chainOf(t, l, port)
			chainOf(t, l, starboard)
		})
	}
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// noLinks is os.Link on a file system without hard links.
func noLinks(from, to string) error {
	return &os.LinkError{Op: "link", Old: from, New: to, Err: syscall.EPERM}
}

func TestNoHardLinks(t *testing.T) {
	dir := t.TempDir()
	l := Ledger{dir: dir, link: noLinks}
	issue(t, l, port, 3)
	wantFiles(t, dir, "gannet-port/0001.cose", "gannet-port/0002.cose", "gannet-port/0003.cose")
	if n := len(chainOf(t, l, port)); n != 3 {
		t.Errorf("%d records", n)
	}
}

// TestNameTaken: a file that somebody put where the next record goes is never
// replaced, with links or without.
func TestNameTaken(t *testing.T) {
	for name, link := range map[string]func(string, string) error{"links": os.Link, "no links": noLinks} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			l := Ledger{dir: dir, link: link}
			issue(t, l, port, 1)
			s := begin(t, l, starboard, port)
			taken := stage(t, s, port).File
			stage(t, s, starboard)
			must(t, os.WriteFile(taken, []byte("somebody's"), 0o644))
			err := s.Commit()
			if !errors.Is(err, fs.ErrExist) || !strings.HasPrefix(err.Error(), "nothing was stored: ") || !strings.Contains(err.Error(), taken) {
				t.Errorf("error %v", err)
			}
			all := files(t, dir)
			if all["gannet-port/0002.cose"] != "somebody's" || len(all) != 2 {
				t.Errorf("files %v", names(all))
			}
			if _, err := s.Append(jobAfter(s.Chain(port), port), testKey(t, 1)); !errors.Is(err, ErrEnded) {
				t.Errorf("append after a commit that failed: %v", err)
			}
		})
	}
}

// TestSecondNameTaken: the first record has its name already, and keeps it.
func TestSecondNameTaken(t *testing.T) {
	dir := t.TempDir()
	l := Open(dir)
	s := begin(t, l, port, starboard)
	stage(t, s, port)
	must(t, os.WriteFile(stage(t, s, starboard).File, nil, 0o644))
	if err := s.Commit(); err == nil || !strings.HasPrefix(err.Error(), "not all was stored, run the same command again for the rest: ") {
		t.Errorf("error %v", err)
	}
	wantFiles(t, dir, "gannet-port/0001.cose", "gannet-starboard/0001.cose")
	chainOf(t, l, port)
}

// TestTwoSessions: two at once wait for each other, whatever the order in which
// they name the machines, and neither forks, doubles nor loses.
func TestTwoSessions(t *testing.T) {
	const each = 15
	l := Open(t.TempDir())
	var wait sync.WaitGroup
	for _, order := range [][]string{{port, starboard}, {starboard, port}} {
		wait.Go(func() {
			for range each {
				s, err := l.Begin(order)
				if err != nil {
					t.Error(err)
					return
				}
				for _, machine := range order {
					if _, err := s.Append(jobAfter(s.Chain(machine), machine), testKey(t, 1)); err != nil {
						t.Error(err)
					}
				}
				if err := errors.Join(s.Commit(), s.Close()); err != nil {
					t.Error(err)
				}
			}
		})
	}
	wait.Wait()
	for _, machine := range []string{port, starboard} {
		if n := len(chainOf(t, l, machine)); n != 2*each {
			t.Errorf("%s: %d records, want %d", machine, n, 2*each)
		}
	}
}

// TestLongestRecord: the longest record that there may be is stored and read.
func TestLongestRecord(t *testing.T) {
	l := Open(t.TempDir())
	s := begin(t, l, port)
	r := recordtest.Longest()
	r.Machine.ID, r.Number, r.Previous = port, 1, nil
	if _, err := s.Append(checked{r}, testKey(t, 1)); err != nil {
		t.Fatal(err)
	}
	must(t, s.Commit())
	chainOf(t, l, port)
}
