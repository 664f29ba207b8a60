package plan

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record/quantity"
)

// volumes reads litres and US gallons as the yard file has them: "20 L, 5 L".
func volumes(t testing.TB, list string) []quantity.Volume {
	t.Helper()
	var sizes []quantity.Volume
	for word := range strings.SplitSeq(list, ", ") {
		if list == "" {
			break
		}
		v, err := quantity.ParseVolume(word)
		if err != nil {
			t.Fatal(err)
		}
		sizes = append(sizes, v)
	}
	return sizes
}

func inWords(cans []Can) string {
	words := make([]string, len(cans))
	for i, can := range cans {
		words[i] = fmt.Sprintf("%d x %v", can.Count, can.Size)
	}
	return strings.Join(words, ", ")
}

// TestCans: by hand.
func TestCans(t *testing.T) {
	for _, c := range []struct{ need, sizes, want string }{
		{"10.5 L", "20 L, 5 L, 1 L", "2 x 5 L, 1 x 1 L"},            // 0.5 L over, as 11 x 1 L would be
		{"10.5 L", "20 L, 5 L", "3 x 5 L"},                          // 4.5 L over
		{"10.5 L", "20 L", "1 x 20 L"},                              //
		{"10.5 L", "5 L, 20 L, 5 L, 0.25 L", "2 x 5 L, 2 x 0.25 L"}, // in any order, one of them twice
		{"10 L", "5 L, 4 L, 1 L", "2 x 5 L"},                        //
		{"8 L", "5 L, 4 L, 1 L", "2 x 4 L"},                         // the largest first would be 5 + 1 + 1 + 1
		{"12 L", "7 L, 6 L, 5 L", "1 x 7 L, 1 x 5 L"},               // as few as 2 x 6 L: the larger size
		{"6 L", "4 L, 5 L, 9 L", "2 x 4 L"},                         // 2 L over; 9 L would be 3 over, 5 + 4 as well
		{"19 L", "20 L, 12 L, 8 L", "1 x 20 L"},                     // no fewer hold 20 L than one
		{"0.1 L", "205 L, 60 L", "1 x 60 L"},                        //
		{"205 L", "205 L, 20 L, 5 L", "1 x 205 L"},                  //
		{"2.4 L", "1 US gal, 1 US qt, 1 L", "3 x 0.946 L"},          // 438 mL over; with 1 L for one of them 492
		{"10000 L", "20 L, 5 L, 1 L, 0.25 L", "500 x 20 L"},
		{"9999.9 L", "20 L, 5 L, 1 L, 0.25 L", "500 x 20 L"},
		{"9993.1 L", "20 L, 5 L, 1 L, 0.25 L", "499 x 20 L, 2 x 5 L, 3 x 1 L, 1 x 0.25 L"},
		{"10.5 L", "", ""},
		{"0 L", "5 L", ""},
	} {
		need, err := quantity.ParseVolume(c.need)
		if err != nil {
			t.Fatal(err)
		}
		if got := inWords(cansFor(need, volumes(t, c.sizes))); got != c.want {
			t.Errorf("%s from %s: %s, want %s", c.need, c.sizes, got, c.want)
		}
	}
}

// TestCansOfNothing: what no file can hold neither stops nor lasts.
func TestCansOfNothing(t *testing.T) {
	for _, c := range []struct {
		need  quantity.Volume
		sizes []quantity.Volume
	}{
		{1000, []quantity.Volume{0, -5}}, {-1000, []quantity.Volume{5000}}, {math.MinInt64, []quantity.Volume{math.MinInt64}},
	} {
		if got := cansFor(c.need, c.sizes); got != nil {
			t.Errorf("%v from %v: %v", c.need, c.sizes, got)
		}
	}
	for _, sizes := range [][]quantity.Volume{{1}, {math.MaxInt64, 1}, {math.MaxInt64, math.MaxInt64 - 1}, {7, 11, 13}} {
		cansFor(math.MaxInt64, sizes)
		cansFor(1, sizes)
	}
}

// drawSizes are a few different sizes in steps, largest first.
func drawSizes(t *rapid.T, largest int64) []int64 {
	sizes := rapid.SliceOfNDistinct(rapid.Int64Range(1, largest), 1, 4, rapid.ID).Draw(t, "sizes")
	slices.Sort(sizes)
	slices.Reverse(sizes)
	return sizes
}

// better says whether one choice comes before another by the words of cansFor.
func better(a, b choice, sizes []int64) bool {
	count := func(c choice) (n int64) {
		for _, of := range c {
			n += of
		}
		return n
	}
	if a.holds() != b.holds() {
		return a.holds() < b.holds()
	}
	if count(a) != count(b) {
		return count(a) < count(b)
	}
	for _, size := range sizes { // largest first
		if a[size] != b[size] {
			return a[size] > b[size]
		}
	}
	return false
}

// everyChoice goes through all cans, largest first, that hold enough with the last
// of them and not without it.
func everyChoice(need int64, sizes []int64, so choice, yield func(choice)) {
	if need <= 0 {
		yield(so)
		return
	}
	for i, size := range sizes {
		with := maps.Clone(so)
		with[size]++
		everyChoice(need-size, sizes[i:], with, yield) // no larger ones after it: each choice once
	}
}

// TestCansAgainstEveryChoice: they hold enough, nothing that does holds less, and
// so on, against going through all choices there are.
func TestCansAgainstEveryChoice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sizes := drawSizes(t, 14)
		need := rapid.Int64Range(1, 28).Draw(t, "need")
		got := choose(need, sizes, mostSteps)
		if got.holds() < need {
			t.Fatalf("%d from %v: %v", need, sizes, got)
		}
		everyChoice(need, sizes, choice{}, func(other choice) {
			if better(other, got, sizes) {
				t.Fatalf("%d from %v: %v, and %v is better", need, sizes, got, other)
			}
		})
	})
}

// TestCansAside: with a table that is too small for the need the choice is the
// same where cansFor says so; elsewhere it holds enough.
func TestCansAside(t *testing.T) {
	same, beyond := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		sizes := drawSizes(t, 30)
		need := rapid.Int64Range(1, 5_000).Draw(t, "need")
		limit := rapid.Int64Range(1, 600).Draw(t, "limit")
		got := choose(need, sizes, limit)
		if got.holds() < need {
			t.Fatalf("%d from %v: %v", need, sizes, got)
		}
		next := int64(0)
		if len(sizes) > 1 {
			next = sizes[1]
		}
		if need > limit && sizes[0]*next+sizes[0] > limit {
			beyond++
			return
		}
		same++
		if want := choose(need, sizes, mostSteps); !maps.Equal(got, want) {
			t.Fatalf("%d from %v with %d steps: %v, want %v", need, sizes, limit, got, want)
		}
	})
	if same == 0 || beyond == 0 {
		t.Errorf("%d within, %d beyond", same, beyond)
	}
}

// TestCansInMillilitres: sizes in mL are the same cans as in steps, in any order
// and written twice.
func TestCansInMillilitres(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sizes := rapid.SliceOfN(rapid.SampledFrom([]quantity.Volume{250, 500, 946, 1000, 3785, 5000, 20_000, 205_000}), 1, 8).Draw(t, "sizes")
		need := quantity.Volume(rapid.Int64Range(1, 60_000).Draw(t, "need"))
		cans := cansFor(need, sizes)
		var holds quantity.Volume
		largest := slices.Max(sizes) + 1
		for _, can := range cans {
			if can.Size >= largest || can.Count < 1 || !slices.Contains(sizes, can.Size) {
				t.Fatalf("%v from %v: %v", need, sizes, cans)
			}
			holds, largest = holds+can.Size*quantity.Volume(can.Count), can.Size
		}
		if last := cans[len(cans)-1].Size; holds < need || holds-last >= need {
			t.Fatalf("%v from %v: %v hold %v", need, sizes, cans, holds)
		}
	})
}

func BenchmarkCans(b *testing.B) {
	for _, sizes := range []string{"20 L, 5 L, 1 L, 0.25 L", "205 L, 60 L, 20 L, 5 L, 1 L, 1 US gal, 1 US qt, 0.251 L"} {
		list := volumes(b, sizes)
		for _, need := range []quantity.Volume{10_500, 1_000_000, 10_000_000} {
			b.Run(fmt.Sprintf("%v of %d sizes", need, len(list)), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					cansFor(need, list)
				}
			})
		}
	}
}
