package jobsheet_test

import (
	"errors"
	"fmt"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/check"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
	"hourseal/templates"
)

// anyMachine has every system that the built-in schedules speak of.
const anyMachine = `id: gannet-any
vessel: { name: Gannet }
kind: propulsion diesel
position: port
make: Corrin
model: 4T-75
serial: "0045120"
schedule: %s
in_service: { date: 2024-03-18, hours: 0 }
systems:
  engine-oil: { at_upper: 10.0 L, between_marks: 1.6 L, filter_holds: 0.6 L, viscosity: [15W-40], meets: [API CI-4, ACEA E7] }
  gear-oil: { at_upper: 2.2 L, between_marks: 0.3 L, viscosity: [SAE 90] }
  drive-oil: { at_upper: 2.4 L }
  coolant: { holds: 11.5 L, glycol: ethylene }
`

var (
	blankLine = regexp.MustCompile(`^( *(?:- )?)("(?:[^"\\]|\\.)*"|[A-Za-z][A-Za-z0-9_./ -]*):(?: +#.*)?$`)
	inForce   = regexp.MustCompile(`^ *[^ #]`)
)

// blanksOf are the lines of a sheet with a key and no value, neither behind it
// nor set in below it; numbered from 1.
func blanksOf(text string) map[int]string {
	lines := strings.Split(text, "\n")
	blanks := map[int]string{}
	for i, line := range lines {
		m := blankLine.FindStringSubmatch(line)
		if m == nil {
			continue
		}
		next := slices.IndexFunc(lines[i+1:], inForce.MatchString)
		if next >= 0 && indent(lines[i+1+next]) > len(m[1]) {
			continue
		}
		blanks[i+1] = m[2]
	}
	return blanks
}

func indent(line string) int { return len(line) - len(strings.TrimLeft(line, " ")) }

// written is what a person writes into each blank.
var written = map[string]string{
	"hours": "812.6", "reason": "scheduled", "job_number": "J-2217", "place": "Port Ellery, east slip", "number": `"0118"`, "result": "done",
	"freezing_point": "-27 C", "voltage": "12.6 V", "frequency": "50 Hz", "flange_gap": "0.05 mm",
	"drained": "[5 L at 60 C, 4.3 L]", "drained_includes_filter": "false", "filled": "9.3 L at 16 C",
	"product": "Harrow HD", "viscosity": "15W-40", "meets": "[API CK-4]", "reading": "0.85", "after": "15 min", "at": "45 C",
	"amount": "not measured", "to": "harbour oil bank", "quantity": "2",
}

// fill writes into every blank, and leaves the remark behind it.
func fill(t interface{ Fatalf(string, ...any) }, text string, other map[string]string) string {
	lines, blanks := strings.Split(text, "\n"), blanksOf(text)
	section := ""
	for i, line := range lines {
		if inForce.MatchString(line) && indent(line) == 0 {
			section, _, _ = strings.Cut(line, ":")
		}
		key, isBlank := blanks[i+1]
		if !isBlank {
			continue
		}
		value, ok := other[section+"/"+key]
		if !ok {
			value, ok = other[key]
		}
		if !ok && section == "leak_check" && key == "result" {
			value, ok = "none seen", true
		}
		if !ok {
			value, ok = written[key]
		}
		if !ok && section == "tasks" { // a reading
			value, ok = "-27 C", true
		}
		if !ok {
			t.Fatalf("nobody knows what to write after %q", line)
		}
		lines[i] = strings.Replace(line, key+":", key+": "+value, 1)
	}
	return strings.Join(lines, "\n")
}

func machineFor(t *testing.T, s schedule.Schedule) jobsheet.Machine {
	t.Helper()
	m, err := jobsheet.ParseMachine("machines/gannet-any.yaml", fmt.Appendf(nil, anyMachine, s.ID))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// schedules are the built-in ones and that of the scenario.
func schedules(t *testing.T) []schedule.Schedule {
	t.Helper()
	var list []schedule.Schedule
	for _, id := range []string{"diesel-inboard", "diesel-generator", "petrol-outboard", "reduction-gear", "sail-drive", "diesel-inboard-ellery"} {
		s, _, err := jobsheet.Open(os.DirFS(scenario), templates.Schedules()).Schedule(id)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, s)
	}
	return list
}

func blankOf(t *testing.T, s schedule.Schedule) jobsheet.Blank {
	return jobsheet.Blank{
		Machine: machineFor(t, s), Date: must(quantity.ParseDate("2026-11-02")), Reason: record.Scheduled, Tasks: s.Tasks,
		Parts:  []record.Part{{Item: "Oil Filter", Number: "0012", Quantity: 1}},
		Fluids: []record.Fluid{{System: "engine-oil", Product: "Harrow HD: summer", Viscosity: "10W-40", Meets: []string{"API CK-4", "ACEA E7, E9"}}},
	}
}

// A blank sheet of every schedule, with all its tasks at once: as it stands, each
// blank is a fault in its place and nothing else is one.
func TestBlankIsFaultedWhereItIsEmpty(t *testing.T) {
	for _, s := range schedules(t) {
		text := string(blankOf(t, s).YAML())
		blanks := blanksOf(text)
		if len(blanks) < len(s.Tasks)+4 {
			t.Fatalf("%s: %d blanks for %d tasks\n%s", s.ID, len(blanks), len(s.Tasks), text)
		}
		results := 0
		for _, key := range blanks {
			if key == "result" {
				results++
			}
		}
		equal(t, s.ID+": results left open", results, len(s.Tasks)+1) // and that of the leak check
		job, err := jobsheet.ParseJob("blank.yaml", []byte(text))
		var faults jobsheet.Faults
		if !errors.As(err, &faults) {
			t.Fatalf("%s: a blank sheet is taken: %+v, %v", s.ID, job, err)
		}
		for _, f := range faults {
			key, ok := blanks[f.Pos.Line]
			if !ok || strings.Trim(key, `"`) != f.Field || !strings.HasPrefix(f.Message, "nothing written: write ") {
				t.Errorf("%s: %v", s.ID, f)
			}
			delete(blanks, f.Pos.Line)
		}
		if len(blanks) > 0 {
			t.Errorf("%s: left empty without a fault: %v\n%s", s.ID, blanks, text)
		}
	}
}

// Filled in, it reads well, fits its machine and schedule, and has the evidence
// that each task needs.
func TestBlankFilledIn(t *testing.T) {
	for _, s := range schedules(t) {
		b := blankOf(t, s)
		text := fill(t, string(b.YAML()), nil)
		job, err := jobsheet.ParseJob("blank.yaml", []byte(text))
		if err != nil {
			t.Fatalf("%s:\n%s\n%v", s.ID, text, err)
		}
		if err := jobsheet.Resolve(job, b.Machine, s); err != nil {
			t.Errorf("%s: %v", s.ID, err)
		}
		equal(t, "machine", job.Machine, "gannet-any")
		equal(t, "date", job.Date, b.Date)
		equal(t, "hours", *job.Meter.Reading, quantity.Hours(81260))
		equal(t, "reason", job.Reason, record.Scheduled)
		equal(t, "technician", job.By, record.By{Number: "0118"})
		equal(t, "tasks", len(job.Tasks), len(s.Tasks))
		for i, task := range s.Tasks {
			equal(t, "task", job.Tasks[i].ID, task.ID)
			equal(t, task.ID, job.Tasks[i].Result, record.Done)
			for _, missing := range missingIn(job, task, job.Tasks[i]) {
				t.Errorf("%s: %s: no %s", s.ID, task.ID, missing)
			}
		}
	}
}

// The check takes it: nothing in it is refused, whichever schedule it is of, and an
// oil service with figures that fit each other can be issued as it stands.
func TestBlankIsAccepted(t *testing.T) {
	folder := jobsheet.Open(os.DirFS(scenario), templates.Schedules())
	yard := must(folder.Yard())
	checked := func(b jobsheet.Blank, s schedule.Schedule, other map[string]string) check.Result {
		job, err := jobsheet.ParseJob("blank.yaml", []byte(fill(t, string(b.YAML()), other)))
		if err != nil {
			t.Fatal(err)
		}
		return check.Run(check.Input{Yard: yard, Machine: b.Machine, Schedule: s, Job: job, Today: b.Date, Now: int64(b.Date) * 86_400, Renderer: 1})
	}
	for _, s := range schedules(t) {
		b := blankOf(t, s)
		b.Fluids = nil
		result := checked(b, s, map[string]string{"fluids/filled": "2 L at 16 C", "fluids/drained": "2 L at 60 C"})
		if result.Outcome != check.Issuable && result.Outcome != check.Undecided {
			t.Errorf("%s: %v: %v %+v", s.ID, result.Outcome, result.Faults, result.Findings)
		}
	}

	ellery, _, err := folder.Schedule("diesel-inboard-ellery")
	if err != nil {
		t.Fatal(err)
	}
	b := jobsheet.Blank{Machine: must(folder.Machine("gannet-port")), Date: must(quantity.ParseDate("2026-05-04")), Reason: record.Scheduled, Tasks: ellery.Tasks}
	result := checked(b, ellery, map[string]string{"fluids/drained": "9.1 L at 60 C"})
	if result.Outcome != check.Issuable {
		t.Errorf("%v: %v %+v", result.Outcome, result.Faults, result.Findings)
	}
}

// missingIn lists what the sheet does not have of what a task needs.
func missingIn(job jobsheet.Job, task schedule.Task, done record.Task) []string {
	fluid := func(system string) (f record.Fluid) {
		for _, f = range job.Fluids {
			if f.System == system {
				return f
			}
		}
		return record.Fluid{}
	}
	var list []string
	need := func(what, name string, there bool) {
		if name != "" && !there {
			list = append(list, what+" "+name)
		}
	}
	n := task.Needs
	need("drained", n.Drained, fluid(n.Drained).Drained != nil)
	need("waste", n.Drained, slices.ContainsFunc(job.Waste, func(w record.Waste) bool { return w.System == n.Drained }))
	need("filled", n.Filled, fluid(n.Filled).Filled != nil && fluid(n.Filled).Product != "")
	level := fluid(n.Level).Level
	need("level", n.Level, level != nil && level.Reading != nil && level.After != nil && level.At != nil)
	need("part", n.Part, slices.ContainsFunc(job.Parts, func(p record.Part) bool { return strings.EqualFold(p.Item, n.Part) && p.Quantity == 2 }))
	need("reading", n.Reading, len(done.Readings) == 1 && done.Readings[0].Name == n.Reading && done.Readings[0].Value != nil)
	if (n.LeakCheck || n.Filled != "") && (job.LeakCheck == nil || job.LeakCheck.Result != record.NoneSeen) {
		list = append(list, "leak check")
	}
	return list
}

// What was expected comes back exactly, and what was not is a blank.
func TestBlankExpects(t *testing.T) {
	s := schedules(t)[0]
	job := must(jobsheet.ParseJob("blank.yaml", []byte(fill(t, string(blankOf(t, s).YAML()), map[string]string{"parts/number": `"0099"`, "parts/quantity": "1"}))))
	equal(t, "first part", job.Parts[0], record.Part{Item: "Oil Filter", Number: "0012", Quantity: 1, SuppliedBy: record.ByYard})
	equal(t, "second part", job.Parts[1], record.Part{Item: "primary fuel filter", Number: "0099", Quantity: 1, SuppliedBy: record.ByYard})
	oil := job.Fluids[0]
	equal(t, "product", oil.Product, "Harrow HD: summer")
	equal(t, "viscosity", oil.Viscosity, "10W-40")
	equal(t, "meets", oil.Meets, []string{"API CK-4", "ACEA E7, E9"})
	equal(t, "coolant's product", job.Fluids[1].Product, "Harrow HD") // written by hand
}

var commented = regexp.MustCompile(`^( *)# (?:  )?([a-z_]+):( .*)?$`)

// Every key of the job form and of its groups is shown, in force or in a comment,
// those of the form in its order.
func TestBlankShowsEveryKey(t *testing.T) {
	text := string(blankOf(t, schedules(t)[0]).YAML())
	at := 0
	for _, k := range jobsheet.Forms()["job"] {
		i := slices.IndexFunc(strings.Split(text, "\n")[at:], func(line string) bool {
			return strings.HasPrefix(strings.TrimPrefix(line, "# "), k.Name+":")
		})
		if i < 0 {
			t.Fatalf("%s: not shown after line %d\n%s", k.Name, at, text)
		}
		at += i
	}
	for _, group := range []string{"hours", "meter_change", "technician", "tasks", "other_work", "fluids", "level", "seen", "topped_up", "waste", "parts", "leak_check", "look_again", "reading"} {
		for _, k := range jobsheet.Forms()[group] {
			if !regexp.MustCompile(`\b` + k.Name + `:`).MatchString(text) {
				t.Errorf("%s of %s: not shown", k.Name, group)
			}
		}
	}
	for _, words := range [][]string{record.ReasonWords, record.ResultWords, record.AdviceWords, record.OwnerWords, record.SupplierWords, record.LeakWords, record.GlycolWords, record.SightWords} {
		for _, word := range words {
			if !strings.Contains(text, word) {
				t.Errorf("%s: not shown", word)
			}
		}
	}
}

// A key that stands in a comment is in its place: with the # taken away it is
// another blank of the sheet, or reads as it stands.
func TestBlankCommentedKeys(t *testing.T) {
	text := fill(t, string(blankOf(t, schedules(t)[0]).YAML()), nil)
	lines := strings.Split(text, "\n")
	tried := 0
	for i, line := range lines {
		m := commented.FindStringSubmatch(line)
		if m == nil || strings.HasPrefix(line, "  #   ") || strings.HasPrefix(line, "# notes") { // what an entry of tasks may have
			continue
		}
		variant := slices.Clone(lines)
		variant[i] = strings.Replace(line, "# ", "", 1)
		for j := i + 1; strings.HasPrefix(variant[j], "#   "); j++ {
			variant[j] = strings.Replace(variant[j], "# ", "", 1)
		}
		if m[2] == "hours" {
			variant = slices.DeleteFunc(variant, func(l string) bool { return strings.HasPrefix(l, "hours: 812.6") })
		}
		tried++
		_, err := jobsheet.ParseJob("blank.yaml", []byte(strings.Join(variant, "\n")))
		var faults jobsheet.Faults
		if err != nil && !errors.As(err, &faults) {
			t.Fatal(err)
		}
		for _, f := range faults {
			if off := f.Pos.Line - (i + 1); off < -1 || off > 1 || !strings.HasPrefix(f.Message, "nothing written: ") {
				t.Errorf("%s: %v", strings.TrimSpace(line), f)
			}
		}
	}
	if tried < 15 {
		t.Errorf("only %d keys in comments:\n%s", tried, text)
	}
	job := must(jobsheet.ParseJob("blank.yaml", []byte(strings.Replace(text, "# notes:", "notes:", 1)+"  Belt again at 900.\n  Ask for the slip.\n")))
	equal(t, "notes", job.Notes, "Belt again at 900.\nAsk for the slip.")
}

// A system that the machine file has not is left out, and the sheet says so; a
// sheet without tasks is one for other work.
func TestBlankWithoutSystems(t *testing.T) {
	s := schedules(t)[0]
	b := blankOf(t, s)
	b.Machine.Systems = nil
	text := string(b.YAML())
	if !strings.Contains(text, "no system engine-oil,") || !strings.Contains(text, "no system coolant,") {
		t.Errorf("not said:\n%s", text)
	}
	job := must(jobsheet.ParseJob("blank.yaml", []byte(fill(t, text, nil))))
	equal(t, "fluids", len(job.Fluids)+len(job.Waste), 0)

	b = jobsheet.Blank{Machine: jobsheet.Machine{ID: "gannet-any"}, Date: b.Date}
	job = must(jobsheet.ParseJob("blank.yaml", []byte(fill(t, string(b.YAML()), nil))))
	equal(t, "tasks", len(job.Tasks)+len(job.Parts), 0)
	equal(t, "reason", job.Reason, record.Scheduled) // written by hand
}

// A leak check is asked for after whatever the check wants one for.
func TestBlankAsksForALeakCheck(t *testing.T) {
	for _, c := range []struct {
		needs  schedule.Needs
		wanted bool
	}{
		{schedule.Needs{LeakCheck: true}, true}, {schedule.Needs{Filled: "engine-oil"}, true}, {schedule.Needs{Part: "Fuel Filter"}, true},
		{schedule.Needs{Part: "drive belt"}, false}, {schedule.Needs{Reading: "voltage"}, false}, {schedule.Needs{Level: "engine-oil"}, false},
	} {
		b := jobsheet.Blank{Tasks: []schedule.Task{{ID: "a-task", Needs: c.needs}}}
		if asked := strings.Contains(string(b.YAML()), "\nleak_check:"); asked != c.wanted {
			t.Errorf("%+v: asked for %v", c.needs, asked)
		}
	}
}
