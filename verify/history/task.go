package history

import (
	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// Task is how one task of the schedule was kept over a machine's records.
type Task struct {
	ID, Title string
	Kind      schedule.Kind
	Once      bool
	// Every and Leeway are as the newest record has them.
	Every  schedule.Interval
	Leeway schedule.Leeway
	// By are the schedules that asked for it, oldest first.
	By []ScheduleUsed

	Done   []Done // oldest first; empty: no record of it
	Stated *schedule.Point
	Waits  []Wait

	// Now is the due point in force after the last record that counts; nil when
	// nothing more falls due, or it is not known.
	Now *DuePoint
	// At is where it stood at the last record that counts.
	At Reached

	// Overdue is the hours run overdue, of Run hours in all since the first record
	// that counts; of Unknown hours it cannot be told. About: a part of Overdue was
	// worked out between two readings.
	Overdue quantity.Hours
	Unknown quantity.Hours
	Run     quantity.Hours
	About   bool
	// Stretches cover the time from the first record to the last without a gap.
	Stretches []Stretch
}

// ScheduleUsed is a schedule, and the first record that went by it.
type ScheduleUsed struct {
	record.ScheduleRef
	From schedule.Point
}

// InsideShare is the share of all hours that were run inside the interval and its
// grace, rounded down to 1/1000; nil where no hours were run.
func (t Task) InsideShare() *quantity.Ratio {
	if t.Run <= 0 {
		return nil
	}
	share := quantity.Ratio(int64(t.Run-t.Overdue-t.Unknown) * int64(quantity.One) / int64(t.Run))
	return &share
}

// Done is one time that a task was done.
type Done struct {
	Entry int // place in Machine.Entries
	schedule.Point
	Result record.Result // 0: by a task that covers it
	// Was is the due point that was in force; nil: no earlier record.
	Was  *DuePoint
	When Reached
}

// DuePoint is a due point with where it is from.
type DuePoint struct {
	schedule.Due
	Every  schedule.Interval
	Leeway schedule.Leeway
	Entry  int  // the record that says so
	Stated bool // it counts from what somebody stated
	// Before: with no work on record it counts from entry into service, and had passed
	// before the first record that speaks of the task.
	Before bool
}

// Tells says whether lateness is told of a due point: what was done before the first
// record, or behind a statement, is not known.
func (d *DuePoint) Tells() bool { return !d.Stated && !d.Before }

// Reached is how far along its interval something was.
type Reached struct {
	State Adherence
	// Hours and Days are counted from due, negative before it; nil: not by this.
	Hours *quantity.Hours
	Days  *quantity.Days
	About bool // the hours were worked out between two readings
}

// Adherence says how a point in time lies to a due point.
type Adherence string

// The answers.
const (
	Inside  Adherence = "inside"
	InGrace Adherence = "in-grace" // past due, within the schedule's own grace
	Late    Adherence = "overdue"
	NotTold Adherence = "not-known"
)

// Stretch is a part of the time on record.
type Stretch struct {
	From, To schedule.Point
	State    Adherence
}

// Wait is a task that was put off, or found and left.
type Wait struct {
	Entries []int // the records that say so, oldest first
	Result  record.Result
	Answer  *record.Answer // of the last of them
	Since   schedule.Point
	// Until is when it was done; nil: no record of it.
	Until *schedule.Point
	// Ran and Took are from Since to Until, or to the last record that counts.
	Ran  quantity.Hours
	Took quantity.Days
}

// Stands is where the machine stood on a date.
type Stands struct {
	On    quantity.Date
	Hours HoursOn
	Tasks []Standing
	// Shown and All are how many records up to that date there are in each column.
	Shown, All int
}

// HoursOn is what is known of the hours on a date.
type HoursOn struct {
	Given bool // by the reader
	Read  bool // on that day
	// At is the reading, or in a straight line between the readings on both sides;
	// nil where nothing lies behind it.
	At *quantity.Hours
	// Low and High are the least and the most that the records allow; nil: not known.
	Low, High *quantity.Hours
}

// Unlike says whether the reader gave hours that the records do not allow.
func (h HoursOn) Unlike() bool {
	return h.Given && (h.Low != nil && *h.At < *h.Low || h.High != nil && *h.At > *h.High)
}

// Standing is where one task stood, in two columns: by the records that are
// shown to have existed before the date, and by all.
type Standing struct {
	Task       string
	Title      string
	Shown, All Stood
}

// Stood is one of the two.
type Stood struct {
	Last *schedule.Point // nil: no record of it
	Was  *DuePoint       // nil: not known
	At   Reached
	// Least and Most are the states at the fewest and at the most hours that the records
	// allow, where those are others.
	Least, Most Adherence
}
