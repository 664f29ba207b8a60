package fluid

import "hourseal/record/quantity"

// WasteRemark holds what is said to have become of a visit's waste to what came
// out: the drained volume cold or hot, for nobody says how warm the waste was
// measured, and up to what the filter held and what was drawn down besides. Waste
// is measured no better than a drain. Nil where they agree, or either is not
// known; nothing written of what came out is a remark of its own.
func WasteRemark(s System, d Doubt, v Visit, waste []quantity.Measured) *Remark {
	b := newBench(s, d, []Visit{v})
	w := b.work(0, v)
	switch {
	case len(waste) == 0 && v.Drained == nil && v.DrawnDown == nil:
		return nil
	case len(waste) == 0:
		return &Remark{Kind: WasteUnaccounted}
	case unsure(v.Drained, w.drained), unsure(v.DrawnDown, w.drawnOff):
		return nil
	}
	var sum estimate
	for i, m := range waste {
		if m.NotMeasured {
			return nil
		}
		for j, p := range m.Portions {
			one := exactly(Volume(quantity.Measured{Portions: []quantity.Portion{p}}, b.Density))
			sum = sum.and(one.moved(term{fromAmount, int32(i), ofWaste, int8(j)}, b.extracted(one.mL, p)))
		}
	}
	var hot float64 // as measured, less at 15 degC
	cold := sum
	for _, part := range []struct {
		as15    *estimate
		written *quantity.Measured
	}{{w.drained, v.Drained}, {w.drawnOff, v.DrawnDown}} {
		if part.as15 != nil {
			cold = cold.less(*part.as15)
			hot += float64(Volume(*part.written, b.Density)) - part.as15.mL
		}
	}
	// Cold, it is what came out at 15 degC; drained in the cold, that is the more.
	most, least := cold, cold
	most.mL -= max(hot, 0)
	least.mL -= min(hot, 0)
	if v.Filter != FilterKept {
		most.mL -= float64(b.FilterHolds)
	}
	if most.beyond(0) {
		return b.remark(WasteOffDrained, most, sum.mL, sum.mL-most.mL)
	}
	if least.times(-1).beyond(0) {
		return b.remark(WasteOffDrained, least, sum.mL, sum.mL-least.mL)
	}
	return nil
}
