package history

import (
	"fmt"
	"strings"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// NotShown is what no history shows.
var NotShown = []string{
	"That the work was done, or done well; that the meters were true.",
	"That no record is missing at the end, or was never made. Ask each yard for a signed list of all records that it holds.",
	"That lateness caused anything. The maker's handbook governs.",
}

// NowWords say where a task stood at the last record that counts.
func (t Task) NowWords() string {
	switch {
	case t.Now == nil:
		return "not known"
	case t.Now.Due == (schedule.Due{}):
		return "nothing more falls due"
	}
	if t.Now.Stated {
		return "no record of it; counted from the statement, " + t.At.Words()
	}
	if t.Now.Before {
		return "no record of it; counted from entry into service, " + t.At.Words()
	}
	switch t.At.State {
	case Late:
		return "overdue: " + t.At.Words()
	case InGrace:
		return "due, within grace: " + t.At.Words()
	default:
		return t.At.Words()
	}
}

// Words say where a task stood.
func (s Stood) Words() string {
	switch {
	case s.Was == nil:
		return "not known: no record of it"
	case s.Was.Due == (schedule.Due{}):
		return "nothing more falls due"
	}
	if s.Was.Stated {
		return "not known: counted from a statement"
	}
	if s.Was.Before {
		return "not known: counted from entry into service"
	}
	text := map[Adherence]string{Late: "overdue, ", InGrace: "due, within grace, "}[s.At.State] + s.At.Words()
	at := func(state Adherence, hours string) string {
		return "; " + map[Adherence]string{Late: "overdue", InGrace: "within grace", Inside: "before due"}[state] + ", if it had the " + hours + " hours that the records allow"
	}
	if s.Least != "" {
		text += at(s.Least, "fewest")
	}
	switch s.Most {
	case "":
		return text
	case NotTold:
		return text + " at the fewest hours; how many it had is not known"
	default:
		return text + at(s.Most, "most")
	}
}

// Words say what is known of the hours.
func (h HoursOn) Words() string {
	switch {
	case h.Unlike():
		return fmt.Sprintf("At %s h, as you gave it; by the records it was %s: one of them is wrong.", *h.At, h.allowed())
	case h.Given:
		return fmt.Sprintf("At %s h, as you gave it.", *h.At)
	case h.Low == nil && h.High == nil:
		return "Its hours on that day are not known: no record is near."
	case h.Low == nil:
		return fmt.Sprintf("Its hours on that day are not known: %s h at most.", *h.High)
	case h.High == nil:
		return fmt.Sprintf("Its hours on that day are not known: %s h at least.", *h.Low)
	case h.Read:
		return fmt.Sprintf("At %s h, as read on that day.", *h.At)
	case *h.Low == *h.High:
		return fmt.Sprintf("At %s h, as read before and after.", *h.At)
	default:
		return fmt.Sprintf("At about %s h, in a straight line between the readings before and after, of all records; from %s to %s h by those.", h.At.Whole(), *h.Low, *h.High)
	}
}

// allowed is what the records allow of the hours.
func (h HoursOn) allowed() string {
	switch {
	case h.Low == nil:
		return fmt.Sprintf("%s h at most", *h.High)
	case h.High == nil:
		return fmt.Sprintf("%s h at least", *h.Low)
	default:
		return fmt.Sprintf("%s to %s h", *h.Low, *h.High)
	}
}

// WaitWords say what was put off, for how long, on what advice and whose decision.
func (m *Machine) WaitWords(w Wait) string {
	what := "put off"
	if w.Result == record.Defect {
		what = "found and left"
	}
	text := fmt.Sprintf("%s on %s at %s h", what, w.Since.Date, w.Since.Hours)
	if n := len(w.Entries); n > 1 {
		text += fmt.Sprintf(", and again in %s", countOf(n-1, "record"))
	}
	if a := w.Answer; a != nil {
		var said []string
		if a.Why != "" {
			said = append(said, a.Why)
		}
		if a.Advice != 0 {
			said = append(said, "advice: "+spoken(a.Advice.String()))
		}
		if a.Owner != 0 {
			said = append(said, "owner: "+a.Owner.String())
		}
		if len(said) > 0 {
			text += " (" + strings.Join(said, "; ") + ")"
		}
	}
	long := fmt.Sprintf("%s h and %s", w.Ran, countOf(int(w.Took), "day"))
	if w.Until != nil {
		return fmt.Sprintf("%s; done on %s, %s later.", text, w.Until.Date, long)
	}
	return fmt.Sprintf("%s; no record of it being done, %s to the last record.", text, long)
}

// CountsWords say what a record counts for, where that is not simply all it says.
func (m *Machine) CountsWords(e *Entry) string {
	var said []string
	by := ""
	if e.By != nil {
		by = m.recordName(e.By.ID)
	}
	switch e.Counts {
	case Corrected:
		said = append(said, "corrected by "+by)
	case Voided:
		said = append(said, "voided by "+by)
	case NotKnown:
		said = append(said, "counts for nothing, signer not known")
	case KeyNotValid:
		said = append(said, "counts for nothing, key not valid for its date")
	}
	if s := e.Record.Subject; s != nil {
		verb := map[record.Kind]string{record.Addendum: "adds to ", record.Correction: "corrects ", record.Void: "voids "}[e.Record.Kind]
		said = append(said, fmt.Sprintf("%s%s: %q", verb, m.recordName(s.Record), s.Why))
	}
	if len(e.NotOriginal) > 0 {
		said = append(said, "the page it came on is not the original")
	}
	if len(e.NotCompared) > 0 {
		said = append(said, "the page it came on was not compared with it")
	}
	return strings.Join(said, "; ")
}

// ExistsWords say by when a record is shown to have existed, and by whom; "" where
// there is only its own word.
func (m *Machine) ExistsWords(e *Entry) string {
	b := e.Exists.NotAfter
	if b == nil {
		return ""
	}
	text := fmt.Sprintf("shown to exist by %s: ", b.Date)
	switch b.Because {
	case ReceivedOn:
		return text + "by your log of receipt"
	case InHead:
		return text + "by the ledger line"
	default:
		by := &m.Entries[b.Entry]
		return text + fmt.Sprintf("record %d of %s cites it", by.Record.Number, m.SignerName(by.Root))
	}
}

// recordName names a record by its number where it is one of this machine's, or else
// by its id.
func (m *Machine) recordName(id record.ID) string {
	for i := range m.Entries {
		if m.Entries[i].ID == id {
			return fmt.Sprintf("record %d", m.Entries[i].Record.Number)
		}
	}
	return "record " + shortID(id)
}

// Schedules are all that the tasks were judged by, oldest first.
func (m *Machine) Schedules() []ScheduleUsed {
	var list []ScheduleUsed
	for _, i := range m.Counted {
		e := &m.Entries[i]
		if n := len(list); n == 0 || list[n-1].ScheduleRef != e.Record.Schedule {
			list = append(list, ScheduleUsed{e.Record.Schedule, e.Point()})
		}
	}
	return list
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
