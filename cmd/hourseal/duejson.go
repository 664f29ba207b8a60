package main

import (
	"hourseal/record"
	"hourseal/record/plan"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
	"hourseal/sign"
)

// The JSON of "hourseal due", one object a machine: keys and words are stable,
// absent values null. Hours are in total over all meters; the readings beside
// them are what the meter shows, or will.
type dueAnswer struct {
	Machine  string         `json:"machine"`
	On       quantity.Date  `json:"on"`
	Hours    quantity.Hours `json:"hours"`
	Reading  quantity.Hours `json:"reading"`
	Given    bool           `json:"hours_given"` // false: worked out from the last reading and the use
	Last     pointJSON      `json:"last_reading"`
	Basis    *string        `json:"last_estimated"` // the basis, where the last reading is an estimate
	Use      *useJSON       `json:"use"`
	Schedule scheduleThen   `json:"schedule"`
	Unknown  []string       `json:"unknown_severe_duty"` // of the last record, and no more in the schedule
	Tasks    []dueTask      `json:"tasks"`
}

type pointJSON struct {
	Date  quantity.Date  `json:"date"`
	Hours quantity.Hours `json:"hours"`
}

type useJSON struct {
	Basis    string         `json:"basis"` // readings, few-readings or machine-file
	PerYear  quantity.Hours `json:"hours_per_year"`
	Low      quantity.Hours `json:"low"`
	High     quantity.Hours `json:"high"`
	Readings int            `json:"readings"`
	Seasonal bool           `json:"seasonal"`
}

type scheduleThen struct {
	ID      string       `json:"id"`
	Edition int          `json:"edition"`
	Changed *changedJSON `json:"changed"` // null: as the last record was checked by
}

type changedJSON struct {
	Record  string `json:"record"`
	ID      string `json:"id"`
	Edition uint   `json:"edition"`
}

type dueTask struct {
	Task         string          `json:"task"`
	Title        string          `json:"title"`
	State        string          `json:"state"`
	DueHours     *quantity.Hours `json:"due_hours"`
	DueReading   *quantity.Hours `json:"due_reading"`
	DueDate      *quantity.Date  `json:"due_date"`
	By           *string         `json:"by"`
	HoursLeft    *quantity.Hours `json:"hours_left"`
	DaysLeft     *quantity.Days  `json:"days_left"`
	Expected     *quantity.Date  `json:"expected_date"`
	ExpectedFrom *quantity.Date  `json:"expected_from"`
	ExpectedTo   *quantity.Date  `json:"expected_to"`
	Last         *dueLast        `json:"last"`
	Severe       bool            `json:"severe"`
	Open         *dueOpen        `json:"open"`
	With         []string        `json:"with"`
}

type dueLast struct {
	Hours  quantity.Hours `json:"hours"`
	Date   quantity.Date  `json:"date"`
	Record *string        `json:"record"` // null: stated, not under seal
	Stated *string        `json:"stated"` // by what, where it is stated
}

type dueOpen struct {
	Date   quantity.Date `json:"date"`
	Result string        `json:"result"`
	Why    *string       `json:"why"`
	Advice *string       `json:"advice"`
}

var useWords = map[schedule.UseBasis]string{
	schedule.FromReadings: "readings", schedule.FromFewReadings: "few-readings", schedule.FromMachineFile: "machine-file",
}

func dueJSON(made plan.Plan) dueAnswer {
	answer := dueAnswer{
		Machine: made.Machine.ID, On: made.On,
		Hours: made.Hours.Total, Reading: made.Hours.Reading(made.Hours.Total), Given: made.Hours.Given,
		Last: pointJSON{made.Hours.Last.Date, made.Hours.Last.Hours}, Basis: orNull(made.Hours.Basis),
		Schedule: scheduleThen{ID: made.Schedule.ID, Edition: int(made.Schedule.Edition)},
		Unknown:  append([]string{}, made.Unknown...),
		Tasks:    []dueTask{},
	}
	if use := made.Use; use.Basis != schedule.UseUnknown {
		answer.Use = &useJSON{useWords[use.Basis], use.PerYear, use.Low, use.High, use.Readings, use.Seasonal}
	}
	if change := made.Edition; change != nil {
		answer.Schedule.Changed = &changedJSON{sign.ID(change.Record.ID).Hex(), change.Then.ID, change.Then.Edition}
	}
	for _, item := range made.Items {
		answer.Tasks = append(answer.Tasks, dueTaskJSON(made, item))
	}
	return answer
}

func dueTaskJSON(made plan.Plan, item plan.Item) dueTask {
	row := dueTask{
		Task: item.Task.ID, Title: item.Task.Title, State: item.State.String(),
		DueHours: item.Due.Hours, DueDate: item.Due.Date, By: orNull(item.By),
		HoursLeft: item.HoursLeft, DaysLeft: item.DaysLeft, Severe: item.Severe, With: append([]string{}, item.With...),
	}
	if item.Due.Hours != nil && made.Hours.Reading(*item.Due.Hours) >= 0 {
		row.DueReading = new(made.Hours.Reading(*item.Due.Hours))
	}
	if e := item.Expected; e != nil {
		row.Expected, row.ExpectedFrom, row.ExpectedTo = &e.On, &e.From, &e.To
	}
	if last := item.Last; last != nil {
		row.Last = &dueLast{Hours: last.Hours, Date: last.Date, Stated: orNull(last.Source)}
		if last.Record != nil {
			row.Last.Record = new(sign.ID(last.Record.ID).Hex())
		}
	}
	if open := item.Open; open != nil {
		row.Open = &dueOpen{Date: open.Date, Result: open.Result.String()}
		if a := open.Answer; a != nil {
			row.Open.Why, row.Open.Advice = orNull(a.Why), adviceOrNull(a.Advice)
		}
	}
	return row
}

func adviceOrNull(a record.Advice) *string {
	if a == 0 {
		return nil
	}
	return new(a.String())
}
