package history_test

import (
	"bytes"
	"fmt"
	"slices"
	"testing"

	"hourseal/verify"
	"hourseal/verify/history"
	"hourseal/verify/history/historytest"
)

// TestAltered: a file with one bit turned over, a byte more or less, or its end cut
// off, is set aside by its name, and all else is judged as if it were not there. So
// the exit code is 3 or 2, and never better than before, but for one case: a broken
// chain (3) of which one of the two records can no longer be read (2).
func TestAltered(t *testing.T) {
	each(t, func(t *testing.T, w *told) { altered(t, w) })
}

func altered(t historytest.Reporter, w *told) {
	in := w.Input()
	before := history.Assess(in).ExitCode()
	for _, n := range some(len(w.Files), max(2, 6-len(w.Files)/50)) {
		f := w.Files[n]
		without := history.Assess(w.without(in, f.Name))
		uncounted(without.Machines)
		want := dump(without.Machines)
		for what, data := range alterations(f.Data) {
			in := w.InputOf(slices.Clone(in.Items))
			in.Items[n].Result = verify.Run(data, w.Reader, nil)
			after := history.Assess(in)
			code := after.ExitCode()
			if code != 3 && code != 2 || rank(code) > rank(before) && before != 3 {
				t.Fatalf("%s, %s: exit %d, before %d", f.Name, what, code, before)
			}
			if !slices.ContainsFunc(after.Aside, func(a history.SetAside) bool {
				return a.Name == f.Name && (a.Why == history.AsideAltered || a.Why == history.AsideUnreadable) && a.Sentence != ""
			}) {
				t.Fatalf("%s, %s: not set aside: %+v", f.Name, what, after.Aside)
			}
			uncounted(after.Machines)
			if dump(after.Machines) != want {
				t.Fatalf("%s, %s: the rest is judged otherwise than without it", f.Name, what)
			}
		}
	}
}

// TestUnreadableSaysWhy: of an input that cannot be read the history says why, as the
// answer about it by itself does.
func TestUnreadableSaysWhy(t *testing.T) {
	w := tell(t, historytest.Read(t, tales, historytest.Names(t, tales)[0]))
	in := w.InputOf([]history.Item{
		{Name: "empty.cose", Result: verify.Run(nil, w.Reader, nil)},
		{Name: "other.pdf", Result: verify.Run([]byte("%PDF-1.4\n"), w.Reader, nil)},
	})
	var said []string
	for _, a := range history.Assess(in).Aside {
		said = append(said, a.Sentence)
	}
	if want := []string{
		"This cannot be read as a service record. The input is empty. Give the PDF of the report, a photograph or scan of its QR code, the text of the code, or the .cose record file.",
		"This cannot be read as a service record. No service record was found in this PDF. Ask for the PDF of the report as the yard sent it, or take a picture of the code on its last page; a label or worksheet holds no record, and a locked or printed copy has lost it.",
	}; !slices.Equal(said, want) {
		t.Errorf("%q", said)
	}
}

// uncounted forgets how many files there are, and how many of them are altered: that
// is told, and nothing else changes.
func uncounted(machines []history.Machine) {
	for i := range machines {
		machines[i].Altered, machines[i].Inputs = 0, 0
	}
}

func alterations(data []byte) map[string][]byte {
	all := map[string][]byte{"nothing left": {}, "a byte more": append(bytes.Clone(data), 0), "twice": append(bytes.Clone(data), data...)}
	for n, i := range some(len(data), 24) {
		turned := bytes.Clone(data)
		turned[i] ^= 1 << (n % 8)
		all[fmt.Sprintf("bit %d of byte %d", n%8, i)] = turned
		if n%4 == 0 {
			all[fmt.Sprintf("cut to %d bytes", i)] = data[:i]
			all[fmt.Sprintf("byte %d out", i)] = slices.Delete(bytes.Clone(data), i, i+1)
		}
	}
	return all
}
