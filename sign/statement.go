package sign

import (
	"errors"
	"fmt"
)

// StatementKind is what a key statement says. Its zero value is none.
type StatementKind uint8

// The kinds there are; the numbers stand in the payload.
const (
	Renew         StatementKind = 1 // another key takes over from this one
	Revoke        StatementKind = 2 // this key no longer counts
	NamesRecovery StatementKind = 3 // another key may revoke this one
)

func (k StatementKind) String() string {
	switch k {
	case Renew:
		return "renewal"
	case Revoke:
		return "revocation"
	case NamesRecovery:
		return "recovery key"
	}
	return "unknown statement"
}

// StatementContent is what a key statement says, before it is sealed.
//
// The payload is a CBOR map in core-deterministic form (RFC 8949 section 4.2.1):
//
//	1  format, 1
//	2  kind, 1 to 3 as StatementKind
//	3  subject key, 32 bytes
//	4  other key, 32 bytes: the new key, or the recovery key; absent in a revocation
//	5  from, days since 1970-01-01; absent where a recovery key is named
//	6  why, 1 retired, 2 compromised; in a revocation only
//	7  stated at, seconds since 1970-01-01 00:00 UTC
//	8  number, 1 and up
//
// Any other key, order or form of a number is refused.
type StatementContent struct {
	Kind    StatementKind
	Subject PublicKey // the key that it is about
	Other   PublicKey // Renew: the new key; NamesRecovery: the recovery key; else zero

	// From is, of a renewal, the first day of the new key and the last of the old one,
	// so that neither is short of a day when they change; of a revocation the earliest day on which the key may
	// have been in other hands, or the first on which it is not used. 0 where a
	// recovery key is named.
	From Day
	Why  RevokedWhy // Revoke only

	StatedAt int64  // seconds since 1970-01-01 00:00 UTC, by the signer's word
	Number   uint32 // counts the statements about Subject: 1, 2, 3 …
}

// Statement is a key statement whose signature fits. That its signer may state
// such a thing is for [TrustList.With] to say.
type Statement struct {
	StatementContent
	Signer   PublicKey
	Envelope []byte // sealed for KeyStatementV1
}

// lastSecond is the last of the year 9999.
const lastSecond = 253402300799

// check is what holds of every statement, read or to be sealed.
func (c StatementContent) check() error {
	if c.Kind < Renew || c.Kind > NamesRecovery {
		return fmt.Errorf("kind: %d: want 1, 2 or 3", c.Kind)
	}
	if err := c.Subject.Check(); err != nil {
		return fmt.Errorf("subject key: %w", err)
	}
	switch hasOther := c.Other != (PublicKey{}); {
	case c.Kind == Revoke && hasOther:
		return errors.New("other key: a revocation names none")
	case c.Kind != Revoke && c.Other == c.Subject:
		return errors.New("other key: the same as the subject key")
	case c.Kind != Revoke:
		if err := c.Other.Check(); err != nil {
			return fmt.Errorf("other key: %w", err)
		}
	}
	switch {
	case c.Kind == NamesRecovery && c.From != 0:
		return errors.New("from: a statement that names a recovery key has none")
	case !c.From.printable():
		return errors.New("from: only the years 0000 to 9999 can be written")
	case c.Kind != Revoke && c.Why != "":
		return errors.New("why: only a revocation has a reason")
	case c.Kind == Revoke && c.Why.check() != nil:
		return fmt.Errorf("why: %w", c.Why.check())
	case c.StatedAt < 0 || c.StatedAt > lastSecond:
		return errors.New("stated at: only the years 1970 to 9999 can be written")
	case c.Number == 0:
		return errors.New("number: statements are counted from 1")
	}
	return nil
}

// statedOn is the day on which it was stated, by its own word.
func (c StatementContent) statedOn() Day { return DayOf(c.StatedAt) }

// String names a statement in messages: "statement 2 of key SHA256:… (renewal)".
func (c StatementContent) String() string {
	return fmt.Sprintf("statement %d of key %s (%s)", c.Number, c.Subject.Fingerprint(), c.Kind)
}
