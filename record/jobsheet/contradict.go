package jobsheet

import (
	"fmt"

	"hourseal/record/schedule"
)

// Contradictions finds what cannot be meant in a schedule, at its place in the
// file: what the schedule says against itself, and what it needs of a system
// that a machine has not, for those of the machines that name the schedule. They
// are in the order of their places. None of them stops a job.
func Contradictions(s schedule.Schedule, source Source, machines []Machine) Faults {
	var faults Faults
	for _, c := range s.Contradictions() {
		faults = append(faults, source.Fault(c.Path, c.Field, "%s", c.Message))
	}
	for _, m := range machines {
		if m.Schedule == s.ID {
			faults = append(faults, needsOfNone(s, source, m)...)
		}
	}
	faults.sort()
	return faults
}

// needsOfNone are the needs of a schedule for systems that a machine has not.
func needsOfNone(s schedule.Schedule, source Source, m Machine) Faults {
	var faults Faults
	names := systemNames(m)
	for i, t := range s.Tasks {
		for _, need := range []struct{ key, system string }{
			{"drained", t.Needs.Drained}, {"filled", t.Needs.Filled}, {"level", t.Needs.Level},
		} {
			if _, has := m.System(need.system); has || need.system == "" {
				continue
			}
			hint := "write it into the machine file, or take the need out"
			if near := Nearest(need.system, names); near != "" {
				hint = "write " + near + ", or put " + need.system + " into the machine file"
			}
			faults = append(faults, source.Fault(fmt.Sprintf("tasks/%d/needs/%s", i, need.key), need.key,
				"needs system %s, which %s has not: %s", need.system, m.ID, hint))
		}
	}
	return faults
}

func systemNames(m Machine) []string {
	var names []string
	for _, s := range m.Systems {
		names = append(names, s.Name)
	}
	return names
}
