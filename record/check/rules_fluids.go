package check

import (
	"strings"

	"hourseal/record"
	"hourseal/record/fluid"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
)

// levelRules hold a level after the job to its marks, and ask whether the oil
// had time to drain back.
func levelRules(b *bench) {
	for i, f := range b.Job.Fluids {
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

// oilRules hold what was filled to what the machine file asks for.
func oilRules(b *bench) {
	for i, f := range b.Job.Fluids {
		s, ok := b.Machine.System(f.System)
		if !ok || f.Filled == nil || isCoolant(s) {
			continue
		}
		b.categoryRule(i, f, s)
		b.viscosityRule(i, f, s)
	}
}

func (b *bench) categoryRule(i int, f record.Fluid, s jobsheet.System) {
	if len(s.Meets) == 0 {
		if len(s.Viscosity) == 0 {
			b.find(record.Note, path("fluids", i), record.Finding{Code: record.OilRequirementAbsent, Subject: f.System})
		}
		return
	}
	suits := fluid.Suits(f.Meets, s.Meets)
	switch {
	case suits.Suits && !suits.Direct:
		b.find(record.Note, path("fluids", i, "meets"), record.Finding{Code: record.OilSuitsByDirected, Subject: f.System, Text: clip(suits.Have + " for " + suits.Asked)})
	case !suits.Suits:
		b.find(record.Decide, path("fluids", i, "meets"), record.Finding{Code: record.OilCategory, Subject: f.System, Text: asked(strings.Join(f.Meets, ", "), s.Meets, suits.Why)})
	}
}

func (b *bench) viscosityRule(i int, f record.Fluid, s jobsheet.System) {
	if len(s.Viscosity) > 0 && !fluid.ViscositySuits(f.Viscosity, s.Viscosity) {
		b.find(record.Decide, path("fluids", i, "viscosity"), record.Finding{Code: record.OilViscosity, Subject: f.System, Text: asked(f.Viscosity, s.Viscosity, "")})
	}
}

// asked puts what was found beside what the machine file asks for.
func asked(found string, want []string, why string) string {
	if found == "" {
		found = "not stated"
	}
	text := found + "; asked: " + strings.Join(want, " or ")
	if why != "" {
		text += "; " + why
	}
	return clip(text)
}

// clip shortens a text to what a finding may carry.
func clip(text string) string {
	if runes := []rune(text); len(runes) > record.MaxReason {
		return strings.TrimSpace(string(runes[:record.MaxReason-3])) + "..."
	}
	return text
}

func isCoolant(s jobsheet.System) bool { return s.Glycol != "" || s.ProtectTo != nil }

// coolantRule holds a measured freezing point to the protection that the
// machine file asks for.
func coolantRule(b *bench) {
	for i, t := range b.Job.Tasks {
		for _, r := range t.Readings {
			if r.Name != "freezing_point" {
				continue
			}
			figure := r.Value
			if figure == nil {
				figure = r.AsLeft
			}
			if figure == nil { // found, and nothing done about it
				figure = r.AsFound
			}
			if figure != nil {
				b.protection(path("tasks", i, "reading"), t.ID, *figure)
			}
		}
	}
}

func (b *bench) protection(at, task string, figure quantity.Figure) {
	reading, ok := figure.Temperature()
	if !ok {
		b.find(record.Refuse, at, record.Finding{Code: record.EvidenceMissing, Subject: task, Text: "unit of freezing_point, C or F"})
		return
	}
	for _, s := range b.Machine.Systems {
		if s.ProtectTo != nil && reading > *s.ProtectTo {
			b.find(record.Decide, at, record.Finding{Code: record.CoolantProtection, Subject: s.Name, Value: num(reading), Limit: num(*s.ProtectTo), Unit: record.InDegrees})
		}
	}
}

// unmeasuredRules note what was not measured, and where a temperature had to be
// taken as usual.
func unmeasuredRules(b *bench) {
	for i, f := range b.Job.Fluids {
		s, _ := b.Machine.System(f.System)
		b.unmeasured(path("fluids", i, "drained"), f.System, "drained", f.Drained, fluid.AssumedDrained, isCoolant(s))
		b.unmeasured(path("fluids", i, "filled"), f.System, "filled", f.Filled, fluid.AssumedFilled, isCoolant(s))
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
