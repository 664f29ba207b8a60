package history

import (
	"bytes"
	"cmp"
	"slices"

	"hourseal/record"
	"hourseal/sign"
)

// graph is which record of a machine cites which. Places are those in
// Machine.Entries.
type graph struct {
	all   *collection
	m     *Machine
	place map[record.ID]int
	// cited is the place of what an entry cites, -1 where it is not of this machine's
	// records, or cites none.
	cited []int
	// citing are the places of those that cite an entry.
	citing [][]int
	heard  map[record.ID]bool // what is cited by those that are heard
}

func newGraph(all *collection, m *Machine) *graph {
	n := len(m.Entries)
	g := &graph{all: all, m: m, place: make(map[record.ID]int, n), cited: make([]int, n), citing: make([][]int, n), heard: make(map[record.ID]bool, n)}
	g.index()
	return g
}

// index takes down what cites what, at the places that the entries have now.
func (g *graph) index() {
	entries := g.m.Entries
	clear(g.place)
	clear(g.heard)
	clear(g.citing)
	for i := range entries {
		g.place[entries[i].ID] = i
	}
	for i := range entries {
		g.cited[i] = -1
		if previous := entries[i].Record.Previous; previous != nil {
			if entries[i].Heard() {
				g.heard[previous.Record] = true
			}
			if at, here := g.place[previous.Record]; here {
				g.cited[i] = at
				g.citing[at] = append(g.citing[at], i)
			}
		}
	}
}

// order makes the chains, and puts the entries in their order.
func (g *graph) order() {
	pieces := g.pieces()
	chains := g.join(pieces)
	moved := make([]int, len(g.m.Entries)) // every entry is in one chain
	at := 0
	for _, chain := range chains {
		c := Chain{Entries: make([]int, 0, len(chain))}
		for _, i := range chain {
			g.m.Entries[i].Chain = len(g.m.Chains)
			moved[i] = at
			c.Entries = append(c.Entries, at)
			if root := g.m.Entries[i].Root; !slices.Contains(c.Signers, root) {
				c.Signers = append(c.Signers, root)
			}
			at++
		}
		last := &g.m.Entries[chain[len(chain)-1]]
		c.Heard = last.Heard()
		c.Tail = Tail{Number: last.Record.Number, Date: last.Record.Job.Date, ID: last.ID}
		g.m.Chains = append(g.m.Chains, c)
	}
	g.move(moved)
	for i := range moved { // each to its place, whatever stands there to theirs in turn
		for to := moved[i]; to != i; to = moved[i] {
			g.m.Entries[i], g.m.Entries[to] = g.m.Entries[to], g.m.Entries[i]
			moved[i], moved[to] = moved[to], to
		}
	}
	g.index()
}

// move lets what names entries by their places go on naming the same ones.
func (g *graph) move(to []int) {
	place := func(i *int) {
		if *i >= 0 {
			*i = to[*i]
		}
	}
	done := map[*Bound]bool{} // some entries share one
	for i := range g.m.Entries {
		for _, b := range []*Bound{g.m.Entries[i].Exists.NotBefore, g.m.Entries[i].Exists.NotAfter} {
			if b != nil && !done[b] {
				done[b] = true
				place(&b.Entry)
			}
		}
	}
	for i := range g.m.Faults {
		place(&g.m.Faults[i].Entry)
		place(&g.m.Faults[i].Other)
	}
}

// pieces are runs of records of which each cites the one before it, oldest first:
// from each end down to what another run has already, the longest run first.
func (g *graph) pieces() [][]int {
	// Those that are heard first: nobody else's record makes a chain of theirs longer.
	heard := func(i int) bool { return g.m.Entries[i].Heard() }
	var ends []int
	for i := range g.m.Entries {
		if !slices.ContainsFunc(g.citing[i], func(by int) bool { return heard(by) || !heard(i) }) {
			ends = append(ends, i)
		}
	}
	slices.SortFunc(ends, func(a, b int) int {
		if heard(a) != heard(b) {
			if heard(a) {
				return -1
			}
			return 1
		}
		return cmp.Or(-cmp.Compare(g.m.Entries[a].Record.Number, g.m.Entries[b].Record.Number), g.byAge(a, b))
	})
	taken := make([]bool, len(g.m.Entries))
	var pieces [][]int
	for _, i := range ends {
		var piece []int
		for ; i >= 0 && !taken[i]; i = g.cited[i] {
			taken[i] = true
			piece = append(piece, i)
		}
		if len(piece) > 0 { // it was not reached by way of a stranger's
			slices.Reverse(piece)
			pieces = append(pieces, piece)
		}
	}
	return pieces
}

// byAge orders entries by date, hours, number and id.
func (g *graph) byAge(a, b int) int { return compareAge(&g.m.Entries[a], &g.m.Entries[b]) }

func compareAge(x, y *Entry) int {
	return cmp.Or(cmp.Compare(x.Record.Job.Date, y.Record.Job.Date), cmp.Compare(x.Record.Job.Hours, y.Record.Job.Hours),
		cmp.Compare(x.Record.Number, y.Record.Number), bytes.Compare(x.ID[:], y.ID[:]))
}

// join puts pieces between which records are missing into one chain: a piece that
// begins with a record which cites one that is not there goes behind the nearest
// piece that ends before it, of the same signer if there is one.
func (g *graph) join(pieces [][]int) [][]int {
	slices.SortFunc(pieces, func(a, b []int) int {
		return cmp.Or(cmp.Compare(g.number(a[0]), g.number(b[0])), g.byAge(a[0], b[0]))
	})
	var chains [][]int
	for _, piece := range pieces {
		first := &g.m.Entries[piece[0]]
		best := -1
		if first.Record.Previous != nil && g.cited[piece[0]] < 0 {
			for i, chain := range chains {
				last := chain[len(chain)-1]
				// It has another of that number; or nobody knows whose the piece is.
				if g.number(last)+1 >= first.Record.Number || g.m.Entries[last].Heard() != first.Heard() {
					continue
				}
				if best < 0 || g.nearer(last, chains[best][len(chains[best])-1], first.Root) {
					best = i
				}
			}
		}
		if best < 0 {
			chains = append(chains, piece)
		} else {
			chains[best] = append(chains[best], piece...)
		}
	}
	slices.SortFunc(chains, func(a, b []int) int { return g.byAge(a[0], b[0]) })
	return chains
}

func (g *graph) number(i int) uint32 { return g.m.Entries[i].Record.Number }

// nearer says whether a piece that ends with a is the likelier to come before one of
// that signer than the piece that ends with b.
func (g *graph) nearer(a, b int, root sign.PublicKey) bool {
	sameA, sameB := g.m.Entries[a].Root == root, g.m.Entries[b].Root == root
	if sameA != sameB {
		return sameA
	}
	return g.number(a) > g.number(b)
}

// above are the places of all entries that cite one, directly or by way of others.
func (g *graph) above(i int) []int {
	var found []int
	for todo := slices.Clone(g.citing[i]); len(todo) > 0; todo = todo[1:] {
		found = append(found, todo[0])
		todo = append(todo, g.citing[todo[0]]...)
	}
	return found
}
