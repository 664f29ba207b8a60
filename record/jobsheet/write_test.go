package jobsheet_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os/exec"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"
	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
	"hourseal/record/recordtest/outside"
)

// withoutSource takes out the places alone: the order of all entries counts.
func withoutSource(job jobsheet.Job) jobsheet.Job {
	job.Source = jobsheet.Source{}
	for i := range job.Accept {
		job.Accept[i].At = ""
	}
	return job
}

// notOnASheet are the fields of a job's parts that no sheet states: they are the
// machine file's, the schedule's or the check's.
var notOnASheet = []string{"Source.", "Accept.At", "Meter.Offset", "Tasks.Title", "Tasks.Kind", "Tasks.Every.", "Tasks.Leeway.", "Tasks.Last.", "Tasks.Due.", "Tasks.Once",
	"Fluids.AtUpper", "Fluids.BetweenMarks", "Fluids.FilterHolds", "Fluids.Holds", "Fluids.Density", "Fluids.Balance."}

// TestJobsAreReadAsWritten: any job, in YAML and in JSON, is read as it was; and jobs
// with every field in them were tried.
func TestJobsAreReadAsWritten(t *testing.T) {
	seen := map[string]bool{}
	rapid.Check(t, func(t *rapid.T) {
		job := randomJob(t)
		filled(reflect.ValueOf(job), "", seen)
		for name, text := range map[string][]byte{"job.yaml": job.YAML(), "job.json": job.JSON()} {
			got, err := jobsheet.ParseJob(name, text)
			if err != nil {
				t.Fatalf("%s\n%v", text, err)
			}
			if got = withoutSource(got); !reflect.DeepEqual(got, job) {
				t.Fatalf("%s\n got %+v\nwant %+v", text, got, job)
			}
		}
		if !json.Valid(job.JSON()) {
			t.Fatalf("no JSON:\n%s", job.JSON())
		}
	})
	for _, field := range fieldsOf(reflect.TypeFor[jobsheet.Job](), "") {
		outside := slices.ContainsFunc(notOnASheet, func(s string) bool { return strings.HasPrefix(field, s) })
		if seen[field] == outside {
			t.Errorf("%s: tried %v, not on a sheet %v", field, seen[field], outside)
		}
	}
}

// Each key of each group is written: the sheet with every key has them all again, at
// the same paths.
func TestWritersHaveEveryKey(t *testing.T) {
	job := must(jobsheet.ParseJob("job.yaml", everyKey(t, "every-key.yaml")))
	machine := must(jobsheet.ParseMachine("machine.yaml", everyKey(t, "every-key-machine.yaml")))
	for name, text := range map[string][]byte{"job": job.YAML(), "job, JSON": job.JSON(), "machine": machine.YAML(), "machine, JSON": machine.JSON()} {
		var tree yaml.Node
		if err := yaml.Unmarshal(text, &tree); err != nil {
			t.Fatal(err)
		}
		kind, _, _ := strings.Cut(name, ",")
		written := keysAt(tree.Content[0], "", map[string]bool{})
		for path := range jobsheet.KeyPaths(kind) {
			if !written[path] {
				t.Errorf("%s: %s is not written", name, path)
			}
		}
	}
}

// keysAt collects the keys of a tree by path; entries of lists, and names that people
// choose, are *.
func keysAt(n *yaml.Node, path string, found map[string]bool) map[string]bool {
	for i := 0; i < len(n.Content); i++ {
		child, key := n.Content[i], "*"
		if n.Kind == yaml.MappingNode {
			if i++; path != "accept" && path != "tasks/*/reading" && path != "systems" {
				key = child.Value
			}
			child = n.Content[i]
		}
		at := strings.TrimPrefix(path+"/"+key, "/")
		found[at] = true
		keysAt(child, at, found)
	}
	return found
}

// The example sheets are written as people wrote them, but for remarks, for quotes
// around what is not plain words, and for a long line.
func TestExampleIsWrittenByHand(t *testing.T) {
	job := must(jobsheet.ParseJob("job.yaml", load(t, "jobs/gannet-port-2026-05-04.yaml")))
	compareLines(t, string(job.YAML()), `machine: gannet-port
date: 2026-05-04
hours: 812.6
reason: scheduled
job_number: J-2217
place: "Port Ellery, east slip"
technician: { number: "118", credential: Ellery Slip card }
tasks:
  - { id: engine-oil, result: done }
  - { id: oil-filter, result: done }
  - { id: belt-look, result: watch, look_again: { hours: 900 }, why: light glaze on the back }
  - { id: coolant-strength, result: ok, reading: { freezing_point: -27 C } }
  - id: impeller
    result: deferred
    why: part on order
    advice: next-service
    told: 2026-05-04
    owner: agreed
other_work:
  - { text: Tightened the exhaust clamp at the elbow, result: done }
fluids:
  - system: engine-oil
    level_before: { reading: 0.3, after: 20 min, at: 18 C }
    drained: 2.4 US gal at 68 C
    drained_includes_filter: false
    filled: [5 L at 16 C, 4.3 L at 16 C]
    product: Harrow HD
    batch: H-0612
    viscosity: "15W-40"
    meets: [API CK-4]
    level: { reading: 0.85, after: 15 min, at: 45 C }
topped_up:
  - { system: engine-oil, amount: 0.5 L }
waste:
  - { system: engine-oil, amount: 8.8 L, to: harbour oil bank, receipt: "5521" }
parts:
  - { item: oil filter, number: CR-2214, quantity: 1, supplied_by: yard }
leak_check: { result: none seen, after: 10 min }
notes: |
  Look at the belt again at 900 hours.
`)
}

// A job that is not complete can be written at any time: what is not known yet is left
// out, and reading it says so.
func TestUnfinishedJobs(t *testing.T) {
	for _, c := range []struct {
		job  jobsheet.Job
		want string
	}{
		{jobsheet.Job{}, ""},
		{jobsheet.Job{Machine: "gannet-port", Meter: record.Meter{State: record.Running}}, "machine: gannet-port\n"},
		{jobsheet.Job{Meter: record.Meter{State: record.Stopped}}, "hours: { meter: stopped }\n"},
		{jobsheet.Job{Meter: record.Meter{State: record.NoMeter, Basis: "engine log"}, Estimate: ptr(quantity.Hours(81000))}, "hours: { meter: none, estimate: 810, basis: engine log }\n"},
		{jobsheet.Job{Meter: record.Meter{Reading: ptr(quantity.Hours(0))}}, "hours: 0\n"},
		{jobsheet.Job{Meter: record.Meter{Change: &record.MeterChange{}}}, "meter_change: { removed_at: unknown, fitted_at: 0 }\n"},
		{jobsheet.Job{Tasks: []record.Task{{}, {ID: "belt", LookAgain: &record.LookAgain{}, Answer: &record.Answer{}}}}, "tasks:\n  - { id: belt }\n"},
		{jobsheet.Job{Tasks: []record.Task{{ID: "belt", Readings: []record.Reading{{Name: "gap"}}}}}, "tasks:\n  - { id: belt, reading: { gap: {} } }\n"},
		{jobsheet.Job{Fluids: []record.Fluid{{System: "engine-oil", Level: &record.Level{}, Filled: &quantity.Measured{}}, {LevelBefore: &record.Level{At: ptr(quantity.Temperature(-25))}}}},
			"fluids:\n  - system: engine-oil\n    level: not measured\n  - level_before: { at: -2.5 C }\n"},
		{jobsheet.Job{Fluids: []record.Fluid{{Answer: &record.Answer{Why: "milky"}}, {Saw: []record.Sight{record.SawNothing}}}}, "fluids:\n  - seen: { why: milky }\n  - seen: nothing\n"},
		{jobsheet.Job{Waste: []record.Waste{{System: "engine-oil"}}, Parts: []record.Part{{Item: "belt"}}}, "waste:\n  - { system: engine-oil }\nparts:\n  - { item: belt }\n"},
		{jobsheet.Job{Accept: []jobsheet.Accept{{Code: "level-high"}, {Code: "leak-seen", Subject: "a: b"}}}, "accept:\n  level-high: \"\"\n  \"leak-seen/a: b\": \"\"\n"},
		{jobsheet.Job{Notes: " not\tfor a sheet\n"}, "notes: \" not\\u0009for a sheet\\u000a\"\n"},
		{jobsheet.Job{Reason: 99, Place: "a\nb"}, "reason: " + strconv.Quote(record.Reason(99).String()) + "\nplace: \"a\\u000ab\"\n"},
	} {
		if got := string(c.job.YAML()); got != c.want {
			t.Errorf("got\n%swant\n%s", got, c.want)
		}
		if text := c.job.JSON(); !json.Valid(text) {
			t.Errorf("no JSON:\n%s", text)
		}
		for _, text := range [][]byte{c.job.YAML(), c.job.JSON()} {
			_, err := jobsheet.ParseJob("job", text)
			sound(t, text, err)
			if err == nil {
				t.Errorf("taken as complete:\n%s", text)
			}
		}
	}
}

// Lines are no longer than they need be: one beyond 100 columns has a single value on it.
func TestLinesAreShort(t *testing.T) {
	long := 0
	rapid.Check(t, func(t *rapid.T) {
		job := randomJob(t)
		job.Notes = ""
		for line := range strings.Lines(string(job.YAML())) {
			if utf8.RuneCountInString(strings.TrimSuffix(line, "\n")) <= 100 {
				continue
			}
			long++
			var value yaml.Node
			if err := yaml.Unmarshal([]byte(strings.TrimLeft(line, " -")), &value); err != nil {
				t.Fatalf("%s: %v", line, err)
			}
			if n := value.Content[0]; n.Kind == yaml.SequenceNode || n.Kind == yaml.MappingNode && (len(n.Content) > 2 || n.Content[1].Kind != yaml.ScalarNode) {
				t.Fatalf("%d columns: %s", utf8.RuneCountInString(line), line)
			}
		}
	})
	t.Logf("%d lines of a single value were longer", long)
}

// pythonReader reads a JSON list of YAML texts and gives a JSON list of what they say.
const pythonReader = `import json, sys, yaml
json.dump([yaml.safe_load(text) for text in json.load(sys.stdin)], sys.stdout, default=str)`

// pythonWithYAML finds a Python that has PyYAML (Debian: python3-yaml), which shares
// nothing with the library that reads sheets.
func pythonWithYAML(t *testing.T) string {
	t.Helper()
	for _, name := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(name, "-c", "import yaml").Run() == nil {
			return name
		}
	}
	outside.Missing(t, "python3 with yaml")
	return ""
}

// TestAnotherYAMLReaderAgrees: PyYAML's safe loader, which makes numbers, dates and
// truth values of what is not quoted, finds in the YAML of a job what its JSON says.
func TestAnotherYAMLReaderAgrees(t *testing.T) {
	program := pythonWithYAML(t)
	var texts []string
	var want []any
	rapid.Check(t, func(t *rapid.T) {
		if len(texts) == 60 { // PyYAML takes its time
			return
		}
		job := randomJob(t)
		var value any
		if err := json.Unmarshal(job.JSON(), &value); err != nil {
			t.Fatal(err)
		}
		texts, want = append(texts, string(job.YAML())), append(want, value)
	})
	input, err := json.Marshal(texts)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(program, "-c", pythonReader)
	cmd.Stdin = bytes.NewReader(input)
	output, err := cmd.Output()
	if err != nil {
		t.Fatal(err, string(err.(*exec.ExitError).Stderr))
	}
	var got []any
	if err := json.Unmarshal(output, &got); err != nil || len(got) != len(want) || len(got) < 50 {
		t.Fatalf("%d of %d: %v", len(got), len(want), err)
	}
	for i := range want {
		if difference := unlike(want[i], got[i], ""); difference != "" {
			t.Fatalf("%s\n%s", texts[i], difference)
		}
	}
}

// unlike finds where two values of JSON differ; a reading without a unit may be a number
// in one and its text in the other.
func unlike(want, got any, path string) string {
	switch w := want.(type) {
	case map[string]any:
		g, _ := got.(map[string]any)
		for key := range w {
			if d := unlike(w[key], g[key], path+"/"+key); d != "" {
				return d
			}
		}
		if len(g) == len(w) {
			return ""
		}
	case []any:
		g, _ := got.([]any)
		for i := range min(len(w), len(g)) {
			if d := unlike(w[i], g[i], path); d != "" {
				return d
			}
		}
		if len(g) == len(w) {
			return ""
		}
	case string:
		if path == "/notes" && got == w+"\n" { // the line end of a block's last line
			return ""
		}
		if g, is := got.(float64); is && strings.Contains(path, "/reading/") {
			if n, err := strconv.ParseFloat(w, 64); err == nil && n == g {
				return ""
			}
		}
	}
	if reflect.DeepEqual(want, got) {
		return ""
	}
	return fmt.Sprintf("%s: %#v is read as %#v", path, want, got)
}
