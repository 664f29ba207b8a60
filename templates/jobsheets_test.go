package templates_test

import (
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
	"hourseal/templates"
)

const exampleJob = "jobs/example-oil-change.yaml"

func readText(t *testing.T, folder fs.FS, name string) string {
	t.Helper()
	data, err := fs.ReadFile(folder, name)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// resolved reads a job sheet of a folder and holds it to its machine and
// schedule.
func resolved(t *testing.T, folder fs.FS, name string) (jobsheet.Job, jobsheet.Machine, schedule.Schedule) {
	t.Helper()
	job, err := jobsheet.ParseJob(name, []byte(readText(t, folder, name)))
	if err != nil {
		t.Fatal(err)
	}
	machine, s, err := jobsheet.Open(folder, templates.Schedules()).For(job)
	if err != nil {
		t.Fatal(err)
	}
	return job, machine, s
}

func TestNewYardFolderLoadsAsItStands(t *testing.T) {
	folder := templates.Jobsheets()
	yard, err := jobsheet.Open(folder, templates.Schedules()).Yard()
	if err != nil {
		t.Fatal(err)
	}
	if yard.SigningKey != "keys/yard" || yard.Kind != record.YardIssuer {
		t.Errorf("yard: %+v", yard)
	}
	job, machine, s := resolved(t, folder, exampleJob)
	if machine.ID != "example-engine" || s.ID != "diesel-inboard" {
		t.Errorf("machine %s by schedule %s", machine.ID, s.ID)
	}
	// Nothing that is due may be missing from it: each would have to be decided.
	here := schedule.Point{Date: job.Date, Hours: *job.Meter.Reading}
	for _, task := range s.Tasks {
		mentioned := slices.ContainsFunc(job.Tasks, func(t record.Task) bool { return t.ID == task.ID })
		standing := s.Stand(task, machine.InService, nil, nil)
		if state := standing.At(here); state >= schedule.Now && !mentioned {
			t.Errorf("%s is %v and not on the example", task.ID, state)
		}
	}
	if len(job.Accept) != 0 {
		t.Errorf("the example needs reasons: %v", job.Accept)
	}
}

// What is shown in comments has to load when somebody takes the # away.
func TestCommentedKeysLoad(t *testing.T) {
	folder := templates.Jobsheets()
	for name, parse := range map[string]func(string) error{
		exampleJob: func(text string) error {
			job, err := jobsheet.ParseJob(exampleJob, []byte(text))
			if err != nil {
				return err
			}
			_, _, err = jobsheet.Open(folder, templates.Schedules()).For(job)
			return err
		},
		"machines/example-engine.yaml": func(text string) error {
			_, err := jobsheet.ParseMachine("machines/example-engine.yaml", []byte(text))
			return err
		},
	} {
		variants := uncommented(readText(t, folder, name))
		if len(variants) < 2 {
			t.Errorf("%s: only %d keys in comments", name, len(variants))
		}
		for what, text := range variants {
			if err := parse(text); err != nil {
				t.Errorf("%s with %q: %v", name, what, err)
			}
		}
	}
}

var (
	commentedKey  = regexp.MustCompile(`^# ([a-z_]+):( |$)`)
	commentedTask = regexp.MustCompile(`^  # - \{ id: ([a-z-]+),`)
)

// uncommented gives the text once for each key or task that stands in a
// comment, with that one put in force in place of its like.
func uncommented(text string) map[string]string {
	lines := strings.Split(text, "\n")
	variants := map[string]string{}
	for i, line := range lines {
		if m := commentedTask.FindStringSubmatch(line); m != nil {
			others := slices.DeleteFunc(slices.Clone(lines), func(l string) bool {
				return strings.HasPrefix(l, "  - { id: "+m[1]+",")
			})
			at := slices.Index(others, line)
			others[at] = strings.Replace(line, "# ", "", 1)
			variants[strings.TrimSpace(line)] = strings.Join(others, "\n")
			continue
		}
		m := commentedKey.FindStringSubmatch(line)
		if m == nil {
			continue
		}
		end := i + 1
		for end < len(lines) && strings.HasPrefix(lines[end], "#   ") {
			end++
		}
		var out []string
		for j, l := range lines {
			switch {
			case j >= i && j < end:
				out = append(out, strings.TrimPrefix(l, "# "))
			case !strings.HasPrefix(l, m[1]+":"):
				out = append(out, l)
			}
		}
		variants[line] = strings.Join(out, "\n")
	}
	return variants
}

// The example shows every key and every word of the job sheet, in force or in a
// comment, and says what cannot be taken back.
func TestExampleJobShowsEveryKey(t *testing.T) {
	text := readText(t, templates.Jobsheets(), exampleJob)
	keys := strings.Fields(`machine date hours meter estimate basis meter_change removed_at fitted_at why reason
		job_number place technician number credential name tasks id result look_again advice told owner reading
		as_found as_left done_by other_work text fluids system level_before after at drained
		drained_includes_filter filled product batch viscosity meets level topped_up amount waste to receipt
		parts item serial quantity supplied_by leak_check where accept notes`)
	for _, key := range keys {
		if !regexp.MustCompile(`\b` + key + `\b(:| )`).MatchString(text) {
			t.Errorf("%s: not shown", key)
		}
	}
	for _, words := range [][]string{record.ReasonWords, record.ResultWords, record.AdviceWords, record.OwnerWords, record.SupplierWords, record.LeakWords} {
		for _, word := range words {
			if !strings.Contains(text, word) {
				t.Errorf("%s: not shown", word)
			}
		}
	}
	for _, warning := range []string{"QR code", "cannot be taken back", "No owner's name or address"} {
		if !strings.Contains(strings.ReplaceAll(text, "\n# ", " "), warning) {
			t.Errorf("does not say %q", warning)
		}
	}
}

// The demonstration: the first job in time, the second 36.4 h late and past its
// grace of 10 %, the third with a task put off and a reason given.
func TestDemonstration(t *testing.T) {
	folder, err := fs.Sub(templates.Jobsheets(), "demo")
	if err != nil {
		t.Fatal(err)
	}
	open := jobsheet.Open(folder, templates.Schedules())
	if _, err := open.Yard(); err != nil {
		t.Error(err)
	}
	ids, err := open.MachineIDs()
	if err != nil {
		t.Fatal(err)
	}
	for _, id := range ids {
		m, err := open.Machine(id)
		if err != nil {
			t.Error(err)
			continue
		}
		if _, _, err := open.Schedule(m.Schedule); err != nil {
			t.Error(err)
		}
	}

	names, err := fs.Glob(folder, "jobs/*.yaml")
	if err != nil || len(names) != 3 {
		t.Fatalf("jobs: %q, %v", names, err)
	}
	var past []quantity.Hours
	var events []schedule.Event
	var last jobsheet.Job
	for _, name := range names {
		job, machine, s := resolved(t, folder, name)
		if machine.ID != "gannet-port" || s.ID != "diesel-inboard-ellery" {
			t.Errorf("%s: machine %s by schedule %s", path.Base(name), machine.ID, s.ID)
		}
		oil, _ := s.Task("engine-oil")
		if events == nil {
			for _, e := range machine.Earlier {
				if e.Task == oil.ID {
					events = append(events, schedule.Event{Point: e.At, Stated: true})
				}
			}
		}
		here := schedule.Point{Date: job.Date, Hours: *job.Meter.Reading}
		hours, _, _, _ := s.Stand(oil, machine.InService, events, nil).Due.Past(here)
		past = append(past, hours)
		events = append(events, schedule.Event{Point: here})
		last = job
	}
	if want := []quantity.Hours{-600, 3640, -340}; !slices.Equal(past, want) {
		t.Errorf("oil past due by %v, want %v (1/100 h)", past, want)
	}
	putOff := slices.ContainsFunc(last.Tasks, func(t record.Task) bool { return t.Result == record.Deferred && t.Answer != nil })
	if !putOff || len(last.Accept) != 1 || last.Accept[0].Code != record.LevelReadEarly.String() {
		t.Errorf("third job: put off %v, accepted %v", putOff, last.Accept)
	}
}
