package main

import (
	"fmt"
	"strings"

	"hourseal/record"
	"hourseal/record/check"
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
		s.summary(cl)
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

// finish signs what was shown.
func (s *sitting) finish() (exitCode, error) {
	var sheets []sheet
	for _, cl := range s.closing {
		job, err := jobsheet.ParseJob(cl.file, cl.sheet.Job.YAML())
		if err != nil {
			return exitOK, err
		}
		sheet, err := s.y.sheetOf(cl.file, job)
		if err != nil {
			return exitOK, err
		}
		sheets = append(sheets, sheet)
	}
	if code, err := s.p.issueSheets(s.c, s.y, sheets, nil); err != nil || code != exitOK {
		if err == nil {
			s.p.words(s.stands())
		}
		return code, err
	}
	s.p.standing("The records are signed and stored. A job sheet still has answers in it: the same command again puts that right.")
	for _, cl := range s.closing {
		file, err := s.settle(cl)
		if err != nil {
			return exitFailed, fmt.Errorf("the record of %s is stored, its job sheet is still %s: %w", cl.id(), cl.file, err)
		}
		s.p.say("  sheet   %s", file)
	}
	return exitOK, nil
}

// summary says what a report will say: the machine and the hours, what was done and
// what was not, what was found odd, what falls due next.
func (s *sitting) summary(cl *closing) {
	done, style := cl.sheet, s.bench.yard.Style
	r := done.Result.Draft
	s.p.words(fmt.Sprintf("%s, %s %s, serial %s: %s, %s h, %s.", cl.id(), r.Machine.Make, r.Machine.Model, r.Machine.Serial,
		style.Date(r.Job.Date), style.Hours(r.Job.Hours), r.Job.Reason))
	if by := words.Joined("; ", r.Job.Number, r.Job.Place, jobsheet.ByLine(r.By)); by != "" {
		s.p.words("  " + by + ".")
	}
	for _, result := range []record.Result{record.Done, record.OK, record.Watch, record.Defect, record.Deferred} {
		if names := withResult(r, result, style); len(names) > 0 {
			s.p.words("  " + resultHeads[result] + ": " + strings.Join(names, "; ") + ".")
		}
	}
	for _, line := range aroundSummary(r) {
		s.p.words("  " + line + ".")
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
	if idle := cl.dialogue.Idle(); cl.resumed && len(idle) > 0 {
		s.p.words("  Answered before and asked by nothing now, so left out: " + strings.Join(idle, ", ") + ".")
	}
}

var resultHeads = map[record.Result]string{
	record.Done: "Done", record.OK: "In order", record.Watch: "To be looked at again", record.Defect: "Found and left", record.Deferred: "Put off",
}

// withResult names what had a result, with all that was said of it.
func withResult(r *record.Record, result record.Result, style quantity.Style) []string {
	var names []string
	add := func(name string, got record.Result, details ...string) {
		if got == result {
			if said := words.Joined("; ", details...); said != "" {
				name += " (" + said + ")"
			}
			names = append(names, name)
		}
	}
	for _, t := range r.Tasks {
		details := []string{by(t.DoneBy)}
		for _, reading := range t.Readings {
			details = append(details, jobsheet.ReadingLine(reading))
		}
		if t.LookAgain != nil {
			details = append(details, "look again "+jobsheet.LookAgainLine(*t.LookAgain, ""))
		}
		add(t.ID, t.Result, append(details, answerSaid(t.Answer, style)...)...)
	}
	for _, w := range r.OtherWork {
		add(w.Text, w.Result, append([]string{by(w.DoneBy)}, answerSaid(w.Answer, style)...)...)
	}
	return names
}

func by(name string) string {
	if name == "" {
		return ""
	}
	return "by " + name
}

// answerSaid is why something waits, what was advised, and what the owner said when.
func answerSaid(a *record.Answer, style quantity.Style) []string {
	if a == nil {
		return nil
	}
	said := []string{a.Why}
	if a.Advice != 0 {
		said = append(said, "advised "+a.Advice.String())
	}
	if a.Owner != 0 {
		said = append(said, "owner "+a.Owner.String())
	}
	if a.Told != nil {
		said = append(said, "told "+style.Date(*a.Told))
	}
	return said
}

// aroundSummary is what came out, went in and was fitted, the look for leaks and where
// the waste went, in the words in which it is typed.
func aroundSummary(r *record.Record) []string {
	var lines []string
	for _, t := range r.ToppedUp {
		lines = append(lines, words.Name(t.System)+" topped up since the last service: "+jobsheet.AmountLine(t.Amount))
	}
	for _, f := range r.Fluids {
		lines = append(lines, words.Name(f.System)+": "+fluidSaid(f))
	}
	for _, p := range r.Parts {
		lines = append(lines, words.Name(p.Item)+" fitted: "+partSaid(p))
	}
	if r.LeakCheck != nil {
		lines = append(lines, "Leaks: "+jobsheet.LeakCheckLine(*r.LeakCheck))
	}
	for _, w := range r.Waste {
		lines = append(lines, "Waste of the "+words.LowerName(w.System)+": "+jobsheet.WasteLine(w))
	}
	var files []string
	for _, f := range r.Files {
		files = append(files, f.Name)
	}
	if len(files) > 0 {
		lines = append(lines, "Files: "+strings.Join(files, ", "))
	}
	if r.Notes != "" {
		lines = append(lines, "Notes: "+strings.TrimRight(r.Notes, "."))
	}
	return lines
}

func partSaid(p record.Part) string {
	line := jobsheet.PartLine(p)
	if p.Number == "" {
		return strings.Replace(line, "-", "no number", 1)
	}
	return line
}

func fluidSaid(f record.Fluid) string {
	var parts []string
	amount := func(what string, m *quantity.Measured) {
		if m != nil {
			parts = append(parts, what+" "+jobsheet.AmountLine(*m))
		}
	}
	level := func(what string, l *record.Level) {
		if l != nil {
			parts = append(parts, what+" "+jobsheet.LevelLine(*l))
		}
	}
	level("level before", f.LevelBefore)
	amount("drained", f.Drained)
	if len(f.Saw) > 0 {
		parts = append(parts, "seen in it: "+jobsheet.SeenLine(f.Saw, f.Answer))
	}
	if product := (jobsheet.Product{Name: f.Product, Viscosity: f.Viscosity, Batch: f.Batch, Meets: f.Meets, Glycol: f.Glycol}); f.Filled != nil {
		amount("filled", f.Filled)
		parts = append(parts, jobsheet.ProductLine(product))
	}
	amount("drawn down", f.DrawnDown)
	level("level now", f.Level)
	return strings.Join(parts, "; ")
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
