package jobsheet

import (
	"strings"

	"go.yaml.in/yaml/v3"

	"hourseal/record"
	"hourseal/record/quantity"
)

var (
	fluidForm = form{
		{"system", "a system of the machine, as engine-oil", required},
		{"level_before", "{ reading: 0.3, after: 20 min, at: 18 C }, or not measured", optional},
		{"drained", amountWanted, optional},
		{"drained_includes_filter", "true or false", optional},
		{"seen", seenWanted, optional},
		{"filled", amountWanted, optional},
		{"drawn_down", amountWanted, optional},
		{"product", "the product's name, as Harrow HD", optional},
		{"batch", "the batch on the container, as H-0612", optional},
		{"viscosity", "the grade, as 15W-40", optional},
		{"meets", "the specifications on the container, as [API CK-4]", optional},
		{"glycol", "what the coolant filled is made with, ethylene or propylene", optional},
		{"level", "{ reading: 0.85, after: 15 min, at: 45 C }, or not measured", optional},
	}
	seenForm = append(form{
		{"what", "what was seen, of water, metal, fuel, as [water, metal]", required},
	}, answerForm...)
	levelForm = form{
		{"reading", "the level, 0 for the lower mark and 1 for the upper, as 0.85", required},
		{"after", "minutes since the engine was stopped, as 15 min", optional},
		{"at", "the oil's temperature, as 45 C", optional},
	}
	topUpForm = form{
		{"system", "a system of the machine, as engine-oil", required},
		{"amount", amountWanted, required},
	}
	wasteForm = form{
		{"system", "a system of the machine, as engine-oil", required},
		{"amount", amountWanted, required},
		{"to", "who took it, as harbour oil bank", optional},
		{"receipt", `the receipt's number, as "5521"`, optional},
		{"held", "where it is kept until a receiver takes it, as waste oil tank 2", optional},
	}
)

func fluidOf(f fields) record.Fluid {
	saw, answer := seen(f)
	return record.Fluid{
		System:      one(f, "system", id),
		LevelBefore: level(f, "level_before"),
		Drained:     measured(f, "drained"),
		WithFilter:  maybe(f, "drained_includes_filter", yesNo),
		Saw:         saw,
		Answer:      answer,
		Filled:      measured(f, "filled"),
		DrawnDown:   measured(f, "drawn_down"),
		Level:       level(f, "level"),
		Product:     one(f, "product", text),
		Batch:       one(f, "batch", text),
		Viscosity:   one(f, "viscosity", text),
		Meets:       several(f, "meets", record.MaxMeets, text),
		Glycol:      one(f, "glycol", enum[record.Glycol](record.GlycolWords)),
	}
}

// level reads a dipstick level; nil where it is left out.
func level(f fields, name string) *record.Level {
	e, there := f.values[name]
	if !there {
		return nil
	}
	if e.node.Kind == yaml.ScalarNode && strings.EqualFold(e.node.Value, notMeasured) {
		return &record.Level{}
	}
	g := e.fields(levelForm)
	return &record.Level{
		Reading: maybe(g, "reading", quantity.ParseRatio),
		After:   maybe(g, "after", quantity.ParseMinutes),
		At:      maybe(g, "at", oilTemperature),
	}
}

func topUp(f fields) record.TopUp {
	return record.TopUp{System: one(f, "system", id), Amount: amount(f, "amount")}
}

func waste(f fields) record.Waste {
	w := record.Waste{System: one(f, "system", id), Amount: amount(f, "amount"),
		To: one(f, "to", text), Receipt: one(f, "receipt", text), Held: one(f, "held", text)}
	switch {
	case w.Held == "":
	case w.To != "":
		f.values["held"].fail("beside to: keep one of the two, as what is held was taken by nobody yet")
	case w.Receipt != "":
		f.values["held"].fail("beside receipt: keep one of the two, as what is held was taken by nobody yet")
	}
	return w
}
