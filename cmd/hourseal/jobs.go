package main

import (
	"path/filepath"
	"slices"

	"hourseal/record"
	"hourseal/record/check"
	"hourseal/record/jobsheet"
	"hourseal/record/ledger"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
	"hourseal/render"
)

// sheet is one job sheet with the machine and schedule that it names.
type sheet struct {
	file     string
	job      jobsheet.Job
	machine  jobsheet.Machine
	driver   *jobsheet.Machine
	schedule schedule.Schedule
}

// loadSheet reads a job sheet and all that it refers to.
func (p *program) loadSheet(y yard, file string) (sheet, error) {
	data, err := p.readInput(file)
	if err != nil {
		return sheet{}, missing(file, err)
	}
	s := sheet{file: file}
	if s.job, err = jobsheet.ParseJob(filepath.ToSlash(file), data); err != nil {
		return sheet{}, err
	}
	if s.machine, s.schedule, err = y.files.For(s.job); err != nil {
		return sheet{}, err
	}
	if id := s.machine.DrivenBy; id != "" {
		driver, err := y.files.Machine(id)
		if err != nil {
			return sheet{}, err
		}
		s.driver = &driver
	}
	return s, nil
}

// machines lists the machines that the sheets are about.
func machines(sheets []sheet) []string {
	var ids []string
	for _, s := range sheets {
		ids = append(ids, s.machine.ID)
	}
	return ids
}

// bench checks sheets one after another; each sees the ones before it of the
// same machine as earlier records.
type bench struct {
	p      *program
	y      yard
	yard   jobsheet.Yard
	sheets []sheet
	// chain gives a machine's records, oldest first.
	chain   func(machine string) ([]record.Earlier, error)
	pending map[string][]record.Earlier // checked in this run, not sealed
}

// check works one sheet out.
func (b bench) check(s sheet) (check.Result, error) {
	earlier, err := b.chain(s.machine.ID)
	if err != nil {
		return check.Result{}, err
	}
	twins, err := b.twins(s)
	if err != nil {
		return check.Result{}, err
	}
	return check.Run(check.Input{
		Yard: b.yard, Machine: s.machine, Driver: s.driver, Schedule: s.schedule, Job: s.job,
		Earlier: earlier, Twins: twins, Now: b.p.now().Unix(), Today: b.p.today(), Renderer: render.RendererID,
	}), nil
}

// before is the bench as it was before a record of its was issued, so that a
// sheet is not held against its own record.
func (b bench) before(issued record.Earlier) bench {
	whole := b.chain
	b.chain = func(machine string) ([]record.Earlier, error) {
		chain, err := whole(machine)
		if i := slices.IndexFunc(chain, func(e record.Earlier) bool { return e.ID == issued.ID }); i >= 0 {
			chain = chain[:i]
		}
		return chain, err
	}
	return b
}

// chainOf reads chains as they are stored.
func chainOf(l ledger.Ledger) func(string) ([]record.Earlier, error) {
	return func(machine string) ([]record.Earlier, error) {
		chain, err := l.Chain(machine)
		return ledger.Earlier(chain), err
	}
}

// twins are the like machines of the vessel, with the readings that are at hand.
func (b bench) twins(s sheet) ([]check.Twin, error) {
	ids, err := b.y.files.MachineIDs()
	if err != nil {
		return nil, err
	}
	var twins []check.Twin
	for _, id := range ids {
		if id == s.machine.ID {
			continue
		}
		other, err := b.y.files.Machine(id)
		if err != nil {
			return nil, err
		}
		if !alike(s.machine, other) {
			continue
		}
		twin, err := b.twin(s, other)
		if err != nil {
			return nil, err
		}
		twins = append(twins, twin)
	}
	return twins, nil
}

func alike(a, b jobsheet.Machine) bool {
	sameVessel := a.Vessel.Name != "" && a.Vessel.Name == b.Vessel.Name && a.Vessel.Hull == b.Vessel.Hull
	return sameVessel && a.Make == b.Make && a.Model == b.Model && b.DrivenBy == ""
}

// visitDays is how far apart readings of one visit may be.
const visitDays = 1

func (b bench) twin(s sheet, other jobsheet.Machine) (check.Twin, error) {
	twin := check.Twin{ID: other.ID}
	earlier, err := b.chain(other.ID)
	if err != nil {
		return twin, err
	}
	var offset quantity.Hours // of the meter that the twin's next reading is taken from
	for _, e := range earlier {
		offset = e.Record.Job.Meter.Offset
		at := schedule.Point{Date: e.Record.Job.Date, Hours: e.Record.Job.Hours}
		switch apart := at.Date.Sub(s.job.Date); {
		case apart < -visitDays:
			twin.Last = &at
		case apart <= visitDays:
			twin.Now = &at
		}
	}
	for _, sibling := range b.sheets {
		apart := sibling.job.Date.Sub(s.job.Date)
		if sibling.machine.ID == other.ID && sibling.job.Meter.Reading != nil && apart >= -visitDays && apart <= visitDays {
			twin.Now = &schedule.Point{Date: sibling.job.Date, Hours: *sibling.job.Meter.Reading + offset}
		}
	}
	return twin, nil
}
