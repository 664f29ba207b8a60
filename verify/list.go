package verify

import (
	"errors"

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
	Kind: source.ErrUnreadable, Reason: string(listInPDF), Hint: string(hintListInPDF),
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
	result.Host = Host{Found: found.Host, Other: found.Host != "", Unknown: found.HostUnknown} // it names none
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
		return string(aList)
	}
	return string(aRecord)
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
	held := sayList
	if len(r.List.Ends) == 0 {
		held = sayEmptyList
	}
	words := held.with("signed", r.signedBy(), "until", r.List.Until.String())
	if r.Serial == Probably {
		words += " " + string(alsoNearly)
	}
	return words
}

// listSections are all answers about a list below the sentence.
func (r Result) listSections(on Surface) []Section {
	return []Section{
		{headWho.with(), r.whoLines(on)},
		{headUnaltered.with(), r.unalteredListLines()},
		{headMachine.with(), r.listMachineLines(on)},
		{headWhen.with(), r.listWhenLines()},
		{headNotProved.with(), all(listNotProved)},
		{headDoWithIt.with(), []string{holdToList.on(on).with()}},
	}
}

func (r Result) unalteredListLines() []string {
	lines := []string{listUnaltered.with("id", sign.ID(*r.Record).String())}
	switch {
	case r.Host.Other:
		lines = append(lines, listLeadsAway.with("found", r.Host.Found))
	case r.Host.Unknown:
		lines = append(lines, addressUnseen.with())
	}
	return lines
}

func (r Result) listMachineLines(on Surface) []string {
	lines := []string{serialLine(r.Serial, r.thing(), on)}
	if r.Hours == HoursUnlike {
		lines = append(lines, listNoHours.with())
	}
	return lines
}

func (r Result) listWhenLines() []string {
	until := ""
	if r.Verdict.ShowsContent() {
		until = completeTo.with("day", r.List.Until.String())
	}
	return []string{writtenOn.with("content", until, "time", issueTime(r.List.IssuedAt)), heldToday.with()}
}
