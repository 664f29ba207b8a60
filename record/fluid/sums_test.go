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
