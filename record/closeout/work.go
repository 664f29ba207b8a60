package closeout

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"hourseal/record"
	"hourseal/record/dialogue"
	"hourseal/record/jobsheet"
	"hourseal/record/logbook"
	"hourseal/record/plan"
	"hourseal/record/quantity"
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

// reader reads the figure that a task needs; nil where it needs none.
func reader(task schedule.Task) func(string) (record.Reading, error) {
	if task.Needs.Reading == "" {
		return nil
	}
	name := task.Needs.Reading
	return func(text string) (record.Reading, error) {
		r, err := jobsheet.LineReading(name, text)
		if err != nil {
			return r, err
		}
		for _, figure := range []*quantity.Figure{r.Value, r.AsFound, r.AsLeft} {
			if figure != nil && !suits(*figure, name) {
				return r, fmt.Errorf("%v is not in the unit of it: type it as %s", figure, jobsheet.UsualFigure(name))
			}
		}
		return r, nil
	}
}

// suits says whether a figure may be a reading of that name: it has a unit, and is a
// temperature or a share where such readings are.
func suits(f quantity.Figure, name string) bool {
	usual, err := quantity.ParseFigure(jobsheet.UsualFigure(name))
	if err != nil || f.Unit == "" {
		return false
	}
	_, degrees := usual.Temperature()
	_, share := usual.Share()
	_, inDegrees := f.Temperature()
	_, inShare := f.Share()
	return (!degrees || inDegrees) && (!share || inShare)
}

// orNone is a reader that there may be none of.
func orNone(figure func(string) (record.Reading, error)) func(string) (record.Reading, error) {
	if figure == nil {
		return func(string) (record.Reading, error) { return record.Reading{}, errors.New("no figure is wanted") }
	}
	return figure
}

// orFigure reads a result, or the figure whose being there says that it is in order.
func (s *session) orFigure(figure func(string) (record.Reading, error)) func(string) (string, error) {
	return func(typed string) (string, error) {
		if kept, err := s.readResult(typed); err == nil {
			return kept, nil
		}
		return s.line(dialogue.Reading(figure))(typed)
	}
}

// lookAgain asks when, of what is to be watched.
func (s *session) lookAgain(key string, t *record.Task) {
	if t.Result != record.Watch {
		return
	}
	text := s.ask(key, dialogue.Question{
		Key: key + "/look-again", Text: "When to look again, and why, as 900 h, light glaze", Dashed: "not stated",
		Help: []string{"Hours of the meter, a date, or both: 900 h; 2026-10-01; 900 h or 2026-10-01. Behind a comma what was seen."},
		Read: s.line(s.ahead),
	})
	if text == "" || text == dialogue.Dash {
		return
	}
	look, why, err := jobsheet.LineLookAgain(text)
	if err != nil {
		return
	}
	t.LookAgain = &look
	if why != "" {
		t.Answer = &record.Answer{Why: why}
	}
}

// ahead reads when to look again, which is not before the job.
func (s *session) ahead(typed string) (string, error) {
	look, _, err := jobsheet.LineLookAgain(typed)
	switch {
	case err != nil && !strings.ContainsAny(typed, "0123456789"):
		return "", errors.New("when comes first, as 900 h, light glaze; or -, where no time was set")
	case err != nil:
		return "", err
	case look.Hours != nil && s.job.Meter.Reading != nil && *look.Hours <= *s.job.Meter.Reading:
		return "", fmt.Errorf("%v h is not ahead: the meter reads %v", *look.Hours, *s.job.Meter.Reading)
	case look.Date != nil && *look.Date <= s.job.Date:
		return "", fmt.Errorf("%v is not ahead: the job is of %v", *look.Date, s.job.Date)
	}
	return typed, nil
}

// answer asks why something waits, what was advised, and what the owner said.
func (s *session) answer(key, path, what string, result record.Result, known *record.Answer) *record.Answer {
	if result != record.Defect && result != record.Deferred {
		return known
	}
	asked := "Why it was put off"
	if result == record.Defect {
		asked = "What was found, and why it was left"
	}
	why := s.ask(path, dialogue.Question{
		Key: key + "/why", Text: asked, Read: s.reasonText,
		Help: []string{"As part on order. It is printed on the report."},
	})
	if why == "" {
		return nil
	}
	return s.advice(key, path, record.Answer{Why: why})
}

// advice asks for the yard's advice and the owner's word on it.
func (s *session) advice(key, path string, answer record.Answer) *record.Answer {
	text := s.ask(path, dialogue.Question{
		Key: key + "/answer", Dashed: "neither",
		Text: "Advised (b before use, n next service, m monitor) and the owner (a agreed, d declined, w awaiting), as na",
		Help: []string{
			"b  to be seen to before the engine is used; n  at the next service; m  to be kept an eye on.",
			"a  the owner agreed to wait; d  declined the work; w  has not answered yet.",
			"The owner counts as told on " + s.job.Date.String() + "; another date stands behind: n a 2026-05-03.",
		},
		Read: s.told,
	})
	if said := dialogue.Parsed(twoLetters, text); said != nil {
		why := answer.Why
		answer = *said
		answer.Why = why
		if answer.Told == nil && answer.Owner != 0 {
			answer.Told = new(s.job.Date)
		}
	}
	return &answer
}

// told reads the advice and the owner's word, of a day that has been.
func (s *session) told(typed string) (string, error) {
	answer, err := twoLetters(typed)
	switch {
	case err != nil:
		return "", fmt.Errorf("%s: type b, n or m, then a, d or w, as na; a date of telling behind, as n a %v", dialogue.Quoted(typed), s.job.Date)
	case answer.Told != nil && *answer.Told > s.Today:
		return "", fmt.Errorf("told on %v: today is %v", *answer.Told, s.Today)
	}
	return typed, nil
}

// twoLetters reads an answer of which the letters may stand together: na.
func twoLetters(text string) (record.Answer, error) {
	if len(text) == 2 {
		text = text[:1] + " " + text[1:]
	}
	return jobsheet.LineAnswer(spokenAnswer.Replace(strings.ToLower(text)))
}

// spokenAnswer makes what a person says of an answer what a line has.
var spokenAnswer = strings.NewReplacer("next service", "next-service", "before use", "before-use", "owner ", "", "the ", "")

func (s *session) taskReading(key, path, name string, figure func(string) (record.Reading, error), t *record.Task) {
	example := jobsheet.UsualFigure(name)
	text := s.ask(path, dialogue.Question{
		Key: key + "/reading", Text: spoken(name) + ", as " + example, Help: []string{figureHelp(example)}, Read: s.line(dialogue.Reading(figure)),
	})
	if r := dialogue.Parsed(figure, text); r != nil {
		t.Readings = append(t.Readings, *r)
	}
}

func figureHelp(example string) string {
	return "It stands with its unit, as " + example + "; before and after the work: found " + example + ", left " + example + "."
}

// spoken is a name as it is spoken: "Freezing point".
func spoken(name string) string {
	return capital(strings.NewReplacer("-", " ", "_", " ").Replace(name))
}

// otherWork asks for tasks that were not due, and for what is no task of the
// schedule.
func (s *session) otherWork() {
	for n := 1; ; n++ {
		key := "other/" + strconv.Itoa(n)
		asked := "Other work, or a further task of the schedule"
		if n > 1 {
			asked = "Anything else"
		}
		text := s.ask("other_work", dialogue.Question{
			Key: key, Text: asked, Offer: dialogue.Dash, Dashed: "none", Read: s.workOrTask,
			Help: []string{
				"What was done or found, in a line, as Tightened the exhaust clamp at the elbow.",
				"A task that is not due is named by its id: " + strings.Join(s.further(), ", ") + ".",
			},
		})
		if text == "" || text == dialogue.Dash {
			return
		}
		if task, ok := s.Schedule.Task(text); ok {
			if slices.Contains(s.asked, task.ID) {
				s.a.Say(task.ID + " was asked about already: < goes back to it.")
			} else {
				s.task(task, task.Title, "")
			}
			continue
		}
		if !s.otherWorkResult(key, text) {
			return
		}
	}
}

// workOrTask reads other work, or a task by its id in any letter case. A word that is
// nearly a task is asked about: as other work the task would not count.
func (s *session) workOrTask(typed string) (string, error) {
	var ids []string
	for _, t := range s.Schedule.Tasks {
		if strings.EqualFold(t.ID, typed) {
			return t.ID, nil
		}
		ids = append(ids, t.ID)
	}
	if near := jobsheet.Nearest(typed, ids); near != "" {
		return "", fmt.Errorf("%s is nearly the task %s: type that, or more words for other work", dialogue.Quoted(typed), near)
	}
	if _, err := s.named(typed); err != nil && len([]rune(typed)) <= record.MaxText {
		return "", err
	}
	return s.reasonText(typed)
}

// otherWorkResult asks what became of it; false where the script waits.
func (s *session) otherWorkResult(key, text string) bool {
	path := fmt.Sprintf("other_work/%d", len(s.job.OtherWork))
	typed := s.ask(path, dialogue.Question{
		Key: key + "/result", Text: resultsAsked, Offer: record.Done.String(), Help: results.Help(), Read: s.readResult,
	})
	result, by := resultOf(typed)
	if result == 0 {
		return false
	}
	work := record.OtherWork{Text: text, Result: result, DoneBy: by}
	work.Answer = s.answer(key, path, text, result, nil)
	s.job.OtherWork = append(s.job.OtherWork, work)
	s.look(path)
	return !s.a.Waiting()
}

// further are the tasks of the schedule that were not asked about.
func (s *session) further() []string {
	var ids []string
	for _, t := range s.Schedule.Tasks {
		if !slices.Contains(s.asked, t.ID) {
			ids = append(ids, t.ID)
		}
	}
	return ids
}
