package fluid

import (
	"math"

	"hourseal/record/quantity"
)

// mostUses is how many points a trend has, this visit's among them.
const mostUses = 12

func round(x float64) int64 { return int64(math.Round(x)) }

// per100 is what an estimate over some hours comes to in 100 h.
func (u use) per100() estimate {
	return u.used.times(float64(100*quantity.Hour) / float64(u.over))
}

func trendOf(uses []use) []Use {
	uses = uses[max(0, len(uses)-mostUses):]
	trend := make([]Use, len(uses))
	for i, u := range uses {
		trend[i] = Use{u.hours, u.per100().amount()}
	}
	return trend
}

// useRemarks are about the last of the uses.
func (b bench) useRemarks(uses []use) []Remark {
	now := uses[len(uses)-1]
	if gained := now.used.times(-1); gained.beyond(0) {
		return []Remark{*b.remark(OilGained, gained, gained.mL, Factor*gained.within())}
	}
	var remarks []Remark
	if risen := b.risen(uses); risen != nil {
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
func (b bench) risen(uses []use) *Remark {
	before := uses[max(0, len(uses)-mostUses) : len(uses)-1]
	if len(before) < trendPoints-1 {
		return nil
	}
	now := uses[len(uses)-1].per100()
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
