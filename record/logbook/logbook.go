package logbook

import (
	"cmp"
	"slices"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// Log is what is on record of one machine.
type Log struct {
	InService schedule.Point
	Stated    []Stated
	Own       []record.Earlier // its records that count, by date and hours
	Engine    []record.Earlier // those of the engine that drives it
	Duty      schedule.Duty    // severe duties as the machine file states them

	carried *record.Earlier // the first of a chain whose records before it are not at hand
}

// Stated is what is said to have been done, without a sealed record.
type Stated struct {
	schedule.Point
	Task   string
	Source string // invoice, owner or none
}

// New puts a log together from the machine's chain and that of its engine, both
// as they are stored.
func New(inService schedule.Point, stated []Stated, duty schedule.Duty, chain, engine []record.Earlier) Log {
	return Log{InService: inService, Stated: stated, Duty: duty, Own: counting(chain), Engine: counting(engine)}
}

// counting leaves out what does not count and sorts the rest.
func counting(chain []record.Earlier) []record.Earlier {
	var replaced map[record.ID]bool
	for _, e := range chain {
		if e.Record.Kind == record.Correction || e.Record.Kind == record.Void {
			if replaced == nil {
				replaced = map[record.ID]bool{}
			}
			replaced[e.Record.Subject.Record] = true
		}
	}
	kept := make([]record.Earlier, 0, len(chain))
	for _, e := range chain {
		work := e.Record.Kind == record.Service || e.Record.Kind == record.Correction
		if work && !replaced[e.ID] {
			kept = append(kept, e)
		}
	}
	slices.SortStableFunc(kept, func(a, b record.Earlier) int { return byPoint(PointOf(a.Record), PointOf(b.Record)) })
	return kept
}

// PointOf is the date and the hours in total of a record.
func PointOf(r *record.Record) schedule.Point {
	return schedule.Point{Date: r.Job.Date, Hours: r.Job.Hours}
}

func byPoint(a, b schedule.Point) int {
	return cmp.Or(cmp.Compare(a.Date, b.Date), cmp.Compare(a.Hours, b.Hours))
}

// OwnUntil are the machine's records that are not after a date.
func (l Log) OwnUntil(date quantity.Date) []record.Earlier { return l.Own[:after(l.Own, date)] }

// Before is the nearest record of the machine's own that is not after a date;
// nil without one.
func (l Log) Before(date quantity.Date) *record.Earlier { return before(l.Own, date) }

// After is the nearest of its own that is after a date; nil without one.
func (l Log) After(date quantity.Date) *record.Earlier { return following(l.Own, date) }

func following(list []record.Earlier, date quantity.Date) *record.Earlier {
	if i := after(list, date); i < len(list) {
		return &list[i]
	}
	return nil
}

func before(list []record.Earlier, date quantity.Date) *record.Earlier {
	if i := after(list, date); i > 0 {
		return &list[i-1]
	}
	return nil
}

// after is the index of the first record after a date.
func after(list []record.Earlier, date quantity.Date) int {
	i, _ := slices.BinarySearchFunc(list, date, func(e record.Earlier, date quantity.Date) int {
		if e.Record.Job.Date <= date {
			return -1
		}
		return 1
	})
	return i
}
