package words

import (
	"slices"
	"strings"

	"hourseal/record"
)

// Work is the kinds of work of a job, as far as cautions go by them: a set of
// the names under "works" in templates/words/cautions.yaml.
type Work map[string]bool

// running is the kind of work that a look for leaks means.
const running = "running"

// Caution is one caution.
type Caution struct {
	ID      string
	Text    string
	Governs string // who speaks first: "the maker's handbook and local codes"
	Source  string // where it comes from
}

// cautionTable is templates/words/cautions.yaml.
type cautionTable struct {
	Works    map[string][]string `json:"works"`
	Governs  map[string]string   `json:"governs"`
	Cautions []cautionEntry      `json:"cautions"`
}

type cautionEntry struct {
	ID      string   `json:"id"`
	When    []string `json:"when"` // any of these; none: every job
	And     string   `json:"and"`  // and this, where it is set
	Text    string   `json:"text"`
	Governs []string `json:"governs"`
	Source  string   `json:"source"`
}

var cautions = once[cautionTable]("cautions.json")

// WorkNamed tells the kinds of work from the kind of the machine and the names
// of what is worked on: ids of tasks and of fluid systems.
func WorkNamed(machineKind string, names ...string) Work {
	work := Work{}
	for _, name := range append(names, machineKind) {
		for kind, marks := range cautions().Works {
			if slices.ContainsFunc(marks, func(mark string) bool { return holdsWord(name, mark) }) {
				work[kind] = true
			}
		}
	}
	return work
}

// WorkOf tells the kinds of work of a record, by the tasks that were done or
// looked at, the fluids and the look for leaks. What was put off, or is not on
// the job sheet, does not count.
func WorkOf(r *record.Record) Work {
	var names []string
	for _, t := range r.Tasks {
		if t.Result != 0 && t.Result != record.Deferred {
			names = append(names, t.ID)
		}
	}
	for _, f := range r.Fluids {
		names = append(names, f.System)
	}
	work := WorkNamed(r.Machine.Kind, names...)
	if r.LeakCheck != nil {
		work[running] = true
	}
	return work
}

// Cautions returns the cautions for a job, in the order of the file.
func Cautions(work Work) []Caution {
	table := cautions()
	var chosen []Caution
	for _, entry := range table.Cautions {
		if entry.calledFor(work) {
			chosen = append(chosen, Caution{entry.ID, entry.Text, table.governs(entry), entry.Source})
		}
	}
	return chosen
}

// WhileRunning returns the cautions for whoever runs a machine of a kind.
func WhileRunning(machineKind string) []Caution {
	work := WorkNamed(machineKind)
	work[running] = true
	return Cautions(work)
}

func (e cautionEntry) calledFor(work Work) bool {
	any := len(e.When) == 0 || slices.ContainsFunc(e.When, func(kind string) bool { return work[kind] })
	return any && (e.And == "" || work[e.And])
}

func (t cautionTable) governs(e cautionEntry) string {
	names := make([]string, len(e.Governs))
	for i, key := range e.Governs {
		names[i] = t.Governs[key]
	}
	return strings.Join(names, " and ")
}

// holdsWord says whether one or more whole words of a name, parted by hyphens
// or spaces, are those of mark; after "=" mark is the whole name.
func holdsWord(name, mark string) bool {
	name = strings.ToLower(strings.ReplaceAll(name, " ", "-"))
	if whole, ok := strings.CutPrefix(mark, "="); ok {
		return name == whole
	}
	return strings.Contains("-"+name+"-", "-"+mark+"-")
}
