package fluid

import (
	"cmp"
	"math"
	"slices"

	"hourseal/record/quantity"
)

// Amount is a volume and its standard uncertainty.
type Amount struct{ Volume, Within quantity.Volume }

// LevelAmount is a dipstick reading, and the standard uncertainty of a reading less it.
type LevelAmount struct{ Reading, Within quantity.Ratio }

// Method is how oil used was worked out.
type Method uint8

const (
	ByLevels  Method = iota + 1
	ByVolumes        // no level was read before draining
)

// Account is what follows from the figures of the last of a system's visits. What
// does not follow is nil. Volumes of oil are at 15 degC.
type Account struct {
	Drained, Filled *Amount
	Level           *LevelAmount // expected after the job
	Carried         *Amount      // old oil still in after a change
	Used            *Amount      // since an earlier visit; below 0: gained
	Over            quantity.Hours
	By              Method
	Trend           []Use // oldest first, this visit last; none without Used, or over too few hours
	Remarks         []Remark
}

// Use is the oil used in 100 h up to a visit.
type Use struct {
	Hours  quantity.Hours // in total
	Per100 Amount
}

// AccountOf works out the last of a system's visits from all of them, oldest
// first. The package comment has the formulas.
func AccountOf(s System, d Doubt, visits []Visit) Account {
	if len(visits) == 0 {
		return Account{}
	}
	b := newBench(s, d, visits)
	works := make([]workings, len(visits))
	for i, v := range visits {
		works[i] = b.work(i, v)
	}
	var past history
	for i := range works[:len(works)-1] {
		past = b.closed(past, works[:i+1])
	}
	return b.account(past, works, visits[len(visits)-1])
}

// history is what is known from the visits before.
type history struct {
	left []estimate // old oil left in by each change that adds up, oldest first
	uses []use
}

// use is the oil used up to a visit, and the hours that it is over.
type use struct {
	hours, over quantity.Hours
	used        estimate
	by          Method
}

// ownChanges is how many changes of its own a system's usual figures are learnt
// from, at least; the last mostChanges of them count.
const (
	ownChanges  = 3
	mostChanges = 8
)

// closed adds the last of the works to the history. A change whose own level before,
// drain and fill contradict its level after teaches nothing; whether the machine file
// is right does not come into that.
func (b bench) closed(past history, works []workings) history {
	w := works[len(works)-1]
	if left := b.left(w); left != nil && b.offLevel(history{}, w, false) == nil {
		past.left = append(past.left, left.moved(term{source: fromExtraction, visit: w.visit}, b.varies()))
		past.left = past.left[max(0, len(past.left)-mostChanges):]
	}
	if u := b.used(works); u != nil && u.tells() {
		past.uses = append(past.uses, *u)
	}
	return past
}

// left is the old oil that a change left in: the content after it less what was filled.
func (b bench) left(w workings) *estimate {
	if !w.change || w.after == nil || w.filled == nil {
		return nil
	}
	return new(w.after.less(*w.filled))
}

// alike are the changes that left in as much as the middle one of them, as far as
// can be told: a drain that stopped early teaches nothing of the others.
func (past history) alike() []estimate {
	if len(past.left) == 0 {
		return nil
	}
	sorted := slices.Clone(past.left)
	slices.SortStableFunc(sorted, func(a, b estimate) int { return cmp.Compare(a.mL, b.mL) })
	middle := sorted[len(sorted)/2]
	var alike []estimate
	for _, left := range past.left {
		if !differ(left, middle) {
			alike = append(alike, left)
		}
	}
	return alike
}

// usual is the old oil that a change of this system leaves in, from its own changes;
// nil before there are three.
func (b bench) usual(past history, visit int32) *estimate {
	alike := past.alike()
	if len(alike) < ownChanges {
		return nil
	}
	return new(mean(alike).moved(term{source: fromExtraction, visit: visit}, b.varies()))
}

// varies is how much what a drain leaves in varies, in mL.
func (b bench) varies() float64 { return b.upper.mL * of(b.doubt.LeftByExtraction) }

// byBefore is the old oil that should be left in, by the level before, what came
// out and what went with the filter. Nothing drained leaves all of it.
func (b bench) byBefore(w workings) *estimate {
	if w.before == nil || w.change && w.drained == nil {
		return nil
	}
	left := w.before.less(w.filter)
	if w.drained != nil {
		left = left.less(*w.drained)
	}
	return &left
}

// expected is the content that the system should have after a visit, by what was
// in it, what came out and what went in; nil where that is not known. What its own
// changes usually leave in counts beside this visit's own figures, unless the two
// contradict each other: then more was left in, or less, than is usual.
func (b bench) expected(past history, w workings) *estimate {
	if w.unsureFilled {
		return nil
	}
	var filled estimate
	if w.filled != nil {
		filled = *w.filled
	}
	own := b.byBefore(w)
	var usual *estimate
	if w.change {
		usual = b.usual(past, w.visit)
	}
	switch {
	case own == nil && usual == nil:
		return nil
	case own == nil:
		return new(usual.and(filled))
	case usual == nil || w.after == nil || differ(*own, *usual):
		return new(own.and(filled))
	}
	return new(best(own.and(filled), usual.and(filled), *w.after))
}

func differ(a, b estimate) bool {
	d := a.less(b)
	return d.beyond(0) || d.times(-1).beyond(0)
}

// used is the oil used up to the last of the works since the nearest visit before
// it that says what was in; nil where that cannot be told.
func (b bench) used(works []workings) *use {
	now := works[len(works)-1]
	if b.Coolant || now.unsureTopped {
		return nil
	}
	var added estimate // since the visit that is tried
	if now.toppedUp != nil {
		added = *now.toppedUp
	}
	for i := len(works) - 2; i >= 0; i-- {
		then := works[i]
		over := now.hours - then.hours
		if over > 0 {
			if then.after != nil && now.before != nil {
				return &use{now.hours, over, then.after.and(added).less(*now.before), ByLevels}
			}
			// What a drain leaves in is taken as the same both times.
			if now.before == nil && then.change && then.filled != nil && now.drained != nil {
				used := then.filled.and(added).less(*now.drained).less(now.filter)
				used = used.moved(term{source: fromExtraction, visit: then.visit}, b.varies()).moved(term{source: fromExtraction, visit: now.visit}, b.varies())
				return &use{now.hours, over, used, ByVolumes}
			}
		}
		if then.change || then.unsureTopped || then.unsureFilled {
			return nil
		}
		for _, more := range []*estimate{then.toppedUp, then.filled} {
			if more != nil {
				added = added.and(*more)
			}
		}
	}
	return nil
}

func (b bench) account(past history, works []workings, v Visit) Account {
	w := works[len(works)-1]
	a := Account{Drained: amountOf(w.drained), Filled: amountOf(w.poured), Remarks: w.beyond}
	expected := b.expected(past, w)
	if expected != nil {
		a.Level = b.levelOf(w, *expected)
	}
	if left := b.left(w); left != nil && b.known {
		a.Carried = amountOf(left)
	}
	doubted := false // what was drained is found at fault already: by volumes, oil used would only repeat that
	if fault := b.fault(past, w); fault != nil {
		r := b.explained(past, works, v, *fault)
		doubted = r.Kind == DrainedBeyond || r.Kind == UnitSwapped
		a.Remarks = append(a.Remarks, r)
	}
	if u := b.used(works); u != nil && amountOf(&u.used) != nil {
		a.Used, a.Over, a.By = amountOf(&u.used), u.over, u.by
		if u.tells() {
			a.Trend = trendOf(append(past.uses, *u))
		}
		if !doubted || u.by == ByLevels {
			a.Remarks = append(a.Remarks, b.useRemarks(past.uses, *u)...)
		}
	}
	if w.drawnDown != nil {
		a.Remarks = append(a.Remarks, Remark{Kind: DrawnDown, Value: int64(*w.drawnDown), AfterFill: w.poured != nil})
	}
	a.Remarks = append(a.Remarks, b.markRemark(past, w)...)
	return a
}

// amountOf is an estimate as it is handed out; nil beyond what a volume may be.
func amountOf(e *estimate) *Amount {
	if e == nil || math.Abs(e.mL) > float64(quantity.MaxVolume) || e.within() > float64(quantity.MaxVolume) {
		return nil
	}
	return new(e.amount())
}

// levelOf is the reading that a content gives, at the temperature at which the
// level was read.
func (b bench) levelOf(w workings, content estimate) *LevelAmount {
	span := float64(b.BetweenMarks)
	if span <= 0 || !b.known && w.after == nil {
		return nil
	}
	factor, _, err := b.factor(0, w.afterAt)
	if err != nil {
		return nil
	}
	off := content
	if w.after != nil {
		off = content.less(*w.after)
	}
	full := b.upper.times(factor)
	reading, within := 1+(content.mL-full.mL)/(factor*span), off.within()/(factor*span)
	if math.Abs(reading) > of(quantity.MaxRatio) || within > of(quantity.MaxRatio) {
		return nil // marks a hair apart
	}
	return &LevelAmount{Reading: ratio(reading), Within: ratio(within)}
}

func ratio(share float64) quantity.Ratio {
	return quantity.Ratio(math.Round(share * float64(quantity.One)))
}
