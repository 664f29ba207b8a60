package enrol

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"hourseal/record"
	"hourseal/record/dialogue"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
)

// upkeep asks for the schedule, the time in service, and how hard it works.
func (s *session) upkeep() {
	s.schedule()
	s.inService()
	if s.m.DrivenBy == "" {
		s.hoursPerYear()
	}
	s.duties()
}

func (s *session) schedule() {
	if s.a.Waiting() {
		return
	}
	said := []string{"Schedules:"}
	for i, of := range s.Schedules {
		whose := "the yard's own"
		if of.BuiltIn {
			whose = "built in"
		}
		said = append(said, fmt.Sprintf("  %d  %s, %s: %s", i+1, of.ID, whose, before(of.Title)))
	}
	s.m.Schedule = s.ask(dialogue.Question{
		Key: "schedule", Text: "Its service schedule, by number or id", Said: said, Offer: s.likelySchedule(), Read: s.readSchedule,
		Help: []string{"The maker's handbook governs. hourseal schedule show ID shows one; hourseal schedule new ID makes one the yard's own, to put the handbook's figures in."},
	})
	for _, of := range s.Schedules {
		if of.ID == s.m.Schedule {
			s.held = of.Schedule
		}
	}
}

func (s *session) readSchedule(typed string) (string, error) { return pick(s.Schedules, typed) }

// pick is the id of one of some schedules, by number or id.
func pick(of []Schedule, typed string) (string, error) {
	for _, one := range of {
		if one.ID == typed {
			return typed, nil
		}
	}
	if n, err := strconv.Atoi(typed); err == nil && n >= 1 && n <= len(of) {
		return of[n-1].ID, nil
	}
	return "", fmt.Errorf("%s is none of them: type a number from 1 to %d, or an id", dialogue.Quoted(typed), len(of))
}

// likelySchedule is that of a like machine, else the yard's own one made for the
// kind where there is only one, else the built-in one; "" for none.
func (s *session) likelySchedule() string {
	has := func(id string) bool {
		return slices.ContainsFunc(s.Schedules, func(of Schedule) bool { return of.ID == id })
	}
	if s.like != nil && has(s.like.Schedule) {
		return s.like.Schedule
	}
	if twin := s.twin(); has(twin.Schedule) {
		return twin.Schedule
	}
	if s.kind.schedule == "" {
		return ""
	}
	var own []string
	for _, of := range s.Schedules {
		if !of.BuiltIn && strings.HasPrefix(of.ID, s.kind.schedule) {
			own = append(own, of.ID)
		}
	}
	if len(own) == 1 {
		return own[0]
	}
	if has(s.kind.schedule) {
		return s.kind.schedule
	}
	return ""
}

func (s *session) inService() {
	date := s.ask(dialogue.Question{
		Key: "in-service", Text: "In service since, as 2024-03-18", Read: s.readDate,
		Help: []string{"The day of commissioning, as 2024-03-18 or 18 March 2024; today will do for one that begins now. Every task that nothing is recorded of counts from here.",
			"Where nobody knows: the earliest day for which you have the hours. Too early is the safe side."},
	})
	s.m.InService.Date = dialogue.Value(quantity.ParseDate, date)
	whose := "Hours in total on that day, 0 for a new machine"
	if s.m.DrivenBy != "" {
		whose = "Hours of " + s.m.DrivenBy + " in total on that day, 0 for a new one"
	}
	s.m.InService.Hours = dialogue.Value(jobsheet.LineHours, s.ask(dialogue.Question{
		Key: "in-service-hours", Text: whose, Read: dialogue.Reading(jobsheet.LineHours),
		Help: []string{"0 for a new machine. Hours in total, over all meters that it had."},
	}))
}

func (s *session) readDate(typed string) (string, error) {
	if strings.EqualFold(typed, "today") {
		return s.Today.String(), nil
	}
	date, err := jobsheet.LineDate(typed)
	if err == nil && date > s.Today {
		err = fmt.Errorf("%s is after today, %s", date, s.Today)
	}
	return date.String(), err
}

func (s *session) hoursPerYear() {
	likely := ""
	if s.like != nil {
		likely = figure(s.like.HoursPerYear)
	}
	text := s.ask(dialogue.Question{
		Key: "hours-a-year", Text: "Hours a year that it is expected to run, as 420", Offer: offer(likely), Dashed: "not known",
		Help: []string{"What is usual for this machine, for working out dates until its own readings tell."},
		Read: dialogue.Reading(jobsheet.LineHoursPerYear),
	})
	s.m.HoursPerYear = dialogue.Value(jobsheet.LineHoursPerYear, text)
	s.without(text, "Then no dates are worked out from its hours until its own readings tell.")
}

// duties asks for each severe duty that the schedule knows.
func (s *session) duties() {
	shortened := map[string][]string{}
	var known []string
	for _, t := range s.held.Tasks {
		if t.Severe.Factor == 0 {
			continue
		}
		if shortened[t.Severe.When] == nil {
			known = append(known, t.Severe.When)
		}
		shortened[t.Severe.When] = append(shortened[t.Severe.When], t.ID)
	}
	for i, duty := range known[:min(len(known), record.MaxDuties)] {
		runs := s.ask(dialogue.Question{
			Key: "duty/" + strconv.Itoa(i+1), Text: "Does it run under this: " + duty + "? y or n", Offer: "no", Read: dialogue.YesNo.Read,
			Said: []string{"A severe duty of the schedule, which shortens " + strings.Join(shortened[duty], ", ") + "."},
		})
		if runs == "yes" {
			s.m.SevereDuty = append(s.m.SevereDuty, duty)
		}
	}
}

// earlier asks for what is said to have been done before the first record, of a
// machine that has run.
func (s *session) earlier() {
	if s.a.Waiting() || s.m.InService.Date >= s.Today {
		return
	}
	for n := 1; n <= min(record.MaxTasks, len(s.held.Tasks)); n++ {
		q := dialogue.Question{
			Key: "earlier/" + strconv.Itoa(n), Text: "Earlier work: task, date, hours, source, as engine-oil, 2025-06-20, 501, invoice",
			Offer: dialogue.Dash, Dashed: "no more", Read: s.readEarlier,
			Help: []string{
				"Of each task the last time. The hours are in total. The source is invoice, owner (in the owner's word), or none.",
				"The tasks are " + strings.Join(s.taskIDs(), ", ") + ".",
			},
		}
		if n == 1 {
			q.Dashed = "none known"
			q.Said = []string{"What was done before your first record, if anybody knows. It is shown as stated, not under seal. A task without it counts from entry into service, which is the safe side."}
		}
		stated := dialogue.Parsed(jobsheet.LineStatement, s.ask(q))
		if stated == nil {
			return
		}
		if slices.ContainsFunc(s.m.Earlier, func(e jobsheet.Statement) bool { return e.Task == stated.Task }) {
			s.a.Refuse(q, stated.Task+" was stated already: only the last time counts")
			return
		}
		s.confirm(q.Key, s.sameDay(*stated)...)
		if s.a.Waiting() {
			return
		}
		s.m.Earlier = append(s.m.Earlier, *stated)
	}
}

// sameDay says that other work of that day has other hours.
func (s *session) sameDay(e jobsheet.Statement) []string {
	for _, other := range s.m.Earlier {
		if e.At.Date == other.At.Date && e.At.Hours != other.At.Hours {
			return []string{fmt.Sprintf("%s of the same day has %s h, this has %s h.", other.Task, other.At.Hours, e.At.Hours)}
		}
	}
	return nil
}

func (s *session) taskIDs() []string {
	ids := make([]string, len(s.held.Tasks))
	for i, t := range s.held.Tasks {
		ids[i] = t.ID
	}
	return ids
}

// readEarlier reads a statement, and holds it to the schedule and the time in service.
func (s *session) readEarlier(typed string) (string, error) {
	e, err := jobsheet.LineStatement(typed)
	if err != nil {
		return "", err
	}
	switch {
	case !slices.Contains(s.taskIDs(), e.Task):
		return "", fmt.Errorf("%s is no task of schedule %s", dialogue.Quoted(e.Task), s.held.ID)
	case e.At.Date > s.Today:
		return "", fmt.Errorf("%s is after today, %s", e.At.Date, s.Today)
	case e.At.Date < s.m.InService.Date:
		return "", fmt.Errorf("%s is before it came into service, %s", e.At.Date, s.m.InService.Date)
	case e.At.Hours < s.m.InService.Hours:
		return "", fmt.Errorf("%s h are fewer than it had when it came into service, %s h", e.At.Hours, s.m.InService.Hours)
	}
	for _, other := range s.m.Earlier {
		if e.At.Date < other.At.Date && e.At.Hours > other.At.Hours || e.At.Date > other.At.Date && e.At.Hours < other.At.Hours {
			return "", errors.New("that does not fit " + jobsheet.StatementLine(other) + ": the later date has the fewer hours")
		}
	}
	return jobsheet.StatementLine(e), nil
}
