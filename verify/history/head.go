package history

import (
	"cmp"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/treehead"
	"hourseal/sign"
)

// HeadAnswer is a ledger line, held to what is here.
type HeadAnswer struct {
	Head
	// Shown says that a path leads from one of this machine's records to the line.
	Shown bool
}

// answerHeads holds ledger lines to the records. A line fixes the last record of each
// chain of a yard at its time: with the path of one machine it shows which that was.
func (m *Machine) answerHeads(in Input, g *graph) {
	for h, head := range in.Heads {
		answer := HeadAnswer{Head: head}
		var strays []treehead.Path // of records that are nobody's here
		for i, path := range in.Paths {
			switch {
			case !g.all.leads[h][i]:
			case g.concerns(path.Last):
				answer.Shown = true
				m.holdToHead(head, path, g)
			case !g.all.has(path.Last):
				strays = append(strays, path)
			}
		}
		switch {
		case answer.Shown:
		case len(strays) > 0: // it may be this machine's
			for _, path := range strays {
				m.Faults = append(m.Faults, Fault{Code: HeadMissing, Entry: -1, Other: -1, Date: dayOf(head.Line), Missing: &Missing{ID: path.Last}})
			}
		default:
			m.Faults = append(m.Faults, Fault{Code: HeadNotProved, Entry: -1, Other: -1, Date: dayOf(head.Line)})
		}
		m.Heads = append(m.Heads, answer)
	}
}

// concerns says whether a record is one of the machine's, here or cited by one that is
// heard: a stranger's may cite anything.
func (g *graph) concerns(id record.ID) bool {
	_, here := g.place[id]
	return here || g.heard[id]
}

func (m *Machine) holdToHead(head Head, path treehead.Path, g *graph) {
	at, here := g.place[path.Last]
	if !here {
		return // it is cited, and so told as missing already
	}
	last := &m.Entries[at]
	for _, i := range g.above(at) {
		e := &m.Entries[i]
		if e.Root == last.Root && e.Record.IssuedAt < head.Time {
			m.Faults = append(m.Faults, Fault{Code: HeadLacks, Entry: i, Other: at, Signer: last.Root, Date: dayOf(head.Line)})
		}
	}
	until := min(dayOf(head.Line), head.Received) // its own time is anybody's word
	for c := range m.Chains {
		chain := &m.Chains[c]
		if chain.Entries[len(chain.Entries)-1] == at && (chain.Tail.Bounded == nil || chain.Tail.Bounded.Until < until) {
			chain.Tail.Bounded = &Bounded{Until: until, By: "head"}
		}
	}
}

func compareHeads(a, b Head) int {
	return cmp.Or(cmp.Compare(a.Time, b.Time), cmp.Compare(a.Line.String(), b.Line.String()), cmp.Compare(a.Received, b.Received))
}

func dayOf(line treehead.Line) quantity.Date { return quantity.Date(sign.DayOf(line.Time)) }
