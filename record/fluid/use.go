package fluid

import (
	"cmp"
	"math"
	"slices"

	"hourseal/record/quantity"
)

// mostUses is how many points a trend has, this visit's among them.
const mostUses = 12

func round(x float64) int64 { return int64(math.Round(x)) }

// per100 is what an estimate over some hours comes to in 100 h.
func (u use) per100() estimate {
	return u.used.times(float64(100*quantity.Hour) / float64(u.over))
}

// leastHours is what a machine has to run before oil used says something of its use
// in 100 h: our own rule of thumb.
const leastHours = 20 * quantity.Hour

func (u use) tells() bool { return u.over >= leastHours && amountOf(new(u.per100())) != nil }

// trendOf is by the hours, which late estimates may have left out of order.
func trendOf(uses []use) []Use {
	now := uses[len(uses)-1].hours
	var trend []Use
	for _, u := range uses {
		if u.hours <= now {
			trend = append(trend, Use{u.hours, u.per100().amount()})
		}
	}
	slices.SortStableFunc(trend, func(a, b Use) int { return cmp.Compare(a.Hours, b.Hours) })
	return trend[max(0, len(trend)-mostUses):]
}

// useRemarks are about the oil used up to a visit, after those before it.
func (b bench) useRemarks(before []use, now use) []Remark {
	if gained := now.used.times(-1); gained.beyond(0) {
		return []Remark{*b.remark(OilGained, gained, gained.mL, Factor*gained.within())}
	}
	if !now.tells() {
		return nil
	}
	var remarks []Remark
	if risen := b.risen(before, now); risen != nil {
		remarks = append(remarks, *risen)
	}
	span := float64(b.BetweenMarks)
	if rate := now.per100(); span > 0 && rate.beyond(span) {
		remarks = append(remarks, *b.remark(OilUseHeavy, rate, rate.mL, span))
	}
	return remarks
}

// trendPoints is how many uses, this one among them, make a trend.
const trendPoints = 3

// risen compares the last use with the weighted mean of those before it. Where
// these are further apart than their uncertainties explain, all uncertainties are
// widened by the Birge ratio (R. T. Birge, Physical Review 40, 1932, 207).
func (b bench) risen(before []use, last use) *Remark {
	before = before[max(0, len(before)-mostUses+1):]
	if len(before) < trendPoints-1 {
		return nil
	}
	now := last.per100()
	var sum, weights float64
	for _, u := range before {
		rate := u.per100()
		w := 1 / square(rate.within())
		sum, weights = sum+w*rate.mL, weights+w
	}
	usual := sum / weights
	var chi2 float64
	for _, u := range before {
		rate := u.per100()
		chi2 += square((rate.mL - usual) / rate.within())
	}
	birge := math.Sqrt(max(1, chi2/float64(len(before)-1)))
	within := birge * math.Sqrt(square(now.within())+1/weights)
	if now.mL-usual <= Factor*within {
		return nil
	}
	return &Remark{Kind: OilUseRisen, Value: round(now.mL), Limit: round(usual), Within: round(within), Count: len(before)}
}
