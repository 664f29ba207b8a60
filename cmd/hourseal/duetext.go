package main

import (
	"fmt"
	"slices"
	"strings"

	"hourseal/record"
	"hourseal/record/plan"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// dueWords says what is due, with figures in a style.
type dueWords struct{ quantity.Style }

// dueInFull prints every item of one machine's plan, the most urgent first.
func (p *program) dueInFull(w dueWords, made plan.Plan) {
	p.paragraph("", made.Machine.ID+": "+machineName(made)+", serial "+made.Machine.Serial)
	p.paragraph("", w.hoursLine(made))
	p.paragraph("", w.useLine(made.Use))
	p.paragraph("", fmt.Sprintf("Schedule %s, edition %d, %s. The maker's handbook governs.",
		made.Schedule.ID, made.Schedule.Edition, made.Schedule.Basis.Kind))
	if change := made.Edition; change != nil {
		p.paragraph("", editionLine(made, *change))
	}
	if len(made.Unknown) > 0 {
		p.paragraph("", "The last record states a severe duty that the schedule no longer names, so that it shortens nothing: "+
			strings.Join(made.Unknown, "; ")+". State it in the schedule's words in the machine file.")
	}
	p.say("")
	rows, notes := [][]string{{"state", "task", "due at", "or on", "first", "left"}}, []string{""}
	for _, item := range slices.SortedStableFunc(slices.Values(made.Items), plan.Urgency) {
		rows = append(rows, []string{item.State.String(), item.Task.ID, w.hoursOrDash(item.Due.Hours), w.dateOrDash(item.Due.Date), item.By, w.leftText(item)})
		notes = append(notes, strings.Join(w.itemNotes(made, item), "; "))
	}
	p.stateTable("", rows, notes, 0)
	p.say("")
	p.dueSum(w, []plan.Plan{made})
}

// dueList prints what is due and soon due over several machines, the most urgent
// first, and counts the rest.
func (p *program) dueList(w dueWords, plans []plan.Plan) {
	type entry struct {
		made plan.Plan
		item plan.Item
	}
	var list []entry
	for _, made := range plans {
		for _, item := range made.Items {
			if item.State >= schedule.Soon {
				list = append(list, entry{made, item})
			}
		}
	}
	slices.SortStableFunc(list, func(a, b entry) int { return plan.Urgency(a.item, b.item) })
	if len(list) > 0 {
		rows, notes := [][]string{{"state", "machine", "task", "due", "left"}}, []string{""}
		for _, e := range list {
			rows = append(rows, []string{e.item.State.String(), e.made.Machine.ID, e.item.Task.ID,
				w.firstDue(e.item), w.leftText(e.item)})
			notes = append(notes, strings.Join(w.openNotes(e.made, e.item), "; "))
		}
		p.stateTable("", rows, notes, 0)
		p.say("")
	}
	p.dueSum(w, plans)
	if slices.ContainsFunc(plans, func(m plan.Plan) bool { return !m.Hours.Given }) {
		p.paragraph("", "Hours are worked out from the last reading and the machine's use; hourseal due MACHINE --hours N takes a reading.")
	}
}

// firstDue is the hours or the date that comes first: both are in the list of the one
// machine.
func (w dueWords) firstDue(item plan.Item) string {
	if item.Due.Hours != nil && item.By != "date" {
		return w.hoursOrDash(item.Due.Hours)
	}
	return w.dateOrDash(item.Due.Date)
}

// dueSum says how many items stand how, and what comes next where nothing is due.
func (p *program) dueSum(w dueWords, plans []plan.Plan) {
	counts := map[schedule.State]int{}
	var next *plan.Item
	var of plan.Plan
	for _, made := range plans {
		for i := range made.Items {
			item := &made.Items[i]
			counts[item.State]++
			if item.State < schedule.Now && item.Expected != nil && (next == nil || item.Expected.On < next.Expected.On) {
				next, of = item, made
			}
		}
	}
	on := w.Date(plans[0].On)
	if counts[schedule.Now]+counts[schedule.Overdue] == 0 {
		p.say("On %s nothing is recorded as due.", on)
	} else {
		p.say("On %s: %d overdue, %d due, %d soon due, %d later.", on,
			counts[schedule.Overdue], counts[schedule.Now], counts[schedule.Soon], counts[schedule.Later])
	}
	if unrecorded(plans) {
		p.paragraph("", "What was done before a machine's first record may be stated in its machine file, under earlier; it then counts here.")
	}
	if next != nil {
		p.paragraph("", fmt.Sprintf("Next: %s, %s, expected %s.", of.Machine.ID, next.Task.ID, w.reachText(of.On, *next.Expected)))
	}
}

// unrecorded says whether something is due only because no record speaks of it.
func unrecorded(plans []plan.Plan) bool {
	return slices.ContainsFunc(plans, func(made plan.Plan) bool {
		return slices.ContainsFunc(made.Items, func(i plan.Item) bool { return i.State >= schedule.Now && i.Last == nil })
	})
}

// machineName is a machine as people speak of it.
func machineName(made plan.Plan) string {
	m := made.Machine
	var parts []string
	for _, part := range []string{m.Vessel.Name, m.Position, m.Make + " " + m.Model} {
		if part != "" {
			parts = append(parts, part)
		}
	}
	return strings.Join(parts, ", ")
}

func (w dueWords) hoursLine(made plan.Plan) string {
	h, on := made.Hours, w.Date(made.On)
	total := w.Hours(h.Total) + " h"
	if h.Given && h.Differs(h.Total) {
		total += fmt.Sprintf(" in total (the meter reads %s)", w.Hours(h.Reading(h.Total)))
	}
	lastHours, lastDate := w.Hours(h.Last.Hours), w.Date(h.Last.Date)
	last := fmt.Sprintf("%s h on %s", lastHours, lastDate)
	if h.Offset != 0 {
		last = fmt.Sprintf("%s h in total on %s", lastHours, lastDate)
	}
	if h.Basis != "" {
		last = fmt.Sprintf("an estimate, %s h in total on %s (%s)", lastHours, lastDate, h.Basis)
	}
	if h.Given && h.Last.Date == made.On && h.Last.Hours == h.Total {
		return fmt.Sprintf("On %s at %s.", on, total)
	}
	if h.Given {
		return fmt.Sprintf("On %s at %s; before that %s.", on, total, last)
	}
	return fmt.Sprintf("On %s at about %s: worked out from %s. Take a reading and give it with --hours.", on, total, last)
}

func (w dueWords) useLine(use schedule.Use) string {
	rate := fmt.Sprintf("%s h a year (%s to %s)", w.Hours(use.PerYear.Whole()), w.Hours(use.Low.Whole()), w.Hours(use.High.Whole()))
	switch use.Basis {
	case schedule.FromReadings:
		line := fmt.Sprintf("Use: %s, by %d readings from %s to %s", rate, use.Readings, w.Date(use.From), w.Date(use.To))
		if use.Seasonal {
			line += ", by season"
		}
		return line + "."
	case schedule.FromFewReadings:
		return fmt.Sprintf("Use: %s, by %d readings of the last three years only; the machine file may state expected_hours_per_year.", rate, use.Readings)
	case schedule.FromMachineFile:
		return fmt.Sprintf("Use: %s, as the machine file expects; there are too few readings of the last three years.", rate)
	default:
		return "Use: not known. Too few readings of the last three years, and the machine file states no expected_hours_per_year."
	}
}

func editionLine(made plan.Plan, change plan.EditionChange) string {
	then := change.Then
	if then.ID == made.Schedule.ID && then.Edition == made.Schedule.Edition {
		return fmt.Sprintf("The schedule's text was changed since record %d, without a new edition. That record keeps what it was checked by.", change.Record.Number)
	}
	return fmt.Sprintf("Record %d was checked by %s, edition %d, and keeps that; what is due here goes by the schedule as it is now.",
		change.Record.Number, then.ID, then.Edition)
}

// itemFacts is all that there is to say of one item, a line each.
func (w dueWords) itemFacts(made plan.Plan, item plan.Item) []string {
	return append([]string{w.itemDue(made, item)}, w.itemNotes(made, item)...)
}

func (w dueWords) itemDue(made plan.Plan, item plan.Item) string {
	var due []string
	if item.Due.Hours != nil {
		due = append(due, "at "+w.bothHours(made, *item.Due.Hours))
	}
	if item.Due.Date != nil {
		due = append(due, "on "+w.Date(*item.Due.Date))
	}
	return fmt.Sprintf("%s: due %s (%s)", item.State, strings.Join(due, " or "), w.leftText(item))
}

// bothHours are hours in total, and what the meter then reads where that is
// another figure.
func (w dueWords) bothHours(made plan.Plan, total quantity.Hours) string {
	if !made.Hours.Differs(total) {
		return w.Hours(total) + " h"
	}
	return fmt.Sprintf("%s h in total, %s on the meter", w.Hours(total), w.Hours(made.Hours.Reading(total)))
}

// itemNotes are the facts of an item beside its due point.
func (w dueWords) itemNotes(made plan.Plan, item plan.Item) []string {
	var notes []string
	if item.Due.Hours != nil && made.Hours.Differs(*item.Due.Hours) {
		notes = append(notes, fmt.Sprintf("the meter then reads %s", w.Hours(made.Hours.Reading(*item.Due.Hours))))
	}
	if item.Expected != nil && item.Due.Hours != nil {
		notes = append(notes, "expected "+w.reachText(made.On, *item.Expected))
	}
	notes = append(notes, w.itemLast(made, item))
	return append(notes, w.openNotes(made, item)...)
}

// openWords say what the last record did with what is still open.
var openWords = map[record.Result]string{record.Watch: "found serviceable", record.Defect: "found and left", record.Deferred: "put off"}

// openNotes are what a person has to know before the work.
func (w dueWords) openNotes(made plan.Plan, item plan.Item) []string {
	var notes []string
	if open := item.Open; open != nil {
		note := fmt.Sprintf("%s on %s", openWords[open.Result], w.Date(open.Date))
		if open.Answer != nil && open.Answer.Why != "" {
			note += ": " + open.Answer.Why
		}
		if look := open.LookAgain; look != (schedule.Due{}) {
			note += ", look again"
			if look.Hours != nil {
				note += " at " + w.bothHours(made, *look.Hours)
			}
			if look.Date != nil {
				note += " on " + w.Date(*look.Date)
			}
		}
		notes = append(notes, note)
	}
	if item.Severe {
		notes = append(notes, "interval shortened: "+item.Task.Severe.When)
	}
	if len(item.With) > 0 {
		notes = append(notes, "done together with "+strings.Join(item.With, ", "))
	}
	return notes
}

func (w dueWords) itemLast(made plan.Plan, item plan.Item) string {
	last := item.Last
	if last == nil {
		from := made.Machine.InService
		return fmt.Sprintf("no record of it: counted from entry into service, %s", w.point(from.Hours, from.Date))
	}
	at := w.point(last.Hours, last.Date)
	switch {
	case last.Record == nil:
		return fmt.Sprintf("stated as done at %s (%s), not under seal", at, statedBy(last.Source))
	case item.Every == (schedule.Interval{}):
		return fmt.Sprintf("done once, at %s: nothing more is due", at)
	default:
		return fmt.Sprintf("last done at %s, record %d", at, last.Record.Number)
	}
}

func (w dueWords) point(h quantity.Hours, d quantity.Date) string {
	return fmt.Sprintf("%s h on %s", w.Hours(h), w.Date(d))
}

// statedBy says what a statement of the machine file rests on.
func statedBy(source string) string {
	if source == "none" {
		return "no paper"
	}
	return source
}

func (w dueWords) reachText(on quantity.Date, r schedule.Reach) string {
	switch {
	case r.From == r.To:
		return "on " + w.Date(r.On)
	case r.To >= on.AddMonths(schedule.Horizon):
		return fmt.Sprintf("about %s (%s or later)", w.Date(r.On), w.Date(r.From))
	}
	return fmt.Sprintf("about %s (%s to %s)", w.Date(r.On), w.Date(r.From), w.Date(r.To))
}

// leftText is what is left of an interval, or by how much it is past. What no
// sealed record speaks of is never called late.
func (w dueWords) leftText(item plan.Item) string {
	if item.State >= schedule.Now && !item.Recorded() {
		if item.Last == nil {
			return "no record"
		}
		return "as stated"
	}
	var parts []string
	if h := item.HoursLeft; h != nil {
		parts = append(parts, leftOrPast(w.Hours(*h), w.Hours(-*h), "h", *h < 0))
	}
	if d := item.DaysLeft; d != nil {
		parts = append(parts, leftOrPast(d.String(), (-*d).String(), "d", *d < 0))
	}
	return strings.Join(parts, ", ")
}

func leftOrPast(left, past, unit string, isPast bool) string {
	if isPast {
		return past + " " + unit + " past"
	}
	return left + " " + unit
}

func (w dueWords) hoursOrDash(h *quantity.Hours) string {
	if h == nil {
		return "-"
	}
	return w.Hours(*h) + " h"
}

func (w dueWords) dateOrDash(d *quantity.Date) string {
	if d == nil {
		return "-"
	}
	return w.Date(*d)
}
