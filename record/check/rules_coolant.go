package check

import (
	"errors"
	"fmt"

	"hourseal/record"
	"hourseal/record/fluid"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
)

// The readings of a coolant, by name: its freezing point in C or F, and its strength
// in % by volume, as a refractometer or hydrometer shows either.
const (
	freezingPoint = "freezing_point"
	strength      = "strength"
)

// coolantRule holds a measured freezing point or strength to the protection that the
// machine file asks for, and to each other.
func coolantRule(b *bench) {
	for i, t := range b.Job.Tasks {
		freezing, strong := readingOf(t, freezingPoint), readingOf(t, strength)
		at := path("tasks", i, "reading")
		var point *quantity.Temperature
		var share *quantity.Ratio
		if freezing != nil {
			switch v, ok := freezing.Temperature(); {
			case ok && v > 0:
				b.find(record.Refuse, at, record.Finding{Code: record.FreezingAboveWater, Subject: t.ID, Value: num(v), Unit: record.InDegrees})
			case ok:
				point = &v
			default:
				b.find(record.Refuse, at, record.Finding{Code: record.EvidenceMissing, Subject: t.ID, Text: "unit of freezing_point, C or F"})
			}
		}
		if strong != nil {
			if v, ok := strong.Share(); ok {
				share = &v
			} else {
				b.find(record.Refuse, at, record.Finding{Code: record.EvidenceMissing, Subject: t.ID, Text: "unit of strength, %"})
			}
		}
		for _, s := range b.Machine.Systems {
			if s.IsCoolant() && (point != nil || share != nil) {
				b.coolant(at, s, point, share)
			}
		}
	}
}

// readingOf is the reading of a name: as it was left, or found where nothing was
// done about it; nil without one.
func readingOf(t record.Task, name string) *quantity.Figure {
	for _, r := range t.Readings {
		if r.Name != name {
			continue
		}
		for _, figure := range []*quantity.Figure{r.Value, r.AsLeft, r.AsFound} {
			if figure != nil {
				return figure
			}
		}
	}
	return nil
}

// coolant is what a freezing point, a strength or both say of a system.
func (b *bench) coolant(at string, s jobsheet.System, point *quantity.Temperature, share *quantity.Ratio) {
	glycol, known := fluid.GlycolNamed(s.Glycol)
	if known && point != nil && share != nil && fluid.WrongScale(glycol, *point, *share) {
		b.find(record.Note, at, record.Finding{Code: record.CoolantScale, Subject: s.Name, Text: clip(fmt.Sprintf(
			"%v and %v fit %v, and the machine file has %v", *point, share.Percent(), glycol.Other(), glycol))})
	}
	if known && share != nil && *share > fluid.StrongestShare {
		b.find(record.Decide, at, record.Finding{Code: record.CoolantTooStrong, Subject: s.Name, Value: num(*share), Limit: num(fluid.StrongestShare), Unit: record.InPercent})
		return
	}
	text := ""
	if known && point == nil {
		mass, err := fluid.MassShare(glycol, *share)
		if err != nil {
			return
		}
		freezes, err := fluid.FreezingPoint(glycol, mass)
		if err != nil {
			return
		}
		point = &freezes
		text = "at " + share.Percent() + " " + glycol.String() + " by volume"
	}
	if point == nil {
		return
	}
	if known && share == nil {
		about, err := fluid.StrengthOf(glycol, *point)
		switch {
		case errors.Is(err, fluid.ErrTooStrong):
			b.find(record.Decide, at, record.Finding{Code: record.CoolantTooStrong, Subject: s.Name, Limit: num(fluid.StrongestShare), Unit: record.InPercent,
				Text: clip(fmt.Sprintf("a freezing point of %v is below what %v gives at its strongest", *point, glycol))})
			return
		case err == nil:
			text = "about " + about.Percent() + " " + glycol.String() + " by volume"
		}
	}
	f := record.Finding{Subject: s.Name, Value: num(*point), Unit: record.InDegrees, Text: text}
	if s.ProtectTo != nil {
		f.Limit = num(*s.ProtectTo)
	}
	switch {
	case s.ProtectTo != nil && *point > *s.ProtectTo:
		f.Code = record.CoolantProtection
		f.Text += mend(s, glycol, *point)
		b.find(record.Decide, at, f)
	case text != "":
		f.Code = record.CoolantStrength
		b.find(record.Note, at, f)
	}
}

// mend says what brings a weak coolant to its protection; "" where that cannot be told.
func mend(s jobsheet.System, glycol fluid.Glycol, reads quantity.Temperature) string {
	refill, err := fluid.Strengthen(glycol, s.Holds, reads, *s.ProtectTo)
	if err != nil {
		return ""
	}
	return fmt.Sprintf("; %v drained and neat glycol filled in makes %s", refill.Drain, refill.Strength.Whole().Percent())
}

// glycolRule asks about one glycol filled on top of another.
func glycolRule(b *bench) {
	for i, f := range b.Job.Fluids {
		s, ok := b.Machine.System(f.System)
		if !ok || f.Glycol == 0 || s.Glycol == "" || f.Glycol.String() == s.Glycol {
			continue
		}
		b.find(record.Decide, path("fluids", i, "glycol"), record.Finding{Code: record.GlycolMixed, Subject: f.System, Text: f.Glycol.String() + " filled on " + s.Glycol})
	}
}
