package fluid

import (
	"math"
	"testing"

	"hourseal/record/quantity"
)

// looks are visits at 15 degC, each 100 h after the last and after an oil change to
// the upper mark, that top up to it again from the levels given.
func looks(levels ...quantity.Ratio) []Visit {
	visits := []Visit{{Hours: 10_000, After: read(1000, 150)}}
	for i, l := range levels {
		v := Visit{Hours: quantity.Hours(10_000 * (i + 2)), Before: read(l, 150), After: read(max(l, 1000), 150)}
		if l < 1000 {
			litres := quantity.Portion{Amount: int64(1000-l) * 16 / 10, Unit: quantity.UnitMillilitre, At: new(quantity.Temperature(150))}
			v.Filled = &quantity.Measured{Portions: []quantity.Portion{litres}}
		}
		visits = append(visits, v)
	}
	return visits
}

// TestRisen: 0.1 of the 1.6 L span is 0.16 L in 100 h. Two levels are uncertain by
// the reading of each, 0.08 of the span, and 3 K each of 10 L: 0.183 L.
func TestRisen(t *testing.T) {
	for _, c := range []struct {
		what   string
		levels []quantity.Ratio // each after a fill to the upper mark
		want   []Kind
	}{
		{"steady", []quantity.Ratio{900, 900, 900, 900}, nil},
		{"two points are no trend", []quantity.Ratio{900, 300}, nil},
		{"risen by 0.96 L: 4.5 uncertainties of 0.183 with a half for the mean", []quantity.Ratio{900, 900, 300}, []Kind{OilUseRisen}},
		{"risen by 0.48 L: 2.1 of them", []quantity.Ratio{900, 900, 600}, nil},
		{"risen by 0.96 L, of uses that scatter as much", []quantity.Ratio{1000, 400, 1000, 100}, nil},
		{"more than the span, by 2.7 uncertainties", []quantity.Ratio{-400}, []Kind{OilUseHeavy}},
		{"more than the span, and not by so much", []quantity.Ratio{-100}, nil},
		{"risen, and heavy", []quantity.Ratio{900, 900, -400}, []Kind{OilUseRisen, OilUseHeavy}},
		{"gained 0.8 L", []quantity.Ratio{1500}, []Kind{OilGained}},
		{"gained 0.4 L", []quantity.Ratio{1250}, nil},
	} {
		wantKinds(t, c.what, AccountOf(gannet, TradeDoubt, looks(c.levels...)), c.want...)
	}
	a := AccountOf(gannet, TradeDoubt, looks(900, 900, 300))
	if r := a.Remarks[0]; r.Value != 1120 || r.Limit != 160 || r.Count != 2 || math.Abs(float64(r.Within)-0.183*math.Sqrt(1.5)*1000) > 2 {
		t.Errorf("%+v", r)
	}
	if len(a.Trend) != 3 || a.Trend[2].Hours != 40_000 || a.Trend[2].Per100.Volume != 1120 || a.Trend[0].Per100.Volume != 160 {
		t.Errorf("trend %+v", a.Trend)
	}
	short := []Visit{{Hours: 10_000, After: read(1000, 150)}, {Hours: 11_999, Before: read(500, 150)}}
	if a := AccountOf(gannet, TradeDoubt, short); a.Used == nil || a.Used.Volume != 800 || a.Trend != nil || len(a.Remarks) != 0 {
		t.Errorf("over 19.99 h: %+v", a)
	}
	many := make([]quantity.Ratio, 20)
	for i := range many {
		many[i] = 900
	}
	if a := AccountOf(gannet, TradeDoubt, looks(many...)); len(a.Trend) != mostUses || a.Trend[mostUses-1].Hours != 21*10_000 {
		t.Errorf("%d points", len(a.Trend))
	}
}

// TestPerFuel: the worked example is 0.88 kg/L, 0.5 L in 100 h at 30 kW and 0.4
// load: 440 g in 1200 kWh, 0.367 g/kWh. The fuel that gives 1200 kWh at 230 g each
// is 276 kg, 328.6 L of 840 kg/m3; 0.5 L is 1522 in a million of it.
func TestPerFuel(t *testing.T) {
	if got := PerWork(500, 880, 30*quantity.Kilowatt, 400, 10_000); got != 367 {
		t.Errorf("%d mg/kWh", got)
	}
	for _, c := range []struct {
		used  quantity.Volume
		oil   quantity.Density
		burnt string
		rated quantity.Power
		fuel  Fuel
		ppm   int64
		mg    int64
	}{
		{500, 880, "328.57 L", 30 * quantity.Kilowatt, Diesel, 1522, 367},
		{500, 0, "276 kg", 30 * quantity.Kilowatt, Diesel, 1522, 367},  // 880 assumed; weighed
		{500, 880, "72.3 imp gal", 0, Diesel, 1521, 367},               // 328.68 L; the power is not known
		{500, 880, "3000 L", 30 * quantity.Kilowatt, Diesel, 167, 0},   // 110 kW: no such engine
		{250, 900, "100 L", 30 * quantity.Kilowatt, Petrol, 2500, 966}, // 232.8 kWh
		{0, 880, "100 L", 30 * quantity.Kilowatt, Diesel, 0, 0},
		{-300, 880, "100 L", 30 * quantity.Kilowatt, Diesel, 0, 0},
		{500, 880, "0 L", 30 * quantity.Kilowatt, Diesel, 0, 0},
	} {
		ppm, mg := c.fuel.PerFuel(c.used, c.oil, measured(t, c.burnt), c.rated, 10_000)
		if ppm != c.ppm || mg != c.mg {
			t.Errorf("%v of %s: %d in a million, %d mg/kWh; want %d, %d", c.used, c.burnt, ppm, mg, c.ppm, c.mg)
		}
	}
	for _, nothing := range []int64{PerWork(500, 880, 0, 400, 10_000), PerWork(500, 880, 30_000, 400, 0)} {
		if nothing != 0 {
			t.Error("oil used in no work")
		}
	}
}
