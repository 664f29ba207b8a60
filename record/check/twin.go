package check

import (
	"slices"

	"hourseal/record"
	"hourseal/record/logbook"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// Twin is a like machine of the same vessel, with its readings that are at hand;
// of a machine that an engine drives, that engine and the engines like it.
type Twin struct {
	ID   string
	Last *schedule.Point // its last record before this job
	Now  *schedule.Point // its reading on this visit, from another sheet or record of these days
}

// How far apart twins' readings have to be before one can be told from the
// other. Our own rule of thumb, no source.
const (
	twinEqual = quantity.Hours(5)   // 0.05 h: the same figure
	twinSwap  = quantity.Hours(100) // 1 h: below it a swap is lost in what the meters are out
	twinApart = quantity.Hours(500) // 5 h: told apart at a glance
	twinDrift = 10                  // honest twins' rises differ by up to one in ten
)

// twinRule catches one engine's reading on the other's sheet.
func twinRule(b *bench) {
	if b.Job.Meter.State != record.Running {
		return
	}
	reads := b.readsLike
	if b.Driver != nil {
		reads = b.readsLikeOtherEngine
	}
	for _, twin := range b.Twins {
		if limit, alike := reads(twin); alike {
			b.find(record.Decide, "hours", record.Finding{Code: record.ReadsLikeTwin, Subject: twin.ID, Value: num(b.here.Hours), Limit: num(limit), Unit: record.InHours})
		}
	}
}

// readsLike compares this reading with a twin's. With the twin's reading of the
// same visit: the same figure, unless the two stood alike before; or a distance
// that turned round, or shrank to less than a quarter of what it was and by more
// than twins drift. Without one: a rise that is odd for this machine and
// ordinary for the twin, where their use is known.
func (b *bench) readsLike(twin Twin) (quantity.Hours, bool) {
	here := b.here.Hours
	known := b.before != nil && twin.Last != nil
	if twin.Now != nil {
		apart := here - twin.Now.Hours
		if !known {
			return twin.Now.Hours, abs(apart) <= twinEqual
		}
		was := b.before.Record.Job.Hours - twin.Last.Hours
		if abs(apart) <= twinEqual {
			return twin.Now.Hours, abs(was) > twinEqual
		}
		rise := max(here-b.before.Record.Job.Hours, twin.Now.Hours-twin.Last.Hours)
		shrank := abs(was) >= twinApart && abs(apart)*4 < abs(was) && abs(was-apart)*twinDrift > rise
		turned := abs(was) >= twinSwap && abs(apart+was)*4 < abs(was)
		return twin.Now.Hours, shrank || turned
	}
	if !known || !b.useKnown() {
		return 0, false
	}
	return twin.Last.Hours, !b.usual(logbook.PointOf(b.before.Record)) && b.usual(*twin.Last)
}

// engineRule holds a machine that an engine drives to what the engine's own meter
// reads on the same visit. A trial run lies between the two at most.
func engineRule(b *bench) {
	if b.Driver == nil || b.Job.Meter.State != record.Running {
		return
	}
	i := slices.IndexFunc(b.Twins, func(t Twin) bool { return t.ID == b.Driver.ID })
	if i < 0 || b.Twins[i].Now == nil {
		return
	}
	if reads := b.Twins[i].Now.Hours; abs(b.here.Hours-reads) > twinApart {
		b.find(record.Decide, "hours", record.Finding{Code: record.HoursOffEngine, Subject: b.Driver.ID, Value: num(b.here.Hours), Limit: num(reads), Unit: record.InHours})
	}
}

// readsLikeOtherEngine is for a machine that an engine drives: the hours are the
// figure of another engine's reading of the same visit, and not its own engine's.
func (b *bench) readsLikeOtherEngine(twin Twin) (quantity.Hours, bool) {
	i := slices.IndexFunc(b.Twins, func(t Twin) bool { return t.ID == b.Driver.ID })
	if i < 0 || twin.ID == b.Driver.ID || twin.Now == nil || b.Twins[i].Now == nil {
		return 0, false
	}
	own, other := abs(b.here.Hours-b.Twins[i].Now.Hours), abs(b.here.Hours-twin.Now.Hours)
	return twin.Now.Hours, other <= twinEqual && own > twinEqual
}

// usual says whether the rise from a point is ordinary for these machines.
func (b *bench) usual(from schedule.Point) bool {
	rise, expected := b.here.Hours-from.Hours, b.use.Between(from.Date, b.here.Date)
	return rise >= 0 && rise <= 2*expected+useMargin
}

func abs(h quantity.Hours) quantity.Hours { return max(h, -h) }
