package history

import (
	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/sign"
)

// Existence is when a record is known to have existed, whatever date it gives itself.
type Existence struct {
	NotBefore *Bound // by what it cites
	NotAfter  *Bound
}

// Bound is one of the two, with who says so.
type Bound struct {
	Date    quantity.Date
	Because BoundReason
	// Entry is the place of the record that says so, -1 for the reader's own word.
	Entry int
	// Another says that the record which says so is of another signer.
	Another bool
}

// BoundReason is stable: it stands in the JSON.
type BoundReason string

// The reasons.
const (
	ItCites    BoundReason = "cites"
	CitedBy    BoundReason = "cited-by"
	ReceivedOn BoundReason = "received"
	InHead     BoundReason = "ledger-line"
)

// bounds works out when each record is known to have existed, and which signers'
// keys were valid then. Each may depend on the other: a record of another signer
// bounds only if its own key counts. So both are worked out until nothing changes;
// every round can only make a date earlier and a record count.
func bounds(in Input, g *graph) {
	seen := g.seen(in)
	for changed := true; changed; {
		g.m.judgeKeys(in)
		changed = g.notAfter(seen, !in.trustsNobody())
	}
	g.notBefore()
}

// seen is when the reader had each record, or a ledger line that fixes it.
func (g *graph) seen(in Input) []*Bound {
	seen := make([]*Bound, len(g.m.Entries))
	note := func(id record.ID, date quantity.Date, why BoundReason) {
		i, here := g.place[id]
		switch {
		case !here:
		case date+1 < issuedOn(g.m.Entries[i].Record): // by more than the clocks around the world
			g.fault(Fault{Code: SeenTooEarly, Entry: i, Other: -1, Date: date})
		case seen[i] == nil || date < seen[i].Date:
			seen[i] = &Bound{Date: date, Because: why, Entry: -1}
		}
	}
	for i := range g.m.Entries {
		if date, had := in.Received[g.m.Entries[i].ID]; had {
			note(g.m.Entries[i].ID, date, ReceivedOn)
		}
	}
	for h, head := range in.Heads {
		for i, path := range in.Paths {
			if g.all.leads[h][i] {
				note(path.Last, head.Received, InHead)
			}
		}
	}
	return seen
}

// notAfter works the latest dates out, from the last records to the first: what is
// cited is no younger than what cites it. Of signers of whom the reader trusts none,
// nobody knows that they are two. It says whether a date became earlier.
func (g *graph) notAfter(seen []*Bound, trusts bool) bool {
	changed := false
	for _, i := range g.lastFirst() {
		e := &g.m.Entries[i]
		latest := seen[i]
		for _, c := range g.citing[i] {
			by := &g.m.Entries[c]
			latest = earlier(latest, by.Exists.NotAfter)
			if trusts && by.Root != e.Root && by.KeyCounts() {
				latest = earlier(latest, &Bound{Date: issuedOn(by.Record), Because: CitedBy, Entry: c, Another: true})
			}
		}
		if before := e.Exists.NotAfter; latest != nil && (before == nil || latest.Date < before.Date) {
			e.Exists.NotAfter = latest
			changed = true
		}
	}
	return changed
}

func earlier(a, b *Bound) *Bound {
	if a == nil || b != nil && b.Date < a.Date {
		return b
	}
	return a
}

// lastFirst are all places, each after those that cite it.
func (g *graph) lastFirst() []int {
	waits := make([]int, len(g.citing))
	var order []int
	for i := range g.citing {
		if waits[i] = len(g.citing[i]); waits[i] == 0 {
			order = append(order, i)
		}
	}
	for at := 0; at < len(order); at++ {
		if c := g.cited[order[at]]; c >= 0 {
			if waits[c]--; waits[c] == 0 {
				order = append(order, c)
			}
		}
	}
	return order
}

// notBefore is the newest issue date of what a record cites, directly or by way of
// others: of another signer's, if there is one whose key counts, or else of the one
// before it, by its own word.
func (g *graph) notBefore() {
	order := g.lastFirst()
	for at := len(order) - 1; at >= 0; at-- {
		i := order[at]
		c := g.cited[i]
		if c < 0 {
			continue
		}
		e, before := &g.m.Entries[i], &g.m.Entries[c]
		bound := &Bound{Date: issuedOn(before.Record), Because: ItCites, Entry: c, Another: before.Root != e.Root && before.KeyCounts()}
		if own := before.Exists.NotBefore; own != nil && own.Another && (!bound.Another || own.Date > bound.Date) {
			bound = own
		}
		e.Exists.NotBefore = bound
	}
}

// issuedOn is the day of issue, in UTC, as the record has it.
func issuedOn(r *record.Record) quantity.Date { return quantity.Date(sign.DayOf(r.IssuedAt)) }
