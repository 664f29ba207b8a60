package recordtest

import (
	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// Typical is a yearly service as most are: twelve tasks, three fluids, six parts
// and two hundred characters of notes, the second record of its chain, on the
// example's engine.
func Typical() *record.Record {
	r := Accounted()
	now := record.Last{Date: r.Job.Date, Hours: r.Job.Hours}
	r.OtherWork, r.ToppedUp, r.Job.FuelUsed = nil, nil, nil
	r.Tasks = append(r.Tasks[:5:5], typicalTasks(now)...)
	r.Fluids = typicalFluids(r.Fluids[0])
	r.Waste = []record.Waste{
		{System: "engine-oil", Amount: *sum("8.8 L"), To: "harbour oil bank", Receipt: "5521"},
		{System: "coolant", Amount: *sum("10.5 L"), Held: "drum 3, oil store"},
	}
	r.Parts = []record.Part{
		{Item: "oil filter", Number: "CR-2214", Quantity: 1, SuppliedBy: record.ByYard},
		{Item: "primary fuel filter", Number: "CR-2231", Quantity: 1, SuppliedBy: record.ByYard},
		{Item: "secondary fuel filter", Number: "CR-2240", Quantity: 1, SuppliedBy: record.ByYard},
		{Item: "impeller", Number: "CR-3107", Quantity: 1, SuppliedBy: record.ByYard},
		{Item: "zinc anode", Number: "CR-5120", Quantity: 2, SuppliedBy: record.ByYard},
		{Item: "hose clip", Quantity: 4, SuppliedBy: record.ByCustomer},
	}
	r.Findings = r.Findings[:1]
	r.Notes = "Belt glazed on the back, good for this season. Starboard shaft drips once in ten seconds under way, dry at rest. " +
		"Owner told on the pontoon; wants the gland repacked when she is lifted out in October."
	return r
}

// typicalTasks are the tasks of the year that the example has not.
func typicalTasks(now record.Last) []record.Task {
	yearly := func(id, title string, kind schedule.Kind, hours quantity.Hours, result record.Result) record.Task {
		due := dueAt("", "2027-05-04")
		if hours != 0 {
			due.Hours = new(now.Hours + hours)
		}
		return record.Task{ID: id, Title: title, Kind: kind, Every: schedule.Interval{Hours: hours, Months: 12},
			Leeway: schedule.Leeway{Hours: hours / 10, Days: 30}, Last: &now, Due: due, Result: result}
	}
	return []record.Task{
		yearly("impeller", "Fit a new raw-water impeller", schedule.Replace, 400*quantity.Hour, record.Done),
		yearly("fuel-filter-primary", "Fit a new element in the primary fuel filter, drain its water", schedule.Replace, 400*quantity.Hour, record.Done),
		yearly("fuel-filter-secondary", "Fit a new secondary fuel filter, on the engine", schedule.Replace, 400*quantity.Hour, record.Done),
		yearly("air-filter", "Look at the air filter and clean it", schedule.Clean, 200*quantity.Hour, record.Done),
		yearly("raw-water-strainer", "Clean the raw-water strainer and work the sea cock", schedule.Clean, 200*quantity.Hour, record.Done),
		yearly("anodes", "Fit new anodes in the engine's raw-water side", schedule.Replace, 0, record.Done),
		yearly("exhaust", "Look over the exhaust elbow, mixer, hose and clamps", schedule.Inspect, 400*quantity.Hour, record.OK),
	}
}

// typicalFluids are the oil of the example, its coolant and the gear's oil.
func typicalFluids(oil record.Fluid) []record.Fluid {
	oil.Saw, oil.Answer, oil.DrawnDown = nil, nil, nil
	oil.Balance = &record.Balance{
		Drained: &record.Estimate{Volume: 8742, Within: 274}, Filled: &record.Estimate{Volume: 9293, Within: 105},
		Level:   &record.LevelEstimate{Reading: 868, Within: 204},
		Carried: &record.Estimate{Volume: 412, Within: 389},
		Used:    &record.Estimate{Volume: 940, Within: 251}, Over: hours("202.4"), By: record.ByLevels,
		Trend: []record.Use{{Hours: hours("812.6"), Per100: 464, Within: 124}},
	}
	return []record.Fluid{
		oil,
		{System: "coolant", Drained: sum("10.5 L"), Filled: sum("10.8 L"), Glycol: record.Ethylene, Product: "Harrow Long Life", Holds: 11_500,
			Balance: &record.Balance{Drained: &record.Estimate{Volume: 10_500, Within: 315}, Filled: &record.Estimate{Volume: 10_800, Within: 216}}},
		{System: "gear-oil", Drained: sum("2 L at 40 C"), Filled: sum("2.1 L at 16 C"), Level: level(900, 15, "30 C"),
			Product: "Harrow Gear", Viscosity: "SAE 90", AtUpper: 2200, BetweenMarks: 300},
	}
}
