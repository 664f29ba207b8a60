package closeout

import (
	"fmt"
	"slices"
	"strings"

	"hourseal/record"
	"hourseal/record/dialogue"
	"hourseal/record/jobsheet"
	"hourseal/record/logbook"
	"hourseal/record/plan"
	"hourseal/record/schedule"
)

// results are what may become of a task or of other work.
var results = dialogue.Choices{
	{Letter: "d", Word: "done", Means: "replaced, cleaned or adjusted"},
	{Letter: "o", Word: "ok", Means: "inspected, nothing to do"},
	{Letter: "w", Word: "watch", Means: "serviceable, to be looked at again"},
	{Letter: "f", Word: "defect", Means: "found and left as it is"},
	{Letter: "p", Word: "deferred", Means: "put off, not done"},
}

// resultsAsked names them at a question.
const resultsAsked = "d done, o ok, w watch, f defect found and left, p put off"

// readResult reads a letter or a word, and the subcontractor after it.
func (s *session) readResult(typed string) (string, error) {
	word, by, _ := strings.Cut(typed, " ")
	if strings.EqualFold(typed, "put off") {
		word, by = "p", ""
	}
	read, err := results.Read(word)
	if err != nil {
		return "", err
	}
	if by != "" {
		read += " " + by
	}
	if _, _, err := jobsheet.LineResult(read); err != nil {
		return "", err
	}
	return s.line(func(text string) (string, error) { return text, nil })(read)
}

func resultOf(text string) (record.Result, string) {
	result, by, err := jobsheet.LineResult(text)
	if text == "" || text == "-" || err != nil {
		return 0, ""
	}
	return result, by
}

// plannedTasks asks what became of what is due and soon due, and of what belongs to
// it.
func (s *session) plannedTasks() {
	if s.a.Waiting() {
		return
	}
	work := s.made.Work()
	if len(work) == 0 {
		s.a.Say("Nothing is recorded as due or soon due.")
	}
	for i, item := range work {
		said := fmt.Sprintf("%d of %d. %s", i+1, len(work), item.Task.Title)
		if due := s.Words.Item(s.made, item); due != "" {
			said += ": " + due
		}
		s.task(item.Task, said, s.likely(item))
	}
	// What was answered stays, also where the schedule or another record has made it
	// not due since.
	for _, task := range s.Schedule.Tasks {
		if s.a.Answered("task/"+task.ID) && !slices.Contains(s.asked, task.ID) {
			s.task(task, task.Title, "")
		}
	}
}

// usual is the result that is offered for a kind of task.
func usual(kind schedule.Kind) record.Result {
	if kind == schedule.Inspect || kind == schedule.Test {
		return record.OK
	}
	return record.Done
}

// likely is the result that is offered. Whoever came for something else has not serviced
// what happens to be due, and what is only soon due may well wait.
func (s *session) likely(item plan.Item) string {
	switch {
	case s.job.Reason != record.Scheduled, item.State < schedule.Now && len(item.With) == 0:
		return dialogue.Dash
	case item.Task.Needs.Reading != "": // its figure is the answer
		return ""
	}
	return usual(item.Task.Kind).String()
}

func (s *session) task(task schedule.Task, said, offer string) {
	key, path := "task/"+task.ID, fmt.Sprintf("tasks/%d", len(s.job.Tasks))
	q := dialogue.Question{
		Key: key, Text: task.ID + ": " + resultsAsked, Offer: offer, Dashed: "no word on it", Said: []string{said},
		Help: append(results.Help(), "-  no word on it: it is not mentioned in the record. Of what is due on a scheduled job the reason is asked.",
			"A subcontractor stands behind it: d by Quay Marine Electric."),
		Read: s.readResult,
	}
	if missing := s.missingSystem(task); missing != "" {
		q.Offer = ""
		q.Said = append(q.Said, "The machine file has no system "+missing+", whose figures this needs: as done it cannot be signed until it is written there.")
	}
	figure := reader(task)
	if figure != nil {
		example := jobsheet.UsualFigure(task.Needs.Reading)
		q.Text = task.ID + ": " + strings.ToLower(spoken(task.Needs.Reading)) + ", as " + example + "; or w watch, f defect, p put off"
		q.Help = append(q.Help, "f and w want the figure as well; without one it is put off: p.", "The figure alone says that it was measured and is in order. "+figureHelp(example))
		q.Read = s.orFigure(figure)
	}
	text := s.ask(path, q)
	s.asked = append(s.asked, task.ID)
	s.places[taskPlace(task.ID)] = q
	t := record.Task{ID: task.ID}
	if r := dialogue.Parsed(orNone(figure), text); r != nil {
		t.Result, t.Readings = usual(task.Kind), []record.Reading{*r}
	} else if t.Result, t.DoneBy = resultOf(text); t.Result == 0 {
		return
	}
	s.lookAgain(key, &t)
	t.Answer = s.answer(key, path, task.ID, t.Result, t.Answer)
	if figure != nil && len(t.Readings) == 0 && logbook.Counts(task.Kind, t.Result) {
		s.taskReading(key, path, task.Needs.Reading, figure, &t)
	}
	s.job.Tasks = append(s.job.Tasks, t)
	if logbook.Counts(task.Kind, t.Result) {
		s.done = append(s.done, task)
	}
	s.look(path, "fluids")
}

// missingSystem is a system that a task speaks of and the machine has not; "" for none.
func (s *session) missingSystem(task schedule.Task) string {
	for _, e := range jobsheet.EvidenceFor([]schedule.Task{task}) {
		if _, has := s.Machine.System(e.System); !has {
			return e.System
		}
	}
	return ""
}

// spoken is a name as it is spoken: "Freezing point".
func spoken(name string) string {
	return capital(strings.NewReplacer("-", " ", "_", " ").Replace(name))
}
