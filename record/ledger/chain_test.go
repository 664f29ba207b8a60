package ledger

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/recordtest"
	"hourseal/sign"
)

func TestNoRecords(t *testing.T) {
	l := Open(filepath.Join(t.TempDir(), "records"))
	if chain := chainOf(t, l, port); len(chain) != 0 {
		t.Errorf("chain %v", chain)
	}
	if machines, err := l.Machines(); err != nil || machines != nil {
		t.Errorf("machines %v, %v", machines, err)
	}
	begin(t, l, port).Close() // leaves a folder, and no record in it
	if machines, err := l.Machines(); err != nil || machines != nil {
		t.Errorf("machines %v, %v", machines, err)
	}
}

func TestChainReadsBack(t *testing.T) {
	l := Open(t.TempDir())
	issue(t, l, port, 3)
	issue(t, l, starboard, 1)
	chain := chainOf(t, l, port)
	earlier := Earlier(chain)
	for i, s := range chain {
		data, err := os.ReadFile(s.File)
		if err != nil {
			t.Fatal(err)
		}
		if s.Record.Number != uint32(i+1) || s.ID != record.ID(sign.IDOf(data)) || !bytes.Equal(s.Envelope, data) ||
			s.Signer != testKey(t, 1).Public() || filepath.Base(s.File) != fileName(uint32(i+1)) ||
			earlier[i].ID != s.ID || earlier[i].Record != s.Record {
			t.Errorf("record %d: %+v", i+1, s)
		}
		if i > 0 && s.Record.Previous.Record != chain[i-1].ID {
			t.Errorf("record %d cites another than the one before", i+1)
		}
	}
	if machines, err := l.Machines(); err != nil || !slices.Equal(machines, []string{port, starboard}) {
		t.Errorf("machines %v, %v", machines, err)
	}
}

// damaged reads the chain and gives what is wrong with it, as "file: what".
func damaged(t *testing.T, l Ledger) string {
	t.Helper()
	_, err := l.Chain(port)
	var fault *DamagedError
	if !errors.As(err, &fault) {
		t.Errorf("error %v, want a DamagedError", err)
		return ""
	}
	if !strings.HasPrefix(err.Error(), fault.File+": ") {
		t.Errorf("error %q does not name its file", err)
	}
	return filepath.Base(fault.File) + ": " + fault.What
}

func edit(t *testing.T, file string, change func([]byte) []byte) {
	t.Helper()
	data, err := os.ReadFile(file)
	if err == nil {
		err = os.WriteFile(file, change(data), 0o644)
	}
	if err != nil {
		t.Fatal(err)
	}
}

// TestEveryByteCounts changes one bit of every byte of every file; each time the
// file is named.
func TestEveryByteCounts(t *testing.T) {
	dir := t.TempDir()
	l := Open(dir)
	issue(t, l, port, 3)
	for n := uint32(1); n <= 3; n++ {
		file, err := os.OpenFile(filepath.Join(dir, port, fileName(n)), os.O_RDWR, 0)
		if err != nil {
			t.Fatal(err)
		}
		good, err := io.ReadAll(file)
		if err != nil {
			t.Fatal(err)
		}
		write := func(b byte, i int) {
			if _, err := file.WriteAt([]byte{b}, int64(i)); err != nil {
				t.Fatal(err)
			}
		}
		for i, b := range good {
			write(b^1<<(i%8), i)
			if got := damaged(t, l); got != fileName(n)+": changed since it was signed" {
				t.Fatalf("%s, byte %d: %s", fileName(n), i, got)
			}
			write(b, i)
		}
		if err := file.Close(); err != nil {
			t.Fatal(err)
		}
	}
	chainOf(t, l, port)
}

func TestDamage(t *testing.T) {
	reseal := func(t *testing.T, file string, key byte, change func(*record.Record)) {
		edit(t, file, func(data []byte) []byte {
			opened, err := sign.Open(sign.RecordV1, data)
			if err != nil {
				t.Fatal(err)
			}
			r, err := record.Decode(opened.Payload)
			if err != nil {
				t.Fatal(err)
			}
			change(r)
			payload, err := record.Encode(r)
			if err != nil {
				t.Fatal(err)
			}
			envelope, err := sign.Seal(sign.RecordV1, payload, testKey(t, key))
			if err != nil {
				t.Fatal(err)
			}
			return envelope
		})
	}
	for _, c := range []struct {
		name string
		do   func(t *testing.T, file func(n uint32) string)
		want string // "" where it is not noticed
	}{
		{"missing in the middle", func(t *testing.T, file func(uint32) string) { remove(t, file(2)) },
			"0002.cose: missing, while 0004.cose is there: bring it back from a copy"},
		{"first missing", func(t *testing.T, file func(uint32) string) { remove(t, file(1)) },
			"0001.cose: missing, while 0004.cose is there: bring it back from a copy"},
		{"last missing, which nothing here can tell", func(t *testing.T, file func(uint32) string) { remove(t, file(4)) }, ""},
		{"all missing", func(t *testing.T, file func(uint32) string) {
			for n := uint32(1); n <= 4; n++ {
				remove(t, file(n))
			}
		}, ""},
		{"two swapped", func(t *testing.T, file func(uint32) string) {
			rename(t, file(2), file(9))
			rename(t, file(3), file(2))
			rename(t, file(9), file(3))
		}, "0002.cose: holds record number 3"},
		{"one renumbered past the end", func(t *testing.T, file func(uint32) string) { rename(t, file(2), file(9)) },
			"0002.cose: missing, while 0009.cose is there: bring it back from a copy"},
		{"the last renumbered", func(t *testing.T, file func(uint32) string) { rename(t, file(4), file(5)) },
			"0004.cose: missing, while 0005.cose is there: bring it back from a copy"},
		{"a copy under the next number", func(t *testing.T, file func(uint32) string) { copyFile(t, file(4), file(5)) }, "0005.cose: holds record number 4"},
		{"a copy over another", func(t *testing.T, file func(uint32) string) { copyFile(t, file(1), file(2)) }, "0002.cose: holds record number 1"},
		{"another machine's", func(t *testing.T, file func(uint32) string) {
			copyFile(t, strings.Replace(file(2), port, starboard, 1), file(2))
		}, "0002.cose: a record of machine gannet-starboard"},
		{"another machine's whole folder", func(t *testing.T, file func(uint32) string) {
			copyFile(t, strings.Replace(file(1), port, starboard, 1), file(1))
		}, "0001.cose: a record of machine gannet-starboard"},
		{"sealed again by another key", func(t *testing.T, file func(uint32) string) { reseal(t, file(2), 2, func(*record.Record) {}) },
			"0003.cose: does not follow 0002.cose: one of the two was replaced"},
		{"sealed again by the same key with other hours", func(t *testing.T, file func(uint32) string) {
			reseal(t, file(1), 1, func(r *record.Record) { r.Job.Hours += 100 })
		}, "0002.cose: does not follow 0001.cose: one of the two was replaced"},
		{"a middle that cites another", func(t *testing.T, file func(uint32) string) {
			reseal(t, file(3), 1, func(r *record.Record) { r.Previous.Record[0] ^= 1 })
		}, "0003.cose: does not follow 0002.cose: one of the two was replaced"},
		{"signed, and no record", func(t *testing.T, file func(uint32) string) {
			edit(t, file(2), func([]byte) []byte {
				envelope, err := sign.Seal(sign.RecordV1, []byte{0xa0}, testKey(t, 1))
				if err != nil {
					t.Fatal(err)
				}
				return envelope
			})
		}, "0002.cose: signed, but not a record of this program"},
		{"another signed thing", func(t *testing.T, file func(uint32) string) {
			edit(t, file(2), func(data []byte) []byte {
				opened, err := sign.Open(sign.RecordV1, data)
				if err != nil {
					t.Fatal(err)
				}
				envelope, err := sign.Seal(sign.ListV1, opened.Payload, testKey(t, 1))
				if err != nil {
					t.Fatal(err)
				}
				return envelope
			})
		}, "0002.cose: changed since it was signed"},
		{"empty", func(t *testing.T, file func(uint32) string) { edit(t, file(2), func([]byte) []byte { return nil }) }, "0002.cose: changed since it was signed"},
		{"cut short", func(t *testing.T, file func(uint32) string) {
			edit(t, file(2), func(b []byte) []byte { return b[:len(b)-1] })
		}, "0002.cose: changed since it was signed"},
		{"something behind it", func(t *testing.T, file func(uint32) string) {
			edit(t, file(2), func(b []byte) []byte { return append(b, '\n') })
		}, "0002.cose: changed since it was signed"},
		{"a folder", func(t *testing.T, file func(uint32) string) {
			remove(t, file(2))
			if err := os.Mkdir(file(2), 0o755); err != nil {
				t.Fatal(err)
			}
		}, "0002.cose: not a plain file"},
		// What stands beside the records, and is none of them.
		{"copies by hand", func(t *testing.T, file func(uint32) string) {
			for _, name := range []string{"0001 (copy).cose", "00009.cose", "0000.cose", "5.cose", "0005.cose.bak", "0005.COSE", "notes.txt"} {
				copyFile(t, file(1), filepath.Join(filepath.Dir(file(1)), name))
			}
		}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			l := Open(dir)
			s := begin(t, l, port, starboard)
			for range 4 {
				stage(t, s, port)
				stage(t, s, starboard)
			}
			if err := s.Commit(); err != nil {
				t.Fatal(err)
			}
			s.Close()
			c.do(t, func(n uint32) string { return filepath.Join(dir, port, fileName(n)) })
			if c.want == "" {
				chainOf(t, l, port)
				return
			}
			if got := damaged(t, l); got != c.want {
				t.Errorf("%s\nwant %s", got, c.want)
			}
			// Nothing is added to a chain that is damaged.
			if s, err := l.Begin([]string{starboard, port}); err == nil {
				t.Error("a session began on it")
				s.Close()
			}
			begin(t, l, starboard) // and no lock was kept
		})
	}
}

// TestFarTooLong: of a file that is far too long no more is read than shows it.
func TestFarTooLong(t *testing.T) {
	const long, enough = 64 << 20, 1 << 20
	dir := t.TempDir()
	l := Open(dir)
	issue(t, l, port, 1)
	if err := os.Truncate(filepath.Join(dir, port, fileName(1)), long); err != nil { // a hole, no bytes
		t.Skip(err)
	}
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	if got := damaged(t, l); got != "0001.cose: changed since it was signed" {
		t.Error(got)
	}
	runtime.ReadMemStats(&after)
	if n := after.TotalAlloc - before.TotalAlloc; n > enough {
		t.Errorf("%d bytes were taken", n)
	}
}

func remove(t *testing.T, file string) {
	t.Helper()
	if err := os.Remove(file); err != nil {
		t.Fatal(err)
	}
}

func rename(t *testing.T, from, to string) {
	t.Helper()
	if err := os.Rename(from, to); err != nil {
		t.Fatal(err)
	}
}

func copyFile(t *testing.T, from, to string) {
	t.Helper()
	data, err := os.ReadFile(from)
	if err == nil {
		err = os.WriteFile(to, data, 0o644)
	}
	if err != nil {
		t.Fatal(err)
	}
}

// TestMachineNames: an id never leads out of the ledger's folder.
func TestMachineNames(t *testing.T) {
	dir := t.TempDir()
	l := Open(filepath.Join(dir, "records"))
	for _, id := range []string{"", ".", "..", "../outside", "a/b", "/etc", ".hidden", "a/../b"} {
		if _, err := l.Chain(id); err == nil {
			t.Errorf("%q: a chain was read", id)
		}
		if _, err := l.Begin([]string{id}); err == nil {
			t.Errorf("%q: a session began", id)
		}
	}
	wantFiles(t, dir)
}

// TestAnySequence: any records, in any number of sessions, read back byte for
// byte in their order.
func TestAnySequence(t *testing.T) {
	base := t.TempDir()
	rapid.Check(t, func(rt *rapid.T) {
		dir, err := os.MkdirTemp(base, "")
		if err != nil {
			rt.Fatal(err)
		}
		l := Open(dir)
		want := map[string][]Stored{}
		for range rapid.IntRange(1, 2).Draw(rt, "sessions") {
			s := begin(t, l, starboard, port, starboard)
			for range rapid.IntRange(0, 3).Draw(rt, "jobs") {
				machine := rapid.SampledFrom([]string{port, starboard}).Draw(rt, "machine")
				r := recordtest.Random(rt)
				next := jobAfter(s.Chain(machine), machine).r
				r.Machine.ID, r.Number, r.Previous = next.Machine.ID, next.Number, next.Previous
				stored, err := s.Append(checked{r}, testKey(t, rapid.SampledFrom([]byte{1, 2}).Draw(rt, "key")))
				if err != nil {
					rt.Fatal(err)
				}
				want[machine] = append(want[machine], stored)
			}
			if err := errors.Join(s.Commit(), s.Close()); err != nil {
				rt.Fatal(err)
			}
		}
		for _, machine := range []string{port, starboard} {
			chain := chainOf(t, l, machine)
			if len(chain) != len(want[machine]) {
				rt.Fatalf("%s: %d records, want %d", machine, len(chain), len(want[machine]))
			}
			for i, w := range want[machine] {
				if got := chain[i]; got.ID != w.ID || got.File != w.File || got.Signer != w.Signer || !bytes.Equal(got.Envelope, w.Envelope) {
					rt.Fatalf("%s, record %d: %+v, want %+v", machine, i+1, got, w)
				}
			}
		}
	})
}
