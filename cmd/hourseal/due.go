package main

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"github.com/urfave/cli/v2"

	"hourseal/record/plan"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
	"hourseal/render/calendar"
)

func (p *program) dueCommand() *cli.Command {
	return &cli.Command{
		Name: "due", Usage: "what is due, soon due and overdue, and when the rest will be",
		ArgsUsage: "[MACHINE...]",
		Description: "One machine is shown in full; several, or the whole yard, as one list by urgency.\n" +
			"Hours that are not given are worked out from the last reading and the machine's use.\n" +
			"Exit 7: something is due; 0: nothing recorded as due.",
		Flags: []cli.Flag{yardFlag, onFlag, hoursFlag, jsonFlag,
			&cli.StringFlag{Name: "ics", Usage: "write a calendar (RFC 5545) with one event an item to `FILE`"}},
		Action: p.action(p.due),
	}
}

func (p *program) due(c *cli.Context) (exitCode, error) {
	y, err := p.openYard(c)
	if err != nil {
		return exitOK, err
	}
	ids := slices.Compact(slices.Sorted(slices.Values(c.Args().Slice())))
	if c.String(hoursFlag.Name) != "" && len(ids) != 1 {
		return exitUsage, usageError{"--hours is one machine's reading", "hourseal due MACHINE --hours N"}
	}
	toStdout := c.String("ics") == "-"
	if toStdout && c.Bool(jsonFlag.Name) {
		return exitUsage, usageError{"--json and --ics - both want standard output", "--ics due.ics"}
	}
	pl, err := p.newPlanner(c, y)
	if err != nil {
		return exitUsage, err
	}
	style, err := y.style()
	if err != nil {
		return exitOK, err
	}
	w := dueWords{style}
	if len(ids) == 0 {
		if ids, err = y.files.MachineIDs(); err != nil {
			return exitOK, err
		}
		if len(ids) == 0 {
			return exitUsage, usageError{"this yard folder has no machines", "write machines/ID.yaml, one a machine"}
		}
	}
	code, plans := p.plansOf(pl, ids)
	for _, made := range plans {
		if slices.ContainsFunc(made.Items, func(i plan.Item) bool { return i.State >= schedule.Now }) {
			code = worse(code, exitDecide)
		}
	}
	if file := c.String("ics"); file != "" {
		if err := p.writeCalendar(y, file, plans); err != nil {
			return code, err
		}
	}
	switch {
	case toStdout: // the calendar is the answer
	case c.Bool(jsonFlag.Name):
		for _, made := range plans {
			if err := p.json(dueJSON(made)); err != nil {
				return code, err
			}
		}
	case len(ids) == 1 && c.NArg() > 0 && len(plans) == 1:
		p.dueInFull(w, plans[0])
	case len(plans) > 0:
		p.dueList(w, plans)
	}
	return code, nil
}

// plansOf makes the plans, tells of those that cannot be made, and puts the rest
// in order of urgency.
func (p *program) plansOf(pl *planner, ids []string) (exitCode, []plan.Plan) {
	step, done := p.counting(len(ids))
	plans, faults := pl.plans(ids, step)
	done()
	code := exitOK
	var made []plan.Plan
	for i, fault := range faults {
		if fault != nil {
			code = worse(code, codeOf(fault))
			p.complain(fault)
			continue
		}
		made = append(made, plans[i])
	}
	slices.SortStableFunc(made, func(a, b plan.Plan) int { return plan.Urgency(a.First(), b.First()) })
	return code, made
}

// writeCalendar writes one event for each item that a date can be told of. What
// is due already stands on the day that the list is for. A calendar goes to whoever asks
// for it, and has no yard's style.
func (p *program) writeCalendar(y yard, file string, plans []plan.Plan) error {
	self, err := y.files.Yard()
	if err != nil {
		return err
	}
	cal := calendar.Calendar{Name: self.Name + ": service due", Stamp: p.now().Unix()}
	undated := 0
	for _, made := range plans {
		for _, item := range made.Items {
			date, known := eventDate(made, item)
			if !known {
				if item.Due != (schedule.Due{}) { // not a one-off that was done
					undated++
				}
				continue
			}
			cal.Events = append(cal.Events, calendar.Event{
				UID:         calendar.UID(self.Name, made.Machine.ID, made.Machine.Serial, item.Task.ID),
				Date:        date,
				Summary:     machineName(made) + ": " + item.Task.Title,
				Description: strings.Join(dueWords{}.itemFacts(made, item), "\n"),
			})
		}
	}
	data, err := cal.Encode()
	if errors.Is(err, calendar.ErrNoEvents) {
		p.tell("%s: not written: no item has a date to be told", file)
		return nil
	}
	if err != nil {
		return err
	}
	if err := p.writeOutput(file, data); err != nil {
		return err
	}
	if file != "-" {
		p.tell("%s: %s", file, countOf(strconv.Itoa(len(cal.Events)), "event"))
	}
	if undated > 0 {
		p.tell("%s left out: by hours alone, and when they will have run cannot be told", countOf(strconv.Itoa(undated), "item"))
	}
	return nil
}

func eventDate(made plan.Plan, item plan.Item) (quantity.Date, bool) {
	switch {
	case item.State >= schedule.Now:
		return made.On, true
	case item.Expected != nil:
		return item.Expected.On, true
	}
	return 0, false
}
