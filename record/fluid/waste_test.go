package fluid

import (
	"testing"

	"hourseal/record/quantity"
)

// TestWaste: 2.4 US gal at 68 degC are 9.09 L hot and 8.74 cold, with the filter's
// 0.6 at most 9.69. Drain and waste are each uncertain by 3 %, 0.27 L: 2.7 times
// both together is 1.0 L.
func TestWaste(t *testing.T) {
	v := exampleVisit(t)
	for _, c := range []struct {
		waste []string
		want  Kind
	}{
		{[]string{"8.8 L"}, 0},
		{[]string{"8.7 L"}, 0},
		{[]string{"9.7 L"}, 0},        // and the filter's
		{[]string{"5 L", "3.8 L"}, 0}, // two receivers
		{[]string{"10.5 L"}, 0},       // 0.8 too much
		{[]string{"10.9 L"}, WasteOffDrained},
		{[]string{"8.0 L"}, 0},
		{[]string{"7.5 L"}, WasteOffDrained},
		{[]string{"7.7 kg"}, 0},
		{[]string{"94 L"}, WasteOffDrained},
		{nil, WasteUnaccounted},
	} {
		var waste []quantity.Measured
		for _, text := range c.waste {
			waste = append(waste, measured(t, text))
		}
		var got Kind
		if r := WasteRemark(gannet, TradeDoubt, v, waste); r != nil {
			got = r.Kind
		}
		if got != c.want {
			t.Errorf("%v: %v, want %v", c.waste, got, c.want)
		}
	}
	if r := WasteRemark(gannet, TradeDoubt, v, []quantity.Measured{{NotMeasured: true}}); r != nil {
		t.Errorf("not measured: %+v", r)
	}
	v.DrawnDown = amountIn(t, "1 L at 40 C")
	if r := WasteRemark(gannet, TradeDoubt, v, []quantity.Measured{measured(t, "10.9 L")}); r != nil {
		t.Errorf("and 1 L drawn down: %+v", r)
	}
	v.Drained = &quantity.Measured{NotMeasured: true}
	if r := WasteRemark(gannet, TradeDoubt, v, []quantity.Measured{measured(t, "1 L")}); r != nil {
		t.Errorf("nothing measured to hold it to: %+v", r)
	}
	if r := WasteRemark(gannet, TradeDoubt, Visit{}, nil); r != nil {
		t.Errorf("nothing drained: %+v", r)
	}
	// Drained in the cold, -10 degC: 8.86 L then, and as much as 9.02 at 15.
	v = Visit{Drained: amountIn(t, "8.86 L at -10 C")}
	if r := WasteRemark(gannet, TradeDoubt, v, []quantity.Measured{measured(t, "9.9 L")}); r != nil {
		t.Errorf("%+v", r)
	}
}
