package verify_test

// The sentences that most tests expect, in the exact words.
const (
	genuineWithPage = "Unaltered, and signed by Ellery Slip Boatyard. Nobody has checked that the work was done."
	genuineOnPaper  = genuineWithPage + " What the paper itself says was not compared."
	alteredSentence = "Altered or forged: the signature does not fit. Do not rely on anything that it says."
	forgedSentence  = "Forged: no honest signer has the key that it names. Do not rely on anything that it says."
	unreadable      = "This cannot be read as a service record."
	unknownSigner   = "We do not know who signed this, though it is unaltered since it was signed."
	pageNotOriginal = "This PDF is not the original, so do not go by what it shows; the record in it is unaltered and signed by Ellery Slip Boatyard."
	pageNotCompared = "Whether this PDF shows what was signed could not be tried, so do not go by what it shows; the record in it is unaltered and signed by Ellery Slip Boatyard."
	otherAddress    = "The code leads to another address than the record names, do not follow it; the record is unaltered and signed by Ellery Slip Boatyard."
	noAddress       = "The code does not begin with the address that the record names; the record is unaltered and signed by Ellery Slip Boatyard."
	otherSerial     = "The serial number that you gave is not the one in this record, which is unaltered and signed by Ellery Slip Boatyard."
	fewerHours      = "The meter that you read shows fewer hours than this record, which is unaltered and signed by Ellery Slip Boatyard."
)
