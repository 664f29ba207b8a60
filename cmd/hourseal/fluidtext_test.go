package main

import (
	"encoding/json"
	"strings"
	"testing"

	"hourseal/record/jobsheet"
	"hourseal/record/recordtest"
)

// The JSON of a fluid: litres, shares and rates as numbers, each with its standard
// uncertainty, null for what does not follow.
func TestFluidJSON(t *testing.T) {
	r := recordtest.Accounted()
	asJSON := func(value any) string {
		text, err := json.Marshal(value)
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	oil := asJSON(fluidOf(r.Fluids[0], jobsheet.System{Density: 880}))
	for _, want := range []string{
		`"drained_l15":8.742,"filled_l15":9.093,"expected_level":0.868,"carried_over_l":0.412,"consumed_l":1.440,"consumed_l_per_100h":0.711`,
		`"uncertainty":{"drained_l15":0.274,"filled_l15":0.105,"expected_level":0.204,"carried_over_l":0.389,"consumed_l":0.251,"consumed_l_per_100h":0.124}`,
		`"seen":["water","metal"]`, `{"hours":407.90,"l_per_100h":-0.038,"uncertainty":0.130}`,
		`"consumed_of_fuel_percent":0.0778,"consumed_g_per_kwh":0.188`,
	} {
		if !strings.Contains(oil, want) {
			t.Errorf("no %s in\n%s", want, oil)
		}
	}
	coolant := asJSON(fluidOf(r.Fluids[1], jobsheet.System{Glycol: "ethylene"}))
	const want = `{"system":"coolant","drained_l":10.500,"filled_l":10.800,"level":null,` +
		`"drained_l15":null,"filled_l15":null,"expected_level":null,"carried_over_l":null,"consumed_l":null,"consumed_l_per_100h":null,` +
		`"uncertainty":{"drained_l15":null,"filled_l15":null,"expected_level":null,"carried_over_l":null,"consumed_l":null,"consumed_l_per_100h":null},` +
		`"density_kg_m3":1060,"density_assumed":true,"seen":["nothing"],"trend":[],"consumed_of_fuel_percent":null,"consumed_g_per_kwh":null}`
	if coolant != want {
		t.Errorf("coolant:\n got %s\nwant %s", coolant, want)
	}
	finding := asJSON(findingOf(r.Findings[len(r.Findings)-1]))
	if !strings.Contains(finding, `"value":62.5,"limit":60.0,"uncertainty":1.5,"unit":"%"`) {
		t.Errorf("finding: %s", finding)
	}
}
