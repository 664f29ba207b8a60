package jobsheet

import (
	"go.yaml.in/yaml/v3"

	"hourseal/record"
	"hourseal/record/quantity"
)

// answerForm is what may be said of work that waits.
var answerForm = form{
	{"why", "the reason, as part on order", optional},
	{"advice", "before-use, next-service or monitor", optional},
	{"told", "the date on which the owner was told, as 2026-05-04", optional},
	{"owner", "agreed, declined or awaiting", optional},
}

var (
	taskForm = append(form{
		{"id", "a task of the schedule, as engine-oil", required},
		{"result", "done, ok, watch, defect or deferred", required},
		{"look_again", "{ hours: 900 } or { date: 2026-10-01 }", optional},
		{"reading", "a name and a figure with its unit, as { freezing_point: -27 C }", optional},
		{"done_by", "the subcontractor's name", optional},
	}, answerForm...)
	otherWorkForm = append(form{
		{"text", "what was done or found, as Tightened the exhaust clamp", required},
		{"result", "done, ok, watch, defect or deferred", required},
		{"done_by", "the subcontractor's name", optional},
	}, answerForm...)
	lookAgainForm = form{
		{"hours", "the hour-meter reading to look again at, as 900", optional},
		{"date", "the date to look again on, as 2026-10-01", optional},
	}
	twoFiguresForm = form{
		{"as_found", "the figure before the work, as 0.25 mm", optional},
		{"as_left", "the figure after the work, as 0.20 mm", optional},
	}
)

func task(f fields) record.Task {
	look := group(f, "look_again", lookAgainForm, lookAgain)
	if e := f.values["look_again"]; look != nil && e.node.Kind == yaml.MappingNode && len(e.node.Content) == 0 {
		e.fail("neither hours nor a date: write %s", e.want)
	}
	return record.Task{
		ID:        one(f, "id", id),
		Result:    one(f, "result", enum[record.Result](record.ResultWords)),
		Answer:    answer(f),
		LookAgain: look,
		Readings:  readings(f),
		DoneBy:    one(f, "done_by", text),
	}
}

func otherWork(f fields) record.OtherWork {
	return record.OtherWork{
		Text:   one(f, "text", reason),
		Result: one(f, "result", enum[record.Result](record.ResultWords)),
		Answer: answer(f),
		DoneBy: one(f, "done_by", text),
	}
}

// answer gives nil where nothing is said.
func answer(f fields) *record.Answer {
	a := record.Answer{
		Why:    one(f, "why", reason),
		Advice: one(f, "advice", enum[record.Advice](record.AdviceWords)),
		Told:   maybe(f, "told", quantity.ParseDate),
		Owner:  one(f, "owner", enum[record.OwnerAnswer](record.OwnerWords)),
	}
	if a == (record.Answer{}) {
		return nil
	}
	return &a
}

func lookAgain(f fields) record.LookAgain {
	return record.LookAgain{Hours: maybe(f, "hours", quantity.ParseHours), Date: maybe(f, "date", quantity.ParseDate)}
}

// readings reads the figures in the order in which they stand.
func readings(f fields) []record.Reading {
	e, there := f.values["reading"]
	if !there || !e.usable(yaml.MappingNode) {
		return nil
	}
	var read []record.Reading
	for k, value := range e.pairs() {
		if e.leavesOut(value) {
			continue
		}
		if err := record.CheckText(k.Value, record.MaxText); err != nil || k.Value == "" {
			e.sheet.fault(posOf(k), e.field, "%s is no name for a reading: write one as freezing_point", show(k.Value))
			continue
		}
		child := e.child(k, value, key{name: k.Value, want: "a figure with its unit, as -27 C, or { as_found: 0.25 mm, as_left: 0.20 mm }"})
		r := record.Reading{Name: k.Value}
		if value.Kind == yaml.MappingNode {
			two := child.fields(twoFiguresForm)
			r.AsFound, r.AsLeft = maybe(two, "as_found", quantity.ParseFigure), maybe(two, "as_left", quantity.ParseFigure)
			if len(value.Content) == 0 {
				child.fail("nothing written: write %s", child.want)
			}
		} else if figure, ok := scalar(child, quantity.ParseFigure); ok {
			r.Value = &figure
		}
		read = append(read, r)
	}
	if len(read) > record.MaxReadings {
		e.fail("%d readings, at most %d fit in one task", len(read), record.MaxReadings)
	}
	return read
}
