package check_test

import (
	"fmt"
	"slices"
	"testing"

	"hourseal/record"
)

// withGlycol gives the test's machine its glycol back.
var withGlycol = edits{{"    protect_to: -25 C\n", "    glycol: ethylene\n    protect_to: -25 C\n"}}

// coolantVisit is a visit on which coolant was topped up.
const coolantVisit = `machine: gannet-port
date: 2026-06-13
hours: 900
reason: revisit
fluids:
  - { system: coolant, filled: 1 L, glycol: propylene }
`

// topUp is a visit on which oil was topped up, 87.4 h after the first sheet.
const topUp = `machine: gannet-port
date: 2026-06-13
hours: 900
reason: revisit
fluids:
  - system: engine-oil
    level_before: { reading: 0.4, after: 20 min, at: 15 C }
    filled: 0.8 L at 15 C
    viscosity: 15W-40
    meets: [API CI-4]
    level: { reading: 0.9, after: 15 min, at: 15 C }
`

// fluidCases are those of the balance, of coolant and of what was seen. The sums are
// package fluid's, which has its own tests; here it is what is said of them, and
// where. The first sheet left 0.85 at 45 degC, 9.55 L at 15.
var fluidCases = []ruleCase{
	{rule: record.BeyondCorrection, name: "hotter than the table", edit: edits{{"9.1 L at 68 C", "9.1 L at 151 C"}},
		want: []finding{{`refuse beyond-correction/engine-oil "drained: temperature 151 °C: an oil's volume is corrected from -20 °C to 150 °C: write the temperature at which it was measured"`, "9.1 L at 151"}}},
	{rule: record.BeyondCorrection, name: "coolant at 600 degC", sheet: coolantVisit, edit: edits{{"filled: 1 L", "filled: 1 L at 600 C"}},
		want: []finding{{`refuse beyond-correction/coolant "filled: temperature 600 °C: coolant is measured from -60 °C to 150 °C: write the temperature at which it was measured"`, "1 L at 600"}}},
	{rule: record.BeyondCorrection, name: "coolant is not corrected", sheet: coolantVisit, edit: edits{{"filled: 1 L", "filled: 1 L at 100 C"}}},

	// 8.86 L before, less 8.75 and half of the filter's 0.6, and 11.3 filled: 11.1, where 9.55 are read.
	{rule: record.FillOffLevel, name: "2 L more written than filled", edit: edits{{"filled: 9.3 L at 16 C", "filled: 11.3 L at 16 C"}, {"9.1 L at 68 C", "8.1 L at 68 C"}},
		want: []finding{{`decide fill-off-level/engine-oil 0.85 2.455 "2.51 L less than expected"`, "{ reading: 0.85"}}},
	{rule: record.FillOffLevel, name: "what the example has", edit: edits{{"9.1 L at 68 C", "8.5 L at 68 C"}}},

	{rule: record.DrainedBeyondSystem, name: "ten times too much", edit: edits{{"9.1 L at 68 C", "88 L at 68 C"}, {"amount: 9 L", "amount: 88 L"}},
		want: []finding{{`refuse drained-beyond-system/engine-oil 84.938 L 8.861 L "with what the filter held"`, "88 L at 68"}}},
	{rule: record.DrainedBeyondSystem, name: "more than was in, and not twice what it holds", edit: edits{{"9.1 L at 68 C", "11.5 L at 68 C"}, {"amount: 9 L", "amount: 11.5 L"}},
		want: []finding{{`decide drained-beyond-system/engine-oil 11.361 L 8.861 L "with what the filter held"`, "11.5 L at 68"}}},
	{rule: record.DrainedBeyondSystem, name: "a tenth of it is old oil left", edit: edits{{"9.1 L at 68 C", "0.88 L at 68 C"}, {"amount: 9 L", "amount: 0.88 L"}},
		want: []finding{{`decide fill-off-level/engine-oil 0.85 5.614 "7.46 L less than expected"`, "{ reading: 0.85"}}},
	{rule: record.OldOilLeft, name: "drained and filled half", edit: edits{{"9.1 L at 68 C", "4.5 L at 68 C"}, {"filled: 9.3 L at 16 C", "filled: 5 L at 16 C"}, {"amount: 9 L", "amount: 4.5 L"}},
		want: []finding{{`decide old-oil-left/engine-oil 4.553 L 1.5 L "91 %"`, "4.5 L at 68"}}},
	{rule: record.OldOilLeft, name: "as usual", edit: edits{{"9.1 L at 68 C", "8.2 L at 68 C"}}},

	{rule: record.FilterMiscounted, name: "its oil went elsewhere", machine: edits{{"filter_holds: 0.6 L", "filter_holds: 1.5 L"}},
		edit: edits{{"drained: 9.1 L at 68 C", "drained: 6.1 kg\n    drained_includes_filter: true"}, {"amount: 9 L", "amount: 6.1 kg"}},
		want: []finding{{`decide filter-miscounted/engine-oil 1.673 L 1.5 L "counted though not drained"`, "true"}}},
	{rule: record.FilterMiscounted, name: "not counted, and said so", machine: edits{{"filter_holds: 0.6 L", "filter_holds: 1.5 L"}},
		edit: edits{{"drained: 9.1 L at 68 C", "drained: 6.1 kg\n    drained_includes_filter: false"}, {"amount: 9 L", "amount: 6.1 kg"}}},

	{rule: record.UnitSwapped, name: "imperial gallons off an American scale", edit: edits{{"9.1 L at 68 C", "2.3 imp gal at 68 C"}, {"amount: 9 L", "amount: 2.3 imp gal"}},
		want: []finding{{`decide unit-swapped/engine-oil 10.456 L 8.706 L "drained: 2.3 imp gal at 68 C does not fit, 2.3 US gal at 68 C does"`, "2.3 imp"}}},
	{rule: record.UnitSwapped, name: "the right ones", edit: edits{{"9.1 L at 68 C", "2.3 US gal at 68 C"}}},

	// 0.5 of the span is 0.8 L, cold; 9.55 L were in.
	{rule: record.OilGained, name: "1 L over what was left in", sheet: topUp, edit: edits{{"reading: 0.4,", "reading: 1.4,"}, {"    filled: 0.8 L at 15 C\n    viscosity: 15W-40\n    meets: [API CI-4]\n    level: { reading: 0.9, after: 15 min, at: 15 C }\n", ""}},
		want: []finding{{"decide oil-gained/engine-oil 1.09 L 0.491 L", "{ reading: 1.4"}}},
	{rule: record.OilGained, name: "as left", sheet: topUp},
	{rule: record.OilUseHeavy, name: "2.1 L in 87.4 h", sheet: topUp, edit: edits{{"reading: 0.4,", "reading: -1.4,"}, {"0.8 L at 15 C", "3.7 L at 15 C"}},
		want: []finding{{"note oil-use-heavy/engine-oil 3.879L/100h 1.600L/100h", "{ reading: -1.4"}}},
	{rule: record.OilUseHeavy, name: "a sumpful", sheet: topUp, edit: edits{{"fluids:", "topped_up:\n  - { system: engine-oil, amount: 88 L at 15 C }\nfluids:"}},
		want: []finding{{"decide oil-use-heavy/engine-oil 101.270L/100h 1.600L/100h", "{ reading: 0.4"}}},
	{rule: record.OilUseHeavy, name: "0.6 L", sheet: topUp},

	{rule: record.WasteOffDrained, name: "94 L of 9", edit: edits{{"amount: 9 L", "amount: 94 L"}},
		want: []finding{{`decide waste-off-drained/engine-oil 94 L 9.7 L "at most"`, "{ system: engine-oil, amount: 94 L"}}},
	{rule: record.WasteOffDrained, name: "half of it", edit: edits{{"amount: 9 L", "amount: 4.5 L"}},
		want: []finding{{`decide waste-off-drained/engine-oil 4.5 L 8.752 L "at least"`, "{ system: engine-oil, amount: 4.5 L"}}},
	{rule: record.WasteOffDrained, name: "of a system that nothing came out of", edit: edits{{"  - { system: engine-oil, amount: 9 L, to: harbour oil bank }\n", "  - { system: engine-oil, amount: 9 L, to: harbour oil bank }\n  - { system: coolant, amount: 60 L, held: tank 2 }\n"}},
		want: []finding{{`decide waste-off-drained/coolant 60 L 0 L "at most"`, "{ system: coolant"}}},
	{rule: record.WasteOffDrained, name: "in the yard's tank", edit: edits{{"to: harbour oil bank", "held: tank 2"}}},
	{rule: record.WasteUnaccounted, name: "no word of it", edit: edits{{"waste:\n  - { system: engine-oil, amount: 9 L, to: harbour oil bank }\n", ""}},
		want: []finding{{"note waste-not-accounted/engine-oil", "9.1 L at 68"}}},
	{rule: record.WasteUnaccounted, name: "nothing drained", sheet: topUp},

	{rule: record.DrawnDown, name: "after an overfill", edit: edits{{"filled: 9.3 L at 16 C", "filled: 10.3 L at 16 C\n    drawn_down: 1 L at 40 C"}},
		want: []finding{{`note drawn-down/engine-oil 1 L "after the fill"`, "1 L at 40"}}},
	{rule: record.DrawnDown, name: "not"},

	{rule: record.LevelBeyondStick, name: "85 for 0.85", edit: edits{{"{ reading: 0.85,", "{ reading: 85,"}},
		want: []finding{{"refuse level-beyond-dipstick/engine-oil 85", "{ reading: 85"}}},
	{rule: record.LevelBeyondStick, name: "before, too", edit: edits{{"{ reading: 0.3,", "{ reading: 30,"}},
		want: []finding{{"refuse level-beyond-dipstick/engine-oil 30", "{ reading: 30"}}},
	{rule: record.LevelBeyondStick, name: "as far as a dipstick may reach", sheet: topUp, edit: edits{{"reading: 0.4,", "reading: -5,"}, {"0.8 L at 15 C", "9.4 L at 15 C"}},
		want: []finding{{"decide oil-use-heavy/engine-oil 10.469L/100h 1.600L/100h", "{ reading: -5"}}},

	{rule: record.FilledBeyondSystem, name: "coolant", sheet: coolantVisit, edit: edits{{"filled: 1 L", "filled: 14 L"}},
		want: []finding{{"decide filled-beyond-system/coolant 14 L 11.5 L", "14 L"}}},
	{rule: record.FilledBeyondSystem, name: "oil of which no level was read", edit: edits{{"level: { reading: 0.85, after: 15 min, at: 45 C }", "level: not measured"}, {"filled: 9.3 L at 16 C", "filled: 12 L at 16 C"}},
		want: []finding{{"decide filled-beyond-system/engine-oil 11.991 L 10.24 L", "12 L at 16"}, {`note not-measured/engine-oil "level"`, "not measured"}}},
	{rule: record.FilledBeyondSystem, name: "as much as it holds", sheet: coolantVisit, edit: edits{{"filled: 1 L", "filled: 11.8 L"}}},

	{rule: record.FreezingAboveWater, name: "the sign forgotten", edit: edits{{"-27 C", "27 C"}},
		want: []finding{{"refuse freezing-point-above-water/coolant-strength 27 °C", "{ freezing_point"}}},
	{rule: record.FreezingAboveWater, name: "plain water", edit: edits{{"-27 C", "0 C"}},
		want: []finding{{"decide coolant-protection/coolant 0 °C -25 °C", "{ freezing_point"}}},

	{rule: record.SeenInFluid, name: "water, answered", edit: edits{{"9.1 L at 68 C", "9.1 L at 68 C\n    seen: { what: [water], why: cooler suspected, advice: before-use }"}},
		want: []finding{{`note seen-in-fluid/engine-oil "water"`, "{ what"}}},
	{rule: record.SeenInFluid, name: "water and metal, no answer", edit: edits{{"9.1 L at 68 C", "9.1 L at 68 C\n    seen: [water, metal]"}},
		want: []finding{{`refuse answer-missing/engine-oil "water, metal"`, "[water"}}},
	{rule: record.SeenInFluid, name: "looked, and nothing", edit: edits{{"9.1 L at 68 C", "9.1 L at 68 C\n    seen: nothing"}}},

	{rule: record.GlycolMixed, name: "propylene on ethylene", machine: withGlycol, sheet: coolantVisit,
		want: []finding{{`decide glycol-mixed/coolant "propylene filled on ethylene"`, "propylene"}}},
	{rule: record.GlycolMixed, name: "the same", machine: withGlycol, sheet: coolantVisit, edit: edits{{"propylene", "ethylene"}}},
	{rule: record.GlycolMixed, name: "the machine's is not known", sheet: coolantVisit},

	// Ethylene at -27 degC is 40 % by volume, at -45 it is 53 (Melinder 2010).
	{rule: record.CoolantStrength, name: "worked out", machine: withGlycol,
		want: []finding{{`note coolant-strength/coolant -27 °C -25 °C "about 40 % ethylene by volume"`, "{ freezing_point"}}},
	{rule: record.CoolantStrength, name: "too weak is more than a note", machine: withGlycol, edit: edits{{"-27 C", "-18 C"}},
		want: []finding{{`decide coolant-protection/coolant -18 °C -25 °C "about 32 % ethylene by volume; 1.3 L drained and neat glycol filled in makes 39 %"`, "{ freezing_point"}}},
	{rule: record.CoolantTooStrong, name: "61 %", machine: withGlycol, edit: edits{{"{ freezing_point: -27 C }", "{ freezing_point: -50 C, strength: 61 % }"}},
		want: []finding{{"decide coolant-too-strong/coolant 61 % 60 %", "{ freezing_point"}}},
	{rule: record.CoolantTooStrong, name: "below the curve", machine: withGlycol, edit: edits{{"-27 C", "-60 C"}},
		want: []finding{{`decide coolant-too-strong/coolant 60 % "a freezing point of -60 °C is below what ethylene gives at its strongest"`, "{ freezing_point"}}},
	{rule: record.CoolantTooStrong, name: "40 %", machine: withGlycol, edit: edits{{"{ freezing_point: -27 C }", "{ freezing_point: -27 C, strength: 40 % }"}}},
	{rule: record.CoolantProtection, name: "by strength alone", machine: withGlycol, edit: edits{{"{ freezing_point: -27 C }", "{ freezing_point: { as_found: -27 C }, strength: 35 % }"}}},
	{rule: record.CoolantScale, name: "propylene's scale", machine: withGlycol, edit: edits{{"{ freezing_point: -27 C }", "{ freezing_point: -27 C, strength: 46 % }"}},
		want: []finding{{`note coolant-scale-doubtful/coolant "-27 °C and 46 % fit propylene, and the machine file has ethylene"`, "{ freezing_point"}}},
	{rule: record.CoolantScale, name: "they fit", machine: withGlycol, edit: edits{{"{ freezing_point: -27 C }", "{ freezing_point: -27 C, strength: 41 % }"}}},
}

// topUps issues visits 100 h and 30 days apart, at 15 degC, each of which finds a
// level and fills what brings it to 0.9.
func topUps(t *testing.T, s *scene, levels ...float64) string {
	t.Helper()
	sheet := ""
	for i, level := range levels {
		if sheet != "" {
			s.issue(t, sheet)
		}
		sheet = edits{
			{"2026-06-13", fmt.Sprintf("2026-%02d-13", 6+i)}, {"hours: 900", fmt.Sprint("hours: ", 900+100*i)},
			{"reading: 0.4,", fmt.Sprintf("reading: %.2f,", level)}, {"0.8 L at", fmt.Sprintf("%.2f L at", (0.9-level)*1.6)},
		}.in(t, topUp)
	}
	return sheet
}

func TestOilUseRisen(t *testing.T) {
	s := newScene(t, edits{useUnknown}, nil)
	s.issue(t, firstSheet)
	result := s.run(t, topUps(t, s, 0.7, 0.7, 0.7, 0.05))
	wantSaid(t, result, "note due-not-mentioned/engine-oil 187.4h 1012.6h", "note due-not-mentioned/oil-filter 187.4h 1012.6h", "note due-not-mentioned/belt-look 187.4h 1012.6h",
		"note due-not-mentioned/belt 1000h", `decide oil-use-risen/engine-oil 1.360L/100h 0.240L/100h "3"`)
	balance := result.Draft.Fluids[0].Balance
	if balance.Used.Volume != 1360 || balance.Over != 10_000 || balance.By != record.ByLevels || len(balance.Trend) != 4 || *balance.Per100() != *balance.Used {
		t.Errorf("%+v", balance)
	}
	for _, f := range result.Findings {
		if f.Code == record.OilUseRisen && (f.Within == nil || *f.Within < 100 || *f.Within > 300) {
			t.Errorf("give or take %v", f.Within)
		}
	}
}

// changeOnly is an oil change of which nothing is known but the fill and the level.
const changeOnly = `machine: gannet-port
date: 2026-06-13
hours: 900
reason: defect
fluids:
  - system: engine-oil
    drained: not measured
    filled: 9.4 L at 15 C
    viscosity: 15W-40
    meets: [API CI-4]
    level: { reading: 0.9, after: 15 min, at: 15 C }
waste:
  - { system: engine-oil, amount: not measured, held: tank 2 }
`

// TestAtUpperLearnt: 9.4 L to a level of 0.9 are 9.56 L to the mark. A machine file
// that has 8 L is doubted at the first change, and asked about at the third; from then
// on its figure no longer makes a contradiction of a fill as usual.
func TestAtUpperLearnt(t *testing.T) {
	s := newScene(t, edits{useUnknown, {"at_upper: 10.0 L", "at_upper: 8.0 L"}}, edits{})
	short := `decide fill-off-level/engine-oil 0.9 1.875 "1.56 L less than expected"`
	asked := func(changes int) string {
		return fmt.Sprintf(`note at-upper-doubtful/engine-oil 9.56 L 8 L "%d"`, changes)
	}
	for i, c := range []struct {
		filled string
		want   []string
	}{
		{"9.4 L", []string{short}},
		{"9.4 L", []string{short}},
		{"9.4 L", []string{short, asked(3)}},
		{"9.4 L", []string{asked(4)}},
		{"10.4 L", []string{`decide fill-off-level/engine-oil 0.9 1.525 "1.00 L less than expected"`, asked(4)}},
	} {
		sheet := edits{{"2026-06-13", fmt.Sprintf("2026-%02d-13", 1+i)}, {"hours: 900", fmt.Sprint("hours: ", 600+i)}, {"9.4 L at", c.filled + " at"}}.in(t, changeOnly)
		var got []string
		for _, f := range s.run(t, sheet).Findings {
			if f.Code == record.FillOffLevel || f.Code == record.AtUpperDoubtful || f.Severity == record.Decide {
				got = append(got, saidOne(f.Finding))
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("change %d: %q, want %q", i+1, got, c.want)
		}
		s.issue(t, sheet)
	}
}
