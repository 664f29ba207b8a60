package history

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/sign"
	"hourseal/verify"
)

// nobodyChecked stands behind every good sentence: "genuine" is heard as "well
// maintained".
const nobodyChecked = " Nobody has checked that the work was done."

// SignerName is what the reader calls a signer.
func (m *Machine) SignerName(root sign.PublicKey) string {
	for i := range m.Entries {
		if e := &m.Entries[i]; e.Root == root && e.Signer.Known {
			return e.Signer.Trusted.Name
		}
	}
	for _, l := range m.Lists {
		if l.Signer.Root() == root && l.Signer.Known {
			return l.Signer.Trusted.Name
		}
	}
	return "somebody you do not know (" + root.Fingerprint() + ")"
}

// Sentence is the judgement of one machine in plain words, the worst first: what was
// altered may be of this machine as well as of another.
func (m *Machine) Sentence() string {
	switch m.Altered {
	case 0:
		return m.judgement()
	case 1:
		return fmt.Sprintf("1 of %s is altered or forged, and is set aside. ", countOf(m.Inputs, "file")) + m.judgement()
	default:
		return fmt.Sprintf("%d of %s are altered or forged, and are set aside. ", m.Altered, countOf(m.Inputs, "file")) + m.judgement()
	}
}

func (m *Machine) judgement() string {
	if f := m.faultsOf(LineBroken); len(f) > 0 {
		return fmt.Sprintf("The chain is broken: %s of this machine. Do not rely on either until the yard has said which one holds.", m.brokenWords(f[0]))
	}
	if n := m.count(KeyNotValid); n > 0 {
		return fmt.Sprintf("%s signed with a key that was not valid for %s date, and %s for nothing here. %s", m.ofRecords(n, "is", "are"), itsTheir(n), countsCount(n), m.restWords())
	}
	if n := m.unknown(); n == len(m.Entries) {
		return fmt.Sprintf("We do not know who signed %s. Anyone can make such files: ask each yard, on a number that you found yourself, for its fingerprint.", oneOfThese(n))
	} else if n > 0 {
		return fmt.Sprintf("%s signed by somebody you do not know, and %s for nothing here. %s", m.ofRecords(n, "is", "are"), countsCount(n), m.restWords())
	}
	return m.restWords()
}

// brokenWords say what two records of one number are: both signed by one, or what that
// one's records go back to.
func (m *Machine) brokenWords(f Fault) string {
	signed := func(i int) bool { return i >= 0 && m.Entries[i].Root == f.Signer }
	if signed(f.Entry) && signed(f.Other) {
		return fmt.Sprintf("%s signed two different records number %d", m.SignerName(f.Signer), f.Missing.Number)
	}
	return fmt.Sprintf("the records that %s signed go back to two different records number %d", m.SignerName(f.Signer), f.Missing.Number)
}

// restWords judge what counts.
func (m *Machine) restWords() string {
	if len(m.Counted) == 0 {
		return "No record that counts is left: nothing can be said of this machine."
	}
	who := fmt.Sprintf("%s from %s to %s, unaltered, signed by %s", countOf(len(m.Counted), "record"), m.Span.First.Date, m.Span.Last.Date, someOf(m.signers()))
	if len(m.Counted) == 1 {
		who = fmt.Sprintf("1 record, of %s, unaltered, signed by %s", m.Span.First.Date, someOf(m.signers()))
	}
	var said []string
	if missing := m.missingWords(); missing != "" {
		said = append(said, missing)
	}
	if len(m.faultsOf(ParallelChains)) > 0 {
		said = append(said, "they are chains that do not know of each other")
	}
	if f := m.faultsOf(HoursBack); len(f) > 0 {
		said = append(said, fmt.Sprintf("the hours go back from %s h to %s h", f[0].From.Hours, f[0].To.Hours))
	}
	if f := m.faultsOf(HoursTooFast); len(f) > 0 {
		said = append(said, "hours rose faster than the clock")
	}
	if len(m.faultsOf(MeterUnknown)) > 0 {
		said = append(said, "the meter was changed, and what the removed one read is not known")
	}
	if n := len(m.faultsOf(PageNotOriginal)); n > 0 {
		said = append(said, fmt.Sprintf("the page of %s is not the original", countOf(n, "record")))
	}
	over := m.overdueWords()
	if over != "" {
		said = append(said, over)
	}
	if len(said) == 0 {
		said = append(said, "nothing recorded as overdue")
	}
	return who + ": " + strings.Join(said, "; ") + "." + m.takenBackWords() + m.standsWords() + nobodyChecked
}

// takenBackWords say how many records their signers took back: what they told is not
// in the judgement.
func (m *Machine) takenBackWords() string {
	corrected, voided := m.count(Corrected), m.count(Voided)
	were := func(n int) string {
		if n == 1 {
			return "was"
		}
		return "were"
	}
	switch {
	case corrected+voided == 0:
		return ""
	case voided == 0:
		return fmt.Sprintf(" %s %s corrected since, by %s.", countOf(corrected, "record"), were(corrected), signerSigners(corrected))
	case corrected == 0:
		return fmt.Sprintf(" %s %s voided since, by %s.", countOf(voided, "record"), were(voided), signerSigners(voided))
	default:
		return fmt.Sprintf(" %s %s corrected and %d voided since, by their signers.", countOf(corrected, "record"), were(corrected), voided)
	}
}

func signerSigners(n int) string {
	if n == 1 {
		return "its signer"
	}
	return "their signers"
}

// standsWords say what was overdue on the day that is asked about.
func (m *Machine) standsWords() string {
	if m.Stands == nil {
		return ""
	}
	if m.Stands.All == 0 {
		return fmt.Sprintf(" Nothing is on record up to %s.", m.Stands.On)
	}
	var late, perhaps []string
	for _, t := range m.Stands.Tasks {
		switch {
		case t.All.At.State == Late:
			late = append(late, spoken(t.Task))
		case t.All.Most == Late || t.All.Most == NotTold:
			perhaps = append(perhaps, spoken(t.Task))
		}
	}
	text := fmt.Sprintf(" On %s, by these records: ", m.Stands.On)
	if len(late) > 0 {
		text += someOf(late) + " overdue"
	} else {
		text += "nothing overdue"
	}
	if len(perhaps) > 0 {
		text += "; by its hours, which are not known, perhaps " + someOf(perhaps)
	}
	return text + "."
}

// missingWords name what is missing, by number: "record 3 is missing", "records 2 to 4
// are missing".
func (m *Machine) missingWords() string {
	var numbers []string
	many := false
	for _, f := range m.faultsOf(RecordMissing, ListMissing) {
		said := strconv.Itoa(int(f.Missing.Number))
		if since := f.Missing.Since; since > 0 && since < f.Missing.Number {
			said, many = fmt.Sprintf("%d to %d", since, f.Missing.Number), true
		}
		if !slices.Contains(numbers, said) {
			numbers = append(numbers, said)
		}
	}
	switch {
	case len(numbers) == 1 && !many:
		return "record " + numbers[0] + " is missing"
	case len(numbers) > 0:
		return "records " + someOf(numbers) + " are missing"
	case len(m.faultsOf(HeadMissing)) > 0:
		return "a later record is missing"
	case len(m.faultsOf(SubjectMissing)) > 0:
		return "a record that another speaks of is missing"
	}
	return ""
}

// overdueWords name the tasks that were run overdue, the longest first; those for
// which it was the same together.
func (m *Machine) overdueWords() string {
	var tasks []Task
	for _, t := range m.Tasks {
		if t.Overdue > 0 || t.At.State == Late || t.DoneLate() > 0 {
			tasks = append(tasks, t)
		}
	}
	slices.SortStableFunc(tasks, compareWork)
	var said, names []string
	for i, t := range tasks {
		names = append(names, spoken(t.ID))
		if i+1 < len(tasks) && tasks[i+1].overdueWords() == t.overdueWords() {
			continue
		}
		said = append(said, someOf(names)+" "+t.overdueWords())
		names = nil
	}
	return someOf(said)
}

func (t Task) overdueWords() string {
	switch {
	case t.Overdue > 0 && t.About:
		return fmt.Sprintf("run overdue for about %s of %s h", t.Overdue.Whole(), t.Run)
	case t.Overdue > 0:
		return fmt.Sprintf("run overdue for %s of %s h", t.Overdue, t.Run)
	default:
		return "overdue by date, with no hours run"
	}
}

func (m *Machine) count(what Counting) int {
	n := 0
	for i := range m.Entries {
		if m.Entries[i].Counts == what {
			n++
		}
	}
	return n
}

func (m *Machine) unknown() int {
	n := 0
	for i := range m.Entries {
		if !m.Entries[i].Signer.Known {
			n++
		}
	}
	return n
}

// signers are the reader's names of those whose records count, in the order of the
// records.
func (m *Machine) signers() []string {
	var names []string
	for _, i := range m.Counted {
		if name := m.SignerName(m.Entries[i].Root); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
}

func (m *Machine) ofRecords(n int, one, many string) string {
	verb := many
	if n == 1 {
		verb = one
	}
	return fmt.Sprintf("%d of %s %s", n, countOf(len(m.Entries), "record"), verb)
}

func itsTheir(n int) string {
	if n == 1 {
		return "its"
	}
	return "their"
}

func countsCount(n int) string {
	if n == 1 {
		return "counts"
	}
	return "count"
}

func oneOfThese(n int) string {
	if n == 1 {
		return "this record"
	}
	return fmt.Sprintf("any of these %d records", n)
}

// FaultWords say what a fault is, and what follows from it.
func (m *Machine) FaultWords(f Fault) string {
	entry := func(i int) string {
		e := &m.Entries[i]
		return fmt.Sprintf("record %d of %s (%s)", e.Record.Number, e.Record.Job.Date, shortID(e.ID))
	}
	switch f.Code {
	case LineBroken:
		return capital(m.brokenWords(f)) + ". Either one was put in the place of the other, or the yard went on from two copies of its folder: which, only the yard can say."
	case ParallelChains:
		return "These are chains that do not know of each other: more than one yard serviced the machine, and no record cites the others'. Their work is put together by date; a yard that did not know of the other's decides nothing about it."
	case RecordMissing:
		return fmt.Sprintf("Record %d is missing: id %s, of %s at %s h, as record %d cites it. What was done there, and what was put off, is not known.",
			f.Missing.Number, shortID(f.Missing.ID), f.Missing.Point.Date, f.Missing.Point.Hours, m.Entries[f.Entry].Record.Number)
	case NumberOdd:
		return fmt.Sprintf("%s follows %s: the numbers do not go on by one. Ask the yard.", capital(entry(f.Entry)), entry(f.Other))
	case CitationOdd:
		return fmt.Sprintf("%s says that the one before it is of %s at %s h; that one says %s at %s h. Ask the yard.", capital(entry(f.Entry)), f.To.Date, f.To.Hours, f.From.Date, f.From.Hours)
	case CitesLater:
		return fmt.Sprintf("%s cites a record of %s: it was written after that, as late paperwork is.", capital(entry(f.Entry)), f.From.Date)
	case CitesIssued:
		return fmt.Sprintf("%s was issued earlier, by its own word, than %s, which it cites: one of the two clocks was wrong, so its date says little.", capital(entry(f.Entry)), entry(f.Other))
	case CitesOther:
		return fmt.Sprintf("%s follows a record of another machine (%s): ask the yard why.", capital(entry(f.Entry)), shortID(f.Missing.ID))
	case PageNotOriginal:
		return fmt.Sprintf("The page on which %s came is not the original (%s): go by the record, not by what the page shows.", entry(f.Entry), someOf(m.Entries[f.Entry].NotOriginal))
	case TakenBackLate:
		return "By what was taken back something was overdue that is not so by what stands now: ask what showed that it was wrong."
	case TakenBack:
		by := m.Entries[f.Entry].By
		done := map[record.Kind]string{record.Correction: "corrected", record.Void: "voided"}[by.Kind]
		return fmt.Sprintf("%s was %s on %s by its own signer (%s): %s. It is shown, and counts no more.", capital(entry(f.Entry)), done, by.Date, shortID(by.ID), strings.TrimRight(by.Why, "."))
	case ForeignTakeback:
		return fmt.Sprintf("%s takes back a record of another signer (%s). Nobody can do that: the other record stands.", capital(entry(f.Entry)), shortID(f.Missing.ID))
	case SubjectMissing:
		return fmt.Sprintf("%s speaks of a record that is missing (%s).", capital(entry(f.Entry)), shortID(f.Missing.ID))
	case SubjectElsewhere:
		return fmt.Sprintf("%s corrects a record that is not here (%s); it may be of another machine, to which the job was booked.", capital(entry(f.Entry)), shortID(f.Missing.ID))
	case ListMissing:
		return fmt.Sprintf("Record %d (%s) is missing: the list that %s signed, of %s, names it.", f.Missing.Number, shortID(f.Missing.ID), m.SignerName(f.Signer), f.Date)
	case ListLacks:
		return fmt.Sprintf("%s is not in the list of all records that %s signed, of %s: ask why.", capital(entry(f.Entry)), m.SignerName(f.Signer), f.Date)
	case HeadMissing:
		return fmt.Sprintf("The record with id %s is missing: the ledger line of %s names it as the last of the machine's.", shortID(f.Missing.ID), f.Date)
	case HeadLacks:
		return fmt.Sprintf("%s says that it was issued before the ledger line of %s, which does not hold it: it was written later than it says.", capital(entry(f.Entry)), f.Date)
	case HeadNotProved:
		return fmt.Sprintf("The ledger line of %s says nothing of this machine without its path: ask the yard for hourseal ledger path.", f.Date)
	case SeenTooEarly:
		return fmt.Sprintf("By your own log you had %s on %s, and it says that it was issued on %s: one of the two is wrong, so the log shows nothing here.", entry(f.Entry), f.Date, issuedOn(m.Entries[f.Entry].Record))
	case HoursUnlike:
		return fmt.Sprintf("You gave %s h for %s; by the records it was %s: one of them is wrong.", f.To.Hours, f.Date, m.Stands.Hours.allowed())
	case HoursBack:
		return fmt.Sprintf("The hours go back: %s h on %s, then %s h on %s, with no change of meter. What was run between cannot be told.", f.From.Hours, f.From.Date, f.To.Hours, f.To.Date)
	case HoursTooFast:
		return fmt.Sprintf("From %s to %s the hours rose from %s to %s, more than the clock allows. One of the readings is wrong.", f.From.Date, f.To.Date, f.From.Hours, f.To.Hours)
	case OffsetOdd:
		return fmt.Sprintf("From %s to %s the hours in total and what the meter reads move apart, with no change of meter.", f.From.Date, f.To.Date)
	case MeterUnknown:
		return fmt.Sprintf("The meter was changed by %s, and what the removed one read is not known: the hours in total are the least that they can be.", m.Entries[f.Entry].Record.Job.Date)
	case IssuedLate:
		return fmt.Sprintf("%s was issued on %s, %d days after the work.", capital(entry(f.Entry)), f.Date, f.Date.Sub(m.Entries[f.Entry].Record.Job.Date))
	}
	return string(f.Code)
}

// TailWords say where a chain ends.
func (m *Machine) TailWords(c Chain) string {
	text := fmt.Sprintf("Ends at record %d of %s (%s)", c.Tail.Number, c.Tail.Date, shortID(c.Tail.ID))
	for _, f := range m.faultsOf(ListMissing) {
		if f.Missing.Number > c.Tail.Number && slices.Contains(c.Signers, f.Signer) {
			return fmt.Sprintf("%s, as far as it is here; the list that %s signed, of %s, names record %d as the last.", text, m.SignerName(f.Signer), f.Date, f.Missing.Number)
		}
	}
	switch b := c.Tail.Bounded; {
	case b == nil:
		return text + "; later records cannot be excluded. Ask for a signed list of all records."
	case b.By == "head":
		return fmt.Sprintf("%s; by the ledger line, it was the last on %s. What came after cannot be told.", text, b.Until)
	default:
		return fmt.Sprintf("%s; %s signed that it holds no other of this machine until %s. What came after, and what others hold, cannot be told.", text, m.nameOf(b.Signer), b.Until)
	}
}

func (m *Machine) nameOf(s verify.Signer) string {
	if s.Known {
		return s.Trusted.Name
	}
	return "somebody you do not know"
}

// Words say how a point lies to due: "37 h and 12 days past due".
func (r Reached) Words() string {
	var parts []string
	past := false
	if r.Hours != nil {
		past = *r.Hours > 0
	}
	if r.Days != nil && *r.Days > 0 {
		past = true
	}
	part := func(text string, n int64) {
		if !past {
			if n != 0 {
				parts = append(parts, text)
			}
		} else if n > 0 {
			parts = append(parts, text)
		}
	}
	if r.Hours != nil {
		part(r.hoursWords(), int64(*r.Hours))
	}
	if r.Days != nil {
		part(countOf(int(magnitude(*r.Days)), "day"), int64(*r.Days))
	}
	switch {
	case r.Hours == nil && r.Days == nil:
		return "not known"
	case len(parts) == 0, !past && r.State == InGrace:
		return "on the due point"
	case past:
		return strings.Join(parts, " and ") + " past due"
	default:
		return strings.Join(parts, " and ") + " before due"
	}
}

// hoursWords are the hours from due; those that were worked out have no hundredths.
func (r Reached) hoursWords() string {
	hours := magnitude(*r.Hours)
	if r.About {
		return "about " + hours.Whole().String() + " h"
	}
	return hours.String() + " h"
}

func magnitude[T quantity.Hours | quantity.Days](n T) T {
	if n < 0 {
		return -n
	}
	return n
}
