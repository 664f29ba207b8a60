package history

import (
	"slices"

	"hourseal/record"
	"hourseal/record/list"
	"hourseal/sign"
	"hourseal/verify"
)

// ListAnswer is a signed list of all records, held to what is here.
type ListAnswer struct {
	Name   string // of the input
	List   *list.List
	Signer verify.Signer
	// Counts says whether the reader knows the signer, and the key was valid.
	Counts bool
}

// takeLists finds the signed lists that are about the machine.
func (m *Machine) takeLists(in Input, all *collection) {
	for _, item := range all.lists {
		if l, signer := item.Result.List, item.Result.Signer; listPlate(l) == m.plate() {
			m.Lists = append(m.Lists, ListAnswer{Name: item.Name, List: l, Signer: signer, Counts: in.trustsNobody() || signer.ValidForDate()})
		}
	}
}

// holdToLists holds the records to the lists that count: what a list names and is not
// here is missing; what is here and the list's signer should have named is said. A
// list bounds the tail of the chains that it names the ends of.
func (m *Machine) holdToLists(g *graph) {
	for _, answer := range m.Lists {
		if answer.Counts {
			m.holdToList(answer, g)
		}
	}
}

func listPlate(l *list.List) plate {
	return plateOf(record.Machine{Make: l.Machine.Make, Model: l.Machine.Model, Serial: l.Machine.Serial})
}

func (m *Machine) plate() plate {
	return plateOf(record.Machine{Make: m.Make, Model: m.Model, Serial: m.Serial})
}

func (m *Machine) holdToList(answer ListAnswer, g *graph) {
	root := answer.Signer.Root()
	named := make([]bool, len(m.Entries))
	for _, end := range answer.List.Ends {
		at, here := g.place[end.ID]
		if !here {
			m.Faults = append(m.Faults, Fault{Code: ListMissing, Entry: -1, Other: -1, Signer: root, Date: answer.List.Until,
				Missing: &Missing{ID: end.ID, Number: end.Number, Since: m.lastOf(root, end.Number) + 1}})
			continue
		}
		for i := at; i >= 0; i = g.cited[i] {
			named[i] = true
		}
		for c := range m.Chains {
			chain := &m.Chains[c]
			if chain.Entries[len(chain.Entries)-1] == at && chain.Tail.Date <= answer.List.Until && (chain.Tail.Bounded == nil || chain.Tail.Bounded.Until < answer.List.Until) {
				chain.Tail.Bounded = &Bounded{Until: answer.List.Until, Signer: answer.Signer, By: "list"}
			}
		}
	}
	for i := range m.Entries {
		e := &m.Entries[i]
		if e.Root == root && !named[i] && e.Record.IssuedAt <= answer.List.IssuedAt && !m.aboveMissing(g, i, answer) {
			m.Faults = append(m.Faults, Fault{Code: ListLacks, Entry: i, Other: -1, Signer: root, Date: answer.List.Until})
		}
	}
}

// lastOf is the highest number below another among the records of a signer, 0 without
// one.
func (m *Machine) lastOf(root sign.PublicKey, below uint32) uint32 {
	var last uint32
	for i := range m.Entries {
		if e := &m.Entries[i]; e.Root == root && e.Record.Number < below {
			last = max(last, e.Record.Number)
		}
	}
	return last
}

// aboveMissing says whether an entry may well be named by way of an end of the list
// that is not here: one with a lower number than that.
func (m *Machine) aboveMissing(g *graph, i int, answer ListAnswer) bool {
	return slices.ContainsFunc(answer.List.Ends, func(end list.End) bool {
		_, here := g.place[end.ID]
		return !here && end.Number > m.Entries[i].Record.Number
	})
}
