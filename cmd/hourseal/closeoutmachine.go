package main

import (
	"fmt"
	"slices"
	"strconv"

	"hourseal/record/dialogue"
	"hourseal/record/plan"
	"hourseal/record/schedule"
)

// mostListed is how many machines are listed to choose from.
const mostListed = 12

// chooseMachine lists the machines, the most urgent first, and asks for one.
func (s *sitting) chooseMachine() (string, error) {
	ids, err := s.y.files.MachineIDs()
	if err != nil {
		return "", err
	}
	if len(ids) == 0 {
		return "", usageError{"there is no machine yet in this yard", "hourseal machine new"}
	}
	s.planner.on = s.p.today()
	_, plans := s.p.plansOf(s.planner, ids)
	var rows [][]string
	for i, made := range plans[:min(len(plans), mostListed)] {
		rows = append(rows, []string{strconv.Itoa(i + 1), made.Machine.ID, machineName(made), dueCount(made)})
	}
	s.p.list(rows)
	if more := len(ids) - len(rows); more > 0 {
		s.p.words(fmt.Sprintf("and %d more: hourseal due lists them.", more))
	}
	for {
		s.p.prompt(dialogue.Question{Text: "Machine, by number or id"})
		typed, ok, err := s.typist.line()
		if err != nil {
			return "", err
		}
		if n, err := strconv.Atoi(typed); err == nil && n >= 1 && n <= len(rows) {
			return rows[n-1][1], nil
		}
		if slices.Contains(ids, typed) {
			return typed, nil
		}
		if ok {
			s.p.words("  " + fmt.Sprintf("%q is none of them.", typed))
		}
	}
}

// list prints rows of a short list beside the questions.
func (p *program) list(rows [][]string) {
	for _, row := range rows {
		line := row[0] + "  " + row[1]
		for _, cell := range row[2:] {
			line += ", " + cell
		}
		p.words(line)
	}
}

// dueCount says how much of a machine's schedule is due.
func dueCount(made plan.Plan) string {
	count := map[schedule.State]int{}
	for _, item := range made.Items {
		count[item.State]++
	}
	due := count[schedule.Now] + count[schedule.Overdue]
	switch {
	case due > 0:
		return fmt.Sprintf("%d due", due)
	case count[schedule.Soon] > 0:
		return fmt.Sprintf("%d soon due", count[schedule.Soon])
	}
	return "nothing recorded as due"
}

// greet says how to answer, and which machine it is about.
func (s *sitting) greet(cl *closing, kept int) {
	if len(s.closing) == 1 {
		s.p.words("An empty line takes what stands in [ ]; ? explains, < goes back, - is not measured or none. Ctrl-C stops, and what was answered is kept.")
	}
	s.p.words("")
	m := cl.base.machine
	s.p.words(fmt.Sprintf("%s: %s, serial %s. Compare the name plate.", m.ID, machineName(plan.Plan{Machine: m}), m.Serial))
	if kept > 0 {
		s.p.words(fmt.Sprintf("Going on after %s.", countOf(strconv.Itoa(kept), "answer")))
	}
}

// twin is a like machine of the vessel of which there is nothing for this visit; ""
// for none.
func (s *sitting) twin() (string, error) {
	first := s.closing[0]
	fleet, err := s.bench.fleet()
	if err != nil {
		return "", err
	}
	for _, other := range fleet {
		if !alike(first.base.machine, other) || slices.ContainsFunc(s.closing, func(cl *closing) bool { return cl.id() == other.ID }) {
			continue
		}
		chain, err := s.bench.chain(other.ID)
		if err != nil {
			return "", err
		}
		if n := len(chain); n == 0 || chain[n-1].Record.Job.Date < first.sheet.Job.Date {
			return other.ID, nil
		}
	}
	return "", nil
}
