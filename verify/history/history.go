package history

import (
	"cmp"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
	"hourseal/record/treehead"
	"hourseal/sign"
	"hourseal/verify"
)

// Input is all that a judgement is made from.
type Input struct {
	Items []Item
	// Trust is whom the reader has named: nobody at all, and the records are judged as
	// they stand. The key statements in all the inputs, and those in Statements, are
	// followed from there.
	Trust      sign.TrustList
	Statements []sign.Statement
	Received   map[record.ID]quantity.Date // the reader's own log of receipt
	Heads      []Head
	Paths      []treehead.Path
	Serial     string // as typed off the plate; "" when not given
	// On and Hours are the day and the reading that are asked about; nil when not
	// asked, or not known.
	On    *quantity.Date
	Hours *quantity.Hours
}

func (in Input) trustsNobody() bool { return len(in.Trust) == 0 }

// Item is one input that was verified.
type Item struct {
	Name   string
	Result verify.Result
}

// Head is a line that fixes a yard's whole ledger, and when the reader got it: its own
// time is anybody's word.
type Head struct {
	treehead.Line
	Received quantity.Date
}

// History is the answer.
type History struct {
	Machines []Machine  // by make, model and serial number
	Aside    []SetAside // by name
	// AsTheyStand says that no signer is known to the reader, and records count
	// all the same.
	AsTheyStand bool
}

// SetAside is an input that is not judged.
type SetAside struct {
	Name string
	Why  AsideReason
	// Verdict is that of the input by itself, Sentence its words; where it cannot be
	// read, why stands behind them.
	Verdict  verify.Verdict
	Sentence string
}

// AsideReason is why an input is not judged.
type AsideReason string

// The reasons.
const (
	AsideAltered      AsideReason = "altered"
	AsideUnreadable   AsideReason = "unreadable"
	AsideOtherMachine AsideReason = "other-machine" // than the one asked about
	AsideListAlone    AsideReason = "list-alone"    // a signed list, and no record of its machine
)

// Machine is the history of one machine.
type Machine struct {
	Make, Model, Serial string
	Vessel, Hull, Kind  string // as the newest record has them
	SerialMatch         verify.Match

	Entries []Entry // by chain, then number
	Chains  []Chain
	Faults  []Fault
	Lists   []ListAnswer
	Heads   []HeadAnswer

	// Counted are the places in Entries of those that count, by date and hours.
	Counted []int
	Span    *Span // nil when none counts
	Tasks   []Task
	Stands  *Stands // nil when no date was asked about

	Questions []Question

	// Altered is how many of all Inputs, which may be of this machine, are set aside as
	// altered or forged.
	Altered, Inputs int
}

// Span is from the first to the last record that counts.
type Span struct {
	First, Last schedule.Point
	// Run is the hours run in it: what rose from each record to the next, since hours
	// that go back are no hours run.
	Run quantity.Hours
}

// Entry is one record.
type Entry struct {
	ID     record.ID
	Record *record.Record
	Signer *verify.Signer // the same for all of this key that were issued that day
	Root   sign.PublicKey // of the signer, whatever key it renewed to
	Chain  int            // place in Machine.Chains
	Names  []string       // of the inputs that it was read from
	// NotOriginal names the inputs whose page or code is not that of the record, and
	// NotCompared those whose page could not be compared, as of a scan. Both end with 6.
	NotOriginal, NotCompared []string

	Counts Counting
	// AfterGap says that a record which is missing, or does not count for its key, lies
	// before it: what was done there is not known.
	AfterGap bool
	By       *Takeback // what voided or corrected it
	Exists   Existence
}

// Takeback is the record by which the signer took another back.
type Takeback struct {
	ID   record.ID
	Kind record.Kind
	Date quantity.Date
	Why  string
}

// ReadHours are the hours of a record that states a visit; nil for a void or an
// addendum, which repeat those of another.
func (e *Entry) ReadHours() *quantity.Hours {
	r := e.Record
	if (r.Kind == record.Void || r.Kind == record.Addendum) && r.Job.Meter.Reading == nil {
		return nil
	}
	return &r.Job.Hours
}

// Counting says whether a record counts, and if not, why.
type Counting string

// The answers.
const (
	Counts          Counting = "counts"
	Corrected       Counting = "corrected"
	Voided          Counting = "voided"
	SpeaksOfAnother Counting = "addendum-or-void"
	NotKnown        Counting = "unknown-signer"
	KeyNotValid     Counting = "key-not-valid"
)

// Point is the record's date and hours.
func (e *Entry) Point() schedule.Point {
	return schedule.Point{Date: e.Record.Job.Date, Hours: e.Record.Job.Hours}
}

// Chain is records that follow one another.
type Chain struct {
	Heard   bool  // its last record is by somebody whom the reader knows
	Entries []int // places in Machine.Entries, by number
	// Signers are the roots of those who signed, in the order of their first record.
	Signers []sign.PublicKey
	Tail    Tail
}

// Tail is where a chain ends.
type Tail struct {
	Number  uint32
	Date    quantity.Date
	ID      record.ID
	Bounded *Bounded // nil: later records cannot be excluded
}

// Bounded says who says that nothing follows.
type Bounded struct {
	Until  quantity.Date
	Signer verify.Signer // of the list; zero for a ledger line
	By     string        // "list" or "head"
}

// Assess judges records together.
func Assess(in Input) History {
	in.Paths = slices.SortedFunc(slices.Values(in.Paths), func(a, b treehead.Path) int { return cmp.Compare(a.String(), b.String()) })
	in.Heads = slices.SortedFunc(slices.Values(in.Heads), compareHeads)
	items, aside := sortItems(in)
	h := History{Aside: aside, AsTheyStand: in.trustsNobody()}
	all := collect(in, items)
	groups := all.byMachine()
	h.Machines = make([]Machine, len(groups))
	var next atomic.Int64
	var workers sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(groups)) { // machines have nothing to do with each other
		workers.Go(func() {
			for i := next.Add(1) - 1; i < int64(len(groups)); i = next.Add(1) - 1 {
				h.Machines[i] = judge(in, all, groups[i])
			}
		})
	}
	workers.Wait()
	altered := 0
	for _, a := range h.Aside {
		if a.Why == AsideAltered {
			altered++
		}
	}
	for i := range h.Machines {
		h.Machines[i].Altered, h.Machines[i].Inputs = altered, len(items)+len(h.Aside)
	}
	h.Aside = append(h.Aside, all.listsAlone()...)
	h.Machines, h.Aside = askedFor(in.Serial, h.Machines, h.Aside)
	return h
}

// judge makes one machine's history.
func judge(in Input, all *collection, entries []Entry) Machine {
	m := Machine{Entries: entries}
	g := newGraph(all, &m)
	bounds(in, g)
	m.judgeCounting(in, g)
	m.name()
	g.order()
	m.takeLists(in, all)
	g.faults()
	m.holdToLists(g)
	m.answerHeads(in, g)
	g.gaps()
	m.Counted = m.counted()
	m.readingFaults()
	m.adherence()
	m.compareTakenBack()
	m.stand(in)
	m.ask()
	return m
}
