package verify

import (
	"errors"
	"fmt"
	"time"
	"unicode"

	"hourseal/record"
	"hourseal/sign"
	"hourseal/verify/source"
)

// Section is one answer, with its heading.
type Section struct {
	Heading string
	Lines   []string
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
	if r.List != nil {
		return r.listSections()
	}
	sections := append(r.aboutSections(),
		Section{"Who signed", r.whoLines()},
		Section{"Is it unaltered", r.unalteredLines()},
		Section{"Is it about this machine", r.machineLines()},
		Section{"When, and who says so", r.whenLines()},
		Section{"What this does not prove", notProved},
	)
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
	if r.Signer.Key != (sign.PublicKey{}) {
		return []string{"It is signed, but not in the form of a record that this program reads. " + lines[0],
			"A newer program may read it; if none does, ask the yard for the report as it was issued."}
	}
	if hint := source.Hint(r.Err); hint != "" {
		lines = append(lines, sentence(hint))
	}
	return lines
}

func alteredReason(err error) string {
	if errors.Is(err, sign.ErrWeakKey) {
		return "Under keys of that kind a signature proves nothing, and no program of ours makes them."
	}
	return "The record's bytes are not the ones that were signed, or the key that it names did not sign them."
}

func (r Result) whoLines() []string {
	key := "Key " + r.Signer.Key.Fingerprint()
	if !r.Signer.Known {
		lines := []string{
			"We do not know who made this. Anyone can make such a file. Ring the yard on a number you found yourself and ask for its fingerprint.",
			key + ". If it is theirs, ask for their .pub file and name it: hourseal trust add FILE --name NAME",
		}
		return append(append(lines, r.kindLine()...), r.Keys.lines()...)
	}
	lines := append([]string{r.nameLine(), key}, r.kindLine()...)
	return append(lines, r.keyLines()...)
}

// kindLines say in the record's words who it is that signs, where it is no yard.
var kindLines = map[record.IssuerKind][]string{
	record.OwnerIssuer:    {"It is an owner's own record, by its own word: the one who signed owns the machine, and no yard vouches for the work."},
	record.SurveyorIssuer: {"It is a surveyor's record, by its own word."},
}

func (r Result) unalteredLines() []string {
	return append([]string{fmt.Sprintf("The record: unaltered since it was signed. Record %s.", sign.ID(*r.Record))}, r.pageLines()...)
}

func (r Result) pageLines() []string {
	var lines []string
	switch {
	case r.Page == nil && r.Source == source.KindText:
		lines = []string{"The page: not looked at. What the paper itself says was not compared with the record: do that yourself."}
	case r.Page == nil:
		lines = []string{"The page: none in this file. What a printed report says was not compared with it: do that yourself."}
	case r.Page.Result == source.PageOriginal:
		lines = []string{"The page: this PDF is the page of the record, byte for byte."}
	case r.Page.Result == source.PageRedeflated:
		lines = []string{"The page: this PDF shows the page of the record; only its compression differs."}
	case r.Page.Result == PageNotCompared:
		lines = []string{"The page: could not be compared. " + sentence(r.Page.Detail), notByThePage}
	default:
		lines = []string{"The page: not the original. " + sentence(r.Page.Detail), notByThePage}
		for _, line := range r.Page.Lines {
			lines = append(lines, lineWords(line))
		}
	}
	if r.Host.Other {
		lines = append(lines, r.hostLine())
	}
	return lines
}

// notByThePage stands below a page that is not, or could not be shown to be,
// the record's. It says nothing of whether the record can be relied on.
const notByThePage = "What it shows may not be what was signed; a file that another program only saved again looks like this too. Ask for it as it was issued. To read what was signed: hourseal verify FILE --content"

// lineWords is one line of text that differs.
func lineWords(line source.TextDiff) string {
	switch {
	case line.Fresh == "":
		return fmt.Sprintf("Page %d shows %q; the record's page does not.", line.Page, line.Received)
	case line.Received == "":
		return fmt.Sprintf("Page %d does not show %q; the record's page does.", line.Page, line.Fresh)
	default:
		return fmt.Sprintf("Page %d shows %q; the record's page has %q.", line.Page, line.Received, line.Fresh)
	}
}

func (r Result) hostLine() string {
	if r.Host.Found == "" {
		return fmt.Sprintf("The code has no address in it, the record names %s.", r.Signed.PageHost)
	}
	return fmt.Sprintf("The code leads to %s, the record names %s. Do not follow it.", r.Host.Found, hostWords(r.Signed.PageHost))
}

func hostWords(host string) string {
	if host == "" {
		return "no address"
	}
	return host
}

// serialLine says how the serial number compares with that of the record or list.
func serialLine(match Match, thing string) string {
	switch match {
	case Same:
		return fmt.Sprintf("The serial number that you gave is the %s's.", thing)
	case Probably:
		return "The serial number is probably the same; O and 0, I and 1 or leading zeros differ. Look at the plate again."
	case Different:
		return fmt.Sprintf("The serial number that you gave is not the %s's. Look at the plate again; if you gave it rightly, this is about another machine.", thing)
	default:
		return "Not compared. Read the serial number off the engine's plate and give it: --serial TEXT"
	}
}

func (r Result) machineLines() []string {
	lines := []string{serialLine(r.Serial, r.thing())}
	switch r.Hours {
	case HoursBehind:
		lines = append(lines, "The meter that you read shows fewer hours than the record: another machine, or another meter since.")
	case HoursUnlike:
		why := "are an estimate, because its meter did not run"
		if r.Signed.Kind == record.Void {
			why = "are those of the record that it declares void"
		}
		lines = append(lines, fmt.Sprintf("The hours in the record %s: the meter that you read was not compared.", why))
	case HoursAhead:
		lines = append(lines, "The meter that you read has run on since the record, or stands where it stood.")
	}
	return lines
}

// whenLines name the day of issue whatever the verdict, because keys are judged
// by it; the day of the work is content.
func (r Result) whenLines() []string {
	work := ""
	if r.Verdict.ShowsContent() {
		work = fmt.Sprintf("work on %s, ", r.Signed.Job.Date)
	}
	return []string{
		fmt.Sprintf("Date written by the issuer: %sissued %s. It rests on the issuer's word and clock.",
			work, time.Unix(r.Signed.IssuedAt, 0).UTC().Format("2006-01-02 15:04 UTC")),
		heldToday,
	}
}

const heldToday = "Known to exist no later than: today, because you hold it. Nobody else vouches for an earlier day."

// sentence makes an error's or a hint's words a sentence. They may hold a piece
// of the input: what does not print, or in no report, is shown as U+FFFD.
func sentence(text string) string {
	words := []rune(text)
	if len(words) == 0 {
		return ""
	}
	for i, r := range words {
		if !unicode.IsPrint(r) || r > 0xFFFF {
			words[i] = unicode.ReplacementChar
		}
	}
	if words[0] >= 'a' && words[0] <= 'z' {
		words[0] -= 'a' - 'A'
	}
	if last := words[len(words)-1]; last != '.' && last != '?' {
		words = append(words, '.')
	}
	return string(words)
}
