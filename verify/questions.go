package verify

import (
	"strconv"
	"strings"

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
	askFindings(record.LevelOverfilled, askOverfilled),
	askWaiting,
	askGained,
	askSeen,
	askFindings(record.LeakSeen, askLeak),
	askFindings(record.OilCategory, askOil),
	askNotMentioned,
	askFindings(record.RemovedReadingLost, askOldReading),
	askLookAgain,
	askFindings(record.HoursEstimated, askBasis),
}

// mostNamed is how many tasks one question names.
const mostNamed = 3

// askNotMentioned asks once for all tasks that were due and are not spoken of.
func askNotMentioned(r *record.Record) []string {
	var names []string
	for _, f := range r.Findings {
		if f.Code == record.DueNotMentioned {
			names = append(names, titleOf(r, f.Subject))
		}
	}
	if len(names) == 0 {
		return nil
	}
	named := strings.Join(names[:min(len(names), mostNamed)], "; ")
	if more := len(names) - mostNamed; more > 0 {
		named += askAndMore.with("count", strconv.Itoa(more))
	}
	return []string{askLastDone.with("day", r.Job.Date.String(), "tasks", named)}
}

func titleOf(r *record.Record, task string) string {
	for _, t := range r.Tasks {
		if t.ID == task {
			return t.Title
		}
	}
	return task
}

func askFindings(code record.Code, question phrase) func(*record.Record) []string {
	return func(r *record.Record) []string {
		for _, f := range r.Findings {
			if f.Code == code {
				return []string{question.with("day", r.Job.Date.String())}
			}
		}
		return nil
	}
}

// askGained asks about oil that became more, once for all systems.
func askGained(r *record.Record) []string {
	var systems []string
	for _, f := range r.Findings {
		if f.Code == record.OilGained {
			systems = append(systems, spoken(f.Subject))
		}
	}
	if len(systems) == 0 {
		return nil
	}
	return []string{askWhatGotIn.with("day", r.Job.Date.String(), "systems", inWords(systems))}
}

// askSeen asks about what was seen in the fluids that were drained, once for all of
// them. The answer that a record has to it is free text: it closes nothing.
func askSeen(r *record.Record) []string {
	var seen []string
	for _, f := range r.Fluids {
		var saw []string
		for _, sight := range f.Saw {
			if sight != record.SawNothing {
				saw = append(saw, sight.String())
			}
		}
		if len(saw) > 0 {
			seen = append(seen, seenIn.with("what", inWords(saw), "system", spoken(f.System)))
		}
	}
	if len(seen) == 0 {
		return nil
	}
	said := strings.Join(seen, ", ")
	return []string{askDoneAboutIt.with("seen", strings.ToUpper(said[:1])+said[1:], "day", r.Job.Date.String())}
}

// spoken is the id of a system as it is said.
func spoken(system string) string { return strings.ReplaceAll(system, "-", " ") }

// inWords lists names: "water, metal and fuel".
func inWords(names []string) string {
	last := len(names) - 1
	if last < 1 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:last], ", ") + " and " + names[last]
}

// askWaiting asks what became of what was put off or left.
func askWaiting(r *record.Record) []string {
	var questions []string
	unnamed := func(text string) string { return withoutName(text, r.By.Name) }
	ask := func(what string, result record.Result, answer *record.Answer) {
		if answer == nil {
			return
		}
		why := ""
		if text := unnamed(answer.Why); text != "" {
			why = ", " + strings.TrimRight(text, ".!?")
		}
		switch result {
		case record.Deferred:
			questions = append(questions, askPutOff.with("what", unnamed(what), "day", r.Job.Date.String(), "why", why))
		case record.Defect:
			questions = append(questions, askLeft.with("what", unnamed(what), "day", r.Job.Date.String(), "why", why))
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
			at = " " + dueAt.with("hours", t.LookAgain.Hours.String())
		}
		if t.LookAgain.Date != nil {
			at += " " + dueOnDate.with("day", t.LookAgain.Date.String())
		}
		questions = append(questions, askFound.with("what", t.Title, "at", at))
	}
	return questions
}

// withoutName takes the technician's name out of what the yard wrote.
func withoutName(text, name string) string {
	if name == "" {
		return text
	}
	return strings.ReplaceAll(text, name, theTechnician.with())
}
