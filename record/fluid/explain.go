package fluid

import (
	"math"

	"hourseal/record/quantity"
)

// fits is how near to nothing, in standard uncertainties, an explanation has to
// bring what does not add up.
const fits = 1.5

// otherUnit pairs the US measures with the imperial ones of the same name.
var otherUnit = map[quantity.Unit]quantity.Unit{
	quantity.UnitUSGallon: quantity.UnitImperialGallon, quantity.UnitImperialGallon: quantity.UnitUSGallon,
	quantity.UnitUSQuart: quantity.UnitImperialQuart, quantity.UnitImperialQuart: quantity.UnitUSQuart,
	quantity.UnitUSPint: quantity.UnitImperialPint, quantity.UnitImperialPint: quantity.UnitUSPint,
	quantity.UnitUSFluidOunce: quantity.UnitImperialFluidOunce, quantity.UnitImperialFluidOunce: quantity.UnitUSFluidOunce,
}

// explained gives the fault that explains why a visit does not add up, in place of
// the one that only says so.
func (b bench) explained(past history, works []workings, v Visit, fault Remark) Remark {
	if r := b.swapped(past, works, v); r != nil {
		return *r
	}
	if fault.Kind == FillOffLevel {
		if r := b.filterFault(past, works[len(works)-1], v.Filter); r != nil {
			return *r
		}
	}
	return fault
}

// swapped tries the figures with the other unit of the same name: in what was
// drained, in what was filled, then in both.
func (b bench) swapped(past history, works []workings, v Visit) *Remark {
	drained, wasD := inOtherUnit(v.Drained)
	filled, wasF := inOtherUnit(v.Filled)
	last := len(works) - 1
	for _, try := range []struct{ drained, filled bool }{{true, false}, {false, true}, {true, true}} {
		if try.drained && !wasD || try.filled && !wasF {
			continue
		}
		other := v
		r := Remark{Kind: UnitSwapped}
		if try.filled {
			other.Filled = &filled
			r.Amount, r.Written, r.Swapped = amountNames[ofFilled], v.Filled.String(), filled.String()
			r.Value, r.Limit = int64(Volume(*v.Filled, b.Density)), int64(Volume(filled, b.Density))
		}
		if try.drained {
			other.Drained = &drained
			r.Amount, r.Written, r.Swapped = amountNames[ofDrained], v.Drained.String(), drained.String()
			r.Value, r.Limit = int64(Volume(*v.Drained, b.Density)), int64(Volume(drained, b.Density))
		}
		retried := append(works[:last:last], b.work(last, other))
		if b.fault(past, retried[last]) != nil || b.gained(retried) && !b.gained(works) {
			continue
		}
		if off := b.off(past, retried[last]); off == nil || math.Abs(off.mL) <= fits*off.within() {
			return &r
		}
	}
	return nil
}

func (b bench) gained(works []workings) bool {
	u := b.used(works)
	return u != nil && u.used.times(-1).beyond(0)
}

// inOtherUnit writes the same figures in the other unit; false where no portion
// has one.
func inOtherUnit(m *quantity.Measured) (quantity.Measured, bool) {
	if m == nil || m.NotMeasured {
		return quantity.Measured{}, false
	}
	swapped := quantity.Measured{Portions: make([]quantity.Portion, len(m.Portions))}
	any := false
	for i, p := range m.Portions {
		swapped.Portions[i] = p
		if to, ok := otherUnit[p.Unit]; ok {
			if other, ok := p.In(to); ok {
				swapped.Portions[i], any = other, true
			}
		}
	}
	return swapped, any
}

// filterFault tells whether what does not add up, by this visit's own figures, is
// what the filter holds, to one standard uncertainty, while fill and level agree by
// what the system's own changes usually leave in, where that is known.
func (b bench) filterFault(past history, w workings, f Filter) *Remark {
	own := b.byBefore(w)
	if own == nil || w.filled == nil || w.after == nil || b.FilterHolds <= 0 {
		return nil
	}
	left := w.after.less(*w.filled)
	off := left.less(*own)
	if math.Abs(math.Abs(off.mL)-float64(b.FilterHolds)) > off.within() {
		return nil
	}
	if usual := b.usual(past, w.visit); usual != nil {
		if off := left.less(*usual); math.Abs(off.mL) > off.within() {
			return nil
		}
	}
	is, ok := filterFaults[filterCase{f, off.mL > 0}]
	if !ok {
		return nil
	}
	r := b.remark(FilterMiscounted, off, math.Abs(off.mL), float64(b.FilterHolds))
	r.FilterIs, r.Off = is, off.amount().Volume
	return r
}

type filterCase struct {
	filter Filter
	more   bool // in than expected
}

var filterFaults = map[filterCase]FilterFault{
	{FilterInDrained, false}: FilterNotCounted,
	{FilterInDrained, true}:  FilterEmpty,
	{FilterNotDrained, true}: FilterTwice,
	{FilterUnsaid, true}:     FilterEmpty,
}
