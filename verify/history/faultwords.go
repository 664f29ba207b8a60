package history

import (
	"fmt"
	"strings"

	"hourseal/record"
)

// FaultWords say what a fault is, and what follows from it.
func (m *Machine) FaultWords(f Fault) string {
	if words, known := faultWords[f.Code]; known {
		return words(m, f)
	}
	return string(f.Code)
}

// entryName names a record: "record 3 of 2026-05-04 (8cc2 ea9b ca8e ee33)".
func (m *Machine) entryName(i int) string {
	e := &m.Entries[i]
	return fmt.Sprintf("record %d of %s (%s)", e.Record.Number, e.Record.Job.Date, shortID(e.ID))
}

var faultWords = map[FaultCode]func(*Machine, Fault) string{
	LineBroken: func(m *Machine, f Fault) string {
		return capital(m.brokenWords(f)) + ". Either one was put in the place of the other, or the yard went on from two copies of its folder: which, only the yard can say."
	},
	ParallelChains: func(m *Machine, f Fault) string {
		return "These are chains that do not know of each other: more than one yard serviced the machine, and no record cites the others'. Their work is put together by date; a yard that did not know of the other's decides nothing about it."
	},
	RecordMissing: func(m *Machine, f Fault) string {
		return fmt.Sprintf("Record %d is missing: id %s, of %s at %s h, as record %d cites it. What was done there, and what was put off, is not known.",
			f.Missing.Number, shortID(f.Missing.ID), f.Missing.Point.Date, f.Missing.Point.Hours, m.Entries[f.Entry].Record.Number)
	},
	NumberOdd: func(m *Machine, f Fault) string {
		return fmt.Sprintf("%s follows %s: the numbers do not go on by one. Ask the yard.", capital(m.entryName(f.Entry)), m.entryName(f.Other))
	},
	CitationOdd: func(m *Machine, f Fault) string {
		return fmt.Sprintf("%s says that the one before it is of %s at %s h; that one says %s at %s h. Ask the yard.", capital(m.entryName(f.Entry)), f.To.Date, f.To.Hours, f.From.Date, f.From.Hours)
	},
	CitesLater: func(m *Machine, f Fault) string {
		return fmt.Sprintf("%s cites a record of %s: it was written after that, as late paperwork is.", capital(m.entryName(f.Entry)), f.From.Date)
	},
	CitesIssued: func(m *Machine, f Fault) string {
		return fmt.Sprintf("%s was issued earlier, by its own word, than %s, which it cites: one of the two clocks was wrong, so its date says little.", capital(m.entryName(f.Entry)), m.entryName(f.Other))
	},
	CitesOther: func(m *Machine, f Fault) string {
		return fmt.Sprintf("%s follows a record of another machine (%s): ask the yard why.", capital(m.entryName(f.Entry)), shortID(f.Missing.ID))
	},
	PageNotOriginal: func(m *Machine, f Fault) string {
		e := &m.Entries[f.Entry]
		var said []string
		if len(e.NotOriginal) > 0 {
			said = append(said, fmt.Sprintf("The page on which %s came is not the original (%s)", m.entryName(f.Entry), someOf(e.NotOriginal)))
		}
		if len(e.NotCompared) > 0 {
			said = append(said, fmt.Sprintf("What the page on which %s came says was not compared with what was signed (%s)", m.entryName(f.Entry), someOf(e.NotCompared)))
		}
		return strings.Join(said, ". ") + ": go by the record, not by what the page shows."
	},
	TakenBackLate: func(m *Machine, f Fault) string {
		return "By what was taken back something was overdue that is not so by what stands now: ask what showed that it was wrong."
	},
	TakenBack: func(m *Machine, f Fault) string {
		by := m.Entries[f.Entry].By
		done := map[record.Kind]string{record.Correction: "corrected", record.Void: "voided"}[by.Kind]
		return fmt.Sprintf("%s was %s on %s by its own signer (%s): %s. It is shown, and counts no more.", capital(m.entryName(f.Entry)), done, by.Date, shortID(by.ID), strings.TrimRight(by.Why, "."))
	},
	ForeignTakeback: func(m *Machine, f Fault) string {
		return fmt.Sprintf("%s takes back a record of another signer (%s). Nobody can do that: the other record stands.", capital(m.entryName(f.Entry)), shortID(f.Missing.ID))
	},
	SubjectMissing: func(m *Machine, f Fault) string {
		return fmt.Sprintf("%s speaks of a record that is missing (%s).", capital(m.entryName(f.Entry)), shortID(f.Missing.ID))
	},
	SubjectElsewhere: func(m *Machine, f Fault) string {
		return fmt.Sprintf("%s corrects a record that is not here (%s); it may be of another machine, to which the job was booked.", capital(m.entryName(f.Entry)), shortID(f.Missing.ID))
	},
	ListMissing: func(m *Machine, f Fault) string {
		return fmt.Sprintf("Record %d (%s) is missing: the list that %s signed, of %s, names it.", f.Missing.Number, shortID(f.Missing.ID), m.SignerName(f.Signer), f.Date)
	},
	ListLacks: func(m *Machine, f Fault) string {
		return fmt.Sprintf("%s is not in the list of all records that %s signed, of %s: ask why.", capital(m.entryName(f.Entry)), m.SignerName(f.Signer), f.Date)
	},
	HeadMissing: func(m *Machine, f Fault) string {
		return fmt.Sprintf("The record with id %s is not here: the ledger line of %s has it as the last of a chain. It may be of this machine: ask the yard.", shortID(f.Missing.ID), f.Date)
	},
	HeadLacks: func(m *Machine, f Fault) string {
		return fmt.Sprintf("%s says that it was issued before the ledger line of %s, which does not hold it: it was written later than it says.", capital(m.entryName(f.Entry)), f.Date)
	},
	HeadNotProved: func(m *Machine, f Fault) string {
		return fmt.Sprintf("The ledger line of %s says nothing of this machine without its path: ask the yard for hourseal ledger path.", f.Date)
	},
	SeenTooEarly: func(m *Machine, f Fault) string {
		return fmt.Sprintf("By your own log you had %s on %s, and it says that it was issued on %s: one of the two is wrong, so the log shows nothing here.", m.entryName(f.Entry), f.Date, issuedOn(m.Entries[f.Entry].Record))
	},
	HoursUnlike: func(m *Machine, f Fault) string {
		return fmt.Sprintf("You gave %s h for %s; by the records it was %s: one of them is wrong.", f.To.Hours, f.Date, m.Stands.Hours.allowed())
	},
	HoursBack: func(m *Machine, f Fault) string {
		return fmt.Sprintf("The hours go back: %s h on %s, then %s h on %s, with no change of meter. What was run between cannot be told.", f.From.Hours, f.From.Date, f.To.Hours, f.To.Date)
	},
	HoursTooFast: func(m *Machine, f Fault) string {
		return fmt.Sprintf("From %s to %s the hours rose from %s to %s, more than the clock allows. One of the readings is wrong.", f.From.Date, f.To.Date, f.From.Hours, f.To.Hours)
	},
	OffsetOdd: func(m *Machine, f Fault) string {
		return fmt.Sprintf("From %s to %s the hours in total and what the meter reads move apart, with no change of meter.", f.From.Date, f.To.Date)
	},
	MeterUnknown: func(m *Machine, f Fault) string {
		return fmt.Sprintf("The meter was changed by %s, and what the removed one read is not known: the hours in total are the least that they can be.", m.Entries[f.Entry].Record.Job.Date)
	},
	IssuedEarly: func(m *Machine, f Fault) string {
		return fmt.Sprintf("%s was issued on %s, by its own word, before the work: one of the two dates is wrong.", capital(m.entryName(f.Entry)), f.Date)
	},
	IssuedLate: func(m *Machine, f Fault) string {
		return fmt.Sprintf("%s was issued on %s, %d days after the work.", capital(m.entryName(f.Entry)), f.Date, f.Date.Sub(m.Entries[f.Entry].Record.Job.Date))
	},
}
