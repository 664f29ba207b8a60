package verify

import (
	"errors"
	"strconv"
	"strings"
	"time"
	"unicode"

	"hourseal/sign"
	"hourseal/verify/source"
)

// Section is one answer, with its heading.
type Section struct {
	Heading string
	Lines   []string
}

// Sections are all answers below the sentence, in their fixed order.
func (r Result) Sections(on Surface) []Section {
	switch r.Verdict {
	case Unreadable:
		return []Section{{headWrong.with(), r.unreadableLines(on)}}
	case Altered:
		return []Section{
			{headWrong.with(), []string{alteredReason(r.Err)}},
			{headDo.with(), []string{askAsIssued.with()}},
		}
	}
	if r.List != nil {
		return r.listSections(on)
	}
	sections := append(r.aboutSections(),
		Section{headWho.with(), r.whoLines(on)},
		Section{headUnaltered.with(), r.unalteredLines(on)},
		Section{headMachine.with(), r.machineLines(on)},
		Section{headWhen.with(), r.whenLines()},
	)
	if due := r.dueLines(on); len(due) > 0 {
		sections = append(sections, Section{headDue.with(), due})
	}
	sections = append(sections, Section{headNotProved.with(), all(notProved)})
	if questions := r.Questions(); len(questions) > 0 {
		sections = append(sections, Section{headAsk.with(), questions})
	}
	return sections
}

// Reason is why it is altered or cannot be read, in the words of the terminal's answer
// and on one line; "" of what shows its content.
func (r Result) Reason() string {
	if !r.Verdict.HidesContent() {
		return ""
	}
	return strings.Join(r.Sections(Terminal)[0].Lines, " ")
}

// ContentHeading is the heading of the record's or the list's own content.
func (r Result) ContentHeading() string {
	if r.List != nil {
		return headList.with()
	}
	return headRecord.with()
}

func all(phrases []phrase) []string {
	lines := make([]string, len(phrases))
	for i, p := range phrases {
		lines[i] = p.with()
	}
	return lines
}

func (r Result) unreadableLines(on Surface) []string {
	line := sentence(r.Err.Error())
	if r.Signer.Key != (sign.PublicKey{}) {
		return []string{wrongForm.with("why", line), newerProgram.with()}
	}
	lines := []string{line}
	hint := source.Hint(r.Err)
	if errors.Is(r.Err, errKeyStatements) {
		hint = hintKeyStatements.on(on).with()
	}
	if hint != "" {
		lines = append(lines, sentence(hint))
	}
	return lines
}

func alteredReason(err error) string {
	if errors.Is(err, sign.ErrWeakKey) {
		return wrongKey.with()
	}
	return wrongBytes.with()
}

func (r Result) whoLines(on Surface) []string {
	fingerprint := r.Signer.Key.Fingerprint()
	if !r.Signer.Known {
		lines := []string{nobodyKnows.with(), nameIt.on(on).with("fingerprint", fingerprint)}
		return append(append(lines, r.kindLine()...), r.Keys.lines()...)
	}
	lines := append([]string{r.nameLine(on), key.with("fingerprint", fingerprint)}, r.kindLine()...)
	return append(lines, r.keyLines(on)...)
}

func (r Result) unalteredLines(on Surface) []string {
	lines := append([]string{recordUnaltered.with("id", sign.ID(*r.Record).String())}, r.pageLines(on)...)
	switch {
	case r.Host.Other && r.Host.Found == "":
		lines = append(lines, codeNoAddress.with("host", r.Signed.PageHost))
	case r.Host.Other:
		lines = append(lines, codeLeadsAway.with("found", r.Host.Found, "host", hostWords(r.Signed.PageHost)))
	case r.Host.Unknown:
		lines = append(lines, addressNotGiven.with())
	}
	return append(lines, r.fileLines(on)...)
}

func hostWords(host string) string {
	if host == "" {
		return noAddressName.with()
	}
	return host
}

func (r Result) pageLines(on Surface) []string {
	switch {
	case r.Page == nil && r.Source == source.KindText:
		return []string{pageNotLookedAt.with()}
	case r.Page == nil && r.Source == source.KindImage:
		return []string{pageInPicture.with()}
	case r.Page == nil:
		return []string{pageNone.with()}
	case r.Page.Scan:
		return []string{pageScan.with(), compareScan.on(on).with()}
	case r.Page.Result == source.PageOriginal:
		return []string{pageOriginal.with()}
	case r.Page.Result == source.PageRedeflated:
		return []string{pageDeflated.with()}
	case r.Page.Result == PageNotCompared:
		return []string{pageNotCompared.with("why", sentence(r.Page.Detail)), goByTheRecord.on(on).with()}
	}
	lines := []string{pageNotOriginal.with("why", sentence(r.Page.Detail)), notByThePage.on(on).with()}
	for _, line := range r.Page.Lines {
		lines = append(lines, lineWords(line))
	}
	return lines
}

// lineWords is one line of text that differs.
func lineWords(line source.TextDiff) string {
	differs := lineOther
	switch {
	case line.Fresh == "":
		differs = lineAdded
	case line.Received == "":
		differs = lineMissing
	}
	return differs.with("page", strconv.Itoa(line.Page), "received", strconv.Quote(line.Received), "fresh", strconv.Quote(line.Fresh))
}

// serialLine says how the serial number compares with that of the record or list.
func serialLine(match Match, thing string, on Surface) string {
	switch match {
	case Same:
		return serialSame.with("thing", thing)
	case Probably:
		return serialProbably.with()
	case Different:
		return serialDifferent.with("thing", thing)
	default:
		return serialNotAsked.on(on).with()
	}
}

func (r Result) machineLines(on Surface) []string {
	lines := []string{serialLine(r.Serial, r.thing(), on)}
	switch r.Hours {
	case HoursBehind:
		lines = append(lines, meterBehind.with())
	case HoursUnlike:
		lines = append(lines, meterUnlike.with("why", hoursUnlikeWords(r.Signed.Kind)))
	case HoursAhead:
		lines = append(lines, meterAhead.with())
	}
	return lines
}

// whenLines name the day of issue whatever the verdict, because keys are judged
// by it; the day of the work is content.
func (r Result) whenLines() []string {
	work := ""
	if r.Verdict.ShowsContent() {
		work = workOn.with("day", r.Signed.Job.Date.String())
	}
	return []string{writtenOn.with("content", work, "time", issueTime(r.Signed.IssuedAt)), heldToday.with()}
}

// issueTime is when something was issued, in seconds since 1970, to the minute.
func issueTime(seconds int64) string {
	return time.Unix(seconds, 0).UTC().Format("2006-01-02 15:04 UTC")
}

// sentence makes an error's or a hint's words a sentence. They may hold a piece
// of the input: what does not print, or in no report, is shown as U+FFFD.
func sentence(text string) string {
	words := []rune(printable(text))
	if len(words) == 0 {
		return ""
	}
	if words[0] >= 'a' && words[0] <= 'z' {
		words[0] -= 'a' - 'A'
	}
	if last := words[len(words)-1]; last != '.' && last != '?' {
		words = append(words, '.')
	}
	return string(words)
}

// printable shows what does not print, or in no report, as U+FFFD.
func printable(text string) string {
	return strings.Map(func(r rune) rune {
		if !unicode.IsPrint(r) || r > 0xFFFF {
			return unicode.ReplacementChar
		}
		return r
	}, text)
}
