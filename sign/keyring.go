package sign

// Keyring is the reader's list together with what key statements say of the keys
// in it. The zero value knows nobody.
type Keyring struct {
	list    TrustList
	follows map[PublicKey]Standing // what statements changed or brought; nil for none
}

// Lookup says how a key stands; false for a key that is unknown.
func (k Keyring) Lookup(key PublicKey) (Standing, bool) {
	if s, ok := k.follows[key]; ok {
		return s, s.Known()
	}
	if t, ok := k.list.Lookup(key); ok {
		return Standing{Trusted: t, Entry: t, Root: key}, true
	}
	return Standing{}, false
}
