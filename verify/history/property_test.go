package history_test

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/sign"
	"hourseal/verify/history"
	"hourseal/verify/history/historytest"
)

// each runs a property over every history of the library.
func each(t *testing.T, property func(t *testing.T, w *told)) {
	for _, name := range historytest.Names(t, tales) {
		t.Run(name, func(t *testing.T) { property(t, tell(t, historytest.Read(t, tales, name))) })
	}
}

// dump is all of an answer, byte for byte.
func dump(answer any) string {
	text, err := json.MarshalIndent(answer, "", " ")
	if err != nil {
		return err.Error()
	}
	return string(text)
}

// rank is the place of an exit code among the worst: formats, "Command line".
func rank(code int) int { return slices.Index([]int{3, 1, 2, 5, 4, 6, 7, 0}, code) }

// some are at most n places out of a length, spread evenly, the first and the last
// among them.
func some(length, n int) []int {
	var places []int
	for i := range min(length, n) {
		places = append(places, i*(length-1)/max(min(length, n)-1, 1))
	}
	return places
}

// without is an input that lacks one item.
func (w *told) without(in history.Input, name string) history.Input {
	return w.InputOf(slices.DeleteFunc(slices.Clone(in.Items), func(i history.Item) bool { return i.Name == name }))
}

// TestAnyOrder: the same files in any order give the same answer, byte for byte; also
// where every file is there twice, under two names.
func TestAnyOrder(t *testing.T) {
	each(t, func(t *testing.T, w *told) {
		in := w.Input()
		want := dump(history.Assess(w.twice(in)))
		if !strings.HasPrefix(want, "{") {
			t.Fatal(want)
		}
		if len(in.Items) <= 20 {
			rapid.Check(t, func(t *rapid.T) { w.anyOrder(t, in, want) })
			return
		}
		for turn := range 3 { // a long one is turned about only
			items := w.twice(in).Items
			slices.Reverse(items[:turn*331])
			if dump(history.Assess(w.InputOf(items))) != want {
				t.Fatal("another order, another answer")
			}
		}
	})
}

// twice is an input with every item a second time, under another name.
func (w *told) twice(in history.Input) history.Input {
	items := slices.Clone(in.Items)
	for _, item := range in.Items {
		items = append(items, history.Item{Name: "a copy of " + item.Name, Result: item.Result})
	}
	return w.InputOf(items)
}

func (w *told) anyOrder(t *rapid.T, in history.Input, want string) {
	if got := dump(history.Assess(w.InputOf(rapid.Permutation(w.twice(in).Items).Draw(t, "items")))); got != want {
		t.Fatalf("another order, another answer\n%s\n%s", got, want)
	}
}

// TestReadTwice: the same record out of two files is one record.
func TestReadTwice(t *testing.T) {
	each(t, func(t *testing.T, w *told) { readTwice(t, w) })
}

func readTwice(t historytest.Reporter, w *told) {
	in := w.Input()
	once, twice := w.judgementOf(history.Assess(in)), w.judgementOf(history.Assess(w.twice(in)))
	once.Aside, twice.Aside = nil, nil
	for i := range twice.Machines {
		twice.Machines[i].Faults = slices.Compact(twice.Machines[i].Faults) // a list handed in twice
	}
	if a, b := inYAML(t, once), inYAML(t, twice); a != b {
		t.Errorf("once\n%stwice\n%s", a, b)
	}
}

// TestLeftOut: leaving out a genuine record that another one here cites, or that a
// signed list names, never makes a better judgement: the exit code is no better, the
// record is named as missing, and of no task more hours are said to be inside. The
// hours overdue may get fewer, for what nobody sees nobody can call late: they become
// hours of which nothing is known.
func TestLeftOut(t *testing.T) {
	each(t, func(t *testing.T, w *told) { leftOut(t, w, noMoreInside) })
}

func leftOut(t historytest.Reporter, w *told, further func(t historytest.Reporter, what string, before, after *history.Machine)) {
	in := w.Input()
	before := history.Assess(in)
	named := w.named(before)
	for _, n := range some(len(named), 20) {
		e := named[n]
		after := history.Assess(w.without(in, e.Label))
		if rank(after.ExitCode()) > rank(before.ExitCode()) && !onlyItShows(before, e) {
			t.Errorf("without %s exit %d, with it %d", e.Label, after.ExitCode(), before.ExitCode())
		}
		if !missing(after, e.ID) {
			t.Errorf("without %s: it is not named as missing", e.Label)
		}
		if further != nil && e.About == nil {
			for i := range after.Machines {
				further(t, "without "+e.Label, machineOf(before, after.Machines[i].Serial), &after.Machines[i])
			}
		}
	}
}

// onlyItShows says whether a broken chain may show by one record alone: by what it leads
// to, or as one of the two, where no record of their signer that counts cites it in turn.
// Left out, it is missing, and nobody can tell any longer that the same signer stands
// behind both: another exit code in the place of 3.
func onlyItShows(h history.History, e *historytest.Sealed) bool {
	for _, m := range h.Machines {
		for _, f := range m.Faults {
			if f.Code != history.LineBroken {
				continue
			}
			cited := slices.ContainsFunc(m.Entries, func(by history.Entry) bool {
				return by.Root == f.Signer && by.KeyCounts() && by.Record.Previous != nil && by.Record.Previous.Record == e.ID
			})
			if f.Missing.Number < e.Record.Number || f.Missing.Number == e.Record.Number && !cited {
				return true
			}
		}
	}
	return false
}

// named are the records that count here, and that another here cites, or a list or a
// ledger line names.
func (w *told) named(h history.History) []*historytest.Sealed {
	cited := map[record.ID]bool{}
	var all []history.Entry
	for _, m := range h.Machines {
		all = append(all, m.Entries...)
		for _, l := range m.Lists {
			if !l.Counts {
				continue
			}
			for _, end := range l.List.Ends {
				cited[end.ID] = true
			}
		}
	}
	for _, e := range all {
		if e.Record.Previous != nil && e.Heard() { // a stranger's record may cite anything
			cited[e.Record.Previous.Record] = true
		}
	}
	for _, head := range w.Heads {
		for _, label := range head.Paths {
			cited[w.Find(label).ID] = true
		}
	}
	var named []*historytest.Sealed
	for _, e := range all {
		if cited[e.ID] && e.KeyCounts() {
			named = append(named, w.Find(w.Name(e.ID)))
		}
	}
	return named
}

// missing says whether a record is told as missing, in words and with an exit code;
// one that a list names of a machine of which nothing is here, with the list.
func missing(h history.History, id record.ID) bool {
	for _, a := range h.Aside {
		if a.Why == history.AsideListAlone && a.Sentence != "" && h.ExitCode() != 0 {
			return true
		}
	}
	for _, m := range h.Machines {
		for _, f := range m.Faults {
			if f.Missing != nil && f.Missing.ID == id && f.ExitCode() != 0 && !strings.Contains(m.FaultWords(f), string(f.Code)) {
				return true
			}
		}
	}
	return false
}

func machineOf(h history.History, serial string) *history.Machine {
	for i := range h.Machines {
		if h.Machines[i].Serial == serial {
			return &h.Machines[i]
		}
	}
	return nil
}

// noMoreInside holds of the library, and not always: with fewer readings the straight
// line between them is another.
func noMoreInside(t historytest.Reporter, what string, before, after *history.Machine) {
	t.Helper()
	inside := map[string]quantity.Hours{}
	for _, task := range before.Tasks {
		inside[task.ID] = task.Run - task.Overdue - task.Unknown
	}
	for _, task := range after.Tasks {
		if now := task.Run - task.Overdue - task.Unknown; now > inside[task.ID] {
			t.Errorf("%s: %s inside for %v h, before %v h", what, task.ID, now, inside[task.ID])
		}
	}
}

// TestLastLeftOut: leaving out the last record, which nothing names, changes only what
// is said of the end and what that record itself told. What it told may be of others:
// that they were there before it, or do not count; such a record is passed over here.
func TestLastLeftOut(t *testing.T) {
	each(t, func(t *testing.T, w *told) { lastLeftOut(t, w) })
}

func lastLeftOut(t historytest.Reporter, w *told) {
	in := w.Input()
	before := history.Assess(in)
	named := w.named(before)
	for i := range before.Machines {
		m := &before.Machines[i]
		for _, c := range m.Chains {
			at := c.Entries[len(c.Entries)-1]
			last := w.Find(w.Name(c.Tail.ID))
			newest := len(m.Counted) > 0 && m.Counted[len(m.Counted)-1] == at
			if len(c.Entries) < 2 || !newest || slices.Contains(named, last) || w.tellsOfOthers(m, at, last) {
				continue
			}
			after := machineOf(history.Assess(w.without(in, last.Label)), m.Serial)
			w.onlyTheEnd(t, last, m, after)
		}
	}
}

// tellsOfOthers says whether a record takes another back or is taken back by one, or
// shows when others were there, by citing them or by the reader's log.
func (w *told) tellsOfOthers(m *history.Machine, at int, last *historytest.Sealed) bool {
	_, received := w.Received[last.Label]
	return received || last.About != nil ||
		slices.ContainsFunc(w.All, func(e *historytest.Sealed) bool { return e.About == last }) ||
		slices.ContainsFunc(m.Entries, func(e history.Entry) bool { return e.Exists.NotAfter != nil && e.Exists.NotAfter.Entry == at })
}

func (w *told) onlyTheEnd(t historytest.Reporter, last *historytest.Sealed, before, after *history.Machine) {
	t.Helper()
	a, b := w.judgedOf(before), w.judgedOf(after)
	delete(a.Counts, last.Label)
	for i := range a.Chains {
		a.Chains[i] = strings.TrimSuffix(a.Chains[i], " "+last.Label)
		if len(before.Entries) > 20 {
			a.Chains[i], b.Chains[i] = "", "" // written short
		}
	}
	if len(before.Chains) == 1 { // of several, which comes first, or behind which, may change
		same(t, last.Label+": chains", b.Chains, a.Chains)
	}
	same(t, last.Label+": which count", fmt.Sprint(b.Counts), fmt.Sprint(a.Counts))
	about := func(f history.Fault) bool {
		if f.Code == history.RecordMissing { // told once, of the first that cites it
			return !slices.ContainsFunc(before.Entries, func(e history.Entry) bool {
				return e.ID != last.ID && e.Heard() && e.Record.Previous != nil && e.Record.Previous.Record == f.Missing.ID
			})
		}
		return f.Entry >= 0 && before.Entries[f.Entry].ID == last.ID || f.Other >= 0 && before.Entries[f.Other].ID == last.ID
	}
	text := func(m *history.Machine, f history.Fault) string {
		if f.Code == history.RecordMissing {
			f.Entry = -1
		}
		if f.Missing != nil { // how many are missing in a row, others tell
			missing := *f.Missing
			missing.Since = 0
			f.Missing = &missing
		}
		return w.faultOf(m, f)
	}
	broken := map[sign.PublicKey]bool{}
	var kept, left []string
	parallel, wasParallel := false, false
	for _, f := range before.Faults {
		wasParallel = wasParallel || f.Code == history.ParallelChains
		if f.Code == history.LineBroken { // told once of a signer, by any two of one number
			broken[f.Signer] = true
		} else if f.Code != history.ParallelChains && !unbound(f) && !about(f) {
			kept = append(kept, text(before, f))
		}
	}
	for _, f := range after.Faults {
		switch {
		case f.Code == history.ParallelChains:
			parallel = true
		case f.Code == history.LineBroken:
			if !broken[f.Signer] {
				t.Errorf("without %s: a broken chain, with it none", last.Label)
			}
		case !unbound(f):
			left = append(left, text(after, f))
		}
	}
	if parallel && len(broken) == 0 && !wasParallel {
		t.Errorf("without %s: chains that do not know of each other, with it none", last.Label)
	}
	slices.Sort(left)
	slices.Sort(kept)
	same(t, last.Label+": faults", left, kept)
	if len(before.Chains) > 1 && slices.ContainsFunc(before.Faults, func(f history.Fault) bool { return f.Code == history.RecordMissing }) {
		return // behind which chain the missing one lies may be another guess
	}
	if slices.ContainsFunc(before.Entries, func(e history.Entry) bool { return e.ID == last.ID && e.AfterGap }) {
		return // it told of one that is missing, too, and so of what lies behind that
	}
	for _, task := range after.Tasks {
		i := slices.IndexFunc(before.Tasks, func(t history.Task) bool { return t.ID == task.ID })
		was := before.Tasks[i]
		if len(task.Done) > len(was.Done) || len(task.Done) < len(was.Done)-1 {
			t.Errorf("without %s: %s done %d times, before %d", last.Label, task.ID, len(task.Done), len(was.Done))
			continue
		}
		for n, d := range task.Done {
			then := was.Done[n]
			same(t, fmt.Sprintf("%s: %s, time %d", last.Label, task.ID, n+1), reachedOf(d.When)+w.Name(after.Entries[d.Entry].ID),
				reachedOf(then.When)+w.Name(before.Entries[then.Entry].ID))
		}
		if back := slices.ContainsFunc(before.Faults, func(f history.Fault) bool { return f.Code == history.HoursBack }); back {
			continue // what was past due before may be so no longer
		}
		if task.Overdue > was.Overdue || task.Run > was.Run {
			t.Errorf("without %s: %s overdue for %v of %v h, before for %v of %v h", last.Label, task.ID, task.Overdue, task.Run, was.Overdue, was.Run)
		}
	}
}

// unbound says whether a fault hangs on all records together, the last among them.
func unbound(f history.Fault) bool {
	return f.Code == history.TakenBackLate || f.Code == history.HoursUnlike
}

func same[T any](t historytest.Reporter, what string, got, want T) {
	t.Helper()
	if a, b := fmt.Sprint(got), fmt.Sprint(want); a != b {
		t.Errorf("%s\n got %s\nwant %s", what, a, b)
	}
}
