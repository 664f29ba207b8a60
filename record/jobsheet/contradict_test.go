package jobsheet_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hourseal/record/jobsheet"
)

const sloppy = `id: sloppy
edition: 1
title: Sloppy
basis: { kind: yard }
next_from: done
grace: { hours: 100 % }
tasks:
  - id: belt-look
    title: Look over the belt
    kind: inspect
    every: { hours: 1000 }
  - id: belt
    title: Fit a new belt
    kind: replace
    every: { hours: 900 }
    covers: belt-look
    needs: { drained: coolant, filled: coolant }
    severe: { factor: 1, when: dust }
  - { id: oil, title: Change the oil, kind: replace, every: { hours: 200 }, covers: [oil-look], needs: { level: engine-oil } }
  - { id: oil-look, title: Look at the oil, kind: inspect, every: { hours: 0.5 }, covers: [oil] }
  - { id: oil-sample, title: Take oil, kind: test, every: { hours: 100 }, first: { hours: 150 } }
`

// TestContradictionsInTheFile: each at its line and column, in the order of the
// file; needs once a machine that names the schedule.
func TestContradictionsInTheFile(t *testing.T) {
	s, source, err := jobsheet.ParseSchedule("schedules/sloppy.yaml", []byte(sloppy))
	if err != nil {
		t.Fatal(err)
	}
	machine := func(id, schedule string, systems ...string) jobsheet.Machine {
		m := jobsheet.Machine{ID: id, Schedule: schedule}
		for _, name := range systems {
			m.Systems = append(m.Systems, jobsheet.System{Name: name})
		}
		return m
	}
	got := jobsheet.Contradictions(s, source, []jobsheet.Machine{
		machine("whole", "sloppy", "coolant", "engine-oil"), machine("other", "diesel-inboard"),
		machine("bare", "sloppy"), machine("near", "sloppy", "engineoil", "coolant"),
	})
	const want = `schedules/sloppy.yaml:6:17: grace: as long as every interval that it is for, or longer: write fewer hours
schedules/sloppy.yaml:11:12: every: belt-look every 1000 h, no more often than belt, which covers it, so that it never falls due by itself: write a shorter interval, or take the task out
schedules/sloppy.yaml:17:23: drained: needs system coolant, which bare has not: write it into the machine file, or take the need out
schedules/sloppy.yaml:17:40: filled: needs system coolant, which bare has not: write it into the machine file, or take the need out
schedules/sloppy.yaml:18:23: severe: factor 1 leaves 900 h as it is: write a smaller one, or take severe out
schedules/sloppy.yaml:19:86: covers: oil covers oil-look covers oil, so that oil covers itself: take one of them out
schedules/sloppy.yaml:19:113: level: needs system engine-oil, which bare has not: write it into the machine file, or take the need out
schedules/sloppy.yaml:19:113: level: needs system engine-oil, which near has not: write engineoil, or put engine-oil into the machine file
schedules/sloppy.yaml:20:76: every: 0.5 h, under 1 h: write hours, as 200
schedules/sloppy.yaml:20:92: covers: oil replaces, and oil-look (inspect) does not: take it out
schedules/sloppy.yaml:21:91: first: 150 h, longer than every, 100 h: write a shorter one, or take it out`
	if got.Error() != want {
		t.Errorf("got\n%s\nwant\n%s", got.Error(), want)
	}
}

// What comes with the program, the demonstration and the example contradict
// nothing, themselves or their machines. A job is not refused for a
// contradiction: none of this is in ParseSchedule or Resolve.
func TestOursContradictNothing(t *testing.T) {
	const builtIn = "../../templates/schedules"
	for _, dir := range []string{scenario, "../../templates/jobsheets", "../../templates/jobsheets/demo"} {
		yard := jobsheet.Open(os.DirFS(dir), os.DirFS(builtIn))
		var machines []jobsheet.Machine
		for _, id := range must(yard.MachineIDs()) {
			machines = append(machines, must(yard.Machine(id)))
		}
		origins := must(yard.ScheduleIDs())
		if len(origins) < 5 || len(machines) == 0 {
			t.Errorf("%s: %d schedules, %d machines", dir, len(origins), len(machines))
		}
		for _, o := range origins {
			s, source, err := yard.Schedule(o.ID)
			if err != nil {
				t.Fatal(err)
			}
			if faults := jobsheet.Contradictions(s, source, machines); len(faults) > 0 {
				t.Errorf("%s:\n%v", dir, faults)
			}
		}
	}
}

// What contradicts itself can be read, and a job held to it.
func TestContradictionsStopNoJob(t *testing.T) {
	yard, _ := folder()
	yard["schedules/sloppy.yaml"] = yard["schedules/diesel-generator.yaml"]
	yard["schedules/sloppy.yaml"].Data = []byte(sloppy)
	genset := yard["machines/gannet-genset.yaml"]
	genset.Data = []byte(strings.NewReplacer("engine-oli", "oil", "diesel-generator", "sloppy").Replace(string(genset.Data)))
	job := must(jobsheet.ParseJob("jobs/a.yaml", []byte(strings.Replace(shortJob, "gannet-port", "gannet-genset", 1))))
	if _, _, err := jobsheet.Open(yard, nil).For(job); err != nil {
		t.Error(err)
	}
	if files, err := filepath.Glob(filepath.Join("../../templates/schedules", "*.yaml")); err != nil || len(files) != 5 {
		t.Errorf("built in: %v, %v", files, err)
	}
}
