package verify

import (
	"fmt"

	"hourseal/record"
)

// maxQuestions is the most that is asked of a reader at once.
const maxQuestions = 5

// Questions are made from what the record leaves open, the weightiest first. No
// technician is named in them.
func (r Result) Questions() []string {
	if r.Signed == nil || !r.Verdict.ShowsContent() {
		return nil
	}
	var questions []string
	for _, ask := range askers {
		questions = append(questions, ask(r.Signed)...)
	}
	return questions[:min(len(questions), maxQuestions)]
}

// askers in order of weight.
var askers = []func(*record.Record) []string{
	askFindings(record.LevelOverfilled, "The level was read above the upper mark on %s: was oil drawn down before the engine ran?"),
	askWaiting,
	askFindings(record.LeakSeen, "A leak was seen on %s: what was done about it?"),
	askFindings(record.OilCategory, "The oil filled on %s is not one that the machine file names: why, and was it changed since?"),
	askFindings(record.DueNotMentioned, "On %s a task was due that the report does not speak of: when was it done?"),
	askFindings(record.RemovedReadingLost, "The hour meter was changed before %s and the old reading is not known: what do older papers say?"),
	askLookAgain,
	askFindings(record.HoursEstimated, "The hours on %s are an estimate: what is it based on?"),
	askNoRecord,
}

func askFindings(code record.Code, format string) func(*record.Record) []string {
	return func(r *record.Record) []string {
		for _, f := range r.Findings {
			if f.Code == code {
				return []string{fmt.Sprintf(format, r.Job.Date)}
			}
		}
		return nil
	}
}

// askWaiting asks what became of what was put off or left.
func askWaiting(r *record.Record) []string {
	var questions []string
	ask := func(what string, result record.Result, answer *record.Answer) {
		if answer == nil {
			return
		}
		switch result {
		case record.Deferred:
			questions = append(questions, fmt.Sprintf("%s: put off on %s, %s. When was it done?", what, r.Job.Date, answer.Why))
		case record.Defect:
			questions = append(questions, fmt.Sprintf("%s: a defect was found and left on %s, %s. What was done about it?", what, r.Job.Date, answer.Why))
		}
	}
	for _, t := range r.Tasks {
		ask(t.Title, t.Result, t.Answer)
	}
	for _, w := range r.OtherWork {
		ask(w.Text, w.Result, w.Answer)
	}
	return questions
}

func askLookAgain(r *record.Record) []string {
	var questions []string
	for _, t := range r.Tasks {
		if t.Result != record.Watch || t.LookAgain == nil {
			continue
		}
		at := ""
		if t.LookAgain.Hours != nil {
			at = fmt.Sprintf(" at %s h", *t.LookAgain.Hours)
		}
		if t.LookAgain.Date != nil {
			at += fmt.Sprintf(" on %s", *t.LookAgain.Date)
		}
		questions = append(questions, fmt.Sprintf("%s: to be looked at again%s. What was found?", t.Title, at))
	}
	return questions
}

// askNoRecord asks for what the yard had no record of.
func askNoRecord(r *record.Record) []string {
	without := 0
	for _, t := range r.Tasks {
		if t.Last == nil {
			without++
		}
	}
	if without == 0 {
		return nil
	}
	return []string{fmt.Sprintf("The yard has no record of %d of %d tasks of its schedule: who did them, and when?", without, len(r.Tasks))}
}
