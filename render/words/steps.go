package words

import (
	"cmp"
	"fmt"
	"io/fs"
	"slices"
	"sync"

	"hourseal/record/schedule"
	"hourseal/templates"
)

// Job is what the steps of a worksheet are chosen by.
type Job struct {
	MachineKind string
	Tasks       []schedule.Task
	// Drain says how a fluid system is emptied: extractor or plug; nil: plug.
	Drain func(system string) string
}

func (j Job) drain(system string) string {
	if j.Drain == nil {
		return DrainPlug
	}
	return j.Drain(system)
}

// Phase is one phase of the work with the steps that a job has in it.
type Phase struct {
	ID, Title string
	Running   bool // the machine runs in it
	Steps     []Step
}

// Step is one thing to do and tick.
type Step struct {
	ID     string
	About  Phrase // "" where it is about the machine
	Text   Phrase
	System string // whose figures fill its places; "" without one
	Drain  string // where it empties that system in one of the ways: extractor or plug
	Takes  bool   // fluid of that system, also where the work does not fill it
	Blanks []Blank
	Tasks  []schedule.Task // those that call for it, at least one
	Source string          // where it comes from
	// Unlisted: all that there is for a task without a list of its own.
	Unlisted bool
}

// Blank is something to write down.
type Blank struct {
	Label string `json:"label"`
	Unit  string `json:"unit"`
	Line  string `json:"line"` // short, long or wide
}

// What a step may be for beside tasks and groups; see templates/steps/order.yaml.
const (
	forEvery     = "every"
	forLeakCheck = "leak-check"
	forUnlisted  = "unlisted"
)

// CommonPractice is the source of a step that names no other.
const CommonPractice = "common practice, no source"

// machines says on which kinds of machine something is done, by words of the
// kind.
type machines struct {
	On     []string `json:"on"`
	Except []string `json:"except"`
}

func (m machines) hold(kind string) bool {
	is := func(word string) bool { return holdsWord(kind, word) }
	return (len(m.On) == 0 || slices.ContainsFunc(m.On, is)) && !slices.ContainsFunc(m.Except, is)
}

// order is templates/steps/order.yaml.
type order struct {
	Phases []phaseEntry          `json:"phases"`
	Groups map[string]groupEntry `json:"groups"`
	Blanks map[string]Blank      `json:"blanks"`
}

type phaseEntry struct {
	ID      string `json:"id"`
	Title   string `json:"title"`
	Running bool   `json:"running"` // the machine runs in it
	steps   []stepEntry
}

type groupEntry struct {
	Tasks   []string `json:"tasks"`
	Besides bool     `json:"besides"`
	machines
}

// phaseFile is one of the other files of templates/steps.
type phaseFile struct {
	Steps []stepEntry `json:"steps"`
}

type stepEntry struct {
	ID     string   `json:"id"`
	For    []string `json:"for"`
	About  Phrase   `json:"about"`
	Each   bool     `json:"each"`
	Text   Phrase   `json:"text"`
	System string   `json:"system"`
	Drain  string   `json:"drain"`
	Takes  bool     `json:"takes"`
	Blanks []string `json:"blanks"`
	Source string   `json:"source"`
	machines
}

// steps loads the order of the work on first use.
var steps = sync.OnceValue(func() order {
	table, err := readSteps(templates.Steps())
	if err != nil {
		panic("words: steps: " + err.Error()) // embedded, tested
	}
	return table
})

func readSteps(files fs.FS) (order, error) {
	table, err := parseFile[order](files, "order")
	if err != nil {
		return table, err
	}
	for i := range table.Phases {
		phase, err := parseFile[phaseFile](files, table.Phases[i].ID)
		if err != nil {
			return table, err
		}
		table.Phases[i].steps = phase.Steps
	}
	return table, table.valid()
}

func parseFile[T any](files fs.FS, id string) (T, error) {
	data, err := fs.ReadFile(files, id+".json")
	if err != nil {
		var none T
		return none, err
	}
	table, err := parse[T](data)
	if err != nil {
		return table, fmt.Errorf("%s.json: %w", id, err)
	}
	return table, nil
}

// valid says what does not fit together in the order of the work.
func (o order) valid() error {
	seen := map[string]bool{}
	for _, phase := range o.Phases {
		for _, step := range phase.steps {
			if step.ID == "" || len(step.For) == 0 || step.Text == "" {
				return fmt.Errorf("%s: step %q: id, for and text are wanted", phase.ID, step.ID)
			}
			if seen[step.ID] {
				return fmt.Errorf("%s: step %s is there twice", phase.ID, step.ID)
			}
			seen[step.ID] = true
			if step.Drain != "" && (step.System == "" || step.Drain != DrainExtractor && step.Drain != DrainPlug) {
				return fmt.Errorf("%s: step %s: drain is extractor or plug, of a system", phase.ID, step.ID)
			}
			for _, blank := range step.Blanks {
				if _, known := o.Blanks[blank]; !known {
					return fmt.Errorf("%s: step %s: there is no blank %q", phase.ID, step.ID, blank)
				}
			}
		}
	}
	return nil
}

// How a fluid system is emptied.
const (
	DrainExtractor = "extractor"
	DrainPlug      = "plug"
)

// Steps returns the steps of a job in the order of the work, without the phases
// in which it has none.
func Steps(job Job) []Phase {
	var phases []Phase
	o := steps()
	for _, p := range o.Phases {
		phase := Phase{ID: p.ID, Title: p.Title, Running: p.Running}
		for _, entry := range p.steps {
			phase.Steps = append(phase.Steps, o.chosen(entry, job)...)
		}
		if len(phase.Steps) > 0 {
			phases = append(phases, phase)
		}
	}
	return phases
}

// WorkAhead tells the kinds of work of a job that is still to be done, by its
// tasks, the fluids they need and whether the machine is run.
func WorkAhead(job Job) Work {
	var names []string
	for _, task := range job.Tasks {
		names = append(names, task.ID, task.Needs.Drained, task.Needs.Filled)
	}
	work := WorkNamed(job.MachineKind, names...)
	if slices.ContainsFunc(Steps(job), func(p Phase) bool { return p.Running }) {
		work[running] = true
	}
	return work
}

// chosen is a step as a job has it: not at all, once, or once for each of the
// tasks that call for it.
func (o order) chosen(e stepEntry, job Job) []Step {
	if !e.hold(job.MachineKind) {
		return nil
	}
	var calling []schedule.Task
	for _, task := range job.Tasks {
		if o.calls(e, task, job.MachineKind) {
			calling = append(calling, task)
		}
	}
	if len(calling) == 0 {
		return nil
	}
	together := [][]schedule.Task{calling}
	if e.Each {
		together = slices.Collect(slices.Chunk(calling, 1))
	}
	var chosen []Step
	for _, tasks := range together {
		step := o.step(e, tasks)
		if e.Drain == "" || e.Drain == job.drain(step.System) {
			chosen = append(chosen, step)
		}
	}
	return chosen
}

func (o order) step(e stepEntry, calling []schedule.Task) Step {
	s := Step{
		ID: e.ID, Takes: e.Takes, About: e.About, Text: e.Text, System: systemOf(e, calling), Drain: e.Drain, Tasks: calling, Source: e.Source,
		Unlisted: slices.Contains(e.For, forUnlisted),
	}
	if s.Source == "" {
		s.Source = CommonPractice
	}
	for _, name := range e.Blanks {
		s.Blanks = append(s.Blanks, o.Blanks[name])
	}
	return s
}

// systemOf is the system that a step's figures are of: the one that the task's
// own evidence names, else the one that the step does.
func systemOf(e stepEntry, calling []schedule.Task) string {
	if e.System == "" {
		return ""
	}
	for _, task := range calling {
		if system := cmp.Or(task.Needs.Filled, task.Needs.Drained, task.Needs.Level); system != "" {
			return system
		}
	}
	return e.System
}

// calls says whether a task calls for a step.
func (o order) calls(e stepEntry, task schedule.Task, kind string) bool {
	return slices.ContainsFunc(e.For, func(name string) bool {
		switch name {
		case forEvery:
			return true
		case forLeakCheck:
			return task.Needs.LeakCheck
		case forUnlisted:
			return !o.listed(task, kind)
		}
		if group, ok := o.Groups[name]; ok {
			return group.holds(task, kind)
		}
		return name == task.ID
	})
}

// listed says whether a task has a step of its own, or of a group that does the
// work itself.
func (o order) listed(task schedule.Task, kind string) bool {
	own := func(name string) bool {
		group, ok := o.Groups[name]
		return name == task.ID || ok && !group.Besides && group.holds(task, kind)
	}
	for _, p := range o.Phases {
		for _, e := range p.steps {
			if e.hold(kind) && slices.ContainsFunc(e.For, own) {
				return true
			}
		}
	}
	return false
}

func (g groupEntry) holds(task schedule.Task, kind string) bool {
	return g.machines.hold(kind) && slices.Contains(g.Tasks, task.ID)
}
