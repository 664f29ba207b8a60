package history

import (
	"bytes"
	"slices"

	"hourseal/record"
	"hourseal/record/schedule"
	"hourseal/sign"
)

// faults finds what does not hold in the order of the records.
func (g *graph) faults() {
	for i := range g.m.Entries {
		if !g.m.Entries[i].Heard() {
			continue
		}
		g.citation(i)
		g.takeback(i)
		if g.m.Entries[i].pageInDoubt() {
			g.fault(Fault{Code: PageNotOriginal, Entry: i, Other: -1})
		}
		if by := g.m.Entries[i].By; by != nil {
			g.fault(Fault{Code: TakenBack, Entry: i, Other: g.placeOf(by.ID)})
		}
	}
	g.lines()
	slices.SortStableFunc(g.m.Faults, byWeight)
}

func (g *graph) fault(f Fault) { g.m.Faults = append(g.m.Faults, f) }

// citation holds a record to what it cites.
func (g *graph) citation(i int) {
	e := &g.m.Entries[i]
	previous := e.Record.Previous
	if previous == nil {
		return
	}
	point := schedule.Point{Date: previous.Date, Hours: previous.Hours}
	if previous.Date > e.Record.Job.Date && e.Record.Kind != record.Correction { // which is of the old job's day
		g.fault(Fault{Code: CitesLater, Entry: i, Other: g.cited[i], From: point, To: e.Point()})
	}
	if at := g.cited[i]; at >= 0 {
		before := &g.m.Entries[at]
		if before.Record.Number+1 != e.Record.Number {
			g.fault(Fault{Code: NumberOdd, Entry: i, Other: at})
		}
		if before.Point() != point {
			g.fault(Fault{Code: CitationOdd, Entry: i, Other: at, From: before.Point(), To: point})
		}
		if before.Record.IssuedAt > e.Record.IssuedAt {
			g.fault(Fault{Code: CitesIssued, Entry: i, Other: at})
		}
		return
	}
	missing := &Missing{ID: previous.Record, Number: e.Record.Number - 1, Since: g.haveUpTo(i) + 1, Point: &point}
	if other, here := g.all.entries[previous.Record]; here {
		g.fault(Fault{Code: CitesOther, Entry: i, Other: -1, Missing: missing, From: other.Point()})
		return
	}
	for _, f := range g.m.Faults { // two may cite the same one
		if f.Code == RecordMissing && f.Missing.ID == previous.Record {
			return
		}
	}
	g.fault(Fault{Code: RecordMissing, Entry: i, Other: -1, Missing: missing})
}

// haveUpTo is the number of the record before an entry in its chain, 0 without one.
func (g *graph) haveUpTo(i int) uint32 {
	chain := g.m.Chains[g.m.Entries[i].Chain].Entries
	if at := slices.Index(chain, i); at > 0 {
		return g.number(chain[at-1])
	}
	return 0
}

// takeback finds corrections and voids that take nothing back: of another signer's
// record, or of one that is not there.
func (g *graph) takeback(i int) {
	e := &g.m.Entries[i]
	subject := e.Record.Subject
	if subject == nil {
		return
	}
	about, here := g.all.entries[subject.Record]
	switch {
	case !here && e.Record.Kind == record.Correction: // it may be the twin's
		g.fault(Fault{Code: SubjectElsewhere, Entry: i, Other: -1, Missing: &Missing{ID: subject.Record}})
	case !here:
		g.fault(Fault{Code: SubjectMissing, Entry: i, Other: -1, Missing: &Missing{ID: subject.Record}})
	case about.Root != e.Root && takesBack(e.Record.Kind):
		other := -1
		if at, own := g.place[subject.Record]; own {
			other = at
		}
		g.fault(Fault{Code: ForeignTakeback, Entry: i, Other: other, Missing: &Missing{ID: subject.Record, Number: about.Record.Number}})
	}
}

func takesBack(kind record.Kind) bool { return kind == record.Correction || kind == record.Void }

// lines holds the line of each signer to one record of each number, and finds chains
// that do not know of each other. Whose key does not count has no line: anybody could
// make one look broken.
func (g *graph) lines() {
	roots := g.roots() // whose keys count: of strangers there may be any number
	type held struct {
		id    record.ID
		place int // -1: cited only
	}
	anyone := map[uint32]held{}
	parallel := false
	for _, root := range roots {
		line := make(map[uint32]held, len(g.m.Entries))
		add := func(number uint32, id record.ID, place int) {
			have, taken := line[number]
			switch {
			case !taken:
				line[number] = held{id, place}
			case have.id != id:
				if !slices.ContainsFunc(g.m.Faults, func(f Fault) bool { return f.Code == LineBroken && f.Signer == root }) {
					g.fault(Fault{Code: LineBroken, Entry: max(place, have.place), Other: min(place, have.place), Signer: root,
						Missing: &Missing{Number: number}})
				}
			case have.place < 0:
				line[number] = held{id, place}
			}
		}
		seen := make([]bool, len(g.m.Entries))
		for i := range g.m.Entries {
			if g.m.Entries[i].Root != root || !g.m.Entries[i].KeyCounts() {
				continue
			}
			for at := i; at >= 0 && !seen[at]; at = g.cited[at] {
				seen[at] = true
				e := &g.m.Entries[at]
				add(e.Record.Number, e.ID, at)
				if previous := e.Record.Previous; previous != nil && g.all.entries[previous.Record] == nil {
					add(e.Record.Number-1, previous.Record, -1)
				}
			}
		}
		for _, l := range g.m.Lists { // a list with one end is of one line
			if l.Counts && l.Signer.Root() == root && len(l.List.Ends) == 1 {
				end := l.List.Ends[0]
				add(end.Number, end.ID, g.placeOf(end.ID))
			}
		}
		if len(roots) == 1 {
			break
		}
		for number, have := range line {
			if other, taken := anyone[number]; taken && other.id != have.id {
				parallel = true
			} else {
				anyone[number] = have
			}
		}
	}
	if parallel {
		g.fault(Fault{Code: ParallelChains, Entry: -1, Other: -1})
	}
}

// roots are the signers of the machine's records whose keys count, in the order of
// their keys.
func (g *graph) roots() []sign.PublicKey {
	var roots []sign.PublicKey
	for i := range g.m.Entries {
		if e := &g.m.Entries[i]; !e.KeyCounts() {
			continue
		} else if root := e.Root; !slices.Contains(roots, root) {
			roots = append(roots, root)
		}
	}
	slices.SortFunc(roots, func(a, b sign.PublicKey) int { return bytes.Compare(a[:], b[:]) })
	return roots
}

// placeOf is the place of a record, -1 where it is not here.
func (g *graph) placeOf(id record.ID) int {
	if at, here := g.place[id]; here {
		return at
	}
	return -1
}

// gaps marks the records that count behind one that is missing, or does not count for
// its key: the one that cites it, and those that lie between the two by date, of
// whichever chain. A void or corrected one, and an addendum, is no gap: all of it is
// known.
func (g *graph) gaps() {
	for i := range g.m.Entries {
		e := &g.m.Entries[i]
		if e.Counts != Counts {
			continue
		}
		from, gap := g.gapBefore(i)
		if !gap {
			continue
		}
		e.AfterGap = true
		for j := range g.m.Entries {
			between := &g.m.Entries[j]
			before := between.Chain == e.Chain && between.Record.Number < e.Record.Number
			if between.Counts == Counts && !before && between.Point().Date >= from.Date && compareAge(between, e) < 0 {
				between.AfterGap = true
			}
		}
	}
}

// gapBefore is where the records that an entry goes back to break off before the next
// one that counts: the point of the one that is missing, as it is cited, or does not
// count.
func (g *graph) gapBefore(i int) (schedule.Point, bool) {
	for at := i; ; at = g.cited[at] {
		previous := g.m.Entries[at].Record.Previous
		next := g.cited[at]
		switch {
		case previous == nil:
			return schedule.Point{}, false
		case next < 0 || !g.m.Entries[next].KeyCounts():
			return schedule.Point{Date: previous.Date, Hours: previous.Hours}, true
		case g.m.Entries[next].Counts == Counts:
			return schedule.Point{}, false
		}
	}
}
