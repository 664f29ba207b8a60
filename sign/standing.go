package sign

import "math"

// KeyState is how a key stands.
type KeyState int

// The states there are.
const (
	StateUnknown     KeyState = iota // nobody that the reader has named; the zero value
	StateActive                      // it counts
	StateNotYet                      // its first day is to come
	StateRetired                     // no longer used
	StateCompromised                 // in other hands, or may be
)

func (s KeyState) String() string {
	switch s {
	case StateActive:
		return "active"
	case StateNotYet:
		return "not yet"
	case StateRetired:
		return "retired"
	case StateCompromised:
		return "compromised"
	}
	return "unknown"
}

// Standing is what the reader's list and the key statements together make of one
// key. Its zero value is an unknown key.
type Standing struct {
	// Trusted is the entry that results for this key: the reader's name and note,
	// and the dates and the revocation, the stricter of the reader's own and those
	// stated.
	Trusted Trusted
	// Entry is the reader's own entry from which it follows: of this key, or of the
	// one before it.
	Entry Trusted
	// Root is the key of the signer's first entry in the reader's list: keys with
	// the same Root are one signer's.
	Root PublicKey
	// After is the key that this one took over from, nil where the reader named it.
	After *PublicKey
	// Next is the key that took over from this one, nil for none.
	Next *PublicKey
}

// Known says whether the key is one that the reader named, or follows from one.
func (s Standing) Known() bool { return s.Trusted.Key != (PublicKey{}) }

// turns are the states that the key passes into, or out of for StateNotYet, each
// with its day.
func (s Standing) turns() map[KeyState]Day {
	t := s.Trusted
	if t.From == nil && t.Until == nil && t.Revoked == nil { // as of most keys
		return nil
	}
	turns := map[KeyState]Day{}
	if t.From != nil {
		turns[StateNotYet] = *t.From
	}
	if t.Until != nil && *t.Until < math.MaxInt32 {
		turns[StateRetired] = *t.Until + 1
	}
	switch r := t.Revoked; {
	case r == nil:
	case r.Why == WhyRetired:
		from, twice := turns[StateRetired]
		if !twice || r.From < from {
			turns[StateRetired] = r.From
		}
	default: // anything but "retired" counts as compromised: the safe side
		turns[StateCompromised] = r.From
	}
	return turns
}

// StateOn is how the key stands on a day: the gravest that holds. A key that was in
// other hands from some later day on is told as it stood.
func (s Standing) StateOn(day Day) KeyState {
	if !s.Known() {
		return StateUnknown
	}
	turns := s.turns()
	for _, state := range []KeyState{StateCompromised, StateRetired} {
		if from, ok := turns[state]; ok && day >= from {
			return state
		}
	}
	if from, ok := turns[StateNotYet]; ok && day < from {
		return StateNotYet
	}
	return StateActive
}
