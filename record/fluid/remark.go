package fluid

import (
	"hourseal/record/quantity"
)

// Factor is how many standard uncertainties a figure has to be beyond its limit
// before a rule fires. Two would give 4.6 % false alarms a rule (a normal
// distribution, two-sided); with this all rules together stay under 2 % of honest
// jobs, which a test of ten thousand holds.
const Factor = 2.7

// askFactor is that of a mere question.
const askFactor = 2

// LeftAtMost is the share of the content that a drain usually leaves in at most:
// common practice, no source.
const LeftAtMost quantity.Ratio = 150

// Kind is what a remark is about.
type Kind uint8

// The remarks. Value, Within and Limit are mL, where nothing else is said.
const (
	BeyondCorrection Kind = iota + 1 // Amount was measured at At, or the density is such, that Err
	DrainedBeyond                    // Value drained, Limit was in
	FillOffLevel                     // Value read, Limit expected, both 1/1000 of the span; Off mL more than expected
	FilterMiscounted                 // Value does not add up, Limit the filter holds; Off tells which way
	UnitSwapped                      // Value as written, Limit as Swapped
	OldOilLeft                       // Value left in, Limit what is left at most; Share of the fill
	OilGained                        // Value gained, Limit what chance explains
	OilUseRisen                      // Value now, Limit before, mL in 100 h; Count times before
	OilUseHeavy                      // Value now, Limit the span, mL in 100 h
	AtUpperDoubtful                  // Value by Count own changes, Limit the machine file's
	DrawnDown                        // Value drawn off after the fill, as measured
	FilledBeyond                     // Value filled, Limit the system holds
	WasteOffDrained                  // Value of waste, Limit drained
	WasteUnaccounted                 // no word of where what was drained went
)

// Deciding says whether a person has to decide.
func (k Kind) Deciding() bool {
	switch k {
	case DrainedBeyond, FillOffLevel, FilterMiscounted, UnitSwapped, OldOilLeft, OilGained, OilUseRisen, FilledBeyond, WasteOffDrained:
		return true
	}
	return false
}

// Remark is one thing that the figures say. Which fields count goes by its kind.
type Remark struct {
	Kind                 Kind
	Value, Within, Limit int64
	Off                  quantity.Volume
	Share                quantity.Ratio
	Count                int
	Amount               string // "drained", "filled", ...
	Written, Swapped     string // "2.4 imp gal", "2.4 US gal"
	FilterIs             FilterFault
	WithFilter           bool // Value has what the filter held in it
	AfterFill            bool // something was filled before
	At                   quantity.Temperature
	Err                  error
}

// FilterFault is what may have happened to the filter's oil.
type FilterFault uint8

const (
	FilterNotCounted FilterFault = iota + 1 // not drained with the rest, though it is said to be
	FilterTwice                             // drained with the rest, though it is said not to be
	FilterEmpty                             // the new one not full yet when the level was read
)

var amountNames = map[int8]string{
	ofToppedUp: "topped up", ofBefore: "level before", ofDrained: "drained", ofFilled: "filled", ofDrawnDown: "drawn down", ofAfter: "level",
}

// fault is how the last of the works does not add up; nil when it does. The first
// that is found speaks for the others, which would say the same again.
func (b bench) fault(past history, w workings) *Remark {
	if r := b.drainedBeyond(w); r != nil {
		return r
	}
	if r := b.offLevel(past, w, b.known); r != nil {
		return r
	}
	if r := b.filledBeyond(w); r != nil {
		return r
	}
	return b.oldOilLeft(w)
}

// drainedBeyond holds what came out to what was in: by the level before, or else
// no more than a system holds that is full to the brim of what is tolerated.
func (b bench) drainedBeyond(w workings) *Remark {
	if w.drained == nil {
		return nil
	}
	out := w.drained.and(w.filter)
	in := w.before
	switch {
	case in != nil && b.known:
	case in != nil:
		return nil // only a guess at the mark
	case b.known:
		in = new(b.upper.plus(exactly(b.BetweenMarks), of(LevelOverfilled-LevelUpper)))
	case b.Holds > 0:
		in = new(exactly(b.Holds).moved(term{source: fromUpper}, float64(b.Holds)*of(b.doubt.AtUpper)))
	default:
		return nil
	}
	over := out.less(*in)
	if !over.beyond(0) {
		return nil
	}
	r := b.remark(DrainedBeyond, over, out.mL, in.mL)
	r.WithFilter = w.filter.mL > 0
	return r
}

// filledBeyond holds what went in to what a system holds in all, where no level says
// more of it.
func (b bench) filledBeyond(w workings) *Remark {
	if w.filled == nil || w.after != nil {
		return nil
	}
	var most estimate
	switch {
	case b.known:
		most = b.upper.plus(exactly(b.BetweenMarks), of(LevelOverfilled-LevelUpper))
	case b.Holds > 0:
		most = exactly(b.Holds).moved(term{source: fromUpper}, float64(b.Holds)*of(b.doubt.AtUpper))
	default:
		return nil
	}
	over := w.filled.less(most)
	if !over.beyond(0) {
		return nil
	}
	return b.remark(FilledBeyond, over, w.filled.mL, most.mL)
}

// remark is one of an estimate that is beyond its limit.
func (b bench) remark(kind Kind, over estimate, value, limit float64) *Remark {
	return &Remark{Kind: kind, Value: round(value), Within: round(over.within()), Limit: round(limit)}
}

// off is how much more is in than expected; nil where either is not known.
func (b bench) off(past history, w workings) *estimate {
	expected := b.expected(past, w)
	if expected == nil || w.after == nil {
		return nil
	}
	return new(w.after.less(*expected))
}

// offLevel compares the level after with what is expected. Where nothing tells how
// much old oil was left in, and the mark is known, less in than was filled is still too
// little.
func (b bench) offLevel(past history, w workings, known bool) *Remark {
	off := b.off(past, w)
	expected := b.expected(past, w)
	if off == nil {
		if w.after == nil || w.filled == nil || !known {
			return nil
		}
		off, expected = new(w.after.less(*w.filled)), w.filled
		if off.mL >= 0 {
			return nil
		}
	}
	if !off.beyond(0) && !off.times(-1).beyond(0) {
		return nil
	}
	read, should := b.levelOf(w, *w.after), b.levelOf(w, *expected)
	if read == nil || should == nil {
		return nil
	}
	return &Remark{Kind: FillOffLevel, Value: int64(read.Reading), Limit: int64(should.Reading), Within: int64(should.Within), Off: off.amount().Volume}
}

// oldOilLeft asks about a change that left in more than drains usually do.
func (b bench) oldOilLeft(w workings) *Remark {
	if !b.known {
		return nil
	}
	left := b.left(w)
	shown := left // by the level after, as Account.Carried has it
	if own := b.byBefore(w); w.change && own != nil {
		if left == nil {
			left, shown = own, own
		} else {
			left = new(best(*left, *own, estimate{}))
		}
	}
	if left == nil || w.filled == nil {
		return nil
	}
	atMost := b.upper.times(of(LeftAtMost))
	over := left.less(atMost)
	if !over.beyond(0) {
		return nil
	}
	r := b.remark(OldOilLeft, over, shown.mL, atMost.mL)
	if w.filled.mL > 0 {
		r.Share = ratio(min(shown.mL/w.filled.mL, 1000))
	}
	return r
}

// markRemark asks whether the machine file's figure is right, once enough own
// changes say what brings the system to its upper mark: that, and a usual
// remainder, is what it should be.
func (b bench) markRemark(past history, w workings) []Remark {
	if now := b.left(w); now != nil {
		past.left = append(past.left[:len(past.left):len(past.left)], *now)
	}
	alike := past.alike()
	if !b.known || len(alike) < ownChanges {
		return nil
	}
	left := mean(alike)
	short := left.times(-1)
	long := left.less(b.upper.times(of(LeftAtMost)))
	for _, over := range []estimate{short, long} {
		if over.mL > askFactor*over.within() {
			r := b.remark(AtUpperDoubtful, left.less(b.upper), b.upper.mL-left.mL, b.upper.mL)
			r.Count = len(alike)
			return []Remark{*r}
		}
	}
	return nil
}
