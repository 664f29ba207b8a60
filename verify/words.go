package verify

import (
	"strings"

	"hourseal/record"
)

// Surface is where the words of an answer are read. What is said is the same on each;
// only what a reader can do about it differs, and so the words for that.
type Surface int

// The surfaces.
const (
	Terminal Surface = iota
	OnPage           // the web page: fields to type in, the record below the answers
)

// phrase is a line of an answer, with places to fill: {name}. All of them stand in
// this file and the next; code elsewhere only chooses the row.
type phrase string

// with fills the places, given as name and text in turn, in one pass: what is filled
// in is never read as a place.
func (p phrase) with(pairs ...string) string {
	for i := 0; i < len(pairs); i += 2 {
		pairs[i] = "{" + pairs[i] + "}"
	}
	return strings.NewReplacer(pairs...).Replace(string(p))
}

// choice is a line that says what to do, in the words of each surface.
type choice struct{ terminal, page phrase }

func (c choice) on(s Surface) phrase {
	if s == OnPage {
		return c.page
	}
	return c.terminal
}

// The sentences of the verdicts: the bad news first.
const (
	sayAltered    phrase = "Altered or forged: the signature does not fit. Do not rely on anything that it says."
	sayForged     phrase = "Forged: no honest signer has the key that it names. Do not rely on anything that it says."
	sayUnreadable phrase = "This cannot be read as a service record."

	sayKeyNotValid phrase = "Signed with a key of {name} that was not valid for its date ({validity}), {since}."
	sayStolenKey   phrase = "Signed with a key of {name} that others may have, since {from} at the latest; nothing but its own word says that it is older, {since}."
	sayUnknown     phrase = "We do not know who signed this{as}, {since}."

	sayNoAddress    phrase = "The code does not begin with the address that the record names; the record is unaltered and {signed}."
	sayOtherAddress phrase = "The code leads to another address than the record names, do not follow it; the record is unaltered and {signed}."
	sayListAddress  phrase = "The code leads to an address, and a list names none: do not follow it; the list is unaltered and {signed}."
	sayScan         phrase = "The code stands in a picture in this PDF, as in a scan: what its pages say was not compared with what was signed; the record in the code is unaltered and {signed}."
	sayNotCompared  phrase = "Whether this PDF shows what was signed could not be tried, so do not go by what it shows; the record in it is unaltered and {signed}."
	sayNotOriginal  phrase = "This PDF is not the original, so do not go by what it shows; the record in it is unaltered and {signed}."
	sayFileDiffers  phrase = "A file at hand is not the one that was signed with the record, so do not go by that file; the record is unaltered and {signed}."

	sayOtherSerial phrase = "The serial number that you gave is not the one in this {thing}, which is unaltered and {signed}."
	sayFewerHours  phrase = "The meter that you read shows fewer hours than this record, which is unaltered and {signed}."

	sayGenuine   phrase = "Unaltered, and {signed}. {later}"
	sayList      phrase = "Unaltered, and {signed}: a list of all records that it says it holds of this machine until {until}. Nobody has checked that it is complete."
	sayEmptyList phrase = "Unaltered, and {signed}: its word that it holds no record of this machine until {until}. Nobody has checked that."
)

// What stands behind the sentence of a verdict that is good.
const (
	alsoNearly phrase = "The serial number is nearly, not quite, the one that you gave: look at the plate again."
	alsoPaper  phrase = "What the paper itself says was not compared."
)

// What stands behind the sentence of a verdict that outweighs another machine, or a file
// that differs.
const (
	alsoFileDiffers phrase = "A file at hand is not the one that was signed with the record."
	alsoOtherSerial phrase = "The serial number that you gave is not the one in this {thing}."
	alsoFewerHours  phrase = "The meter that you read shows fewer hours than this {thing}."
)

// Pieces of the sentences.
const (
	signedBy phrase = "signed by {name}"

	// How the signed thing stands, after a signer who does not count.
	sinceUnaltered   phrase = "though it is unaltered since it was signed"
	sinceScan        phrase = "and what the pages of this PDF say was not compared with what was signed: the code stands in a picture, as in a scan"
	sinceNotCompared phrase = "and whether this PDF shows what was signed could not be tried"
	sinceNotOriginal phrase = "and this PDF is not the original of the record in it"
	sinceOtherCode   phrase = "and the code around it is not the one that the record calls for"
	sinceListLed     phrase = "and the code around it leads to an address, where a list names none"

	// Why the key did not count at the time of issue.
	whyRevoked    phrase = "revoked from {day}, {why}"
	whyUntil      phrase = "you trust it until {day}"
	whyTakenOver  phrase = "another key took over on {day}"
	whyFrom       phrase = "you trust it from {day}"
	whyTookOver   phrase = "it took over from another key on {day}"
	aRecord       phrase = "record"
	aList         phrase = "list"
	noAddressName phrase = "no address"
)

// asWhom is said of an issuer that is not a yard, and calledWhom of its name.
var (
	asWhom = map[record.IssuerKind]phrase{
		record.OwnerIssuer:    " as the owner",
		record.SurveyorIssuer: " as a surveyor",
	}
	calledWhom = map[record.IssuerKind]phrase{
		record.OwnerIssuer:    "{name}, the owner",
		record.SurveyorIssuer: "{name}, a surveyor",
	}
)

// laterWords are what a record is that speaks of an earlier: in the sentence, and in
// full, with the earlier one's id.
var laterWords = map[record.Kind]struct{ sentence, full phrase }{
	record.Service: {"Nobody has checked that the work was done.", ""},
	record.Correction: {
		"It stands in the place of an earlier record. Nobody has checked that the work was done.",
		"A correction: it stands in the place of record {id}. Ask for that one too, to see what was changed.",
	},
	record.Addendum: {
		"It adds to an earlier record, and is no service of its own. Nobody has checked what it says.",
		"An addendum: it adds to record {id}. Read both; it is no service of its own.",
	},
	record.Void: {
		"It tells of no work: it declares that an earlier record does not count.",
		"A void: it declares that record {id} does not count. The work that one describes is not claimed any more.",
	},
}
