package record

import (
	"slices"

	"hourseal/record/quantity"
)

// mostShare bounds what is worked out as a share of the fuel or of the energy.
const mostShare = 1_000_000_000

func (f *Fluid) check(c *checker) {
	c.id("system", f.System)
	c.level("level before", f.LevelBefore)
	c.measured("drained", f.Drained)
	c.measured("filled", f.Filled)
	c.level("level", f.Level)
	c.text("product", f.Product, MaxText)
	c.text("batch", f.Batch, MaxText)
	c.text("viscosity", f.Viscosity, MaxText)
	c.count("meets", len(f.Meets), MaxMeets)
	for _, m := range f.Meets {
		c.required("meets", m)
	}
	for _, v := range []quantity.Volume{f.AtUpper, f.BetweenMarks, f.FilterHolds, f.Holds} {
		c.within("machine figure", int64(v), 0, int64(quantity.MaxVolume))
	}
	c.within("density", int64(f.Density), 0, int64(quantity.MaxDensity))
	c.measured("drawn down", f.DrawnDown)
	enum(c, "glycol", f.Glycol, GlycolWords, true)
	f.checkSeen(c)
	f.Balance.check(c)
}

func (c *checker) level(field string, l *Level) {
	if l == nil {
		return
	}
	if l.Reading != nil {
		c.within(field, int64(*l.Reading), int64(quantity.MinRatio), int64(quantity.MaxRatio))
	}
	c.minutes(field, l.After)
	if l.At != nil {
		c.within(field+" temperature", int64(*l.At), int64(quantity.MinTemperature), int64(quantity.MaxTemperature))
	}
}

// checkSeen holds what was seen in a fluid to itself, and the answer to it.
func (f *Fluid) checkSeen(c *checker) {
	c.count("seen", len(f.Saw), MaxSights)
	for i, s := range f.Saw {
		enum(c, "seen", s, SightWords, false)
		c.require(!slices.Contains(f.Saw[:i], s), "seen", "the same twice")
	}
	nothing := slices.Contains(f.Saw, SawNothing)
	c.require(!nothing || len(f.Saw) == 1, "seen", "nothing stands alone")
	if f.Answer != nil {
		c.require(len(f.Saw) > 0 && !nothing, "answer", "to nothing that was seen")
		f.Answer.check(c, 0)
	}
}

func (b *Balance) check(c *checker) {
	if b == nil {
		return
	}
	c.require(b.Drained != nil || b.Filled != nil || b.Level != nil || b.Carried != nil || b.Used != nil || len(b.Trend) > 0,
		"balance", "is empty")
	c.estimate("balance drained", b.Drained)
	c.estimate("balance filled", b.Filled)
	if l := b.Level; l != nil {
		c.within("balance level", int64(l.Reading), int64(quantity.MinRatio), int64(quantity.MaxRatio))
		c.within("balance level uncertainty", int64(l.Within), 0, int64(quantity.MaxRatio))
	}
	c.estimate("balance carried over", b.Carried)
	b.checkUse(c)
	c.count("trend", len(b.Trend), MaxTrend)
	for i, u := range b.Trend {
		var found checker
		found.hours("hours", u.Hours)
		found.balance("in 100 h", u.Per100, u.Within)
		found.require(i == 0 || u.Hours >= b.Trend[i-1].Hours, "hours", "fewer than before")
		c.in("trend", i, found)
	}
}

// checkUse holds the oil used to the hours it is over and to what follows from it.
func (b *Balance) checkUse(c *checker) {
	c.estimate("balance used", b.Used)
	there := b.Used != nil
	c.require((b.Over != 0) == there, "balance used over", "hours stand where there is oil used, and only there")
	c.hours("balance used over", b.Over)
	c.require((b.By != 0) == there, "balance used by", "a method stands where there is oil used, and only there")
	enum(c, "balance used by", b.By, MethodWords, true)
	above := there && b.Used.Volume > 0
	c.require(above || b.OfFuelPPM == 0, "balance used of fuel", "without oil used")
	c.within("balance used of fuel", b.OfFuelPPM, 0, mostShare)
	c.require(above || b.PerEnergyMgKWh == 0, "balance used per kWh", "without oil used")
	c.within("balance used per kWh", b.PerEnergyMgKWh, 0, mostShare)
}

func (c *checker) estimate(field string, e *Estimate) {
	if e != nil {
		c.balance(field, e.Volume, e.Within)
	}
}

// balance holds a volume that was worked out, which may be below 0, and its
// standard uncertainty.
func (c *checker) balance(field string, volume, uncertainty quantity.Volume) {
	c.within(field, int64(volume), -int64(quantity.MaxVolume), int64(quantity.MaxVolume))
	c.within(field+" uncertainty", int64(uncertainty), 0, int64(quantity.MaxVolume))
}
