package check

import (
	"hourseal/record"
	"hourseal/record/fluid"
	"hourseal/record/quantity"
)

// levelRules hold a level after the job to its marks, and ask whether the oil
// had time to drain back.
func levelRules(b *bench) {
	for i, f := range b.Job.Fluids {
		b.levelReach(path("fluids", i, "level_before"), f.System, f.LevelBefore)
		if b.levelReach(path("fluids", i, "level"), f.System, f.Level) {
			continue
		}
		if f.Level == nil || f.Level.Reading == nil {
			continue
		}
		at, reading := path("fluids", i, "level"), *f.Level.Reading
		for _, rule := range levelTable {
			if rule.fires(reading, f) {
				b.find(rule.severity, at, record.Finding{Code: rule.code, Subject: f.System, Value: num(reading), Limit: num(rule.limit), Unit: record.InShare})
			}
		}
		switch after := f.Level.After; {
		case after == nil:
			b.find(record.Note, at, record.Finding{Code: record.LevelWaitUnstated, Subject: f.System})
		case *after < fluid.DrainBack:
			b.find(record.Decide, at, record.Finding{Code: record.LevelReadEarly, Subject: f.System, Value: num(*after), Limit: num(fluid.DrainBack), Unit: record.InMinutes})
		}
	}
}

// levelReach refuses a reading that no dipstick has: 85 for 0.85.
func (b *bench) levelReach(at, system string, l *record.Level) bool {
	if l == nil || l.Reading == nil || *l.Reading <= fluid.LevelReach && *l.Reading >= -fluid.LevelReach {
		return false
	}
	b.find(record.Refuse, at, record.Finding{Code: record.LevelBeyondStick, Subject: system, Value: num(*l.Reading), Unit: record.InShare})
	return true
}

// levelTable is what a dipstick reading calls for; at most one row fires.
var levelTable = []struct {
	code     record.Code
	severity record.Severity
	limit    quantity.Ratio
	fires    func(quantity.Ratio, record.Fluid) bool
}{
	{record.LevelOverfilled, record.Decide, fluid.LevelOverfilled, func(r quantity.Ratio, _ record.Fluid) bool { return r > fluid.LevelOverfilled }},
	{record.LevelHigh, record.Note, fluid.LevelUpper, func(r quantity.Ratio, _ record.Fluid) bool {
		return r > fluid.LevelUpper && r <= fluid.LevelOverfilled
	}},
	{record.LevelBelowMark, record.Decide, 0, func(r quantity.Ratio, _ record.Fluid) bool { return r < 0 }},
	{record.LevelLow, record.Note, fluid.LevelLow, func(r quantity.Ratio, f record.Fluid) bool {
		return r >= 0 && r < fluid.LevelLow && f.Filled != nil
	}},
}

// fillRules refuse a fill that is more than twice what the system holds.
func fillRules(b *bench) {
	for i, f := range b.Job.Fluids {
		s, ok := b.Machine.System(f.System)
		limit := fluid.FillLimit(fluid.Content(s.AtUpper, s.Holds))
		if !ok || limit == 0 || f.Filled == nil {
			continue
		}
		if filled := fluid.Volume(*f.Filled, s.Density); filled > limit {
			b.find(record.Refuse, path("fluids", i, "filled"), record.Finding{Code: record.FillBeyondSystem, Subject: f.System, Value: num(filled), Limit: num(limit), Unit: record.InVolume})
		}
	}
}

// unmeasuredRules note what was not measured, and where a temperature had to be
// taken as usual.
func unmeasuredRules(b *bench) {
	for i, f := range b.Job.Fluids {
		s, _ := b.Machine.System(f.System)
		b.unmeasured(path("fluids", i, "drained"), f.System, "drained", f.Drained, fluid.AssumedDrained, s.IsCoolant())
		b.unmeasured(path("fluids", i, "filled"), f.System, "filled", f.Filled, fluid.AssumedFilled, s.IsCoolant())
		b.levelUnmeasured(path("fluids", i, "level_before"), f.System, "level before", f.LevelBefore)
		b.levelUnmeasured(path("fluids", i, "level"), f.System, "level", f.Level)
	}
}

func (b *bench) unmeasured(at, system, what string, m *quantity.Measured, usual fluid.Assumed, coolant bool) {
	switch {
	case m == nil:
	case m.NotMeasured:
		b.find(record.Note, at, record.Finding{Code: record.NotMeasured, Subject: system, Text: what})
	case !coolant && fluid.NeedsTemperature(*m):
		b.assumed(at, system, what, usual)
	}
}

func (b *bench) levelUnmeasured(at, system, what string, l *record.Level) {
	switch {
	case l == nil:
	case l.Reading == nil:
		b.find(record.Note, at, record.Finding{Code: record.NotMeasured, Subject: system, Text: what})
	case l.At == nil:
		b.assumed(at, system, what, fluid.AssumedLevel)
	}
}

func (b *bench) assumed(at, system, what string, usual fluid.Assumed) {
	b.find(record.Note, at, record.Finding{Code: record.TemperatureAssumed, Subject: system, Text: what, Value: num(usual.At), Limit: num(usual.Within), Unit: record.InDegrees})
}
