package schedule

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Contradiction is something in a schedule that can never have been meant. It
// does not stop a job: the schedule says what it says.
type Contradiction struct {
	Path    string // keys and list entries from 0, joined by "/", as tasks/3/covers/0
	Field   string // the key
	Message string // what is wrong and what to write instead
}

// Contradictions finds what cannot be meant, in the order of the tasks: tasks
// that cover themselves, looks that cover a replacement, tasks that never fall
// due by themselves, first intervals that never count, intervals and graces
// beyond reason, and what says nothing. Its limits are our own rules, no source.
func (s Schedule) Contradictions() []Contradiction {
	f := finder{schedule: s, covers: s.coverings()}
	f.ownGrace()
	for i, t := range s.Tasks {
		for _, rule := range taskRules {
			rule(&f, i, t)
		}
	}
	f.rings()
	return f.found
}

// taskRules look at one task each, with its place in the schedule.
var taskRules = []func(f *finder, i int, t Task){
	(*finder).absurd, (*finder).longFirst, (*finder).idleSevere, (*finder).oddWords,
	(*finder).longGrace, (*finder).idleNextFrom, (*finder).lookReplaces, (*finder).neverDue,
}

type finder struct {
	schedule Schedule
	covers   [][]bool // whether one task covers another, also by way of others
	found    []Contradiction
}

func (f *finder) fault(path, field, format string, args ...any) {
	f.found = append(f.found, Contradiction{Path: path, Field: field, Message: fmt.Sprintf(format, args...)})
}

// taskPath is the path of a task's key.
func taskPath(i int, keys ...string) string {
	return strings.Join(append([]string{"tasks", strconv.Itoa(i)}, keys...), "/")
}

// key is the key that the task's interval stands under.
func (t Task) key() string {
	if t.Once {
		return "once"
	}
	return "every"
}

// absurd refuses intervals that nobody means.
func (f *finder) absurd(i int, t Task) {
	for _, given := range []struct {
		key      string
		interval Interval
	}{{t.key(), t.Every}, {"first", t.First}} {
		for _, m := range measures {
			switch n := m.of(given.interval); {
			case n != 0 && n < m.shortest:
				f.fault(taskPath(i, given.key, m.key), given.key, "%s, under %s: write %s", m.text(n), m.text(m.shortest), m.example)
			case n > m.longest:
				f.fault(taskPath(i, given.key, m.key), given.key, "%s, over %s: write %s", m.text(n), m.text(m.longest), m.example)
			}
		}
	}
	hours := measures[byHours]
	whole, short := hours.of(t.Every), hours.of(t.Usual(Duty{t.Severe.When}))
	if short < hours.shortest && whole >= hours.shortest {
		f.fault(taskPath(i, "severe", "factor"), "severe", "%v of %s is %s, under %s: write a larger factor", t.Severe.Factor, hours.text(whole), hours.text(short), hours.text(hours.shortest))
	}
}

// longFirst refuses first intervals that the interval itself, or a task that
// covers this one, comes before.
func (f *finder) longFirst(i int, t Task) {
	for n, m := range measures {
		first, every := m.of(t.First), m.of(t.Every)
		if first == 0 {
			continue
		}
		if first > every {
			f.fault(taskPath(i, "first", m.key), "first", "%s, longer than every, %s: write a shorter one, or take it out", m.text(first), m.text(every))
			continue
		}
		by := f.coverer(i, n, false)
		if by >= 0 && !f.neverAlone(i) {
			other := f.schedule.Tasks[by]
			f.fault(taskPath(i, "first", m.key), "first", "%s, but %s covers %s and falls due for the first time at %s: write a shorter one, or take it out",
				m.text(first), other.ID, t.ID, m.text(m.of(other.Runs(false, nil))))
		}
	}
}

// idleSevere refuses a severe duty that changes nothing.
func (f *finder) idleSevere(i int, t Task) {
	duty := Duty{t.Severe.When}
	if t.Severe.Factor == 0 || t.Runs(false, duty) != t.Runs(false, nil) || t.Runs(true, duty) != t.Runs(true, nil) {
		return
	}
	f.fault(taskPath(i, "severe", "factor"), "severe", "factor %v leaves %s as it is: write a smaller one, or take severe out", t.Severe.Factor, t.Every.text())
}

// oddWords refuses the words of a severe duty that another task has otherwise,
// since a machine that is said to run under the one would miss the other.
func (f *finder) oddWords(i int, t Task) {
	for _, earlier := range f.schedule.Tasks[:i] {
		if a, b := earlier.Severe.When, t.Severe.When; a != b && bare(a) == bare(b) {
			f.fault(taskPath(i, "severe", "when"), "when", "%q here and %q in %s differ only in case or spaces: write both alike", b, a, earlier.ID)
			return
		}
	}
}

func bare(words string) string { return strings.ToLower(strings.Join(strings.Fields(words), "")) }

// idleNextFrom refuses a rule for a next time that never comes.
func (f *finder) idleNextFrom(i int, t Task) {
	if t.Once && t.NextFrom != 0 {
		f.fault(taskPath(i, "next_from"), "next_from", "%v, for a task that falls due one time only: take it out", t.NextFrom)
	}
}

// lookReplaces refuses looks that count as a replacement.
func (f *finder) lookReplaces(i int, t Task) {
	if t.Kind != Inspect && t.Kind != Test {
		return
	}
	for n, id := range t.Covers {
		covered, _ := f.schedule.Task(id)
		if covered.Kind != Replace {
			continue
		}
		hint := "take it out"
		if !f.schedule.Does(id, t.ID) {
			hint += ", or write " + t.ID + " into the covers of " + id
		}
		f.fault(taskPath(i, "covers", strconv.Itoa(n)), "covers", "%s replaces, and %s (%v) does not: %s", id, t.ID, t.Kind, hint)
	}
}

// neverDue refuses tasks that others cover and that fall due no more often. Due
// points kept on a grid may bring such a task forward after late work; that is not
// what it was written for.
func (f *finder) neverDue(i int, t Task) {
	if !f.neverAlone(i) {
		return
	}
	var by []string
	for n, m := range measures {
		if m.of(t.Every) == 0 {
			continue
		}
		if id := f.schedule.Tasks[f.coverer(i, n, false, true)].ID; !slices.Contains(by, id) {
			by = append(by, id)
		}
	}
	which := "which covers it"
	if len(by) > 1 {
		which = "which cover it"
	}
	f.fault(taskPath(i, t.key()), t.key(), "%s %s %s, no more often than %s, %s, so that it never falls due by itself: write a shorter interval, or take the task out",
		t.ID, t.key(), t.Every.text(), strings.Join(by, " and "), which)
}

// neverAlone says whether the task is covered in everything that it falls due
// by. It holds under its severe duty and without; that of the others brings them
// forward at most.
func (f *finder) neverAlone(i int) bool {
	every := f.schedule.Tasks[i].Every
	for n, m := range measures {
		if m.of(every) != 0 && f.coverer(i, n, false, true) < 0 {
			return false
		}
	}
	return every != Interval{}
}

// coverer is the first task that covers another and falls due no later than it
// by a measure, before it was first done (false) and after (true); -1: none.
func (f *finder) coverer(i, measure int, done ...bool) int {
	t, of := f.schedule.Tasks[i], measures[measure].of
	for k, other := range f.schedule.Tasks {
		if k == i || !f.covers[k][i] || f.covers[i][k] { // a ring is a fault of its own
			continue
		}
		sooner := true
		for _, duty := range []Duty{nil, {t.Severe.When}} {
			for _, after := range done {
				own, others := of(t.Runs(after, duty)), of(other.Runs(after, duty))
				sooner = sooner && (own == 0 || others != 0 && others <= own)
			}
		}
		if sooner {
			return k
		}
	}
	return -1
}
