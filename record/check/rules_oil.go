package check

import (
	"strings"

	"hourseal/record"
	"hourseal/record/fluid"
	"hourseal/record/jobsheet"
)

// oilRules hold what was filled to what the machine file asks for.
func oilRules(b *bench) {
	for i, f := range b.Job.Fluids {
		s, ok := b.Machine.System(f.System)
		if !ok || f.Filled == nil || s.IsCoolant() {
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
	if len(s.Viscosity) == 0 {
		return
	}
	suits := fluid.Viscosity(f.Viscosity, s.Viscosity)
	switch {
	case suits.Suits && !suits.Direct:
		b.find(record.Note, path("fluids", i, "viscosity"), record.Finding{Code: record.ViscositySuits, Subject: f.System, Text: clip(suits.Have + " for " + suits.Asked)})
	case !suits.Suits:
		b.find(record.Decide, path("fluids", i, "viscosity"), record.Finding{Code: record.OilViscosity, Subject: f.System, Text: asked(f.Viscosity, s.Viscosity, suits.Why)})
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
