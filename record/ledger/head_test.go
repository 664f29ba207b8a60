package ledger

import (
	"crypto/sha256"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"hourseal/record"
	"hourseal/record/treehead"
)

// issueAt adds a record to a chain, issued at each of the times.
func issueAt(t *testing.T, l Ledger, machine string, times ...int64) []Stored {
	t.Helper()
	for _, at := range times {
		s := begin(t, l, machine)
		job := jobAfter(s.Chain(machine), machine)
		job.r.IssuedAt = at
		if _, err := s.Append(job, testKey(t, 1)); err != nil {
			t.Fatal(err)
		}
		if err := errors.Join(s.Commit(), s.Close()); err != nil {
			t.Fatal(err)
		}
	}
	return chainOf(t, l, machine)
}

func headOf(t *testing.T, l Ledger, until int64) treehead.Line {
	t.Helper()
	line, err := l.Head(until)
	if err != nil {
		t.Fatal(err)
	}
	if line.Time != until {
		t.Errorf("head of %d says %d", until, line.Time)
	}
	return line
}

// plainRoot is the tree hash of up to two ids, written out.
func plainRoot(ids ...record.ID) treehead.Hash {
	slices.SortFunc(ids, func(a, b record.ID) int { return slices.Compare(a[:], b[:]) })
	var leaves [][32]byte
	for _, id := range ids {
		leaves = append(leaves, sha256.Sum256(slices.Concat([]byte{0}, id[:])))
	}
	switch len(leaves) {
	case 0:
		return sha256.Sum256(nil)
	case 1:
		return leaves[0]
	default:
		return sha256.Sum256(slices.Concat([]byte{1}, leaves[0][:], leaves[1][:]))
	}
}

// TestHead: at each time the head is that of the records issued by then, whatever was
// added since.
func TestHead(t *testing.T) {
	l := Open(filepath.Join(t.TempDir(), "records"))
	if got := headOf(t, l, 1000); got.Chains != 0 || got.Root != plainRoot() {
		t.Errorf("empty: %v", got)
	}
	a := issueAt(t, l, port, 100, 200, 300)
	b := issueAt(t, l, starboard, 200, 250)
	for _, c := range []struct {
		until int64
		ends  []record.ID
	}{
		{99, nil},
		{100, []record.ID{a[0].ID}},
		{199, []record.ID{a[0].ID}},
		{200, []record.ID{a[1].ID, b[0].ID}},
		{299, []record.ID{a[1].ID, b[1].ID}},
		{300, []record.ID{a[2].ID, b[1].ID}},
		{1 << 40, []record.ID{a[2].ID, b[1].ID}},
	} {
		if got := headOf(t, l, c.until); int(got.Chains) != len(c.ends) || got.Root != plainRoot(c.ends...) {
			t.Errorf("until %d: %v, want the ends %x", c.until, got, c.ends)
		}
	}
}

func TestPath(t *testing.T) {
	l := Open(t.TempDir())
	a := issueAt(t, l, port, 100, 200)
	b := issueAt(t, l, starboard, 150)
	for _, c := range []struct {
		machine string
		until   int64
		end     Stored
	}{{port, 120, a[0]}, {port, 150, a[0]}, {port, 500, a[1]}, {starboard, 150, b[0]}} {
		line, path, end, err := l.Path(c.machine, c.until)
		if err != nil || line != headOf(t, l, c.until) || !path.LeadsTo(line) || path.Last != c.end.ID || end.ID != c.end.ID {
			t.Errorf("%s at %d: %v, %v, %v, %v", c.machine, c.until, line, path, end.ID, err)
		}
	}
	for _, c := range []struct {
		machine string
		until   int64
	}{{port, 99}, {starboard, 149}, {"gannet-main", 500}} {
		if line, path, _, err := l.Path(c.machine, c.until); !errors.Is(err, ErrNoneYet) {
			t.Errorf("%s at %d: %v, %v, %v", c.machine, c.until, line, path, err)
		}
	}
}

// TestHeadTells: a record added, taken away or replaced behind a time changes the head
// of that time.
func TestHeadTells(t *testing.T) {
	l := Open(t.TempDir())
	chain := issueAt(t, l, port, 100, 200)
	issueAt(t, l, starboard, 150)
	before := headOf(t, l, 250)
	issueAt(t, l, port, 300)
	if headOf(t, l, 250) != before {
		t.Error("a record issued later changes the head of before")
	}
	issueAt(t, l, port, 240) // written back
	if headOf(t, l, 250) == before {
		t.Error("a record dated back is not told")
	}
	all := chainOf(t, l, port)
	for i := len(all) - 1; i > 0; i-- { // taken away, from the end
		if err := os.Remove(all[i].File); err != nil {
			t.Fatal(err)
		}
	}
	if headOf(t, l, 250) == before {
		t.Error("a record taken away is not told")
	}
	s := begin(t, l, port)
	other := jobAfter(s.Chain(port), port)
	other.r.IssuedAt, other.r.Notes = 200, "Another."
	if _, err := s.Append(other, testKey(t, 1)); err != nil {
		t.Fatal(err)
	}
	if err := s.Commit(); err != nil {
		t.Fatal(err)
	}
	if again := chainOf(t, l, port); again[1].ID == chain[1].ID || headOf(t, l, 250) == before {
		t.Error("a record replaced is not told")
	}
}

func TestNoHeadOfADamagedLedger(t *testing.T) {
	l := Open(t.TempDir())
	chain := issueAt(t, l, port, 100, 200)
	issueAt(t, l, starboard, 150)
	edit(t, chain[0].File, func(data []byte) []byte { data[80] ^= 1; return data })
	if line, err := l.Head(1000); !errors.As(err, new(*DamagedError)) {
		t.Errorf("head %v, %v", line, err)
	}
	if _, path, _, err := l.Path(starboard, 1000); !errors.As(err, new(*DamagedError)) {
		t.Errorf("path %v, %v", path, err)
	}
}
