package fluid

import (
	"math"

	"hourseal/record/quantity"
)

// source is what an error comes from.
type source uint8

const (
	fromUpper       source = iota + 1 // the machine file's at_upper
	fromDipstick                      // where the marks are, and how the dipstick seats
	fromReading                       // one dipstick reading
	fromTemperature                   // of one amount, or of the oil when a level was read
	fromAmount                        // one portion, as it was measured out
	fromDensity                       // assumed
	fromFilter                        // what the filter of one visit held
	fromExtraction                    // what the drain of one visit leaves behind
)

// term is one independent error: a source, and where it is not common to all that
// is known of a system, the visit, the amount and the portion that it belongs to.
type term struct {
	source  source
	visit   int32
	amount  int8
	portion int8
}

// estimate is a volume in mL and by how much one standard uncertainty of each
// term moves it (JCGM 100:2008, 5.1.2). A term in two estimates is the same error,
// so that it cancels, wholly or in part, where one is taken from the other.
type estimate struct {
	mL float64
	by []effect
}

type effect struct {
	term term
	mL   float64
}

func exactly(v quantity.Volume) estimate { return estimate{mL: float64(v)} }

// moved adds the effect of a term.
func (e estimate) moved(t term, mL float64) estimate {
	if mL == 0 {
		return e
	}
	by := make([]effect, len(e.by), len(e.by)+1)
	copy(by, e.by)
	return estimate{e.mL, append(by, effect{t, mL})}
}

// plus adds another estimate, times a factor.
func (e estimate) plus(other estimate, factor float64) estimate {
	sum := estimate{mL: e.mL + factor*other.mL, by: make([]effect, len(e.by), len(e.by)+len(other.by))}
	copy(sum.by, e.by)
next:
	for _, o := range other.by {
		for i := range e.by {
			if sum.by[i].term == o.term {
				sum.by[i].mL += factor * o.mL
				continue next
			}
		}
		sum.by = append(sum.by, effect{o.term, factor * o.mL})
	}
	return sum
}

func (e estimate) and(other estimate) estimate  { return e.plus(other, 1) }
func (e estimate) less(other estimate) estimate { return e.plus(other, -1) }
func (e estimate) times(factor float64) estimate {
	return estimate{}.plus(e, factor)
}

// within is the standard uncertainty in mL: the root of the sum of the squares.
func (e estimate) within() float64 {
	var sum float64
	for _, effect := range e.by {
		sum += effect.mL * effect.mL
	}
	return math.Sqrt(sum)
}

// beyond says whether the estimate is above a limit in mL by more than the measuring can
// explain.
func (e estimate) beyond(limit float64) bool { return e.mL-limit > Factor*e.within() }

// amount rounds to whole mL.
func (e estimate) amount() Amount {
	return Amount{quantity.Volume(math.Round(e.mL)), quantity.Volume(math.Round(e.within()))}
}

// mean is the plain mean of estimates.
func mean(list []estimate) estimate {
	var sum estimate
	for _, e := range list {
		sum = sum.plus(e, 1/float64(len(list)))
	}
	return sum
}

// best puts two estimates of one volume together with the weights for which the
// uncertainty of (from - the two together) is least; from is what they are held to.
func best(a, b, from estimate) estimate {
	da, db := from.less(a), from.less(b)
	va, vb := square(da.within()), square(db.within())
	between := square(da.less(db).within()) // va + vb - 2 cov
	if between == 0 {
		return a
	}
	share := (vb - va + between) / (2 * between) // of a: (vb - cov) / (va + vb - 2 cov)
	share = min(max(share, 0), 1)
	return a.times(share).plus(b, 1-share)
}

func square(x float64) float64 { return x * x }
