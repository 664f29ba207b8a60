package verify

import (
	"errors"
	"fmt"
	"time"

	"hourseal/record"
	"hourseal/record/list"
	"hourseal/sign"
	"hourseal/verify/source"
)

// A signed list of all records that a yard says it holds of a machine is answered like
// a record: the same verdicts in the same order, the same questions. It has no page and
// no reading of a meter.

// errListInPDF is the answer about a PDF that carries a list where a record should be.
var errListInPDF = &source.InputError{
	Kind: source.ErrUnreadable, Reason: "this PDF holds a signed list of records, and no record",
	Hint: "ask for the list as a file of its own, and for the reports",
}

// asList is the envelope's content when it was sealed as a list.
func asList(found source.Found, recordErr error) (sign.Opened, bool) {
	if !errors.Is(recordErr, sign.ErrBadSignature) {
		return sign.Opened{}, false
	}
	opened, err := sign.Open(sign.ListV1, found.Envelope)
	return opened, err == nil
}

// runList verifies a list. result has what is known of any input.
func runList(result Result, found source.Found, opened sign.Opened, reader Reader) Result {
	if found.Kind == source.KindPDF {
		return Result{Verdict: Unreadable, Source: found.Kind, Err: errListInPDF}
	}
	result.Signer.Key = opened.Signer
	l, err := list.Decode(opened.Payload)
	if err != nil {
		result.Verdict, result.Err = Unreadable, err
		return result
	}
	result.List = l
	result.Signer, result.Keys = whoSigned(opened.Signer, l.IssuedAt, reader, found.Keys)
	result.Host = Host{Found: found.Host, Other: found.Host != ""} // it names none
	result.Serial = CompareSerial(reader.Serial, l.Machine.Serial)
	if reader.Hours != nil {
		result.Hours = HoursUnlike
	}
	result.Verdict = result.verdict()
	return result
}

// thing is what was signed, in a word.
func (r Result) thing() string {
	if r.List != nil {
		return "list"
	}
	return "record"
}

// issuer is who the signed thing says has signed it.
func (r Result) issuer() record.Issuer {
	if r.List != nil {
		return r.List.Issuer
	}
	return r.Signed.Issuer
}

// issuedAt is when the signed thing says that it was issued.
func (r Result) issuedAt() int64 {
	if r.List != nil {
		return r.List.IssuedAt
	}
	return r.Signed.IssuedAt
}

// genuineListWords is the sentence of a list that holds.
func (r Result) genuineListWords() string {
	held := fmt.Sprintf("a list of all records that it says it holds of this machine until %s. Nobody has checked that it is complete.", r.List.Until)
	if len(r.List.Ends) == 0 {
		held = fmt.Sprintf("its word that it holds no record of this machine until %s. Nobody has checked that.", r.List.Until)
	}
	words := fmt.Sprintf("Unaltered, and %s: %s", r.signedBy(), held)
	if r.Serial == Probably {
		words += " " + nearlyWords
	}
	return words
}

// listSections are all answers about a list below the sentence.
func (r Result) listSections() []Section {
	return []Section{
		{"Who signed", r.whoLines()},
		{"Is it unaltered", r.unalteredListLines()},
		{"Is it about this machine", r.listMachineLines()},
		{"When, and who says so", r.listWhenLines()},
		{"What this does not prove", []string{
			"That nothing else was done. Records of other yards are not in it, nor any that were issued since, nor work that no record was made of.",
			"That the list is whole: it is the word of who signed it, made for whoever it names.",
		}},
		{"What to do with it", []string{"Hold the reports that you have to it: hourseal history FILE... with this list among them. A record that it names and you do not have is missing: ask for it."}},
	}
}

func (r Result) unalteredListLines() []string {
	lines := []string{fmt.Sprintf("The list: unaltered since it was signed. List %s.", sign.ID(*r.Record))}
	if r.Host.Other {
		lines = append(lines, fmt.Sprintf("The code leads to %s; a list names no address. Do not follow it.", r.Host.Found))
	}
	return lines
}

func (r Result) listMachineLines() []string {
	lines := []string{serialLine(r.Serial, r.thing())}
	if r.Hours == HoursUnlike {
		lines = append(lines, "A list holds no hours: the meter that you read was not compared.")
	}
	return lines
}

func (r Result) listWhenLines() []string {
	until := ""
	if r.Verdict.ShowsContent() {
		until = fmt.Sprintf("complete to %s, ", r.List.Until)
	}
	return []string{
		fmt.Sprintf("Date written by the issuer: %sissued %s. It rests on the issuer's word and clock.",
			until, time.Unix(r.List.IssuedAt, 0).UTC().Format("2006-01-02 15:04 UTC")),
		heldToday,
	}
}

// kindLine says in the signer's words who it is that signs, where it is no yard.
func (r Result) kindLine() []string {
	kind := r.issuer().Kind
	if r.List == nil {
		return kindLines[kind]
	}
	switch kind {
	case record.OwnerIssuer:
		return []string{"It is an owner's own list, by its own word: the one who signed owns the machine, and no yard vouches for it."}
	case record.SurveyorIssuer:
		return []string{"It is a surveyor's list, by its own word."}
	default:
		return nil
	}
}
