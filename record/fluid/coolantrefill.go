package fluid

import (
	"errors"
	"fmt"

	"hourseal/record/quantity"
)

// To drain a part D of a system that holds V and fill up again changes its strength
// by volume from x0 towards that of what is added, xr:
//
//	x1 = x0 + (D/V)(xr - x0)        D = V(xt - x0)/(xr - x0)
//
// This is the balance of the glycol, for what is well mixed before it is drained.

// drainStep is what a jug can be read to: what is to be drained is rounded up to it.
const drainStep = 10 // mL

// Refill is a part of the coolant drained, and what it leads to.
type Refill struct {
	Drain, Add quantity.Volume // the same volume: the system is full before and after
	Strength   quantity.Ratio  // by volume, once it is mixed
}

// StrengthAfter is the strength by volume once drained was let out of a system that
// holds holds at strength now and was filled up again with strength added (water 0,
// neat glycol One), to 1/1000, half up. It refuses to drain more than the system
// holds.
func StrengthAfter(holds, drained quantity.Volume, now, added quantity.Ratio) (quantity.Ratio, error) {
	var drain error
	if drained < 0 || drained > holds {
		drain = fmt.Errorf("drained %v: the system holds %v: write from 0 L to that", drained, holds)
	}
	if err := errors.Join(fullSystem(holds), drain, strength("now", now), strength("added", added)); err != nil {
		return 0, err
	}
	// The glycol, in mL by 1/1000; at most 1e11.
	in := int64(now)*int64(holds-drained) + int64(added)*int64(drained)
	return quantity.Ratio((2*in + int64(holds)) / (2 * int64(holds))), nil
}

// DrainFor is how much to drain of a system that holds holds, and to fill up again
// with strength added, to bring it from strength now to target; rounded up to the
// next 10 mL, but to no more than the system holds. Nothing is to be drained where it
// is at the target already. It refuses to add what cannot bring it there.
func DrainFor(holds quantity.Volume, now, target, added quantity.Ratio) (quantity.Volume, error) {
	if err := errors.Join(fullSystem(holds), strength("now", now), strength("target", target), strength("added", added)); err != nil {
		return 0, err
	}
	change, most := int64(target-now), int64(added-now)
	switch {
	case change == 0:
		return 0, nil
	case change > 0 && added < target:
		return 0, fmt.Errorf("added %s: what is added has to be stronger than %s: take neat glycol, 100 %%", added.Percent(), target.Percent())
	case change < 0 && added > target:
		return 0, fmt.Errorf("added %s: what is added has to be weaker than %s: take water, 0 %%", added.Percent(), target.Percent())
	case change < 0:
		change, most = -change, -most
	}
	steps := most * drainStep
	drain := (int64(holds)*change + steps - 1) / steps * drainStep
	return min(quantity.Volume(drain), holds), nil
}

// RefillFor is DrainFor with what is to be added and the strength that it comes to.
func RefillFor(holds quantity.Volume, now, target, added quantity.Ratio) (Refill, error) {
	drain, err := DrainFor(holds, now, target, added)
	if err != nil {
		return Refill{}, err
	}
	reached, err := StrengthAfter(holds, drain, now, added)
	return Refill{Drain: drain, Add: drain, Strength: reached}, err
}

// fullSystem refuses what no cooling system holds.
func fullSystem(holds quantity.Volume) error {
	if holds <= 0 || holds > quantity.MaxVolume {
		return fmt.Errorf("holds %v: write what the cooling system holds, as 11.5 L", holds)
	}
	return nil
}

func strength(field string, share quantity.Ratio) error {
	if share < 0 || share > quantity.One {
		return fmt.Errorf("%s %s: write the strength from 0 %% to 100 %%, by volume", field, share.Percent())
	}
	return nil
}
