package fluid

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record/quantity"
)

// TestStrengthAfter: by the balance of the glycol, litre for litre. 10 L at 30 % holds
// 3 L of glycol; 3 L of it drained take 0.9 L away, and 3 L of 50 % bring 1.5: 3.6 L.
func TestStrengthAfter(t *testing.T) {
	for _, c := range []struct {
		holds, drained   quantity.Volume
		now, added, want quantity.Ratio
	}{
		{10_000, 3000, 300, 500, 360},
		{10_000, 3000, 300, 1000, 510},      // 3 - 0.9 + 3 = 5.1 L
		{11_500, 2300, 400, 0, 320},         // 4.6 - 0.92 = 3.68 L of 11.5
		{11_500, 2300, 400, 1000, 520},      // 3.68 + 2.3 = 5.98 L of 11.5
		{12_000, 4500, 250, 700, 419},       // 3 - 1.125 + 3.15 = 5.025 L of 12: 41.875 %
		{18_927, 7571, 330, 1000, 598},      // 5 and 2 US gal: 1.65 - 0.66 + 2 = 2.99 gal of 5
		{10_000, 0, 300, 1000, 300},         // nothing drained
		{10_000, 10_000, 300, 550, 550},     // all of it
		{quantity.MaxVolume, 1, 0, 1000, 0}, // a drop in 100 m3
		{1, 1, 1000, 0, 0},
	} {
		if got, err := StrengthAfter(c.holds, c.drained, c.now, c.added); err != nil || got != c.want {
			t.Errorf("%v of %v at %v, filled with %v: %v, want %v (%v)", c.drained, c.holds, c.now.Percent(), c.added.Percent(), got.Percent(), c.want.Percent(), err)
		}
	}
	// Half drained for water three times: a half of a half of a half.
	strength := quantity.Ratio(480)
	for _, want := range []quantity.Ratio{240, 120, 60} {
		var err error
		if strength, err = StrengthAfter(9000, 4500, strength, 0); err != nil || strength != want {
			t.Errorf("%v, want %v (%v)", strength, want, err)
		}
	}
}

// TestDrainFor: the sums of TestStrengthAfter the other way about, and more.
func TestDrainFor(t *testing.T) {
	for _, c := range []struct {
		holds              quantity.Volume
		now, target, added quantity.Ratio
		want               quantity.Volume
	}{
		{10_000, 300, 360, 500, 3000},
		{10_000, 300, 510, 1000, 3000},
		{11_500, 400, 320, 0, 2300},
		{11_500, 400, 520, 1000, 2300},
		{11_500, 330, 500, 1000, 2920}, // 3.795 L of glycol, 5.75 wanted, 0.67 for each litre changed: 2.918
		{9000, 700, 600, 0, 1290},      // 6.3 to 5.4 L, 0.7 a litre: 1.2857
		{9000, 600, 500, 400, 4500},    // half way
		{10_000, 300, 500, 500, 10_000},
		{10_005, 300, 500, 500, 10_005}, // no more than it holds
		{10_000, 300, 300, 300, 0},
		{10_000, 300, 300, 1000, 0},
		{quantity.MaxVolume, 0, 1, 1000, 100_000},
	} {
		if got, err := DrainFor(c.holds, c.now, c.target, c.added); err != nil || got != c.want {
			t.Errorf("%v from %v to %v with %v: %v, want %v (%v)", c.holds, c.now.Percent(), c.target.Percent(), c.added.Percent(), got, c.want, err)
		}
	}
}

// glycolOf is how much glycol is in so much of a strength: mL by 1/1000.
func glycolOf(v quantity.Volume, share quantity.Ratio) int64 { return int64(v) * int64(share) }

// TestDrainForByTrying changes 10 mL more and more until the glycol in the system is
// enough (or little enough): DrainFor is the first that will do.
func TestDrainForByTrying(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		holds := quantity.Volume(rapid.Int64Range(1, 20_000).Draw(t, "holds"))
		now := quantity.Ratio(rapid.Int64Range(0, 1000).Draw(t, "now"))
		added := quantity.Ratio(rapid.Int64Range(0, 1000).Draw(t, "added"))
		target := quantity.Ratio(rapid.Int64Range(int64(min(now, added)), int64(max(now, added))).Draw(t, "target"))
		wanted := glycolOf(holds, target)
		in := glycolOf(holds, now)
		var tried quantity.Volume
		for (now < added && in < wanted) || (now > added && in > wanted) {
			jug := min(10, holds-tried)
			if jug == 0 {
				t.Fatalf("all %v changed and not at %v", holds, target)
			}
			in += glycolOf(jug, added) - glycolOf(jug, now) // all that is drained is drained first
			tried += jug
		}
		if got, err := DrainFor(holds, now, target, added); err != nil || got != tried {
			t.Fatalf("drain %v, by trying %v (%v)", got, tried, err)
		}
	})
}

// TestRefillFor: what it comes to is the target or just past it, by less than 10 mL
// of what was changed, and it says what StrengthAfter says.
func TestRefillFor(t *testing.T) {
	if got, err := RefillFor(11_500, 330, 500, 1000); err != nil || got != (Refill{Drain: 2920, Add: 2920, Strength: 500}) {
		t.Errorf("%+v, %v", got, err)
	}
	if got, err := RefillFor(11_500, 330, 500, 400); err == nil || got != (Refill{}) {
		t.Errorf("%+v, %v", got, err)
	}
	rapid.Check(t, func(t *rapid.T) {
		holds := quantity.Volume(rapid.Int64Range(1, int64(quantity.MaxVolume)).Draw(t, "holds"))
		now := quantity.Ratio(rapid.Int64Range(0, 1000).Draw(t, "now"))
		added := quantity.Ratio(rapid.Int64Range(0, 1000).Draw(t, "added"))
		target := quantity.Ratio(rapid.Int64Range(int64(min(now, added)), int64(max(now, added))).Draw(t, "target"))
		refill, err := RefillFor(holds, now, target, added)
		if err != nil || refill.Drain != refill.Add || refill.Drain < 0 || refill.Drain > holds {
			t.Fatalf("%+v, %v", refill, err)
		}
		past := refill.Strength - target
		if added < now {
			past = -past
		}
		if most := quantity.Ratio(10*1000/int64(holds)) + 1; past < 0 || past > most {
			t.Fatalf("from %v to %v with %v: %+v", now, target, added, refill)
		}
	})
}

// TestGlycolIsConserved: what is in afterwards is what was in, less what was drained,
// and what was added, within the rounding of the strength; exactly, in big integers.
func TestGlycolIsConserved(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		holds := rapid.Int64Range(1, int64(quantity.MaxVolume)).Draw(t, "holds")
		drained := rapid.Int64Range(0, holds).Draw(t, "drained")
		now := rapid.Int64Range(0, 1000).Draw(t, "now")
		added := rapid.Int64Range(0, 1000).Draw(t, "added")
		after, err := StrengthAfter(quantity.Volume(holds), quantity.Volume(drained), quantity.Ratio(now), quantity.Ratio(added))
		if err != nil || after < quantity.Ratio(min(now, added)) || after > quantity.Ratio(max(now, added)) {
			t.Fatalf("%v, %v", after, err)
		}
		// The rational x0 + (D/V)(xr - x0), compared in halves of a thousandth.
		exact := new(big.Rat).Mul(big.NewRat(drained, holds), big.NewRat(added-now, 1))
		exact.Add(exact, big.NewRat(now, 1))
		off := new(big.Rat).Sub(big.NewRat(int64(after), 1), exact)
		if off.Cmp(big.NewRat(1, 2)) > 0 || off.Cmp(big.NewRat(-1, 2)) <= 0 {
			t.Fatalf("%v, exactly %s", after, exact.FloatString(4))
		}
		if drained < holds {
			more, err := StrengthAfter(quantity.Volume(holds), quantity.Volume(drained+1), quantity.Ratio(now), quantity.Ratio(added))
			if err != nil || (added >= now && more < after) || (added <= now && more > after) {
				t.Fatalf("1 mL more drained: %v instead of %v, %v", more, after, err)
			}
		}
	})
}

func TestRefillRefuses(t *testing.T) {
	for _, holds := range []quantity.Volume{0, -1, quantity.MaxVolume + 1, math.MinInt64, math.MaxInt64} {
		_, err := StrengthAfter(holds, 0, 300, 500)
		wantError(t, holds.String(), err, "holds", "as 11.5 L")
		_, err = DrainFor(holds, 300, 400, 500)
		wantError(t, holds.String(), err, "holds", "as 11.5 L")
	}
	for _, drained := range []quantity.Volume{-1, 10_001, math.MinInt64, math.MaxInt64} {
		_, err := StrengthAfter(10_000, drained, 300, 500)
		wantError(t, drained.String(), err, "drained", "the system holds 10 L")
	}
	for _, share := range []quantity.Ratio{-1, 1001, math.MinInt64, math.MaxInt64} {
		const full = "from 0 % to 100 %, by volume"
		_, err := StrengthAfter(10_000, 3000, share, 500)
		wantError(t, "now", err, "now "+share.Percent(), full)
		_, err = StrengthAfter(10_000, 3000, 500, share)
		wantError(t, "added", err, "added "+share.Percent(), full)
		_, err = DrainFor(10_000, share, 500, 500)
		wantError(t, "now", err, "now "+share.Percent(), full)
		_, err = DrainFor(10_000, 500, share, 500)
		wantError(t, "target", err, "target "+share.Percent(), full)
		_, err = DrainFor(10_000, 500, 500, share)
		wantError(t, "added", err, "added "+share.Percent(), full)
	}
	for _, c := range []struct {
		now, target, added quantity.Ratio
		says               string
	}{
		{300, 500, 400, "added 40 %: what is added has to be stronger than 50 %: take neat glycol, 100 %"},
		{300, 500, 300, "stronger than 50 %"}, // as strong as what is in
		{300, 500, 0, "stronger than 50 %"},
		{500, 300, 400, "added 40 %: what is added has to be weaker than 30 %: take water, 0 %"},
		{500, 300, 500, "weaker than 30 %"},
		{500, 300, 1000, "weaker than 30 %"},
	} {
		_, err := DrainFor(10_000, c.now, c.target, c.added)
		wantError(t, c.says, err, c.says)
	}
}
