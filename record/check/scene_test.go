package check_test

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/check"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// scenario is the invented yard: the pilot launch Gannet of Port Ellery.
const scenario = "../../testdata/scenario"

// firstSheet makes the first record of gannet-port: all that falls due was done.
const firstSheet = `machine: gannet-port
date: 2026-05-04
hours: 812.6
reason: scheduled
job_number: J-2217
tasks:
  - { id: engine-oil, result: done }
  - { id: oil-filter, result: done }
  - { id: belt-look, result: ok }
  - { id: coolant-strength, result: ok, reading: { freezing_point: -27 C } }
  - { id: impeller, result: done }
fluids:
  - system: engine-oil
    drained: 9.1 L at 68 C
    filled: 9.3 L at 16 C
    viscosity: 15W-40
    meets: [API CI-4]
    level: { reading: 0.85, after: 15 min, at: 45 C }
waste:
  - { system: engine-oil, amount: 9 L, to: harbour oil bank }
parts:
  - { item: oil filter }
  - { item: impeller }
leak_check: { result: none seen, after: 10 min }
`

// nextSheet is the visit a year later, just before all falls due again (1012.6 h,
// 2027-05-04). Nothing is to be said of it.
const nextSheet = `machine: gannet-port
date: 2027-04-20
hours: 1005
reason: scheduled
job_number: J-2301
tasks:
  - { id: engine-oil, result: done }
  - { id: oil-filter, result: done }
  - { id: belt-look, result: ok }
  - { id: belt, result: done }
  - { id: coolant-strength, result: ok, reading: { freezing_point: -27 C } }
  - { id: impeller, result: done }
fluids:
  - system: engine-oil
    level_before: { reading: 0.3, after: 20 min, at: 18 C }
    drained: 9.1 L at 68 C
    filled: 9.3 L at 16 C
    viscosity: 15W-40
    meets: [API CI-4]
    level: { reading: 0.85, after: 15 min, at: 45 C }
waste:
  - { system: engine-oil, amount: 9 L, to: harbour oil bank }
parts:
  - { item: oil filter }
  - { item: impeller }
leak_check: { result: none seen, after: 10 min }
`

// lookSheet is a visit on which nothing was done.
const lookSheet = `machine: gannet-port
date: 2026-06-13
hours: 900
reason: inspection
`

// edits change a file: each first text, which must stand in it once, becomes the
// second.
type edits [][2]string

func (e edits) in(t testing.TB, text string) string {
	t.Helper()
	for _, edit := range e {
		if n := strings.Count(text, edit[0]); n != 1 {
			t.Fatalf("%q stands %d times in\n%s", edit[0], n, text)
		}
		text = strings.Replace(text, edit[0], edit[1], 1)
	}
	return text
}

func scenarioFile(t testing.TB, name string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(scenario, name))
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// scene is what a job is checked in.
type scene struct {
	yard     jobsheet.Yard
	machine  jobsheet.Machine
	schedule schedule.Schedule
	earlier  []record.Earlier
	today    quantity.Date
	twins    []check.Twin
	driver   *jobsheet.Machine
	engine   []record.Earlier // the driver's records
}

func newScene(t testing.TB, machine, plan edits) *scene {
	t.Helper()
	s := &scene{today: day("2027-12-31")}
	var err error
	if s.yard, err = jobsheet.ParseYard("yard.yaml", []byte(scenarioFile(t, "yard.yaml"))); err != nil {
		t.Fatal(err)
	}
	if s.machine, err = jobsheet.ParseMachine("machine.yaml", []byte(machine.in(t, ofNoGlycol(t, scenarioFile(t, "machines/gannet-port.yaml"))))); err != nil {
		t.Fatal(err)
	}
	if s.schedule, _, err = jobsheet.ParseSchedule("plan.yaml", []byte(plan.in(t, scenarioFile(t, "schedules/diesel-inboard-ellery.yaml")))); err != nil {
		t.Fatal(err)
	}
	return s
}

// ofNoGlycol takes the glycol out of a machine file, so that nothing is to be said of
// the strength of its coolant.
func ofNoGlycol(t testing.TB, machine string) string {
	t.Helper()
	return edits{{"    glycol: ethylene          # or propylene\n", ""}}.in(t, machine)
}

func day(text string) quantity.Date {
	d, err := quantity.ParseDate(text)
	if err != nil {
		panic(err)
	}
	return d
}

func (s *scene) input(t testing.TB, sheet string) check.Input {
	t.Helper()
	job, err := jobsheet.ParseJob("sheet.yaml", []byte(sheet))
	if err != nil {
		t.Fatalf("%v\n%s", err, sheet)
	}
	return check.Input{
		Yard: s.yard, Machine: s.machine, Driver: s.driver, Schedule: s.schedule, Job: job,
		Earlier: s.earlier, Engine: s.engine, Twins: s.twins, Now: 1_790_000_000, Today: s.today, Renderer: 1,
	}
}

func (s *scene) run(t testing.TB, sheet string) check.Result {
	t.Helper()
	return check.Run(s.input(t, sheet))
}

// issue puts a sheet's record at the end of the chain; what asks for a reason
// gets one.
func (s *scene) issue(t testing.TB, sheet string) *record.Record {
	t.Helper()
	in := s.input(t, sheet)
	for _, f := range check.Run(in).Findings {
		if f.Severity == record.Decide {
			in.Job.Accept = append(in.Job.Accept, jobsheet.Accept{Code: f.Code.String(), Subject: f.Subject, Reason: "seen and meant"})
		}
	}
	result := check.Run(in)
	if result.Passed == nil {
		t.Fatalf("%s: %v %v\n%s", result.Outcome, result.Faults, said(result), sheet)
	}
	r := result.Passed.CheckedRecord()
	s.add(r)
	return r
}

func (s *scene) add(r *record.Record) record.ID {
	id := record.ID{byte(len(s.earlier) + 1), 0xee}
	s.earlier = append(s.earlier, record.Earlier{ID: id, Record: r})
	return id
}

// void adds a void, or with a record a correction, of an earlier record.
func (s *scene) void(subject record.ID, instead *record.Record) record.ID {
	last := *s.earlier[len(s.earlier)-1].Record
	last.Kind = record.Void
	if instead != nil {
		last, last.Kind = *instead, record.Correction
	}
	last.Subject, last.Number = &record.Subject{Record: subject, Why: "wrong machine"}, uint32(len(s.earlier)+1)
	return s.add(&last)
}

// said writes a finding in one line: severity, code/subject, value, limit, text.
func saidOne(f record.Finding) string {
	line := f.Severity.String() + " " + f.Code.String()
	if f.Subject != "" {
		line += "/" + f.Subject
	}
	for _, n := range []*int64{f.Value, f.Limit} {
		if n != nil {
			line += " " + figure(*n, f.Unit)
		}
	}
	if f.Text != "" {
		line += " " + strconv.Quote(f.Text)
	}
	return line
}

func figure(n int64, unit record.Unit) string {
	switch unit {
	case record.InHours:
		return quantity.Hours(n).String() + "h"
	case record.InDays:
		return quantity.Days(n).String() + "d"
	case record.AsDate:
		return quantity.Date(n).String()
	case record.InShare:
		return quantity.Ratio(n).String()
	case record.InMinutes:
		return quantity.Minutes(n).String()
	case record.InPer100Hours:
		return quantity.Volume(n).Litres() + "L/100h"
	case record.InPercent:
		return quantity.Ratio(n).Percent()
	case record.InVolume:
		return quantity.Volume(n).String()
	case record.InDegrees:
		return quantity.Temperature(n).String()
	}
	return fmt.Sprintf("%d in unit %d", n, unit)
}

func said(r check.Result) []string {
	var lines []string
	for _, f := range r.Findings {
		lines = append(lines, saidOne(f.Finding))
	}
	return lines
}

func wantSaid(t *testing.T, r check.Result, want ...string) {
	t.Helper()
	if got := said(r); !slices.Equal(got, want) {
		t.Errorf("findings\n  %s\nwant\n  %s", strings.Join(got, "\n  "), strings.Join(want, "\n  "))
	}
}

func wantFaults(t *testing.T, r check.Result, want ...string) {
	t.Helper()
	var got []string
	for _, f := range r.Faults {
		got = append(got, f.Error())
	}
	if !slices.Equal(got, want) {
		t.Errorf("faults\n  %s\nwant\n  %s", strings.Join(got, "\n  "), strings.Join(want, "\n  "))
	}
}

// textAt is the rest of the line at a place in the sheet.
func textAt(t *testing.T, sheet, at string) string {
	t.Helper()
	place, ok := strings.CutPrefix(at, "sheet.yaml")
	if !ok {
		t.Fatalf("place %q is in another file", at)
	}
	if place == "" {
		return ""
	}
	var line, col int
	if _, err := fmt.Sscanf(place, ":%d:%d", &line, &col); err != nil {
		t.Fatalf("place %q: %v", at, err)
	}
	return strings.Split(sheet, "\n")[line-1][col-1:]
}
