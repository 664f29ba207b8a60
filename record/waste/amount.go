package waste

import (
	"slices"

	"hourseal/record"
	"hourseal/record/fluid"
	"hourseal/record/quantity"
)

// Amount is what an amount comes to.
type Amount struct {
	Litres  *quantity.Volume // nil: not measured
	Weighed *quantity.Mass   // nil unless all of it was weighed
	Density quantity.Density // by which masses were made litres; 0: there were none
	Assumed bool             // the record states no density
}

func amountOf(r *record.Record, system string, m quantity.Measured) Amount {
	if m.NotMeasured {
		return Amount{}
	}
	var a Amount
	if slices.ContainsFunc(m.Portions, func(p quantity.Portion) bool { return p.Unit.IsMass() }) {
		a.Density, a.Assumed = densityOf(r, system)
	}
	a.Litres = new(fluid.Volume(m, a.Density))
	if mass, ok := m.TotalMass(); ok {
		a.Weighed = &mass
	}
	return a
}

// densityOf is the density of a record's system, and whether it is assumed.
func densityOf(r *record.Record, system string) (density quantity.Density, assumed bool) {
	coolant := (&record.Fluid{System: system}).IsCoolant()
	for _, f := range r.Fluids {
		if f.System != system {
			continue
		}
		if f.Density > 0 {
			return f.Density, false
		}
		coolant = coolant || f.IsCoolant()
	}
	if coolant {
		return fluid.AssumedCoolantDensity, true
	}
	return fluid.AssumedDensity, true
}
