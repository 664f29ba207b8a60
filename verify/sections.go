package verify

import (
	"errors"
	"fmt"
	"time"

	"hourseal/record"
	"hourseal/sign"
	"hourseal/verify/source"
)

// Section is one answer, with its heading.
type Section struct {
	Heading string
	Lines   []string
}

// Sentence is the verdict in one plain sentence. But for the reader's own name
// for the signer nothing of the record is in it.
func (r Result) Sentence() string {
	switch r.Verdict {
	case Altered:
		return "Altered or forged: the signature does not fit. Do not rely on anything that it says."
	case Unreadable:
		return "This cannot be read as a service record."
	case KeyNotValid:
		return fmt.Sprintf("Unaltered since it was signed with a key of %s, but that key was not valid for its date: %s.", r.Signer.Trusted.Name, r.validityWords())
	case UnknownSigner:
		return "Unaltered since it was signed, but we do not know who signed this."
	case NotOriginal:
		return fmt.Sprintf("The record is unaltered and signed by %s, but %s.", r.signerName(), r.notOriginalWords())
	case OtherMachine:
		return fmt.Sprintf("Unaltered, and signed by %s, but not about the machine that you asked about.", r.signerName())
	default:
		return fmt.Sprintf("Unaltered, and signed by %s. Nobody has checked that the work was done.", r.signerName())
	}
}

// signerName is the reader's name for the signer; an owner's record says so.
func (r Result) signerName() string {
	name := r.Signer.Trusted.Name
	switch r.Signed.Issuer.Kind {
	case record.OwnerIssuer:
		return name + ", the owner"
	case record.SurveyorIssuer:
		return name + ", a surveyor"
	default:
		return name
	}
}

func (r Result) validityWords() string {
	t := r.Signer.Trusted
	switch {
	case r.Signer.Validity == sign.NotYet && t.From != nil:
		return "you trust it from " + t.From.String()
	case r.Signer.Validity == sign.Retired && t.Until != nil:
		return "you trust it until " + t.Until.String()
	case t.Revoked != nil:
		return fmt.Sprintf("revoked from %s, %s", t.Revoked.From, t.Revoked.Why)
	default:
		return r.Signer.Validity.String()
	}
}

func (r Result) notOriginalWords() string {
	switch {
	case r.Host.Other && r.Source == source.KindText:
		return "the code around it leads to another address than the record names"
	case r.Host.Other:
		return "the code in this file leads to another address than the record names"
	case r.Page.Result == PageNotCompared:
		return "whether this PDF shows what was signed could not be tried"
	default:
		return "this PDF is not the original page of it"
	}
}

// Sections are all answers below the sentence, in their fixed order.
func (r Result) Sections() []Section {
	switch r.Verdict {
	case Unreadable:
		return []Section{{"What is wrong", r.unreadableLines()}}
	case Altered:
		return []Section{
			{"What is wrong", []string{alteredReason(r.Err)}},
			{"What to do", []string{"Ask the yard, on a number that you found yourself, for the report as it was issued."}},
		}
	}
	sections := []Section{
		{"Who signed", r.whoLines()},
		{"Is it unaltered", r.unalteredLines()},
		{"Is it about this machine", r.machineLines()},
		{"When, and who says so", r.whenLines()},
		{"What this does not prove", notProved},
	}
	if questions := r.Questions(); len(questions) > 0 {
		sections = append(sections, Section{"Ask the yard or the seller", questions})
	}
	return sections
}

// notProved stands below every verdict on a record that could be read.
var notProved = []string{
	"That the work was done, or done well; that the meter was true; that nothing happened since.",
	"That no record is missing or newer. Ask for the newest: this one may have been corrected.",
}

func (r Result) unreadableLines() []string {
	lines := []string{sentence(r.Err.Error())}
	if hint := source.Hint(r.Err); hint != "" {
		lines = append(lines, sentence(hint))
	}
	return lines
}

func alteredReason(err error) string {
	if errors.Is(err, sign.ErrWeakKey) {
		return "It is signed under a key that fits any text, which no program of ours makes: a forgery."
	}
	return "The record's bytes are not the ones that were signed."
}

func (r Result) whoLines() []string {
	key := "Key " + r.Signer.Key.Fingerprint()
	if !r.Signer.Known {
		return []string{
			"We do not know who made this. Anyone can make such a file. Ring the yard on a number you found yourself and ask for its fingerprint.",
			key + ". If it is theirs, name it: hourseal trust add",
		}
	}
	t := r.Signer.Trusted
	since := ""
	if t.From != nil {
		since = ", trusted from " + t.From.String()
	}
	if t.Until != nil {
		since += ", until " + t.Until.String()
	}
	lines := []string{fmt.Sprintf("%s: the name that you gave this key%s.", r.signerName(), since), key}
	if !r.Signer.ValidForDate() {
		lines = append(lines, fmt.Sprintf("The key was not valid when the record says that it was issued: %s. A record can be dated back; ask for one that another signer has cited since.", r.validityWords()))
	}
	return lines
}

func (r Result) unalteredLines() []string {
	return append([]string{fmt.Sprintf("The record: unaltered since it was signed. Record %s.", sign.ID(*r.Record))}, r.pageLines()...)
}

func (r Result) pageLines() []string {
	var lines []string
	switch {
	case r.Page == nil && r.Source == source.KindText:
		lines = []string{"The page: not looked at. What the paper itself says was not compared with the record."}
	case r.Page == nil:
		lines = []string{"The page: none in this file. What a printed report says was not compared with it."}
	case r.Page.Result == source.PageOriginal:
		lines = []string{"The page: this PDF is the page of the record, byte for byte."}
	case r.Page.Result == source.PageRedeflated:
		lines = []string{"The page: this PDF shows the page of the record; only its compression differs."}
	case r.Page.Result == PageNotCompared:
		lines = []string{"The page: could not be compared: " + sentence(r.Page.Detail) + " Rely on the record's content, not on what the PDF shows."}
	default:
		lines = []string{"The page: not the original. " + sentence(r.Page.Detail) + " Rely on the record's content, not on what the PDF shows."}
		for _, line := range r.Page.Lines {
			lines = append(lines, fmt.Sprintf("Page %d shows %q; the record's page has %q.", line.Page, line.Received, line.Fresh))
		}
	}
	if r.Host.Other {
		lines = append(lines, fmt.Sprintf("The code leads to %s, the record names %s. Do not follow it.", hostWords(r.Host.Found), hostWords(r.Signed.PageHost)))
	}
	return lines
}

func hostWords(host string) string {
	if host == "" {
		return "no address"
	}
	return host
}

func (r Result) machineLines() []string {
	var lines []string
	switch r.Serial {
	case NotAsked:
		lines = append(lines, "Not compared. Read the serial number off the engine's plate and give it: --serial TEXT")
	case Same:
		lines = append(lines, "The serial number that you gave is the record's.")
	case Probably:
		lines = append(lines, "The serial number is probably the same; O and 0, I and 1 or leading zeros differ. Look at the plate again.")
	case Different:
		lines = append(lines, "The serial number that you gave is not the record's: it is about another machine.")
	}
	switch r.Hours {
	case HoursBehind:
		lines = append(lines, "The meter that you read shows fewer hours than the record: another machine, or another meter since.")
	case HoursAhead:
		lines = append(lines, "The meter that you read has run on since the record, or stands where it stood.")
	}
	return lines
}

func (r Result) whenLines() []string {
	signed := r.Signed
	return []string{
		fmt.Sprintf("Date written by the issuer: work on %s, issued %s. It rests on the issuer's word and clock.",
			signed.Job.Date, time.Unix(signed.IssuedAt, 0).UTC().Format("2006-01-02 15:04 UTC")),
		"Known to exist no later than: today, because you hold it. Nobody else vouches for an earlier day.",
	}
}

// sentence makes an error's or a hint's words a sentence.
func sentence(text string) string {
	if text == "" {
		return ""
	}
	first := []rune(text)
	if first[0] >= 'a' && first[0] <= 'z' {
		first[0] -= 'a' - 'A'
	}
	if last := first[len(first)-1]; last != '.' && last != '?' {
		first = append(first, '.')
	}
	return string(first)
}
