package main

import (
	"fmt"
	"strings"

	"hourseal/record"
	"hourseal/record/check"
	"hourseal/record/closeout"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
	"hourseal/render/words"
)

// takeTwin is the answer that takes the like machine of the vessel next.
const takeTwin = "t"

// offerToSign says in a few lines what the reports will say, and asks whether to sign
// them, go back, or take the twin first where there is one.
func (s *sitting) offerToSign(twin string) (string, error) {
	issuable := true
	for _, cl := range s.closing {
		s.p.words("")
		s.summary(cl.base, cl.sheet)
		issuable = issuable && cl.sheet.Result.Outcome == check.Issuable
	}
	s.p.words("")
	if !issuable {
		return s.typist.choose("It cannot be signed as it stands. < goes back to the last question, n keeps the job sheet", "", "n", back)
	}
	asked, letters := "Sign this record", []string{"y", "n", back}
	if len(s.closing) > 1 {
		asked = fmt.Sprintf("Sign these %d records", len(s.closing))
	}
	asked += " for " + s.bench.yard.Name + "? It cannot be taken back. y signs, n keeps the job sheet, < goes back"
	if twin != "" {
		asked += ", t takes " + twin + " first and signs both"
		letters = append(letters, takeTwin)
	}
	return s.typist.choose(asked, "", letters...)
}

// finish signs, or says what is left.
func (s *sitting) finish(sign bool) (exitCode, error) {
	if !sign {
		s.p.tell("%s", s.stands())
		return exitDecide, nil
	}
	var files []string
	for _, cl := range s.closing {
		files = append(files, cl.file)
	}
	sheets, code, err := s.p.loadSheets(s.y, files, false)
	if err != nil || code != exitOK {
		return code, err
	}
	if code, err = s.p.issueSheets(s.c, s.y, sheets, nil); err != nil || code != exitOK {
		return code, err
	}
	s.p.standing("The records are signed and stored. A job sheet still has answers in it: the same command again puts that right.")
	for _, cl := range s.closing {
		file, err := s.settle(cl)
		if err != nil {
			return exitOK, fmt.Errorf("the record of %s is stored, its job sheet is still %s: %w", cl.id(), cl.file, err)
		}
		s.p.say("  sheet   %s", file)
	}
	return exitOK, nil
}

// summary says what a report will say: the machine and the hours, what was done and
// what was not, what was found odd, what falls due next.
func (s *sitting) summary(base sheet, done closeout.Sheet) {
	r, style := done.Result.Draft, s.bench.yard.Style
	s.p.words(fmt.Sprintf("%s, %s %s, serial %s: %s, %s h, %s.", base.machine.ID, r.Machine.Make, r.Machine.Model, r.Machine.Serial,
		style.Date(r.Job.Date), style.Hours(r.Job.Hours), r.Job.Reason))
	for _, result := range []record.Result{record.Done, record.OK, record.Watch, record.Defect, record.Deferred} {
		if names := withResult(r, result); len(names) > 0 {
			s.p.words("  " + resultHeads[result] + ": " + strings.Join(names, "; ") + ".")
		}
	}
	for _, f := range r.Fluids {
		s.p.words("  " + fluidSummary(f, style))
	}
	for _, severity := range []record.Severity{record.Refuse, record.Decide, record.Note} {
		for _, f := range done.Result.Findings {
			if f.Severity != severity {
				continue
			}
			said := severityWords[severity] + ": " + words.FindingIn(style, f.Finding)
			if f.Accepted != "" {
				said += " Reason: " + f.Accepted + "."
			}
			s.p.words("  " + said)
		}
	}
	for _, fault := range done.Result.Faults {
		s.p.words("  " + fault.Error())
	}
	if next := nextDue(done.Result.Next, style); next != "" {
		s.p.words("  Next due: " + next + ".")
	}
}

var resultHeads = map[record.Result]string{
	record.Done: "Done", record.OK: "In order", record.Watch: "To be looked at again", record.Defect: "Found and left", record.Deferred: "Put off",
}

// withResult names what had a result, with the reason where it waits.
func withResult(r *record.Record, result record.Result) []string {
	var names []string
	add := func(name string, got record.Result, answer *record.Answer) {
		if got != result {
			return
		}
		if answer != nil && answer.Why != "" {
			name += " (" + answer.Why
			if answer.Owner != 0 {
				name += "; owner " + answer.Owner.String()
			}
			name += ")"
		}
		names = append(names, name)
	}
	for _, t := range r.Tasks {
		add(t.ID, t.Result, t.Answer)
	}
	for _, w := range r.OtherWork {
		add(w.Text, w.Result, w.Answer)
	}
	return names
}

func fluidSummary(f record.Fluid, style quantity.Style) string {
	var parts []string
	add := func(what string, m *quantity.Measured) {
		if m != nil {
			parts = append(parts, what+" "+jobsheet.AmountLine(*m))
		}
	}
	add("drained", f.Drained)
	add("filled", f.Filled)
	add("drawn down", f.DrawnDown)
	if f.Level != nil && f.Level.Reading != nil {
		parts = append(parts, "level "+style.Marked(f.Level.Reading.String()))
	} else if f.Level != nil {
		parts = append(parts, "level not measured")
	}
	return words.Name(f.System) + ": " + strings.Join(parts, ", ") + "."
}

// nextDue is when tasks fall due, those that do so together in one place, the earliest
// first as the schedule lists them.
func nextDue(next []check.Next, style quantity.Style) string {
	var when []string
	tasks := map[string][]string{}
	for _, n := range next {
		var due []string
		if n.Due.Hours != nil {
			due = append(due, style.Hours(*n.Due.Hours)+" h")
		}
		if n.Due.Date != nil {
			due = append(due, style.Date(*n.Due.Date))
		}
		at := strings.Join(due, " or ")
		switch {
		case at == "":
			continue
		case n.State >= schedule.Now:
			at = "now"
		}
		if tasks[at] == nil {
			when = append(when, at)
		}
		tasks[at] = append(tasks[at], n.Task)
	}
	for i, at := range when {
		when[i] = strings.Join(tasks[at], ", ") + " " + at
	}
	return strings.Join(when, "; ")
}
