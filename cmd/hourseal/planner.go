package main

import (
	"runtime"
	"sync"
	"sync/atomic"

	"github.com/urfave/cli/v2"

	"hourseal/record"
	"hourseal/record/jobsheet"
	"hourseal/record/plan"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

var onFlag = &cli.StringFlag{Name: "on", Usage: "as of `DATE`; today if left out"}

// planner makes the plans of a yard's machines, several at a time. A schedule is
// read once.
type planner struct {
	y         yard
	on        quantity.Date
	reading   *quantity.Hours
	mu        sync.Mutex
	schedules map[string]schedule.Schedule
}

// planned is a plan with what it was made from.
type planned struct {
	plan.Plan
	schedule schedule.Schedule
	chain    []record.Earlier
}

// newPlanner reads --on and --hours.
func (p *program) newPlanner(c *cli.Context, y yard) (*planner, error) {
	reading, err := readingFlag(c)
	if err != nil {
		return nil, err
	}
	pl := &planner{y: y, on: p.today(), reading: reading, schedules: map[string]schedule.Schedule{}}
	if text := c.String(onFlag.Name); text != "" {
		on, err := quantity.ParseDate(text)
		if err != nil {
			return nil, usageError{"--on: " + err.Error(), "--on 2026-05-04"}
		}
		pl.on = on
	}
	return pl, nil
}

// plan makes the plan of one machine.
func (pl *planner) plan(id string) (planned, error) {
	m, err := pl.y.files.Machine(id)
	if err != nil {
		return planned{}, err
	}
	in := plan.Input{Machine: m, On: pl.on, Reading: pl.reading}
	if in.Schedule, err = pl.scheduleOf(m); err != nil {
		return planned{}, err
	}
	chain := chainOf(pl.y.ledger)
	if in.Chain, err = chain(id); err != nil {
		return planned{}, err
	}
	if in.Driver, err = pl.y.files.DriverOf(m); err != nil {
		return planned{}, err
	}
	if in.Driver != nil {
		if in.Engine, err = chain(m.DrivenBy); err != nil {
			return planned{}, err
		}
	}
	made, err := plan.Make(in)
	if err != nil {
		return planned{}, usageError{id + ": " + err.Error(), ""}
	}
	return planned{made, in.Schedule, in.Chain}, nil
}

// scheduleOf is a machine's schedule, held to what the machine file says of it.
func (pl *planner) scheduleOf(m jobsheet.Machine) (schedule.Schedule, error) {
	pl.mu.Lock()
	defer pl.mu.Unlock()
	s, known := pl.schedules[m.Schedule]
	if !known {
		var err error
		if s, err = pl.y.files.ScheduleOf(m); err != nil {
			return schedule.Schedule{}, err
		}
		pl.schedules[m.Schedule] = s
	}
	return s, jobsheet.ResolveMachine(m, s)
}

// plans makes the plans of many machines; each answer stands at its machine's
// place. step is called after each.
func (pl *planner) plans(ids []string, step func()) ([]plan.Plan, []error) {
	plans, faults := make([]plan.Plan, len(ids)), make([]error, len(ids))
	var next atomic.Int64
	var all sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(ids)) {
		all.Go(func() {
			for i := int(next.Add(1)) - 1; i < len(ids); i = int(next.Add(1)) - 1 {
				made, err := pl.plan(ids[i])
				plans[i], faults[i] = made.Plan, err // the records are let go
				step()
			}
		})
	}
	all.Wait()
	return plans, faults
}
