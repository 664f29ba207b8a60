package check_test

import (
	"testing"

	"hourseal/record"
	"hourseal/record/check"
	"hourseal/record/jobsheet"
)

// gearboxOf is the scene of the gearbox on a scene's engine.
func gearboxOf(t *testing.T, engine *scene) *scene {
	t.Helper()
	s := newScene(t, nil, nil)
	var err error
	if s.machine, err = jobsheet.ParseMachine("machine.yaml", []byte(scenarioFile(t, "machines/gannet-port-gearbox.yaml"))); err != nil {
		t.Fatal(err)
	}
	s.machine.Schedule = s.schedule.ID // any will do: this is about hours
	s.driver, s.engine = &engine.machine, engine.earlier
	return s
}

// gearboxSheet is a look at the gearbox at a reading of its engine's meter.
func gearboxSheet(t *testing.T, date, hours string) string {
	return edits{{"gannet-port", "gannet-port-gearbox"}, {"2026-06-13", date}, {"hours: 900", "hours: " + hours}}.in(t, lookSheet)
}

// TestGearboxReadsItsEngine: the engine's readings are the gearbox's own, though
// it has no record yet; so are the engine's changes of meter.
func TestGearboxReadsItsEngine(t *testing.T) {
	engine := newScene(t, nil, nil)
	engine.issue(t, firstSheet) // 812.6 h on 2026-05-04
	s := gearboxOf(t, engine)
	for _, c := range []struct{ date, hours, want string }{
		{"2026-06-13", "850", ""},
		{"2026-06-13", "812.6", ""},
		{"2026-06-13", "812.5", `refuse hours-below-earlier 812.5h 812.6h "2026-05-04"`},
		{"2026-05-03", "813", `refuse hours-above-later 813h 812.6h "2026-05-04"`}, // late paperwork
		{"2026-05-05", "870", `refuse hours-outrun-clock 57.4h 49.06h "2026-05-04"`},
	} {
		refused := ""
		for _, f := range s.run(t, gearboxSheet(t, c.date, c.hours)).Findings {
			if f.Severity == record.Refuse {
				refused += saidOne(f.Finding)
			}
		}
		if refused != c.want {
			t.Errorf("%s h on %s: %s, want %s", c.hours, c.date, refused, c.want)
		}
	}

	// Off at 830, another on at 12: a reading of 20 is 838 h in total.
	engine.issue(t, edits{{"hours: 900", "hours: 14\nmeter_change: { removed_at: 830, fitted_at: 12, why: glass broken }"}}.in(t, lookSheet))
	s = gearboxOf(t, engine)
	draft := s.run(t, gearboxSheet(t, "2026-06-20", "20")).Draft
	if draft.Job.Hours != 83_800 || draft.Job.Meter.Offset != 81_800 || *draft.Job.Meter.Reading != 2_000 {
		t.Errorf("%v h in total, offset %v", draft.Job.Hours, draft.Job.Meter.Offset)
	}
}

// TestGearboxOffItsEngine: more than 5 h from what its engine read on the same
// visit, either way, is asked about.
func TestGearboxOffItsEngine(t *testing.T) {
	engine := newScene(t, nil, nil)
	engine.issue(t, firstSheet)
	s := gearboxOf(t, engine)
	s.twins = []check.Twin{{ID: "gannet-port", Now: at("858.6", "2026-06-13")}}
	for hours, want := range map[string]string{
		"853.6": "", "863.6": "",
		"853.59": "decide hours-off-engine/gannet-port 853.59h 858.6h",
		"863.61": "decide hours-off-engine/gannet-port 863.61h 858.6h",
	} {
		got := ""
		for _, f := range s.run(t, gearboxSheet(t, "2026-06-13", hours)).Findings {
			if f.Severity == record.Decide {
				got += saidOne(f.Finding)
			}
		}
		if got != want {
			t.Errorf("%s h: %s, want %s", hours, got, want)
		}
	}
}

// TestGearboxOfTheOtherEngine: the other engine's reading of the same visit is
// asked about, its own engine's is not; and where its own is not known, nothing
// can be told.
func TestGearboxOfTheOtherEngine(t *testing.T) {
	engine := newScene(t, nil, nil)
	engine.issue(t, firstSheet)
	s := gearboxOf(t, engine)
	asked := func(hours string, twins ...check.Twin) bool {
		s.twins = twins
		for _, f := range s.run(t, gearboxSheet(t, "2026-06-13", hours)).Findings {
			if f.Code.String() == "reads-like-twin" && f.Subject == "gannet-starboard" {
				return true
			}
		}
		return false
	}
	own, other := check.Twin{ID: "gannet-port", Now: at("858.6", "2026-06-13")}, check.Twin{ID: "gannet-starboard", Now: at("855.3", "2026-06-13")}
	for _, c := range []struct {
		hours string
		twins []check.Twin
		want  bool
	}{
		{"855.3", []check.Twin{own, other}, true},
		{"855.25", []check.Twin{own, other}, true},
		{"855.2", []check.Twin{own, other}, false}, // 0.1 h off
		{"858.6", []check.Twin{own, other}, false},
		{"855.3", []check.Twin{other}, false},
		{"855.3", []check.Twin{{ID: "gannet-port"}, other}, false},
	} {
		if got := asked(c.hours, c.twins...); got != c.want {
			t.Errorf("%s h, %d readings at hand: asked %v, want %v", c.hours, len(c.twins), got, c.want)
		}
	}
}
