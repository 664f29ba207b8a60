package sign

// revoke puts what is stated of a key's revocation to the reader's own, and gives
// the statements.
func (f *follower) revoke(at *Standing) []Statement {
	var stated []Statement
	for _, s := range f.about(at.Trusted.Key, Revoke) {
		stated = append(stated, s)
		at.Trusted.Revoked = stricter(at.Trusted.Revoked, Revocation{s.From, s.Why})
	}
	return stated
}

// stricter is the earlier day and the worse reason of two revocations.
func stricter(a *Revocation, b Revocation) *Revocation {
	if a == nil {
		return &b
	}
	both := Revocation{min(a.From, b.From), WhyRetired}
	if a.Why != WhyRetired || b.Why != WhyRetired {
		both.Why = WhyCompromised
	}
	return &both
}

// successor is the renewal that counts: the new key and its first day.
func (f *follower) successor(at Standing, revocations []Statement) (PublicKey, Day, bool) {
	key := at.Trusted.Key
	highest, place := Statement{}, -1
	for i, s := range f.about(key, Renew) {
		if reason := f.refused(at, s, revocations); reason != "" {
			f.ignore(i, "%s", reason)
			continue
		}
		// They come by number: a higher one outweighs those before it.
		switch {
		case place < 0 || s.Number > highest.Number:
			if place >= 0 {
				f.ignore(place, "statement %d of the same key is newer", s.Number)
			}
			highest, place = s, i
		default:
			const both = "there are two renewals numbered %d, and neither counts: ask the yard which key is theirs"
			f.ignore(place, both, s.Number)
			f.ignore(i, both, s.Number)
		}
	}
	if place < 0 || f.reasons[place] != "" {
		return PublicKey{}, 0, false
	}
	return highest.Other, highest.From, true
}

// refused says why a renewal does not count beside what is known of its key's
// revocation, "" where it does. The table stands at [TrustList.With].
func (f *follower) refused(at Standing, renewal Statement, revocations []Statement) string {
	if own := at.Entry.Revoked; own != nil && at.Entry.Key == at.Trusted.Key {
		switch {
		case own.Why != WhyRetired:
			return "you have that key as compromised: name the new one yourself, once the yard has told you its fingerprint"
		case renewal.statedOn() > own.From:
			return "it is stated after you have that key as retired"
		}
	}
	revoked := at.Trusted.Revoked
	for _, r := range revocations {
		if renewal.Number > r.Number {
			return "it is numbered after the revocation of that key"
		}
	}
	if revoked == nil || revoked.Why == WhyRetired {
		return ""
	}
	if renewal.statedOn() >= revoked.From {
		return "that key is compromised from " + revoked.From.String() + ", and this was not stated before: it may be a thief's"
	}
	for _, s := range f.sorted {
		if s.Subject == renewal.Subject && s.Number == renewal.Number && s.Signer == renewal.Signer && string(s.Envelope) != string(renewal.Envelope) {
			return "that key is compromised, and another statement of it has the same number: one of them may be a thief's"
		}
	}
	return ""
}
