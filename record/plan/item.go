package plan

import (
	"cmp"
	"slices"

	"hourseal/record"
	"hourseal/record/logbook"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// Item is where one task stands.
type Item struct {
	Task  schedule.Task
	State schedule.State
	Every schedule.Interval // the interval that runs; zero when nothing more is due
	// Severe: the interval is shortened for a severe duty.
	Severe bool
	// Due is in hours in total. Where the last record asks for another look
	// before the schedule does, it is that.
	Due       schedule.Due
	By        string          // "hours" or "date": which comes first; "" when nothing is due
	HoursLeft *quantity.Hours // negative once past; nil: not by hours
	DaysLeft  *quantity.Days
	Expected  *schedule.Reach // when it is expected to fall due; nil once it is due, and where it cannot be told
	Last      *Last           // nil: no record of it
	Open      *Open           // what the last record says of it, where that waits
	With      []string        // tasks, due or soon due, that this one is done together with
	falls     quantity.Date   // when it falls due, or fell, for the order of urgency
}

// Recorded says whether a sealed record says when the task was last done.
func (i Item) Recorded() bool { return i.Last != nil && i.Last.Record != nil }

// Last is when a task was last done.
type Last struct {
	schedule.Point
	Record *Cited // nil: stated in the machine file, not under seal
	Source string // of the statement: invoice, owner or none
}

// Open is what the last word on a task leaves open: put off, found and left, or
// to be looked at again.
type Open struct {
	Date      quantity.Date
	Result    record.Result
	Answer    *record.Answer
	LookAgain schedule.Due // hours in total
	// least is how urgent it is whatever the schedule says: what was found and left
	// is on every list, and due where the advice was to see to it before use. Our
	// own rule, no source.
	least schedule.State
}

// farthest is the date of what never falls due.
const farthest = quantity.MaxDate

func (p Plan) item(log logbook.Log, s schedule.Schedule, task schedule.Task) Item {
	now := p.now()
	standing, last := log.Stand(s, task, p.On)
	item := Item{
		Task: task, State: p.state(standing), Every: standing.Runs, Due: standing.Due,
		Severe: standing.Runs != (schedule.Interval{}) && task.SevereUnder(log.DutyOn(p.On)),
		Open:   open(log, s, task.ID, p.On),
	}
	if last != nil {
		item.Last = &Last{Point: last.Point, Source: last.Source}
		if last.Record != nil {
			item.Last.Record = new(cite(last.Record))
		}
	}
	if item.Open != nil {
		item.State = max(item.State, item.Open.state(now, standing.Runs))
		item.Due = item.Due.Earlier(item.Open.LookAgain)
	}
	item.By = item.Due.ComesFirst(now, p.Use)
	hours, byHours, days, byDate := item.Due.Past(now)
	if byHours {
		item.HoursLeft = new(-hours)
	}
	if byDate {
		item.DaysLeft = new(-days)
	}
	item.Expected, item.falls = p.expected(item.Due)
	if item.State >= schedule.Now {
		item.Expected = nil
	} else if item.Due.SoonBy(now, p.Use) {
		item.State = schedule.Soon
	}
	return item
}

// state is the state of a task as the schedule has it. Hours that nobody read make
// nothing overdue: they may be wrong.
func (p Plan) state(standing schedule.Standing) schedule.State {
	state := standing.At(p.now())
	if state == schedule.Overdue && !p.Hours.Given {
		return max(schedule.Now, standing.At(schedule.Point{Date: p.On, Hours: p.read.Hours}))
	}
	return state
}

// expected is when a due point is expected to be reached, and the date by which
// it is put in order: that, or when it is reckoned to have been passed.
func (p Plan) expected(due schedule.Due) (*schedule.Reach, quantity.Date) {
	now := p.now()
	falls := farthest
	var reach *schedule.Reach
	if due.Date != nil {
		falls = *due.Date
		reach = &schedule.Reach{On: falls, From: falls, To: falls}
	}
	if due.Hours == nil {
		return reach, falls
	}
	if past := now.Hours - *due.Hours; past >= 0 {
		return reach, min(falls, p.On.AddDays(-p.days(past)))
	}
	byHours, ok := p.Use.Reach(now, *due.Hours)
	switch {
	case !ok && reach != nil && p.Use.PerYear == 0:
		reach.From = p.On // the hours may run out on any day
	case !ok:
	case reach == nil:
		reach, falls = &byHours, byHours.On
	default:
		reach = &schedule.Reach{On: min(reach.On, byHours.On), From: min(reach.From, byHours.From), To: min(reach.To, byHours.To)}
		falls = reach.On
	}
	return reach, falls
}

// days are how many days so many hours take, at the mean use; 0 where the use is
// not known.
func (p Plan) days(hours quantity.Hours) quantity.Days {
	if p.Use.PerYear <= 0 {
		return 0
	}
	return quantity.Days(int64(hours) * 36525 / (int64(p.Use.PerYear) * 100))
}

// open is what the last word on a task leaves open; nil where that is nothing. What
// was put off is still asked for as the words before it asked.
func open(log logbook.Log, s schedule.Schedule, task string, on quantity.Date) *Open {
	var open *Open
	for _, e := range slices.Backward(log.OwnUntil(on)) {
		var word *Open
		settled := false
		for i := range e.Record.Tasks {
			t := &e.Record.Tasks[i]
			switch {
			case t.Result == 0:
			case t.ID == task:
				word = openIn(e.Record, t)
				settled = settled || word == nil
			case s.Does(t.ID, task) && logbook.Counts(t.Kind, t.Result):
				settled = true
			}
		}
		// What was found or put off and then settled by a new part does not wait; a
		// second look that was asked for does.
		if word != nil && (!settled || word.Result == record.Watch) {
			open = open.after(word)
		}
		if settled || open != nil && word != nil && word.Result != record.Deferred {
			return open
		}
	}
	return open
}

// after is what is open with an earlier word on the same task, which a later one
// that put it off has not settled.
func (o *Open) after(earlier *Open) *Open {
	if o == nil {
		return earlier
	}
	o.LookAgain = o.LookAgain.Earlier(earlier.LookAgain)
	o.least = max(o.least, earlier.least)
	return o
}

func openIn(r *record.Record, t *record.Task) *Open {
	if t.Result == record.Done || t.Result == record.OK {
		return nil
	}
	open := &Open{Date: r.Job.Date, Result: t.Result, Answer: t.Answer, LookAgain: t.LookAgain.Due(r.Job.Meter.Offset), least: schedule.Later}
	if t.Result == record.Defect {
		open.least = schedule.Soon
	}
	if t.Answer != nil && t.Answer.Advice == record.BeforeUse {
		open.least = schedule.Now
	}
	return open
}

// state is how urgent what was left open is.
func (o *Open) state(now schedule.Point, runs schedule.Interval) schedule.State {
	return max(o.least, o.LookAgain.LookAt(now, runs))
}

// together notes on each task those that want it done with them, and are due or
// soon due, or taken along, or done together with such a one themselves.
func (p Plan) together(besides ...string) {
	var work []int // indexes of items, each once
	for i, item := range p.Items {
		if item.State >= schedule.Soon || slices.Contains(besides, item.Task.ID) {
			work = append(work, i)
		}
	}
	for n := 0; n < len(work); n++ {
		task := p.Items[work[n]].Task
		for _, with := range task.With {
			i := slices.IndexFunc(p.Items, func(other Item) bool { return other.Task.ID == with })
			if i < 0 {
				continue
			}
			p.Items[i].With = append(p.Items[i].With, task.ID)
			if !slices.Contains(work, i) {
				work = append(work, i)
			}
		}
	}
}

// Work are the items to see to on a visit, in the schedule's order: what is due
// or soon due, the tasks named besides, and what is done together with those.
func (p Plan) Work(besides ...string) []Item {
	p.Items = slices.Clone(p.Items)
	for i := range p.Items {
		p.Items[i].With = nil
	}
	p.together(besides...)
	var work []Item
	for _, item := range p.Items {
		if item.State >= schedule.Soon || len(item.With) > 0 || slices.Contains(besides, item.Task.ID) {
			work = append(work, item)
		}
	}
	return work
}

// Urgency puts items in order: the worst state first; of what is due, that which a
// record shows to be before that which no record speaks of; then what fell due, or
// will, the earliest.
func Urgency(a, b Item) int {
	shown := 0
	if a.State >= schedule.Now && a.Recorded() != b.Recorded() {
		shown = 1
		if a.Recorded() {
			shown = -1
		}
	}
	return cmp.Or(cmp.Compare(b.State, a.State), shown, cmp.Compare(a.falls, b.falls))
}
