package fluid

import (
	"testing"

	"hourseal/record/quantity"
)

// TestFactor5: published values of Table 54D at 880 kg/m3 (see TestFactor).
func TestFactor5(t *testing.T) {
	for at, want := range map[quantity.Temperature]string{0: "1.01067", 150: "1.00000", 250: "0.99285", 600: "0.96761", 800: "0.95305", 1000: "0.93840"} {
		if got, err := Factor5(at, 0); err != nil || got.String() != want {
			t.Errorf("at %v: %v, want %s (%v)", at, got, want, err)
		}
	}
	if got, err := Factor5(1501, 880); err == nil {
		t.Errorf("150.1 degC: %v", got)
	}
}

// TestWarmed: from one temperature to another is the quotient of their factors; 10 L
// at 80 degC are 10 x 0.95305/0.96761 at 60.
func TestWarmed(t *testing.T) {
	for _, c := range []struct {
		v        quantity.Volume
		from, to quantity.Temperature
		want     quantity.Volume
	}{
		{10_000, 800, 150, 9530}, {10_000, 800, 600, 9850}, {9530, 150, 800, 10_000}, {5000, 300, 300, 5000},
	} {
		if got, err := Warmed(c.v, c.from, c.to, 880); err != nil || got != c.want {
			t.Errorf("%v from %v to %v: %v, want %v (%v)", c.v, c.from, c.to, got, c.want, err)
		}
	}
	for _, bad := range [][2]quantity.Temperature{{1501, 150}, {150, -201}} {
		if got, err := Warmed(1000, bad[0], bad[1], 880); err == nil {
			t.Errorf("from %v to %v: %v", bad[0], bad[1], got)
		}
	}
}

func TestToUpper(t *testing.T) {
	for level, want := range map[quantity.Ratio]quantity.Volume{850: 240, 0: 1600, 1000: 0, 1200: 0, -100: 1760} {
		if got := ToUpper(gannet, level); got != want {
			t.Errorf("from %v: %v, want %v", level, got, want)
		}
	}
}

// TestCoolantFreezing: 40 % of ethylene glycol by volume are 42.65 by mass, and
// freeze between the published -23.81 (40 % by mass) and -35.99 degC (50 %).
func TestCoolantFreezing(t *testing.T) {
	freezing, mass, err := CoolantFreezing(Ethylene, 400)
	if err != nil || mass != 430 || freezing != -270 {
		t.Errorf("%v, %v, %v", freezing, mass, err)
	}
	for _, beyond := range []quantity.Ratio{600, 1000, -1} {
		if freezing, _, err := CoolantFreezing(Ethylene, beyond); err == nil {
			t.Errorf("%v: %v", beyond, freezing)
		}
	}
}

// TestExpansion: 0.6278/880 and 0.6278/875, by hand.
func TestExpansion(t *testing.T) {
	for d, want := range map[quantity.Density]string{0: "0.0007134", 880: "0.0007134", 875: "0.0007175"} {
		if got := Expansion(d).String(); got != want {
			t.Errorf("%v: %s, want %s", d, got, want)
		}
	}
}

// TestMassOf: 10 L at 80 degC are 9.530 at 15, to 1 mL, of which a litre weighs 0.88
// kg: 8.386 kg. What is beyond the table is refused, and the density counts for nothing where
// nothing is corrected.
func TestMassOf(t *testing.T) {
	for text, want := range map[string]quantity.Mass{
		"10 L at 80 C": 8386, "10 L": 8800, "7.7 kg": 7700, "1 lb": 454, "not measured": 0,
	} {
		m, err := quantity.ParseMeasured(text)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := MassOf(m, 880); err != nil || got != want {
			t.Errorf("%s: %v, want %v (%v)", text, got, want, err)
		}
	}
	at := 80 * quantity.Degree
	two := quantity.Measured{Portions: []quantity.Portion{{Unit: quantity.UnitLitre, Amount: 10_000, At: &at}, {Unit: quantity.UnitKilogram, Amount: 1000}}}
	if got, err := MassOf(two, 880); err != nil || got != 9386 {
		t.Errorf("10 L at 80 degC and 1 kg: %v (%v)", got, err)
	}
	at = 200 * quantity.Degree
	if got, err := MassOf(quantity.Measured{Portions: []quantity.Portion{{Unit: quantity.UnitLitre, Amount: 1000, At: &at}}}, 880); err == nil {
		t.Errorf("at 200 degC: %v", got)
	}
	petrol := quantity.Measured{Portions: []quantity.Portion{{Unit: quantity.UnitLitre, Amount: 10_000}}}
	if got, err := MassOf(petrol, 740); err != nil || got != 7400 {
		t.Errorf("petrol: %v, %v", got, err)
	}
}

func TestOverUpper(t *testing.T) {
	for level, want := range map[quantity.Ratio]quantity.Volume{850: 0, 1000: 0, 1200: 320, 4300: 5280} {
		if got := OverUpper(gannet, level); got != want {
			t.Errorf("at %v: %v, want %v", level, got, want)
		}
	}
}

// TestStrengthFor: whatever is asked for, the strength protects to it, and one per
// cent less does not.
func TestStrengthFor(t *testing.T) {
	for _, g := range []Glycol{Ethylene, Propylene} {
		for protect := quantity.Temperature(-10); protect > -450; protect-- {
			share, err := StrengthFor(g, protect)
			if err != nil {
				t.Fatal(g, protect, err)
			}
			if freezing, ok := g.freezesAtVolume(of(share)); !ok || freezing > inDegC(protect) {
				t.Errorf("%v for %v: %v freezes at %v", g, protect, share, freezing)
			}
			if freezing, ok := g.freezesAtVolume(of(share - 10)); !ok || freezing <= inDegC(protect) {
				t.Errorf("%v for %v: %v would do, too", g, protect, share-10)
			}
		}
	}
	for _, bad := range []quantity.Temperature{0, 50, -900} {
		if share, err := StrengthFor(Ethylene, bad); err == nil {
			t.Errorf("%v: %v", bad, share)
		}
	}
}

// TestRefillByJug: in tenths of a litre, and never weaker than the target where that
// can be reached. 10 L at 30 %: 3 L of neat glycol make 51 %; a balance of the glycol.
func TestRefillByJug(t *testing.T) {
	for _, c := range []struct {
		holds              quantity.Volume
		now, target, added quantity.Ratio
		drain              quantity.Volume
		strength           quantity.Ratio
	}{
		{10_000, 300, 510, 1000, 3000, 510},
		{10_000, 300, 360, 500, 3000, 360},
		{11_500, 300, 400, 1000, 1700, 403},
		{11_500, 650, 500, 0, 2600, 503},
		{2000, 500, 490, 0, 0, 500},
		{950, 300, 1000, 1000, 950, 1000},
		{950, 300, 0, 0, 950, 0},
		{10_000, 400, 400, 1000, 0, 400},
	} {
		got, err := RefillByJug(c.holds, c.now, c.target, c.added)
		if want := (Refill{c.drain, c.drain, c.strength}); err != nil || got != want {
			t.Errorf("%+v: %+v (%v)", c, got, err)
		}
	}
	for holds := quantity.Volume(900); holds < 20_000; holds += 730 {
		for now := quantity.Ratio(0); now <= 1000; now += 90 {
			for target := quantity.Ratio(0); target <= 1000; target += 70 {
				added := quantity.One
				if target < now {
					added = 0
				}
				r, err := RefillByJug(holds, now, target, added)
				if err != nil || r.Strength < target || r.Drain > holds || r.Drain%100 != 0 && r.Drain != holds {
					t.Errorf("%v, %v to %v: %+v (%v)", holds, now, target, r, err)
				}
			}
		}
	}
}

// TestStrengthen pours the advice: what is left of the coolant that was read, exactly
// as the curve has it, and the neat glycol protect as asked, and with a litre in ten
// less they do not.
func TestStrengthen(t *testing.T) {
	for _, g := range bothGlycols {
		for protect := -20 * quantity.Degree; protect >= -45*quantity.Degree; protect -= quantity.Degree {
			for reads := -quantity.Degree; reads > protect; reads -= 7 {
				for _, holds := range []quantity.Volume{8000, 11_500} {
					mass, err := glycols[g].massAt(reads)
					if err != nil {
						t.Fatal(err)
					}
					poured := func(drain quantity.Volume) float64 {
						left := float64(holds-drain) / float64(holds)
						degC, ok := g.freezesAtVolume(left*glycols[g].volumeOf(mass) + 1 - left)
						if !ok {
							t.Fatal("beyond the curve")
						}
						return degC
					}
					r, err := Strengthen(g, holds, reads, protect)
					if err != nil || r.Add != r.Drain || poured(r.Drain) > inDegC(protect)+1e-9 {
						t.Errorf("%v %v from %v to %v: %+v freezes at %.2f (%v)", g, holds, reads, protect, r, poured(r.Drain), err)
					}
					if less := r.Drain - holds/10; less >= 0 && poured(less) <= inDegC(protect) {
						t.Errorf("%v %v from %v to %v: %+v, and %v would do, too", g, holds, reads, protect, r, less)
					}
				}
			}
		}
	}
	for _, bad := range []struct{ reads, protect quantity.Temperature }{{0, -250}, {-100, 0}, {-900, -250}, {-100, -900}} {
		if r, err := Strengthen(Ethylene, 10_000, bad.reads, bad.protect); err == nil {
			t.Errorf("%+v: %+v", bad, r)
		}
	}
	if r, err := Strengthen(0, 10_000, -100, -250); err == nil {
		t.Errorf("no glycol: %+v", r)
	}
}
