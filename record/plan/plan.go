package plan

import (
	"fmt"
	"slices"

	"hourseal/record"
	"hourseal/record/jobsheet"
	"hourseal/record/logbook"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// Input is everything that a plan works from.
type Input struct {
	Machine  jobsheet.Machine
	Driver   *jobsheet.Machine // the engine whose hours count, where Machine is driven by one
	Schedule schedule.Schedule
	Chain    []record.Earlier // the machine's records, oldest first
	Engine   []record.Earlier // those of the driver
	On       quantity.Date
	Reading  *quantity.Hours // off the meter, on that date; nil: worked out from the use
}

// Plan is what a machine needs on a date.
type Plan struct {
	Machine jobsheet.Machine
	// Schedule names the schedule that it was made by.
	Schedule record.ScheduleRef
	On       quantity.Date
	Hours    HoursNow
	Use      schedule.Use
	Items    []Item // every task of the schedule, in its order
	// Unknown are severe duties of the last record that the schedule no longer
	// names: they shorten nothing.
	Unknown []string
	Edition *EditionChange

	read schedule.Point // the last reading that somebody took
}

// HoursNow is where the machine's hours stand.
type HoursNow struct {
	Total  quantity.Hours
	Offset quantity.Hours // total less what the meter reads
	// Given: Total is from the reading that was asked about. Else it is the last
	// known reading carried on by the use, in whole hours.
	Given bool
	Last  schedule.Point // the last known total, and its date
	Basis string         // of an estimate, where Last is one: the meter stood still, or there is none
}

// Reading is what the meter reads, or would read, at a total; negative where an
// earlier meter ran then.
func (h HoursNow) Reading(total quantity.Hours) quantity.Hours { return total - h.Offset }

// Runs says whether there is a meter that can be read: the last word on it was no
// estimate, or it was read since.
func (h HoursNow) Runs() bool { return h.Given || h.Basis == "" }

// Differs says whether the meter shows another figure than a total.
func (h HoursNow) Differs(total quantity.Hours) bool {
	return h.Offset != 0 && h.Runs() && h.Reading(total) >= 0
}

// EditionChange says that the schedule is not the one that the last record was
// checked by.
type EditionChange struct {
	Then   record.ScheduleRef
	Record Cited
}

// Cited names a record.
type Cited struct {
	ID     record.ID
	Number uint32
}

func cite(e *record.Earlier) Cited { return Cited{ID: e.ID, Number: e.Record.Number} }

// butNotTotal reminds of a change of meter, after which the total is not what the
// meter reads.
func (h HoursNow) butNotTotal() string {
	if h.Offset == 0 {
		return ""
	}
	return fmt.Sprintf(", and give what it reads, which is %v h less than the total", h.Offset)
}

// Make works out what a machine needs. The error says why a date or reading
// cannot be.
func Make(in Input) (Plan, error) {
	if in.On < in.Machine.InService.Date {
		return Plan{}, fmt.Errorf("%v is before %s went into service, %v", in.On, in.Machine.ID, in.Machine.InService.Date)
	}
	log := in.Machine.Log(in.Chain, in.Engine)
	p := Plan{
		Machine: in.Machine, On: in.On,
		Schedule: record.ScheduleRef{
			ID: in.Schedule.ID, Edition: uint(in.Schedule.Edition),
			Basis: in.Schedule.Basis, Digest: record.Digest(in.Schedule.Digest()),
		},
		Use: in.Machine.UseOn(log, in.Driver, in.Engine, in.On),
	}
	p.Edition = editionChange(log, p.Schedule, in.On)
	p.read = log.LatestRead(in.On)
	p.Hours.Offset = log.Offset(in.On)
	p.Hours.Last, p.Hours.Basis = log.Latest(in.On)
	if in.Reading != nil {
		p.Hours.Given, p.Hours.Total = true, *in.Reading+p.Hours.Offset
		if last := p.read; p.Hours.Total < last.Hours {
			return Plan{}, fmt.Errorf("%v h is below the %v h of %v: look at the meter again; a changed meter goes into a job sheet, under meter_change",
				*in.Reading, p.Hours.Reading(last.Hours), last.Date)
		} else if most := schedule.MostHours(last.Date, in.On); p.Hours.Total-last.Hours > most {
			return Plan{}, fmt.Errorf("%v h is %v h more than was read on %v; until %v a meter can rise by %v at most: look at the meter again%s",
				*in.Reading, p.Hours.Total-last.Hours, last.Date, in.On, most, p.Hours.butNotTotal())
		}
		if p.Hours.Basis != "" && p.Hours.Total == p.read.Hours && p.Hours.Last.Hours > p.read.Hours {
			return Plan{}, fmt.Errorf("%v h is what the meter read before it stopped; %v h in total were estimated on %v: leave the reading out until another meter is fitted",
				*in.Reading, p.Hours.Last.Hours, p.Hours.Last.Date)
		}
		if next := log.ReadingAfter(in.On); next != nil && next.Record.Job.Meter.State == record.Running && p.Hours.Total > next.Record.Job.Hours {
			return Plan{}, fmt.Errorf("%v h on %v is above the %v h in total of %v: look at the date and the meter again",
				*in.Reading, in.On, next.Record.Job.Hours, next.Record.Job.Date)
		}
	} else {
		p.Hours.Given = p.Hours.Last.Date == in.On && p.Hours.Basis == "" // it was read on the day
		p.Hours.Total = carriedOn(p.Hours.Last.Hours, p.Use.Between(p.Hours.Last.Date, in.On))
	}
	for _, task := range in.Schedule.Tasks {
		p.Items = append(p.Items, p.item(log, in.Schedule, task))
	}
	p.together()
	for _, duty := range log.DutyOn(in.On) {
		if !slices.ContainsFunc(in.Schedule.Tasks, func(t schedule.Task) bool { return t.Severe.When == duty }) {
			p.Unknown = append(p.Unknown, duty)
		}
	}
	return p, nil
}

// First is the most urgent of the items; a schedule has one at least.
func (p Plan) First() Item {
	if len(p.Items) == 0 {
		return Item{}
	}
	return slices.MinFunc(p.Items, Urgency)
}

// carriedOn is a reading and the hours run since, in whole hours, since what is
// worked out has no hundredths; and never below the reading.
func carriedOn(last, run quantity.Hours) quantity.Hours {
	if run == 0 {
		return last
	}
	return max(last, (last + run).Whole())
}

// now is the date and hours that the plan is made for.
func (p Plan) now() schedule.Point { return schedule.Point{Date: p.On, Hours: p.Hours.Total} }

// editionChange compares the schedule with that of the last record; nil where it
// is the same, or there is no record.
func editionChange(log logbook.Log, now record.ScheduleRef, on quantity.Date) *EditionChange {
	last := log.Before(on)
	if last == nil || last.Record.Schedule.Digest == now.Digest {
		return nil
	}
	return &EditionChange{Then: last.Record.Schedule, Record: cite(last)}
}
