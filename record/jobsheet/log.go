package jobsheet

import (
	"hourseal/record"
	"hourseal/record/logbook"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// Log puts what the machine file says together with the machine's records and
// those of the engine that drives it, both as they are stored.
func (m Machine) Log(chain, engine []record.Earlier) logbook.Log {
	stated := make([]logbook.Stated, len(m.Earlier))
	for i, s := range m.Earlier {
		stated[i] = logbook.Stated{Task: s.Task, Point: s.At, Source: s.Source}
	}
	log := logbook.New(m.InService, stated, m.SevereDuty, chain, engine)
	if len(chain) > 0 && chain[0].Record.Previous != nil {
		log = log.Carrying(chain[0])
	}
	return log
}

// UseOn is how fast the machine gathers hours, as known on a date from its log and,
// where an engine drives it, from all that is known of that.
func (m Machine) UseOn(log logbook.Log, driver *Machine, engine []record.Earlier, date quantity.Date) schedule.Use {
	known := log.Known(date)
	if driver != nil {
		known = append(known, driver.Log(engine, nil).Known(date)...)
	}
	return schedule.UseOf(known, m.ExpectedHours(driver), date)
}

// ExpectedHours are the hours a year that the machine file states, or that of
// the engine that drives the machine; 0 where neither does.
func (m Machine) ExpectedHours(driver *Machine) quantity.Hours {
	if m.HoursPerYear == 0 && driver != nil {
		return driver.HoursPerYear
	}
	return m.HoursPerYear
}

// ScheduleOf reads a machine's schedule. One that there is none of is a fault of the
// machine file.
func (f Folder) ScheduleOf(m Machine) (schedule.Schedule, error) {
	s, _, err := f.Schedule(m.Schedule)
	if err != nil {
		return schedule.Schedule{}, blame(err, schedulesDir, m.Source, "schedule")
	}
	return s, nil
}

// DriverOf reads the engine that drives a machine; nil for a machine with a meter
// of its own. One that there is none of is a fault of the machine file.
func (f Folder) DriverOf(m Machine) (*Machine, error) {
	if m.DrivenBy == "" {
		return nil, nil
	}
	driver, err := f.Machine(m.DrivenBy)
	if err != nil {
		return nil, blame(err, machinesDir, m.Source, "driven_by")
	}
	return &driver, nil
}

// ResolveMachine holds what a machine file names to its schedule: what it states
// as done earlier, and its severe duties. The error is Faults.
func ResolveMachine(m Machine, s schedule.Schedule) error {
	r := resolver{machine: m}
	r.machineFile(s)
	return r.faults.orNil()
}
