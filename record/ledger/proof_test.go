package ledger

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/sign"
)

// writeChain writes the records of a machine as files, each sealed with the key
// that its place in keys names. After a record is sealed, spoil may change its
// envelope; the next one cites what came of it.
func writeChain(t *testing.T, dir string, keys []byte, spoil func(n int, envelope []byte)) {
	t.Helper()
	must(t, os.MkdirAll(filepath.Join(dir, port), 0o755))
	var chain []Stored
	for i, key := range keys {
		r := jobAfter(chain, port).r
		payload, err := record.Encode(r)
		must(t, err)
		envelope, err := sign.Seal(sign.RecordV1, payload, testKey(t, key))
		must(t, err)
		if spoil != nil {
			spoil(i+1, envelope)
		}
		must(t, os.WriteFile(filepath.Join(dir, port, fileName(r.Number)), envelope, 0o644))
		chain = append(chain, Stored{ID: record.ID(sign.IDOf(envelope)), Record: r})
	}
}

// breakSignature changes the last byte of R, and so leaves the envelope whole.
func breakSignature(envelope []byte) { envelope[len(envelope)-33] ^= 1 }

// TestNobodySignsForTheYard: a record in the name of the yard's key, which that
// key did not sign, is not taken because a stranger's good record cites it.
func TestNobodySignsForTheYard(t *testing.T) {
	const yard, stranger = 1, 2
	for name, keys := range map[string][]byte{
		"under the last":   {yard, yard, stranger},
		"further down":     {yard, yard, stranger, stranger},
		"the yard goes on": {yard, yard, stranger, yard},
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			writeChain(t, dir, keys, func(n int, envelope []byte) {
				if n == 2 {
					breakSignature(envelope)
				}
			})
			if got := damaged(t, Open(dir)); got != "0002.cose: changed since it was signed" {
				t.Error(got)
			}
		})
	}
}

// TestHoldersWord: what a key's holder cites under that key, a reader takes as
// his word, as the package comment says. A session adds nothing to it.
func TestHoldersWord(t *testing.T) {
	dir := t.TempDir()
	writeChain(t, dir, []byte{1, 1, 1}, func(n int, envelope []byte) {
		if n == 2 {
			breakSignature(envelope)
		}
	})
	l := Open(dir)
	if n := len(chainOf(t, l, port)); n != 3 {
		t.Errorf("%d records", n)
	}
	s, err := l.Begin([]string{port})
	if err == nil {
		s.Close()
	}
	if want := filepath.Join(dir, port, fileName(2)) + ": changed since it was signed: " + sign.ErrBadSignature.Error(); err == nil || err.Error() != want {
		t.Errorf("a session: %v, want %s", err, want)
	}
}

// TestBothProofsAgree: a chain of any signers, its files whole or damaged in any
// way, is read in the short way with the same result and the same error as with
// every signature worked out.
func TestBothProofsAgree(t *testing.T) {
	base := t.TempDir()
	good, bad := 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		dir, err := os.MkdirTemp(base, "")
		must(t, err)
		keys := rapid.SliceOfN(rapid.SampledFrom([]byte{1, 2, 3}), 1, 6).Draw(rt, "keys")
		writeChain(t, dir, keys, nil)
		// Some are another yard's, the oldest of which need not be at hand.
		others := rapid.Uint32Range(0, uint32(len(keys)-1)).Draw(rt, "of another yard")
		gone := rapid.Uint32Range(0, max(others, 1)-1).Draw(rt, "not at hand")
		takenOver(t, dir, others, gone)
		file := func(label string) string {
			n := rapid.Uint32Range(gone+1, uint32(len(keys))).Draw(rt, label)
			if n <= others {
				return filepath.Join(dir, port, beforeName, fileName(n))
			}
			return filepath.Join(dir, port, fileName(n))
		}
		for range rapid.IntRange(0, 2).Draw(rt, "faults") {
			switch rapid.IntRange(0, 4).Draw(rt, "fault") {
			case 0:
				_ = os.Remove(file("removed"))
			case 1:
				_ = os.Rename(file("from"), file("to"))
			case 2:
				changeByte(rt, file("changed"))
			case 3:
				if data, err := os.ReadFile(file("copied")); err == nil {
					must(t, os.WriteFile(file("over"), data, 0o644))
				}
			case 4: // sealed again by another key
				resealAs(rt, t, file("sealed again"))
			}
		}
		l := Open(dir)
		chain, err := l.Chain(port)
		full, fullErr := l.chainInFull(port)
		if text(err) != text(fullErr) {
			rt.Fatalf("%v\nin full: %v", err, fullErr)
		}
		if len(chain) != len(full) {
			rt.Fatalf("%d records, in full %d", len(chain), len(full))
		}
		for i, s := range chain {
			f := full[i]
			if s.File != f.File || s.Before != f.Before || s.ID != f.ID || s.Signer != f.Signer || !bytes.Equal(s.Envelope, f.Envelope) || !sameRecord(s.Record, f.Record) {
				rt.Fatalf("record %d: %+v, in full %+v", i+1, s, f)
			}
		}
		if err == nil {
			good++
		} else {
			bad++
		}
	})
	if good == 0 || bad == 0 {
		t.Errorf("%d chains good and %d bad: the test shows nothing", good, bad)
	}
}

// takenOver makes the first records of a chain those of another yard, the oldest of
// which are not at hand.
func takenOver(t *testing.T, dir string, others, gone uint32) {
	t.Helper()
	if others == 0 {
		return
	}
	before := filepath.Join(dir, port, beforeName)
	must(t, os.Mkdir(before, 0o755))
	for n := uint32(1); n <= others; n++ {
		must(t, os.Rename(filepath.Join(dir, port, fileName(n)), filepath.Join(before, fileName(n))))
		if n <= gone {
			must(t, os.Remove(filepath.Join(before, fileName(n))))
		}
	}
}

func text(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}

func sameRecord(a, b *record.Record) bool {
	x, err := record.Encode(a)
	if err != nil {
		return false
	}
	y, err := record.Encode(b)
	return err == nil && bytes.Equal(x, y)
}

func changeByte(rt *rapid.T, file string) {
	data, err := os.ReadFile(file)
	if err != nil {
		return // it was removed before
	}
	data[rapid.IntRange(0, len(data)-1).Draw(rt, "byte")] ^= 1 << rapid.IntRange(0, 7).Draw(rt, "bit")
	if err := os.WriteFile(file, data, 0o644); err != nil {
		rt.Fatal(err)
	}
}

func resealAs(rt *rapid.T, t *testing.T, file string) {
	data, err := os.ReadFile(file)
	if err != nil {
		return
	}
	opened, err := sign.Open(sign.RecordV1, data)
	if err != nil {
		return // it was changed before
	}
	envelope, err := sign.Seal(sign.RecordV1, opened.Payload, testKey(t, rapid.SampledFrom([]byte{1, 2, 3}).Draw(rt, "key")))
	must(t, err)
	must(t, os.WriteFile(file, envelope, 0o644))
}

// TestReadsOneByteMore: of a file that is too long as much is read as shows it.
func TestReadsOneByteMore(t *testing.T) {
	for _, size := range []int{0, 1, 900, sign.MaxEnvelopeBytes, sign.MaxEnvelopeBytes + 1, 3 * sign.MaxEnvelopeBytes} {
		file := filepath.Join(t.TempDir(), fileName(1))
		data := bytes.Repeat([]byte{0xd2}, size)
		must(t, os.WriteFile(file, data, 0o644))
		got, err := readEnvelope(file, false, make([]byte, sign.MaxEnvelopeBytes+1))
		if want := data[:min(size, sign.MaxEnvelopeBytes+1)]; err != nil || !bytes.Equal(got, want) {
			t.Errorf("%d of %d bytes, %v", len(got), size, err)
		}
	}
}
