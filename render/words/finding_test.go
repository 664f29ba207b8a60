package words

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/quantity"
)

func number(n int64) *int64 { return &n }

func day(t *testing.T, text string) *int64 {
	t.Helper()
	d, err := quantity.ParseDate(text)
	if err != nil {
		t.Fatal(err)
	}
	return number(int64(d))
}

// One finding of each rule as the check makes it, and the sentence it becomes.
func TestFindingSentences(t *testing.T) {
	first, second := day(t, "2026-05-04"), day(t, "2026-11-25")
	for _, c := range []struct {
		finding record.Finding
		want    string
	}{
		{record.Finding{Code: record.DateInFuture, Value: second, Limit: first, Unit: record.AsDate},
			"The job is dated 2026-11-25; today is 2026-05-04."},
		{record.Finding{Code: record.BeforeInService, Value: first, Limit: second, Unit: record.AsDate},
			"The job is dated 2026-05-04, before the machine went into service on 2026-11-25."},
		{record.Finding{Code: record.HoursBelowInService, Value: number(500), Limit: number(1250), Unit: record.InHours},
			"The hours come to 5 h in total; the machine went into service at 12.5 h."},
		{record.Finding{Code: record.HoursBelowEarlier, Value: number(81260), Limit: number(93140), Unit: record.InHours, Text: "2026-05-04"},
			"The hours come to 812.6 h in total; the record of 2026-05-04 has 931.4 h."},
		{record.Finding{Code: record.HoursAboveLater, Value: number(93140), Limit: number(81260), Unit: record.InHours, Text: "2026-05-04"},
			"The hours come to 931.4 h in total; the later record of 2026-05-04 has only 812.6 h."},
		{record.Finding{Code: record.HoursOutrunClock, Value: number(10000), Limit: number(7354), Unit: record.InHours, Text: "2026-05-04"},
			"The hours rose by 100 h since 2026-05-04; in that time a meter can rise by 73.54 h at most."},
		{record.Finding{Code: record.AnswerMissing, Subject: "other work 2", Text: "defect"},
			"Other work 2: marked defect, and no reason is given."},
		{record.Finding{Code: record.EvidenceMissing, Subject: "oil-filter", Text: "part oil filter"},
			"Oil filter: there is no record of this: part oil filter."},
		{record.Finding{Code: record.FillBeyondSystem, Subject: "engine-oil", Value: number(35000), Limit: number(20000), Unit: record.InVolume},
			"Engine oil: 35 L filled in; twice what the system holds is 20 L."},
		{record.Finding{Code: record.HoursOutrunUse, Value: number(60000), Limit: number(20000), Unit: record.InHours, Text: "2026-05-04"},
			"The hours rose by 600 h since 2026-05-04; at this machine's usual use about 200 h would be expected. Is the reading right?"},
		{record.Finding{Code: record.ReadsLikeTwin, Subject: "gannet-starboard", Value: number(80930), Limit: number(80930), Unit: record.InHours},
			"The reading, 809.3 h, is close to that of gannet-starboard, 809.3 h. Is it this machine's?"},
		{record.Finding{Code: record.DateBeforeLast, Value: first, Limit: second, Unit: record.AsDate},
			"The job is dated 2026-05-04, before the last record, 2026-11-25. Is it late paperwork?"},
		{record.Finding{Code: record.LevelOverfilled, Subject: "engine-oil", Value: number(1180), Limit: number(1150), Unit: record.InShare},
			"Engine oil: the level read 1.18; above 1.15 it is overfilled. Do not run until drawn down."},
		{record.Finding{Code: record.LevelBelowMark, Subject: "engine-oil", Value: number(-100), Limit: number(0), Unit: record.InShare},
			"Engine oil: the level read -0.1; the lower mark is 0."},
		{record.Finding{Code: record.LevelReadEarly, Subject: "engine-oil", Value: number(4), Limit: number(5), Unit: record.InMinutes},
			"Engine oil: the level was read 4 min after stopping; it needs 5 min at least to drain back."},
		{record.Finding{Code: record.OilCategory, Subject: "engine-oil", Text: "API FA-4; asked: API CI-4 or ACEA E7"},
			"Engine oil: marked API FA-4; asked: API CI-4 or ACEA E7."},
		{record.Finding{Code: record.OilViscosity, Subject: "engine-oil", Text: "5W-30; asked: 15W-40 or 10W-40"},
			"Engine oil: viscosity 5W-30; asked: 15W-40 or 10W-40."},
		{record.Finding{Code: record.LeakCheckMissing, Subject: "oil-filter"},
			"Oil filter: no record of a look for leaks with the engine running."},
		{record.Finding{Code: record.LeakSeen, Text: "at the drain plug"}, "A leak was seen: at the drain plug."},
		{record.Finding{Code: record.LeakSeen}, "A leak was seen."},
		{record.Finding{Code: record.DueNotMentioned, Subject: "impeller", Value: number(3300), Limit: number(109500), Unit: record.InHours},
			"Impeller: due (1095 h), past by 33 h, and there is no record of it on this job."},
		{record.Finding{Code: record.DueNotMentioned, Subject: "impeller", Limit: number(40000), Unit: record.InHours},
			"Impeller: due (400 h), and there is no record of it on this job."},
		{record.Finding{Code: record.DueNotMentioned, Subject: "gear-breather", Limit: first, Unit: record.AsDate},
			"Gear breather: due (2026-05-04), and there is no record of it on this job."},
		{record.Finding{Code: record.DueNotMentioned, Subject: "belt-look", Value: number(37), Unit: record.InDays},
			"Belt look: due, past by 37 days, and there is no record of it on this job."},
		{record.Finding{Code: record.JobNumberUsed, Value: first, Unit: record.AsDate, Text: "J-2217"},
			"Job number J-2217 stands on the record of 2026-05-04 already. Is this another job?"},
		{record.Finding{Code: record.CoolantProtection, Subject: "coolant", Value: number(-180), Limit: number(-250), Unit: record.InDegrees},
			"Coolant: freezing point -18 °C; the machine file asks for protection to -25 °C."},
		{record.Finding{Code: record.CoolantProtection, Subject: "coolant", Value: number(-180), Limit: number(-250), Unit: record.InDegrees, Text: "about 34 % ethylene by volume"},
			"Coolant: freezing point -18 °C, about 34 % ethylene by volume; the machine file asks for protection to -25 °C."},
		{record.Finding{Code: record.BeyondCorrection, Subject: "engine-oil", Text: "drained", Value: number(1800), Limit: number(1500), Unit: record.InDegrees},
			"Engine oil, drained at 180 °C; the correction to 15 °C ends at 150 °C."},
		{record.Finding{Code: record.BeyondCorrection, Subject: "gear-oil", Text: "filled: density 700 kg/m3: an oil's volume is corrected from 800 kg/m3 to 1164 kg/m3"},
			"Gear oil, filled: density 700 kg/m3: an oil's volume is corrected from 800 kg/m3 to 1164 kg/m3."},
		{record.Finding{Code: record.FillOffLevel, Subject: "engine-oil", Value: number(212), Limit: number(844), Within: number(158), Unit: record.InShare, Text: "1.02 L less than expected"},
			"Engine oil: the level read 0.21; by what was drained and filled 0.84 is expected, give or take 0.16: 1.02 L less than expected."},
		{record.Finding{Code: record.FillOffLevel, Subject: "engine-oil", Value: number(-300), Limit: number(898), Within: number(102), Unit: record.InShare},
			"Engine oil: the level read -0.30; by what was drained and filled 0.90 is expected, give or take 0.10."},
		{record.Finding{Code: record.OilGained, Subject: "engine-oil", Value: number(1004), Limit: number(689), Within: number(255), Unit: record.InVolume},
			"Engine oil: 1.00 L more in than was left in and topped up since the last service, give or take 0.26 L; 0.69 L could still be chance. " +
				"Look for fuel (smell, thin oil, drops that go through blotting paper; injectors, lift pump) and for water or coolant (milky oil, a header tank that falls). " +
				"An engine that makes oil can run away on it."},
		{record.Finding{Code: record.OilGained, Subject: "gear-oil", Value: number(310), Limit: number(280), Within: number(104), Unit: record.InVolume},
			"Gear oil: 0.31 L more in than was left in and topped up since the last service, give or take 0.10 L; 0.28 L could still be chance. " +
				"Look for water (milky oil; shaft seals, the oil cooler)."},
		{record.Finding{Code: record.DrainedBeyondSystem, Subject: "engine-oil", Value: number(12400), Limit: number(9280), Within: number(450), Unit: record.InVolume, Text: "with what the filter held"},
			"Engine oil: 12.40 L came out, with what the filter held, give or take 0.45 L; by the level before, or at the fullest, 9.28 L was in."},
		{record.Finding{Code: record.FilterMiscounted, Subject: "engine-oil", Value: number(584), Limit: number(600), Within: number(190), Unit: record.InVolume, Text: "counted though not drained"},
			"Engine oil: 0.58 L does not add up, give or take 0.19 L, and the filter holds 0.60 L. What the filter held: counted though not drained?"},
		{record.Finding{Code: record.UnitSwapped, Subject: "engine-oil", Value: number(10911), Limit: number(9085), Unit: record.InVolume, Text: "drained: 2.4 imp gal does not fit, 2.4 US gal does"},
			"Engine oil, drained: 2.4 imp gal does not fit, 2.4 US gal does (10.911 L and 9.085 L). Is the unit right?"},
		{record.Finding{Code: record.OilUseRisen, Subject: "engine-oil", Value: number(620), Limit: number(198), Within: number(104), Unit: record.InPer100Hours, Text: "4"},
			"Engine oil: uses 0.62 L in 100 h now; 0.20 L in 100 h at the 4 services before, give or take 0.10 L. That is more than the measuring can explain."},
		{record.Finding{Code: record.OldOilLeft, Subject: "engine-oil", Value: number(4120), Limit: number(1500), Within: number(390), Unit: record.InVolume, Text: "71 %"},
			"Engine oil: 4.12 L of old oil was left in, give or take 0.39 L, 71 % of the fill; at most 1.50 L is usual. Did the extractor stop early?"},
		{record.Finding{Code: record.WasteOffDrained, Subject: "engine-oil", Value: number(5000), Limit: number(8602), Within: number(410), Unit: record.InVolume, Text: "at least"},
			"Engine oil: the waste comes to 5.00 L, give or take 0.41 L; at least 8.60 L came out, hot or cold, with what the filter held."},
		{record.Finding{Code: record.CoolantTooStrong, Subject: "coolant", Value: number(620), Limit: number(600), Unit: record.InPercent},
			"Coolant: the strength read 62 %; over 60 % glycol protects less."},
		{record.Finding{Code: record.CoolantTooStrong, Subject: "coolant", Limit: number(600), Unit: record.InPercent, Text: "a freezing point of -60 °C is below what ethylene gives at its strongest"},
			"Coolant: a freezing point of -60 °C is below what ethylene gives at its strongest; over 60 % glycol protects less."},
		{record.Finding{Code: record.CoolantTooStrong, Subject: "coolant", Value: number(625), Limit: number(600), Within: number(15), Unit: record.InPercent, Text: "or another glycol's scale"},
			"Coolant: the strength read 62.5 %; or another glycol's scale; over 60 % glycol protects less (the reading give or take 1.5 %)."},
		{record.Finding{Code: record.GlycolMixed, Subject: "coolant", Text: "propylene filled on ethylene"},
			"Coolant: propylene filled on ethylene; no refractometer can read a mixture of the two."},
		{record.Finding{Code: record.OilUseHeavy, Subject: "engine-oil", Value: number(1844), Limit: number(1600), Within: number(84), Unit: record.InPer100Hours},
			"Engine oil: uses 1.84 L in 100 h, give or take 0.08 L; above one span between the marks, 1.60 L in 100 h, that is heavy."},
		{record.Finding{Code: record.AtUpperDoubtful, Subject: "engine-oil", Value: number(11020), Limit: number(10000), Within: number(120), Unit: record.InVolume, Text: "4"},
			"Engine oil: by 4 changes of this machine 11.02 L brings it to the upper mark, give or take 0.12 L; the machine file has 10.00 L. Is the machine file's figure right?"},
		{record.Finding{Code: record.WasteUnaccounted, Subject: "gear-oil"},
			"Gear oil: drained, and there is no record of where it went."},
		{record.Finding{Code: record.DrawnDown, Subject: "engine-oil", Value: number(1200), Unit: record.InVolume, Text: "after the fill"},
			"Engine oil: 1.2 L drawn off again after the fill."},
		{record.Finding{Code: record.SeenInFluid, Subject: "gear-oil", Text: "water, metal"},
			"Gear oil: seen in it: water, metal."},
		{record.Finding{Code: record.CoolantStrength, Subject: "coolant", Value: number(-270), Limit: number(-250), Unit: record.InDegrees, Text: "about 43 % ethylene by volume"},
			"Coolant: freezing point -27 °C, about 43 % ethylene by volume; the machine file asks for protection to -25 °C."},
		{record.Finding{Code: record.CoolantStrength, Subject: "coolant", Value: number(-270), Unit: record.InDegrees, Text: "about 43 % ethylene by volume"},
			"Coolant: freezing point -27 °C, about 43 % ethylene by volume."},
		{record.Finding{Code: record.CoolantScale, Subject: "coolant", Text: "-20 °C and 40 % fit propylene, and the machine file has ethylene"},
			"Coolant: -20 °C and 40 % fit propylene, and the machine file has ethylene. Does the instrument have the scale for this glycol?"},
		{record.Finding{Code: record.ViscositySuits, Subject: "gear-oil", Text: "80W-90 for SAE 90"},
			"Gear oil: viscosity 80W-90 for SAE 90, which the table of grades allows."},
		{record.Finding{Code: record.NoEarlierRecord},
			"No earlier record of this machine: nothing can be said here of early or late."},
		{record.Finding{Code: record.DoneLate, Subject: "engine-oil", Value: number(3640), Limit: number(89500), Unit: record.InHours},
			"Engine oil: done 36.4 h past due (due at 895 h)."},
		{record.Finding{Code: record.DoneLate, Subject: "engine-oil", Value: number(1), Unit: record.InDays},
			"Engine oil: done 1 day past due."},
		{record.Finding{Code: record.DoneInGrace, Subject: "engine-oil", Value: number(1260), Limit: number(70000), Unit: record.InHours},
			"Engine oil: done 12.6 h past due (due at 700 h), within the grace."},
		{record.Finding{Code: record.DoneEarly, Subject: "oil-filter", Value: number(340), Unit: record.InHours},
			"Oil filter: done 3.4 h before it fell due."},
		{record.Finding{Code: record.LevelHigh, Subject: "engine-oil", Value: number(1050), Limit: number(1000), Unit: record.InShare},
			"Engine oil: the level read 1.05; the upper mark is 1."},
		{record.Finding{Code: record.LevelLow, Subject: "engine-oil", Value: number(250), Limit: number(300), Unit: record.InShare},
			"Engine oil: the level read 0.25 after the change; under 0.3 is low."},
		{record.Finding{Code: record.NotMeasured, Subject: "engine-oil", Text: "level before"},
			"Engine oil: level before not measured."},
		{record.Finding{Code: record.TemperatureAssumed, Subject: "engine-oil", Text: "drained", Value: number(600), Limit: number(200), Unit: record.InDegrees},
			"Engine oil: no temperature written for drained; taken as 60 °C, give or take 20 °C."},
		{record.Finding{Code: record.LevelWaitUnstated, Subject: "engine-oil"},
			"Engine oil: no record of how long the engine had stood when the level was read."},
		{record.Finding{Code: record.HullNumberForm, Text: "ELS42"},
			"The hull number ELS42 has none of the forms that we know."},
		{record.Finding{Code: record.MeterChanged, Value: number(148230), Unit: record.InHours, Text: "glass broken"},
			"The hour meter was changed at 1482.3 h in total: glass broken."},
		{record.Finding{Code: record.RemovedReadingLost, Value: number(148230), Unit: record.InHours},
			"What the old hour meter read last is unknown; the hours in total count on from 1482.3 h."},
		{record.Finding{Code: record.HoursEstimated, Value: number(81000), Unit: record.InHours, Text: "engine log"},
			"The hours, 810 h, are an estimate, from: engine log."},
		{record.Finding{Code: record.OilSuitsByDirected, Subject: "engine-oil", Text: "API CK-4 for API CI-4"},
			"Engine oil: API CK-4 for API CI-4, which the table of categories allows."},
		{record.Finding{Code: record.OilRequirementAbsent, Subject: "gear-oil"},
			"Gear oil: the machine file names no specification, so nothing can be said of the one filled in."},
	} {
		if got := Finding(c.finding); got != c.want {
			t.Errorf("%v:\n got %s\nwant %s", c.finding.Code, got, c.want)
		}
	}
}

// toDecide says whether a code stands where those are that a person decides on.
func toDecide(code record.Code) bool {
	return record.HoursOutrunUse <= code && code < record.NoEarlierRecord || record.OldOilLeft <= code && code < record.OilUseHeavy
}

// Every rule has words, and there are none for rules that do not exist.
func TestFindingsCoverTheRules(t *testing.T) {
	names := map[string]bool{}
	for code, rule := range record.Rules {
		names[rule.Name] = true
		entry, ok := findings()[rule.Name]
		if !ok || entry.Says == "" {
			t.Errorf("%s: no sentence", rule.Name)
		}
		// What is refused or has to be decided needs a way out.
		if (code < record.NoEarlierRecord || toDecide(code)) && entry.Hint == "" {
			t.Errorf("%s: no hint", rule.Name)
		}
	}
	for name := range findings() {
		if !names[name] {
			t.Errorf("%s: words for no rule", name)
		}
	}
}

// carriesWithin are the findings of the balance of volumes, and a reading.
var carriesWithin = func() map[string]bool {
	names := map[string]bool{}
	for _, code := range []record.Code{record.FillOffLevel, record.OilGained, record.DrainedBeyondSystem, record.FilterMiscounted,
		record.OilUseRisen, record.OldOilLeft, record.WasteOffDrained, record.CoolantTooStrong, record.OilUseHeavy, record.AtUpperDoubtful, record.FilledBeyondSystem} {
		names[code.String()] = true
	}
	return names
}()

// Places and manner of the sentences: known names only, a capital and a full
// stop or question mark, and none of the words that judge.
func TestFindingsManner(t *testing.T) {
	sentences := func(yield func(string, Phrase) bool) {
		for name, entry := range findings() {
			if !yield(name, entry.Says) || entry.NotEngine != "" && !yield(name, entry.NotEngine) {
				return
			}
		}
	}
	known := map[string]bool{"task": true, "system": true, "machine": true, "value": true, "limit": true, "within": true, "text": true}
	judging := regexp.MustCompile(`(?i)\b(not done|neglect|skipped|failed?|pass(ed)?|verified|fault of|technician|cheat|false)\b`)
	for name, phrase := range sentences {
		for _, place := range phrase.places() {
			if !known[place] {
				t.Errorf("%s: no place called {%s}", name, place)
			}
		}
		says := string(phrase)
		if !regexp.MustCompile(`^([A-Z]|\{(task|system)\}).*[.?]$`).MatchString(says) {
			t.Errorf("%s: not a sentence: %s", name, says)
		}
		if word := judging.FindString(strings.ReplaceAll(says, "past due", "")); word != "" {
			t.Errorf("%s: says %q", name, word)
		}
		if strings.Count(says, "[") != strings.Count(says, "]") {
			t.Errorf("%s: brackets do not pair", name)
		}
		// A figure that was measured or worked out says how well it is known.
		if within := slices.Contains(phrase.places(), "within"); within != carriesWithin[name] {
			t.Errorf("%s: {within} in its sentence: %t", name, within)
		}
	}
	for _, pattern := range []record.Code{record.HoursOutrunUse, record.ReadsLikeTwin, record.DateBeforeLast, record.JobNumberUsed,
		record.FilterMiscounted, record.UnitSwapped, record.OldOilLeft, record.AtUpperDoubtful, record.CoolantScale} {
		if says := findings()[pattern.String()].Says; !strings.HasSuffix(string(says), "?") {
			t.Errorf("%v: a pattern is a question, never an accusation: %s", pattern, says)
		}
	}
}

func TestHint(t *testing.T) {
	for code, want := range map[record.Code]string{
		record.LevelReadEarly:    "let it stand, read again and correct level; if that cannot be, give the reason under accept: { level-read-early: … }",
		record.DueNotMentioned:   "write the item under tasks with the result it had, or as { result: deferred, why: … }; otherwise give the reason under accept: { due-not-mentioned/TASK: … }",
		record.DoneLate:          "",
		record.Code(999):         "",
		record.HoursBelowEarlier: "read the meter again and correct hours; where another meter was fitted, declare a change of meter: meter_change: { removed_at: unknown, fitted_at: N, why: … }, with the old meter's last reading for unknown where it is known",
	} {
		if got := Hint(code); got != want {
			t.Errorf("%v:\n got %s\nwant %s", code, got, want)
		}
	}
	for code := range record.Rules {
		if toDecide(code) && !strings.Contains(Hint(code), "accept: { "+code.String()) {
			t.Errorf("%v: the hint does not show accept: %s", code, Hint(code))
		}
	}
}

// A record made by a stranger may carry anything that the format allows, and
// findings of later programs.
func TestFindingNeverFails(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pick := func(label string) *int64 {
			if rapid.Bool().Draw(t, label+" given") {
				return number(rapid.OneOf(rapid.Int64(), rapid.SampledFrom([]int64{math.MinInt64, math.MaxInt64, 0})).Draw(t, label))
			}
			return nil
		}
		f := record.Finding{
			Code:    record.Code(rapid.Uint16Range(0, 100).Draw(t, "code")),
			Subject: rapid.String().Draw(t, "subject"),
			Text:    rapid.String().Draw(t, "text"),
			Value:   pick("value"), Limit: pick("limit"),
			Unit: record.Unit(rapid.OneOf(rapid.Uint8Range(0, uint8(record.InPercent)), rapid.Uint8()).Draw(t, "unit")),
		}
		got := Finding(f)
		if got == "" {
			t.Fatal("no sentence")
		}
		// What a finding carries is printed as it is, never read as places.
		if f.Code == record.HoursEstimated && f.Text != "" && !strings.HasSuffix(got, "from: "+f.Text+".") {
			t.Fatalf("text %q is not in %q as it is", f.Text, got)
		}
	})
}

func TestFindingOfUnknownRule(t *testing.T) {
	const want = "A finding that this program has no words for: rule 999."
	if got := Finding(record.Finding{Code: 999, Subject: "x"}); got != want {
		t.Errorf("got %s", got)
	}
}
