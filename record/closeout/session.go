package closeout

import (
	"hourseal/record"
	"hourseal/record/check"
	"hourseal/record/dialogue"
	"hourseal/record/fluid"
	"hourseal/record/jobsheet"
	"hourseal/record/logbook"
	"hourseal/record/plan"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// Input is what a session works from.
type Input struct {
	Machine  jobsheet.Machine
	Schedule schedule.Schedule
	Log      logbook.Log
	Today    quantity.Date
	// Visit is what was answered about another machine of the same visit; zero for none.
	Visit Visit

	// Files are the names of those that were attached to the sheet by now.
	Files func() []string

	// Check works out the job as it stands.
	Check func(jobsheet.Job) check.Result
	// Plan is what the machine needs on a date, at a reading where there is one.
	Plan func(on quantity.Date, reading *quantity.Hours) (plan.Plan, error)
	// Printable says whether a text can be printed.
	Printable func(text string) error
	Words     Words
	Doubt     fluid.Doubt // how well the yard measures
}

// Words are how what was found is told, in the words of the other commands.
type Words struct {
	Finding func(check.Finding) (says, hint string)
	Item    func(plan.Plan, plan.Item) string // when a task falls due
	Style   quantity.Style
	// Cautions are what whoever runs the machine has to mind.
	Cautions []string
}

// Visit is what machines serviced together have in common.
type Visit struct {
	Date   quantity.Date
	Reason record.Reason
	Place  string
	By     record.By
	Fluids []record.Fluid // what was filled
	Parts  []record.Part
}

// Sheet is what a session has come to.
type Sheet struct {
	Job jobsheet.Job
	// Result is of the whole job, once nothing more is asked.
	Result check.Result
}

// Visit is what the sheet has in common with others of the visit.
func (s Sheet) Visit() Visit {
	return Visit{Date: s.Job.Date, Reason: s.Job.Reason, Place: s.Job.Place, By: s.Job.By, Fluids: s.Job.Fluids, Parts: s.Job.Parts}
}

// Script asks for one machine's job; what it has come to stands in sheet after each
// answer.
func Script(in Input, sheet *Sheet) dialogue.Script {
	return func(a *dialogue.Asker) {
		s := &session{Input: in, a: a, job: jobsheet.Job{Machine: in.Machine.ID, Files: in.Files()}, places: map[string]dialogue.Question{}}
		s.visit()
		s.plannedTasks()
		s.otherWork()
		s.fluids()
		s.parts()
		s.leakCheck()
		s.levels()
		s.waste()
		s.notes()
		s.ending()
		*sheet = Sheet{Job: s.job, Result: s.result}
		sheet.Job.Accept = s.fitting(s.reasons)
	}
}

// session is one run of the script.
type session struct {
	Input
	a       *dialogue.Asker
	job     jobsheet.Job
	made    plan.Plan
	asked   []string                     // ids of tasks
	done    []schedule.Task              // what counts as done
	places  map[string]dialogue.Question // what asks for the value at a path of the sheet
	last    dialogue.Question            // the one that was answered last
	reasons []jobsheet.Accept
	result  check.Result
}

// ask asks for the value at a path of the job sheet.
func (s *session) ask(path string, q dialogue.Question) string {
	text := s.a.Ask(q)
	if text != "" {
		s.places[path], s.last = q, q
	}
	return text
}
