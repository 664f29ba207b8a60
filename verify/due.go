package verify

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// What falls due next is worked out from the record's own due points, against the
// reader's day and, where it can be compared, their meter. It is as good as the record
// is new: what was done since, it does not know.

// mostDue is how many tasks are named; the rest are counted.
const mostDue = 7

// dueTask is where one task of the record stands on the reader's day.
type dueTask struct {
	*record.Task
	due      schedule.Due // with a second look that was asked for before
	look     schedule.Due // what of due is the second look's
	state    schedule.State
	recorded bool  // a sealed record says when it was last done
	left     int64 // of the interval, in 1/1000, the least of hours and days; negative once past
}

// dueLines are the answer, the worst first; none where content is kept back, the
// day is not known, or nothing falls due.
func (r Result) dueLines(on Surface) []string {
	if !r.Verdict.ShowsContent() || r.on == nil || r.Signed.Kind == record.Void {
		return nil
	}
	if *r.on < r.Signed.Job.Date {
		return []string{dueDayBefore.with("day", r.on.String())}
	}
	d := r.dueBy()
	tasks := d.tasks()
	if len(tasks) == 0 {
		return nil
	}
	lines := []string{d.basis(on)}
	for _, task := range tasks[:min(len(tasks), mostDue)] {
		lines = append(lines, d.line(task))
	}
	if rest := tasks[min(len(tasks), mostDue):]; len(rest) > 0 {
		lines = append(lines, dueRest.with("states", d.counted(rest)))
	}
	return lines
}

// dueBy is what tasks are held to.
type dueBy struct {
	record *record.Record
	now    schedule.Point // hours in total
	hours  hoursKnown
}

// hoursKnown says how well the hours are known that tasks are held to.
type hoursKnown int

const (
	notKnown hoursKnown = iota // the record's are an estimate: tasks are held to dates alone
	atLeast                    // those of the record: it has run no less
	asRead                     // by the reader
)

func (r Result) dueBy() dueBy {
	job := &r.Signed.Job
	d := dueBy{record: r.Signed, now: schedule.Point{Date: *r.on, Hours: job.Hours}}
	switch {
	case job.Meter.Reading == nil:
	case r.reading == nil:
		d.hours = atLeast
	default:
		d.hours, d.now.Hours = asRead, *r.reading+job.Meter.Offset
	}
	return d
}

// basis says what the lines below it rest on.
func (d dueBy) basis(on Surface) string {
	day := d.now.Date.String()
	switch d.hours {
	case asRead:
		return dueAtHours.with("day", day, "hours", (d.now.Hours - d.record.Job.Meter.Offset).String())
	case atLeast:
		return dueOn.with("day", day) + " " + dueReadMeter.on(on).with()
	default:
		return dueOn.with("day", day) + " " + dueHoursUnlike.with()
	}
}

// tasks are all that will fall due or fell due, the worst first: by state; of what is
// due, that which a record shows to be before that which none speaks of; then by what
// is left of the interval.
func (d dueBy) tasks() []dueTask {
	var tasks []dueTask
	for i := range d.record.Tasks {
		if t := d.task(&d.record.Tasks[i]); t.due != (schedule.Due{}) {
			tasks = append(tasks, t)
		}
	}
	slices.SortStableFunc(tasks, func(a, b dueTask) int {
		shown := 0
		if a.state >= schedule.Now {
			shown = cmp.Compare(rank(b.recorded), rank(a.recorded))
		}
		return cmp.Or(cmp.Compare(b.state, a.state), shown, cmp.Compare(a.left, b.left))
	})
	return tasks
}

func rank(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

// task says where a task stands; schedule knows how.
func (d dueBy) task(t *record.Task) dueTask {
	again := t.LookAgain.Due(d.record.Job.Meter.Offset)
	task := dueTask{Task: t, due: t.Due.Earlier(again)}
	if task.due.Hours != t.Due.Hours {
		task.look.Hours = task.due.Hours
	}
	if task.due.Date != t.Due.Date {
		task.look.Date = task.due.Date
	}
	standing := schedule.Standing{Due: d.compared(t.Due), Runs: t.Every, Leeway: t.Leeway}
	if last := t.Last; last != nil {
		standing.Last = &schedule.Event{Point: schedule.Point{Date: last.Date, Hours: last.Hours}, Stated: last.Stated}
	}
	task.recorded = standing.Recorded()
	task.state = max(standing.At(d.now), d.compared(again).LookAt(d.now, t.Every))
	task.left = d.left(task)
	return task
}

// compared is a due point without what cannot be compared.
func (d dueBy) compared(due schedule.Due) schedule.Due {
	if d.hours == notKnown {
		due.Hours = nil
	}
	return due
}

// daysAMonth is near enough to put tasks in order by.
const daysAMonth = 30

func (d dueBy) left(t dueTask) int64 {
	const whole = 1000
	least := int64(whole)
	hours, byHours, days, byDate := d.compared(t.due).Past(d.now)
	if byHours {
		least = min(least, int64(-hours)*whole/max(int64(t.Every.Hours), int64(quantity.Hour)))
	}
	if byDate {
		least = min(least, int64(-days)*whole/max(int64(t.Every.Months)*daysAMonth, daysAMonth))
	}
	return least
}

// line says how one task stands: its state, and the points that say so. Of what is
// due, only those that are reached. How far they are is said of what is near, and of
// what a record shows to be late.
func (d dueBy) line(t dueTask) string {
	hours, byHours, days, byDate := t.due.Past(d.now)
	far := t.state == schedule.Later || t.state >= schedule.Now && !t.recorded
	var reached, ahead duePoints
	add := func(past, look bool, point, distance string) {
		if !far {
			point += distance
		}
		if past {
			reached.add(look, point)
		} else {
			ahead.add(look, point)
		}
	}
	if byHours {
		add(d.hours != notKnown && hours >= 0, t.look.Hours != nil, d.hoursPoint(*t.due.Hours), d.hoursFrom(hours))
	}
	if byDate {
		add(days >= 0, t.look.Date != nil, dueOnDate.with("day", t.due.Date.String()), daysFrom(days))
	}
	points := reached.joined(duePointsPast)
	if points == "" {
		points = ahead.joined(duePointsAhead)
	}
	line := dueOpenLine.with("title", t.Title, "points", points)
	if d.told(t) {
		line = dueTaskLine.with("title", t.Title, "state", string(dueStates[t.state]), "points", points)
	}
	if t.state >= schedule.Now && !t.recorded {
		from := dueFromService
		if t.Last != nil {
			from = dueFromStated
		}
		line += " " + from.with()
	}
	return line
}

// duePoints are points of one task in words, the interval's and those of a second look
// that was asked for.
type duePoints struct{ interval, look []string }

func (p *duePoints) add(look bool, point string) {
	if look {
		p.look = append(p.look, point)
	} else {
		p.interval = append(p.interval, point)
	}
}

// joined puts the second look last, so that the words for it speak of nothing else.
func (p *duePoints) joined(by phrase) string {
	join := func(points []string) string {
		said := ""
		for i, point := range points {
			if i == 0 {
				said = point
			} else {
				said = by.with("points", said, "more", point)
			}
		}
		return said
	}
	all := p.interval
	if len(p.look) > 0 {
		all = append(all, dueLookAgain.with("points", join(p.look)))
	}
	return join(all)
}

// hoursPoint is a due point by hours: what the meter then reads, where that is not the
// total.
func (d dueBy) hoursPoint(due quantity.Hours) string {
	meter := d.record.Job.Meter
	switch offset := meter.Offset; {
	case offset == 0:
		return dueAt.with("hours", due.String())
	case meter.Reading != nil && due > offset:
		return dueAtReading.with("reading", (due - offset).String())
	default: // this meter never reads it
		return dueAtTotal.with("hours", due.String())
	}
}

// hoursFrom is how far a due point is by hours; "" where that is not known.
func (d dueBy) hoursFrom(past quantity.Hours) string {
	switch {
	case d.hours == notKnown, d.hours == atLeast && past < 0, past == 0:
		return ""
	case past < 0:
		return dueIn.with("amount", (-past).String()+" h")
	case d.hours == atLeast:
		return dueAtLeastAgo.with("amount", past.String()+" h")
	default:
		return dueAgo.with("amount", past.String()+" h")
	}
}

func daysFrom(past quantity.Days) string {
	switch {
	case past == 0:
		return dueToday.with()
	case past < 0:
		return dueIn.with("amount", daysWords(-past))
	default:
		return dueAgo.with("amount", daysWords(past))
	}
}

func daysWords(n quantity.Days) string {
	if n == 1 {
		return oneDay.with()
	}
	return manyDays.with("count", n.String())
}

// told says whether a task's state can be told. With hours that have run on unread,
// what is not due may be.
func (d dueBy) told(t dueTask) bool {
	return t.state > schedule.Later || t.due.Hours == nil || d.hours == asRead
}

// counted says how many tasks stand how: "1 due soon, 4 later".
func (d dueBy) counted(tasks []dueTask) string {
	var parts []string
	untold := 0
	for state := schedule.Overdue; state >= schedule.Later; state-- {
		n := 0
		for _, t := range tasks {
			switch {
			case t.state != state:
			case d.told(t):
				n++
			default:
				untold++
			}
		}
		if n > 0 {
			parts = append(parts, strconv.Itoa(n)+" "+string(dueStates[state]))
		}
	}
	if untold > 0 {
		parts = append(parts, strconv.Itoa(untold)+" "+dueUntold.with())
	}
	return strings.Join(parts, ", ")
}
