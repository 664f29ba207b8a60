package ledger

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/sign"
)

// another is the other yard's chain of a machine, which it calls by a name of its own.
func another(t *testing.T, from []Stored, n int) []Stored {
	t.Helper()
	chain := from
	for range n {
		r := jobAfter(chain, "pe-12").r
		payload, err := record.Encode(r)
		must(t, err)
		envelope, err := sign.Seal(sign.RecordV1, payload, testKey(t, 2))
		must(t, err)
		chain = append(chain[:len(chain):len(chain)], Stored{ID: record.ID(sign.IDOf(envelope)), Envelope: envelope, Record: r})
	}
	return chain[len(from):]
}

// numbers are those of a chain, the other yard's in brackets.
func numbers(chain []Stored) string {
	var all []string
	for _, s := range chain {
		name := filepath.Base(s.File)
		if s.Before {
			name = "(" + name + ")"
		}
		all = append(all, name)
	}
	return strings.Join(all, " ")
}

func takeOver(t *testing.T, l Ledger, others ...Stored) {
	t.Helper()
	s := begin(t, l, port)
	for _, o := range others {
		must(t, s.TakeOver(port, o.Envelope))
	}
	stage(t, s, port)
	must(t, s.Commit())
	must(t, s.Close())
}

// TestTakenOver: the chain goes on with the other yard's number, is read back with
// its record, and its signature is looked at.
func TestTakenOver(t *testing.T) {
	l := Open(t.TempDir())
	others := another(t, nil, 7)
	takeOver(t, l, others[6])
	issue(t, l, port, 1)
	chain := chainOf(t, l, port)
	if got := numbers(chain); got != "(0007.cose) 0008.cose 0009.cose" {
		t.Errorf("chain %s", got)
	}
	if chain[0].Signer != testKey(t, 2).Public() || chain[1].Record.Previous.Record != others[6].ID {
		t.Errorf("%v, cited %v", chain[0], chain[1].Record.Previous)
	}
	// Taken over again, it stays as it is.
	takeOver(t, l, others[6])
	if got := numbers(chainOf(t, l, port)); got != "(0007.cose) 0008.cose 0009.cose 0010.cose" {
		t.Errorf("chain %s", got)
	}
	kept := filepath.Join(l.dir, port, beforeName, fileName(7))
	edit(t, kept, func(data []byte) []byte { breakSignature(data); return data })
	if got := damaged(t, l); got != "0007.cose: changed since it was signed" {
		t.Error(got)
	}
	must(t, os.WriteFile(kept, others[5].Envelope, 0o644))
	if got := damaged(t, l); got != "0007.cose: holds record number 6" {
		t.Error(got)
	}
	must(t, os.Remove(kept))
	if got := damaged(t, l); got != "0001.cose: missing, while 0010.cose is there: bring it back from a copy" {
		t.Error(got)
	}
}

// TestTakenOverBetween: what another yard did between two visits is taken over only
// as one line with what is here.
func TestTakenOverBetween(t *testing.T) {
	l := Open(t.TempDir())
	issue(t, l, port, 2)
	own := chainOf(t, l, port)
	between := another(t, own, 2)
	s := begin(t, l, port)
	for name, c := range map[string]struct {
		envelope []byte
		want     string
	}{
		"of its own":    {another(t, nil, 1)[0].Envelope, "it begins a chain of its own"},
		"not the next":  {between[1].Envelope, "give that one too, and all from record 3 on"},
		"beside it":     {another(t, own[:1], 1)[0].Envelope, "it is record 2 and cites"},
		"of two unlike": {another(t, another(t, nil, 2), 1)[0].Envelope, "the last here is record 2"},
	} {
		err := s.TakeOver(port, c.envelope)
		var not *NotNextError
		if !errors.As(err, &not) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if err := s.TakeOver(starboard, between[0].Envelope); err == nil {
		t.Error("taken over for a machine of no session")
	}
	broken := append([]byte{}, between[0].Envelope...)
	breakSignature(broken)
	if err := s.TakeOver(port, broken); !errors.Is(err, sign.ErrBadSignature) {
		t.Errorf("with a bad signature: %v", err)
	}
	must(t, s.Close())
	takeOver(t, l, between...)
	if got := numbers(chainOf(t, l, port)); got != "0001.cose 0002.cose (0003.cose) (0004.cose) 0005.cose" {
		t.Errorf("chain %s", got)
	}
}

// TestTakenOverAfterACrash: a record of another yard that was kept, and nothing after
// it, is no part of the chain; the next session goes on.
func TestTakenOverAfterACrash(t *testing.T) {
	l := Open(t.TempDir())
	others := another(t, nil, 2)
	before := filepath.Join(l.dir, port, beforeName)
	must(t, os.MkdirAll(before, 0o755))
	must(t, os.WriteFile(filepath.Join(before, fileName(2)), others[1].Envelope, 0o644))
	must(t, os.WriteFile(filepath.Join(before, temporaryPrefix+fileName(1)), []byte("half"), 0o644))
	if n := len(chainOf(t, l, port)); n != 0 {
		t.Errorf("%d records", n)
	}
	if machines, err := l.Machines(); err != nil || len(machines) != 0 {
		t.Errorf("machines %v, %v", machines, err)
	}
	takeOver(t, l, others[1])
	if got := numbers(chainOf(t, l, port)); got != "(0002.cose) 0003.cose" {
		t.Errorf("chain %s", got)
	}
	if _, err := os.Stat(filepath.Join(before, temporaryPrefix+fileName(1))); err == nil {
		t.Error("what the crash left is still there")
	}

	// Another record under that name is not put aside.
	l = Open(t.TempDir())
	before = filepath.Join(l.dir, port, beforeName)
	must(t, os.MkdirAll(before, 0o755))
	must(t, os.WriteFile(filepath.Join(before, fileName(2)), others[0].Envelope, 0o644))
	s := begin(t, l, port)
	must(t, s.TakeOver(port, others[1].Envelope))
	stage(t, s, port)
	if err := s.Commit(); err == nil || !strings.HasPrefix(err.Error(), "nothing was stored: ") {
		t.Errorf("commit %v", err)
	}
	if _, err := s.Append(jobAfter(nil, port), testKey(t, 1)); !errors.Is(err, ErrEnded) {
		t.Errorf("after it: %v", err)
	}
}
