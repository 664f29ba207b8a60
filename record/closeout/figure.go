package closeout

import (
	"errors"
	"fmt"

	"hourseal/record"
	"hourseal/record/dialogue"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

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
