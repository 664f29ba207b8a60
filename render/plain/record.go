package plain

import (
	"fmt"
	"strings"
	"time"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
	"hourseal/render/words"
	"hourseal/sign"
)

// Record is a record for a person: what it speaks of, its facts, and a block for each
// thing that it tells of.
func Record(r *record.Record) []Block {
	texts := words.Report()
	var blocks []Block
	add := func(b Block) {
		if len(b.Rows) > 0 || b.Text != "" {
			blocks = append(blocks, b)
		}
	}
	if s := r.Subject; s != nil {
		add(Block{Text: fmt.Sprintf("%s. Why: %s", About(r.Kind, sign.ID(s.Record)), s.Why)})
	}
	add(Block{Rows: recordFacts(r, texts)})
	add(Block{Heading: texts.Tasks.Heading, Rows: taskRows(r, texts)})
	add(Block{Heading: texts.OtherWork.Heading, Rows: otherRows(r, texts)})
	add(Block{Heading: texts.Fluids.Heading, Rows: fluidRows(r, texts)})
	add(Block{Heading: texts.Parts.Heading, Rows: partRows(r, texts)})
	add(Block{Heading: texts.Findings.Heading, Rows: findingRows(r, texts)})
	add(Block{Heading: texts.Next.Heading, Rows: standingRows(r, texts), Headed: true})
	add(Block{Heading: texts.Notes.Heading, Text: r.Notes})
	add(Block{Heading: texts.Files.Heading, Rows: fileRows(r, texts)})
	return blocks
}

// shownOfDigest is how many bytes of a file's digest are shown: enough to tell two files
// apart by eye. The report has all of them.
const shownOfDigest = 8

func fileRows(r *record.Record, texts words.Texts) [][]string {
	var rows [][]string
	for _, f := range r.Files {
		rows = append(rows, []string{f.Name, fmt.Sprintf("%s %x...", texts.Files.Digest, f.SHA256[:shownOfDigest])})
	}
	return rows
}

// Written is a time of issue, in seconds since 1970, for programs: ISO 8601, UTC.
func Written(issuedAt int64) string { return time.Unix(issuedAt, 0).UTC().Format(time.RFC3339) }

// statesNothing says whether a record only speaks of another, whose hours it has.
func statesNothing(r *record.Record) bool {
	return r.Kind == record.Void || r.Kind == record.Addendum && r.Job.Meter.State == record.NoMeter && strings.HasPrefix(r.Job.Meter.Basis, "as in record ")
}

// About says of which record another speaks, and what.
func About(kind record.Kind, id sign.ID) string {
	return strings.TrimSuffix(aboutWords[kind]+" "+id.String(), " ")
}

var aboutWords = map[record.Kind]string{
	record.Addendum:   "An addendum: it adds to record",
	record.Correction: "A correction: it stands in the place of record",
	record.Void:       "A void: it declares that this record does not count:",
}

func recordFacts(r *record.Record, texts words.Texts) [][]string {
	m, job := r.Machine, r.Job
	meter := string(texts.Machine.MeterState.Of(job.Meter.State.String()))
	if job.Meter.Reading != nil {
		meter = texts.Machine.MeterState.Of(job.Meter.State.String()).With("reading", job.Meter.Reading.String())
	}
	visit := fmt.Sprintf("%s, %s", job.Date, texts.Job.Reasons.Of(job.Reason.String()))
	if statesNothing(r) {
		visit, meter = job.Date.String()+", no visit", job.Meter.Basis
	}
	rows := [][]string{
		{"Machine", fmt.Sprintf("%s %s, serial %s", m.Make, m.Model, m.Serial)},
		{"", strings.TrimSuffix(m.Kind+", "+m.Position, ", ")},
		{texts.Machine.Vessel, m.Vessel},
		{texts.Machine.Hull, m.Hull},
		{"Driven by", m.DrivenBy},
		{texts.Job.Heading, visit},
		{texts.Job.Number, job.Number},
		{texts.Job.Place, job.Place},
		{texts.Machine.Hours, job.Hours.String() + " h"},
		{texts.Machine.Meter, meter},
		{"Fuel used", measuredText(job.FuelUsed)},
		{texts.Job.Technician, r.By.Number},
		{"Issued by", fmt.Sprintf("%s (%s), %s", r.Issuer.Name, r.Issuer.Kind, words.Issued(r.IssuedAt))},
		{"Number", fmt.Sprintf("%d of this machine", r.Number)},
		{texts.Schedule.Heading, fmt.Sprintf("%s, edition %d, %s", r.Schedule.ID, r.Schedule.Edition, texts.Schedule.Basis.Of(r.Schedule.Basis.Kind.String()))},
	}
	kept := rows[:0]
	for _, row := range rows {
		if row[1] != "" {
			kept = append(kept, row)
		}
	}
	return kept
}

func taskRows(r *record.Record, texts words.Texts) [][]string {
	var rows [][]string
	for _, t := range r.Tasks {
		if t.Result == 0 {
			continue
		}
		detail := texts.Tasks.ResultOf(t.Kind, t.Result)
		for _, reading := range t.Readings {
			detail += "; " + words.LowerName(reading.Name) + ": " + readingText(reading, texts)
		}
		if look := t.LookAgain; look != nil {
			if look.Hours != nil {
				detail += fmt.Sprintf(" at %s h", *look.Hours)
			}
			if look.Date != nil {
				detail += fmt.Sprintf(" on %s", *look.Date)
			}
		}
		rows = append(rows, []string{t.Title, detail + answerText(t.Answer, texts)})
	}
	return rows
}

func readingText(r record.Reading, texts words.Texts) string {
	var values []string
	if r.Value != nil {
		values = append(values, r.Value.String())
	}
	if r.AsFound != nil {
		values = append(values, texts.Tasks.AsFound.With("value", r.AsFound.String()))
	}
	if r.AsLeft != nil {
		values = append(values, texts.Tasks.AsLeft.With("value", r.AsLeft.String()))
	}
	return strings.Join(values, ", ")
}

func otherRows(r *record.Record, texts words.Texts) [][]string {
	var rows [][]string
	for _, w := range r.OtherWork {
		rows = append(rows, []string{texts.Tasks.ResultOfOther(w.Result), w.Text + answerText(w.Answer, texts)})
	}
	return rows
}

// answerText is why something waits, what was advised and what the owner said.
func answerText(a *record.Answer, texts words.Texts) string {
	if a == nil {
		return ""
	}
	text := ""
	if a.Why != "" {
		text += ": " + a.Why
	}
	if a.Advice != 0 {
		text += "; advice: " + string(texts.Left.Advices.Of(a.Advice.String()))
	}
	if a.Told != nil {
		text += fmt.Sprintf("; told %s", *a.Told)
	}
	if a.Owner != 0 {
		text += "; owner: " + string(texts.Left.Answers.Of(a.Owner.String()))
	}
	return text
}

func fluidRows(r *record.Record, texts words.Texts) [][]string {
	var rows [][]string
	add := func(system, what, text string) {
		if text != "" {
			rows = append(rows, []string{words.Name(system), what, text})
		}
	}
	for _, f := range r.Fluids {
		add(f.System, "Product", f.Product)
		add(f.System, texts.Fluids.Drained, measuredText(f.Drained))
		add(f.System, texts.Fluids.Filled, measuredText(f.Filled))
		add(f.System, "Level before", levelText(f.LevelBefore, texts))
		add(f.System, "Level after", levelText(f.Level, texts))
		add(f.System, "Drawn down", measuredText(f.DrawnDown))
		if f.Glycol != 0 {
			add(f.System, "Glycol", f.Glycol.String())
		}
		add(f.System, "Seen", seenText(f, texts))
		for _, row := range (balance{}).rows(r, f) {
			add(f.System, row[0], row[1])
		}
	}
	for _, t := range r.ToppedUp {
		add(t.System, "Topped up since", t.Amount.String())
	}
	for _, w := range r.Waste {
		to := w.Amount.String()
		if w.To != "" {
			to += " to " + w.To
		}
		if w.Held != "" {
			to += ", held: " + w.Held
		}
		add(w.System, "Waste", to)
	}
	return rows
}

// measuredText is what was measured; "" for what is not mentioned.
func measuredText(m *quantity.Measured) string {
	if m == nil {
		return ""
	}
	return m.String()
}

// seenText is what was seen in what came out, and the answer to it.
func seenText(f record.Fluid, texts words.Texts) string {
	var saw []string
	for _, sight := range f.Saw {
		saw = append(saw, sight.String())
	}
	if len(saw) == 0 {
		return ""
	}
	return strings.Join(saw, ", ") + answerText(f.Answer, texts)
}

func levelText(l *record.Level, texts words.Texts) string {
	switch {
	case l == nil:
		return ""
	case l.Reading == nil:
		return texts.Document.NotMeasured
	}
	text := l.Reading.String()
	if l.After != nil {
		text += ", " + texts.Fluids.After.With("minutes", l.After.String())
	}
	if l.At != nil {
		text += ", " + texts.Fluids.At.With("temperature", l.At.String())
	}
	return text
}

func partRows(r *record.Record, texts words.Texts) [][]string {
	var rows [][]string
	for _, part := range r.Parts {
		number := part.Number
		if part.Serial != "" {
			if number != "" {
				number += ", "
			}
			number += texts.Parts.Serial.With("number", part.Serial)
		}
		rows = append(rows, []string{fmt.Sprintf("%d", part.Quantity), part.Item, number, string(texts.Parts.Suppliers.Of(part.SuppliedBy.String()))})
	}
	return rows
}

func findingRows(r *record.Record, texts words.Texts) [][]string {
	var rows [][]string
	for _, f := range r.Findings {
		text := words.Finding(f)
		if f.Accepted != "" {
			text += " " + texts.Findings.Reason.With("reason", f.Accepted)
		}
		rows = append(rows, []string{string(texts.Findings.Severities.Of(f.Severity.String())), text})
	}
	return rows
}

func standingRows(r *record.Record, texts words.Texts) [][]string {
	rows := [][]string{{texts.Next.Item, texts.Next.Last, texts.Next.Due}}
	for _, t := range r.Tasks {
		rows = append(rows, []string{t.Title, lastText(t.Last, texts), dueText(t.Due, texts)})
	}
	return rows
}

func lastText(last *record.Last, texts words.Texts) string {
	if last == nil {
		return texts.Next.NoRecord
	}
	text := texts.Next.LastLine.With("date", last.Date.String(), "hours", last.Hours.String())
	if last.Stated {
		text += ", " + texts.Next.Stated
	}
	return text
}

func dueText(due schedule.Due, texts words.Texts) string {
	switch {
	case due.Hours != nil && due.Date != nil:
		return fmt.Sprintf("%s h or %s", *due.Hours, *due.Date)
	case due.Hours != nil:
		return due.Hours.String() + " h"
	case due.Date != nil:
		return due.Date.String()
	default:
		return "-"
	}
}
