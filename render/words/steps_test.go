package words

import (
	"io/fs"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"hourseal/record/schedule"
	"hourseal/templates"
)

// The places that a worksheet fills.
var stepPlaces = []string{
	"title", "item", "serial", "part", "needs", "to_lower", "between", "filter_holds", "hot", "fillings",
	"viscosity", "meets", "glycol", "protect_to",
}

// figurePlaces need a system to be of.
var figurePlaces = stepPlaces[4:]

// Everything in the table is of use to something, and every name in it is one
// that is there.
func TestOrderOfTheWork(t *testing.T) {
	o := steps()
	if err := o.valid(); err != nil {
		t.Fatal(err)
	}
	files, err := fs.ReadDir(templates.Steps(), ".")
	if err != nil || len(files) != len(o.Phases)+1 {
		t.Errorf("%d files for %d phases and their order (%v)", len(files), len(o.Phases), err)
	}
	usedGroups, usedBlanks := map[string]bool{}, map[string]bool{}
	for _, phase := range o.Phases {
		if phase.ID == "" || phase.Title == "" || len(phase.steps) == 0 {
			t.Errorf("phase %q: incomplete", phase.ID)
		}
		for _, step := range phase.steps {
			for _, name := range step.For {
				usedGroups[name] = true
			}
			for _, name := range step.Blanks {
				usedBlanks[name] = true
			}
			for _, phrase := range []Phrase{step.Text, step.About} {
				for _, place := range phrase.places() {
					if !slices.Contains(stepPlaces, place) {
						t.Errorf("%s: nothing fills {%s}", step.ID, place)
					}
					if slices.Contains(figurePlaces, place) && step.System == "" {
						t.Errorf("%s: {%s} of no system", step.ID, place)
					}
				}
			}
			if !strings.HasSuffix(string(step.Text), ".") && !strings.HasSuffix(string(step.Text), "?") && !strings.HasSuffix(string(step.Text), ".]") {
				t.Errorf("%s: %q does not end", step.ID, step.Text)
			}
		}
	}
	for name, group := range o.Groups {
		if !usedGroups[name] || len(group.Tasks) == 0 {
			t.Errorf("group %s: of no use", name)
		}
		if slices.Contains([]string{forEvery, forLeakCheck, forUnlisted}, name) {
			t.Errorf("group %s: the name has a meaning of its own", name)
		}
	}
	for name, blank := range o.Blanks {
		if !usedBlanks[name] {
			t.Errorf("blank %s: of no use", name)
		}
		if !slices.Contains([]string{"short", "long", "wide"}, blank.Line) || blank.Label == "" && blank.Unit == "" {
			t.Errorf("blank %s: %+v", name, blank)
		}
	}
}

// What is put where a figure is not known is always in brackets: a step never
// says "not stated".
func TestStepsWithoutFiguresReadWell(t *testing.T) {
	for _, phase := range steps().Phases {
		for _, step := range phase.steps {
			said := step.Text.With("title", "Look over the mounts", "serial", "0045120")
			if strings.ContainsAny(said, "{}[]") || strings.Contains(said, notStated) || strings.Contains(said, "  ") {
				t.Errorf("%s: %q", step.ID, said)
			}
		}
	}
}

func idsOfSteps(phases []Phase) (ids []string) {
	for _, p := range phases {
		for _, s := range p.Steps {
			ids = append(ids, s.ID)
		}
	}
	return ids
}

func task(id string) schedule.Task { return schedule.Task{ID: id, Title: id} }

func TestStepsAreChosen(t *testing.T) {
	drainBy := func(way string) func(string) string { return func(string) string { return way } }
	diesel, outboard, drive := "propulsion diesel", "petrol outboard", "sail drive"
	for _, c := range []struct {
		what     string
		job      Job
		has, not []string
	}{
		{"extractor", Job{diesel, []schedule.Task{task("engine-oil")}, drainBy(DrainExtractor)},
			[]string{"engine-oil-extract", "engine-oil-cap-off", "warm-run", "leak-look"}, []string{"engine-oil-plug-out", "engine-oil-plug-in", "unlisted", "sea-cock-closed"}},
		{"plug", Job{diesel, []schedule.Task{task("engine-oil")}, drainBy(DrainPlug)},
			[]string{"engine-oil-plug-out", "engine-oil-plug-in", "engine-oil-cap-off"}, []string{"engine-oil-extract", "engine-oil-limit"}},
		{"nobody says how", Job{MachineKind: diesel, Tasks: []schedule.Task{task("engine-oil")}}, []string{"engine-oil-plug-out"}, nil},
		{"impeller inboard", Job{diesel, []schedule.Task{task("impeller")}, nil},
			[]string{"sea-cock-closed", "impeller-blades", "sea-cock-open", "start"}, []string{"leg-impeller-out", "warm-run"}},
		{"impeller of an outboard", Job{outboard, []schedule.Task{task("impeller")}, nil},
			[]string{"leg-impeller-out", "water-to-leg", "sniff"}, []string{"sea-cock-closed", "impeller-blades", "run-idle"}},
		{"anodes of a leg, ashore", Job{drive, []schedule.Task{task("anodes")}, nil},
			[]string{"leg-anode-off", "hold-shaft"}, []string{"sea-cock-closed", "start", "anode-out"}},
		{"an item of the yard's own", Job{diesel, []schedule.Task{task("horn")}, nil}, []string{"unlisted", "isolate"}, []string{"start", "sea-cock-closed"}},
		{"the same, looked at for leaks", Job{diesel, []schedule.Task{{ID: "horn", Needs: schedule.Needs{LeakCheck: true}}}, nil}, []string{"unlisted", "start", "leak-look"}, nil},
		{"run, and no list of its own", Job{outboard, []schedule.Task{task("spark-plugs")}, nil}, []string{"unlisted", "start"}, nil},
		{"no job", Job{MachineKind: diesel}, nil, []string{"meter", "isolate"}},
	} {
		ids := idsOfSteps(Steps(c.job))
		for _, id := range c.has {
			if !slices.Contains(ids, id) {
				t.Errorf("%s: no step %s", c.what, id)
			}
		}
		for _, id := range c.not {
			if slices.Contains(ids, id) {
				t.Errorf("%s: step %s", c.what, id)
			}
		}
	}
}

// What several tasks share is there once, and knows all of them; what each needs
// for itself is there for each.
func TestSharedSteps(t *testing.T) {
	job := Job{MachineKind: "propulsion diesel", Tasks: []schedule.Task{
		task("engine-oil"), task("oil-filter"), task("fuel-filter-primary"), task("fuel-filter-secondary"), task("horn"), task("bell")}}
	count := map[string]int{}
	for _, phase := range Steps(job) {
		for _, step := range phase.Steps {
			count[step.ID]++
			if step.ID == "leak-look" && len(step.Tasks) != 4 || step.ID == "isolate" && len(step.Tasks) != 6 {
				t.Errorf("%s is for %d tasks", step.ID, len(step.Tasks))
			}
		}
	}
	for id, n := range count {
		want := 1
		if id == "fuel-date" || id == "unlisted" {
			want = 2
		}
		if n != want {
			t.Errorf("%s: %d times, want %d", id, n, want)
		}
	}
}

// A step's figures are those of the system that the task's own evidence names.
func TestSystemOfAStep(t *testing.T) {
	job := Job{MachineKind: "propulsion diesel", Tasks: []schedule.Task{{ID: "engine-oil", Needs: schedule.Needs{Drained: "sump-oil"}}, task("oil-filter")},
		Drain: func(system string) string {
			if system == "sump-oil" {
				return DrainExtractor
			}
			return DrainPlug
		}}
	got := map[string]string{}
	for _, phase := range Steps(job) {
		for _, step := range phase.Steps {
			got[step.ID] = step.System
		}
	}
	for id, want := range map[string]string{"engine-oil-extract": "sump-oil", "engine-oil-level": "sump-oil", "oil-filter-fill": "engine-oil", "isolate": ""} {
		if system, ok := got[id]; !ok || system != want {
			t.Errorf("%s: %q (%v), want %q", id, system, ok, want)
		}
	}
}

// The machine is cautioned about by what is going to be done.
func TestWorkAhead(t *testing.T) {
	for _, c := range []struct {
		task string
		want []string
	}{
		{"engine-mounts", []string{"start"}},
		{"impeller", []string{"start", "carbon-monoxide"}},
		{"engine-oil", []string{"start", "hot-oil", "overfilled", "carbon-monoxide", "skin", "slips", "used-oil"}},
		{"coolant-strength", []string{"start", "hot-coolant", "slips"}},
	} {
		job := Job{MachineKind: "propulsion diesel", Tasks: []schedule.Task{task(c.task)}}
		if got := idsOf(Cautions(WorkAhead(job))); !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.task, got, c.want)
		}
	}
}

func TestBrokenStepsAreRefused(t *testing.T) {
	const order = `{"phases": [{"id": "one", "title": "One"}], "blanks": {"seen": {"label": "seen", "line": "wide"}}}`
	for what, c := range map[string]struct{ order, one, want string }{
		"a step twice":      {order, `{"steps": [{"id": "a", "for": ["every"], "text": "A."}, {"id": "a", "for": ["every"], "text": "A."}]}`, "there twice"},
		"no text":           {order, `{"steps": [{"id": "a", "for": ["every"]}]}`, "are wanted"},
		"for nothing":       {order, `{"steps": [{"id": "a", "text": "A."}]}`, "are wanted"},
		"an unknown blank":  {order, `{"steps": [{"id": "a", "for": ["every"], "text": "A.", "blanks": ["sen"]}]}`, `no blank "sen"`},
		"an unknown drain":  {order, `{"steps": [{"id": "a", "for": ["every"], "text": "A.", "system": "oil", "drain": "pump"}]}`, "extractor or plug"},
		"drain of nothing":  {order, `{"steps": [{"id": "a", "for": ["every"], "text": "A.", "drain": "plug"}]}`, "of a system"},
		"an unknown key":    {order, `{"steps": [{"id": "a", "for": ["every"], "text": "A.", "blank": ["seen"]}]}`, `unknown field "blank"`},
		"a phase amiss":     {`{"phases": [{"id": "two", "title": "Two"}]}`, `{"steps": []}`, "two.json"},
		"no order":          {"", `{"steps": []}`, "read words"},
		"all is well again": {order, `{"steps": [{"id": "a", "for": ["every"], "text": "A.", "blanks": ["seen"]}]}`, ""},
	} {
		_, err := readSteps(fstest.MapFS{"order.json": {Data: []byte(c.order)}, "one.json": {Data: []byte(c.one)}})
		if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("%s: %v, want %q", what, err, c.want)
		}
	}
}
