package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"hourseal/record"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
)

// saidReader turns options into a job. It goes on after a fault, so that all are told
// at once.
type saidReader struct {
	c      *cli.Context
	job    jobsheet.Job
	said   map[string]string // as in jobsheet.Source
	faults jobsheet.Faults
}

// jobFromFlags is the job that the options say of a machine. The error is
// jobsheet.Faults, each at its option. Tasks and other lists are in the order in
// which they were said, fluids in that of the options: of all levels before first, then of
// all that was drained.
func jobFromFlags(c *cli.Context, machine string, today quantity.Date) (jobsheet.Job, error) {
	r := &saidReader{c: c, said: map[string]string{"machine": "MACHINE"}}
	r.job.Machine, r.job.Date = machine, today
	if err := jobsheet.CheckID(machine); err != nil {
		r.fail("MACHINE", "%v", err)
	}
	for _, o := range jobOptions {
		r.once(o)
	}
	for _, o := range listOptions {
		r.list(o)
	}
	sayMore(r, taskOptions, "tasks", r.task, func(i int) *record.Task { return &r.job.Tasks[i] })
	r.readings()
	sayMore(r, fluidOptions, "fluids", r.fluid, func(i int) *record.Fluid { return &r.job.Fluids[i] })
	if n := len(r.job.Fluids); n > record.MaxFluids {
		r.fail("options", "%d systems with fluids, at most %d fit: take some out", n, record.MaxFluids)
	}
	r.needed("hours", "--hours 812.6")
	r.needed("reason", "--reason "+strings.Join(record.ReasonWords, ", or "))
	if len(r.faults) > 0 {
		return jobsheet.Job{}, r.faults
	}
	r.unsaid()
	r.job.Source = jobsheet.Source{File: "options", Said: r.said}
	return r.job, nil
}

// unsaid puts what was not said of a task or a fluid at the option that would say it:
// what is found missing there is not the fault of another.
func (r *saidReader) unsaid() {
	for i, t := range r.job.Tasks {
		wouldSay(r.said, taskOptions, fmt.Sprintf("tasks/%d", i), t.ID)
	}
	for i, f := range r.job.Fluids {
		wouldSay(r.said, fluidOptions, fmt.Sprintf("fluids/%d", i), f.System)
	}
}

func wouldSay[T any](said map[string]string, options []ofOption[T], path, key string) {
	for _, o := range options {
		for _, below := range o.paths {
			if at := path + "/" + below; said[at] == "" {
				said[at] = "--" + o.name + " " + key
			}
		}
	}
}

func (r *saidReader) fail(option, format string, args ...any) {
	r.faults = append(r.faults, jobsheet.Fault{File: option, Message: fmt.Sprintf(format, args...)})
}

// unkeyed is a fault of a value that does not say what it is of.
func (r *saidReader) unkeyed(name, usage string, err error) {
	r.fail("--"+name, "%v, as %s", err, strings.Split(usage, "`")[1])
}

func (r *saidReader) once(o jobOption) {
	option := "--" + o.name
	texts := r.c.StringSlice(o.name)
	switch {
	case len(texts) == 0:
		return
	case len(texts) > 1:
		r.fail(option, "written twice: keep one")
		return
	}
	r.said[o.path] = option
	if err := o.set(&r.job, texts[0]); err != nil {
		r.fail(option, "%v", err)
	}
}

func (r *saidReader) needed(name, wanted string) {
	if !r.c.IsSet(name) {
		r.fail("--"+name, "missing: write %s", wanted)
	}
}

func (r *saidReader) list(o listOption) {
	option := "--" + o.name
	texts := r.c.StringSlice(o.name)
	if n := len(texts); n > o.limit {
		r.fail(option, "%d of them, at most %d fit: take some out", n, o.limit)
		return
	}
	of := map[string]bool{}
	entries := 0
	for _, text := range texts {
		key, at := "", option
		if o.keyed {
			var err error
			if key, text, err = jobsheet.LineKey(text); err != nil {
				r.unkeyed(o.name, o.usage, err)
				continue
			}
			if at = option + " " + key; o.once && of[key] {
				r.fail(at, "written twice: keep one")
				continue
			}
			of[key] = true
		}
		r.said[o.path+"/"+o.entry(entries, key)] = at
		entries++
		if err := o.add(&r.job, key, text); err != nil {
			r.fail(at, "%v", err)
		}
	}
}

// entry is where an entry of the list stands, in paths.
func (o listOption) entry(number int, key string) string {
	if o.path == "accept" {
		return key
	}
	return fmt.Sprint(number)
}

// task finds a task that --task names.
func (r *saidReader) task(option, id string) (int, bool) {
	i := slices.IndexFunc(r.job.Tasks, func(t record.Task) bool { return t.ID == id })
	if i < 0 {
		r.fail(option, "no result is said of it: write --task '%s' too", jobsheet.KeyLine(id, "RESULT"))
	}
	return i, i >= 0
}

// fluid finds a system's fluid, or begins it.
func (r *saidReader) fluid(option, system string) (int, bool) {
	if err := jobsheet.CheckID(system); err != nil {
		r.fail(option, "%v", err)
		return 0, false
	}
	i := slices.IndexFunc(r.job.Fluids, func(f record.Fluid) bool { return f.System == system })
	if i < 0 {
		i = len(r.job.Fluids)
		r.job.Fluids = append(r.job.Fluids, record.Fluid{System: system})
		r.said[fmt.Sprintf("fluids/%d", i)] = option
	}
	return i, true
}

// sayMore reads the options that say more of a task or a fluid, each once of each.
func sayMore[T any](r *saidReader, options []ofOption[T], path string, find func(option, key string) (int, bool), at func(int) *T) {
	for _, o := range options {
		of := map[string]bool{}
		for _, line := range r.c.StringSlice(o.name) {
			key, text, err := jobsheet.LineKey(line)
			if err != nil {
				r.unkeyed(o.name, o.usage, err)
				continue
			}
			option := "--" + o.name + " " + key
			i, found := find(option, key)
			switch {
			case !found:
				continue
			case of[key]:
				r.fail(option, "written twice: keep one")
				continue
			}
			of[key] = true
			for _, below := range o.paths {
				r.said[fmt.Sprintf("%s/%d/%s", path, i, below)] = option
			}
			if err := o.set(at(i), text); err != nil {
				r.fail(option, "%v", err)
			}
		}
	}
}

func (r *saidReader) readings() {
	for _, line := range r.c.StringSlice(readingOption) {
		key, text, err := jobsheet.LineKey(line)
		if err != nil {
			r.unkeyed(readingOption, readingUsage, err)
			continue
		}
		option := "--" + readingOption + " " + key
		id, name, _ := strings.Cut(key, "/")
		i, found := r.task(option, id)
		if !found {
			continue
		}
		t := &r.job.Tasks[i]
		reading, err := jobsheet.LineReading(name, text)
		switch {
		case err != nil:
			r.fail(option, "%v", err)
		case slices.ContainsFunc(t.Readings, func(other record.Reading) bool { return other.Name == name }):
			r.fail(option, "written twice: keep one")
		case len(t.Readings) == record.MaxReadings:
			r.fail(option, "more than %d readings: no more fit in one task", record.MaxReadings)
		default:
			r.said[fmt.Sprintf("tasks/%d/reading/%s", i, name)] = option
			t.Readings = append(t.Readings, reading)
		}
	}
}
