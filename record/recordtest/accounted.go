package recordtest

import (
	"crypto/sha256"

	"hourseal/record"
	"hourseal/record/quantity"
)

// Accounted is the example's service as the second of its chain, so that its
// volumes have something to add up with: every field of a fluid and its balance, of
// waste and of a finding says something. The figures of the balance are made up,
// near to what the check would work out.
func Accounted() *record.Record {
	r := Example()
	r.Number, r.Previous = 2, &record.Previous{Record: sha256.Sum256([]byte("previous")), Date: day("2025-11-24"), Hours: hours("610.2")}
	r.Findings = r.Findings[1:]
	accountFor(r)
	return r
}

// accountFor adds to the example what follows from its figures, what was seen, and a
// second fluid.
func accountFor(r *record.Record) {
	r.Job.FuelUsed = sum("1850 L")
	oil := &r.Fluids[0]
	oil.DrawnDown = sum("0.2 L at 40 C")
	oil.Saw = []record.Sight{record.SawWater, record.SawMetal}
	oil.Answer = &record.Answer{Why: "milky on the dipstick, bright flakes in the filter", Advice: record.BeforeUse,
		Told: new(r.Job.Date), Owner: record.Agreed}
	oil.Balance = &record.Balance{
		Drained: &record.Estimate{Volume: 8742, Within: 274}, Filled: &record.Estimate{Volume: 9093, Within: 105},
		Level:   &record.LevelEstimate{Reading: 868, Within: 204},
		Carried: &record.Estimate{Volume: 412, Within: 389},
		Used:    &record.Estimate{Volume: 1440, Within: 251}, Over: hours("202.4"), By: record.ByLevels,
		OfFuelPPM: 778, PerEnergyMgKWh: 188,
		Trend: []record.Use{{Hours: hours("407.9"), Per100: -38, Within: 130}, {Hours: hours("610.2"), Per100: 640, Within: 127},
			{Hours: r.Job.Hours, Per100: 711, Within: 124}},
	}
	r.Fluids = append(r.Fluids, record.Fluid{System: "coolant", Drained: sum("10.5 L"), Filled: sum("10.8 L"), Glycol: record.Ethylene,
		Saw: []record.Sight{record.SawNothing}, Holds: 11_500,
		Balance: &record.Balance{Drained: &record.Estimate{Volume: 10_500, Within: 315}, Filled: &record.Estimate{Volume: 10_800, Within: 216}}})
	r.Waste = append(r.Waste, record.Waste{System: "coolant", Amount: *sum("10.5 L"), Held: "drum 3, oil store"})
	r.Findings = append(r.Findings,
		record.Finding{Code: record.OilUseHeavy, Severity: record.Note, Subject: "engine-oil",
			Value: new(int64(711)), Limit: new(int64(1600)), Unit: record.InPer100Hours, Within: new(int64(124))},
		record.Finding{Code: record.CoolantTooStrong, Severity: record.Decide, Subject: "coolant",
			Value: new(int64(625)), Limit: new(int64(600)), Unit: record.InPercent, Within: new(int64(15)), Accepted: "lifted at the next lay-up"})
}

// longestTrend is as many uses of oil as a record may hold, the last at the hours given.
func longestTrend(now quantity.Hours) []record.Use {
	trend := make([]record.Use, record.MaxTrend)
	for i := range trend {
		trend[i] = record.Use{Hours: now - quantity.Hours(record.MaxTrend-1-i)*50*quantity.Hour, Per100: quantity.Volume(400 + 25*i), Within: 120}
	}
	return trend
}
