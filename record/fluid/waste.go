package fluid

import "hourseal/record/quantity"

// WasteRemark holds what is said to have become of a visit's waste to what came
// out: the drained volume cold or hot, for nobody says how warm the waste was
// measured, and up to what the filter held and what was drawn down besides. Waste
// is measured no better than a drain. Nil where they agree, or either is not
// known; nothing written of waste is a remark of its own.
func WasteRemark(s System, d Doubt, v Visit, waste []quantity.Measured) *Remark {
	b := newBench(s, d, []Visit{v})
	w := b.work(0, v)
	switch {
	case v.Drained == nil:
		return nil
	case len(waste) == 0:
		return &Remark{Kind: WasteUnaccounted}
	case w.drained == nil:
		return nil
	}
	var sum estimate
	for i, m := range waste {
		if m.NotMeasured {
			return nil
		}
		for j, p := range m.Portions {
			one := exactly(Volume(quantity.Measured{Portions: []quantity.Portion{p}}, b.Density))
			sum = sum.and(one.moved(term{fromAmount, int8(i), ofWaste, int8(j)}, b.extracted(one.mL, p)))
		}
	}
	cold := sum.less(*w.drained)
	hot := sum.less(w.drained.times(float64(Volume(*v.Drained, b.Density)) / max(w.drained.mL, 1)))
	if w.drained.mL > float64(Volume(*v.Drained, b.Density)) { // drained cold
		cold, hot = hot, cold
	}
	if v.Filter != FilterKept {
		hot.mL -= float64(b.FilterHolds)
	}
	if w.drawnDown != nil {
		hot.mL -= float64(*w.drawnDown)
	}
	if hot.beyond(0) {
		return b.remark(WasteOffDrained, hot, sum.mL, sum.mL-hot.mL)
	}
	if cold.times(-1).beyond(0) {
		return b.remark(WasteOffDrained, cold, sum.mL, sum.mL-cold.mL)
	}
	return nil
}
