package check

import (
	"slices"
	"strings"

	"hourseal/record"
	"hourseal/record/fluid"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
)

// balanceRules hold what came out, what went in and what the dipstick says to each
// other, to the machine and to its earlier visits, and put what follows into the
// record.
func balanceRules(b *bench) {
	for i := range b.draft.Fluids {
		f := &b.draft.Fluids[i]
		s, ok := b.Machine.System(f.System)
		if !ok {
			continue
		}
		visits := b.visits(f.System)
		account := fluid.AccountOf(b.fluidSystem(s), b.Yard.Doubt, visits)
		f.Balance = b.balance(account, f.System, s.Density)
		remarks := account.Remarks
		if waste := fluid.WasteRemark(b.fluidSystem(s), b.Yard.Doubt, visits[len(visits)-1], b.wasteOf(f.System)); waste != nil {
			remarks = append(remarks, *waste)
		}
		refused := b.refused(f.System)
		for _, r := range remarks {
			if !refused || r.Kind == fluid.BeyondCorrection {
				b.remark(i, f.System, r)
			}
		}
	}
}

// refused says whether an amount of a system is refused or missing already, so that
// nothing else has to add up.
func (b *bench) refused(system string) bool {
	return slices.ContainsFunc(b.findings, func(f Finding) bool {
		return (f.Code == record.FillBeyondSystem || f.Code == record.LevelBeyondStick) && f.Subject == system ||
			f.Code == record.EvidenceMissing && (f.Text == "drained "+system || f.Text == "filled "+system)
	})
}

func (b *bench) fluidSystem(s jobsheet.System) fluid.System {
	return fluid.System{
		AtUpper: s.AtUpper, BetweenMarks: s.BetweenMarks, FilterHolds: s.FilterHolds, Holds: s.Holds,
		Density: s.Density, Coolant: s.IsCoolant(), Plug: s.Drain == "plug", Cans: b.Yard.Containers,
	}
}

// visits are those of a system up to this job, which is the last.
func (b *bench) visits(system string) []fluid.Visit {
	var visits []fluid.Visit
	for _, e := range b.log.OwnUntil(b.Job.Date) {
		if v, ok := visitOf(e.Record, system); ok {
			visits = append(visits, v)
		}
	}
	here, _ := visitOf(b.draft, system)
	return append(visits, here)
}

// visitOf is what a record says of a system; false where it says nothing.
func visitOf(r *record.Record, system string) (fluid.Visit, bool) {
	v := fluid.Visit{Hours: r.Job.Hours}
	any := false
	for i := range r.ToppedUp {
		if t := &r.ToppedUp[i]; t.System == system {
			v.ToppedUp, any = &t.Amount, true
		}
	}
	for i := range r.Fluids {
		f := &r.Fluids[i]
		if f.System != system {
			continue
		}
		any = true
		v.Before, v.After = levelOf(f.LevelBefore), levelOf(f.Level)
		v.Drained, v.Filled, v.DrawnDown = f.Drained, f.Filled, f.DrawnDown
		v.Filter = filterOf(r, f)
		if v.Drained == nil && v.Filled == nil && v.DrawnDown == nil {
			// Looked at and left: one level is that before and after.
			if v.Before == nil {
				v.Before = v.After
			}
			if v.After == nil {
				v.After = v.Before
			}
		}
	}
	return v, any
}

func levelOf(l *record.Level) *fluid.Level {
	if l == nil || l.Reading == nil {
		return nil
	}
	return &fluid.Level{Reading: *l.Reading, At: l.At}
}

// filterOf says what became of the filter's oil: a filter was changed where the
// sheet speaks of its oil, or where the task of that filter was done.
func filterOf(r *record.Record, f *record.Fluid) fluid.Filter {
	switch {
	case f.WithFilter != nil && *f.WithFilter:
		return fluid.FilterInDrained
	case f.WithFilter != nil:
		return fluid.FilterNotDrained
	case slices.ContainsFunc(r.Tasks, func(t record.Task) bool { return t.Result == record.Done && IsFilterOf(t.ID, f.System) }):
		return fluid.FilterUnsaid
	}
	return fluid.FilterKept
}

// IsFilterOf says whether a task is about the filter of a system: oil-filter of
// engine-oil, gear-filter or gear-oil-filter of gear-oil.
func IsFilterOf(task, system string) bool {
	return task == system+"-filter" || task == strings.TrimSuffix(system, "-oil")+"-filter" ||
		task == "oil-filter" && system == engineOil
}

// engineOil is the system that burns with the fuel.
const engineOil = "engine-oil"

// balance is what follows from the figures, as a record has it; nil for nothing.
func (b *bench) balance(a fluid.Account, system string, density quantity.Density) *record.Balance {
	balance := record.Balance{
		Drained: estimate(a.Drained), Filled: estimate(a.Filled), Carried: estimate(a.Carried),
		Used: estimate(a.Used), Over: a.Over, By: record.Method(a.By),
	}
	if a.Level != nil {
		balance.Level = &record.LevelEstimate{Reading: a.Level.Reading, Within: a.Level.Within}
	}
	for _, u := range a.Trend {
		balance.Trend = append(balance.Trend, record.Use{Hours: u.Hours, Per100: u.Per100.Volume, Within: u.Per100.Within})
	}
	if burnt := b.draft.Job.FuelUsed; burnt != nil && a.Used != nil && system == engineOil {
		fuel := fluid.Diesel
		if strings.Contains(strings.ToLower(b.Machine.Kind), "petrol") {
			fuel = fluid.Petrol
		}
		balance.OfFuelPPM, balance.PerEnergyMgKWh = fuel.PerFuel(a.Used.Volume, density, *burnt, b.Machine.RatedPower, a.Over)
	}
	if balance.Drained == nil && balance.Filled == nil && balance.Level == nil && balance.Used == nil {
		return nil
	}
	return &balance
}

func estimate(a *fluid.Amount) *record.Estimate {
	if a == nil {
		return nil
	}
	return &record.Estimate{Volume: a.Volume, Within: a.Within}
}
