package sign

import (
	"fmt"
	"slices"
)

// Ignored is a statement that does not count, and why in plain words.
type Ignored struct {
	Statement Statement
	Reason    string // no full stop
	Foreign   bool   // for no other reason than that the reader's list does not lead to its key
}

func (i Ignored) String() string { return fmt.Sprintf("%s: %s", i.Statement, i.Reason) }

// With follows key statements from the keys that the reader trusts. The same
// statements in any order give the same answer; what does not count is given back
// with the reason, in the order of [SortStatements].
//
// Who may state what:
//
//	renewal             the subject key
//	recovery key        the subject key
//	revocation          the subject key, or a recovery key that it named
//	anything else       ignored
//
// What of several statements about one key counts:
//
//	a revocation                      always; none is taken back
//	two revocations                   the earlier date and the worse reason together
//	a recovery key                    always: it can only make a key count for less
//	two renewals                      that of the higher number, whatever came last
//	two renewals, one number          neither, and no older one
//	renewal, key retired              counts unless numbered after the revocation
//	renewal, key compromised from D   counts if stated before D, numbered before the
//	                                  revocation, and no other statement of the key
//	                                  has its number
//	renewal, the reader's own list    never: whoever has the key could have signed
//	  says compromised                it; the reader names the new key themselves
//	renewal, the reader's own list    counts unless stated after D
//	  says retired from D
//	a key that renewals of two        unknown: neither renewal counts
//	  signers lead to
//
// The time in a statement is its signer's word, as a record's is: who has a key can
// sign a renewal with an older date, too. The yard's own statements have taken the
// numbers up to that of the revocation, so such a renewal shares a number with one of
// them, and is found out wherever both are known: a yard sends all its statements
// together.
//
// What follows for the keys: the new key counts under the reader's name for the old
// one from its first day on, the old one to the end of that day. What the reader's list
// says of dates holds for every key that follows from an entry. A key with an entry of
// its own keeps it; it is the same signer's as the key that it took over from only
// where the reader gave both the same name.
func (l TrustList) With(statements []Statement) (Keyring, []Ignored) {
	if len(statements) == 0 {
		return Keyring{list: l}, nil
	}
	f := follower{list: l, sorted: SortStatements(statements)}
	f.reasons, f.foreign = make([]string, len(f.sorted)), make([]bool, len(f.sorted))
	f.byWhom()
	// Where two signers' renewals meet, both are ignored and all is followed anew;
	// each time there is one less.
	for f.met = true; f.met; {
		f.met, f.keys, f.before = false, map[PublicKey]Standing{}, map[PublicKey]PublicKey{}
		for _, entry := range l {
			f.walk(entry)
		}
	}
	for key, s := range f.keys {
		s.Root = f.root(s.Entry.Key)
		f.keys[key] = s
	}
	f.unreached()
	var ignored []Ignored
	for i, reason := range f.reasons {
		if reason != "" {
			ignored = append(ignored, Ignored{f.sorted[i], reason, f.foreign[i]})
		}
	}
	return Keyring{list: l, follows: f.keys}, ignored
}

// follower is one run of With.
type follower struct {
	list    TrustList
	sorted  []Statement
	reasons []string // of each statement why it does not count, "" where it does
	foreign []bool
	keys    map[PublicKey]Standing
	before  map[PublicKey]PublicKey // of a key with an entry of its own, the entry that led to it
	met     bool                    // two signers' renewals led to one key
}

func (f *follower) ignore(i int, format string, args ...any) {
	if f.reasons[i] == "" {
		f.reasons[i] = fmt.Sprintf(format, args...)
	}
}

// about yields the statements of one kind about a key that are not ignored.
func (f *follower) about(key PublicKey, kind StatementKind) func(yield func(int, Statement) bool) {
	return func(yield func(int, Statement) bool) {
		for i, s := range f.sorted {
			if s.Subject == key && s.Kind == kind && f.reasons[i] == "" && !yield(i, s) {
				return
			}
		}
	}
}

// byWhom ignores what its signer may not state.
func (f *follower) byWhom() {
	recovery := map[[2]PublicKey]bool{} // the key, and one that may revoke it
	for _, s := range f.sorted {
		if s.Kind == NamesRecovery && s.Signer == s.Subject {
			recovery[[2]PublicKey{s.Subject, s.Other}] = true
		}
	}
	for i, s := range f.sorted {
		switch {
		case s.Signer == s.Subject:
		case s.Kind == Revoke && recovery[[2]PublicKey{s.Subject, s.Signer}]:
		case s.Kind == Revoke:
			f.ignore(i, "it is signed by %s, which is neither that key nor a recovery key that it named", s.Signer.Fingerprint())
		default:
			f.ignore(i, "it is signed by %s, and only the key itself may state that", s.Signer.Fingerprint())
		}
	}
}

// walk follows the renewals from one entry of the list.
func (f *follower) walk(entry Trusted) {
	at := Standing{Trusted: entry, Entry: entry, After: f.keys[entry.Key].After}
	for {
		key := at.Trusted.Key
		revocations := f.revoke(&at)
		next, from, ok := f.successor(at, revocations)
		if ok {
			at.Next = &next
			if at.Trusted.Until == nil || *at.Trusted.Until > from {
				at.Trusted.Until = new(from)
			}
		}
		f.keys[key] = at
		if !ok {
			return
		}
		if own, named := f.list.Lookup(next); named {
			f.link(own, at)
			return
		}
		if there, twice := f.keys[next]; twice {
			if there.Entry.Name != entry.Name {
				f.meet(next)
			}
			return
		}
		at = f.follow(at, next, from)
	}
}

// follow is how a new key stands before anything is said of itself.
func (f *follower) follow(old Standing, next PublicKey, from Day) Standing {
	entry := old.Entry
	t := Trusted{Name: entry.Name, Key: next, From: new(from), Until: entry.Until, Note: entry.Note}
	if entry.From != nil && *entry.From > from {
		t.From = entry.From
	}
	return Standing{Trusted: t, Entry: entry, After: new(old.Trusted.Key)}
}

// link tells that a key with an entry of its own took over from another that the
// reader gave the same name.
func (f *follower) link(own Trusted, old Standing) {
	if _, linked := f.before[own.Key]; linked || own.Name != old.Entry.Name || own.Key == old.Entry.Key {
		return
	}
	f.before[own.Key] = old.Entry.Key
	s := f.keys[own.Key] // zero where its entry is yet to come, which keeps After
	s.After = new(old.Trusted.Key)
	f.keys[own.Key] = s
}

// root is the first of the entries that lead to an entry; of a ring of them the
// one that stands first in the list.
func (f *follower) root(key PublicKey) PublicKey {
	way := []PublicKey{key}
	for {
		before, ok := f.before[way[len(way)-1]]
		if !ok {
			return way[len(way)-1]
		}
		if i := slices.Index(way, before); i >= 0 {
			way = way[i:]
			break
		}
		way = append(way, before)
	}
	for _, t := range f.list {
		if slices.Contains(way, t.Key) {
			return t.Key
		}
	}
	return key
}

// meet ignores the renewals that lead to a key from two signers.
func (f *follower) meet(key PublicKey) {
	f.met = true
	for i, s := range f.sorted {
		if s.Kind == Renew && s.Other == key {
			f.ignore(i, "keys of two signers are renewed to the same key, %s", key.Fingerprint())
		}
	}
}

// unreached ignores what is about keys that the reader's list does not lead to.
func (f *follower) unreached() {
	for i, s := range f.sorted {
		if _, reached := f.keys[s.Subject]; !reached && f.reasons[i] == "" {
			f.ignore(i, "it is about a key that you have not named, nor one that took over from such a key")
			f.foreign[i] = true
		}
	}
}
