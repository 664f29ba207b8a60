package words

import (
	"regexp"
	"testing"

	"hourseal/record"
	"hourseal/record/quantity"
)

// Findings as a yard reads them that writes its figures in its own way.
func TestFindingSentencesInAStyle(t *testing.T) {
	style := quantity.Style{Second: quantity.UnitUSQuart, Dates: quantity.DayFirst, Comma: true}
	for _, c := range []struct {
		finding record.Finding
		want    string
	}{
		{record.Finding{Code: record.DateInFuture, Value: day(t, "2026-11-25"), Limit: day(t, "2026-05-04"), Unit: record.AsDate},
			"The job is dated 25 Nov 2026; today is 4 May 2026."},
		{record.Finding{Code: record.HoursBelowEarlier, Value: number(81260), Limit: number(93140), Unit: record.InHours, Text: "2026-05-04"},
			"The hours come to 812,6 h in total; the record of 4 May 2026 has 931,4 h."},
		{record.Finding{Code: record.FillBeyondSystem, Subject: "engine-oil", Value: number(35500), Limit: number(20000), Unit: record.InVolume},
			"Engine oil: 35,5 L (37,51 US qt) filled in; twice what the system holds is 20 L (21,13 US qt)."},
		{record.Finding{Code: record.LevelBelowMark, Subject: "engine-oil", Value: number(-100), Limit: number(0), Unit: record.InShare},
			"Engine oil: the level read -0,1; the lower mark is 0."},
		// A text that looks like a date, and is none: it stays as it was written.
		{record.Finding{Code: record.LeakSeen, Text: "2026-05-04"}, "A leak was seen: 2026-05-04."},
		{record.Finding{Code: record.HoursOutrunUse, Value: number(60000), Limit: number(20000), Unit: record.InHours, Text: "the 4.5 log"},
			"The hours rose by 600 h since the 4.5 log; at this machine's usual use about 200 h would be expected. Is the reading right?"},
	} {
		if got := FindingIn(style, c.finding); got != c.want {
			t.Errorf("%v:\n got %s\nwant %s", c.finding.Code, got, c.want)
		}
	}
}

var (
	styledSecond = regexp.MustCompile(` \(-?[0-9,]+ imp pt\)`)
	styledComma  = regexp.MustCompile(`([0-9]),([0-9])`)
)

// Whatever is found, in whatever unit: without what the style adds the sentence is that
// of no style.
func TestFindingStyleOnlyWritesOtherwise(t *testing.T) {
	style := quantity.Style{Second: quantity.UnitImperialPint, Comma: true}
	changed := 0
	for code := record.Code(1); code < 1000; code++ {
		for unit := record.Unit(0); unit < 20; unit++ {
			for _, within := range []*int64{nil, number(1234)} {
				f := record.Finding{Code: code, Subject: "engine-oil", Value: number(-9085), Limit: number(123_456), Unit: unit, Within: within, Text: "so"}
				plain, styled := Finding(f), FindingIn(style, f)
				if plain != styled {
					changed++
				}
				if undone := styledComma.ReplaceAllString(styledSecond.ReplaceAllString(styled, ""), "$1.$2"); undone != plain {
					t.Fatalf("%v in %v:\n%s\n%s", code, unit, styled, plain)
				}
			}
		}
	}
	if changed < 100 {
		t.Errorf("only %d sentences are written otherwise", changed)
	}
}
