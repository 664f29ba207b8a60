package fluid

import (
	"testing"

	"hourseal/record/quantity"
)

// TestArmyTable: the rows as printed, TM 9-6115-464-12 / NAVFAC P-8-624-12, Table 2-1.
func TestArmyTable(t *testing.T) {
	printed := []struct {
		byVolume quantity.Ratio
		degF     string
	}{{250, "10 F"}, {406, "-10 F"}, {500, "-30 F"}, {531, "-40 F"}}
	table := ArmyTable()
	if len(table) != len(printed) {
		t.Fatalf("%d rows, want %d", len(table), len(printed))
	}
	for i, row := range printed {
		at, err := quantity.ParseTemperature(row.degF)
		if err != nil {
			t.Fatal(err)
		}
		if table[i].ByVolume != row.byVolume || table[i].Freezing != at {
			t.Errorf("row %d: %v, %v, want %v, %v", i+1, table[i].ByVolume, table[i].Freezing, row.byVolume, at)
		}
	}
}

// TestArmyFreezingPoint: the rows, and between them worked out by hand in degF.
func TestArmyFreezingPoint(t *testing.T) {
	for _, c := range []struct {
		byVolume quantity.Ratio
		want     quantity.Temperature
	}{
		{250, -120}, // +10 degF, -12.2 degC
		{406, -230}, // -10 degF, -23.3
		{500, -340}, // -30 degF, -34.4
		{531, -400}, // -40 degF
		{280, -140}, // 10 - 20 x 3/15.6 = 6.15 degF, -14.36
		{328, -180}, // half way: 0 degF, -17.78
		{450, -290}, // -10 - 20 x 4.4/9.4 = -19.36 degF, -28.53
		{480, -320}, // -10 - 20 x 7.4/9.4 = -25.74 degF, -32.08
		{520, -380}, // -30 - 10 x 2/3.1 = -36.45 degF, -38.03
	} {
		if got, ok := ArmyFreezingPoint(c.byVolume); !ok || got != c.want {
			t.Errorf("%v by volume: %v, want %v", c.byVolume.Percent(), got, c.want)
		}
	}
	for _, outside := range []quantity.Ratio{-1, 0, 249, 532, 1000} {
		if got, ok := ArmyFreezingPoint(outside); ok {
			t.Errorf("%v by volume: %v, outside the table", outside.Percent(), got)
		}
	}
}

// TestCurveProtectsAtLeastAsTheTable: pure ethylene glycol freezes later than the
// table lets inhibited glycol be trusted for, by as much as is found here in kelvin:
// the table has a margin, least where it is weakest.
func TestCurveProtectsAtLeastAsTheTable(t *testing.T) {
	found := map[quantity.Ratio]float64{250: 0.2, 406: 4.1, 500: 5.4, 531: 4.5}
	for _, row := range ArmyTable() {
		curve, ok := Ethylene.freezesAtVolume(of(row.ByVolume))
		if margin := inDegC(row.Freezing) - curve; !ok || !near(margin, found[row.ByVolume], 0.1) {
			t.Errorf("%v by volume: %.2f degC on the curve, %v in the table: %.2f K, found before %v", row.ByVolume.Percent(), curve, row.Freezing, margin, found[row.ByVolume])
		}
	}
	last := quantity.Temperature(0)
	for share := quantity.Ratio(250); share <= 531; share++ {
		table, ok := ArmyFreezingPoint(share)
		mass, err := MassShare(Ethylene, share)
		if !ok || err != nil {
			t.Fatal(ok, err)
		}
		curve, err := FreezingPoint(Ethylene, mass)
		if err != nil || curve > table || table-curve > 60 {
			t.Errorf("%v by volume: %v on the curve, %v in the table (%v)", share.Percent(), curve, table, err)
		}
		if table > last {
			t.Errorf("%v by volume: %v, warmer than a weaker one", share.Percent(), table)
		}
		last = table
	}
}
