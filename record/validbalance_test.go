package record_test

import (
	"testing"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/recordtest"
)

// oil changes the example's engine oil.
func oil(change func(*record.Fluid)) func(*record.Record) {
	return func(r *record.Record) { change(&r.Fluids[0]) }
}

func TestValidateSeen(t *testing.T) {
	type f = *record.Fluid
	saw := func(answer *record.Answer, sights ...record.Sight) func(*record.Record) {
		return oil(func(f f) { f.Saw, f.Answer = sights, answer })
	}
	why := &record.Answer{Why: "head gasket"}
	tryRefusals(t, []refusal{
		{"nothing", saw(nil, record.SawNothing), ""},
		{"water", saw(why, record.SawWater), ""},
		{"water without an answer", saw(nil, record.SawWater), ""},
		{"all three", saw(why, record.SawFuel, record.SawMetal, record.SawWater), ""},
		{"sight 0", saw(nil, 0), "fluid 1: seen: unknown value 0"},
		{"sight 5", saw(nil, 5), "fluid 1: seen: unknown value 5"},
		{"sight of 16 bits", saw(nil, 1<<8+1), "fluid 1: seen: unknown value 257"},
		{"twice", saw(why, record.SawMetal, record.SawMetal), "fluid 1: seen: the same twice"},
		{"nothing twice", saw(nil, record.SawNothing, record.SawNothing), "fluid 1: seen: the same twice"},
		{"nothing and metal", saw(nil, record.SawNothing, record.SawMetal), "fluid 1: seen: nothing stands alone"},
		{"metal and nothing", saw(nil, record.SawMetal, record.SawNothing), "fluid 1: seen: nothing stands alone"},
		{"answer to nothing", saw(why, record.SawNothing), "fluid 1: answer: to nothing that was seen"},
		{"answer alone", saw(why), "fluid 1: answer: to nothing that was seen"},
		{"answer of nothing", saw(&record.Answer{}, record.SawWater), "fluid 1: answer: is empty"},
		{"long why", saw(&record.Answer{Why: text201}, record.SawWater), "fluid 1: why: " + longReason},
		{"advice 4", saw(&record.Answer{Advice: 4}, record.SawWater), "fluid 1: advice: unknown value 4"},
		{"glycol", oil(func(f f) { f.Glycol = record.Propylene }), ""},
		{"glycol 3", oil(func(f f) { f.Glycol = 3 }), "fluid 1: glycol: unknown value 3"},
		{"drawn down nothing", oil(func(f f) { f.DrawnDown = &quantity.Measured{} }), `fluid 1: drawn down: nothing measured: write an amount, as 9.4 L, or "not measured"`},
		{"drawn down, not measured", oil(func(f f) { f.DrawnDown = &quantity.Measured{NotMeasured: true} }), ""},
	})
}

func TestValidateBalance(t *testing.T) {
	type b = *record.Balance
	// balance changes one that has it all.
	balance := func(change func(b)) func(*record.Record) {
		return oil(func(f *record.Fluid) {
			f.Balance = recordtest.Accounted().Fluids[0].Balance
			change(f.Balance)
		})
	}
	only := func(b record.Balance) func(*record.Record) { return oil(func(f *record.Fluid) { f.Balance = &b }) }
	const (
		outside  = " is outside -100000000 to 100000000"
		hours    = "fluid 1: balance used over: hours stand where there is oil used, and only there"
		method   = "fluid 1: balance used by: a method stands where there is oil used, and only there"
		noOil    = "without oil used"
		from0    = " is outside 0 to 100000000"
		mostGone = -quantity.MaxVolume
	)
	tryRefusals(t, []refusal{
		{"all", balance(func(b) {}), ""},
		{"empty", only(record.Balance{}), "fluid 1: balance: is empty"},
		{"only drained", only(record.Balance{Drained: &record.Estimate{Volume: 9000, Within: 270}}), ""},
		{"only a trend", only(record.Balance{Trend: []record.Use{{Hours: 1}}}), ""},
		{"drained at the limit", balance(func(b b) { b.Drained.Volume = mostGone }), ""},
		{"drained", balance(func(b b) { b.Drained.Volume = mostGone - 1 }), "fluid 1: balance drained: -100000001" + outside},
		{"filled", balance(func(b b) { b.Filled.Volume = quantity.MaxVolume + 1 }), "fluid 1: balance filled: 100000001" + outside},
		{"carried over", balance(func(b b) { b.Carried.Volume = mostGone - 1 }), "fluid 1: balance carried over: -100000001" + outside},
		{"used", balance(func(b b) { b.Used.Volume = quantity.MaxVolume + 1 }), "fluid 1: balance used: 100000001" + outside},
		{"uncertainty below 0", balance(func(b b) { b.Used.Within = -1 }), "fluid 1: balance used uncertainty: -1" + from0},
		{"uncertainty beyond", balance(func(b b) { b.Drained.Within = quantity.MaxVolume + 1 }), "fluid 1: balance drained uncertainty: 100000001" + from0},
		{"certain", balance(func(b b) { b.Drained.Within = 0 }), ""},
		{"level", balance(func(b b) { b.Level.Reading = quantity.MinRatio - 1 }), "fluid 1: balance level: -1000001 is outside -1000000 to 1000000"},
		{"level below the mark", balance(func(b b) { b.Level.Reading = -50 }), ""},
		{"level uncertainty", balance(func(b b) { b.Level.Within = -1 }), "fluid 1: balance level uncertainty: -1 is outside 0 to 1000000"},
		{"over no hours", balance(func(b b) { b.Over = 0 }), hours},
		{"over hours below 0", balance(func(b b) { b.Over = -1 }), "fluid 1: balance used over: -1" + from0},
		{"over too many hours", balance(func(b b) { b.Over = quantity.MaxHours + 1 }), "fluid 1: balance used over: 100000001" + from0},
		{"hours and nothing used", only(record.Balance{Drained: &record.Estimate{}, Over: 1}), hours},
		{"no method", balance(func(b b) { b.By = 0 }), method},
		{"method 3", balance(func(b b) { b.By = 3 }), "fluid 1: balance used by: unknown value 3"},
		{"method and nothing used", only(record.Balance{Drained: &record.Estimate{}, By: record.ByVolumes}), method},
		{"gained", balance(func(b b) { b.Used.Volume, b.OfFuelPPM, b.PerEnergyMgKWh = -300, 0, 0 }), ""},
		{"gained, of the fuel", balance(func(b b) { b.Used.Volume, b.PerEnergyMgKWh = -300, 0 }), "fluid 1: balance used of fuel: " + noOil},
		{"none used, per kWh", balance(func(b b) { b.Used.Volume, b.OfFuelPPM = 0, 0 }), "fluid 1: balance used per kWh: " + noOil},
		{"of fuel alone", only(record.Balance{Drained: &record.Estimate{}, OfFuelPPM: 1}), "fluid 1: balance used of fuel: " + noOil},
		{"of fuel below 0", balance(func(b b) { b.OfFuelPPM = -1 }), "fluid 1: balance used of fuel: -1 is outside 0 to 1000000000"},
		{"per kWh beyond", balance(func(b b) { b.PerEnergyMgKWh = 1_000_000_001 }), "fluid 1: balance used per kWh: 1000000001 is outside 0 to 1000000000"},
		{"neither of fuel nor per kWh", balance(func(b b) { b.OfFuelPPM, b.PerEnergyMgKWh = 0, 0 }), ""},
		{"trend of twelve", balance(func(b b) { b.Trend = make([]record.Use, 12) }), ""},
		{"trend of thirteen", balance(func(b b) { b.Trend = make([]record.Use, 13) }), "fluid 1: trend: 13 entries, at most 12 fit"},
		{"trend out of order", balance(func(b b) { b.Trend[0], b.Trend[1] = b.Trend[1], b.Trend[0] }), "fluid 1: trend 2: hours: fewer than before"},
		{"trend at the same hours", balance(func(b b) { b.Trend[1].Hours = b.Trend[0].Hours }), ""},
		{"trend's hours", balance(func(b b) { b.Trend[0].Hours = -1 }), "fluid 1: trend 1: hours: -1" + from0},
		{"trend's use", balance(func(b b) { b.Trend[0].Per100 = mostGone - 1 }), "fluid 1: trend 1: in 100 h: -100000001" + outside},
		{"trend's uncertainty", balance(func(b b) { b.Trend[2].Within = -1 }), "fluid 1: trend 3: in 100 h uncertainty: -1" + from0},
	})
}

// TestPer100: the last of the trend is this job's.
func TestPer100(t *testing.T) {
	b := recordtest.Accounted().Fluids[0].Balance
	if got, want := b.Per100(), (record.Estimate{Volume: 711, Within: 124}); got == nil || *got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
	for _, b := range []*record.Balance{nil, {}, {Used: &record.Estimate{Volume: 1}, Over: 100}} {
		if got := b.Per100(); got != nil {
			t.Errorf("%+v: %+v", b, got)
		}
	}
}
