package jobsheet

import (
	"fmt"
	"slices"

	"hourseal/record"
	"hourseal/record/schedule"
)

// Resolve holds what a job names to what there is: its tasks to the schedule,
// its systems to the machine, the findings it gives reasons for to the rules;
// and what the machine file states as done earlier, and the severe duties of
// both, to the schedule. The error is Faults. A waste entry may name a system again, since oil may go to two
// receivers; elsewhere a system stands once, with a sum where there were
// several amounts.
func Resolve(job Job, m Machine, s schedule.Schedule) error {
	r := resolver{job: job, machine: m}
	if job.Machine != m.ID {
		r.fail("machine", "machine", "%s is not the machine that the job is held to, %s: write %s", show(job.Machine), m.ID, m.ID)
	}
	if m.Schedule != s.ID {
		r.faults = append(r.faults, m.Source.Fault("schedule", "schedule", "%s is not the schedule that the job is held to, %s: write %s", show(m.Schedule), s.ID, s.ID))
	}
	r.tasks(s)
	r.systems()
	r.findings()
	r.severe(job.Source, s, job.SevereDuty)
	r.machineFile(s)
	return r.faults.orNil()
}

type resolver struct {
	job     Job
	machine Machine
	faults  Faults
}

func (r *resolver) fail(path, field, format string, args ...any) {
	r.faults = append(r.faults, r.job.Source.Fault(path, field, format, args...))
}

func (r *resolver) tasks(s schedule.Schedule) {
	known := taskIDs(s)
	first := map[string]int{}
	for i, t := range r.job.Tasks {
		path := fmt.Sprintf("tasks/%d/id", i)
		if !slices.Contains(known, t.ID) {
			r.fail(path, "id", "%s is no task of schedule %s: %s; work outside the schedule goes under other_work", show(t.ID), s.ID, instead(t.ID, known))
		}
		if n, seen := first[t.ID]; seen {
			r.fail(path, "id", "%s is entry %d already: keep one of the two", show(t.ID), n+1)
			continue
		}
		first[t.ID] = i
	}
}

func (r *resolver) systems() {
	var fluids, topUps, waste []string
	for _, f := range r.job.Fluids {
		fluids = append(fluids, f.System)
	}
	for _, t := range r.job.ToppedUp {
		topUps = append(topUps, t.System)
	}
	for _, w := range r.job.Waste {
		waste = append(waste, w.System)
	}
	r.known("fluids", fluids)
	r.known("topped_up", topUps)
	r.known("waste", waste)
	r.once("fluids", fluids)
	r.glycols()
	r.once("topped_up", topUps)
}

func (r *resolver) known(list string, systems []string) {
	names := systemNames(r.machine)
	for i, name := range systems {
		if !slices.Contains(names, name) {
			r.fail(fmt.Sprintf("%s/%d/system", list, i), "system", "%s is no system of %s: %s; a new one goes into the machine file", show(name), r.machine.ID, instead(name, names))
		}
	}
}

func (r *resolver) once(list string, systems []string) {
	for i, name := range systems {
		if n := slices.Index(systems, name); n < i {
			r.fail(fmt.Sprintf("%s/%d/system", list, i), "system", "%s is entry %d of %s already: keep one, with a sum where there were several amounts, as [5 L, 4.3 L]", show(name), n+1, list)
		}
	}
}

// glycols refuses a glycol of what is no coolant.
func (r *resolver) glycols() {
	for i, f := range r.job.Fluids {
		if s, ok := r.machine.System(f.System); ok && f.Glycol != 0 && !s.IsCoolant() {
			r.fail(fmt.Sprintf("fluids/%d/glycol", i), "glycol", "%s holds no coolant by the machine file: take it out, or write glycol or protect_to for the system there", f.System)
		}
	}
}

func (r *resolver) findings() {
	var codes []string
	for _, rule := range record.Rules {
		codes = append(codes, rule.Name)
	}
	slices.Sort(codes)
	for _, a := range r.job.Accept {
		if slices.Contains(codes, a.Code) {
			continue
		}
		path := "accept/" + a.Code
		if a.Subject != "" {
			path += "/" + a.Subject
		}
		hint := "write the code as the check prints it"
		if near := Nearest(a.Code, codes); near != "" {
			hint = "write " + near
		}
		r.fail(path, "accept", "%s is no finding: %s", show(a.Code), hint)
	}
}

// machineFile holds what the machine file names to the schedule.
func (r *resolver) machineFile(s schedule.Schedule) {
	r.severe(r.machine.Source, s, r.machine.SevereDuty)
	r.earlier(s)
}

func (r *resolver) earlier(s schedule.Schedule) {
	known := taskIDs(s)
	for i, e := range r.machine.Earlier {
		if !slices.Contains(known, e.Task) {
			r.faults = append(r.faults, r.machine.Source.Fault(fmt.Sprintf("earlier/%d/task", i), "task",
				"%s is no task of schedule %s: %s", show(e.Task), s.ID, instead(e.Task, known)))
		}
	}
}

// severe holds the severe duties that a file names to those of the schedule.
func (r *resolver) severe(source Source, s schedule.Schedule, named []string) {
	var known []string
	for _, t := range s.Tasks {
		if t.Severe.Factor != 0 && !slices.Contains(known, t.Severe.When) {
			known = append(known, t.Severe.When)
		}
	}
	hint := func(duty string) string { return instead(duty, known) }
	if len(known) == 0 {
		hint = func(string) string { return "it has none: take it out" }
	}
	for i, duty := range named {
		if !slices.Contains(known, duty) {
			r.faults = append(r.faults, source.Fault(fmt.Sprintf("severe_duty/%d", i), "severe_duty",
				"%s is no severe duty of schedule %s: %s", show(duty), s.ID, hint(duty)))
		}
	}
}

func taskIDs(s schedule.Schedule) []string {
	ids := make([]string, len(s.Tasks))
	for i, t := range s.Tasks {
		ids[i] = t.ID
	}
	return ids
}
