package quantity

import (
	"math/big"
	"testing"
)

// rat reads an exact decimal or fraction.
func rat(t testing.TB, s string) *big.Rat {
	t.Helper()
	r, ok := new(big.Rat).SetString(s)
	if !ok {
		t.Fatalf("bad rational %q", s)
	}
	return r
}

// roundHalfAway is the rounding promised, done again with math/big.
func roundHalfAway(r *big.Rat) *big.Int {
	twice := new(big.Int).Mul(new(big.Int).Abs(r.Num()), big.NewInt(2))
	n := new(big.Int).Add(twice, r.Denom())
	n.Quo(n, new(big.Int).Mul(r.Denom(), big.NewInt(2)))
	if r.Sign() < 0 {
		n.Neg(n)
	}
	return n
}

// Each unit's size in mL or g. The codes stand in signed records: a change
// here is a change of what old records say.
var definitions = []struct {
	unit Unit
	code uint8
	name string
	size string // mL or g
	mass bool
	from string
}{
	{UnitMillilitre, 1, "mL", "1", false, "SI brochure, table 8"},
	{UnitLitre, 2, "L", "1000", false, "SI brochure, table 8"},
	{UnitUSGallon, 3, "US gal", "3785.411784", false, "NIST HB 44 Appendix C: 231 cubic inches"},
	{UnitUSQuart, 4, "US qt", "946.352946", false, "NIST HB 44 Appendix C"},
	{UnitUSPint, 5, "US pt", "473.176473", false, "NIST HB 44 Appendix C"},
	{UnitUSFluidOunce, 6, "US fl oz", "29.5735295625", false, "NIST HB 44 Appendix C"},
	{UnitImperialGallon, 7, "imp gal", "4546.09", false, "Weights and Measures Act 1985, schedule 1"},
	{UnitImperialQuart, 8, "imp qt", "1136.5225", false, "Weights and Measures Act 1985, schedule 1"},
	{UnitImperialPint, 9, "imp pt", "568.26125", false, "Weights and Measures Act 1985, schedule 1"},
	{UnitImperialFluidOunce, 10, "imp fl oz", "28.4130625", false, "Weights and Measures Act 1985, schedule 1"},
	{UnitGram, 20, "g", "1", true, "SI brochure"},
	{UnitKilogram, 21, "kg", "1000", true, "SI brochure"},
	{UnitPound, 22, "lb", "453.59237", true, "NIST SP 811 B.8"},
}

func TestUnitDefinitions(t *testing.T) {
	for _, d := range definitions {
		row := d.unit.row()
		size := new(big.Rat).SetFrac(new(big.Int).SetUint64(row.scale.factor), new(big.Int).SetUint64(row.scale.divisor))
		if want := rat(t, d.size); size.Cmp(want) != 0 {
			t.Errorf("%s: %s, want %s (%s)", d.name, size.FloatString(12), d.size, d.from)
		}
		if uint8(d.unit) != d.code || d.unit.String() != d.name {
			t.Errorf("%s: code %d, name %s; want code %d", d.name, d.unit, d.unit, d.code)
		}
		if !d.unit.Valid() || d.unit.IsMass() != d.mass || d.unit.IsVolume() == d.mass {
			t.Errorf("%s: valid %v, mass %v, volume %v", d.name, d.unit.Valid(), d.unit.IsMass(), d.unit.IsVolume())
		}
	}
	known := 0
	for u := range 256 {
		if Unit(u).Valid() {
			known++
		} else if Unit(u).IsVolume() || Unit(u).IsMass() || Unit(u).MaxPlaces() != 0 {
			t.Errorf("unit %d is not known but measures something", u)
		}
	}
	if known != len(definitions) {
		t.Errorf("%d units known, %d defined here", known, len(definitions))
	}
}

// TestUnitSystems derives the customary units from inch, gallon and pound.
func TestUnitSystems(t *testing.T) {
	// NIST HB 44 Appendix C: a US gallon is 231 cubic inches, an inch 2.54 cm;
	// 4 qt, 8 pt, 128 fl oz to the gallon. An imperial gallon is 4.54609 dm3;
	// 4 qt, 8 pt, 160 fl oz.
	inch := rat(t, "2.54")
	us := new(big.Rat).Mul(rat(t, "231"), new(big.Rat).Mul(inch, new(big.Rat).Mul(inch, inch)))
	imp := rat(t, "4546.09")
	for _, c := range []struct {
		unit   Unit
		gallon *big.Rat
		parts  int64
	}{
		{UnitUSGallon, us, 1}, {UnitUSQuart, us, 4}, {UnitUSPint, us, 8}, {UnitUSFluidOunce, us, 128},
		{UnitImperialGallon, imp, 1}, {UnitImperialQuart, imp, 4}, {UnitImperialPint, imp, 8}, {UnitImperialFluidOunce, imp, 160},
	} {
		want := new(big.Rat).Quo(c.gallon, big.NewRat(c.parts, 1))
		want.Mul(want, big.NewRat(tenBillion, 1))
		if !want.IsInt() || want.Num().Uint64() != c.unit.row().scale.factor {
			t.Errorf("%v: %s, want %d", c.unit, want.RatString(), c.unit.row().scale.factor)
		}
	}

	// 550 ft lbf/s and 75 kgf m/s, NIST SP 811 B.8, with the foot of 0.3048 m.
	g := rat(t, "9.80665")
	hp := new(big.Rat).Mul(new(big.Rat).Mul(rat(t, "550"), rat(t, "0.3048")), new(big.Rat).Mul(rat(t, "0.45359237"), g))
	ps := new(big.Rat).Mul(rat(t, "75"), g)
	for name, want := range map[string]*big.Rat{"hp": hp, "ps": ps} {
		s := called(name).scale
		got := new(big.Rat).SetFrac(new(big.Int).SetUint64(s.factor), new(big.Int).SetUint64(s.divisor))
		if got.Cmp(want) != 0 {
			t.Errorf("%s: %s W, want %s W", name, got.FloatString(15), want.FloatString(15))
		}
	}
}

// TestDecimalLimits holds that each unit takes all the decimals, and no more,
// for which a step of the last decimal is at least 1 mL or 1 g: that is what
// makes a rounded amount stand for one written figure alone.
func TestDecimalLimits(t *testing.T) {
	want := map[string]uint8{"mL": 0, "L": 3, "US gal": 3, "US qt": 2, "US pt": 2, "US fl oz": 1,
		"imp gal": 3, "imp qt": 3, "imp pt": 2, "imp fl oz": 1, "g": 0, "kg": 3, "lb": 2}
	for _, d := range definitions {
		step, places := rat(t, d.size), uint8(0)
		for {
			next := new(big.Rat).Quo(step, big.NewRat(10, 1))
			if next.Cmp(big.NewRat(1, 1)) < 0 {
				break
			}
			step, places = next, places+1
		}
		if got := d.unit.MaxPlaces(); got != places || got != want[d.name] {
			t.Errorf("%s takes %d decimals; a step of 1 mL or 1 g allows %d, and the table above has %d", d.name, got, places, want[d.name])
		}
	}
}

// TestBareSizes holds the sizes that refusals name to the definitions.
func TestBareSizes(t *testing.T) {
	for _, b := range bareWords {
		for unit, size := range map[Unit]string{b.us: b.usSize, b.imperial: b.imperialSize} {
			row := unit.row().scale
			perTick, places, name := uint64(tenBillion), 3, "L"
			if unit == UnitUSFluidOunce || unit == UnitImperialFluidOunce {
				perTick, places, name = tenBillion/10, 1, "mL"
			}
			n, _ := mulDiv(row.factor, 1, perTick)
			if got := fixed(n, places) + " " + name; got != size {
				t.Errorf("%v is %s, the refusal says %s", unit, got, size)
			}
		}
	}
}

// TestNoWordTwice holds that no word of a unit stands for two.
func TestNoWordTwice(t *testing.T) {
	seen := map[string]string{}
	claim := func(word, name string) {
		if word != unitKey(word) {
			t.Errorf("%q of %s is not folded and can never match", word, name)
		}
		if other, twice := seen[word]; twice {
			t.Errorf("%q stands for %s and %s", word, other, name)
		}
		seen[word] = name
	}
	for _, row := range unitTable {
		if !row.scale.called(unitKey(row.scale.name)) {
			t.Errorf("%s is not read as it is printed", row.scale.name)
		}
		for _, w := range row.scale.words {
			claim(w, row.scale.name)
		}
	}
	for _, b := range bareWords {
		for _, w := range b.words {
			claim(w, "bare "+b.us.String())
		}
	}
	for _, name := range readingUnits {
		claim(unitKey(name), "reading "+name)
	}
}
