package verify

// Verdict is the one word for a report; the JSON's verdict.
type Verdict string

// The verdicts; see [Verdicts] for their order.
const (
	Altered       Verdict = "altered"        // not what was signed, or forged
	Unreadable    Verdict = "unreadable"     // no record that this program can read
	KeyNotValid   Verdict = "key-not-valid"  // the signer's key was not valid for that date
	UnknownSigner Verdict = "unknown-signer" // nobody that the reader has named
	NotOriginal   Verdict = "not-original"   // the record holds, the page, code or a file beside it does not
	OtherMachine  Verdict = "other-machine"  // not what the reader typed off the plate
	Genuine       Verdict = "genuine"
)

// Verdicts are all of them, the worst first: the order in which one outweighs another over
// several inputs.
func Verdicts() []Verdict {
	return []Verdict{Altered, Unreadable, KeyNotValid, UnknownSigner, NotOriginal, OtherMachine, Genuine}
}

// exitCodes are the program's exit codes, formats "Command line".
var exitCodes = map[Verdict]int{
	Altered: 3, Unreadable: 2, KeyNotValid: 5, UnknownSigner: 4, NotOriginal: 6, OtherMachine: 6, Genuine: 0,
}

// ExitCode is the program's exit code for the verdict.
func (v Verdict) ExitCode() int { return exitCodes[v] }

// ShowsContent says whether the record's content is shown without being asked
// for.
func (v Verdict) ShowsContent() bool { return v == Genuine }

// HidesContent says whether the record's content is never shown.
func (v Verdict) HidesContent() bool { return v == Altered || v == Unreadable }
