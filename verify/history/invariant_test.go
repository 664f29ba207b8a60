package history_test

import (
	"slices"
	"strings"
	"testing"

	"hourseal/record/quantity"
	"hourseal/verify/history"
	"hourseal/verify/history/historytest"
)

// TestStretches: the stretches of a task cover the time on record without a gap, and
// its figures are their sums.
func TestStretches(t *testing.T) {
	each(t, func(t *testing.T, w *told) { stretchesHold(t, w) })
}

func stretchesHold(t historytest.Reporter, w *told) {
	for _, m := range history.Assess(w.Input()).Machines {
		for _, task := range m.Tasks {
			at := m.Span.First
			sums := map[history.Adherence]quantity.Hours{}
			for _, s := range task.Stretches {
				if s.From != at {
					t.Errorf("%s: a stretch begins at %v, the one before it ended at %v", task.ID, s.From, at)
				}
				at = s.To
				sums[s.State] += max(0, s.To.Hours-s.From.Hours)
			}
			if at != m.Span.Last {
				t.Errorf("%s: the stretches end at %v, the records at %v", task.ID, at, m.Span.Last)
			}
			if slices.ContainsFunc(m.Faults, func(f history.Fault) bool { return f.Code == history.HoursBack }) {
				continue // a stretch over that is shorter than what was run in it
			}
			same(t, task.ID+" overdue", task.Overdue, sums[history.Late])
			same(t, task.ID+" not known", task.Unknown, sums[history.NotTold])
			same(t, task.ID+" run", task.Run, sums[history.Late]+sums[history.NotTold]+sums[history.Inside]+sums[history.InGrace])
			if share := task.InsideShare(); share != nil && (*share < 0 || *share > quantity.One) {
				t.Errorf("%s: inside for %v", task.ID, share.Percent())
			}
		}
	}
}

// never are words that a history has no use for: praise, blame, and what sounds like
// proof of good work.
var never = []string{"verified", "well maintained", "perfect", "excellent", "fraud", "forged", "negligent", "tamper", "liar", "guilty", "not done", "%!", "<nil>"}

// TestWords: all that is said of a history is said in words, and in none of those.
func TestWords(t *testing.T) {
	each(t, func(t *testing.T, w *told) { wordsHold(t, w) })
}

func wordsHold(t historytest.Reporter, w *told) {
	for _, m := range history.Assess(w.Input()).Machines {
		said := []string{m.Sentence(), m.Title()}
		for _, f := range m.Faults {
			words := m.FaultWords(f)
			if words == string(f.Code) || !strings.HasSuffix(words, ".") {
				t.Errorf("%s is told as %q", f.Code, words)
			}
			said = append(said, words)
		}
		for _, c := range m.Chains {
			said = append(said, m.TailWords(c))
		}
		for i := range m.Entries {
			said = append(said, m.CountsWords(&m.Entries[i]))
		}
		for _, q := range m.Questions {
			if !strings.HasSuffix(q.Text, "?") && !strings.HasSuffix(q.Text, ".") {
				t.Errorf("no question: %q", q.Text)
			}
			said = append(said, q.Text)
		}
		for _, task := range m.Tasks {
			said = append(said, task.NowWords())
			for _, d := range task.Done {
				said = append(said, d.When.Words())
			}
			for _, wait := range task.Waits {
				said = append(said, m.WaitWords(wait))
			}
		}
		if m.Stands != nil {
			said = append(said, m.Stands.Hours.Words())
			for _, s := range m.Stands.Tasks {
				said = append(said, s.Shown.Words(), s.All.Words())
			}
		}
		for _, text := range said {
			for _, word := range never {
				if strings.Contains(strings.ToLower(text), word) {
					t.Errorf("%q stands in %q", word, text)
				}
			}
			if strings.Contains(text, historytest.Technician) {
				t.Errorf("the technician is told of: %q", text)
			}
		}
	}
}
