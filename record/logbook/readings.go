package logbook

import (
	"slices"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// Readings are the records that say what the machine's hours were, by date and
// hours: its own, and its engine's.
func (l Log) Readings() []record.Earlier {
	if len(l.Engine) == 0 {
		return l.Own
	}
	all := append(slices.Clone(l.Own), l.Engine...)
	slices.SortStableFunc(all, func(a, b record.Earlier) int { return byPoint(PointOf(a.Record), PointOf(b.Record)) })
	return all
}

// ReadingBefore is the nearest of the readings that is not after a date; nil
// without one.
func (l Log) ReadingBefore(date quantity.Date) *record.Earlier { return before(l.Readings(), date) }

// ReadingAfter is the nearest of the readings that is after a date; nil without
// one.
func (l Log) ReadingAfter(date quantity.Date) *record.Earlier { return following(l.Readings(), date) }

// Offset is the hours in total less what the meter reads, on a date.
func (l Log) Offset(date quantity.Date) quantity.Hours {
	if e := l.ReadingBefore(date); e != nil {
		return e.Record.Job.Meter.Offset
	}
	return 0
}

// Known are the points that the machine's use can be worked out from, up to a
// date, in no order: its entry into service, what was stated, and what a meter
// read. An estimate is left out: it would prove itself.
func (l Log) Known(until quantity.Date) []schedule.Point {
	points := []schedule.Point{}
	for _, s := range l.Stated {
		points = append(points, s.Point)
	}
	for _, list := range [][]record.Earlier{l.Own, l.Engine} {
		for _, e := range list {
			if e.Record.Job.Meter.State == record.Running {
				points = append(points, PointOf(e.Record))
			}
		}
	}
	points = slices.DeleteFunc(points, func(p schedule.Point) bool { return p.Date > until })
	return append(points, l.InService)
}

// Latest is the last point up to a date that the machine's hours are known for,
// and the basis of an estimate; "" where it was read.
func (l Log) Latest(until quantity.Date) (point schedule.Point, basis string) {
	point = l.LatestRead(until)
	if e := l.ReadingBefore(until); e != nil && byPoint(PointOf(e.Record), point) > 0 {
		return PointOf(e.Record), e.Record.Job.Meter.Basis
	}
	return point, ""
}

// LatestRead is the last point up to a date at which somebody read the hours.
func (l Log) LatestRead(until quantity.Date) schedule.Point {
	return slices.MaxFunc(l.Known(until), byPoint)
}
