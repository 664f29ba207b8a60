package recordtest

import (
	"cmp"
	"slices"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/quantity"
)

// balance is any that is not empty, or none.
func balance(t *rapid.T) *record.Balance {
	b := record.Balance{Drained: maybe(t, estimate), Filled: maybe(t, estimate), Carried: maybe(t, estimate), Used: maybe(t, estimate),
		Level: maybe(t, func(t *rapid.T) record.LevelEstimate {
			return record.LevelEstimate{
				Reading: quantity.Ratio(number(t, "level", int64(quantity.MinRatio), int64(quantity.MaxRatio))),
				Within:  quantity.Ratio(number(t, "level within", 0, int64(quantity.MaxRatio)))}
		}),
		Trend: list(t, func(t *rapid.T) record.Use {
			e := estimate(t)
			return record.Use{Hours: anyHours(t), Per100: e.Volume, Within: e.Within}
		}),
	}
	slices.SortFunc(b.Trend, func(a, b record.Use) int { return cmp.Compare(a.Hours, b.Hours) })
	if b.Used != nil {
		b.Over, b.By = quantity.Hours(number(t, "over", 1, int64(quantity.MaxHours))), word[record.Method](t, record.MethodWords)
		if b.Used.Volume > 0 {
			b.OfFuelPPM, b.PerEnergyMgKWh = number(t, "of fuel", 0, 1_000_000_000), number(t, "per kWh", 0, 1_000_000_000)
		}
	} else if b.Drained == nil && b.Filled == nil && b.Level == nil && b.Carried == nil && len(b.Trend) == 0 {
		return nil
	}
	return &b
}

func estimate(t *rapid.T) record.Estimate {
	most := int64(quantity.MaxVolume)
	return record.Estimate{Volume: quantity.Volume(number(t, "estimate", -most, most)), Within: quantity.Volume(number(t, "within", 0, most))}
}
