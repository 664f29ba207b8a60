package quantity

import (
	"math"
	"math/big"
	"reflect"
	"testing"

	"pgregory.net/rapid"
)

// Values published or computed from the exact definitions. Those marked GNU
// were also had from GNU units 2.22 ("4.5 usquart" to "L").
func TestPublishedVolumes(t *testing.T) {
	for _, c := range []struct {
		written string
		ml      int64
		exact   string // mL
		from    string
	}{
		{"1 US gal", 3785, "3785.411784", "NIST HB 44 Appendix C"},
		{"1 US qt", 946, "946.352946", "NIST HB 44 Appendix C"},
		{"1 US pt", 473, "473.176473", "NIST HB 44 Appendix C"},
		{"1 US fl oz", 30, "29.5735295625", "NIST HB 44 Appendix C"},
		{"1 imp gal", 4546, "4546.09", "Weights and Measures Act 1985"},
		{"1 imp qt", 1137, "1136.5225", "Weights and Measures Act 1985"},
		{"1 imp pt", 568, "568.26125", "Weights and Measures Act 1985"},
		{"1 imp fl oz", 28, "28.4130625", "Weights and Measures Act 1985"},
		{"4.5 US qt", 4259, "4258.588257", "computed from NIST HB 44; GNU"},
		{"4.5 imp qt", 5114, "5114.35125", "computed from the Act; GNU"},
		{"2.4 US gal", 9085, "9084.9882816", "computed from NIST HB 44; GNU"},
		{"1000 imp qt", 1136523, "1136522.5", "computed from the Act: a tie, away from zero"},
		{"400 imp pt", 227305, "227304.5", "computed from the Act: a tie, away from zero"},
		{"5.28 US qt", 4997, "4996.74355488", "computed: 5 L is 5.283441047 US qt"},
		{"450 mL", 450, "450", "as written"},
		{"9.4 L", 9400, "9400", "as written"},
		{"0.001 L", 1, "1", "as written"},
		{"100000 L", 100_000_000, "100000000", "the limit"},
	} {
		p, err := ParsePortion(c.written)
		if err != nil {
			t.Errorf("%s: %v", c.written, err)
			continue
		}
		if v, ok := p.Volume(); !ok || int64(v) != c.ml || roundHalfAway(rat(t, c.exact)).Int64() != c.ml {
			t.Errorf("%s is %d mL, want %d (%s: %s)", c.written, v, c.ml, c.from, c.exact)
		}
		if _, ok := p.Mass(); ok {
			t.Errorf("%s is said to be a mass", c.written)
		}
	}
	// NIST SP 811 B.8: 1 lb is 453.59237 g; 17 lb is 7711.07029 g.
	if p, err := ParsePortion("17 lb"); err != nil || p.Amount != 7711 {
		t.Errorf("17 lb: %v, %v", p, err)
	}
	if m, err := ParseMass("7.7 kg"); err != nil || m != 7700 {
		t.Errorf("7.7 kg: %v, %v", m, err)
	}
}

func TestRoundsHalfAway(t *testing.T) {
	for _, c := range []struct {
		a, b, d uint64
		want    int64
	}{{1, 1, 2, 1}, {3, 1, 2, 2}, {1, 1, 3, 0}, {2, 1, 3, 1}, {5, 1, 10, 1}, {4, 1, 10, 0}, {0, 9, 7, 0},
		{math.MaxUint64, 1, 4, 1 << 62}, {math.MaxUint64, 3, math.MaxUint64, 3}} {
		if got, ok := mulDiv(c.a, c.b, c.d); !ok || got != c.want {
			t.Errorf("%d*%d/%d = %d, %v; want %d", c.a, c.b, c.d, got, ok, c.want)
		}
	}
	for _, c := range [][3]uint64{{1, 1, 0}, {math.MaxUint64, 1, 1}, {math.MaxUint64, math.MaxUint64, 1}, {math.MaxUint64, 1, 2}} {
		if got, ok := mulDiv(c[0], c[1], c[2]); ok {
			t.Errorf("%d*%d/%d gave %d", c[0], c[1], c[2], got)
		}
	}
}

func TestMulDivAgainstBig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, d := rapid.Uint64().Draw(t, "a"), rapid.Uint64().Draw(t, "b"), rapid.Uint64Min(1).Draw(t, "d")
		num := new(big.Int).Mul(new(big.Int).SetUint64(a), new(big.Int).SetUint64(b))
		want := roundHalfAway(new(big.Rat).SetFrac(num, new(big.Int).SetUint64(d)))
		got, ok := mulDiv(a, b, d)
		if ok != want.IsInt64() || ok && got != want.Int64() {
			t.Fatalf("%d*%d/%d = %d, %v; want %v", a, b, d, got, ok, want)
		}
	})
}

// drawPortion writes any figure that a unit takes, and what it comes to by math/big.
func drawPortion(t *rapid.T) (text string, ml *big.Int, unit Unit, places uint8) {
	d := rapid.SampledFrom(definitions).Draw(t, "unit")
	places = rapid.Uint8Range(0, d.unit.MaxPlaces()).Draw(t, "places")
	size, _ := new(big.Rat).SetString(d.size)
	size.Quo(size, new(big.Rat).SetInt64(int64(pow10[places])))
	most := new(big.Rat).Quo(big.NewRat(int64(MaxVolume), 1), size)
	limit := new(big.Int).Quo(most.Num(), most.Denom()).Int64()
	n := rapid.Int64Range(0, limit).Draw(t, "figure")
	digits := fixed(n, int(places))
	return digits + " " + d.name, roundHalfAway(size.Mul(size, new(big.Rat).SetInt64(n))), d.unit, places
}

func TestPortionRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text, amount, unit, places := drawPortion(t)
		p, err := ParsePortion(text)
		if err != nil {
			t.Fatal(err)
		}
		if p.Amount != amount.Int64() || p.Unit != unit || p.Places != places || p.At != nil {
			t.Fatalf("%s: %+v, want %d", text, p, amount)
		}
		if err := p.Valid(); err != nil {
			t.Fatal(err)
		}
		if p.String() != text {
			t.Fatalf("%s came back as %s", text, p)
		}
		tenths := rapid.Int64Range(int64(MinTemperature), int64(MaxTemperature)).Draw(t, "tenths")
		warm := text + " at " + shortest(tenths, 1) + " C"
		q, err := ParsePortion(warm)
		if err != nil || q.At == nil || int64(*q.At) != tenths || q.String() != warm || q.Amount != p.Amount {
			t.Fatalf("%s came back as %v, %v", warm, q, err)
		}
	})
}

// TestEveryAmountNamesOneFigure goes through all amounts up to 12 L: each is
// what one figure, and only one, rounds to, or is refused.
func TestEveryAmountNamesOneFigure(t *testing.T) {
	for _, d := range definitions {
		for places := range d.unit.MaxPlaces() + 1 {
			s := d.unit.row().scale
			seen := map[int64]int64{}
			for n := int64(0); ; n++ {
				amount, ok := s.of(n, places)
				if !ok || amount > 12_000 {
					break
				}
				if before, twice := seen[amount]; twice {
					t.Fatalf("%v, %d decimals: figures %d and %d are both %d", d.unit, places, before, n, amount)
				}
				seen[amount] = n
			}
			for amount := range int64(12_001) {
				want, valid := seen[amount]
				p := Portion{Amount: amount, Unit: d.unit, Places: places}
				if got := p.Valid() == nil; got != valid {
					t.Fatalf("%+v: valid %v, want %v", p, got, valid)
				}
				if figure, ok := s.figureOf(amount, places); ok != valid || ok && figure != want {
					t.Fatalf("%+v: figure %d, %v; want %d, %v", p, figure, ok, want, valid)
				}
			}
		}
	}
}

func TestPortionValidRefuses(t *testing.T) {
	hot, cold := MaxTemperature+1, MinTemperature-1
	for _, c := range []struct {
		p    Portion
		want string
	}{
		{Portion{}, "unit 0 is no unit of volume or mass"},
		{Portion{Amount: 1, Unit: 11}, "unit 11 is no unit of volume or mass"},
		{Portion{Amount: 1, Unit: 255}, "unit 255 is no unit of volume or mass"},
		{Portion{Amount: 1000, Unit: UnitLitre, Places: 4}, "4 decimals for L: at most 3"},
		{Portion{Amount: 1000, Unit: UnitLitre, Places: 255}, "255 decimals for L: at most 3"},
		{Portion{Amount: 5, Unit: UnitMillilitre, Places: 1}, "1 decimals for mL: at most 0"},
		{Portion{Amount: -1, Unit: UnitLitre, Places: 3}, "volume -0.001 L: outside 0 L to 100000 L"},
		{Portion{Amount: 100_000_001, Unit: UnitMillilitre}, "volume 100000.001 L: outside 0 L to 100000 L"},
		{Portion{Amount: math.MaxInt64, Unit: UnitUSGallon, Places: 3}, "volume 9223372036854775.807 L: outside 0 L to 100000 L"},
		{Portion{Amount: math.MinInt64, Unit: UnitPound}, "mass -9223372036854775.808 kg: outside 0 kg to 100000 kg"},
		{Portion{Amount: 1500, Unit: UnitLitre}, "amount 1500 is no figure in L with 0 decimals"},
		{Portion{Amount: 9084, Unit: UnitUSGallon, Places: 1}, "amount 9084 is no figure in US gal with 1 decimals"},
		{Portion{Amount: 1000, Unit: UnitLitre, At: &hot}, "temperature 1000.1 °C: outside -100 °C to 1000 °C"},
		{Portion{Amount: 1000, Unit: UnitLitre, At: &cold}, "temperature -100.1 °C: outside -100 °C to 1000 °C"},
	} {
		if err := c.p.Valid(); err == nil || err.Error() != c.want {
			t.Errorf("%+v: %v, want %s", c.p, err, c.want)
		}
	}
	bad := Portion{Amount: 9084, Unit: UnitUSGallon, Places: 1}
	if got, want := bad.String(), "no amount (9084, US gal, 1 decimals)"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// TestIn: the same figure in the unit of the same name. Gallons by their
// definitions, 3.785411784 and 4.54609 L.
func TestIn(t *testing.T) {
	for _, c := range []struct {
		text string
		unit Unit
		want string // "" where there is none
		mL   int64
	}{
		{"2.4 US gal at 68 C", UnitImperialGallon, "2.4 imp gal at 68 C", 10_911},
		{"2.4 imp gal", UnitUSGallon, "2.4 US gal", 9085},
		{"4.25 imp qt", UnitUSQuart, "4.25 US qt", 4022},
		{"4.125 imp qt", UnitUSQuart, "", 0}, // one decimal too many for it
		{"5 L", UnitMillilitre, "5 mL", 5},
		{"5 L", UnitKilogram, "", 0},
		{"99999 L", UnitUSGallon, "", 0}, // beyond what a volume may be
	} {
		p, err := ParsePortion(c.text)
		if err != nil {
			t.Fatal(err)
		}
		got, ok := p.In(c.unit)
		if ok != (c.want != "") || ok && (got.String() != c.want || got.Amount != c.mL) {
			t.Errorf("%s in %v: %v, %d mL, %v; want %q", c.text, c.unit, got, got.Amount, ok, c.want)
		}
		if back, again := got.In(p.Unit); ok && (!again || !reflect.DeepEqual(back, p)) {
			t.Errorf("%s there and back: %v", c.text, back)
		}
	}
	if _, ok := (Portion{Amount: 1, Unit: 99}).In(UnitLitre); ok {
		t.Error("an unknown unit has another")
	}
}

// TestRounded: an amount in another unit. 5 L are 5.283441047 US qt, 9.085 L (2.4 US
// gal) 1.998 imp gal: NIST HB 44 Appendix C; UK Weights and Measures Act 1985.
func TestRounded(t *testing.T) {
	for _, c := range []struct {
		text   string
		unit   Unit
		places uint8
		want   string
	}{
		{"5 L", UnitUSQuart, 3, "5.283"},
		{"2.4 US gal", UnitLitre, 3, "9.085"},
		{"2.4 US gal", UnitImperialGallon, 3, "1.998"},
		{"4.5 US qt", UnitLitre, 3, "4.259"},
		{"4.5 imp qt", UnitLitre, 3, "5.114"},
		{"1 imp gal", UnitUSGallon, 2, "1.20"},
		{"7.7 kg", UnitPound, 1, "17.0"},
		{"1 lb", UnitKilogram, 3, "0.454"},
		{"0 L", UnitUSGallon, 0, "0"},
		{"5 L", UnitKilogram, 3, ""},
		{"5 L", UnitUSGallon, 4, ""},
		{"5 L", 99, 0, ""},
	} {
		p, err := ParsePortion(c.text)
		if err != nil {
			t.Fatal(err)
		}
		if got, ok := p.Rounded(c.unit, c.places); got != c.want || ok != (c.want != "") {
			t.Errorf("%s in %v: %q, %v; want %q", c.text, c.unit, got, ok, c.want)
		}
	}
}

// TestDefinition: as the laws have them.
func TestDefinition(t *testing.T) {
	for unit, want := range map[Unit]string{
		UnitUSGallon: "3.785411784 L", UnitUSQuart: "0.946352946 L", UnitUSPint: "0.473176473 L", UnitUSFluidOunce: "0.0295735295625 L",
		UnitImperialGallon: "4.54609 L", UnitImperialQuart: "1.1365225 L", UnitImperialPint: "0.56826125 L", UnitImperialFluidOunce: "0.0284130625 L",
		UnitLitre: "1 L", UnitMillilitre: "0.001 L", UnitPound: "0.45359237 kg", UnitGram: "0.001 kg", 99: "",
	} {
		if got := unit.Definition(); got != want {
			t.Errorf("%v: %q, want %q", unit, got, want)
		}
	}
}
