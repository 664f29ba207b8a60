package quantity

import (
	"math"
	"testing"
)

func portions(t *testing.T, texts ...string) []Portion {
	t.Helper()
	var all []Portion
	for _, s := range texts {
		p, err := ParsePortion(s)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, p)
	}
	return all
}

func TestSums(t *testing.T) {
	for _, c := range []struct {
		texts   []string
		printed string
		volume  Volume
		mass    Mass
	}{
		{[]string{"5 L at 16 C", "4.3 L at 16 C"}, "5 L at 16 C + 4.3 L at 16 C", 9300, -1},
		{[]string{"2.4 US gal", "450 mL"}, "2.4 US gal + 450 mL", 9535, -1},
		{[]string{"7.7 kg", "300 g"}, "7.7 kg + 300 g", -1, 8000},
		{[]string{"5 L", "1 kg"}, "5 L + 1 kg", -1, -1},
		{[]string{"1 L", "1 L", "1 L", "1 L", "1 L", "1 L", "1 L", "1 L"}, "1 L + 1 L + 1 L + 1 L + 1 L + 1 L + 1 L + 1 L", 8000, -1},
	} {
		m, err := SumOf(portions(t, c.texts...)...)
		if err != nil {
			t.Errorf("%v: %v", c.texts, err)
			continue
		}
		v, isVolume := m.TotalVolume()
		g, isMass := m.TotalMass()
		if isVolume != (c.volume >= 0) || isVolume && v != c.volume || isMass != (c.mass >= 0) || isMass && g != c.mass {
			t.Errorf("%v: %v %v, %v %v", c.texts, v, isVolume, g, isMass)
		}
		if m.String() != c.printed {
			t.Errorf("%v prints as %s", c.texts, m)
		}
	}
}

func TestSumCopies(t *testing.T) {
	list := portions(t, "5 L")
	m, err := SumOf(list...)
	if err != nil {
		t.Fatal(err)
	}
	list[0].Amount = 1000
	if m.String() != "5 L" {
		t.Errorf("the sum changed with the caller's list: %v", m)
	}
}

func TestMeasuredValidRefuses(t *testing.T) {
	litre := Portion{Amount: 1000, Unit: UnitLitre}
	for _, c := range []struct {
		m    Measured
		want string
	}{
		{Measured{}, `nothing measured: write an amount, as 9.4 L, or "not measured"`},
		{Measured{Portions: []Portion{}}, `nothing measured: write an amount, as 9.4 L, or "not measured"`},
		{Measured{Portions: []Portion{litre}, NotMeasured: true}, `1 amounts beside "not measured": one or the other`},
		{Measured{Portions: make([]Portion, 9)}, "9 amounts in one sum: at most 8"},
		{Measured{Portions: []Portion{litre, {Amount: 1500, Unit: UnitLitre}}}, "amount 2 of the sum: amount 1500 is no figure in L with 0 decimals"},
	} {
		if err := c.m.Valid(); err == nil || err.Error() != c.want {
			t.Errorf("%+v: %v, want %s", c.m, err, c.want)
		}
	}
	if err := (Measured{NotMeasured: true}).Valid(); err != nil {
		t.Error(err)
	}
}

// TestTotalsNeverWrap: what a hostile record holds is added up before it is
// found to be out of bounds.
func TestTotalsNeverWrap(t *testing.T) {
	huge := Portion{Amount: math.MaxInt64, Unit: UnitLitre}
	for _, m := range []Measured{
		{}, {NotMeasured: true},
		{Portions: []Portion{huge, huge}},
		{Portions: []Portion{{Amount: -1, Unit: UnitLitre}}},
		{Portions: []Portion{{Amount: 1}}},
	} {
		if v, ok := m.TotalVolume(); ok {
			t.Errorf("%+v: %v", m, v)
		}
		if g, ok := m.TotalMass(); ok {
			t.Errorf("%+v: %v", m, g)
		}
	}
}
