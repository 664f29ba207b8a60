package record

import (
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

func (r *reader) task(v *Task) {
	f := r.fields("")
	if f.has(1) {
		v.ID = r.text("id")
	}
	if f.has(2) {
		v.Title = r.text("title")
	}
	if f.has(3) {
		v.Kind = number[schedule.Kind](r, "kind")
	}
	if f.has(4) {
		v.Every = r.interval()
	}
	if f.has(5) {
		v.Leeway = r.leeway()
	}
	if f.has(6) {
		v.Last = new(r.last())
	}
	if f.has(7) {
		v.Due = r.due()
	}
	if f.has(8) {
		v.Result = number[Result](r, "result")
	}
	if f.has(9) {
		v.Answer = new(r.answer())
	}
	if f.has(10) {
		v.LookAgain = new(r.lookAgain())
	}
	if f.has(11) {
		v.Readings = list(r, "readings", MaxReadings, "reading", (*reader).reading)
	}
	if f.has(12) {
		v.DoneBy = r.text("done by")
	}
	if f.has(13) {
		v.Once = r.truth("once")
	}
	f.end()
}

func (r *reader) last() (v Last) {
	f := r.fields("last")
	if f.has(1) {
		v.Date = number[quantity.Date](r, "date")
	}
	if f.has(2) {
		v.Hours = number[quantity.Hours](r, "hours")
	}
	if f.has(3) {
		v.Stated = r.truth("stated")
	}
	f.end()
	return v
}

func (r *reader) answer() (v Answer) {
	f := r.fields("answer")
	if f.has(1) {
		v.Why = r.text("why")
	}
	if f.has(2) {
		v.Advice = number[Advice](r, "advice")
	}
	if f.has(3) {
		v.Told = new(number[quantity.Date](r, "told"))
	}
	if f.has(4) {
		v.Owner = number[OwnerAnswer](r, "owner")
	}
	f.end()
	return v
}

func (r *reader) lookAgain() (v LookAgain) {
	f := r.fields("look again")
	if f.has(1) {
		v.Hours = new(number[quantity.Hours](r, "hours"))
	}
	if f.has(2) {
		v.Date = new(number[quantity.Date](r, "date"))
	}
	f.end()
	return v
}

func (r *reader) reading(v *Reading) {
	f := r.fields("")
	if f.has(1) {
		v.Name = r.text("name")
	}
	if f.has(2) {
		v.Value = new(r.figure("value"))
	}
	if f.has(3) {
		v.AsFound = new(r.figure("as found"))
	}
	if f.has(4) {
		v.AsLeft = new(r.figure("as left"))
	}
	f.end()
}

func (r *reader) otherWork(v *OtherWork) {
	f := r.fields("")
	if f.has(1) {
		v.Text = r.text("text")
	}
	if f.has(2) {
		v.Result = number[Result](r, "result")
	}
	if f.has(3) {
		v.Answer = new(r.answer())
	}
	if f.has(4) {
		v.DoneBy = r.text("done by")
	}
	f.end()
}

func (r *reader) fluid(v *Fluid) {
	f := r.fields("")
	if f.has(1) {
		v.System = r.text("system")
	}
	if f.has(2) {
		v.LevelBefore = new(r.level("level before"))
	}
	if f.has(3) {
		v.Drained = new(r.measured("drained"))
	}
	if f.has(4) {
		v.WithFilter = new(r.truth("with filter"))
	}
	if f.has(5) {
		v.Filled = new(r.measured("filled"))
	}
	if f.has(6) {
		v.Level = new(r.level("level"))
	}
	if f.has(7) {
		v.Product = r.text("product")
	}
	if f.has(8) {
		v.Batch = r.text("batch")
	}
	if f.has(9) {
		v.Viscosity = r.text("viscosity")
	}
	if f.has(10) {
		v.Meets = list(r, "meets", MaxMeets, "meets", (*reader).met)
	}
	if f.has(11) {
		v.AtUpper = number[quantity.Volume](r, "at upper")
	}
	if f.has(12) {
		v.BetweenMarks = number[quantity.Volume](r, "between marks")
	}
	if f.has(13) {
		v.FilterHolds = number[quantity.Volume](r, "filter holds")
	}
	if f.has(14) {
		v.Holds = number[quantity.Volume](r, "holds")
	}
	if f.has(15) {
		v.Density = number[quantity.Density](r, "density")
	}
	if f.has(16) {
		v.DrawnDown = new(r.measured("drawn down"))
	}
	if f.has(17) {
		v.Glycol = number[Glycol](r, "glycol")
	}
	if f.has(18) {
		v.Saw = list(r, "seen", MaxSights, "seen", (*reader).sight)
	}
	if f.has(19) {
		v.Answer = new(r.answer())
	}
	if f.has(20) {
		v.Balance = new(r.balance())
	}
	f.end()
}

// met reads one of the specifications that a fluid meets.
func (r *reader) met(v *string) { *v = r.text("") }

func (r *reader) sight(v *Sight) { *v = number[Sight](r, "") }

func (r *reader) level(place string) (v Level) {
	f := r.fields(place)
	if f.has(1) {
		v.Reading = new(number[quantity.Ratio](r, "reading"))
	}
	if f.has(2) {
		v.After = new(number[quantity.Minutes](r, "after"))
	}
	if f.has(3) {
		v.At = new(number[quantity.Temperature](r, "at"))
	}
	f.end()
	return v
}

func (r *reader) topUp(v *TopUp) {
	f := r.fields("")
	if f.has(1) {
		v.System = r.text("system")
	}
	if f.has(2) {
		v.Amount = r.measured("amount")
	}
	f.end()
}

func (r *reader) waste(v *Waste) {
	f := r.fields("")
	if f.has(1) {
		v.System = r.text("system")
	}
	if f.has(2) {
		v.Amount = r.measured("amount")
	}
	if f.has(3) {
		v.To = r.text("to")
	}
	if f.has(4) {
		v.Receipt = r.text("receipt")
	}
	if f.has(5) {
		v.Held = r.text("held")
	}
	f.end()
}

func (r *reader) part(v *Part) {
	f := r.fields("")
	if f.has(1) {
		v.Item = r.text("item")
	}
	if f.has(2) {
		v.Number = r.text("number")
	}
	if f.has(3) {
		v.Quantity = number[uint](r, "quantity")
	}
	if f.has(4) {
		v.SuppliedBy = number[Supplier](r, "supplied by")
	}
	if f.has(5) {
		v.Serial = r.text("serial")
	}
	f.end()
}

func (r *reader) leakCheck() (v LeakCheck) {
	f := r.fields("leak check")
	if f.has(1) {
		v.Result = number[LeakResult](r, "result")
	}
	if f.has(2) {
		v.After = new(number[quantity.Minutes](r, "after"))
	}
	if f.has(3) {
		v.Where = r.text("where")
	}
	f.end()
	return v
}

func (r *reader) finding(v *Finding) {
	f := r.fields("")
	if f.has(1) {
		v.Code = number[Code](r, "code")
	}
	if f.has(2) {
		v.Severity = number[Severity](r, "severity")
	}
	if f.has(3) {
		v.Subject = r.text("subject")
	}
	if f.has(4) {
		v.Value = new(number[int64](r, "value"))
	}
	if f.has(5) {
		v.Limit = new(number[int64](r, "limit"))
	}
	if f.has(6) {
		v.Unit = number[Unit](r, "unit")
	}
	if f.has(7) {
		v.Text = r.text("text")
	}
	if f.has(8) {
		v.Accepted = r.text("accepted")
	}
	if f.has(9) {
		v.Within = new(number[int64](r, "standard uncertainty"))
	}
	f.end()
}
