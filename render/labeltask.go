package render

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"hourseal/record"
	"hourseal/record/schedule"
	"hourseal/render/words"
)

// labelTask is the work that a label is for.
type labelTask struct {
	what   string
	system string // the fluid that goes with it, where there is one
	due    schedule.Due
}

// labelFirst are the tasks that a label is for when none is named, the first of
// them that was done: what a technician looks for on the filter.
var labelFirst = []string{"engine-oil", "oil-filter", "gear-oil", "drive-oil"}

// systemOf names a task's fluid where the two are called differently.
var systemOf = map[string]string{"oil-filter": "engine-oil"}

// doneHere says whether a task was done on this job: a look that found nothing
// to do counts, a replacement that was not needed does not. What was found and
// left, or has to be looked at again, belongs on the report and not on a label.
func doneHere(t *record.Task) bool {
	return t.Result == record.Done || t.Result == record.OK && t.Kind != schedule.Replace
}

// labelTaskOf picks the work that a label is for: the named task; else the first
// of labelFirst that was done on the job; else the first of the schedule that
// was, a replacement before a look. A task that is not named takes along those that share its label, and is
// due next when the first of them is.
func labelTaskOf(r *record.Record, named string, texts words.LabelTexts) (labelTask, error) {
	var done []*record.Task
	for i := range r.Tasks {
		if t := &r.Tasks[i]; doneHere(t) {
			done = append(done, t)
		}
	}
	find := func(id string) *record.Task {
		if i := slices.IndexFunc(done, func(t *record.Task) bool { return t.ID == id }); i >= 0 {
			return done[i]
		}
		return nil
	}
	if len(done) == 0 {
		return labelTask{}, errors.New("no task was done on this job: there is nothing to put on a label")
	}
	if named != "" {
		t := find(named)
		if t == nil {
			return labelTask{}, notDone(r, named, done)
		}
		return ofOne(t, texts), nil
	}
	main := done[0]
	if i := slices.IndexFunc(done, func(t *record.Task) bool { return t.Kind == schedule.Replace }); i >= 0 {
		main = done[i]
	}
	for _, id := range labelFirst {
		if t := find(id); t != nil {
			main = t
			break
		}
	}
	chosen := ofOne(main, texts)
	for _, group := range texts.Together {
		if main.Kind != schedule.Replace || !slices.Contains(group.Tasks, main.ID) {
			continue
		}
		due, all := main.Due, true
		for _, id := range group.Tasks {
			t := find(id)
			if t == nil || t.Kind != schedule.Replace {
				all = false
				break
			}
			due = due.Earlier(t.Due)
		}
		if all {
			chosen.what, chosen.due = group.What, due
			break
		}
	}
	return chosen, nil
}

func ofOne(t *record.Task, texts words.LabelTexts) labelTask {
	task := labelTask{what: t.Title, system: t.ID, due: t.Due}
	if what, ok := texts.What[t.ID]; ok && t.Kind == schedule.Replace {
		task.what = what
	}
	if system, ok := systemOf[t.ID]; ok {
		task.system = system
	}
	return task
}

// notDone says why there is no label for a task, and names those that have one.
func notDone(r *record.Record, named string, done []*record.Task) error {
	const most = 6 // ids in a message; the report lists all
	var ids []string
	for _, t := range done[:min(len(done), most)] {
		ids = append(ids, t.ID)
	}
	others := strings.Join(ids, ", ")
	if len(done) > most {
		others += ", ..."
	}
	if slices.ContainsFunc(r.Tasks, func(t record.Task) bool { return t.ID == named }) {
		return fmt.Errorf("task %s was not done on this job: name one of %s", named, others)
	}
	return fmt.Errorf("the record has no task %q: name one of %s", named, others)
}
