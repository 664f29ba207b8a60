package plan

import (
	"slices"

	"hourseal/record/quantity"
)

// mostSteps bounds the table that cans are chosen by. A step is the greatest
// volume that all sizes are whole multiples of: 0.25 L for cans of 0.25, 1 and
// 5 L, and 1 mL at the least.
const mostSteps = 1 << 20

// cansFor chooses cans of the sizes given, as many of each as it takes, that hold
// a volume: those with the least left over, among them the fewest cans, and among
// those the larger sizes. They come largest first; none where no size is given,
// or nothing is to be held.
//
// This is exact up to mostSteps: 1,048 L where the step is 1 mL, 262,144 L where it
// is 0.25 L. Beyond that, whole cans of the largest size are set aside first and
// the rest is chosen exactly. With a largest can of L steps and a next of M the
// result is the same as long as L x M + L is at most mostSteps: of the others
// there are fewer than L, since out of L of them some would come to whole largest
// cans, and fewer of those. Failing that, the cans hold enough, and may hold more,
// or be more, than need be.
func cansFor(volume quantity.Volume, sizes []quantity.Volume) []Can {
	step, steps := stepsOf(sizes)
	if volume <= 0 || len(steps) == 0 {
		return nil
	}
	need := int64(volume) / step
	if int64(volume)%step != 0 {
		need++
	}
	counts := choose(need, steps, mostSteps)
	var cans []Can
	for _, size := range steps {
		if n := counts[size]; n > 0 {
			cans = append(cans, Can{Size: quantity.Volume(size * step), Count: int(n)})
		}
	}
	return cans
}

// stepsOf gives the step of some sizes, in mL, and the sizes in steps, largest
// first, each once. Sizes of nothing are left out.
func stepsOf(sizes []quantity.Volume) (step int64, steps []int64) {
	for _, size := range sizes {
		if size > 0 {
			steps = append(steps, int64(size))
			step = gcd(int64(size), step)
		}
	}
	slices.Sort(steps)
	steps = slices.Compact(steps)
	slices.Reverse(steps)
	for i := range steps {
		steps[i] /= step
	}
	return step, steps
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// choice is how many cans there are of each size.
type choice map[int64]int64

func (c choice) holds() (total int64) {
	for size, n := range c {
		total += size * n
	}
	return total
}

// choose is cansFor in steps, for a need of 1 or more; the table has at most
// twice the limit of entries.
func choose(need int64, sizes []int64, limit int64) choice {
	// A can that holds enough stands alone, and the smallest such does best.
	n := len(sizes)
	if i := slices.IndexFunc(sizes, func(size int64) bool { return size < need }); i >= 0 {
		n = i
	}
	var alone choice
	if n > 0 {
		alone = choice{sizes[n-1]: 1}
	}
	smaller := sizes[n:]
	if len(smaller) == 0 || alone.holds() == need {
		return alone
	}
	var several choice
	if need <= limit {
		several = chooseExactly(need, smaller)
	} else {
		aside := (need - 1) / smaller[0] // what is left is 1 or more
		if smaller[0] <= limit {
			aside = (need - limit + smaller[0] - 1) / smaller[0] // as much is left as the table takes
		}
		several = choose(need-aside*smaller[0], sizes, limit)
		several[smaller[0]] += aside
	}
	if alone != nil && alone.holds() <= several.holds() {
		return alone
	}
	return several
}

// chooseExactly chooses among sizes that are each smaller than the need, largest
// first, by the fewest cans that hold each total exactly.
func chooseExactly(need int64, sizes []int64) choice {
	const none = int32(1) << 30
	smallest := sizes[len(sizes)-1]
	fewest := make([]int32, need+smallest) // the smallest cans alone leave less than one of them over
	for total := int64(1); total < int64(len(fewest)); total++ {
		fewest[total] = none
		for _, size := range sizes {
			if size <= total {
				fewest[total] = min(fewest[total], fewest[total-size]+1)
			}
		}
	}
	total := need
	for fewest[total] >= none {
		total++
	}
	cans := choice{}
	for _, size := range sizes {
		for total >= size && fewest[total-size]+1 == fewest[total] {
			cans[size]++
			total -= size
		}
	}
	return cans
}
