package ledger

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"hourseal/record"
	"hourseal/record/recordtest"
	"hourseal/sign"
)

const (
	port      = "gannet-port"
	starboard = "gannet-starboard"
)

// checked stands for a job that passed. Package check is not asked here: what
// follows holds for any record that may be signed.
type checked struct{ r *record.Record }

func (c checked) CheckedRecord() *record.Record { return c.r }

// testKey is a key for tests, made from a seed of 32 times b.
func testKey(t testing.TB, b byte) *sign.PrivateKey {
	t.Helper()
	key, err := newKey(b)
	if err != nil {
		t.Fatal(err)
	}
	return key
}

func newKey(b byte) (*sign.PrivateKey, error) {
	return sign.NewKey(bytes.NewReader(bytes.Repeat([]byte{b}, 32)))
}

// jobAfter is a job that follows a chain, the least that a record may say.
func jobAfter(chain []Stored, machine string) checked {
	r := recordtest.Shortest()
	r.Machine.ID, r.Previous, r.Number = machine, nil, 1
	if n := len(chain); n > 0 {
		last := chain[n-1]
		r.Number = last.Record.Number + 1
		r.Previous = &record.Previous{Record: last.ID, Date: last.Record.Job.Date, Hours: last.Record.Job.Hours}
	}
	r.Job.Number = fmt.Sprintf("J-%d", r.Number)
	return checked{r}
}

func begin(t testing.TB, l Ledger, machines ...string) *Session {
	t.Helper()
	s, err := l.Begin(machines)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	return s
}

func stage(t testing.TB, s *Session, machine string) Stored {
	t.Helper()
	stored, err := s.Append(jobAfter(s.Chain(machine), machine), testKey(t, 1))
	if err != nil {
		t.Fatal(err)
	}
	return stored
}

// issue stores n records of a machine, each in a session of its own.
func issue(t testing.TB, l Ledger, machine string, n int) {
	t.Helper()
	for range n {
		s := begin(t, l, machine)
		stage(t, s, machine)
		if err := s.Commit(); err != nil {
			t.Fatal(err)
		}
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
	}
}

func chainOf(t testing.TB, l Ledger, machine string) []Stored {
	t.Helper()
	chain, err := l.Chain(machine)
	if err != nil {
		t.Fatal(err)
	}
	return chain
}

// files are all files below a folder but the locks, with their bytes.
func files(t testing.TB, dir string) map[string]string {
	t.Helper()
	all := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || d.Name() == lockName {
			return err
		}
		data, err := os.ReadFile(path)
		name, _ := filepath.Rel(dir, path)
		all[filepath.ToSlash(name)] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func names(all map[string]string) []string {
	var list []string
	for name := range all {
		list = append(list, name)
	}
	slices.Sort(list)
	return list
}

func wantFiles(t testing.TB, dir string, want ...string) {
	t.Helper()
	if got := names(files(t, dir)); !slices.Equal(got, want) {
		t.Errorf("files %v, want %v", got, want)
	}
}
