package check

import (
	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// Twin is a like machine of the same vessel, with its readings that are at hand.
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
	if b.Job.Meter.State != record.Running || b.Driver != nil {
		return
	}
	for _, twin := range b.Twins {
		if limit, alike := b.readsLike(twin); alike {
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
		was := b.before.Job.Hours - twin.Last.Hours
		if abs(apart) <= twinEqual {
			return twin.Now.Hours, abs(was) > twinEqual
		}
		rise := max(here-b.before.Job.Hours, twin.Now.Hours-twin.Last.Hours)
		shrank := abs(was) >= twinApart && abs(apart)*4 < abs(was) && abs(was-apart)*twinDrift > rise
		turned := abs(was) >= twinSwap && abs(apart+was)*4 < abs(was)
		return twin.Now.Hours, shrank || turned
	}
	if !known || b.use() == 0 {
		return 0, false
	}
	own, other := here-b.before.Job.Hours, here-twin.Last.Hours
	ownUsual := b.usual(own, b.here.Date.Sub(b.before.Job.Date))
	otherUsual := b.usual(other, b.here.Date.Sub(twin.Last.Date))
	return twin.Last.Hours, !ownUsual && otherUsual
}

// usual says whether a rise over so many days is ordinary for these machines.
func (b *bench) usual(rise quantity.Hours, days quantity.Days) bool {
	expected := quantity.Hours(int64(b.use()) * int64(days) * 100 / 36525)
	return rise >= 0 && rise <= 2*expected+useMargin
}

func abs(h quantity.Hours) quantity.Hours { return max(h, -h) }
