package history

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

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
			return e.Signer.Standing.Trusted.Name
		}
	}
	for _, l := range m.Lists {
		if l.Signer.Root() == root && l.Signer.Known {
			return l.Signer.Standing.Trusted.Name
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
	other, untried := m.pagesInDoubt()
	if other > 0 {
		said = append(said, fmt.Sprintf("the page of %s is not the original", countOf(other, "record")))
	}
	if untried > 0 {
		said = append(said, fmt.Sprintf("what the page of %s says was not compared with what was signed", countOf(untried, "record")))
	}
	if over := m.overdueWords(); over != "" {
		said = append(said, over)
	}
	if len(said) == 0 {
		said = append(said, "nothing recorded as overdue")
	}
	if len(m.faultsOf(TakenBackLate)) > 0 {
		said = append(said, "something was, by what was taken back since")
	}
	if n := m.untold(); n == 1 {
		said = append(said, "1 thing does not fit, told below")
	} else if n > 1 {
		said = append(said, fmt.Sprintf("%d things do not fit, told below", n))
	}
	return who + ": " + strings.Join(said, "; ") + "." + m.takenBackWords() + m.standsWords() + nobodyChecked
}

// told are the faults that the sentence has words for.
var told = []FaultCode{LineBroken, ParallelChains, RecordMissing, ListMissing, HeadMissing, SubjectMissing, HoursBack, HoursTooFast, PageNotOriginal, TakenBackLate}

// untold is how many faults decide something and are not in the sentence, which must
// not sound cleaner than the exit code.
func (m *Machine) untold() int {
	n := 0
	for _, f := range m.Faults {
		if f.ExitCode() != 0 && !slices.Contains(told, f.Code) {
			n++
		}
	}
	return n
}

// pageInDoubt says whether a page that the record came on is not, or is not shown to
// be, its own.
func (e *Entry) pageInDoubt() bool { return len(e.NotOriginal)+len(e.NotCompared) > 0 }

// pagesInDoubt counts the records that came on a page which is another, and those that
// came on one which was not compared. A record that came on both is in both.
func (m *Machine) pagesInDoubt() (other, untried int) {
	for _, f := range m.faultsOf(PageNotOriginal) {
		e := &m.Entries[f.Entry]
		other += min(len(e.NotOriginal), 1)
		untried += min(len(e.NotCompared), 1)
	}
	return other, untried
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
	var late, shown, perhaps []string
	for _, t := range m.Stands.Tasks {
		if t.Shown.At.State == Late && t.All.At.State != Late {
			shown = append(shown, spoken(t.Task))
		}
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
	if len(shown) > 0 {
		text += "; by those that are shown to have existed by then, " + someOf(shown) + " overdue"
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
		return "a record that a ledger line names is not here"
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
		if late := t.lateByHours(); late != nil {
			return "overdue, " + late.Words()
		}
		return "overdue by date, with no hours run"
	}
}

// lateByHours is how far past due by hours the task was last found to be overdue; nil
// where it was by date alone. The hours that ran so may lie before the records.
func (t Task) lateByHours() *Reached {
	found := []Reached{t.At}
	for _, d := range slices.Backward(t.Done) {
		found = append(found, d.When)
	}
	for i, r := range found {
		if r.State == Late && r.Hours != nil && *r.Hours > 0 {
			return &found[i]
		}
	}
	return nil
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

// Tails are the chains of which the end is told: those whose last record is by
// somebody whom the reader knows, or all where there is none.
func (m *Machine) Tails() []Chain {
	var tails []Chain
	for _, c := range m.Chains {
		if c.Heard {
			tails = append(tails, c)
		}
	}
	if len(tails) == 0 {
		return m.Chains
	}
	return tails
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
		return s.Standing.Trusted.Name
	}
	return "somebody you do not know"
}
