package fluid

import (
	"fmt"
	"math"

	"hourseal/record/quantity"
)

// System is what the machine file says of a fluid system; 0 is unknown.
type System struct {
	AtUpper      quantity.Volume // at the upper mark, new filter included
	BetweenMarks quantity.Volume
	FilterHolds  quantity.Volume
	Holds        quantity.Volume // of a system without marks
	Density      quantity.Density
	Coolant      bool              // not corrected for temperature
	Plug         bool              // drained by a plug into a jug, not by an extractor
	Cans         []quantity.Volume // sizes that the yard stocks sealed; none: UsualCans
}

// UsualCans are taken for sealed where the yard does not state its cans: common
// practice, no source.
var UsualCans = []quantity.Volume{5 * quantity.Litre, 20 * quantity.Litre}

// mostCans of one size make an amount that is taken to have come out of sealed
// cans; more is more likely to have been measured: common practice, no source.
const mostCans = 6

// Filter says what became of the filter's oil on a visit.
type Filter uint8

const (
	FilterKept       Filter = iota // the filter was not changed
	FilterUnsaid                   // changed; no word of whether Drained has its oil in it
	FilterInDrained                // changed; Drained includes what it held
	FilterNotDrained               // changed; Drained does not
)

// Visit is what was measured of a system on one visit. Nil is not mentioned.
type Visit struct {
	Hours     quantity.Hours // in total
	ToppedUp  *quantity.Measured
	Before    *Level
	Drained   *quantity.Measured
	Filter    Filter
	Filled    *quantity.Measured
	DrawnDown *quantity.Measured // after the fill
	After     *Level
}

// Level is a dipstick reading, 0 for the lower mark and 1000 for the upper, and
// the oil's temperature; nil where it is not stated.
type Level struct {
	Reading quantity.Ratio
	At      *quantity.Temperature
}

// The amounts of a visit, for the terms of their errors.
const (
	ofToppedUp = iota + 1
	ofBefore
	ofDrained
	ofFilled
	ofDrawnDown
	ofAfter
	ofWaste
)

// workings is a visit worked out at 15 degC (coolant: as measured); nil for what
// was not measured or is not known.
type workings struct {
	visit                      int32
	hours                      quantity.Hours
	change                     bool // something was drained, measured or not
	toppedUp, drained, poured  *estimate
	filled                     *estimate // poured less what was drawn down
	before, after              *estimate // content by the level
	afterAt                    quantity.Temperature
	filter                     estimate         // what left with the old filter, beside what was drained
	drawnDown                  *quantity.Volume // as measured
	drawnOff                   *estimate        // at 15 degC
	unsureFilled, unsureTopped bool             // something was, and it was not measured
	beyond                     []Remark
}

// bench is what every sum about a system starts from.
type bench struct {
	System
	doubt Doubt
	upper estimate
	known bool // upper is more than a guess
}

func newBench(s System, d Doubt, visits []Visit) bench {
	if d == (Doubt{}) {
		d = TradeDoubt
	}
	b := bench{System: s, doubt: d, known: s.AtUpper > 0}
	if s.Coolant && s.Density == 0 {
		b.Density = AssumedCoolantDensity
	}
	upper, share := s.AtUpper, d.AtUpper
	if !b.known {
		// Differences of levels need the content at the mark for the oil's
		// expansion only: the largest fill is near enough.
		for _, v := range visits {
			if v.Filled != nil {
				upper = max(upper, Volume(*v.Filled, s.Density))
			}
		}
		share = 200
	}
	b.upper = exactly(upper).moved(term{source: fromUpper}, float64(upper)*of(share))
	return b
}

func of(r quantity.Ratio) float64 { return float64(r) / float64(quantity.One) }

// work works one visit out.
func (b bench) work(n int, v Visit) workings {
	w := workings{visit: int32(n), hours: v.Hours, change: v.Drained != nil, afterAt: AssumedLevel.At}
	w.toppedUp = b.amount(&w, ofToppedUp, v.ToppedUp, AssumedFilled, b.stated)
	w.drained = b.amount(&w, ofDrained, v.Drained, AssumedDrained, b.extracted)
	w.poured = b.amount(&w, ofFilled, v.Filled, AssumedFilled, b.measuredOut)
	w.filled = w.poured
	drawn := b.amount(&w, ofDrawnDown, v.DrawnDown, AssumedLevel, b.extracted)
	w.drawnOff = drawn
	if drawn != nil {
		w.drawnDown = new(Volume(*v.DrawnDown, b.Density))
		if v.Filled == nil {
			w.filled = new(drawn.times(-1))
		} else if w.poured != nil {
			w.filled = new(w.poured.less(*drawn))
		}
	}
	w.unsureTopped = unsure(v.ToppedUp, w.toppedUp)
	w.unsureFilled = unsure(v.Filled, w.poured) || unsure(v.DrawnDown, drawn)
	w.before = b.content(&w, ofBefore, v.Before)
	w.after = b.content(&w, ofAfter, v.After)
	if v.After != nil && v.After.At != nil {
		w.afterAt = *v.After.At
	}
	if v.Filter != FilterKept {
		w.filter = b.filterOut(w.visit, v.Filter)
	}
	return w
}

// unsure says whether there was something of which the volume is not known.
func unsure(m *quantity.Measured, e *estimate) bool { return m != nil && e == nil }

// filterOut is what left with the old filter beside what was drained. Where nobody
// says, it was all or nothing: a half, give or take a half.
func (b bench) filterOut(visit int32, f Filter) estimate {
	holds := float64(b.FilterHolds)
	t := term{source: fromFilter, visit: visit}
	switch f {
	case FilterNotDrained:
		return estimate{mL: holds}.moved(t, holds*of(b.doubt.Filter))
	case FilterUnsaid:
		return estimate{mL: holds / 2}.moved(t, holds/2)
	default:
		return estimate{}
	}
}

// stated, extracted and measuredOut are the uncertainty of one portion, in mL of a
// volume of v mL, by how it is measured.
func (b bench) stated(v float64, _ quantity.Portion) float64 { return v * of(b.doubt.ToppedUp) }

func (b bench) extracted(v float64, p quantity.Portion) float64 {
	switch {
	case p.Unit.IsMass():
		return b.weighed()
	case b.Plug:
		return b.jugged(v)
	}
	return greater(v, b.doubt.Extractor, b.doubt.ExtractorLeast)
}

func (b bench) jugged(v float64) float64 {
	return greater(v, b.doubt.Jug, b.doubt.JugLeast)
}

// leastAtMost is the share of an amount that a least uncertainty is held to: nobody
// measures a third of a litre to a quarter. Common practice, no source.
const leastAtMost quantity.Ratio = 100

// greater is a share of v, or a least, whichever is greater.
func greater(v float64, share quantity.Ratio, least quantity.Volume) float64 {
	return max(v*of(share), min(float64(least), v*of(leastAtMost)))
}

func (b bench) measuredOut(v float64, p quantity.Portion) float64 {
	switch {
	case p.Unit.IsMass():
		return b.weighed()
	case b.sealed(quantity.Volume(p.Amount)):
		return v * of(b.doubt.Can)
	}
	return b.jugged(v)
}

func (b bench) weighed() float64 {
	return float64(b.doubt.HangingScale) * 1000 / float64(densityOr(b.Density))
}

// sealed says whether an amount is a few cans of one size.
func (b bench) sealed(v quantity.Volume) bool {
	cans := b.Cans
	if len(cans) == 0 {
		cans = UsualCans
	}
	for _, can := range cans {
		// A can of 1 US qt is 946 mL as stored, five of them 4732: half a mL a can.
		n := (v + can/2) / can
		if off := v - n*can; n >= 1 && n <= mostCans && off <= n && off >= -n {
			return true
		}
	}
	return false
}

// assumedDensityWithin is how far AssumedDensity may be out: 854 to 890 kg/m3, as a
// rectangular distribution (JCGM 100:2008, 4.3.7).
var assumedDensityWithin = 18 / math.Sqrt(3)

func densityOr(d quantity.Density) quantity.Density {
	if d <= 0 {
		return AssumedDensity
	}
	return d
}

// amount is a sum of portions at 15 degC; nil where it was not measured, or where
// a portion cannot be corrected, which w is told.
func (b bench) amount(w *workings, which int8, m *quantity.Measured, usual Assumed, doubt func(float64, quantity.Portion) float64) *estimate {
	if m == nil || m.NotMeasured {
		return nil
	}
	var sum estimate
	at := term{source: fromTemperature, visit: w.visit, amount: which}
	for i, p := range m.Portions {
		one := quantity.Measured{Portions: []quantity.Portion{p}}
		volume := exactly(Volume(one, b.Density))
		if p.Unit.IsMass() {
			if b.Density <= 0 {
				volume = volume.moved(term{source: fromDensity}, volume.mL*assumedDensityWithin/float64(AssumedDensity))
			}
		} else if b.Coolant {
			if err := coolantAt(p.At); err != nil {
				w.beyond = append(w.beyond, Remark{Kind: BeyondCorrection, Amount: amountNames[which], At: *p.At, Err: err})
				return nil
			}
		} else {
			t, within := usual.taken(p.At, b.doubt.Thermometer)
			factor, slope, err := b.factor(quantity.Volume(p.Amount), t)
			if err != nil {
				w.beyond = append(w.beyond, Remark{Kind: BeyondCorrection, Amount: amountNames[which], At: t, Err: err})
				return nil
			}
			volume = volume.times(factor).moved(at, volume.mL*slope*within)
		}
		volume = volume.moved(term{fromAmount, w.visit, which, int8(i)}, doubt(volume.mL, p))
		sum = sum.and(volume)
	}
	return &sum
}

// Coolant is not corrected, but nobody measures it out colder or hotter than this:
// common practice, no source.
const (
	coldestCoolant = -60 * quantity.Degree
	hottestCoolant = 150 * quantity.Degree
)

func coolantAt(t *quantity.Temperature) error {
	if t == nil || *t >= coldestCoolant && *t <= hottestCoolant {
		return nil
	}
	return fmt.Errorf("temperature %v: coolant is measured from %v to %v: write the temperature at which it was measured", *t, coldestCoolant, hottestCoolant)
}

// taken is a temperature as written or as usual, and its standard uncertainty in
// 1/10 K: the thermometer's, or that of a rectangular distribution.
func (a Assumed) taken(at *quantity.Temperature, thermometer quantity.Temperature) (t quantity.Temperature, within float64) {
	if at != nil {
		return *at, float64(thermometer)
	}
	return a.At, float64(a.Within) / math.Sqrt(3)
}

// factor is the VCF at t, and what it changes by in 1/10 K.
func (b bench) factor(v quantity.Volume, t quantity.Temperature) (factor, slope float64, err error) {
	factor, err = correction(v, t, b.Density)
	if err != nil {
		return 0, 0, err
	}
	alpha := expansion / float64(densityOr(b.Density)) / float64(quantity.Degree) // a 1/10 K
	return factor, -factor * alpha * (1 + 1.6*alpha*float64(t-correctionBase)), nil
}

// content is the oil in the system by its level, at 15 degC; nil without marks, and
// for coolant.
func (b bench) content(w *workings, which int8, l *Level) *estimate {
	if l == nil || b.BetweenMarks <= 0 || b.upper.mL <= 0 || b.Coolant {
		return nil
	}
	span := float64(b.BetweenMarks)
	content := b.upper.plus(exactly(b.BetweenMarks), of(l.Reading)-1)
	if content.mL <= 0 || content.mL > float64(quantity.MaxVolume) {
		return nil
	}
	t, within := AssumedLevel.taken(l.At, b.doubt.Thermometer)
	factor, slope, err := b.factor(quantity.Volume(content.mL), t)
	if err != nil {
		w.beyond = append(w.beyond, Remark{Kind: BeyondCorrection, Amount: amountNames[which], At: t, Err: err})
		return nil
	}
	reading := of(b.doubt.DipstickReading)
	common := math.Sqrt(max(0, square(of(b.doubt.Dipstick))-square(reading)))
	where := term{source: fromReading, visit: w.visit, amount: which}
	inner := content.moved(term{source: fromDipstick}, span*common).moved(where, span*reading)
	where.source = fromTemperature
	return new(inner.times(factor).moved(where, content.mL*slope*within))
}
