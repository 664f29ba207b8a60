package jobsheet_test

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"
	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/jobsheet"
	"hourseal/record/recordtest"
)

// shuffle puts the keys of all groups in a drawn order and each collection in a
// drawn style.
func shuffle(t *rapid.T, n *yaml.Node) {
	n.HeadComment, n.LineComment, n.FootComment = "", "", ""
	for _, child := range n.Content {
		shuffle(t, child)
	}
	if n.Kind == yaml.MappingNode || n.Kind == yaml.SequenceNode {
		n.Style = rapid.SampledFrom([]yaml.Style{0, yaml.FlowStyle}).Draw(t, "style")
	}
	if n.Kind != yaml.MappingNode {
		return
	}
	var pairs [][2]*yaml.Node
	for i := 0; i+1 < len(n.Content); i += 2 {
		pairs = append(pairs, [2]*yaml.Node{n.Content[i], n.Content[i+1]})
	}
	n.Content = nil
	for _, p := range rapid.Permutation(pairs).Draw(t, "order") {
		n.Content = append(n.Content, p[0], p[1])
	}
}

// withoutPlaces takes out what the order of keys does change: the places, and
// the order in which named entries stand.
func withoutPlaces(job jobsheet.Job) jobsheet.Job {
	job.Source = jobsheet.Source{}
	for i := range job.Accept {
		job.Accept[i].At = ""
	}
	slices.SortFunc(job.Accept, func(a, b jobsheet.Accept) int { return cmp.Compare(a.Code, b.Code) })
	for _, task := range job.Tasks {
		slices.SortFunc(task.Readings, func(a, b record.Reading) int { return cmp.Compare(a.Name, b.Name) })
	}
	return job
}

// parsers read each kind of file, and give what it says but for the places.
var parsers = map[string]func(data []byte) (any, error){
	"job": func(data []byte) (any, error) {
		job, err := jobsheet.ParseJob("job.yaml", data)
		return withoutPlaces(job), err
	},
	"yard": func(data []byte) (any, error) { return jobsheet.ParseYard("yard.yaml", data) },
	"machine": func(data []byte) (any, error) {
		m, err := jobsheet.ParseMachine("machine.yaml", data)
		m.Source = jobsheet.Source{}
		slices.SortFunc(m.Systems, func(a, b jobsheet.System) int { return cmp.Compare(a.Name, b.Name) })
		return m, err
	},
	"schedule": func(data []byte) (any, error) {
		s, _, err := jobsheet.ParseSchedule("schedule.yaml", data)
		return s, err
	},
}

func TestOrderOfKeysDoesNotMatter(t *testing.T) {
	for name, data := range map[string][]byte{
		"job/example":        load(t, "jobs/gannet-port-2026-05-04.yaml"),
		"job/every key":      everyKey(t, "every-key.yaml"),
		"yard/every key":     everyKey(t, "every-key-yard.yaml"),
		"machine/example":    load(t, "machines/gannet-port.yaml"),
		"machine/every key":  everyKey(t, "every-key-machine.yaml"),
		"schedule/example":   load(t, "schedules/diesel-inboard-ellery.yaml"),
		"schedule/every key": everyKey(t, "every-key-schedule.yaml"),
	} {
		kind, _, _ := strings.Cut(name, "/")
		parse := parsers[kind]
		want := must(parse(data))
		t.Run(name, rapid.MakeCheck(func(t *rapid.T) {
			var tree yaml.Node
			if err := yaml.Unmarshal(data, &tree); err != nil {
				t.Fatal(err)
			}
			shuffle(t, tree.Content[0])
			text, err := yaml.Marshal(&tree)
			if err != nil {
				t.Fatal(err)
			}
			got, err := parse(text)
			if err != nil {
				t.Fatalf("%s\n%v", text, err)
			}
			if !reflect.DeepEqual(got, want) {
				t.Fatalf("%s\n got %+v\nwant %+v", text, got, want)
			}
		}))
	}
}

// The places are those that another YAML reader finds, for every value of the
// examples and of files with every key. testdata/places.json says which
// reader made it, and how.
func TestPlacesAgreeWithAnotherReader(t *testing.T) {
	var other struct {
		Files map[string]map[string]string `json:"files"`
	}
	data, err := os.ReadFile("testdata/places.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, &other); err != nil || len(other.Files) != 6 {
		t.Fatalf("%d files: %v", len(other.Files), err)
	}
	for file, want := range other.Files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		var source jobsheet.Source
		switch {
		case strings.Contains(file, "machine"):
			source = must(jobsheet.ParseMachine("machine.yaml", data)).Source
		case strings.Contains(file, "schedule"):
			_, source, err = jobsheet.ParseSchedule("schedule.yaml", data)
		default:
			source = must(jobsheet.ParseJob("job.yaml", data)).Source
		}
		if err != nil {
			t.Fatal(err)
		}
		got := map[string]string{}
		for path, pos := range source.Lines {
			got[path] = fmt.Sprintf("%d:%d", pos.Line, pos.Col)
		}
		equal(t, file, got, want)
	}
}

// sound holds what came out of a file to what its users rely on.
func sound(t interface{ Errorf(string, ...any) }, data []byte, err error, texts ...string) {
	var faults jobsheet.Faults
	if err != nil && !errors.As(err, &faults) {
		t.Errorf("not faults: %v", err)
	}
	lines := bytes.Count(data, []byte("\n")) + 1
	for _, f := range faults {
		if f.Message == "" || f.Pos.Line < 0 || f.Pos.Line > lines+1 || f.Pos.Col < 0 {
			t.Errorf("a fault without message or place: %+v", f)
		}
		for _, r := range f.Error() {
			if unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || r == utf8.RuneError {
				t.Errorf("%q would reach a terminal raw", f.Error())
			}
		}
	}
	for _, text := range texts {
		if err := record.CheckText(text, record.MaxReason); err != nil {
			t.Errorf("%q was let in: %v", text, err)
		}
	}
}

// recordTakes holds a job that was let in to what a record takes of fluids and waste,
// entry by entry: that a system stands once is for Resolve.
func recordTakes(t interface{ Errorf(string, ...any) }, job jobsheet.Job) {
	r := recordtest.Example()
	r.Job.FuelUsed = job.FuelUsed
	valid := func() {
		if err := r.Validate(); err != nil {
			t.Errorf("let in, and refused of a record: %v", err)
		}
	}
	valid()
	for _, f := range job.Fluids {
		r.Fluids = []record.Fluid{f}
		valid()
	}
	r.Waste = job.Waste
	valid()
}

// TestSeenByRule: what was seen is let in when it is one or several of the words, each
// once, nothing alone, and an answer beside something only; then it is read as written.
func TestSeenByRule(t *testing.T) {
	taken, refused := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.SampledFrom(record.SightWords), 0, 5).Draw(t, "words")
		why := rapid.SampledFrom([]string{"", ", why: head gasket", ", owner: awaiting", ", told: 2026-05-04"}).Draw(t, "answer")
		seen := "[" + strings.Join(words, ", ") + "]"
		if why != "" || rapid.Bool().Draw(t, "braces") {
			seen = "{ what: " + seen + why + " }"
		}
		distinct := slices.Compact(slices.Sorted(slices.Values(words)))
		nothing := slices.Contains(words, "nothing")
		good := len(words) > 0 && len(distinct) == len(words) && (!nothing || len(words) == 1 && why == "")
		job, err := jobsheet.ParseJob("job.yaml", []byte(shortJob+"fluids:\n  - { system: engine-oil, seen: "+seen+" }\n"))
		if (err == nil) != good {
			t.Fatalf("%s: %v", seen, err)
		}
		if err != nil {
			refused++
			return
		}
		taken++
		recordTakes(t, job)
		f := job.Fluids[0]
		if fmt.Sprint(f.Saw) != fmt.Sprint(words) || (f.Answer != nil) != (why != "") {
			t.Fatalf("%s: read as %v, %+v", seen, f.Saw, f.Answer)
		}
	})
	if taken == 0 || refused == 0 {
		t.Errorf("%d taken, %d refused: only one of the two was tried", taken, refused)
	}
}

func FuzzParseJob(f *testing.F) {
	for _, glob := range []string{scenario + "/*/*.yaml", scenario + "/*.yaml", badJobs + "/*.yaml", "testdata/*.yaml"} {
		files, err := filepath.Glob(glob)
		if err != nil || len(files) == 0 {
			f.Fatalf("%s: no seeds: %v", glob, err)
		}
		for _, file := range files {
			data, err := os.ReadFile(file)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(data)
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		job, err := jobsheet.ParseJob("job.yaml", data)
		if err != nil && !reflect.DeepEqual(job, jobsheet.Job{}) {
			t.Errorf("a job with faults was handed out")
		}
		sound(t, data, err, job.Place, job.Number, job.By.Name, job.By.Number)
		for _, task := range job.Tasks {
			sound(t, data, nil, task.ID, task.DoneBy)
		}
		for _, p := range job.Parts {
			sound(t, data, nil, p.Item, p.Number, p.Serial)
		}
		recordTakes(t, job)
		yard, err := jobsheet.ParseYard("yard.yaml", data)
		sound(t, data, err, yard.Name, yard.PageHost)
		m, err := jobsheet.ParseMachine("machine.yaml", data)
		sound(t, data, err, m.ID, m.Serial)
		s, _, err := jobsheet.ParseSchedule("schedule.yaml", data)
		sound(t, data, err, s.ID, s.Title)
		var found error
		if contradictions := jobsheet.Contradictions(s, jobsheet.Source{File: "schedule.yaml"}, []jobsheet.Machine{{ID: "g6", Schedule: s.ID}}); err == nil && len(contradictions) > 0 {
			found = contradictions
		}
		sound(t, data, found)
	})
}
