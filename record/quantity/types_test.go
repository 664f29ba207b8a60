package quantity

import (
	"bytes"
	"encoding"
	"encoding/hex"
	"encoding/json"
	"math"
	"math/big"
	"reflect"
	"testing"

	"github.com/fxamacker/cbor/v2"
	"pgregory.net/rapid"
)

func TestPrint(t *testing.T) {
	for got, want := range map[string]string{
		Volume(9085).String():                               "9.085 L",
		Volume(9300).String():                               "9.3 L",
		(10 * Litre).String():                               "10 L",
		Volume(-260).String():                               "-0.26 L",
		Volume(5).Litres():                                  "0.005",
		Volume(10_000).Litres():                             "10.000",
		Volume(math.MinInt64).Litres():                      "-9223372036854775.808",
		Mass(7711).String():                                 "7.711 kg",
		Mass(7700).Kilograms():                              "7.700",
		Hours(81260).String():                               "812.6",
		Hours(80900).String():                               "809",
		Hours(25).String():                                  "0.25",
		Hours(-5).String():                                  "-0.05",
		(68 * Degree).String():                              "68 °C",
		Temperature(-5).String():                            "-0.5 °C",
		(55 * Kilowatt).String():                            "55 kW",
		Power(22371).String():                               "22.371 kW",
		Density(880).String():                               "880 kg/m3",
		Ratio(850).String():                                 "0.85",
		Ratio(-100).String():                                "-0.1",
		Volume(9085).Hundredths():                           "9.09 L",
		Volume(-264).Hundredths():                           "-0.26 L",
		Volume(-265).Hundredths():                           "-0.27 L",
		Volume(4).Hundredths():                              "0.00 L",
		Ratio(345).Whole().Percent():                        "35 %",
		Ratio(344).Whole().Percent():                        "34 %",
		Ratio(-345).Whole().Percent():                       "-35 %",
		Ratio(100).Percent():                                "10 %",
		Ratio(125).Percent():                                "12.5 %",
		Months(12).String():                                 "12",
		Days(30).String():                                   "30",
		Minutes(15).String():                                "15 min",
		Unit(0).String():                                    "unit 0",
		Unit(99).String():                                   "unit 99",
		Measured{}.String():                                 "",
		Figure{Digits: -270, Places: 1, Unit: "C"}.String(): "-27.0 C",
	} {
		if got != want {
			t.Errorf("printed %q, want %q", got, want)
		}
	}
}

func TestJSON(t *testing.T) {
	at := 68 * Degree
	for _, c := range []struct {
		value any
		want  string
	}{
		{Volume(9085), "9.085"}, {Volume(-470), "-0.470"}, {Mass(7700), "7.700"}, {Hours(81260), "812.60"},
		{Hours(0), "0.00"}, {Temperature(680), "68.0"}, {&at, "68.0"}, {(*Temperature)(nil), "null"},
		{Date(20577), `"2026-05-04"`}, {Ratio(850), "0.850"}, {Power(55000), "55000"}, {Density(880), "880"},
		{Months(12), "12"}, {Days(30), "30"}, {Minutes(15), "15"}, {[]Volume{1, 1000}, "[0.001,1.000]"},
	} {
		got, err := json.Marshal(c.value)
		if err != nil || string(got) != c.want {
			t.Errorf("%T: %s, %v; want %s", c.value, got, err, c.want)
		}
	}
}

// TestEncodedAsPlainIntegers: a record holds the bare numbers. The bytes are
// RFC 8949 core-deterministic, written by hand: 19 237D is 9085, 38 FF is -256.
func TestEncodedAsPlainIntegers(t *testing.T) {
	mode, err := cbor.CoreDetEncOptions().EncMode()
	if err != nil {
		t.Fatal(err)
	}
	at := 68 * Degree
	for _, c := range []struct {
		value any
		want  string
	}{
		{Volume(9085), "19237d"}, {Mass(9085), "19237d"}, {Hours(9085), "19237d"}, {Temperature(-256), "38ff"},
		{Power(9085), "19237d"}, {Density(9085), "19237d"}, {Ratio(-256), "38ff"}, {Date(-256), "38ff"},
		{Months(12), "0c"}, {Days(12), "0c"}, {Minutes(12), "0c"}, {UnitPound, "16"},
		{Portion{Amount: 9085, Unit: UnitUSGallon, Places: 1, At: &at}, "a40119237d02030301041902a8"},
		{Portion{Amount: 5000, Unit: UnitLitre}, "a2011913880202"},
		{Measured{NotMeasured: true}, "a102f5"},
		{Measured{Portions: []Portion{{Amount: 1, Unit: UnitGram}}}, "a10181a201010214"},
	} {
		got, err := mode.Marshal(c.value)
		if err != nil || hex.EncodeToString(got) != c.want {
			t.Errorf("%T: %x, %v; want %s", c.value, got, err, c.want)
			continue
		}
		back := reflect.New(reflect.TypeOf(c.value))
		if err := cbor.Unmarshal(got, back.Interface()); err != nil || !reflect.DeepEqual(back.Elem().Interface(), c.value) {
			t.Errorf("%T: came back as %v, %v", c.value, back.Elem(), err)
		}
		if again, _ := mode.Marshal(back.Elem().Interface()); !bytes.Equal(again, got) {
			t.Errorf("%T: encoded again as %x", c.value, again)
		}
		if _, is := c.value.(encoding.TextMarshaler); is {
			t.Errorf("%T has a text form that an encoder may take", c.value)
		}
		if _, is := c.value.(encoding.BinaryMarshaler); is {
			t.Errorf("%T has a binary form that an encoder may take", c.value)
		}
	}
}

func TestTimes(t *testing.T) {
	for _, c := range []struct {
		h    Hours
		r    Ratio
		want Hours
	}{
		{200 * Hour, 100, 20 * Hour},  // a grace of 10 % of 200 h
		{200 * Hour, 500, 100 * Hour}, // severe duty halves
		{5, 500, 3}, {-5, 500, -3},    // 0.025 h: a tie, away from zero
		{5, -500, -3}, {-5, -500, 3}, //
		{1, 499, 0}, {1, 500, 1}, //
		{math.MaxInt64, 2000, math.MaxInt64}, {math.MaxInt64, -2000, -math.MaxInt64},
		{math.MinInt64, 1000, -math.MaxInt64}, {0, math.MinInt64, 0},
	} {
		if got := c.h.Times(c.r); got != c.want {
			t.Errorf("%v h times %v = %v, want %v", c.h, c.r, got, c.want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		h := rapid.Int64Range(-int64(MaxHours), int64(MaxHours)).Draw(t, "hours")
		r := rapid.Int64Range(int64(MinRatio), int64(MaxRatio)).Draw(t, "ratio")
		want := roundHalfAway(new(big.Rat).SetFrac64(h*r, int64(One)))
		if got := Hours(h).Times(Ratio(r)); int64(got) != want.Int64() {
			t.Fatalf("%d times %d/1000 = %d, want %v", h, r, got, want)
		}
	})
}

// TestScalarsRoundTrip: whatever is within the limits reads back from its print.
func TestScalarsRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		roundTrip(t, "volume", ParseVolume)
		roundTrip(t, "mass", ParseMass)
		roundTrip(t, "hours", ParseHours)
		roundTrip(t, "temperature", ParseTemperature)
		roundTrip(t, "power", ParsePower)
		roundTrip(t, "density", ParseDensity)
		roundTrip(t, "ratio", ParseRatio)
		roundTrip(t, "months", ParseMonths)
		roundTrip(t, "days", ParseDays)
		roundTrip(t, "minutes", ParseMinutes)
		roundTrip(t, "date", ParseDate)
		r := Ratio(rapid.Int64Range(0, int64(10*One)).Draw(t, "percent"))
		if got, err := ParsePercent(r.Percent()); err != nil || got != r {
			t.Fatalf("%s reads back as %v, %v", r.Percent(), got, err)
		}
	})
}

func roundTrip[T interface {
	limited[T]
	Valid() error
}](t *rapid.T, noun string, parse func(string) (T, error)) {
	var zero T
	low, high := zero.limits()
	v := T(rapid.Int64Range(int64(low), int64(high)).Draw(t, noun))
	if got, err := parse(v.String()); err != nil || got != v || got.Valid() != nil {
		t.Fatalf("%s %v reads back as %v, %v", noun, v, got, err)
	}
	if (low-1).Valid() == nil || (high+1).Valid() == nil || low.Valid() != nil || high.Valid() != nil {
		t.Fatalf("%s: limits are not %v to %v", noun, low, high)
	}
}

// TestWholeHours: half away from zero.
func TestWholeHours(t *testing.T) {
	for h, want := range map[Hours]Hours{
		0: 0, 49: 0, 50: 100, 149: 100, 150: 200, -49: 0, -50: -100, 81260: 81300,
	} {
		if got := h.Whole(); got != want {
			t.Errorf("%v: %v, want %v", h, got, want)
		}
	}
}
