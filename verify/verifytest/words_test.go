package verifytest_test

import (
	"fmt"

	"hourseal/verify"
)

// The sentences in this program's words.
const (
	notCompared  = " What the paper itself says was not compared."
	nearly       = " The serial number is nearly, not quite, the one that you gave: look at the plate again."
	genuinePage  = "Unaltered, and signed by Ellery Slip Boatyard. Nobody has checked that the work was done."
	genuinePaper = genuinePage + notCompared

	genuineList = "Unaltered, and signed by Ellery Slip Boatyard: a list of all records that it says it holds of this machine until 2026-11-02. Nobody has checked that it is complete."

	alteredWords    = "Altered or forged: the signature does not fit. Do not rely on anything that it says."
	forgedWords     = "Forged: no honest signer has the key that it names. Do not rely on anything that it says."
	unreadableWords = "This cannot be read as a service record."

	intact         = "though it is unaltered since it was signed."
	notThisPDF     = "and this PDF is not the original of the record in it."
	notTried       = "and whether this PDF shows what was signed could not be tried."
	notThisCode    = "and the code around it is not the one that the record calls for."
	unknownWords   = "We do not know who signed this, "
	bySigned       = "unaltered and signed by Ellery Slip Boatyard."
	editedPDFWords = "This PDF is not the original, so do not go by what it shows; the record in it is " + bySigned
	untriedPDF     = "Whether this PDF shows what was signed could not be tried, so do not go by what it shows; the record in it is " + bySigned
	scanWords      = "The code stands in a picture in this PDF, as in a scan: what its pages say was not compared with what was signed; the record in the code is " + bySigned
	scanRest       = "and what the pages of this PDF say was not compared with what was signed: the code stands in a picture, as in a scan."
	otherAddress   = "The code leads to another address than the record names, do not follow it; the record is " + bySigned
	noAddress      = "The code does not begin with the address that the record names; the record is " + bySigned
	otherSerial    = "The serial number that you gave is not the one in this record, which is " + bySigned
	fewerHours     = "The meter that you read shows fewer hours than this record, which is " + bySigned
	alsoSerial     = " The serial number that you gave is not the one in this record."
	alsoFewer      = " The meter that you read shows fewer hours than this record."
	listElsewhere  = "The code leads to an address, and a list names none: do not follow it; the list is " + bySigned
	listOther      = "The serial number that you gave is not the one in this list, which is " + bySigned
)

func genuine(sentence string) outcome { return outcome{verdict: verify.Genuine, sentence: sentence} }

func altered() outcome { return outcome{verdict: verify.Altered, sentence: alteredWords} }

func unreadable() outcome { return outcome{verdict: verify.Unreadable, sentence: unreadableWords} }

func unknown() outcome {
	return outcome{verdict: verify.UnknownSigner, sentence: unknownWords + intact}
}

func notOriginal(sentence string) outcome {
	return outcome{verdict: verify.NotOriginal, sentence: sentence}
}

func otherMachine(sentence string) outcome {
	return outcome{verdict: verify.OtherMachine, sentence: sentence}
}

// also is the outcome with a sentence behind its own, with or without the page.
func (o outcome) also(said string) outcome {
	o.sentence += said
	if o.without != nil {
		without := o.without.also(said)
		o.without = &without
	}
	return o
}

// notValid is a key that did not count on the day of issue; stolen one that came into
// other hands later, so that the day is worth nothing.
func notValid(why string) outcome { return notValidAnd(why, intact) }

func notValidAnd(why, rest string) outcome {
	return outcome{verdict: verify.KeyNotValid,
		sentence: fmt.Sprintf("Signed with a key of Ellery Slip Boatyard that was not valid for its date (%s), %s", why, rest)}
}

func stolen(since string) outcome {
	return outcome{verdict: verify.KeyNotValid,
		sentence: fmt.Sprintf("Signed with a key of Ellery Slip Boatyard that others may have, since %s at the latest; nothing but its own word says that it is older, %s", since, intact)}
}
