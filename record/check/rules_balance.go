package check

import (
	"fmt"
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
	b.wasteOfNothing()
}

// wasteOfNothing asks about waste of a system that the sheet has nothing else of.
func (b *bench) wasteOfNothing() {
	seen := map[string]bool{}
	for _, w := range b.Job.Waste {
		s, ok := b.Machine.System(w.System)
		hasFluid := slices.ContainsFunc(b.Job.Fluids, func(f record.Fluid) bool { return f.System == w.System })
		if !ok || hasFluid || seen[w.System] {
			continue
		}
		seen[w.System] = true
		none := fluid.Visit{Filter: filterOf(b.draft, &record.Fluid{System: w.System})}
		if r := fluid.WasteRemark(b.fluidSystem(s), b.Yard.Doubt, none, b.wasteOf(w.System)); r != nil {
			b.remark(0, w.System, *r)
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
	case slices.ContainsFunc(r.Tasks, func(t record.Task) bool { return t.Result == record.Done && isFilterOf(t.ID, f.System) }):
		return fluid.FilterUnsaid
	}
	return fluid.FilterKept
}

// isFilterOf says whether a task is about the filter of a system: oil-filter of
// engine-oil, gear-filter or gear-oil-filter of gear-oil.
func isFilterOf(task, system string) bool {
	return task == system+"-filter" || task == strings.TrimSuffix(system, "-oil")+"-filter" ||
		task == "oil-filter" && system == engineOil
}

// engineOil is the system that burns with the fuel.
const engineOil = "engine-oil"

func (b *bench) wasteOf(system string) []quantity.Measured {
	var list []quantity.Measured
	for _, w := range b.Job.Waste {
		if w.System == system {
			list = append(list, w.Amount)
		}
	}
	return list
}

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

// remarkRule is how a remark becomes a finding. Words are made of it elsewhere;
// text is what the figures alone do not tell.
type remarkRule struct {
	code     record.Code
	severity record.Severity
	field    string
	unit     record.Unit
	text     func(fluid.Remark) string
}

var remarkRules = map[fluid.Kind]remarkRule{
	fluid.DrainedBeyond:    {record.DrainedBeyondSystem, record.Decide, "drained", record.InVolume, beyondText},
	fluid.FilledBeyond:     {record.FilledBeyondSystem, record.Decide, "filled", record.InVolume, nil},
	fluid.FillOffLevel:     {record.FillOffLevel, record.Decide, "level", record.InShare, offText},
	fluid.FilterMiscounted: {record.FilterMiscounted, record.Decide, "drained_includes_filter", record.InVolume, filterText},
	fluid.UnitSwapped: {record.UnitSwapped, record.Decide, "", record.InVolume, func(r fluid.Remark) string {
		return fmt.Sprintf("%s: %s does not fit, %s does", r.Amount, r.Written, r.Swapped)
	}},
	fluid.OldOilLeft:       {record.OldOilLeft, record.Decide, "drained", record.InVolume, func(r fluid.Remark) string { return r.Share.Whole().Percent() }},
	fluid.OilGained:        {record.OilGained, record.Decide, "level_before", record.InVolume, nil},
	fluid.OilUseRisen:      {record.OilUseRisen, record.Decide, "level_before", record.InPer100Hours, countText},
	fluid.OilUseHeavy:      {record.OilUseHeavy, record.Note, "level_before", record.InPer100Hours, nil},
	fluid.AtUpperDoubtful:  {record.AtUpperDoubtful, record.Note, "level", record.InVolume, countText},
	fluid.DrawnDown:        {record.DrawnDown, record.Note, "drawn_down", record.InVolume, drawnText},
	fluid.WasteOffDrained:  {record.WasteOffDrained, record.Decide, "", record.InVolume, wasteText},
	fluid.WasteUnaccounted: {record.WasteUnaccounted, record.Note, "drained", record.NoUnit, nil},
}

// remark makes a finding of a remark about the fluid in place i of the sheet.
func (b *bench) remark(i int, system string, r fluid.Remark) {
	if r.Kind == fluid.BeyondCorrection {
		b.beyondCorrection(i, system, r)
		return
	}
	rule := remarkRules[r.Kind]
	f := record.Finding{Code: rule.code, Subject: system, Unit: rule.unit}
	if rule.unit != record.NoUnit {
		f.Value = num(r.Value)
	}
	if r.Within != 0 {
		f.Within = num(r.Within)
	}
	if r.Kind != fluid.DrawnDown && rule.unit != record.NoUnit {
		f.Limit = num(r.Limit)
	}
	if rule.text != nil {
		f.Text = clip(rule.text(r))
	}
	at := path("fluids", i)
	switch {
	case r.Kind == fluid.WasteOffDrained:
		at = path("waste", slices.IndexFunc(b.Job.Waste, func(w record.Waste) bool { return w.System == system }))
	case rule.field != "":
		at = path("fluids", i, rule.field)
	case r.Amount != "":
		at = path("fluids", i, r.Amount)
	}
	b.find(b.severity(rule, r, system), at, f)
}

// severity is that of the rule, but for figures that nobody has to decide about or
// that somebody has to: more than twice its content cannot have been drained, and oil
// used by the sumpful is more than a note.
func (b *bench) severity(rule remarkRule, r fluid.Remark, system string) record.Severity {
	s, _ := b.Machine.System(system)
	content := fluid.Content(s.AtUpper, s.Holds)
	switch {
	case content == 0:
	case r.Kind == fluid.DrainedBeyond && r.Value > int64(fluid.FillLimit(content)):
		return record.Refuse
	case r.Kind == fluid.OilUseHeavy && r.Value > int64(content):
		return record.Decide
	}
	return rule.severity
}

func (b *bench) beyondCorrection(i int, system string, r fluid.Remark) {
	f := record.Finding{Code: record.BeyondCorrection, Subject: system, Text: clip(r.Amount + ": " + r.Err.Error())}
	b.find(record.Refuse, path("fluids", i, strings.ReplaceAll(r.Amount, " ", "_")), f)
}

// offText is how much more or less is in than expected, in litres.
func offText(r fluid.Remark) string {
	if r.Off < 0 {
		return (-r.Off).Hundredths() + " less than expected"
	}
	return r.Off.Hundredths() + " more than expected"
}

func filterText(r fluid.Remark) string {
	return map[fluid.FilterFault]string{
		fluid.FilterNotCounted: "counted though not drained",
		fluid.FilterTwice:      "not counted though drained, or the new one still empty when the level was read",
		fluid.FilterEmpty:      "the new one still empty when the level was read",
	}[r.FilterIs]
}

// wasteText says which way the limit goes.
func wasteText(r fluid.Remark) string {
	if r.Value > r.Limit {
		return "at most"
	}
	return "at least"
}

// beyondText says what is in a drain beside what was measured.
func beyondText(r fluid.Remark) string {
	if r.WithFilter {
		return "with what the filter held"
	}
	return ""
}

func drawnText(r fluid.Remark) string {
	if r.AfterFill {
		return "after the fill"
	}
	return ""
}

func countText(r fluid.Remark) string { return fmt.Sprint(r.Count) }
