package main

import (
	"slices"
	"sync"

	"hourseal/record"
	"hourseal/record/check"
	"hourseal/record/jobsheet"
	"hourseal/record/ledger"
	"hourseal/render"
)

// bench checks sheets one after another; each sees the ones before it of the
// same machine as earlier records.
type bench struct {
	p      *program
	y      yard
	yard   jobsheet.Yard
	sheets []sheet
	// chain gives a machine's records, oldest first.
	chain   func(machine string) ([]record.Earlier, error)
	fleet   func() ([]jobsheet.Machine, error) // all machines of the yard, read once
	pending map[string][]record.Earlier        // checked in this run, not sealed
	later   *later                             // nil for services
	made    []record.ID                        // the records of this run's sheets, stored before or pending
}

// check works one sheet out. What the report could not print is a fault: it
// would be signed and never seen.
func (b bench) check(s sheet) (check.Result, error) {
	earlier, err := b.chain(s.machine.ID)
	if err != nil {
		return check.Result{}, err
	}
	var engine []record.Earlier
	if s.driver != nil {
		if engine, err = b.chain(s.driver.ID); err != nil {
			return check.Result{}, err
		}
	}
	run := check.Run
	var twins []check.Twin
	if s.bare {
		run = check.WithoutSheet
	} else if twins, err = b.twins(s); err != nil {
		return check.Result{}, err
	}
	result := run(check.Input{
		Yard: b.yard, Machine: s.machine, Driver: s.driver, Schedule: s.schedule, Job: s.job, Kind: s.kind, Subject: s.subject,
		Earlier: earlier, Engine: engine, Twins: twins, Files: s.recordFiles(), Now: b.p.now().Unix(), Today: b.p.today(), Renderer: render.RendererID,
	})
	if err := render.Printable(result.Draft); err != nil {
		result.Outcome, result.Passed = check.Malformed, nil
		result.Faults = append(result.Faults, s.job.Source.Fault("", "", "%v", err))
	}
	return result, nil
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

// newBench makes a bench over the records as they are stored.
func (p *program) newBench(y yard, sheets []sheet) (*bench, error) {
	self, err := y.files.Yard()
	if err != nil {
		return nil, err
	}
	stored, pending := chainOf(y.ledger), map[string][]record.Earlier{}
	return &bench{p: p, y: y, yard: self, sheets: sheets, pending: pending, fleet: sync.OnceValues(y.machines),
		chain: func(machine string) ([]record.Earlier, error) {
			chain, err := stored(machine)
			return append(chain, pending[machine]...), err
		}}, nil
}

// remember lets later sheets of the same machine see this one as an earlier
// record, under an id of its own that no signed record has.
func (b *bench) remember(s sheet, result check.Result) {
	if result.Passed == nil {
		return
	}
	r := result.Passed.CheckedRecord()
	e := record.Earlier{ID: record.ID{byte(r.Number), 0xff}, Record: r}
	b.pending[s.machine.ID] = append(b.pending[s.machine.ID], e)
	b.made = append(b.made, e.ID)
}

// waits says whether a record stands for a sheet of this run, not for a stored
// record.
func (b *bench) waits(s sheet, e record.Earlier) bool {
	return slices.ContainsFunc(b.pending[s.machine.ID], func(p record.Earlier) bool { return p.ID == e.ID })
}

// storedAlready finds the record that was made from the same sheet before.
func storedAlready(b *bench, s sheet, result check.Result) (record.Earlier, bool) {
	chain, err := b.chain(s.machine.ID)
	if err != nil {
		return record.Earlier{}, false
	}
	for _, e := range chain {
		if s.same(e.Record, result.Draft) {
			return e, true
		}
	}
	return record.Earlier{}, false
}

// same says whether a record is the one that a sheet makes. What has no sheet is
// written on the day of issue, and is the same on any other.
func (s sheet) same(r, draft *record.Record) bool {
	if s.bare {
		dated := *draft
		dated.Job.Date = r.Job.Date
		draft = &dated
	}
	return record.SameJob(r, draft)
}
