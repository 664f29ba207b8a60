package dialogue

import (
	"errors"
	"maps"
	"slices"
	"strings"
)

// Dash is the answer that nothing is there or was measured.
const Dash = "-"

// Question is one question, with what is said beside it.
type Question struct {
	Key   string // names it within the script
	Text  string // what is asked, in a line
	Offer string // what an empty line stands for; "" where nothing is likely
	// Dashed is what "-" says here, as "not measured"; "" where it is no answer.
	Dashed string
	Help   []string // for whoever types "?"; a paragraph each
	// Read makes of what was typed what is kept, or says why it cannot be. It is not
	// given an empty line or a dash.
	Read func(typed string) (kept string, err error)

	// BackTo is the key of the question that "<" leads to from here, where that is not
	// the one before.
	BackTo string

	Said  []string // since the answer before: what is known and what follows from it
	Fault string   // why the answer that stood here was not taken; "" for none
}

// Script asks the questions.
type Script func(*Asker)

// Kept is one answer.
type Kept struct {
	Key, Text string
	Back      bool // it was taken back, and is offered again
}

// Dialogue is a session with a script.
type Dialogue struct {
	script Script
	kept   []Kept            // in the order in which they were given
	former map[string]string // answers that were taken back, by key
	last   Asker             // how far the script came
}

// New begins a session, or goes on with one whose answers were kept.
func New(script Script, kept ...Kept) *Dialogue {
	d := &Dialogue{script: script, former: map[string]string{}}
	for _, k := range kept {
		if k.Back {
			d.former[k.Key] = k.Text
		} else {
			d.kept = append(d.kept, k)
		}
	}
	d.run()
	return d
}

// run runs the script over the answers. One that it does not take is thrown away.
func (d *Dialogue) run() {
	d.last = Asker{d: d}
	d.script(&d.last)
	if w := d.last.waits; w != nil && w.Fault != "" {
		d.drop(w.Key)
	}
}

// Next is the question that waits; false when none does, and Said is all there is
// to say.
func (d *Dialogue) Next() (Question, bool) {
	if d.last.waits == nil {
		return Question{Said: d.last.said}, false
	}
	return *d.last.waits, true
}

// ErrWanted says that an empty line is no answer here.
var ErrWanted = errors.New("an answer is wanted here")

// ErrNoDash says that a dash is no answer here.
var ErrNoDash = errors.New(`"-" is no answer here`)

// Answer takes an answer to the question that waits, as it was typed. The error says
// why it cannot be one; what else speaks against it is the Fault of the question,
// which then waits on.
func (d *Dialogue) Answer(typed string) error {
	q := d.last.waits
	if q == nil {
		return nil
	}
	kept, err := q.taken(typed)
	if err != nil {
		return err
	}
	d.forget(q.Key, kept)
	d.drop(q.Key)
	delete(d.former, q.Key)
	d.kept = append(d.kept, Kept{Key: q.Key, Text: kept})
	d.run()
	return nil
}

// forget drops what was answered about another answer to a question: the reason for
// one piece of work is none for the next. Keys below a question's begin with its own.
func (d *Dialogue) forget(key, kept string) {
	if former, was := d.former[key]; !was || former == kept {
		return
	}
	below := key + "/"
	d.kept = slices.DeleteFunc(d.kept, func(k Kept) bool { return strings.HasPrefix(k.Key, below) })
	for other := range d.former {
		if strings.HasPrefix(other, below) {
			delete(d.former, other)
		}
	}
}

// Refresh runs the script again, for what it works from may have changed.
func (d *Dialogue) Refresh() { d.run() }

// taken is what is kept of an answer.
func (q *Question) taken(typed string) (string, error) {
	if typed == "" {
		typed = q.Offer
	}
	switch {
	case typed == "":
		return "", ErrWanted
	case typed == Dash && q.Dashed == "":
		return "", ErrNoDash
	case typed == Dash, q.Read == nil:
		return typed, nil
	}
	return q.Read(typed)
}

// Back takes the last answer away and asks for it again; false at the first
// question.
func (d *Dialogue) Back() bool {
	n := len(d.last.asked)
	if n == 0 {
		return false
	}
	key := d.last.asked[n-1]
	if w := d.last.waits; w != nil && slices.Contains(d.last.asked, w.BackTo) {
		key = w.BackTo
	}
	d.former[key] = d.text(key)
	d.drop(key)
	d.run()
	return true
}

// Kept are the answers so far, in the order in which they were given; also those to
// questions that do not arise at the moment, and behind them those that were taken back
// and not given anew.
func (d *Dialogue) Kept() []Kept {
	kept := slices.Clone(d.kept)
	for _, key := range slices.Sorted(maps.Keys(d.former)) {
		kept = append(kept, Kept{Key: key, Text: d.former[key], Back: true})
	}
	return kept
}

// Idle are the keys of answers to questions that did not arise. It says something once
// no question waits.
func (d *Dialogue) Idle() []string {
	var keys []string
	for _, k := range d.kept {
		if !slices.Contains(d.last.asked, k.Key) {
			keys = append(keys, k.Key)
		}
	}
	return keys
}

func (d *Dialogue) index(key string) int {
	return slices.IndexFunc(d.kept, func(k Kept) bool { return k.Key == key })
}

func (d *Dialogue) text(key string) string {
	if i := d.index(key); i >= 0 {
		return d.kept[i].Text
	}
	return ""
}

func (d *Dialogue) drop(key string) {
	if i := d.index(key); i >= 0 {
		d.kept = slices.Delete(d.kept, i, i+1)
	}
}

// Asker is what a script asks by.
type Asker struct {
	d     *Dialogue
	waits *Question
	asked []string // keys of the questions that have an answer
	said  []string
}

// Ask gives the answer to a question, "" where it waits or one before it does.
func (a *Asker) Ask(q Question) string {
	if a.waits != nil {
		return ""
	}
	text := a.d.text(q.Key)
	if text != "" {
		kept, err := q.taken(text)
		if err == nil {
			a.asked, a.said = append(a.asked, q.Key), nil
			return kept
		}
		q.Fault = err.Error()
	}
	a.wait(q)
	return ""
}

func (a *Asker) wait(q Question) {
	if former, ok := a.d.former[q.Key]; ok {
		if _, err := q.taken(former); err == nil {
			q.Offer = former
		}
	}
	q.Said = append(a.said, q.Said...)
	a.waits = &q
}

// Answered says whether an answer to a question is kept.
func (a *Asker) Answered(key string) bool { return a.d.index(key) >= 0 }

// Waiting says whether the script has come to a question that waits: what it works
// out from here on is of no use.
func (a *Asker) Waiting() bool { return a.waits != nil }

// Say tells something before the next question.
func (a *Asker) Say(lines ...string) {
	if a.waits == nil {
		a.said = append(a.said, lines...)
	}
}

// Refuse sends the script back to a question whose answer cannot be, and says why.
// The question is the one that was last asked with that key.
func (a *Asker) Refuse(q Question, why string) {
	if a.waits != nil {
		return
	}
	if i := slices.Index(a.asked, q.Key); i >= 0 {
		a.asked = a.asked[:i]
	}
	q.Fault = why
	a.wait(q)
}
