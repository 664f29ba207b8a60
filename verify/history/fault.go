package history

import (
	"cmp"
	"slices"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
	"hourseal/sign"
)

// Fault is something in the order of the records that does not hold, or that a
// reader has to know. What it means is put into words by its Sentence.
type Fault struct {
	Code FaultCode
	// Entry and Other are places in Machine.Entries, -1 for none: the record that it
	// is about, and the one that it is held against.
	Entry, Other int
	// Missing is what is cited and not there.
	Missing *Missing
	Signer  sign.PublicKey // root, of a broken line, a list or a ledger line
	From    schedule.Point // readings
	To      schedule.Point
	Date    quantity.Date // of a list or line
}

// Missing is a record that another one cites.
type Missing struct {
	ID     record.ID
	Number uint32 // 0 where only its id is known
	// Since is the first number that is missing in a row, up to Number; 0 where that is
	// not known.
	Since uint32
	Point *schedule.Point // as cited; nil where only its id is known
}

// FaultCode is stable: it stands in the JSON.
type FaultCode string

// The codes.
const (
	// The chain.
	LineBroken       FaultCode = "two-of-one-number" // in the line of one signer
	ParallelChains   FaultCode = "parallel-chains"
	RecordMissing    FaultCode = "record-missing"
	NumberOdd        FaultCode = "number-odd"
	CitationOdd      FaultCode = "citation-odd" // cites another date or hours than the record has
	CitesLater       FaultCode = "cites-later-date"
	CitesIssued      FaultCode = "issued-before-cited"
	CitesOther       FaultCode = "cites-other-machine"
	TakenBackLate    FaultCode = "taken-back-overdue"    // and by what it told something was overdue
	TakenBack        FaultCode = "taken-back"            // corrected or voided, by its own signer
	ForeignTakeback  FaultCode = "taken-back-by-another" // correction or void of another signer's record
	SubjectMissing   FaultCode = "subject-missing"       // of a void or addendum: it is of this machine
	SubjectElsewhere FaultCode = "subject-elsewhere"     // of a correction: it may be the twin's
	// Lists and ledger lines.
	ListMissing   FaultCode = "list-names-missing"
	ListLacks     FaultCode = "list-lacks-record"
	HeadMissing   FaultCode = "head-names-missing"
	HeadLacks     FaultCode = "head-lacks-record"
	HeadNotProved FaultCode = "head-not-shown" // no path that leads to the line
	// What the reader gave.
	PageNotOriginal FaultCode = "page-not-original" // or not compared
	SeenTooEarly    FaultCode = "received-before-issued"
	HoursUnlike     FaultCode = "hours-given-unlike-records"
	// Readings.
	HoursBack    FaultCode = "hours-go-back"
	HoursTooFast FaultCode = "hours-faster-than-clock"
	OffsetOdd    FaultCode = "hours-without-meter-change"
	MeterUnknown FaultCode = "removed-reading-unknown"
	IssuedEarly  FaultCode = "issued-before-work"
	IssuedLate   FaultCode = "issued-long-after"
)

// exitOf is the exit code that a fault alone would give; formats, "Command line".
// What is not in the table is said and decides nothing.
var exitOf = map[FaultCode]int{
	LineBroken: 3, ParallelChains: 7, RecordMissing: 7, TakenBackLate: 7, NumberOdd: 7, CitationOdd: 7, CitesIssued: 7, CitesOther: 7,
	PageNotOriginal: 6, ForeignTakeback: 7, SubjectMissing: 7, ListMissing: 7, ListLacks: 7, HeadMissing: 7, HeadLacks: 7,
	SeenTooEarly: 7, HoursUnlike: 7, IssuedEarly: 7, HoursBack: 7, HoursTooFast: 7, OffsetOdd: 7,
}

// ExitCode is the exit code that the fault alone would give.
func (f Fault) ExitCode() int { return exitOf[f.Code] }

// byWeight puts the worst first, then in the order of the records.
func byWeight(a, b Fault) int {
	return cmp.Or(cmp.Compare(rank(a.ExitCode()), rank(b.ExitCode())), cmp.Compare(a.Entry, b.Entry), cmp.Compare(a.Code, b.Code), cmp.Compare(a.Other, b.Other),
		cmp.Compare(a.Date, b.Date), slices.Compare(a.missing(), b.missing()))
}

// missing is the id of what is missing, for the order.
func (f Fault) missing() []byte {
	if f.Missing == nil {
		return nil
	}
	return f.Missing.ID[:]
}

// worstFirst is the order of the exit codes; formats, "Command line".
var worstFirst = []int{3, 1, 2, 5, 4, 6, 7, 0}

func rank(code int) int {
	for i, c := range worstFirst {
		if c == code {
			return i
		}
	}
	return len(worstFirst)
}
