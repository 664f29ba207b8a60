package closeout

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"hourseal/record"
	"hourseal/record/dialogue"
	"hourseal/record/jobsheet"
)

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
