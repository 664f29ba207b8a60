package verify_test

import (
	"slices"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/recordtest"
	"hourseal/verify"
	"hourseal/verify/history"
)

// dueLines are the lines of what falls due next; nil without that section.
func dueLines(r verify.Result) []string {
	for _, section := range r.Sections(verify.Terminal) {
		if section.Heading == "What falls due next" {
			return section.Lines
		}
	}
	return nil
}

// stateOf is the state that the lines give a task by its title.
func stateOf(lines []string, title string) string {
	for _, line := range lines {
		if after, is := strings.CutPrefix(line, title+": "); is {
			for _, state := range []string{"overdue", "due soon", "due", "later"} {
				if strings.HasPrefix(after, state+", ") {
					return state
				}
			}
			return ""
		}
	}
	return "no line"
}

// TestDueAgreesWithHistory: what is overdue, and due within its grace, of a record by
// itself is what the history of that one record says, over fourteen months and 240 hours.
func TestDueAgreesWithHistory(t *testing.T) {
	r := recordtest.Example()
	for i := range r.Tasks {
		r.Tasks[i].LookAgain = nil // of which a history makes a question
	}
	sealed := seal(t, r, yardSeed)
	seen := map[string]int{}
	runs := 0
	for days := quantity.Days(0); days <= 430; days += 5 {
		for run := quantity.Hours(0); run <= 240*quantity.Hour; run += 8 * quantity.Hour {
			on, now := r.Job.Date.AddDays(days), r.Job.Hours+run
			reader := buyer(t)
			reader.On, reader.Hours = &on, &now
			got := verify.Run(sealed.envelope, reader, noPage)
			h := history.Assess(history.Input{Trust: reader.Trust, On: &on, Hours: &now, Items: []history.Item{{Name: "record.cose", Result: got}}})
			stands := h.Machines[0].Stands
			lines := dueLines(got)
			for _, task := range r.Tasks {
				if task.Last == nil || task.Last.Stated {
					continue
				}
				i := slices.IndexFunc(stands.Tasks, func(s history.Standing) bool { return s.Task == task.ID })
				want := map[history.Adherence][]string{history.Late: {"overdue"}, history.InGrace: {"due"}, history.Inside: {"due soon", "later"}}[stands.Tasks[i].All.At.State]
				state := stateOf(lines, task.Title)
				if !slices.Contains(want, state) {
					t.Fatalf("on %s at %s: %s is %q, history has %s\n%s", on, now, task.ID, state, stands.Tasks[i].All.At.State, strings.Join(lines, "\n"))
				}
				seen[state]++
			}
			runs++
		}
	}
	for _, state := range []string{"overdue", "due", "due soon", "later"} {
		if seen[state] == 0 {
			t.Errorf("no task was %s", state)
		}
	}
	t.Logf("%d days and readings: %v", runs, seen)
}

// The edges of the states, by a task every 200 h or 12 months with the record's grace;
// the bounds are worked out by hand.
func TestDueEdges(t *testing.T) {
	const oil = "Change the engine oil" // due at 1012.6 h or on 2027-05-04; grace 10 h and 14 days
	r := recordtest.Example()
	i := slices.IndexFunc(r.Tasks, func(t record.Task) bool { return t.Title == oil })
	if task := r.Tasks[i]; task.Due.Hours.String() != "1012.6" || task.Due.Date.String() != "2027-05-04" || task.Every.Hours.String() != "200" {
		t.Fatalf("the example's task is another: %+v", task)
	}
	leeway := r.Tasks[i].Leeway
	sealed := seal(t, r, yardSeed)
	for _, c := range []struct {
		on, meter string
		hours     quantity.Hours // beside the meter
		days      quantity.Days  // beside the day
		want      string
	}{
		{"2026-06-01", "992.5", 0, 0, oil + ": later, at 1012.6 h or on 2027-05-04."},
		{"2026-06-01", "992.6", 0, 0, oil + ": due soon, at 1012.6 h (in 20 h) or on 2027-05-04 (in 337 days)."},
		{"2026-06-01", "1012.59", 0, 0, oil + ": due soon, at 1012.6 h (in 0.01 h) or on 2027-05-04 (in 337 days)."},
		{"2026-06-01", "1012.6", 0, 0, oil + ": due, at 1012.6 h."},
		{"2026-06-01", "1012.6", leeway.Hours, 0, oil + ": due, at 1012.6 h (" + leeway.Hours.String() + " h ago)."},
		{"2026-06-01", "1012.61", leeway.Hours, 0, oil + ": overdue, at 1012.6 h (" + (leeway.Hours + 1).String() + " h ago)."},
		{"2027-04-03", "900", 0, 0, oil + ": later, at 1012.6 h or on 2027-05-04."},
		{"2027-04-04", "900", 0, 0, oil + ": due soon, at 1012.6 h (in 112.6 h) or on 2027-05-04 (in 30 days)."},
		{"2027-05-03", "900", 0, 0, oil + ": due soon, at 1012.6 h (in 112.6 h) or on 2027-05-04 (in 1 day)."},
		{"2027-05-04", "900", 0, 0, oil + ": due, on 2027-05-04 (today)."},
		{"2027-05-04", "900", 0, leeway.Days, oil + ": due, on 2027-05-04 (" + leeway.Days.String() + " days ago)."},
		{"2027-05-05", "900", 0, leeway.Days, oil + ": overdue, on 2027-05-04 (" + (leeway.Days + 1).String() + " days ago)."},
		{"2027-05-03", "", 0, 0, oil + ": due soon, at 1012.6 h or on 2027-05-04 (in 1 day)."},
		{"2026-06-01", "", 0, 0, oil + ": at 1012.6 h or on 2027-05-04."},
	} {
		reader := buyer(t)
		reader.On = new(date(t, c.on).AddDays(c.days))
		if c.meter != "" {
			reader.Hours = new(*hours(t, c.meter) + c.hours)
		}
		lines := dueLines(verify.Run(sealed.envelope, reader, noPage))
		if !slices.Contains(lines, c.want) {
			t.Errorf("on %s at %q:\nwant %s\ngot  %s", reader.On, c.meter, c.want, strings.Join(lines, "\n     "))
		}
	}
}

// A second look that was asked for is called one, or it would gainsay the record's own
// due points. The example's belt is due every 200 h or 12 months, next at 1012.6 h or on
// 2027-05-04; what has to come out is worked out by hand.
func TestDueLookAgain(t *testing.T) {
	const belt = "Look over the drive belt"
	for _, c := range []struct{ lookHours, lookDate, on, meter, want string }{
		{"900", "", "2026-06-01", "", "on 2027-05-04 or to be looked at again at 900 h."},
		{"900", "", "2026-06-01", "890", "due soon, on 2027-05-04 (in 337 days) or to be looked at again at 900 h (in 10 h)."},
		{"900", "", "2026-06-01", "905", "due, to be looked at again at 900 h (5 h ago)."},
		{"900", "", "2027-05-04", "905", "due, on 2027-05-04 (today) and to be looked at again at 900 h (5 h ago)."},
		{"", "2026-12-01", "2026-12-01", "880", "due, to be looked at again on 2026-12-01 (today)."},
		{"900", "2026-12-01", "2026-06-01", "820", "later, to be looked at again at 900 h or on 2026-12-01."},
		{"900", "2026-12-01", "2026-12-03", "905", "due, to be looked at again at 900 h (5 h ago) and on 2026-12-01 (2 days ago)."},
		{"1012.6", "", "2026-06-01", "1012.6", "due, at 1012.6 h."}, // the interval's own point
		{"1200", "", "2026-06-01", "820", "later, at 1012.6 h or on 2027-05-04."},
	} {
		r := recordtest.Example()
		task := &r.Tasks[slices.IndexFunc(r.Tasks, func(t record.Task) bool { return t.Title == belt })]
		task.LookAgain = &record.LookAgain{}
		if c.lookHours != "" {
			task.LookAgain.Hours = hours(t, c.lookHours)
		}
		if c.lookDate != "" {
			task.LookAgain.Date = date(t, c.lookDate)
		}
		reader := buyer(t)
		reader.On = date(t, c.on)
		if c.meter != "" {
			reader.Hours = hours(t, c.meter)
		}
		if lines := dueLines(verify.Run(seal(t, r, yardSeed).envelope, reader, noPage)); !slices.Contains(lines, belt+": "+c.want) {
			t.Errorf("%+v:\n%s", c, strings.Join(lines, "\n"))
		}
	}
}

// Nothing is said of what falls due where content is kept back, the day is not told,
// or the record tells of no work.
func TestDueIsContent(t *testing.T) {
	sealed := example(t)
	void := recordtest.Example()
	void.Kind, void.Subject = record.Void, &record.Subject{Why: "entered twice"}
	void.Job.Meter = record.Meter{State: record.NoMeter, Basis: "as in record 3, nothing was read"}
	on := date(t, "2027-06-01")
	trusting := verify.Reader{Trust: buyer(t).Trust, On: on}
	for name, got := range map[string]verify.Result{
		"signer not known": verify.Run(sealed.envelope, verify.Reader{On: on}, noPage),
		"other serial":     verify.Run(sealed.envelope, verify.Reader{Trust: trusting.Trust, On: on, Serial: "7"}, noPage),
		"page not made":    verify.Run(sealed.pdf(t), trusting, noPage),
		"no day":           verify.Run(sealed.envelope, buyer(t), noPage),
		"a void":           verify.Run(seal(t, void, yardSeed).envelope, trusting, noPage),
		"a list":           verify.Run(sealList(t, exampleList(), yardSeed), trusting, noPage),
	} {
		if lines := dueLines(got); lines != nil {
			t.Errorf("%s (%s): %q", name, got.Verdict, lines)
		}
	}
	if lines := dueLines(verify.Run(sealed.envelope, trusting, noPage)); len(lines) < 2 {
		t.Errorf("a record that holds: %q", lines)
	}
}

// No record makes more than a dozen lines, and none is left out of the count.
func TestDueLinesAreFew(t *testing.T) {
	r := recordtest.Longest()
	r.Kind, r.Subject = record.Service, nil
	reader := buyer(t)
	reader.On = date(t, "2027-06-01")
	lines := dueLines(verify.Run(seal(t, r, yardSeed).envelope, reader, noPage))
	if len(lines) != 9 || !strings.HasPrefix(lines[8], "Besides these: ") {
		t.Errorf("%d lines: %q", len(lines), lines)
	}
	order := []string{"overdue", "due", "due soon", "later", ""}
	worst := 0
	for _, line := range lines[1:8] {
		title, _, _ := strings.Cut(line, ": ")
		place := slices.Index(order, stateOf(lines, title))
		if place < worst {
			t.Errorf("out of order: %q", lines)
		}
		worst = place
	}
	t.Log(lines[8])
}
