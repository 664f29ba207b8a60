package verify

import (
	"strconv"

	"hourseal/sign"
	"hourseal/verify/source"
)

// Signer is who signed, as the reader knows them.
type Signer struct {
	Key sign.PublicKey
	// Standing is how the key stands by the reader's list and the key statements, with
	// the entry that results; zero when not Known.
	Standing  sign.Standing
	Known     bool           // named by the reader, or in place of a key so named
	Validity  sign.Validity  // of the key at the time of issue, by the record's word; when Known
	Judgement sign.Judgement // what the signature is worth, the date being only claimed
}

// Root is the key by which records of one signer are told, whichever of their keys
// signed; for an unknown signer the key itself.
func (s Signer) Root() sign.PublicKey {
	if !s.Known {
		return s.Key
	}
	return s.Standing.Root
}

// ValidForDate says whether the key is known and counts for the record's date, with
// nothing but the record to say so.
func (s Signer) ValidForDate() bool {
	return s.Judgement == sign.Good || s.Judgement == sign.GoodSaySo
}

// Keys are the key statements that a file brought, and how they fared.
type Keys struct {
	Statements []sign.Statement // in the file; nil without any
	Ignored    []sign.Ignored   // those that did not count, of the file's and about the signer's key
	Err        error            // why those in the file cannot be read
}

// whoSigned judges the key by the reader's list, with the statements that the reader
// has and those in the file. What the file brings is followed only from keys that
// the reader named, so a stranger's file cannot name anybody.
func whoSigned(key sign.PublicKey, issuedAt int64, reader Reader, attached []byte) (Signer, Keys) {
	var keys Keys
	if attached != nil {
		keys.Statements, keys.Err = sign.ParseStatements(attached)
	}
	all := reader.Statements
	if len(keys.Statements) > 0 {
		all = append(all[:len(all):len(all)], keys.Statements...)
	}
	ring, ignored := reader.Trust.With(all)
	for _, i := range ignored {
		if i.Statement.Subject == key || i.Statement.Other == key || keys.has(i.Statement) {
			keys.Ignored = append(keys.Ignored, i)
		}
	}
	return SignerOf(ring, key, issuedAt), keys
}

// SignerOf is how a key stands by a keyring under a record that was issued then, by its
// own word: the same for all of one day.
func SignerOf(ring sign.Keyring, key sign.PublicKey, issuedAt int64) Signer {
	signer := Signer{Key: key, Judgement: sign.NotKnown}
	if signer.Standing, signer.Known = ring.Lookup(key); signer.Known {
		signer.Validity = signer.Standing.Trusted.ValidAt(issuedAt)
		signer.Judgement = sign.Judge(signer.Standing, sign.DayOf(issuedAt), nil)
	}
	return signer
}

func (k Keys) has(s sign.Statement) bool {
	for _, own := range k.Statements {
		if string(own.Envelope) == string(s.Envelope) {
			return true
		}
	}
	return false
}

// nameLine is whose key it is, and from where the reader knows that.
func (r Result) nameLine(on Surface) string {
	t, own := r.Signer.Standing.Trusted, r.Signer.Standing.Entry
	since := ""
	if own.From != nil {
		since = trustedFrom.with("day", own.From.String())
	}
	if own.Until != nil {
		since += trustedUntil.with("day", own.Until.String())
	}
	if own.Key == r.Signer.Key {
		return nameGiven.on(on).with("name", t.Name, "since", since)
	}
	return nameTakenOver.on(on).with("name", t.Name, "fingerprint", own.Key.Fingerprint(), "since", since, "from", t.From.String())
}

// keyLines say how the key stands, and which key statements did not count.
func (r Result) keyLines(on Surface) []string {
	t, own := r.Signer.Standing.Trusted, r.Signer.Standing.Entry
	var lines []string
	switch {
	case r.compromisedLater():
		lines = append(lines, keyCompromised.with("day", t.Revoked.From.String()), wouldHelp.on(on).with())
	case !r.Signer.ValidForDate():
		lines = append(lines, keyNotValid.with("why", r.validityWords()))
	case t.Revoked != nil:
		lines = append(lines, keyRetired.with("day", t.Revoked.From.String()))
	case t.Until != nil && !sameDay(t.Until, own.Until):
		lines = append(lines, keyTakenOver.with("day", t.Until.String()))
	}
	return append(lines, r.Keys.lines()...)
}

// lines say what did not count of the key statements.
func (k Keys) lines() []string {
	if k.Err != nil {
		return []string{keysUnread.with("why", k.Err.Error())}
	}
	var lines []string
	foreign := 0
	for _, i := range k.Ignored {
		if i.Foreign {
			foreign++
			continue
		}
		lines = append(lines, keyNotCounted.with("statement", i.Statement.String(), "why", i.Reason))
	}
	if foreign > 0 {
		lines = append(lines, keysForeign.with("count", strconv.Itoa(foreign)))
	}
	return lines
}

func sameDay(a, b *sign.Day) bool { return a != nil && b != nil && *a == *b }

// errKeyStatements is the answer about a file of key statements by itself, which
// would otherwise seem to be a forged record.
var errKeyStatements = &source.InputError{
	Kind: source.ErrUnreadable, Reason: string(keyStatements), Hint: string(hintKeyStatements.terminal),
}

func areKeyStatements(data []byte) bool {
	_, err := sign.ParseStatements(data)
	return err == nil
}
