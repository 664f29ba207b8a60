package record

import "hourseal/record/quantity"

func (r *reader) balance() (v Balance) {
	f := r.fields("balance")
	if f.has(1) {
		v.Drained = new(r.estimate("drained"))
	}
	if f.has(2) {
		v.Filled = new(r.estimate("filled"))
	}
	if f.has(3) {
		v.Level = new(r.levelEstimate())
	}
	if f.has(4) {
		v.Carried = new(r.estimate("carried over"))
	}
	if f.has(5) {
		v.Used = new(r.estimate("used"))
	}
	if f.has(6) {
		v.Over = number[quantity.Hours](r, "used over")
	}
	if f.has(7) {
		v.By = number[Method](r, "used by")
	}
	if f.has(8) {
		v.OfFuelPPM = number[int64](r, "used of fuel")
	}
	if f.has(9) {
		v.PerEnergyMgKWh = number[int64](r, "used per kWh")
	}
	if f.has(10) {
		v.Trend = list(r, "trend", MaxTrend, "trend", (*reader).use)
	}
	f.end()
	return v
}

func (r *reader) estimate(place string) (v Estimate) {
	f := r.fields(place)
	if f.has(1) {
		v.Volume = number[quantity.Volume](r, "volume")
	}
	if f.has(2) {
		v.Within = number[quantity.Volume](r, "standard uncertainty")
	}
	f.end()
	return v
}

func (r *reader) levelEstimate() (v LevelEstimate) {
	f := r.fields("level")
	if f.has(1) {
		v.Reading = number[quantity.Ratio](r, "reading")
	}
	if f.has(2) {
		v.Within = number[quantity.Ratio](r, "standard uncertainty")
	}
	f.end()
	return v
}

func (r *reader) use(v *Use) {
	f := r.fields("")
	if f.has(1) {
		v.Hours = number[quantity.Hours](r, "hours")
	}
	if f.has(2) {
		v.Per100 = number[quantity.Volume](r, "in 100 h")
	}
	if f.has(3) {
		v.Within = number[quantity.Volume](r, "standard uncertainty")
	}
	f.end()
}
