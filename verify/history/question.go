package history

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"hourseal/record"
	"hourseal/record/quantity"
)

// Question is something worth asking the yard or the seller. It names no person and
// accuses nobody: a pattern may have an ordinary cause.
type Question struct {
	Code    string // stable: it stands in the JSON
	Text    string
	Entries []int // the records that it is made from
}

// MostQuestions is how many are put on the first page.
const MostQuestions = 5

// askers make the questions, the weightiest first; each at most one.
var askers = []func(*Machine) *Question{
	askMissing, askBroken, askTakenBack, askHoursBack, askHoursFast, askCopied, askPartTwice, askOilUse, askNoMeter, askWaiting, askIssuedLate,
}

func (m *Machine) ask() {
	for _, asker := range askers {
		if q := asker(m); q != nil && len(m.Questions) < MostQuestions {
			m.Questions = append(m.Questions, *q)
		}
	}
}

// faultsOf are the faults of some codes.
func (m *Machine) faultsOf(codes ...FaultCode) []Fault {
	var found []Fault
	for _, f := range m.Faults {
		if slices.Contains(codes, f.Code) {
			found = append(found, f)
		}
	}
	return found
}

func askMissing(m *Machine) *Question {
	var numbers []string
	var entries []int
	for _, f := range m.faultsOf(RecordMissing, ListMissing, HeadMissing, SubjectMissing) {
		said := fmt.Sprintf("record %d (%s)", f.Missing.Number, shortID(f.Missing.ID))
		if f.Missing.Number == 0 {
			said = "the record with id " + shortID(f.Missing.ID)
		}
		if !slices.Contains(numbers, said) {
			numbers = append(numbers, said)
		}
		if f.Entry >= 0 {
			entries = append(entries, f.Entry)
		}
	}
	if len(numbers) == 0 {
		return nil
	}
	return &Question{"missing", fmt.Sprintf("May I have %s, which the others name and I do not have?", someOf(numbers)), entries}
}

func askBroken(m *Machine) *Question {
	faults := m.faultsOf(LineBroken)
	if len(faults) == 0 {
		return nil
	}
	var entries []int
	for _, i := range []int{faults[0].Other, faults[0].Entry} {
		if i >= 0 {
			entries = append(entries, i)
		}
	}
	return &Question{"two-of-one-number", fmt.Sprintf("There are two different records number %d: which of them holds, and how did the other come about?", faults[0].Missing.Number), entries}
}

// askTakenBack asks about what was corrected or voided and told of something overdue.
func askTakenBack(m *Machine) *Question {
	if len(m.faultsOf(TakenBackLate)) == 0 {
		return nil
	}
	var said []string
	var entries []int
	for i := range m.Entries {
		if e := &m.Entries[i]; e.By != nil {
			said = append(said, fmt.Sprintf("record %d of %s (%q)", e.Record.Number, e.Record.Job.Date, e.By.Why))
			entries = append(entries, i)
		}
	}
	return &Question{"taken-back", "What showed that this was wrong, that it was taken back: " + someOf(said) + "?", entries}
}

func askHoursBack(m *Machine) *Question {
	faults := m.faultsOf(HoursBack, OffsetOdd)
	if len(faults) == 0 {
		return nil
	}
	f := faults[0]
	return &Question{"hours-go-back", fmt.Sprintf("%s on %s, %s on %s, and no change of meter is on record: was one made?",
		f.From.Hours.String()+" h", f.From.Date, f.To.Hours.String()+" h", f.To.Date), []int{f.Other, f.Entry}}
}

func askHoursFast(m *Machine) *Question {
	faults := m.faultsOf(HoursTooFast)
	if len(faults) == 0 {
		return nil
	}
	f := faults[0]
	return &Question{"hours-faster-than-clock", fmt.Sprintf("From %s to %s the hours rose by %s, more than there are between the two dates: which reading was wrong?",
		f.From.Date, f.To.Date, (f.To.Hours-f.From.Hours).String()+" h"), []int{f.Other, f.Entry}}
}

// inARow is how many times in a row the same volume at the same temperature is more
// than chance would make likely to a person who measures. Common practice, no source.
const inARow = 3

// askCopied asks about the same drained volume at the same temperature, record after
// record. What was filled may come in cans; what comes out does not.
func askCopied(m *Machine) *Question {
	same := map[string][]int{} // by system: a run of places with the same figures
	last := map[string]string{}
	for _, i := range m.Counted {
		for _, f := range m.Entries[i].Record.Fluids {
			if f.Drained == nil || !measuredWarm(*f.Drained) {
				continue
			}
			text := f.Drained.String()
			if last[f.System] != text {
				same[f.System], last[f.System] = nil, text
			}
			same[f.System] = append(same[f.System], i)
			if n := len(same[f.System]); n >= inARow {
				if next := m.drainedNext(i, f.System); next == text {
					continue // the run goes on
				}
				var dates []string
				for _, at := range same[f.System] {
					dates = append(dates, m.Entries[at].Record.Job.Date.String())
				}
				return &Question{"same-figures", fmt.Sprintf("%s of %s drained, each time the same, on %s: was it measured each time?",
					degrees(text), spoken(f.System), someOf(dates)), same[f.System]}
			}
		}
	}
	return nil
}

// drainedNext is what the next record that counts says was drained of a system.
func (m *Machine) drainedNext(place int, system string) string {
	at := slices.Index(m.Counted, place)
	for _, i := range m.Counted[at+1:] {
		for _, f := range m.Entries[i].Record.Fluids {
			if f.System == system && f.Drained != nil {
				return f.Drained.String()
			}
		}
	}
	return ""
}

// measuredWarm says whether an amount was measured with its temperature.
func measuredWarm(m quantity.Measured) bool {
	return len(m.Portions) > 0 && !slices.ContainsFunc(m.Portions, func(p quantity.Portion) bool { return p.At == nil })
}

// askPartTwice asks about one part's own serial number in two records.
func askPartTwice(m *Machine) *Question {
	type fitted struct{ item, serial string }
	first := map[fitted]int{}
	for _, i := range m.Counted {
		for _, p := range m.Entries[i].Record.Parts {
			if p.Serial == "" {
				continue
			}
			key := fitted{p.Item, p.Serial}
			if at, twice := first[key]; twice && at != i {
				return &Question{"part-twice", fmt.Sprintf("%s with serial number %s is in the records of %s and %s: was it fitted twice?", capital(p.Item), p.Serial,
					m.Entries[at].Record.Job.Date, m.Entries[i].Record.Job.Date), []int{at, i}}
			}
			first[key] = i
		}
	}
	return nil
}

// oilTimes is how many times the usual an oil use is asked about, usualOf how many
// figures make a usual one. Common practice, no source.
const (
	oilTimes = 4
	usualOf  = 3
)

// askOilUse asks where oil used contradicts the hours run: much more in a hundred
// hours than is usual for the machine, beyond what the measuring allows.
func askOilUse(m *Machine) *Question {
	type use struct {
		place       int
		used, least quantity.Volume
		over        quantity.Hours
		per100      int64
	}
	uses := map[string][]use{}
	var systems []string
	for _, i := range m.Counted {
		for _, f := range m.Entries[i].Record.Fluids {
			b := f.Balance
			if b == nil || b.Used == nil || b.Over <= 0 {
				continue
			}
			if !slices.Contains(systems, f.System) {
				systems = append(systems, f.System)
			}
			uses[f.System] = append(uses[f.System], use{i, b.Used.Volume, b.Used.Volume - b.Used.Within, b.Over, int64(b.Used.Volume) * 100 * int64(quantity.Hour) / int64(b.Over)})
		}
	}
	for _, system := range systems {
		list := uses[system]
		if len(list) < usualOf {
			continue
		}
		rates := make([]int64, len(list))
		for i, u := range list {
			rates[i] = u.per100
		}
		slices.Sort(rates)
		usual := max(rates[(len(rates)-1)/2], 1)
		for _, u := range list {
			if least := int64(u.least) * 100 * int64(quantity.Hour) / int64(u.over); least > oilTimes*usual {
				return &Question{"oil-use", fmt.Sprintf("On %s %s of %s had been used in %s, where %s in 100 h is usual: were more hours run than the meter shows?",
					m.Entries[u.place].Record.Job.Date, u.used.Hundredths(), spoken(system), u.over.String()+" h", quantity.Volume(usual).Hundredths()), []int{u.place}}
			}
		}
	}
	return nil
}

func askNoMeter(m *Machine) *Question {
	faults := m.faultsOf(MeterUnknown)
	if len(faults) == 0 {
		return nil
	}
	return &Question{"removed-reading-unknown", fmt.Sprintf("What did the meter read that was taken off by %s? Until that is known the hours in total are the least that they can be.",
		m.Entries[faults[0].Entry].Record.Job.Date), []int{faults[0].Entry}}
}

// askWaiting asks about what was put off, or found and left, without an end.
func askWaiting(m *Machine) *Question {
	var waiting []string
	var entries []int
	for _, t := range m.Tasks {
		for _, w := range t.Waits {
			if w.Until != nil {
				continue
			}
			what := "put off"
			if w.Result == record.Defect {
				what = "found and left"
			}
			waiting = append(waiting, fmt.Sprintf("%s, %s on %s", t.Title, what, w.Since.Date))
			entries = append(entries, w.Entries...)
		}
	}
	if len(waiting) == 0 {
		return nil
	}
	slices.Sort(entries)
	return &Question{"waiting", fmt.Sprintf("There is no record of the end of this: %s. What was done, and when?", strings.Join(waiting, "; ")), slices.Compact(entries)}
}

// askIssuedLate asks about reports that were written long after the work.
func askIssuedLate(m *Machine) *Question {
	faults := m.faultsOf(IssuedLate)
	if len(faults) == 0 {
		return nil
	}
	slices.SortFunc(faults, func(a, b Fault) int { return cmp.Compare(a.Entry, b.Entry) })
	var said []string
	var entries []int
	for _, f := range faults {
		said = append(said, fmt.Sprintf("of %s on %s", m.Entries[f.Entry].Record.Job.Date, f.Date))
		entries = append(entries, f.Entry)
	}
	return &Question{"issued-long-after", "Why was the report issued so long after the work, that " + someOf(said) + "?", entries}
}
