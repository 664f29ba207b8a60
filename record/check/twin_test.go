package check_test

import (
	"slices"
	"strconv"
	"testing"

	"hourseal/record"
	"hourseal/record/check"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// TestTwins holds what is asked of port when it stood at 812.6 h on 2026-05-04,
// against a like engine to starboard. Hours rise by about 46 to the visit on
// 2026-06-13, 40 days later at 420 h a year.
func TestTwins(t *testing.T) {
	for _, c := range []struct {
		name      string
		here      string // port's reading
		last, now string // starboard's, "" where not at hand
		want      string // its figure that port's reads like; "" for nothing
	}{
		// Both engines ran alike: nothing to ask.
		{"honest", "858.6", "809.3", "855.3", ""},
		{"honest, drifting apart", "858.6", "809.3", "853.1", ""},
		{"honest, drawing level", "858.6", "807.4", "857.5", ""},
		{"honest, always alike", "858.6", "812.6", "858.6", ""},
		{"honest, a tenth apart, the other way round", "858.6", "812.4", "858.8", ""},
		{"honest, one a new engine", "858.6", "100", "146", ""},
		{"honest, starboard not at hand on this visit", "858.6", "809.3", "", ""},
		{"honest, starboard seen lately", "858.6", "850", "", ""},
		{"honest, no record of starboard", "858.6", "", "855.3", ""},
		{"honest, nothing of starboard", "858.6", "", "", ""},
		{"honest, port hardly ran", "815", "700", "746", ""},

		{"starboard's reading on port's sheet", "855.3", "809.3", "855.3", "855.3"},
		{"the same, 0.05 h apart", "855.35", "809.3", "855.3", "855.3"},
		{"equal figures, no records of starboard", "858.6", "", "858.6", "858.6"},
		{"both sheets swapped", "855.3", "809.3", "858.6", "858.6"},
		{"both sheets swapped, engines far apart", "946", "900", "858.6", "858.6"},
		{"starboard's of the day before, engines 40 h apart", "897", "852.6", "898", "898"},
		{"starboard's reading, its sheet not at hand", "946", "900", "", "900"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newScene(t, nil, nil)
			s.issue(t, firstSheet)
			s.twins = []check.Twin{{ID: "gannet-starboard", Last: at(c.last, "2026-05-04"), Now: at(c.now, "2026-06-13")}}
			result := s.run(t, edits{{"hours: 900", "hours: " + c.here}}.in(t, lookSheet))
			var got string
			for _, f := range result.Findings {
				if f.Code == record.ReadsLikeTwin {
					if f.Severity != record.Decide || f.Subject != "gannet-starboard" || quantity.Hours(*f.Value).String() != c.here {
						t.Errorf("finding %s", saidOne(f.Finding))
					}
					got += quantity.Hours(*f.Limit).String()
				}
			}
			if got != c.want {
				t.Errorf("reads like %q, want %q", got, c.want)
			}
		})
	}
}

func at(hours, date string) *schedule.Point {
	if hours == "" {
		return nil
	}
	h, err := quantity.ParseHours(hours)
	if err != nil {
		panic(err)
	}
	return &schedule.Point{Date: day(date), Hours: h}
}

// TestTwinsBothSheets: with both sheets swapped each of the two is asked about.
func TestTwinsBothSheets(t *testing.T) {
	for _, swapped := range []bool{false, true} {
		port, starboard := "858.6", "855.3"
		if swapped {
			port, starboard = starboard, port
		}
		asked := 0
		for _, c := range []struct{ own, first, other, otherFirst string }{{port, "812.6", starboard, "809.3"}, {starboard, "809.3", port, "812.6"}} {
			s := newScene(t, nil, nil)
			s.issue(t, edits{{"hours: 812.6", "hours: " + c.first}}.in(t, firstSheet))
			s.twins = []check.Twin{{ID: "gannet-other", Last: at(c.otherFirst, "2026-05-04"), Now: at(c.other, "2026-06-13")}}
			result := s.run(t, edits{{"hours: 900", "hours: " + c.own}}.in(t, lookSheet))
			asked += len(result.Findings)
		}
		if want := map[bool]int{false: 0, true: 2}[swapped]; asked != want {
			t.Errorf("swapped %v: asked %d times, want %d", swapped, asked, want)
		}
	}
}

// TestTwinsUseUnknown: where nothing is known of the use, a long rise is no sign
// of the other engine's reading.
func TestTwinsUseUnknown(t *testing.T) {
	s := newScene(t, edits{useUnknown}, nil)
	s.issue(t, firstSheet)
	s.twins = []check.Twin{{ID: "gannet-starboard", Last: at("940", "2026-06-10")}}
	wantSaid(t, s.run(t, edits{{"hours: 900", "hours: 946"}}.in(t, lookSheet)))
}

// TestTwinsOfNoMeter: an estimate is nobody's reading, and a gearbox has its
// engine's.
func TestTwinsOfNoMeter(t *testing.T) {
	s := newScene(t, nil, nil)
	s.issue(t, firstSheet)
	s.twins = []check.Twin{{ID: "gannet-starboard", Now: at("858.6", "2026-06-13")}}
	result := s.run(t, edits{{"hours: 900", "hours: { meter: stopped, estimate: 858.6, basis: engine log }"}}.in(t, lookSheet))
	wantSaid(t, result, `note hours-estimated 858.6h "engine log"`)
}

// TestHullNumbers: the examples of 33 CFR 181.25 and EN ISO 10087; a number of
// another form is noted, never refused.
func TestHullNumbers(t *testing.T) {
	for hull, known := range map[string]bool{
		"ABC12345A788":       true, // January 1987, model year 1988
		"ABC12345C585":       true, // March 1985
		"ABC123451275":       true, // December 1975
		"ABC12345M75A":       true, // model-year form
		"US-ABC12345A788":    true, // a display prefix
		"GB-ELS00042A323":    true,
		"GB ELS 00042 A323":  true,
		"gb-els00042a323":    true,
		"GB-ELS-00042-A3-23": true,
		"ABC12345M788":       false, // months are A to L
		"ABC12I45A788":       false, // no I, O or Q in the serial part
		"ABC12O45A788":       false,
		"ABC12Q45A788":       false,
		"ABC123451375":       false, // month 13
		"ABC123450075":       false, // month 0
		"ABC12345A78":        false,
		"ABC12345A7880":      false,
		"GBR-ELS00042A323":   false,
		"9074729":            false, // an IMO number
	} {
		s := newScene(t, edits{{"GB-ELS00042A323", strconv.Quote(hull)}}, nil)
		s.issue(t, firstSheet)
		result := s.run(t, nextSheet)
		noted := slices.ContainsFunc(result.Findings, func(f check.Finding) bool { return f.Code == record.HullNumberForm })
		if noted == known || result.Outcome != check.Issuable || len(result.Findings) > 1 {
			t.Errorf("%s: %v, want noted %v", hull, said(result), !known)
		}
	}
}
