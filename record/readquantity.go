package record

import (
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// The parts of a record whose types are of package quantity or schedule, which
// know nothing of a record's bytes but the numbers of their keys.

func (r *reader) point(place string) (v schedule.Point) {
	f := r.fields(place)
	if f.has(1) {
		v.Date = number[quantity.Date](r, "date")
	}
	if f.has(2) {
		v.Hours = number[quantity.Hours](r, "hours")
	}
	f.end()
	return v
}

func (r *reader) basis() (v schedule.Basis) {
	f := r.fields("basis")
	if f.has(1) {
		v.Kind = number[schedule.BasisKind](r, "kind")
	}
	if f.has(2) {
		v.Document = r.text("document")
	}
	if f.has(3) {
		v.Edition = r.text("edition")
	}
	if f.has(4) {
		v.Page = r.text("page")
	}
	f.end()
	return v
}

func (r *reader) interval() (v schedule.Interval) {
	f := r.fields("every")
	if f.has(1) {
		v.Hours = number[quantity.Hours](r, "hours")
	}
	if f.has(2) {
		v.Months = number[quantity.Months](r, "months")
	}
	f.end()
	return v
}

func (r *reader) leeway() (v schedule.Leeway) {
	f := r.fields("leeway")
	if f.has(1) {
		v.Hours = number[quantity.Hours](r, "hours")
	}
	if f.has(2) {
		v.Days = number[quantity.Days](r, "days")
	}
	f.end()
	return v
}

func (r *reader) due() (v schedule.Due) {
	f := r.fields("due")
	if f.has(1) {
		v.Hours = new(number[quantity.Hours](r, "hours"))
	}
	if f.has(2) {
		v.Date = new(number[quantity.Date](r, "date"))
	}
	f.end()
	return v
}

func (r *reader) measured(place string) (v quantity.Measured) {
	f := r.fields(place)
	if f.has(1) {
		v.Portions = list(r, "", quantity.MaxPortions, "amount", (*reader).portion)
	}
	if f.has(2) {
		v.NotMeasured = r.truth("not measured")
	}
	f.end()
	return v
}

func (r *reader) portion(v *quantity.Portion) {
	f := r.fields("")
	if f.has(1) {
		v.Amount = number[int64](r, "figure")
	}
	if f.has(2) {
		v.Unit = number[quantity.Unit](r, "unit")
	}
	if f.has(3) {
		v.Places = number[uint8](r, "places")
	}
	if f.has(4) {
		v.At = new(number[quantity.Temperature](r, "at"))
	}
	f.end()
}

func (r *reader) figure(place string) (v quantity.Figure) {
	f := r.fields(place)
	if f.has(1) {
		v.Digits = number[int64](r, "digits")
	}
	if f.has(2) {
		v.Places = number[uint8](r, "places")
	}
	if f.has(3) {
		v.Unit = r.text("unit")
	}
	f.end()
	return v
}
