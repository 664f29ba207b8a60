package ledger

import (
	"errors"

	"hourseal/record"
	"hourseal/record/treehead"
)

// ErrNoneYet is returned where a machine had no record at the time that is asked about.
var ErrNoneYet = errors.New("no record of that machine had been issued by then")

// Head is the line that fixes the whole ledger as it was at a time, in seconds since
// 1970: a hash over the last record of each chain, of those that say they were issued
// not after it (package treehead). Every chain is proved on the way, so that a damaged
// ledger has no head. A ledger without records has the head of an empty tree.
//
// It is the same whenever it is made, as long as no record is issued later with an
// earlier time: that is what the line is there to show.
func (l Ledger) Head(until int64) (treehead.Line, error) {
	tree, _, err := l.tree(until)
	return tree.Line(), err
}

// Path is the proof that a machine's chain is in the head of that time, and the record
// that was the chain's last. It is ErrNoneYet when there was none.
func (l Ledger) Path(machine string, until int64) (treehead.Line, treehead.Path, Stored, error) {
	tree, ends, err := l.tree(until)
	if err != nil {
		return treehead.Line{}, treehead.Path{}, Stored{}, err
	}
	end, there := ends[machine]
	if !there {
		return tree.Line(), treehead.Path{}, Stored{}, ErrNoneYet
	}
	path, _ := tree.Path(end.ID) // every end is in the tree
	return tree.Line(), path, end, nil
}

// tree is the tree of the chains' ends at a time, and these by machine.
func (l Ledger) tree(until int64) (treehead.Tree, map[string]Stored, error) {
	machines, err := l.Machines()
	if err != nil {
		return treehead.Tree{}, nil, err
	}
	ends := map[string]Stored{}
	var ids []record.ID
	for _, machine := range machines {
		chain, err := l.Chain(machine)
		if err != nil {
			return treehead.Tree{}, nil, err
		}
		if end, there := endAt(chain, until); there {
			ends[machine] = end
			ids = append(ids, end.ID)
		}
	}
	return treehead.New(until, ids), ends, nil
}

// endAt is the last record of a chain that was issued not after a time. Another
// yard's, which this one's go on from, came into the ledger later than it was issued. A record
// behind one of a later time counts: a clock was put right between the two, and the
// chain says which came first.
func endAt(chain []Stored, until int64) (Stored, bool) {
	for i := len(chain) - 1; i >= 0; i-- {
		if !chain[i].Before && chain[i].Record.IssuedAt <= until {
			return chain[i], true
		}
	}
	return Stored{}, false
}
