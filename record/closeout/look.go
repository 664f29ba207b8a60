package closeout

import (
	"fmt"
	"slices"
	"strings"

	"hourseal/record"
	"hourseal/record/check"
	"hourseal/record/dialogue"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
)

// incomplete are the findings that say what is still to be stated: on the way they
// say nothing.
var incomplete = []record.Code{record.AnswerMissing, record.EvidenceMissing, record.LeakCheckMissing, record.DueNotMentioned}

// look runs the check after an answer, and deals with what it finds at these paths:
// what cannot be sends the script back to the last question, what needs a reason is
// asked for it.
func (s *session) look(paths ...string) {
	if s.a.Waiting() {
		return
	}
	s.work(s.onTheWay())
	for _, fault := range s.result.Faults {
		if fault.Field != "" { // one without speaks of the record as a whole, which is not whole yet
			s.a.Refuse(s.last, fault.Message)
			return
		}
	}
	for _, f := range s.result.Findings {
		if slices.Contains(incomplete, f.Code) || !slices.ContainsFunc(paths, func(p string) bool { return within(f.Path, p) }) {
			continue
		}
		s.settle(s.asker(f), f)
	}
}

// within says whether a path is another, or below it.
func within(path, of string) bool { return path == of || strings.HasPrefix(path, of+"/") }

// check works the job out as it stands.
func (s *session) check() {
	s.work(s.job)
	s.job.Accept = s.fitting(s.reasons)
}

// work works a job out, with those reasons that answer something.
func (s *session) work(job jobsheet.Job) {
	job.Accept = nil
	s.result = s.Check(job)
	if fit := s.fitting(s.reasons); len(fit) > 0 {
		job.Accept = fit
		s.result = s.Check(job)
	}
}

// onTheWay is the job with what is still to be asked of its fluids as not measured,
// since the check says nothing of a fluid of which evidence is missing.
func (s *session) onTheWay() jobsheet.Job {
	job := s.job
	job.Fluids = slices.Clone(job.Fluids)
	for _, e := range jobsheet.EvidenceFor(s.done) {
		i := slices.IndexFunc(job.Fluids, func(f record.Fluid) bool { return f.System == e.System })
		if i < 0 {
			continue
		}
		f := &job.Fluids[i]
		if e.Drained && f.Drained == nil {
			f.Drained = &quantity.Measured{NotMeasured: true}
		}
		if e.Filled && f.Filled == nil {
			f.Filled = &quantity.Measured{NotMeasured: true}
		}
		if e.Level && f.Level == nil {
			f.Level = &record.Level{}
		}
	}
	return job
}

// fitting are the reasons that are still asked for: a later answer may have settled
// what one was given for.
func (s *session) fitting(reasons []jobsheet.Accept) []jobsheet.Accept {
	var fit []jobsheet.Accept
	for _, r := range reasons {
		if slices.ContainsFunc(s.result.Findings, func(f check.Finding) bool {
			return f.Severity == record.Decide && f.Code.String() == r.Code && f.Subject == r.Subject
		}) {
			fit = append(fit, r)
		}
	}
	return fit
}

// settle sends the script back to a question for what cannot be, and asks the reason
// for what needs one.
func (s *session) settle(q dialogue.Question, f check.Finding) {
	if s.a.Waiting() || f.Severity == record.Note || f.Accepted != "" {
		return
	}
	says, hint := s.Words.Finding(f)
	hint = atQuestions(f.Code, hint)
	if f.Severity == record.Refuse {
		s.a.Refuse(q, says+" To do: "+hint+".")
		return
	}
	code, key := f.Code.String(), "reason/"+f.Code.String()
	if f.Subject != "" {
		key += "/" + f.Subject
	}
	if slices.ContainsFunc(s.reasons, func(r jobsheet.Accept) bool { return r.Code == code && r.Subject == f.Subject }) {
		return
	}
	why := s.ask("accept/"+code, dialogue.Question{
		Key:  key,
		Text: "If it is right as written, the reason; < goes back to correct it",
		Said: []string{says}, BackTo: q.Key,
		Help: []string{"To correct it: " + hint + ".", "The reason is signed with the record and printed on the report."},
		Read: s.inWords,
	})
	if why == "" {
		return
	}
	s.reasons = append(s.reasons, jobsheet.Accept{Code: code, Subject: f.Subject, Reason: why})
}

// readAgain is what to do about hours that cannot be.
const readAgain = "read the meter again; where another meter was fitted, type " + changed + "; a wrong date is corrected by <"

// atBench are hints in the place of those that tell how a thing is written on a sheet.
var atBench = map[record.Code]string{
	record.HoursBelowInService: readAgain,
	record.HoursBelowEarlier:   readAgain,
	record.HoursOutrunClock:    readAgain,
	record.AnswerMissing:       "say why",
	record.LevelWaitUnstated:   "write behind it how long the engine had stood, as 0.85 after 15 min",
	record.DueNotMentioned:     "< leads to its question; if there is nothing to be said of it, give the reason",
	record.LeakCheckMissing:    "run the engine, look, and say what was seen: < leads to the question; if that cannot be, give the reason",
}

// keysSaid are what the sheet's keys are called in hints, in words.
var keysSaid = strings.NewReplacer(
	"drained_includes_filter where a filter was changed", "whether the old filter's oil is in it",
	"drained_includes_filter", "whether the old filter's oil is in it",
	"at_upper or holds in the machine file", "what the machine file says that the system holds",
	"at_upper", "what the machine file has at the upper mark",
	"level_before", "the level before", "drawn_down", "what was drawn off", "topped_up", "what was topped up",
	"job_number", "the job number", "leak_check", "the look for leaks", "in_service", "entry into service",
	"write that under seen", "say so at what was seen", "write what was found under seen", "say what was found at what was seen",
)

// atQuestions is a hint without what speaks of the job sheet's keys.
func atQuestions(code record.Code, hint string) string {
	if hint, is := atBench[code]; is {
		return hint
	}
	before, _, _ := strings.Cut(hint, " under accept: ")
	return keysSaid.Replace(before)
}

// inWords reads a reason that says something to whoever reads the report: not a y for
// yes.
func (s *session) inWords(typed string) (string, error) {
	const fewest = 4 // characters
	if len([]rune(typed)) < fewest {
		return "", fmt.Errorf("%s says nothing to a reader: say why in a few words", dialogue.Quoted(typed))
	}
	return s.reasonText(typed)
}

// ending checks the whole, and goes back to what is missing.
func (s *session) ending() {
	if s.a.Waiting() {
		return
	}
	s.check()
	for _, severity := range []record.Severity{record.Refuse, record.Decide} {
		for _, f := range s.result.Findings {
			if f.Severity == severity {
				s.settle(s.asker(f), f)
			}
		}
	}
	if !s.a.Waiting() {
		s.check()
	}
}

// asker is the question that asked for what a finding speaks of.
func (s *session) asker(f check.Finding) dialogue.Question {
	switch f.Code {
	case record.DueNotMentioned:
		if q, ok := s.places[taskPlace(f.Subject)]; ok {
			return q
		}
	case record.LeakCheckMissing:
		return s.places["leak_check"]
	}
	for p := f.Path; p != ""; p = parent(p) {
		if q, ok := s.places[p]; ok {
			return q
		}
	}
	return s.last
}

// taskPlace is where the question about a task is found, whatever place the task has on
// the sheet, or none.
func taskPlace(id string) string { return "task " + id }

func parent(path string) string {
	i := strings.LastIndexByte(path, '/')
	if i < 0 {
		return ""
	}
	return path[:i]
}
