package verify

import (
	"errors"
	"fmt"

	"hourseal/record"
	"hourseal/sign"
)

// Sentence is the verdict in plain words, the bad news first. But for the
// reader's own name for the signer, and whether the signer calls itself the
// owner or a surveyor, nothing of the record is in it.
func (r Result) Sentence() string {
	switch r.Verdict {
	case Altered:
		return r.alteredWords() + " Do not rely on anything that it says."
	case Unreadable:
		return "This cannot be read as a service record."
	case KeyNotValid:
		if r.compromisedLater() {
			return fmt.Sprintf("Signed with a key of %s that others may have, since %s at the latest; nothing but its own word says that it is older, %s.",
				r.signerName(), r.Signer.Trusted.Revoked.From, r.sinceWords())
		}
		return fmt.Sprintf("Signed with a key of %s that was not valid for its date (%s), %s.", r.signerName(), r.validityWords(), r.sinceWords())
	case UnknownSigner:
		return fmt.Sprintf("We do not know who signed this%s, %s.", asWhom[r.issuer().Kind], r.sinceWords())
	case NotOriginal:
		return r.notOriginalWords()
	case OtherMachine:
		return r.otherMachineWords()
	default:
		return r.genuineWords()
	}
}

// asWhom is said of an issuer that is not a yard.
var asWhom = map[record.IssuerKind]string{
	record.OwnerIssuer:    " as the owner",
	record.SurveyorIssuer: " as a surveyor",
}

// signerName is the reader's name for the signer; an owner's and a surveyor's
// record says so.
func (r Result) signerName() string {
	switch name := r.Signer.Trusted.Name; r.issuer().Kind {
	case record.OwnerIssuer:
		return name + ", the owner"
	case record.SurveyorIssuer:
		return name + ", a surveyor"
	default:
		return name
	}
}

func (r Result) alteredWords() string {
	if errors.Is(r.Err, sign.ErrWeakKey) {
		return "Forged: no honest signer has the key that it names."
	}
	return "Altered or forged: the signature does not fit."
}

// sinceWords is how the signed thing stands, after a signer who does not count.
// A page that is not the record's must not pass for unaltered there either.
func (r Result) sinceWords() string {
	switch {
	case r.Page.Proved() && !r.Host.Other:
		return "though it is unaltered since it was signed"
	case r.Page != nil && r.Page.Result == PageNotCompared:
		return "and whether this PDF shows what was signed could not be tried"
	case r.Page != nil:
		return "and this PDF is not the original of the record in it"
	default:
		return "and the code around it is not the one that the record calls for"
	}
}

// validityWords say why the key did not count at the time of issue.
func (r Result) validityWords() string {
	t, day := r.Signer.Trusted, sign.DayOf(r.issuedAt())
	own := r.Signer.Standing.Entry
	switch {
	case t.Revoked != nil && day >= t.Revoked.From:
		return fmt.Sprintf("revoked from %s, %s", t.Revoked.From, t.Revoked.Why)
	case r.Signer.Validity == sign.Retired && sameDay(t.Until, own.Until):
		return "you trust it until " + t.Until.String()
	case r.Signer.Validity == sign.Retired && t.Until != nil:
		return "another key took over on " + t.Until.String()
	case r.Signer.Validity == sign.NotYet && sameDay(t.From, own.From):
		return "you trust it from " + t.From.String()
	case r.Signer.Validity == sign.NotYet && t.From != nil:
		return "it took over from another key on " + t.From.String()
	default:
		return r.Signer.Validity.String()
	}
}

// compromisedLater says whether the key was valid for the date that the record
// gives itself, and came into other hands since: they can write that date too.
func (r Result) compromisedLater() bool {
	revoked := r.Signer.Trusted.Revoked
	return r.Signer.Validity == sign.Valid && revoked != nil && revoked.Why != sign.WhyRetired
}

func (r Result) notOriginalWords() string {
	sealed := "unaltered and " + r.signedBy()
	switch {
	case r.Host.Other && r.Host.Found == "":
		return fmt.Sprintf("The code does not begin with the address that the record names; the record is %s.", sealed)
	case r.Host.Other:
		return fmt.Sprintf("The code leads to another address than the %[1]s names, do not follow it; the %[1]s is %[2]s.", r.thing(), sealed)
	case r.Page.Result == PageNotCompared:
		return fmt.Sprintf("Whether this PDF shows what was signed could not be tried, so do not go by what it shows; the record in it is %s.", sealed)
	default:
		return fmt.Sprintf("This PDF is not the original, so do not go by what it shows; the record in it is %s.", sealed)
	}
}

// otherMachineWords do not say that it is another machine: the reader may have
// typed the number wrong, or the meter may be a new one.
func (r Result) otherMachineWords() string {
	if r.Serial == Different {
		return fmt.Sprintf("The serial number that you gave is not the one in this %s, which is unaltered and %s.", r.thing(), r.signedBy())
	}
	return fmt.Sprintf("The meter that you read shows fewer hours than this record, which is unaltered and %s.", r.signedBy())
}

func (r Result) signedBy() string { return "signed by " + r.signerName() }

// nearlyWords stand behind a verdict where the serial number is probably the same.
const nearlyWords = "The serial number is nearly, not quite, the one that you gave: look at the plate again."

func (r Result) genuineWords() string {
	if r.List != nil {
		return r.genuineListWords()
	}
	words := fmt.Sprintf("Unaltered, and %s. %s", r.signedBy(), laterWords[r.Signed.Kind].sentence)
	if r.Serial == Probably {
		words += " " + nearlyWords
	}
	if r.Page == nil {
		words += " What the paper itself says was not compared."
	}
	return words
}
