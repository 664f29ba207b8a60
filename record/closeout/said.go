package closeout

import (
	"fmt"
	"math"
	"strings"
	"unicode/utf8"

	"hourseal/record"
	"hourseal/record/fluid"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
)

// balanceSaid says in a sentence what the level that was read means beside what was
// filled in: how much old oil stayed, or what came in besides. It says nothing where
// nothing follows.
func (s *session) balanceSaid(system jobsheet.System, f record.Fluid) string {
	if f.Filled == nil || f.Filled.NotMeasured || f.Level == nil || f.Level.Reading == nil || f.DrawnDown != nil || system.IsCoolant() {
		return ""
	}
	at := fluid.AssumedLevel.At
	if f.Level.At != nil {
		at = *f.Level.At
	}
	alone, err := fluid.LevelFor(fluid.System{AtUpper: system.AtUpper, BetweenMarks: system.BetweenMarks, FilterHolds: system.FilterHolds, Density: system.Density},
		s.Doubt, *f.Filled, 0, at)
	if err != nil {
		return ""
	}
	style, read := s.Words.Style, *f.Level.Reading
	said := fmt.Sprintf("%s alone would put the level near %s; you read %s", capital(jobsheet.AmountLine(*f.Filled)),
		style.Marked(quantity.Figure{Digits: int64(alone.Reading.Whole() / 10), Places: 2}.String()), style.Marked(read.String()))
	share := quantity.Volume(math.Round(float64(system.BetweenMarks) * float64(read-alone.Reading) / float64(quantity.One)))
	within := quantity.Volume(math.Round(float64(system.BetweenMarks) * float64(alone.Within) / float64(quantity.One)))
	switch {
	case share > within:
		return said + fmt.Sprintf(": about %s of old oil stayed in, give or take %s.", style.Tenths(share), style.Tenths(within))
	case share < -within:
		return said + fmt.Sprintf(": about %s is missing, give or take %s.", style.Tenths(-share), style.Tenths(within))
	}
	return said + fmt.Sprintf(", no further off than the measuring allows (%s).", style.Tenths(within))
}

func capital(text string) string {
	if text == "" {
		return ""
	}
	first, size := utf8.DecodeRuneInString(text)
	return strings.ToUpper(string(first)) + text[size:]
}
