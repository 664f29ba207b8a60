package plan_test

import (
	"bytes"
	"cmp"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"text/tabwriter"

	"hourseal/record"
	"hourseal/record/check"
	"hourseal/record/jobsheet"
	"hourseal/record/plan"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

var update = flag.Bool("update", false, "write the golden files anew: read them line by line afterwards")

const historyFiles = "testdata/history"

// step is one thing that happens in the five years: a job sheet, or a question on
// a day between two jobs.
type step struct {
	name    string // of the sheet, without its ending; of a question, its date
	edition string // of the schedule in force
	note    string
	reading string // of a question: off the meter; "" without
	// instead names the sheet whose record this one stands in the place of.
	instead string
}

// fiveYears is the life of Gannet's port engine from its entry into service on
// 2021-08-31 at 0 h, each sheet in the order in which it was issued.
var fiveYears = []step{
	{name: "01", edition: "1", note: "the first service, a little early"},
	{name: "02", edition: "1", note: "coolant, 10 days late and in its grace"},
	{name: "2022-07-01", edition: "1", note: "asked without a reading"},
	{name: "2022-09-25", edition: "1", note: "asked in the morning, with a reading", reading: "390"},
	{name: "03", edition: "1", note: "oil past its grace, valves early, coolant past its grace, impeller put off"},
	{name: "04", edition: "1", note: "the impeller that was put off"},
	{name: "05", edition: "1", note: "oil early, filter late, the belt to be looked at again"},
	{name: "06", edition: "1", note: "another meter, the old one's last reading known; severe duty from here"},
	{name: "07", edition: "1", note: "oil late by the shortened interval; a new belt, which was looked at too"},
	{name: "08", edition: "1", note: "severe duty ends; valves late on their grid; oil in its grace; impeller late"},
	{name: "09", edition: "1", note: "the meter has stopped; the belt found frayed"},
	{name: "10", edition: "1", note: "another meter, the old one's last reading unknown; a new belt"},
	{name: "11", edition: "1", note: "lay-up; coolant 91 days late"},
	{name: "2025-03-01", edition: "2", note: "asked without a reading, after the schedule was changed"},
	{name: "2025-03-21", edition: "2", note: "asked with a reading, on the last day and hour of a grace", reading: "226.5"},
	{name: "12", edition: "2", note: "the first job by edition 2; impeller put off against advice"},
	{name: "13", edition: "2", note: "oil in its grace by the new interval"},
	{name: "14", edition: "2", note: "a reading with two figures swapped"},
	{name: "15", edition: "2", note: "its correction", instead: "14"},
	{name: "16", edition: "2", note: "coolant before its window, filter and belt within their grace"},
	{name: "17", edition: "2", note: "five years on"},
}

// life is the machine as the steps are taken.
type life struct {
	yard      jobsheet.Yard
	machine   jobsheet.Machine
	schedules map[string]schedule.Schedule // by edition
	chain     []record.Earlier
	issued    map[string]int // the place in the chain, by sheet
}

func historyFile(t *testing.T, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(historyFiles, name))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func newLife(t *testing.T) *life {
	t.Helper()
	l := &life{schedules: map[string]schedule.Schedule{}, issued: map[string]int{}}
	var err error
	if l.yard, err = jobsheet.ParseYard("yard.yaml", historyFile(t, "yard.yaml")); err != nil {
		t.Fatal(err)
	}
	if l.machine, err = jobsheet.ParseMachine("gannet-port.yaml", historyFile(t, "gannet-port.yaml")); err != nil {
		t.Fatal(err)
	}
	for _, edition := range []string{"1", "2"} {
		name := "schedule-" + edition + ".yaml"
		s, source, err := jobsheet.ParseSchedule(name, historyFile(t, name))
		if err != nil {
			t.Fatal(err)
		}
		if faults := jobsheet.Contradictions(s, source, []jobsheet.Machine{l.machine}); len(faults) > 0 {
			t.Fatal(faults)
		}
		l.schedules[edition] = s
	}
	return l
}

// take takes a step and gives the plan of that day, and what the check said of
// the job.
func (l *life) take(t *testing.T, s step) (plan.Plan, []record.Finding) {
	t.Helper()
	in := plan.Input{Machine: l.machine, Schedule: l.schedules[s.edition]}
	var said []record.Finding
	if on, err := quantity.ParseDate(s.name); err == nil {
		in.On = on
		if s.reading != "" {
			reading, err := quantity.ParseHours(s.reading)
			if err != nil {
				t.Fatal(err)
			}
			in.Reading = &reading
		}
	} else {
		r := l.issue(t, s)
		in.On, in.Reading, said = r.Job.Date, r.Job.Meter.Reading, r.Findings
	}
	in.Chain = l.chain
	made, err := plan.Make(in)
	if err != nil {
		t.Fatalf("%s: %v", s.name, err)
	}
	return made, said
}

// issue checks a sheet as the program does on its day, and puts the record that
// it would sign at the end of the chain.
func (l *life) issue(t *testing.T, s step) *record.Record {
	t.Helper()
	file := s.name + ".yaml"
	job, err := jobsheet.ParseJob(file, historyFile(t, file))
	if err != nil {
		t.Fatal(err)
	}
	// A correction is worked out from what came before the record that it is about.
	before, corrects := l.chain, s.instead != ""
	if corrects {
		before = l.chain[:l.issued[s.instead]]
	}
	const afternoon = 16 * 3600
	result := check.Run(check.Input{
		Yard: l.yard, Machine: l.machine, Schedule: l.schedules[s.edition], Job: job, Earlier: before,
		Now: int64(job.Date)*86400 + afternoon, Today: job.Date, Renderer: 1,
	})
	if result.Passed == nil {
		t.Fatalf("%s: %s %v\n%s", file, result.Outcome, result.Faults, foundText(result.Draft.Findings))
	}
	r := result.Passed.CheckedRecord()
	if corrects {
		last := l.chain[len(l.chain)-1]
		r.Kind, r.Subject = record.Correction, &record.Subject{Record: l.chain[l.issued[s.instead]].ID, Why: "figures swapped"}
		r.Number, r.Previous = last.Record.Number+1, &record.Previous{Record: last.ID, Date: last.Record.Job.Date, Hours: last.Record.Job.Hours}
		if _, err := record.Encode(r); err != nil {
			t.Fatal(err)
		}
	}
	l.issued[s.name] = len(l.chain)
	l.chain = append(l.chain, record.Earlier{ID: record.ID{byte(r.Number), 0xee}, Record: r})
	return r
}

// TestHistory: five years of one machine, replayed record by record; the due
// table after each, and on four days between, stand in the golden file, which
// was read line by line. What was worked out by hand is in TestHistoryByHand.
func TestHistory(t *testing.T) {
	golden := filepath.Join(historyFiles, "due.golden")
	l := newLife(t)
	var got bytes.Buffer
	for _, s := range fiveYears {
		made, said := l.take(t, s)
		title := "asked on " + s.name
		if n, issued := l.issued[s.name]; issued {
			title = fmt.Sprintf("record %d, %v", n+1, made.On)
		}
		fmt.Fprintf(&got, "%s: %s\n%s%s\n", title, s.note, foundText(said), dueTable(t, made))
	}
	if *update {
		if err := os.WriteFile(golden, got.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	a, b := strings.Split(got.String(), "\n"), strings.Split(string(want), "\n")
	for i := range min(len(a), len(b)) {
		if a[i] != b[i] {
			t.Fatalf("%s, line %d\n got %s\nwant %s", golden, i+1, a[i], b[i])
		}
	}
	if len(a) != len(b) {
		t.Fatalf("%s: %d lines, want %d", golden, len(a), len(b))
	}
}

// TestHistoryKeepsDigests: a record keeps the digest of the schedule that it was
// checked by, whatever edition came after it.
func TestHistoryKeepsDigests(t *testing.T) {
	l := newLife(t)
	for _, s := range fiveYears {
		l.take(t, s)
	}
	for _, s := range fiveYears {
		i, issued := l.issued[s.name]
		if !issued {
			continue
		}
		ref, by := l.chain[i].Record.Schedule, l.schedules[s.edition]
		if ref.Digest != record.Digest(by.Digest()) || fmt.Sprint(ref.Edition) != s.edition {
			t.Errorf("record %d: edition %d, digest %x, want edition %s, %x", i+1, ref.Edition, ref.Digest[:4], s.edition, by.Digest())
		}
	}
}

// foundText is what the check said of a job's place in time and of its meter, a
// line each.
func foundText(findings []record.Finding) string {
	var b strings.Builder
	for _, f := range findings {
		fmt.Fprintf(&b, "  %v %v", f.Severity, f.Code)
		if f.Subject != "" {
			fmt.Fprintf(&b, "/%s", f.Subject)
		}
		for _, n := range []*int64{f.Value, f.Limit} {
			switch {
			case n == nil:
			case f.Unit == record.InHours:
				fmt.Fprintf(&b, " %v h", quantity.Hours(*n))
			case f.Unit == record.InDays:
				fmt.Fprintf(&b, " %d d", *n)
			case f.Unit == record.AsDate:
				fmt.Fprintf(&b, " %v", quantity.Date(*n))
			default:
				fmt.Fprintf(&b, " %d", *n)
			}
		}
		if f.Accepted != "" {
			fmt.Fprintf(&b, " (%s)", f.Accepted)
		}
		b.WriteByte('\n')
	}
	return b.String()
}

// dueTable is a plan as text: where the hours stand, and a line for each task.
func dueTable(t *testing.T, p plan.Plan) string {
	t.Helper()
	var b strings.Builder
	fmt.Fprintf(&b, "  %v h in total, %v on the meter", p.Hours.Total, p.Hours.Reading(p.Hours.Total))
	if !p.Hours.Given {
		fmt.Fprintf(&b, ", carried on from %v h on %v", p.Hours.Last.Hours, p.Hours.Last.Date)
	}
	fmt.Fprintf(&b, "; %s\n", useText(p.Use))
	if e := p.Edition; e != nil {
		fmt.Fprintf(&b, "  by edition %d; record %d was checked by edition %d\n", p.Schedule.Edition, e.Record.Number, e.Then.Edition)
	}
	var table bytes.Buffer
	w := tabwriter.NewWriter(&table, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "  task\tstate\tdue at h\ton the meter\tdue on\tfirst\tleft h\tleft d\tlast done\tbesides")
	for _, item := range p.Items {
		fmt.Fprintf(w, "  %s\t%v\t%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\n", item.Task.ID, item.State,
			orDash(item.Due.Hours), onMeter(p, item), orDash(item.Due.Date), cmp.Or(item.By, "-"),
			orDash(item.HoursLeft), orDash(item.DaysLeft), lastDone(item), strings.Join(besides(p, item), "; "))
	}
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(table.String()) {
		b.WriteString(strings.TrimRight(line, " \n") + "\n")
	}
	return b.String()
}

var useWords = map[schedule.UseBasis]string{
	schedule.UseUnknown:      "use not known",
	schedule.FromReadings:    "from readings",
	schedule.FromMachineFile: "as the machine file expects",
	schedule.FromFewReadings: "from few readings",
}

func useText(u schedule.Use) string {
	text := fmt.Sprintf("use %v h a year, %v to %v, %s", u.PerYear, u.Low, u.High, useWords[u.Basis])
	if u.Readings > 0 {
		text += fmt.Sprintf(": %d from %v to %v", u.Readings, u.From, u.To)
	}
	if u.Seasonal {
		text += ", seasonal"
	}
	return text
}

func orDash[T fmt.Stringer](v *T) string {
	if v == nil {
		return "-"
	}
	return (*v).String()
}

// onMeter is what the meter reads when an item is due, where it does not fall due
// before that meter was fitted.
func onMeter(p plan.Plan, item plan.Item) string {
	switch {
	case item.Due.Hours == nil:
		return "-"
	case p.Hours.Reading(*item.Due.Hours) < 0:
		return "earlier one"
	}
	return p.Hours.Reading(*item.Due.Hours).String()
}

func lastDone(item plan.Item) string {
	last := item.Last
	switch {
	case last == nil:
		return "no record"
	case last.Record == nil:
		return fmt.Sprintf("%v h, %v, stated (%s)", last.Hours, last.Date, last.Source)
	default:
		return fmt.Sprintf("%v h, %v, record %d", last.Hours, last.Date, last.Record.Number)
	}
}

// besides is what else the plan says of an item. When it is expected stands only
// where the hours were worked out: elsewhere the due point says enough.
func besides(p plan.Plan, item plan.Item) []string {
	var list []string
	if item.Severe {
		list = append(list, "severe")
	}
	if len(item.With) > 0 {
		list = append(list, "with "+strings.Join(item.With, ", "))
	}
	if open := item.Open; open != nil {
		text := fmt.Sprintf("%v on %v", open.Result, open.Date)
		if a := open.Answer; a != nil {
			text += fmt.Sprintf(" (%s)", a.Why)
			if a.Advice != 0 {
				text += ", " + a.Advice.String()
			}
		}
		if look := open.LookAgain; look != (schedule.Due{}) {
			text += fmt.Sprintf(", look again at %s h or on %s", orDash(look.Hours), orDash(look.Date))
		}
		list = append(list, text)
	}
	if reach := item.Expected; reach != nil && !p.Hours.Given {
		list = append(list, fmt.Sprintf("expected %v (%v to %v)", reach.On, reach.From, reach.To))
	}
	return list
}
