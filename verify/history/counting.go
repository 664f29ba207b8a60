package history

import (
	"slices"

	"hourseal/record"
	"hourseal/sign"
)

// KeyCounts says whether the reader knows the signer, and the key was valid for the
// record's date; whatever was said of the record since.
func (e *Entry) KeyCounts() bool { return e.Counts != NotKnown && e.Counts != KeyNotValid }

// Heard says whether the record is by somebody whom the reader knows: what it cites, and
// where it ends a chain, is told, even where its key does not count. Anybody can make
// another.
func (e *Entry) Heard() bool { return e.Counts != NotKnown }

// judgeKeys says of every record whether its signer counts.
func (m *Machine) judgeKeys(in Input) {
	for i := range m.Entries {
		e := &m.Entries[i]
		switch {
		case in.trustsNobody():
			e.Counts = Counts
		case !e.Signer.Known:
			e.Counts = NotKnown
		case !e.keyValid():
			e.Counts = KeyNotValid
		default:
			e.Counts = Counts
		}
	}
}

// judgeCounting takes out of those that count what was corrected or voided, by its
// own signer, and what is no service.
func (m *Machine) judgeCounting(in Input, g *graph) {
	for i := range m.Entries {
		e := &m.Entries[i]
		if e.Counts == Counts && e.Record.Kind != record.Service && e.Record.Kind != record.Correction {
			e.Counts = SpeaksOfAnother
		}
	}
	for _, by := range g.all.takingBack {
		i := g.placeOf(by.Record.Subject.Record)
		if i < 0 || m.Entries[i].Root != by.Root {
			continue
		}
		if own := g.placeOf(by.ID); own >= 0 {
			by = &m.Entries[own] // which knows when it is shown to exist
		} else if had, ok := in.Received[by.ID]; ok && had >= issuedOn(by.Record) {
			copied := *by
			copied.Exists.NotAfter = &Bound{Date: had, Because: ReceivedOn, Entry: -1}
			by = &copied
		}
		e := &m.Entries[i]
		if !e.KeyCounts() || !in.trustsNobody() && !(by.Signer.Known && by.keyValid()) {
			continue
		}
		counts := Voided
		if by.Record.Kind == record.Correction {
			counts = Corrected
		}
		// The word in the machine's own chain stands, which is where a reader looks.
		if own := g.placeOf(by.ID) >= 0; e.By == nil || own || g.placeOf(e.By.ID) < 0 {
			e.Counts, e.By = counts, &Takeback{by.ID, by.Record.Kind, by.Record.Job.Date, by.Record.Subject.Why}
			if by.Record.Kind == record.Correction { // its job's day is that of the work
				e.By.Date = issuedOn(by.Record)
			}
		}
	}
}

// placeOf is the place of a record in Entries, -1 where it is not here.
func (m *Machine) placeOf(id record.ID) int {
	return slices.IndexFunc(m.Entries, func(e Entry) bool { return e.ID == id })
}

// counted are the places of the records that count, by date, hours, number and id.
func (m *Machine) counted() []int {
	var places []int
	for i := range m.Entries {
		if m.Entries[i].Counts == Counts {
			places = append(places, i)
		}
	}
	slices.SortFunc(places, func(a, b int) int { return compareAge(&m.Entries[a], &m.Entries[b]) })
	return places
}

// keyValid says whether a known key counts for the record's date, with what is shown
// of when the record existed.
func (e *Entry) keyValid() bool {
	var latest *sign.Day
	if e.Exists.NotAfter != nil {
		latest = new(sign.Day(e.Exists.NotAfter.Date))
	}
	judged := sign.Judge(e.Signer.Standing, sign.DayOf(e.Record.IssuedAt), latest)
	return judged == sign.Good || judged == sign.GoodSaySo
}

// compareTakenBack works the tasks out once more with what was taken back in the place
// of what took it back. Where something was overdue by that only, a person has to look:
// nobody improves a history in silence.
func (m *Machine) compareTakenBack() {
	if m.OverdueRun() {
		return
	}
	before := Machine{Entries: slices.Clone(m.Entries)}
	taken := false
	for i := range before.Entries {
		e := &before.Entries[i]
		if e.By == nil {
			continue
		}
		taken = true
		if at := before.placeOf(e.By.ID); at >= 0 && before.Entries[at].Counts == Counts {
			before.Entries[at].Counts = SpeaksOfAnother
		}
	}
	if !taken {
		return
	}
	for i := range before.Entries {
		if e := &before.Entries[i]; e.By != nil && (e.Record.Kind == record.Service || e.Record.Kind == record.Correction) {
			e.Counts = Counts
		}
	}
	before.Counted = before.counted()
	before.adherence()
	if before.OverdueRun() {
		m.Faults = append(m.Faults, Fault{Code: TakenBackLate, Entry: -1, Other: -1})
		slices.SortStableFunc(m.Faults, byWeight)
	}
}
