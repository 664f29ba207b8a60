package main

import (
	"hourseal/record/check"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// twins are the like machines of the vessel, with the readings that are at hand;
// of a machine that an engine drives, that engine and those like it.
func (b bench) twins(s sheet) ([]check.Twin, error) {
	fleet, err := b.fleet()
	if err != nil {
		return nil, err
	}
	var twins []check.Twin
	for _, other := range fleet {
		if other.ID == s.machine.ID {
			continue
		}
		if s.driver != nil && !alike(*s.driver, other) || s.driver == nil && !alike(s.machine, other) {
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

// machines reads all machine files.
func (y yard) machines() ([]jobsheet.Machine, error) {
	ids, err := y.files.MachineIDs()
	if err != nil {
		return nil, err
	}
	list := make([]jobsheet.Machine, len(ids))
	for i, id := range ids {
		if list[i], err = y.files.Machine(id); err != nil {
			return nil, err
		}
	}
	return list, nil
}

func alike(a, b jobsheet.Machine) bool {
	if a.ID == b.ID {
		return true
	}
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
	for _, e := range other.Log(earlier, nil).Own {
		if s.subject != nil && e.ID == s.subject.Record { // it was written for the wrong one
			continue
		}
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
