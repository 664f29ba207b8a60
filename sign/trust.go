package sign

import (
	"fmt"
	"strings"
)

// Trusted is one entry of a trust list: the name that the reader, not the
// record, gave a key, and when the key counts.
type Trusted struct {
	Name    string // 1 to MaxNameRunes runes
	Key     PublicKey
	From    *Day // first day on which the key counts; nil: no bound
	Until   *Day // last day on which the key counts; nil: no bound
	Note    string
	Revoked *Revocation // nil: not revoked
}

// Revocation says from which day a key no longer counts, and why.
type Revocation struct {
	From Day
	Why  RevokedWhy
}

// RevokedWhy is the reason a key was revoked.
type RevokedWhy string

// The reasons there are. A retired key is only no longer used. A compromised
// one may be in other hands, and who holds it can write any date they like: a
// record dated before Revocation.From is worth as much as the evidence, other
// than its own word, that it was made by then.
const (
	WhyRetired     RevokedWhy = "retired"
	WhyCompromised RevokedWhy = "compromised"
)

const (
	// MaxNameRunes is the longest name in a trust list.
	MaxNameRunes = 80
	// MaxNoteRunes is the longest note in a trust list.
	MaxNoteRunes = 600
)

// TrustList is whom the reader knows, in the order of their file. No key is in
// it twice; a name may be, since a yard may have had several keys.
type TrustList []Trusted

// Validity says whether a key counted at a time. Its zero value is none of the
// answers.
type Validity int

// The answers of [Trusted.ValidAt].
const (
	Valid   Validity = iota + 1
	NotYet           // before From
	Retired          // after Until, or from Revoked.From on, retired
	Revoked          // from Revoked.From on, compromised
)

func (v Validity) String() string {
	switch v {
	case Valid:
		return "valid"
	case NotYet:
		return "not yet valid"
	case Retired:
		return "retired"
	case Revoked:
		return "revoked"
	}
	return "unknown"
}

// ValidAt tells whether the key counted at a time, in seconds since 1970-01-01
// 00:00 UTC: the issue time of a record. Where several answers hold, the
// gravest is given: Revoked, then Retired, then NotYet.
func (t Trusted) ValidAt(unixSeconds int64) Validity {
	day := DayOf(unixSeconds)
	revoked := t.Revoked != nil && day >= t.Revoked.From
	switch {
	// Anything but "retired" counts as compromised: the safe side.
	case revoked && t.Revoked.Why != WhyRetired:
		return Revoked
	case revoked, t.Until != nil && day > *t.Until:
		return Retired
	case t.From != nil && day < *t.From:
		return NotYet
	}
	return Valid
}

// Lookup finds the entry for a key.
func (l TrustList) Lookup(key PublicKey) (Trusted, bool) {
	for _, t := range l {
		if t.Key == key {
			return t, true
		}
	}
	return Trusted{}, false
}

// Add gives the list with entry at its end. The same key a second time is
// refused, and so is an entry that [ParseTrust] would refuse. The list itself
// is not changed.
func (l TrustList) Add(entry Trusted) (TrustList, error) {
	if err := entry.check(); err != nil {
		return nil, err
	}
	if had, ok := l.Lookup(entry.Key); ok {
		return nil, fmt.Errorf("key %s is already trusted, as %q: remove it first", entry.Key.Fingerprint(), had.Name)
	}
	return append(l[:len(l):len(l)], entry), nil
}

// Remove gives the list without the entry that has this name, or this
// fingerprint as [PublicKey.Fingerprint] prints it, and the entry. A name that
// several entries bear is refused. The list itself is not changed.
func (l TrustList) Remove(nameOrFingerprint string) (TrustList, Trusted, error) {
	found := -1
	for i, t := range l {
		if t.Key.Fingerprint() == nameOrFingerprint {
			found = i
			break
		}
		if t.Name != nameOrFingerprint {
			continue
		}
		if found >= 0 {
			return nil, Trusted{}, fmt.Errorf("several keys are trusted as %q: give the fingerprint, SHA256:…, of the one to remove", printable(nameOrFingerprint))
		}
		found = i
	}
	if found < 0 {
		return nil, Trusted{}, fmt.Errorf("nobody is trusted as %q: give a name or a fingerprint, SHA256:…, from the list", printable(nameOrFingerprint))
	}
	rest := append(l[:found:found], l[found+1:]...)
	return rest, l[found], nil
}

// Format writes the list as a trust file, which [ParseTrust] reads back as the
// same list. The text depends on the list alone. A list with an entry that
// ParseTrust would refuse is refused here.
func (l TrustList) Format() ([]byte, error) {
	if len(l) == 0 {
		return []byte("[]\n"), nil
	}
	var b strings.Builder
	for i, t := range l {
		if err := t.check(); err != nil {
			return nil, fmt.Errorf("trust list, entry %d: %w", i+1, err)
		}
		if _, twice := l[:i].Lookup(t.Key); twice {
			return nil, fmt.Errorf("trust list, entry %d: key %s is there twice", i+1, t.Key.Fingerprint())
		}
		fmt.Fprintf(&b, "- name: %s\n  key: %s\n", quoteYAML(t.Name), t.Key.OpenSSHLine(""))
		if t.From != nil {
			fmt.Fprintf(&b, "  from: %s\n", *t.From)
		}
		if t.Until != nil {
			fmt.Fprintf(&b, "  until: %s\n", *t.Until)
		}
		if t.Note != "" {
			fmt.Fprintf(&b, "  note: %s\n", quoteYAML(t.Note))
		}
		if t.Revoked != nil {
			fmt.Fprintf(&b, "  revoked: { from: %s, why: %s }\n", t.Revoked.From, t.Revoked.Why)
		}
	}
	return []byte(b.String()), nil
}
