package history

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"
	"strings"

	"hourseal/record"
	"hourseal/sign"
	"hourseal/verify"
)

// sortItems parts the inputs into those that hold something signed and those that
// are set aside, both in an order that does not depend on how they came.
func sortItems(in Input) (items []*Item, aside []SetAside) {
	for i := range in.Items {
		item := &in.Items[i]
		switch r := &item.Result; {
		case r.Verdict == verify.Altered:
			aside = append(aside, SetAside{item.Name, AsideAltered, r.Verdict, r.Sentence()})
		case r.Signed == nil && r.List == nil:
			aside = append(aside, SetAside{item.Name, AsideUnreadable, r.Verdict, r.Sentence() + " " + r.Reason()})
		default:
			items = append(items, item)
		}
	}
	slices.SortFunc(items, func(a, b *Item) int {
		return cmp.Or(cmp.Compare(a.Name, b.Name), bytes.Compare(a.Result.Record[:], b.Result.Record[:]), cmp.Compare(a.Result.Verdict, b.Result.Verdict))
	})
	slices.SortFunc(aside, func(a, b SetAside) int {
		return cmp.Or(cmp.Compare(a.Name, b.Name), cmp.Compare(a.Why, b.Why), cmp.Compare(a.Sentence, b.Sentence))
	})
	return items, slices.Compact(aside)
}

// collection is all records and lists that were read, each once.
type collection struct {
	entries map[record.ID]*Entry
	listed  []*Entry           // the same, by the name of their first input
	cited   map[record.ID]bool // by those whose signer the reader knows
	lists   []Item
	// leads says of each line and each path of the input whether the one leads to the
	// other.
	leads [][]bool
	// takingBack are the corrections and voids, in the order of their issue; of two at
	// the same time the correction is the last.
	takingBack []*Entry
}

// collect puts the records together, and says how each signer's key stands by the
// statements of all inputs: one that revokes a key may have come with another file.
func collect(in Input, items []*Item) *collection {
	c := &collection{entries: make(map[record.ID]*Entry, len(items)), cited: make(map[record.ID]bool, len(items)),
		listed: make([]*Entry, 0, len(items))}
	ring, _ := in.Trust.With(in.allStatements(items))
	signers := signersOn{}
	seen := map[record.ID]bool{} // lists
	for _, head := range in.Heads {
		leads := make([]bool, len(in.Paths))
		for i, path := range in.Paths {
			leads[i] = path.LeadsTo(head.Line)
		}
		c.leads = append(c.leads, leads)
	}
	for _, item := range items {
		r := &item.Result
		if r.List != nil {
			if !seen[*r.Record] {
				seen[*r.Record] = true
				answered := *r
				answered.Signer = verify.SignerOf(ring, r.Signer.Key, r.List.IssuedAt)
				c.lists = append(c.lists, Item{item.Name, answered})
			}
			continue
		}
		id := *r.Record
		e, known := c.entries[id]
		if !known {
			signer := signers.of(ring, r.Signer.Key, r.Signed.IssuedAt)
			e = &Entry{ID: id, Record: r.Signed, Signer: signer, Root: signer.Root()}
			c.entries[id] = e
			c.listed = append(c.listed, e)
		}
		e.Names = append(e.Names, item.Name)
		switch {
		case r.Page != nil && r.Page.Result == verify.PageNotCompared && !r.Host.Other:
			e.NotCompared = append(e.NotCompared, item.Name)
		case r.Verdict == verify.NotOriginal, !r.Page.Proved(), r.Host.Other:
			e.NotOriginal = append(e.NotOriginal, item.Name)
		}
	}
	for _, e := range c.listed {
		if e.Record.Previous != nil && (in.trustsNobody() || e.Signer.Known) {
			c.cited[e.Record.Previous.Record] = true
		}
		if takesBack(e.Record.Kind) {
			c.takingBack = append(c.takingBack, e)
		}
	}
	slices.SortFunc(c.takingBack, func(a, b *Entry) int {
		return cmp.Or(cmp.Compare(a.Record.IssuedAt, b.Record.IssuedAt), -cmp.Compare(a.Record.Kind, b.Record.Kind), bytes.Compare(a.ID[:], b.ID[:]))
	})
	return c
}

// signersOn are the signers of a history: how a key stands under a record goes by the
// day of its issue, and is worked out once for each.
type signersOn map[signerDay]*verify.Signer

type signerDay struct {
	key sign.PublicKey
	day sign.Day
}

func (s signersOn) of(ring sign.Keyring, key sign.PublicKey, issuedAt int64) *verify.Signer {
	on := signerDay{key, sign.DayOf(issuedAt)}
	if s[on] == nil {
		s[on] = new(verify.SignerOf(ring, key, issuedAt))
	}
	return s[on]
}

// allStatements are the key statements of the reader's and of all inputs, each once:
// most reports of a yard bring the same.
func (in Input) allStatements(items []*Item) []sign.Statement {
	var all []sign.Statement
	seen := map[string]bool{}
	take := func(list []sign.Statement) {
		for _, s := range list {
			if key := string(s.Envelope); !seen[key] {
				seen[key] = true
				all = append(all, s)
			}
		}
	}
	take(in.Statements)
	for _, item := range items {
		take(item.Result.Keys.Statements)
	}
	return all
}

// plate is what tells machines apart.
type plate struct{ make, model, serial string }

func plateOf(m record.Machine) plate {
	return plate{folded(m.Make), folded(m.Model), folded(m.Serial)}
}

// folded lets two spellings of one plate be the same: no case, no spaces, no hyphens.
func folded(text string) string { return strings.ToLower(withoutGaps.Replace(text)) }

var withoutGaps = strings.NewReplacer(" ", "", "-", "")

// byMachine parts the records by machine, sorted by plate; a list about a machine of
// which there is no record makes a group of its own.
func (c *collection) byMachine() [][]Entry {
	groups := map[plate][]*Entry{}
	var as, p plate // as the last was written, and what that is: most are of one folder
	for _, e := range c.listed {
		if written := (plate{e.Record.Machine.Make, e.Record.Machine.Model, e.Record.Machine.Serial}); written != as || p == (plate{}) {
			as, p = written, plateOf(e.Record.Machine)
		}
		groups[p] = append(groups[p], e)
	}
	plates := make([]plate, 0, len(groups))
	for p := range groups {
		plates = append(plates, p)
	}
	slices.SortFunc(plates, func(a, b plate) int {
		return cmp.Or(cmp.Compare(a.make, b.make), cmp.Compare(a.model, b.model), cmp.Compare(a.serial, b.serial))
	})
	var sorted [][]Entry
	for _, p := range plates {
		slices.SortFunc(groups[p], func(a, b *Entry) int { return bytes.Compare(a.ID[:], b.ID[:]) })
		entries := make([]Entry, 0, len(groups[p]))
		for _, e := range groups[p] {
			entries = append(entries, *e)
		}
		sorted = append(sorted, entries)
	}
	return sorted
}

// listsAlone are the lists about machines of which there is no record here.
func (c *collection) listsAlone() []SetAside {
	if len(c.lists) == 0 {
		return nil
	}
	have := map[plate]bool{}
	for _, e := range c.listed {
		have[plateOf(e.Record.Machine)] = true
	}
	var aside []SetAside
	for _, item := range c.lists {
		l := item.Result.List
		if !have[listPlate(l)] {
			var ends []string
			for _, end := range l.Ends {
				ends = append(ends, fmt.Sprintf("record %d (%s)", end.Number, shortID(end.ID)))
			}
			said := fmt.Sprintf("A signed list of %s of %s %s, serial %s, none of which is here", countOf(int(l.Count), "record"), l.Machine.Make, l.Machine.Model, l.Machine.Serial)
			if len(ends) > 0 {
				said += ": the last is " + someOf(ends)
			}
			verdict := item.Result.Verdict
			switch {
			case !item.Result.Signer.Known:
				verdict = verify.UnknownSigner
			case !item.Result.Signer.ValidForDate():
				verdict = verify.KeyNotValid
			}
			aside = append(aside, SetAside{item.Name, AsideListAlone, verdict, said + "."})
		}
	}
	return aside
}

// has says whether a record is here, or cited by one whose signer the reader knows.
func (c *collection) has(id record.ID) bool { return c.entries[id] != nil || c.cited[id] }

// name takes the plate's words from the newest record whose key counts, if there is
// one: anybody can make another.
func (m *Machine) name() {
	counts := func(e Entry) int {
		if e.KeyCounts() {
			return 1
		}
		return 0
	}
	newest := slices.MaxFunc(m.Entries, func(a, b Entry) int {
		return cmp.Or(cmp.Compare(counts(a), counts(b)), cmp.Compare(a.Record.IssuedAt, b.Record.IssuedAt), bytes.Compare(a.ID[:], b.ID[:]))
	})
	plate := newest.Record.Machine
	m.Make, m.Model, m.Serial = plate.Make, plate.Model, plate.Serial
	m.Vessel, m.Hull, m.Kind = plate.Vessel, plate.Hull, plate.Kind
}

// askedFor keeps the machine that the reader typed the serial number of, and sets
// the others aside.
func askedFor(serial string, machines []Machine, aside []SetAside) ([]Machine, []SetAside) {
	var kept []Machine
	for _, m := range machines {
		m.SerialMatch = verify.CompareSerial(serial, m.Serial)
		if m.SerialMatch != verify.Different {
			kept = append(kept, m)
			continue
		}
		for _, e := range m.Entries {
			for _, name := range e.Names {
				aside = append(aside, SetAside{name, AsideOtherMachine, verify.OtherMachine,
					"About another machine than the serial number that you gave: " + m.Title() + "."})
			}
		}
	}
	slices.SortFunc(aside, func(a, b SetAside) int { return cmp.Or(cmp.Compare(a.Name, b.Name), cmp.Compare(a.Why, b.Why)) })
	return kept, aside
}

// Title names the machine: "Corrin 4T-75, serial 0045120".
func (m *Machine) Title() string { return m.Make + " " + m.Model + ", serial " + m.Serial }

// Is says whether a record is about this machine.
func (m *Machine) Is(other record.Machine) bool { return plateOf(other) == m.plate() }
