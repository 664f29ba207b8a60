package check

import (
	"slices"

	"hourseal/record"
	"hourseal/record/fluid"
	"hourseal/record/quantity"
)

// wasteRule asks about waste of a system that the sheet has nothing else of.
func wasteRule(b *bench) {
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

// wasteOf is what the sheet says became of a system's waste.
func (b *bench) wasteOf(system string) []quantity.Measured {
	var list []quantity.Measured
	for _, w := range b.Job.Waste {
		if w.System == system {
			list = append(list, w.Amount)
		}
	}
	return list
}
