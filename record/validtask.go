package record

import (
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// A due point lies at most one interval beyond what may be written.
const (
	latestDue = quantity.MaxDate + quantity.Date(quantity.MaxDays)
	mostDue   = 2 * quantity.MaxHours
)

func (t *Task) check(c *checker) {
	c.id("id", t.ID)
	c.required("title", t.Title)
	c.require(t.Kind.Valid(), "kind", "unknown value")
	c.hours("interval", t.Every.Hours)
	c.within("interval months", int64(t.Every.Months), 0, int64(quantity.MaxMonths))
	c.hours("grace", t.Leeway.Hours)
	c.within("grace days", int64(t.Leeway.Days), 0, int64(quantity.MaxDays))
	if t.Last != nil {
		c.date("last done", t.Last.Date)
		c.hours("last done", t.Last.Hours)
	}
	c.require(t.Every != schedule.Interval{}, "interval", "neither hours nor months")
	if t.Once && t.Last != nil {
		c.require(t.Due == schedule.Due{}, "due", "a one-time task that was done falls due no more")
	} else {
		c.require((t.Due.Hours != nil) == (t.Every.Hours != 0), "due", "is by hours where the interval has hours, and only there")
		c.require((t.Due.Date != nil) == (t.Every.Months != 0), "due", "is by date where the interval has months, and only there")
	}
	if t.Due.Hours != nil {
		c.within("due", int64(*t.Due.Hours), 0, int64(mostDue))
	}
	if t.Due.Date != nil {
		c.within("due", int64(*t.Due.Date), int64(quantity.MinDate), int64(latestDue))
	}
	enum(c, "result", t.Result, ResultWords, true)
	if t.Result == 0 {
		c.require(t.Answer == nil && t.LookAgain == nil && len(t.Readings) == 0 && t.DoneBy == "", "result",
			"is missing, but something is said of the task")
	}
	t.Answer.check(c, t.Result)
	if look := t.LookAgain; look != nil {
		if look.Hours != nil {
			c.hours("look again", *look.Hours)
		}
		if look.Date != nil {
			c.date("look again", *look.Date)
		}
		c.require(look.Hours != nil || look.Date != nil, "look again", "names neither hours nor a date")
	}
	c.count("readings", len(t.Readings), MaxReadings)
	for i := range t.Readings {
		var found checker
		t.Readings[i].check(&found)
		c.in("reading", i, found)
	}
	c.text("done by", t.DoneBy, MaxText)
}

// check holds an answer to its result: what is found and left, or put off, has
// a reason.
func (a *Answer) check(c *checker, result Result) {
	if a == nil {
		c.require(result != Defect && result != Deferred, "why", "a defect or put-off task has no reason")
		return
	}
	c.text("why", a.Why, MaxReason)
	c.require(a.Why != "" || result != Defect && result != Deferred, "why", "a defect or put-off task has no reason")
	enum(c, "advice", a.Advice, AdviceWords, true)
	enum(c, "owner", a.Owner, OwnerWords, true)
	if a.Told != nil {
		c.date("told", *a.Told)
	}
	c.require(*a != Answer{}, "answer", "is empty")
}

func (r *Reading) check(c *checker) {
	c.required("name", r.Name)
	c.require((r.Value != nil) != (r.AsFound != nil || r.AsLeft != nil), r.Name, "is a single value, or as found and as left")
	for _, f := range []*quantity.Figure{r.Value, r.AsFound, r.AsLeft} {
		if f != nil {
			if err := f.Valid(); err != nil {
				c.fail(r.Name, "%v", err)
			}
		}
	}
}

func (w *OtherWork) check(c *checker) {
	c.require(w.Text != "", "text", "is empty")
	c.text("text", w.Text, MaxReason)
	enum(c, "result", w.Result, ResultWords, false)
	w.Answer.check(c, w.Result)
	c.text("done by", w.DoneBy, MaxText)
}
