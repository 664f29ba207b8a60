package logbook

import "hourseal/record"

// Carrying is the log of a chain whose first records are not at hand, with what the
// first that is there says was last done before it. What that has as stated without a
// sealed record stays stated.
func (l Log) Carrying(first record.Earlier) Log {
	l.carried = &first
	return l
}

// carriedDone are the times that a task was done by the word of the first record.
func (l Log) carriedDone(d doing) []Done {
	if l.carried == nil {
		return nil
	}
	var list []Done
	here := PointOf(l.carried.Record)
	for i := range l.carried.Record.Tasks {
		row := &l.carried.Record.Tasks[i]
		kind, does := d.kinds[row.ID]
		if !does || kind != row.Kind || row.Last == nil {
			continue
		}
		done := Done{Record: l.carried}
		done.Date, done.Hours, done.Stated = row.Last.Date, row.Last.Hours, row.Last.Stated
		switch {
		case done.Stated:
			done.Record, done.Source = nil, "none"
		case done.Point == here: // it does that itself, and counts or does not
			continue
		}
		list = append(list, done)
	}
	return list
}
