package worksheet

import (
	"encoding/json"
	"io/fs"
	"slices"
	"strings"
	"testing"

	"hourseal/record/schedule"
	"hourseal/render/words"
	"hourseal/templates"
)

// machines are the kinds of machine that the schedules are for.
var machines = []struct{ kind, schedule string }{
	{"propulsion diesel", "diesel-inboard"}, {"propulsion diesel", "diesel-inboard-ellery"}, {"diesel generator", "diesel-generator"},
	{"petrol outboard", "petrol-outboard"}, {"reduction gear", "reduction-gear"}, {"sail drive", "sail-drive"},
	{"petrol inboard", "diesel-inboard"}, {"gearbox", "reduction-gear"}, {"saildrive", "sail-drive"},
}

var drains = []string{words.DrainExtractor, words.DrainPlug}

// everyStep is the steps of all tasks of a schedule.
func everyStep(t *testing.T, kind, id, drain string) (steps []words.Step) {
	t.Helper()
	for _, phase := range words.Steps(words.Job{MachineKind: kind, Tasks: loadSchedule(t, id).Tasks, Drain: func(string) string { return drain }}) {
		steps = append(steps, phase.Steps...)
	}
	return steps
}

// stepFiles reads the files themselves: the phases in their order, and the ids of
// all steps with the tasks and groups that they are for.
func stepFiles(t *testing.T) (phases, ids []string, tasks map[string]bool) {
	t.Helper()
	read := func(name string, into any) {
		data, err := fs.ReadFile(templates.Steps(), name)
		if err == nil {
			err = json.Unmarshal(data, into)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	var order struct {
		Phases []struct{ ID string }
		Groups map[string]struct{ Tasks []string }
	}
	read("order.json", &order)
	tasks = map[string]bool{}
	for _, group := range order.Groups {
		for _, task := range group.Tasks {
			tasks[task] = true
		}
	}
	for _, phase := range order.Phases {
		phases = append(phases, phase.ID)
		var file struct {
			Steps []struct {
				ID  string
				For []string
			}
		}
		read(phase.ID+".json", &file)
		for _, step := range file.Steps {
			ids = append(ids, step.ID)
			for _, name := range step.For {
				_, group := order.Groups[name]
				if !group && !slices.Contains([]string{"every", "leak-check", "unlisted"}, name) {
					tasks[name] = true
				}
			}
		}
	}
	return phases, ids, tasks
}

// Every step is reached from some task of a schedule, and every task that a step
// or a group names is in one.
func TestEveryStepIsReached(t *testing.T) {
	_, ids, named := stepFiles(t)
	reached, tasks := map[string]bool{}, map[string]bool{}
	for _, m := range machines {
		for _, task := range loadSchedule(t, m.schedule).Tasks {
			tasks[task.ID] = true
		}
		for _, drain := range drains {
			for _, step := range everyStep(t, m.kind, m.schedule, drain) {
				reached[step.ID] = true
			}
		}
	}
	for _, id := range ids {
		if !reached[id] {
			t.Errorf("%s: no task of a schedule calls for it", id)
		}
	}
	for task := range named {
		if !tasks[task] {
			t.Errorf("%s: in no schedule", task)
		}
	}
}

// The tasks for which there has to be a list, and not the plain fallback.
func TestTasksWithAList(t *testing.T) {
	lists := []string{
		"engine-oil", "oil-filter", "fuel-filter-primary", "fuel-filter-secondary", "fuel-filter", "impeller", "coolant", "coolant-strength",
		"gear-oil", "drive-oil", "anodes", "cooler-anode", "belt", "belt-look",
	}
	found := map[string]bool{}
	for _, m := range machines {
		for _, step := range everyStep(t, m.kind, m.schedule, words.DrainPlug) {
			for _, task := range step.Tasks {
				found[task.ID] = true
				if step.Unlisted && slices.Contains(lists, task.ID) {
					t.Errorf("%s on a %s: no list of its own", task.ID, m.kind)
				}
			}
		}
	}
	for _, id := range lists {
		if !found[id] {
			t.Errorf("%s: in no schedule", id)
		}
	}
}

// before is what people forget, and what it has to come before. Each pair stands
// together on a sheet of some machine.
var before = []struct{ first, then string }{
	// The level that the consumption is worked out from.
	{"engine-oil-level-before", "warm-run"}, {"engine-oil-level-before", "engine-oil-extract"}, {"engine-oil-level-before", "engine-oil-plug-out"},
	{"gear-oil-level-before", "gear-oil-out-extractor"}, {"gear-oil-level-before", "gear-oil-out-plug"},
	{"drive-oil-level-before", "drive-oil-out-extractor"},
	// Oil warm, and not beyond what the extractor bears; air behind it.
	{"warm-run", "engine-oil-extract"}, {"warm-run", "engine-oil-plug-out"}, {"engine-oil-limit", "engine-oil-extract"},
	{"engine-oil-cap-off", "engine-oil-extract"}, {"engine-oil-cap-off", "engine-oil-plug-out"}, {"engine-oil-plug-in", "engine-oil-fill-lower"},
	// A turbocharger that still turns wants oil.
	{"warm-idle", "warm-stop"}, {"run-idle", "stop"},
	{"warm-stop", "isolate"}, {"isolate", "engine-oil-extract"}, {"isolate", "impeller-cover-off"}, {"isolate", "belt-off"}, {"isolate", "unlisted"},
	{"hold-shaft", "unlisted"}, {"catch", "engine-oil-extract"}, {"catch", "coolant-drain"}, {"catch", "fuel-old-off"},
	// The oil filter.
	{"oil-filter-off", "oil-filter-old-gasket"}, {"oil-filter-old-gasket", "oil-filter-face"}, {"oil-filter-face", "oil-filter-fit"},
	{"oil-filter-compare", "oil-filter-fit"}, {"oil-filter-date", "oil-filter-fit"}, {"oil-filter-fill", "oil-filter-fit"},
	{"oil-filter-gasket", "oil-filter-fit"}, {"oil-filter-fit", "oil-filter-turn"}, {"oil-filter-turn", "start"},
	// Filling: the lower mark first, and the cap on.
	{"engine-oil-can", "engine-oil-fill-lower"}, {"engine-oil-fill-lower", "engine-oil-fill-between"}, {"engine-oil-fill-between", "engine-oil-cap-on"},
	{"engine-oil-cap-on", "start"}, {"engine-oil-extract", "engine-oil-fill-lower"}, {"oil-filter-turn", "engine-oil-fill-lower"},
	// So that a leak shows, and is looked for twice.
	{"clean-below", "start"}, {"tools-out", "start"}, {"start", "leak-look"}, {"leak-look", "stop"}, {"stop", "leaks-again"}, {"isolate-again", "leaks-again"},
	{"battery-on", "start"}, {"ventilate", "start"}, {"sniff", "battery-on"}, {"water-to-leg", "start"},
	// The oil has to drain back before its level says anything.
	{"stop", "oil-wait"}, {"oil-wait", "engine-oil-level"}, {"engine-oil-level", "waste-oil"},
	// The impeller, and the sea cock both ways.
	{"sea-cock-closed", "impeller-cover-off"}, {"sea-cock-closed", "strainer-out"}, {"sea-cock-closed", "anode-out"}, {"sea-cock-closed", "heat-exchanger"},
	{"impeller-cover-off", "impeller-blades"}, {"impeller-blades", "impeller-fit"}, {"impeller-fit", "impeller-cover-on"}, {"impeller-cover-on", "sea-cock-open"},
	{"anode-in", "sea-cock-open"}, {"heat-exchanger", "sea-cock-open"}, {"strainer-out", "sea-cock-open"}, {"sea-cock-open", "start"}, {"leg-impeller-out", "leg-impeller-in"},
	// Coolant: cold, one glycol, without air, measured afterwards.
	{"coolant-strength-cold", "coolant-strength"}, {"coolant-strength", "coolant-strength-cap"}, {"coolant-cold", "coolant-drain"}, {"coolant-cocks-shut", "coolant-fill"},
	{"coolant-kind", "coolant-fill"}, {"coolant-fill", "coolant-bleed"}, {"coolant-bleed", "start"}, {"coolant-run", "coolant-after"},
	// Gear and drive oil: looked at before new oil hides it; where she lies.
	{"gear-oil-look", "gear-oil-fill"}, {"gear-oil-look", "leg-oil-fill"}, {"gear-oil-fill", "gear-oil-level"}, {"gear-oil-strainer-in", "gear-oil-fill"},
	{"leg-lies", "drive-oil-out-extractor"}, {"leg-lies", "drive-oil-out-plug"}, {"drive-oil-seen", "drive-oil-fill"}, {"drive-oil-fill", "drive-oil-level"},
	// Belts give after they have run.
	{"belt-found", "belt-off"}, {"belt-on", "belt-tension"}, {"belt-tension", "start"}, {"stop", "belt-again"}, {"isolate-again", "belt-again"},
	// Fuel.
	{"fuel-no-flame", "fuel-primary-drain"}, {"fuel-no-flame", "fuel-old-off"}, {"fuel-date", "fuel-fit"}, {"fuel-fit", "fuel-bleed"}, {"fuel-bleed", "fuel-wipe"},
	{"fuel-wipe", "battery-on"}, {"fuel-bleed", "start"}, {"fuel-bulb", "fuel-wipe"}, {"isolate", "fuel-old-off"},
	// What is opened beside a warm engine is not fuel, and nothing under pressure.
	{"engine-oil-extract", "fuel-primary-drain"}, {"engine-oil-plug-out", "fuel-old-off"}, {"oil-filter-turn", "fuel-old-off"},
	{"engine-oil-extract", "valve-clearances"}, {"warm-sniff", "warm-run"},
	// The oil is the right one before any of it goes in; and what held the shaft is off.
	{"engine-oil-can", "oil-filter-fill"}, {"hold-shaft", "shaft-free"}, {"shaft-free", "battery-on"}, {"unlisted", "shaft-free"},
	{"shaft-free", "gear-shift"}, {"gear-shift", "leak-look"}, {"isolate-automatic", "catch"}, {"isolate-automatic", "automatic-left"},
	{"isolate", "battery-terminals"}, {"battery-terminals", "battery-on"}, {"battery-on", "water-alarm"}, {"start", "kill-cord"}, {"kill-cord", "stop"},
	{"meter", "warm-run"}, {"plate", "meter"}, {"waste-oil", "leave"}, {"log", "leave"},
}

func TestWhatPeopleForgetComesInTime(t *testing.T) {
	together := map[int]bool{}
	for _, m := range machines {
		for _, drain := range drains {
			steps := everyStep(t, m.kind, m.schedule, drain)
			at := func(id string) int {
				return slices.IndexFunc(steps, func(s words.Step) bool { return s.ID == id })
			}
			for i, pair := range before {
				first, then := at(pair.first), at(pair.then)
				if first < 0 || then < 0 {
					continue
				}
				together[i] = true
				if first > then {
					t.Errorf("%s, %s: %s comes after %s", m.kind, drain, pair.first, pair.then)
				}
			}
		}
	}
	for i, pair := range before {
		if !together[i] {
			t.Errorf("%s before %s: never on one sheet", pair.first, pair.then)
		}
	}
}

// Whatever task has the machine run, by itself: it is made ready for it, and the
// look afterwards is at a machine that nobody can start.
func TestNothingRunsUnprepared(t *testing.T) {
	ran := 0
	for _, m := range machines {
		for _, task := range loadSchedule(t, m.schedule).Tasks {
			has := map[string]bool{}
			for _, phase := range words.Steps(words.Job{MachineKind: m.kind, Tasks: []schedule.Task{task}}) {
				for _, step := range phase.Steps {
					has[step.ID] = true
				}
				if phase.ID == "run" && !has["start"] {
					t.Errorf("%s on a %s: %v without a start", task.ID, m.kind, phase.Steps)
				}
			}
			if !has["start"] {
				continue
			}
			ran++
			want := []string{"isolate", "clean-below", "tools-out", "ventilate", "battery-on", "leak-look", "stop", "isolate-again", "leaks-again"}
			if strings.Contains(m.kind, "petrol") {
				want = append(want, "sniff")
			}
			if m.kind == "petrol outboard" || m.schedule == "sail-drive" {
				want = append(want, "water-to-leg")
			}
			if m.schedule == "reduction-gear" || m.schedule == "sail-drive" {
				want = append(want, "shaft-free")
			}
			for _, id := range want {
				if !has[id] {
					t.Errorf("%s on a %s: it runs without %s", task.ID, m.kind, id)
				}
			}
		}
	}
	if ran < 30 {
		t.Errorf("only %d tasks have the machine run", ran)
	}
}

// Below the water line of a leg nothing is opened before it is said where she lies.
func TestLegAshore(t *testing.T) {
	for _, task := range []string{"drive-oil", "propeller-shaft-seals", "diaphragm", "propeller", "anodes", "leg-paint"} {
		of, ok := loadSchedule(t, "sail-drive").Task(task)
		if !ok {
			t.Fatalf("no task %s", task)
		}
		phases := words.Steps(words.Job{MachineKind: "sail drive", Tasks: []schedule.Task{of}})
		if phases[0].ID != "arrive" || !slices.ContainsFunc(phases[0].Steps, func(s words.Step) bool { return s.ID == "leg-lies" }) {
			t.Errorf("%s: afloat or ashore is not asked on arrival", task)
		}
	}
}

// The words that make it impossible to overlook, in the step where they belong.
func TestStepsSayIt(t *testing.T) {
	texts := map[string]string{}
	blanks := map[string][]string{}
	for _, m := range machines {
		for _, drain := range drains {
			for _, step := range everyStep(t, m.kind, m.schedule, drain) {
				texts[step.ID] = string(step.Text)
				blanks[step.ID] = nil
				for _, b := range step.Blanks {
					blanks[step.ID] = append(blanks[step.ID], strings.TrimSpace(b.Label+" "+b.Unit))
				}
			}
		}
	}
	for id, want := range map[string]string{
		"oil-filter-fill": "as far as it holds", "oil-filter-turn": "half to one turn after contact", "oil-filter-date": "Date and hours",
		"engine-oil-limit": "Not above what the extractor is made for", "warm-run": "warm, not hot", "warm-idle": "turbocharged", "run-idle": "turbocharged",
		"engine-oil-fill-lower": "LOWER mark first", "engine-oil-fill-between": "Never above", "engine-oil-level": "never above", "leak-look": "10 min",
		"clean-below": "a leak shows", "waste-oil": `marked "Used oil"`, "impeller-blades": "ALL blades accounted for", "sea-cock-open": "OPEN",
		"coolant-cold": "Never open it hot", "coolant-after": "never hot", "coolant-kind": "NEVER mixed", "coolant-bleed": "AIR", "gear-oil-look": "metal",
		"leg-lies": "Afloat, or ashore", "drive-oil-out-plug": "Ashore only", "fuel-no-flame": "No flame", "fuel-wipe": "wiped up", "fuel-bleed": "BLEED",
		"oil-wait": "never less than 5", "belt-again": "AGAIN", "shaft-free": "FREE", "isolate-automatic": "Automatic and remote start OFF",
		"warm-sniff": "SNIFF", "water-to-leg": "propeller off", "fuel-old-off": "Nothing hot near it", "start": "at idle",
	} {
		if !strings.Contains(texts[id], want) {
			t.Errorf("%s: no %q in %q", id, want, texts[id])
		}
	}
	for id, want := range map[string][]string{
		"engine-oil-level-before": {"level", "stopped for min", "at °C"}, "engine-oil-extract": {"drained L", "at °C"}, "engine-oil-plug-out": {"drained L", "at °C"},
		"engine-oil-fill-lower": {"filled L", "at °C"}, "engine-oil-level": {"topped up L", "level", "stopped for min", "at °C"}, "leak-look": {"for min", "seen"},
		"oil-wait": {"waited min"}, "oil-filter-compare": {"part number"}, "impeller-fit": {"part number"}, "belt-on": {"part number", "how many"}, "coolant-after": {"topped up L", "freezing point °C"},
		"coolant-strength": {"freezing point °C"}, "battery-rest": {"voltage V"}, "log": {"hours h"},
	} {
		if !slices.Equal(blanks[id], want) {
			t.Errorf("%s: blanks %q, want %q", id, blanks[id], want)
		}
	}
}

// The order of the steps is that of the files, whatever the order of the tasks.
func TestOrderDoesNotDependOnTheSchedule(t *testing.T) {
	_, order, _ := stepFiles(t)
	tasks := loadSchedule(t, "diesel-inboard").Tasks
	backwards := slices.Clone(tasks)
	slices.Reverse(backwards)
	ids := func(tasks []schedule.Task) (ids []string) {
		for _, phase := range words.Steps(words.Job{MachineKind: "propulsion diesel", Tasks: tasks}) {
			for _, step := range phase.Steps {
				ids = append(ids, step.ID)
			}
		}
		return ids
	}
	forwards := ids(tasks)
	if !slices.Equal(forwards, ids(backwards)) {
		t.Error("another order of the tasks gives another order of the work")
	}
	if !slices.IsSortedFunc(forwards, func(a, b string) int { return slices.Index(order, a) - slices.Index(order, b) }) {
		t.Errorf("not the order of the files: %q", forwards)
	}
}
