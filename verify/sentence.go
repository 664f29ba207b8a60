package verify

import (
	"errors"

	"hourseal/record"
	"hourseal/sign"
)

// Sentence is the verdict in plain words, the same wherever they are read. But for the
// reader's own name for the signer, and whether the signer calls itself the
// owner or a surveyor, nothing of the record is in it.
func (r Result) Sentence() string {
	switch r.Verdict {
	case Altered:
		if errors.Is(r.Err, sign.ErrWeakKey) {
			return sayForged.with()
		}
		return sayAltered.with()
	case Unreadable:
		return sayUnreadable.with()
	case KeyNotValid, UnknownSigner, NotOriginal:
		return r.doubtWords() + r.alsoOtherFile() + r.alsoOtherMachine()
	case OtherMachine:
		return r.otherMachinePhrase().with("thing", r.thing(), "signed", r.signedBy())
	default:
		return r.genuineWords()
	}
}

// doubtWords are the sentence of a verdict on what is unaltered and yet not to be
// relied on.
func (r Result) doubtWords() string {
	switch r.Verdict {
	case KeyNotValid:
		if r.compromisedLater() {
			return sayStolenKey.with("name", r.signerName(), "from", r.Signer.Standing.Trusted.Revoked.From.String(), "since", r.sinceWords())
		}
		return sayKeyNotValid.with("name", r.signerName(), "validity", r.validityWords(), "since", r.sinceWords())
	case UnknownSigner:
		return sayUnknown.with("as", string(asWhom[r.issuer().Kind]), "since", r.sinceWords())
	default:
		return r.notOriginalPhrase().with("signed", r.signedBy())
	}
}

// alsoOtherMachine says behind a worse verdict what speaks against its being about the
// machine; of serial number and meter the first, as where that is the verdict.
func (r Result) alsoOtherMachine() string {
	switch {
	case r.Serial == Different:
		return " " + alsoOtherSerial.with("thing", r.thing())
	case r.Hours == HoursBehind:
		return " " + alsoFewerHours.with("thing", r.thing())
	default:
		return ""
	}
}

// aroundIt says whether what is around the record, its page and its code, is not, or could
// not be shown to be, the record's.
func (r Result) aroundIt() bool { return !r.Page.Proved() || r.Host.Other }

// alsoOtherFile says of a file that differs where the verdict speaks of something else.
func (r Result) alsoOtherFile() string {
	if r.fileDiffers() && (r.Verdict != NotOriginal || r.aroundIt()) {
		return " " + alsoFileDiffers.with()
	}
	return ""
}

// signerName is the reader's name for the signer; an owner's and a surveyor's
// record says so.
func (r Result) signerName() string {
	name := r.Signer.Standing.Trusted.Name
	if called, said := calledWhom[r.issuer().Kind]; said {
		return called.with("name", name)
	}
	return name
}

func (r Result) signedBy() string { return signedBy.with("name", r.signerName()) }

// sinceWords is how the signed thing stands, after a signer who does not count.
// A page that is not the record's must not pass for unaltered there either, nor a code
// that leads away because the page could not be compared.
func (r Result) sinceWords() string {
	switch {
	case r.Page.Proved() && !r.Host.Other:
		return sinceUnaltered.with()
	case r.Host.Other && r.List != nil:
		return sinceListLed.with()
	case r.Host.Other && (r.Page == nil || r.Page.Result == PageNotCompared):
		return sinceOtherCode.with()
	case r.Page != nil && r.Page.Scan:
		return sinceScan.with()
	case r.Page != nil && r.Page.Result == PageNotCompared:
		return sinceNotCompared.with()
	default:
		return sinceNotOriginal.with()
	}
}

// validityWords say why the key did not count at the time of issue.
func (r Result) validityWords() string {
	t, day := r.Signer.Standing.Trusted, sign.DayOf(r.issuedAt())
	own := r.Signer.Standing.Entry
	switch {
	case t.Revoked != nil && day >= t.Revoked.From:
		return whyRevoked.with("day", t.Revoked.From.String(), "why", string(t.Revoked.Why))
	case r.Signer.Validity == sign.Retired && sameDay(t.Until, own.Until):
		return whyUntil.with("day", t.Until.String())
	case r.Signer.Validity == sign.Retired && t.Until != nil:
		return whyTakenOver.with("day", t.Until.String())
	case r.Signer.Validity == sign.NotYet && sameDay(t.From, own.From):
		return whyFrom.with("day", t.From.String())
	case r.Signer.Validity == sign.NotYet && t.From != nil:
		return whyTookOver.with("day", t.From.String())
	default:
		return r.Signer.Validity.String()
	}
}

// compromisedLater says whether the key was valid for the date that the record
// gives itself, and came into other hands since: they can write that date too.
func (r Result) compromisedLater() bool {
	revoked := r.Signer.Standing.Trusted.Revoked
	return r.Signer.Validity == sign.Valid && revoked != nil && revoked.Why != sign.WhyRetired
}

func (r Result) notOriginalPhrase() phrase {
	switch {
	case r.Host.Other && r.Host.Found == "":
		return sayNoAddress
	case r.Host.Other && r.List != nil:
		return sayListAddress
	case r.Host.Other:
		return sayOtherAddress
	case !r.aroundIt():
		return sayFileDiffers
	case r.Page.Scan:
		return sayScan
	case r.Page.Result == PageNotCompared:
		return sayNotCompared
	default:
		return sayNotOriginal
	}
}

// otherMachinePhrase does not say that it is another machine: the reader may have
// typed the number wrong, or the meter may be a new one.
func (r Result) otherMachinePhrase() phrase {
	if r.Serial == Different {
		return sayOtherSerial
	}
	return sayFewerHours
}

func (r Result) genuineWords() string {
	if r.List != nil {
		return r.genuineListWords()
	}
	words := sayGenuine.with("signed", r.signedBy(), "later", string(laterWords[r.Signed.Kind].sentence))
	if r.Serial == Probably {
		words += " " + string(alsoNearly)
	}
	if r.Page == nil {
		words += " " + string(alsoPaper)
	}
	return words
}

// kindLine says in the signer's words who it is that signs, where it is no yard.
func (r Result) kindLine() []string {
	lines, said := kindLines[r.issuer().Kind]
	switch {
	case !said:
		return nil
	case r.List != nil:
		return []string{lines.list.with()}
	default:
		return []string{lines.record.with()}
	}
}

// hoursUnlikeWords say why the record's hours are no reading of its meter.
func hoursUnlikeWords(kind record.Kind) string {
	if kind == record.Void {
		return hoursOfVoided.with()
	}
	return hoursEstimated.with()
}
