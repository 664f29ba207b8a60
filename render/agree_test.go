package render_test

import (
	"testing"

	"hourseal/record/fluid"
	"hourseal/render"
)

// The report may not import the sums behind a record; what it says of them has to
// be what they take.
func TestReportSaysWhatTheCheckTakes(t *testing.T) {
	if render.BeyondChance != fluid.Factor*10 {
		t.Errorf("%d tenths of an uncertainty, the check has %v", render.BeyondChance, fluid.Factor)
	}
	if render.DieselBurns != fluid.Diesel.GramsPerKWh || render.PetrolBurns != fluid.Petrol.GramsPerKWh {
		t.Errorf("%d and %d g a kWh, the check has %d and %d", render.DieselBurns, render.PetrolBurns, fluid.Diesel.GramsPerKWh, fluid.Petrol.GramsPerKWh)
	}
	if render.AssumedDensity != fluid.AssumedDensity {
		t.Errorf("%v assumed, the check has %v", render.AssumedDensity, fluid.AssumedDensity)
	}
}
